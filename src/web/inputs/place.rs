//! A place: typed as two numbers from a map or another receiver.

use leptos::prelude::*;

use crate::guide::Draft;
use crate::record::{Answer, Place, PlaceSource, Value};
use crate::web::parts::{Look, tile};
use crate::web::wording;

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
