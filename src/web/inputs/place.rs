//! A place: the phone's own position once it has one, or two numbers typed from a map.

use leptos::prelude::*;

use crate::guide::Draft;
use crate::record::{Answer, Place, PlaceSource, Site, Value};
use crate::web::form::Form;
use crate::web::parts::{Look, foot, tile};
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
    let save = tile(form, "save", form.say("place.save_typed"), Look::Aside, move || {
        match typed_place(&form.typed.try_get_untracked().unwrap_or_default()) {
            Some(place) => give(form, finding, site, step, place),
            None => form.tell(form.say("place.not_two_numbers")),
        }
    });
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

/// Latitude and longitude in degrees, `45.42, -75.70`. South and west are negative.
fn typed_place(typed: &str) -> Option<Place> {
    let mut parts = typed.split([' ', ';', '/']).map(|p| p.trim_matches(',')).filter(|p| !p.is_empty());
    let (lat, lon) = match (parts.next(), parts.next(), parts.next()) {
        (Some(lat), Some(lon), None) => (lat, lon),
        (Some(both), None, None) => both.split_once(',')?,
        _ => return None,
    };
    let lat_e7 = wording::scaled(lat, 7)?;
    let lon_e7 = wording::scaled(lon, 7)?;
    Some(Place { lat_e7, lon_e7, accuracy_m_95: None, source: PlaceSource::Typed })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn two_numbers_with_a_blank_or_a_comma_between() {
        let both = |typed: &str| typed_place(typed).map(|p| (p.lat_e7, p.lon_e7));
        let expected = Some((454_200_000, -757_000_000));
        assert_eq!(both("45.42, -75.70"), expected);
        assert_eq!(both("45.42 -75.70"), expected);
        assert_eq!(both("45.42,-75.70"), expected);
        assert_eq!(both("45.42"), None);
        assert_eq!(both("here"), None);
    }
}
