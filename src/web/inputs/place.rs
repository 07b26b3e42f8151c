//! A place: from the phone's receiver, or typed as two numbers from a map or another receiver.

use leptos::prelude::*;

use crate::guide::Draft;
use crate::record::{Answer, Place, PlaceSource, Value};
use crate::web::parts::{Look, tile};
use crate::web::platform::position::{self, NoFix};
use crate::web::wording;
use crate::words::Arg;

use super::Question;

pub(super) fn place(q: &Question, finding: &'static str) -> AnyView {
    let (form, site, step) = (q.form, q.site, q.step.id);
    let save = tile(form, "save", form.say("place.save_typed"), Look::Main, move || {
        match typed_place(&form.typed.try_get_untracked().unwrap_or_default()) {
            Some(place) => {
                form.answer(&[Draft { finding, site, answer: Answer::Seen { value: Value::Place(place) }, step }]);
            }
            None => form.tell(form.say("place.not_two_numbers")),
        }
    });
    view! {
        <div class="tiles">
            {from_phone(q, finding)}
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
            {save}
            {q.no_answer()}
        </div>
    }
    .into_any()
}

/// Latitude and longitude in degrees, `45.42, -75.70`. South and west are negative.
/// A radius above this is called rough: it does not lead anybody back to the place.
const ROUGH_M: u32 = 100;

/// The phone's own position: the best so far, while the receiver works. Nothing waits for it.
fn from_phone(q: &Question, finding: &'static str) -> AnyView {
    let (form, site, step) = (q.form, q.site, q.step.id);
    let best: RwSignal<Option<Place>> = RwSignal::new(None);
    let trouble: RwSignal<Option<&'static str>> = RwSignal::new(None);
    let watch = position::watch(move |heard| match heard {
        Ok(fix) => {
            best.try_update(|kept| {
                let radius = |p: &Place| p.accuracy_m_95.unwrap_or(u32::MAX);
                if kept.as_ref().is_none_or(|k| radius(&fix.place) <= radius(k)) {
                    *kept = Some(fix.place);
                }
            });
        }
        Err(NoFix::Denied(_)) => {
            trouble.try_set(Some("place.denied"));
        }
        Err(_) => {}
    });
    match watch {
        Ok(watch) => {
            // The receiver is off again as soon as the question is gone.
            let watch = StoredValue::new_local(Some(watch));
            on_cleanup(move || {
                watch.try_update_value(Option::take);
            });
        }
        Err(_) => {
            trouble.try_set(Some("place.unavailable"));
        }
    }
    let words = move || match (best.get(), trouble.get()) {
        (Some(place), _) => {
            let radius = place.accuracy_m_95.unwrap_or_default();
            let degrees = |e7: i64| Arg::Text(wording::printed(e7 / 100, 5));
            let args = [("lat", degrees(place.lat_e7)), ("lon", degrees(place.lon_e7)), ("radius", Arg::Text(radius.to_string()))];
            form.say_with(if radius > ROUGH_M { "place.found_wide" } else { "place.found" }, &args)
        }
        (None, Some(why)) => form.say(why),
        (None, None) => form.say("place.waiting"),
    };
    let take = move || {
        best.with(Option::is_some).then(|| {
            tile(form, "here", form.say("place.here"), Look::Main, move || {
                if let Some(place) = best.try_get_untracked().flatten() {
                    form.answer(&[Draft { finding, site, answer: Answer::Seen { value: Value::Place(place) }, step }]);
                }
            })
        })
    };
    view! { <p role="status">{words}</p> {take} }.into_any()
}

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
        let ottawa = Some((454_200_000, -757_000_000));
        assert_eq!(both("45.42, -75.70"), ottawa);
        assert_eq!(both("45.42 -75.70"), ottawa);
        assert_eq!(both("45.42,-75.70"), ottawa);
        assert_eq!(both("45.42"), None);
        assert_eq!(both("here"), None);
    }
}
