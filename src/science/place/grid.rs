//! Lettered grid references: zone, band, a square of 100 km by two letters, and digits within it.

use libm::floor;

use super::utm::zone_of;
use super::{Point, Utm, of_utm, to_utm};

/// Latitude bands from 80 south, eight degrees each, the last twelve.
const BANDS: &[u8; 20] = b"CDEFGHJKLMNPQRSTUVWX";
/// Letters of columns and rows: I and O are not used.
const LETTERS: &[u8; 24] = b"ABCDEFGHJKLMNPQRSTUVWXYZ";
/// Rows repeat after so many squares.
const ROWS: i64 = 20;

/// A grid reference that was read: its south-west corner and how wide its square is.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct GridSquare {
    /// Middle of the square.
    pub middle: Point,
    /// Side of the square, m: 1 for ten digits, 100,000 for none.
    pub side_m: f64,
}

/// The band's letter of a latitude.
pub(super) fn band_of(lat_deg: f64) -> Option<char> {
    if !(-80.0..84.0).contains(&lat_deg) {
        return None;
    }
    #[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss)]
    let row = (floor((lat_deg + 80.0) / 8.0) as usize).min(BANDS.len() - 1);
    BANDS.get(row).map(|&letter| char::from(letter))
}

/// The latitudes of a band: south edge, north edge.
pub(super) fn band_edges(band: char) -> Option<(f64, f64)> {
    let row = BANDS.iter().position(|&letter| char::from(letter) == band)?;
    let south = f64::from(u32::try_from(row).ok()?) * 8.0 - 80.0;
    Some((south, if band == 'X' { 84.0 } else { south + 8.0 }))
}

/// First letter of the columns of a zone: three zones share the alphabet, eight letters each.
const fn first_column(zone: u8) -> usize {
    (zone as usize - 1) % 3 * 8
}

/// First letter of the rows of a zone: even zones start five letters on.
const fn first_row(zone: u8) -> i64 {
    if zone.is_multiple_of(2) { 5 } else { 0 }
}

/// The reference of a point with five and five digits (1 m), grouped by blanks; `None` near the poles.
pub fn to_grid(at: Point) -> Option<String> {
    let utm = to_utm(at)?;
    let band = band_of(at.lat_deg)?;
    // Cut, not rounded: a reference names the square that holds the point.
    #[allow(clippy::cast_possible_truncation)]
    let (east, north) = (floor(utm.east_m) as i64, floor(utm.north_m) as i64);
    let column = first_column(utm.zone) + usize::try_from(east / 100_000).ok()?.checked_sub(1)?;
    let row = usize::try_from((north / 100_000 + first_row(utm.zone)) % ROWS).ok()?;
    let letter = |place: usize| LETTERS.get(place).map(|&l| char::from(l));
    Some(format!("{}{band} {}{} {:05} {:05}", utm.zone, letter(column)?, letter(row)?, east % 100_000, north % 100_000))
}

/// Reads zone, band, two letters and an even count of digits. `None` where the letters do not go together
/// or the square is not in the band.
pub(super) fn of_grid(zone: u8, band: char, square: [char; 2], digits: &str) -> Option<GridSquare> {
    let (south, north_edge) = band_edges(band)?;
    let place = |letter: char| LETTERS.iter().position(|&l| char::from(l) == letter);
    let column = place(square[0])?.checked_sub(first_column(zone)).filter(|&c| c < 8)?;
    let row = i64::try_from(place(square[1])?).ok().filter(|&r| r < ROWS)?;
    let half = digits.len() / 2;
    let (east_digits, north_digits) = digits.split_at_checked(half)?;
    let side = 10_i64.pow(5 - u32::try_from(half).ok().filter(|&h| h <= 5)?);
    let within = |text: &str| if text.is_empty() { Some(0) } else { text.parse::<i64>().ok() };
    let east = i64::try_from(column + 1).ok()? * 100_000 + within(east_digits)? * side;
    let first = (row - first_row(zone)).rem_euclid(ROWS) * 100_000 + within(north_digits)? * side;
    let half_side = side as f64 / 2.0;
    // The rows repeat every 2,000 km: the one in the band is meant.
    (0..5_i64).find_map(|turn| {
        let utm = Utm {
            zone,
            north: south >= 0.0,
            east_m: east as f64 + half_side,
            north_m: (first + turn * ROWS * 100_000) as f64 + half_side,
        };
        let middle = of_utm(utm)?;
        // A square may hang over its band's edge by as much as it is wide.
        let slack = side as f64 / 100_000.0;
        let in_band = (south - slack..north_edge + slack).contains(&middle.lat_deg);
        (in_band && zone_fits(zone, middle)).then_some(GridSquare { middle, side_m: side as f64 })
    })
}

/// A square at a zone's edge reaches into the next.
fn zone_fits(zone: u8, at: Point) -> bool {
    zone_of(at).is_some_and(|own| {
        let apart = (i16::from(own) - i16::from(zone)).rem_euclid(60);
        apart <= 1 || apart == 59 || at.lat_deg >= 56.0
    })
}
