//! Places on a plain grid that hangs on the globe and not on the carcasses: a cell says nothing finer than itself.

use std::collections::BTreeMap;

use super::kept::Kept;
use super::table::{CellLine, PlaceTable};
use super::{count, rounded, tell};
use crate::record::Place;

/// Metres of one degree of latitude on a sphere of the Earth's mean radius, 6,371,008.8 m (IUGG).
pub const DEGREE_M: f64 = 111_195.08;

/// A place in degrees.
pub fn degrees(place: &Place) -> (f64, f64) {
    (place.lat_e7 as f64 / 1e7, place.lon_e7 as f64 / 1e7)
}

/// Degrees of latitude and, in that row, of longitude to one cell.
fn steps(row: i64, cell_m: u32) -> (f64, f64) {
    let latitude = f64::from(cell_m) / DEGREE_M;
    let middle = ((row as f64 + 0.5) * latitude).clamp(-89.9, 89.9);
    (latitude, latitude / libm::cos(middle.to_radians()))
}

/// Row and column of a place.
#[allow(clippy::cast_possible_truncation)] // cells of the globe
pub fn cell_of(place: &Place, cell_m: u32) -> (i64, i64) {
    let (latitude, longitude) = degrees(place);
    let row = (latitude / (f64::from(cell_m) / DEGREE_M)).floor() as i64;
    let (_, step) = steps(row, cell_m);
    (row, (longitude / step).floor() as i64)
}

/// The middle of a cell, degrees, to the ten-thousandth.
pub fn middle((row, column): (i64, i64), cell_m: u32) -> (f64, f64) {
    let (latitude, longitude) = steps(row, cell_m);
    (rounded((row as f64 + 0.5) * latitude, 4), rounded((column as f64 + 0.5) * longitude, 4))
}

/// Metres between two places, on a plane through their middle latitude: good to a part in a thousand over some
/// kilometres.
pub fn apart_m(a: &Place, b: &Place) -> f64 {
    let ((lat_a, lon_a), (lat_b, lon_b)) = (degrees(a), degrees(b));
    let east = (lon_a - lon_b) * DEGREE_M * libm::cos(f64::midpoint(lat_a, lat_b).to_radians());
    libm::hypot((lat_a - lat_b) * DEGREE_M, east)
}

/// The table.
pub fn table(rows: &[&Kept], cell_m: u32) -> PlaceTable {
    let mut cells: BTreeMap<(i64, i64), u32> = BTreeMap::new();
    for place in rows.iter().filter_map(|row| row.place.as_ref()) {
        *cells.entry(cell_of(place, cell_m)).or_default() += 1;
    }
    let line = |(cell, carcasses): ((i64, i64), u32)| {
        let (latitude, longitude) = middle(cell, cell_m);
        CellLine { row: cell.0, column: cell.1, latitude, longitude, carcasses }
    };
    PlaceTable {
        cell_m,
        note: tell("season.places.note", &[("m", count(cell_m as usize))]),
        cells: cells.into_iter().map(line).collect(),
        no_place: rows.iter().filter(|row| row.place.is_none()).count(),
    }
}
