//! Places as people type them.

use marrowbook::science::place::read_typed;

pub(crate) fn run(bytes: &[u8]) {
    let text = String::from_utf8_lossy(bytes);
    let Ok(typed) = read_typed(&text) else { return };
    let (latitude, longitude) = (typed.at.lat_deg, typed.at.lon_deg);
    assert!((-90.0..=90.0).contains(&latitude) && (-180.0..=180.0).contains(&longitude), "{typed:?} of {text:?}");
    assert!(typed.within_m.is_finite() && typed.within_m >= 0.0, "{typed:?} of {text:?}");
}
