//! A place: the phone's own position once it has one, or two numbers typed from a map.

use leptos::prelude::*;

use crate::guide::{Draft, TypedPlace, not_a_place, typed_place};
use crate::record::{Answer, Place, Site, Value};
use crate::web::form::Form;
use crate::web::parts::{Look, foot, main_tile, tile};
use crate::web::platform::position::NoFix;
use crate::web::wording;
use crate::words::Arg;

use super::Question;

/// A radius above this is called rough: it does not lead anybody back to the place.
const ROUGH_M: u32 = 100;

pub(super) fn place(q: &Question, finding: &'static str) -> AnyView {
    let (form, site, step) = (q.form, q.site, q.step.id);
    form.start_position();
    let words = move || match form.position.get() {
        Some(Ok(fix)) => found(form, &fix.place),
        Some(Err(NoFix::Denied(_))) => form.say("place.denied"),
        Some(Err(NoFix::Platform(_))) => form.say("place.unavailable"),
        Some(Err(NoFix::NotYet(_))) | None => form.say("place.waiting"),
    };
    let has_fix = Memo::new(move |_| form.position.with(|p| matches!(p, Some(Ok(_)))));
    let take = move || {
        has_fix.get().then(|| {
            tile(form, "here", form.say("place.here"), Look::Main, move || {
                if let Some(Ok(fix)) = form.position.try_get_untracked().flatten() {
                    give(form, finding, site, step, fix.place);
                }
            })
        })
    };
    let read = Memo::new(move |_| {
        let here = form.position.with(|p| p.as_ref().and_then(|p| p.as_ref().ok().map(|fix| fix.place.clone())));
        form.typed.with(|typed| (!typed.trim().is_empty()).then(|| typed_place(typed, here.as_ref())))
    });
    // Said while it is typed, so that what is kept is what was meant.
    let back = move || match read.get() {
        Some(Ok(typed)) => understood(form, &typed),
        _ => String::new(),
    };
    let instead = move || {
        let meant = read.get()?.ok()?.instead?;
        let [lat, lon] = wording::degrees(&meant).map(Arg::Text);
        let words = form.say_with("place.instead", &[("lat", lat), ("lon", lon)]);
        Some(tile(form, "instead", words, Look::Main, move || give(form, finding, site, step, meant.clone())))
    };
    let save = main_tile(
        form,
        "save",
        move || form.say("place.save_typed"),
        move || match typed_place(&form.typed.try_get_untracked().unwrap_or_default(), None) {
            Ok(typed) => give(form, finding, site, step, typed.place),
            Err(why) => form.tell(form.say(not_a_place(why))),
        },
    );
    view! {
        <div class="tiles">
            <p class="position" role="status">{words}</p>
            <label class="field">
                {form.say("place.typed")}
                <input
                    type="text"
                    inputmode="text"
                    autocomplete="off"
                    data-field="place"
                    prop:value=move || form.typed.get()
                    on:input=move |event| form.type_in(event_target_value(&event))
                />
            </label>
            <p class="position" role="status">{back}</p>
            {instead}
            {take}
            {foot(Some(save), q.no_answer())}
        </div>
    }
    .into_any()
}

/// The best position so far, and whether it leads anybody back.
fn found(form: Form, at: &Place) -> String {
    let radius = at.accuracy_m_95.unwrap_or_default();
    let [lat, lon] = wording::degrees(at).map(Arg::Text);
    let args = [("lat", lat), ("lon", lon), ("radius", Arg::Text(radius.to_string()))];
    form.say_with(if radius > ROUGH_M { "place.found_wide" } else { "place.found" }, &args)
}

fn give(form: Form, finding: &'static str, site: Site, step: &'static str, place: Place) {
    form.answer(&[Draft { finding, site, answer: Answer::Seen { value: Value::Place(place) }, step }]);
}

/// What was understood of a typed place.
fn understood(form: Form, typed: &TypedPlace) -> String {
    let [lat, lon] = wording::degrees(&typed.place).map(Arg::Text);
    let mut words =
        vec![form.say_with("place.understood", &[("lat", lat), ("lon", lon), ("grid", Arg::Text(typed.grid.clone()))])];
    if let Some(radius) = typed.place.accuracy_m_95 {
        words.push(form.say_with("place.within", &[("radius", Arg::Text(radius.to_string()))]));
    }
    if let Some([km, deg]) = typed.from_here.clone().map(|leg| leg.map(|text| Arg::Text(form.language().number(text))))
    {
        words.push(form.say_with("place.from_here", &[("km", km), ("deg", deg)]));
    }
    words.join(" ")
}
