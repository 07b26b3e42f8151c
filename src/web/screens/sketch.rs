//! The scene sketch: taps for what, from where, which way and how far; drawn to scale as it grows. No drag.

use leptos::prelude::*;

use crate::guide::sketch::{self, NewMark, POINTS};
use crate::guide::{Draft, ExamKind, Measured};
use crate::reading::sketch::{HowFar, Mark, Sketch, sketches};
use crate::reading::sketch_drawing::drawing;
use crate::record::{Answer, FindingDef, PersonCode, Shown, Site, Unit};
use crate::web::form::Form;
use crate::web::inputs::{display, pad};
use crate::web::parts::{Look, act, main_tile, plain_head, tile};
use crate::web::screen::Screen;
use crate::web::wording;
use crate::words::Arg;

/// What the screen asks.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Stage {
    Whole,
    What,
    From,
    Way,
    Degrees,
    Far,
    Pace,
    /// Asked on the way to a distance.
    PaceFirst,
    North,
    Head,
    HeadDegrees,
}

/// What was tapped of the mark in the making.
#[derive(Clone, Copy)]
struct Making {
    form: Form,
    stage: RwSignal<Stage>,
    what: RwSignal<&'static str>,
    from: RwSignal<u16>,
    bearing_deg: RwSignal<u16>,
    in_metres: RwSignal<bool>,
}

impl Making {
    fn to(self, stage: Stage) {
        self.form.typed.try_set(String::new());
        self.form.hush();
        self.stage.set(stage);
        self.form.bounce_from_now();
    }

    /// The pace in use: the last one that this person gave.
    fn pace_cm(self) -> Option<i64> {
        self.form.now.with(|now| {
            let person = &now.here.person;
            let of_person = |all: &[(PersonCode, i64)]| all.iter().find(|(who, _)| who == person).map(|(_, cm)| *cm);
            let set = self.form.settings.with(|s| of_person(&s.paces_cm));
            set.or_else(|| sketch::pace_cm(now.view().exam, person))
        })
    }

    fn last(self) -> u16 {
        self.form.now.with(|now| sketch::last_number(now.view().exam, &now.here.person))
    }

    fn bearing(self, degrees: u16, of_head: bool) {
        if of_head {
            self.write(&[one("sketch_head_deg", Answer::number(degrees.into()))], self.form.say("sketch.set_head"));
        } else {
            self.bearing_deg.set(degrees);
            // Nobody counts paces of unknown length.
            let known = self.in_metres.get_untracked() || self.pace_cm().is_some();
            self.to(if known { Stage::Far } else { Stage::PaceFirst });
        }
    }

    fn save(self, far: HowFar) {
        let number = self.last() + 1;
        let what = self.what.get_untracked();
        let mark =
            NewMark { what, from: self.from.get_untracked(), bearing_deg: self.bearing_deg.get_untracked(), far };
        let name = wording::option(self.form.language(), "sketch_what", what);
        let told =
            self.form.say_with("saved.sketch", &[("n", Arg::Text(number.to_string())), ("what", Arg::Text(name))]);
        self.write(&sketch::mark(number, mark), told);
    }

    fn write(self, drafts: &[Draft], told: String) {
        if self.form.write_drafts(drafts, told) {
            self.to(Stage::Whole);
        }
    }
}

fn one(finding: &'static str, answer: Answer) -> Draft {
    Draft { finding, site: Site::NONE, answer, step: "sketch" }
}

pub(super) fn sketch(form: Form) -> AnyView {
    let may = form.now_once().is_some_and(|now| now.here.examination.is_some() && now.kind == ExamKind::Field);
    if !may {
        return view! { <section class="ask">{plain_head(form.say("visit.nothing_in_hand"))}</section> }.into_any();
    }
    form.begin_field("sketch", String::new());
    let making = Making {
        form,
        stage: RwSignal::new(Stage::Whole),
        what: RwSignal::new("blood"),
        from: RwSignal::new(0),
        bearing_deg: RwSignal::new(0),
        in_metres: RwSignal::new(false),
    };
    let shown = move || match making.stage.get() {
        Stage::Whole => whole(making),
        Stage::What => what(making),
        Stage::From => from(making),
        Stage::Way => way(making, false),
        Stage::Head => way(making, true),
        Stage::Degrees => degrees(making, false),
        Stage::HeadDegrees => degrees(making, true),
        Stage::Far => far(making),
        Stage::Pace => pace(making, Stage::Whole),
        Stage::PaceFirst => pace(making, Stage::Far),
        Stage::North => north(making),
    };
    view! { {shown} }.into_any()
}

fn head(making: Making, id: &'static str) -> AnyView {
    let form = making.form;
    view! {
        <section class="ask" data-stage=id>
            {plain_head(form.say(id))}
            {act(form, "to-sketch", form.say("sketch.head"), move || making.to(Stage::Whole))}
        </section>
    }
    .into_any()
}

