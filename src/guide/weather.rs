//! What the air does to bare skin, from the newest readings that the crew wrote down.

use super::View;
use super::hazards::read::{chose_any, newest_numbers};
use crate::science::wind_chill::{WindAt, WindChill, wind_chill};

/// Wind chill now, on the safe side: coldest air and strongest wind among the newest readings of
/// each phone. Without a wind the air stands alone; a wind of which nobody says where it was read
/// counts as felt at face height, which is the colder reading.
///
/// `None` where no air temperature was written down.
pub fn wind_chill_now(view: &View) -> Option<WindChill> {
    let air_c = newest_numbers(view, "air_temperature_c").into_iter().min()?;
    let wind_km_h = newest_numbers(view, "wind_km_h").into_iter().max().unwrap_or(0);
    let at = if chose_any(view, "wind_read_at", &["forecast_or_mast"])
        && !chose_any(view, "wind_read_at", &["at_face_height"])
    {
        WindAt::Mast
    } else {
        WindAt::Face
    };
    // The finding's limits lie inside those of the index: a refusal cannot come of a valid record.
    wind_chill(air_c as f64, wind_km_h as f64, at).ok()
}
