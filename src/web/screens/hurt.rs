//! Somebody is hurt: what to do first, then the exposure note.

use leptos::prelude::*;

use crate::card::CallFor;
use crate::guide::answer_words::date_and_time as plain_date_and_time;
use crate::guide::{CANNOT_CALL, Draft, NO_CARD_TO_CALL};
use crate::record::short_code::short_code;
use crate::record::{Answer, Site, Standing, Value};
use crate::web::form::Form;
use crate::web::half_typed::NOTE;
use crate::web::inputs::area;
use crate::web::parts::{Look, plain_head, tile};
use crate::web::platform::file::OutFile;
use crate::web::screen::Screen;
use crate::web::session::{Now, Session};
use crate::words::Arg;

use super::hand_over_ways::of_files;

/// First aid, line by line, from `safety-and-field-use` 4.7 (its sources: NIOSH 2012-123, WHO).
const LINES: [&str; 5] = ["hurt.stop", "hurt.wash", "hurt.wash_rabies", "hurt.cover", "hurt.leave"];
/// Lines that the phone fills in: who, when, which carcass, what it warned of.
const KNOWN_LINES: usize = 4;
/// Most characters of an exposure note.
const NOTE_MAX: usize = 2_000;

pub(super) fn hurt(form: Form) -> AnyView {
    let Some(now) = form.now_once() else { return ().into_any() };
    let may_write = now.here.outing.is_some();
    if may_write {
        form.begin_field(NOTE, begun(form, &now));
    }
    let calls = [CallFor::Emergency, CallFor::Lead, CallFor::Health]
        .into_iter()
        .filter_map(|call_for| now.card.as_ref().and_then(|c| c.call(call_for).cloned()))
        .map(|call| view! { <li><strong>{call.name}</strong>{form.language().colon()}{call.number}</li> })
        .collect_view();
    let no_card = now.card.is_none().then(|| view! { <p>{form.say(NO_CARD_TO_CALL)}</p> });
    let note = may_write.then(|| {
        view! {
            <h2>{form.say("hurt.note")}</h2>
            <p>{form.say("hurt.note_how")}</p>
            <p>{form.say("hurt.private")}</p>
            <div class="tiles long-note">
                {area(form, NOTE_MAX)}
                {tile(form, "save-note", form.say("hurt.save_note"), Look::Main, move || save(form))}
            </div>
        }
    });
    view! {
        <section class="ask">
            {plain_head(form.say("hurt.head"))}
            <ol class="first-aid">{LINES.map(|id| view! { <li>{form.say(id)}</li> }).collect_view()}</ol>
            <p><strong>{form.say(CANNOT_CALL)}</strong></p>
            <ul class="calls">{calls}</ul>
            {no_card}
            {note}
        </section>
        {saved(form)}
    }
    .into_any()
}

/// The note's lines, with what the phone knows already.
fn begun(form: Form, now: &Now) -> String {
    let stops = now.situation.stops().map(|fired| form.say(&format!("hazard.{}.head", fired.hazard.code)));
    let args = [
        ("who", now.here.person.to_string()),
        ("when", plain_date_and_time(now.at)),
        ("carcass", now.carcass().map(|c| short_code(c.id)).unwrap_or_default()),
        ("stops", stops.collect::<Vec<_>>().join(" ")),
    ];
    form.say_with("hurt.note_form", &args.map(|(name, text)| (name, Arg::Text(text))))
}

/// Every note on this phone, each to be handed to a doctor by itself.
fn saved(form: Form) -> AnyView {
    let notes = form.with(Session::exposure_notes).unwrap_or_default();
    if notes.is_empty() {
        return ().into_any();
    }
    let later = form.say("hurt.later");
    let holder = form.with(|s| s.here.person.clone());
    let one = |note: Standing| {
        let Some(Value::Text(text)) = note.answer.value() else { return ().into_any() };
        let at = plain_date_and_time(note.at);
        let file = format!("{}-{}.txt", form.say("hurt.note"), at).replace([' ', ':', ','], "-");
        let file = OutFile::text(&file, &format!("{text}\n\n{later}\n"));
        let body = view! {
            <p class="lines">{text.clone()}</p>
            <div class="tiles">{of_files(form, vec![file], "hurt.shared")}</div>
        };
        let of_holder = holder.as_ref() == Some(&note.observer);
        let shown = if of_holder {
            view! { <h3>{at}</h3> {body} }.into_any()
        } else {
            // Somebody else's body: not for whoever looks at the phone.
            view! { <details class="why"><summary>{format!("{at} {}", note.observer)}</summary>{body}</details> }
                .into_any()
        };
        view! { <section class="phase" data-note=note.id.seq.to_string()>{shown}</section> }.into_any()
    };
    view! {
        <section class="phase">
            <h2>{form.say("hurt.saved")}</h2>
            <p>{form.say("hurt.saved_how")}</p>
            <p>{later.clone()}</p>
        </section>
        {notes.into_iter().map(one).collect_view()}
    }
    .into_any()
}

fn save(form: Form) {
    let typed = form.typed.try_get_untracked().unwrap_or_default();
    let of_person = |text: &str| text.trim().lines().skip(KNOWN_LINES).collect::<String>();
    let begun = form.now_once().map(|now| begun(form, &now)).unwrap_or_default();
    // What the phone knows by itself is no note: signed, it would tell the office that somebody was hurt.
    if of_person(&typed) == of_person(&begun) {
        return form.tell(form.say("hurt.empty"));
    }
    let answer = Answer::Seen { value: Value::Text(typed.trim().to_owned()) };
    let draft = Draft { finding: "exposure_note", site: Site::NONE, answer, step: "hurt" };
    if form.write_drafts(&[draft], form.say("saved.exposure_note")) {
        form.end_input();
        form.go(Screen::Hurt);
    }
}