fn whole(making: Making) -> AnyView {
    let form = making.form;
    let language = form.language();
    let all: Vec<Sketch> = form.now.with(|now| sketches(now.view().exam));
    let several = all.len() > 1;
    let last = making.last();
    let rows = all.iter().map(|one| {
        let by =
            several.then(|| view! { <p>{form.say_with("sketch.by", &[("who", Arg::Text(one.by.to_string()))])}</p> });
        let rows = one.marks.iter().map(|mark| view! { <li>{row(form, mark)}</li> }).collect_view();
        view! { {by} <ul class="rows marks">{rows}</ul> }
    });
    let empty = all.is_empty().then(|| view! { <p>{form.say("sketch.empty")}</p> });
    let svg = drawing(&all, language);
    let undo = (last > 0).then(|| {
        let label = form.say_with("sketch.undo", &[("n", Arg::Text(last.to_string()))]);
        tile(form, "undo", label, Look::Aside, move || {
            if form.take_back_questions(&sketch::questions(last)) {
                making.to(Stage::Whole);
            }
        })
    });
    let pace = match making.pace_cm() {
        Some(cm) => {
            let pace = Measured::of("sketch_pace_cm", form.shown()).map(|pace| pace.say(form.language(), cm));
            form.say_with("sketch.set_pace", &[("pace", Arg::Text(pace.unwrap_or_default()))])
        }
        None => form.say("sketch.no_pace"),
    };
    view! {
        <section class="ask" data-stage="sketch.head">
            {plain_head(form.say("sketch.head"))}
            {empty}
            <div class="sketch" inner_html=svg></div>
            {rows.collect_view()}
            <p class="ways">
                {act(form, "set-head", form.say("sketch.set_head"), move || making.to(Stage::Head))}
                {act(form, "set-north", form.say("sketch.set_north"), move || making.to(Stage::North))}
                {act(form, "set-pace", pace, move || making.to(Stage::Pace))}
            </p>
        </section>
        <div class="tiles">
            {tile(form, "add", form.say("sketch.add"), if last == 0 { Look::Main } else { Look::Value }, move || making.to(Stage::What))}
            {undo}
            {(last > 0).then(|| tile(form, "done", form.say("sketch.done"), Look::Main, move || done(form)))}
        </div>
    }
    .into_any()
}

fn done(form: Form) {
    let drafts = [one("sketch_drawn", Answer::choice("there"))];
    if form.write_drafts(&drafts, form.say("sketch.head")) {
        form.end_input();
        form.go(Screen::Visit(None));
    }
}

fn row(form: Form, mark: &Mark) -> String {
    let n = ("n", Arg::Text(mark.number.to_string()));
    if mark.ends.is_none() {
        return form.say_with("sketch.not_placed", &[n]);
    }
    let from = if mark.from == 0 { form.say("sketch.row_body") } else { mark.from.to_string() };
    let far = Unit::Metre.shown(mark.far.metres(), 1, form.shown()).print();
    let far = form.language().number(far);
    let far = match mark.far {
        HowFar::Paces { count, .. } => {
            form.say_with("sketch.row_paces", &[("n", Arg::Count(count)), ("far", Arg::Text(far))])
        }
        HowFar::Decimetres(_) => far,
    };
    let what = wording::option(form.language(), "sketch_what", &mark.what);
    let way = ("way", Arg::Text(mark.bearing_deg.to_string()));
    form.say_with(
        "sketch.row",
        &[n, ("what", Arg::Text(what)), way, ("far", Arg::Text(far)), ("from", Arg::Text(from))],
    )
}

fn what(making: Making) -> AnyView {
    let form = making.form;
    let tiles = sketch::kinds().iter().map(|code| {
        let name = wording::option(form.language(), "sketch_what", code);
        tile(form, code, name, Look::Value, move || {
            making.what.set(code);
            // The first mark can only be paced from the body.
            making.from.set(0);
            making.to(if making.last() == 0 { Stage::Way } else { Stage::From });
        })
    });
    view! { {head(making, "sketch.what")} <div class="plants two">{tiles.collect_view()}</div> }.into_any()
}

fn from(making: Making) -> AnyView {
    let form = making.form;
    let last = making.last();
    let way = move |name: &'static str, label: String, number: u16| {
        tile(form, name, label, Look::Value, move || {
            making.from.set(number);
            making.to(Stage::Way);
        })
    };
    view! {
        {head(making, "sketch.from")}
        <div class="tiles">
            {way("from-body", form.say("sketch.from_body"), 0)}
            {way("from-last", form.say_with("sketch.from_last", &[("n", Arg::Text(last.to_string()))]), last)}
        </div>
    }
    .into_any()
}

