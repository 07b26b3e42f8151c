//! Where something lies: degrees, grid references, distance and bearing. WGS 84 throughout.

mod distance;
mod grid;
mod scene;
mod typed;
mod typed_degrees;
mod utm;

#[cfg(test)]
mod tests;

pub use distance::{Leg, ahead, between};
pub use grid::{GridSquare, to_grid};
pub use scene::{Spot, Told, bar_m, laid};
pub use typed::{NotAPlace, Notation, Typed, read_typed};
pub use utm::{Utm, of_utm, to_utm};

use serde::Serialize;

use super::source::{Mark, Source};

/// Everything that the conversions rest on.
pub static SOURCES: [Source; 2] = [
    Source::new(
        "transverse-mercator",
        "Krueger's series for the transverse Mercator projection, as printed by Karney 2011, J. Geodesy 85:475",
        Mark::Memory,
    ),
    Source::new("grid-reference", "Universal grids, NGA.STND.0037: zones, bands and lettered squares", Mark::Memory),
];

/// Equatorial radius of WGS 84, m.
pub const EQUATOR_M: f64 = 6_378_137.0;
/// Flattening of WGS 84.
pub const FLATTENING: f64 = 1.0 / 298.257_223_563;

/// A point on the ground.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct Point {
    /// Latitude, degrees, north positive, -90 to 90.
    pub lat_deg: f64,
    /// Longitude, degrees, east positive, -180 to 180.
    pub lon_deg: f64,
}

/// Where white-tailed deer are native: Canada's north-west to Bolivia, widely drawn. Outside it a typed
/// place is asked about, never refused: the species has been let loose elsewhere.
/// Common practice, no source.
pub fn in_native_range(at: Point) -> bool {
    (-20.0..=63.0).contains(&at.lat_deg) && (-140.0..=-50.0).contains(&at.lon_deg)
}

/// What was likely meant by a place outside the native range: one sign turned, or longitude and latitude
/// swapped, so that it lies inside. `None` where neither would help or none is needed.
pub fn likely_meant(at: Point) -> Option<Point> {
    if in_native_range(at) {
        return None;
    }
    let Point { lat_deg, lon_deg } = at;
    [(lat_deg, -lon_deg), (-lat_deg, lon_deg), (-lat_deg, -lon_deg), (lon_deg, lat_deg)]
        .into_iter()
        .map(|(lat_deg, lon_deg)| Point { lat_deg, lon_deg })
        .find(|&point| in_native_range(point))
}
