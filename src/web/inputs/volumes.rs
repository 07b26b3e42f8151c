//! Volumes plant by plant: the plants so far, the list to pick another from, and the pad.

use leptos::prelude::*;

use crate::guide::{Draft, Volumes, volumes as sorted};
use crate::record::{Answer, Shape, Site, find};
use crate::science::diet::plants;
use crate::web::form::Form;
use crate::web::parts::{Look, act, main_tile, main_tile_unless, tile};
use crate::web::wording;
use crate::words::Arg;

use super::Question;
use super::number::{display, pad};
use super::plants::{AFTER, GROUPS, name, picker, turn_to};

/// What the taps need to know.
#[derive(Clone, Copy)]
struct Sorting {
    form: Form,
    step: &'static str,
    amounts: [&'static str; 2],
    done: &'static str,
}

pub(super) fn volumes(q: &Question, amounts: [&'static str; 2], done: &'static str) -> AnyView {
    let sorting = Sorting { form: q.form, step: q.step.id, amounts, done };
    let form = q.form;
    let ask = q.ask;
    let shown = move || match form.page.get() {
        0 => sorting.list(super::no_answer(form, ask.name())),
        page if page < AFTER => picker(form, page, move |plant| sorting.open(plant.number)),
        page => sorting.ask(u16::try_from(page - AFTER).unwrap_or_default()),
    };
    view! { <div class="tiles">{shown}</div> }.into_any()
}

impl Sorting {
    fn now(self) -> Volumes {
        self.form.now.with(|now| sorted(&now.view()))
    }

    fn finding(self, now: &Volumes) -> &'static str {
        let [ml, percent] = self.amounts;
        if now.in_percent { percent } else { ml }
    }

    fn printed(self, now: &Volumes, amount: i64) -> String {
        wording::answer(self.form.language(), self.finding(now), &Answer::number(amount))
    }

    /// The pad for a plant.
    fn open(self, number: u16) {
        self.form.type_in(String::new());
        turn_to(self.form, AFTER + usize::from(number));
    }

    fn list(self, no_answer: AnyView) -> AnyView {
        let form = self.form;
        let now = self.now();
        let one = |(number, amount): &(u16, i64)| {
            let number = *number;
            let label = form.language().named(&plant_of(form, number), &self.printed(&now, *amount));
            tile(form, &format!("plant-{number}"), label, Look::Value, move || self.open(number))
        };
        let tiles = now.amounts.iter().map(one).collect_view();
        let total = Arg::Text(self.printed(&now, now.total()));
        // Too much is said as soon as it is typed, not when the sorting is to end.
        let over = now.not_yet().filter(|_| now.total() > 0);
        let so_far = form.say_with(over.unwrap_or("volumes.so_far"), &[("total", total)]);
        let another = tile(form, "another", form.say("plants.another"), Look::Aside, move || turn_to(form, GROUPS));
        let early = now.not_yet().is_some();
        let end =
            main_tile_unless(form, "sorting-done", move || early, move || form.say("volumes.done"), move || self.end());
        view! {
            <p class="part" role="status" data-total=now.total()>{so_far}</p>
            <div class="plants two">{tiles}{another}</div>
            <div class="foot">{end}{no_answer}</div>
        }
        .into_any()
    }

    fn ask(self, number: u16) -> AnyView {
        let form = self.form;
        let now = self.now();
        let finding = self.finding(&now);
        let Some(Shape::Number { unit, max, .. }) = find(finding).map(|def| def.shape) else {
            return ().into_any();
        };
        let plant = plant_of(form, number);
        let named = |id: &str| form.say_with(id, &[("plant", Arg::Text(plant.clone()))]);
        let out = now.amounts.iter().any(|(known, _)| *known == number).then(|| {
            act(form, "take-out", named("volumes.take_out"), move || {
                form.take_back_questions(&[(finding, Site::item(number))]);
                turn_to(form, 0);
            })
        });
        let symbol = unit.symbol();
        let label = move || match form.typed.get() {
            typed if typed.is_empty() => form.say("number.type_first"),
            typed => form.say_with(
                "tile.save",
                &[("what", Arg::Text(wording::with_unit(&form.language().number(typed), symbol)))],
            ),
        };
        let save = main_tile(form, "save", label, move || {
            let typed = form.typed.try_get_untracked().unwrap_or_default();
            let Some(amount) = wording::scaled(&typed, 0) else { return form.tell(form.say("number.not_yet")) };
            let draft = Draft { finding, site: Site::item(number), answer: Answer::number(amount), step: self.step };
            let language = form.language();
            let what = language.named(&plant_of(form, number), &wording::with_unit(&language.number(typed), symbol));
            if form.write_drafts(&[draft], what) {
                form.type_in(String::new());
                turn_to(form, 0);
            }
        });
        let back = tile(form, "plants-back", form.say("plants.back"), Look::Aside, move || turn_to(form, 0));
        view! {
            <p class="part">{named("volumes.of")}</p>
            {out}
            {display(form, symbol)}
            {pad(form, false, false, wording::with_unit(&max.to_string(), symbol))}
            <div class="foot">{save}{back}</div>
        }
        .into_any()
    }

    fn end(self) {
        let form = self.form;
        let Some(now) = form.now_once().map(|now| sorted(&now.view())) else { return };
        if let Some(why) = now.not_yet() {
            let total = Arg::Text(self.printed(&now, now.total()));
            return form.tell(form.say_with(why, &[("total", total)]));
        }
        let answer = Answer::choice("sorted");
        form.answer(&[Draft { finding: self.done, site: Site::NONE, answer, step: self.step }]);
    }
}

/// The name of a plant by its number.
fn plant_of(form: Form, number: u16) -> String {
    let code = plants::of_number(number).map_or_else(|| number.to_string(), |plant| plant.code.to_owned());
    name(form, &code)
}