/// The eight points as they lie round the body, and degrees in the middle.
fn way(making: Making, of_head: bool) -> AnyView {
    let form = making.form;
    let names = ["n", "ne", "e", "se", "s", "sw", "w", "nw"];
    let point = |place: usize| {
        let (name, degrees) = (names.get(place).copied()?, POINTS.get(place).copied()?);
        let label = form.say(&format!("sketch.{name}"));
        Some(tile(form, name, label, Look::Value, move || making.bearing(degrees, of_head)))
    };
    let typed = tile(form, "degrees", form.say("sketch.degrees"), Look::Aside, move || {
        making.to(if of_head { Stage::HeadDegrees } else { Stage::Degrees });
    });
    view! {
        {head(making, if of_head { "sketch.way_head" } else { "sketch.way" })}
        <div class="rose">
            {point(7)} {point(0)} {point(1)}
            {point(6)} {typed} {point(2)}
            {point(5)} {point(4)} {point(3)}
        </div>
    }
    .into_any()
}

/// A number on the pad, and the tile that takes it.
fn typed(
    making: Making,
    unit: &'static str,
    measured: Measured,
    take: impl Fn(&str) + Clone + Send + 'static,
) -> AnyView {
    let form = making.form;
    let label = move || match form.typed.get() {
        typed if typed.is_empty() => form.say("number.type_first"),
        typed => {
            form.say_with("tile.save", &[("what", Arg::Text(wording::with_unit(&form.language().number(typed), unit)))])
        }
    };
    let save = main_tile(form, "save", label, move || {
        let typed = form.typed.try_get_untracked().unwrap_or_default();
        if typed.is_empty() {
            form.tell(form.say("number.not_yet"));
        } else {
            take(&typed);
        }
    });
    view! { {display(form, unit)} {pad(form, measured.has_point(), false, measured.say(form.language(), measured.max))} {save} }.into_any()
}

fn degrees(making: Making, of_head: bool) -> AnyView {
    let form = making.form;
    let Some(measured) = Measured::of("sketch_bearing_deg", form.shown()) else { return ().into_any() };
    let take = move |typed: &str| match sketch::bearing_deg(typed) {
        Some(degrees) => making.bearing(degrees, of_head),
        None => form.tell(form.say("sketch.range")),
    };
    view! {
        {head(making, if of_head { "sketch.way_head" } else { "sketch.way" })}
        <div class="tiles">
            <p>{form.say("sketch.degrees_how")}</p>
            {typed(making, measured.symbol(), measured, take)}
        </div>
    }
    .into_any()
}

fn far(making: Making) -> AnyView {
    let form = making.form;
    let flip = move |to_metres: bool| {
        making.in_metres.set(to_metres);
        let known = to_metres || making.pace_cm().is_some();
        making.to(if known { Stage::Far } else { Stage::PaceFirst });
    };
    let in_metres = making.in_metres.get_untracked();
    let asked = if in_metres { "sketch_distance_m" } else { "sketch_paces_count" };
    let us = form.shown() == Shown::Us;
    let other = if in_metres {
        act(form, "in-paces", form.say("sketch.in_paces"), move || flip(false))
    } else {
        act(form, "in-metres", form.say(if us { "sketch.in_feet" } else { "sketch.in_metres" }), move || flip(true))
    };
    let Some(measured) = Measured::of(asked, form.shown()) else { return ().into_any() };
    let input = if in_metres {
        typed(making, measured.symbol(), measured, move |typed| match measured.kept(typed) {
            Some(dm) => making.save(HowFar::Decimetres(dm)),
            None => form.tell(form.say("number.not_yet")),
        })
    } else {
        let unit = crate::words::raw(form.language(), "sketch.paces").unwrap_or_default();
        typed(making, unit, measured, move |typed| match (measured.kept(typed), making.pace_cm()) {
            (Some(count), Some(pace_cm)) => making.save(HowFar::Paces { count, pace_cm }),
            _ => form.tell(form.say("number.not_yet")),
        })
    };
    view! {
        {head(making, "sketch.far")}
        <div class="tiles">{other} {input}</div>
    }
    .into_any()
}

fn pace(making: Making, then: Stage) -> AnyView {
    let form = making.form;
    let Some(measured) = Measured::of("sketch_pace_cm", form.shown()) else { return ().into_any() };
    let take = move |typed: &str| match measured.kept(typed).and_then(sketch::pace_that_is_one) {
        Some(cm) => {
            let person = form.now.with_untracked(|now| now.here.person.clone());
            form.set_settings(|s| {
                s.paces_cm.retain(|(who, _)| *who != person);
                s.paces_cm.push((person, cm));
            });
            making.to(then);
        }
        None => form.tell(form.say("sketch.pace_range")),
    };
    view! {
        {head(making, "sketch.no_pace")}
        <div class="tiles">
            <p>{form.say("sketch.pace_how")}</p>
            {typed(making, measured.symbol(), measured, take)}
        </div>
    }
    .into_any()
}

fn north(making: Making) -> AnyView {
    let form = making.form;
    let options = crate::record::find("sketch_north").map(FindingDef::options).unwrap_or_default();
    let tiles = options.iter().map(|code| {
        tile(form, code, wording::option(form.language(), "sketch_north", code), Look::Value, move || {
            making.write(&[one("sketch_north", Answer::choice(code))], form.say("sketch.set_north"));
        })
    });
    view! { {head(making, "sketch.set_north")} <div class="tiles">{tiles.collect_view()}</div> }.into_any()
}
