//! A place that somebody types: read in the usual notations, shown back before it is kept, and asked about
//! where a turned sign or swapped numbers are likely meant.

use libm::{ceil, round};

use crate::record::{Place, PlaceSource};
use crate::science::place::{Leg, NotAPlace, Point, between, likely_meant, read_typed, to_grid};

/// A typed place whose last digits leave more room than this leads nobody back: the radius is kept with it.
const COARSE_M: f64 = 50.0;

/// What was understood.
#[derive(Clone, Debug, PartialEq)]
pub struct TypedPlace {
    /// To be kept.
    pub place: Place,
    /// As a grid reference, for a paper map; empty near the poles.
    pub grid: String,
    /// From the phone's own position, where it has one: kilometres and degrees from true north, as printed.
    pub from_here: Option<[String; 2]>,
    /// What was likely meant, where the place itself lies far from where these deer live.
    pub instead: Option<Place>,
}

/// Reads what was typed.
///
/// # Errors
/// What is wrong with it.
pub fn typed_place(text: &str, here: Option<&Place>) -> Result<TypedPlace, NotAPlace> {
    let read = read_typed(text)?;
    #[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss)] // at most the globe's half, in metres
    let accuracy_m_95 = (read.within_m > COARSE_M).then(|| ceil(read.within_m) as u32);
    let kept = |at: Point| Place { accuracy_m_95, ..placed(at) };
    Ok(TypedPlace {
        place: kept(read.at),
        grid: to_grid(read.at).unwrap_or_default(),
        from_here: here.map(|here| printed(between(point(here), read.at))),
        instead: likely_meant(read.at).map(kept),
    })
}

/// The place of a point, typed.
#[allow(clippy::cast_possible_truncation)] // within 1.8e9
fn placed(at: Point) -> Place {
    let e7 = |degrees: f64| round(degrees * 1e7) as i64;
    Place { lat_e7: e7(at.lat_deg), lon_e7: e7(at.lon_deg), accuracy_m_95: None, source: PlaceSource::Typed }
}

fn printed(leg: Leg) -> [String; 2] {
    [format!("{:.1}", leg.distance_m / 1000.0), format!("{:.0}", leg.bearing_deg)]
}

fn point(at: &Place) -> Point {
    Point { lat_deg: at.lat_e7 as f64 / 1e7, lon_deg: at.lon_e7 as f64 / 1e7 }
}

/// The message that says what is wrong with what was typed.
pub fn not_a_place(why: NotAPlace) -> &'static str {
    match why {
        NotAPlace::NotUnderstood => "place.not_understood",
        NotAPlace::CommaUnclear => "place.comma_unclear",
        NotAPlace::Swapped => "place.swapped",
        NotAPlace::OutOfRange => "place.out_of_range",
        NotAPlace::BadMinutes => "place.bad_minutes",
        NotAPlace::NoSuchGrid => "place.no_such_grid",
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_record_keeps_what_was_typed_to_the_digit() {
        let typed = typed_place("46.2100001, -84.0600009", None).unwrap();
        assert_eq!((typed.place.lat_e7, typed.place.lon_e7), (462_100_001, -840_600_009));
        assert_eq!(typed.place.accuracy_m_95, None);
        assert_eq!(typed.grid, "16T GS 26784 21582");
        assert_eq!(typed.instead, None);
    }

    #[test]
    fn a_coarse_place_carries_its_radius_and_a_forgotten_minus_is_asked_about() {
        let typed = typed_place("46.21 84.06", None).unwrap();
        assert_eq!(typed.place.lon_e7, 840_600_000);
        // 556 m north and 386 m east, both ways.
        assert_eq!(typed.place.accuracy_m_95, Some(677));
        let instead = typed.instead.unwrap();
        assert_eq!((instead.lat_e7, instead.lon_e7), (462_100_000, -840_600_000));
        let swapped = typed_place("-84.06 46.21", None).unwrap().instead.unwrap();
        assert_eq!((swapped.lat_e7, swapped.lon_e7), (462_100_000, -840_600_000));
    }

    #[test]
    fn far_from_the_phone_shows() {
        let here = typed_place("46.21000 -84.06000", None).unwrap().place;
        let leg = typed_place("46.21000 -84.04000", Some(&here)).unwrap().from_here.unwrap();
        // geographiclib 2.1: 1543.6 m at 89.99 degrees.
        assert_eq!(leg, ["1.5", "90"]);
    }
}
