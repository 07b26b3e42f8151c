//! Coordinates as people write them: decimal degrees, degrees and minutes, degrees, minutes and seconds, grid
//! coordinates, lettered grid references. What was understood is shown back before it is kept.

use libm::{hypot, pow};

use super::grid::{band_edges, of_grid};
use super::typed_degrees::read_degrees;
use super::{Point, Utm, of_utm};
use crate::order::decimal;

/// How a place was written.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Notation {
    /// Degrees, with or without minutes and seconds.
    Degrees,
    /// Zone, easting, northing.
    Utm,
    /// Zone, band, lettered square, digits.
    Grid,
}

/// A place that was read.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Typed {
    /// The place; of a square, its middle.
    pub at: Point,
    /// How far from `at` the last digit lets the place be, m. What the map or the reader adds is not in it.
    pub within_m: f64,
    /// How it was written.
    pub notation: Notation,
}

/// Why what was typed is no place.
#[derive(Clone, Copy, Debug, PartialEq, Eq, thiserror::Error)]
pub enum NotAPlace {
    /// Nothing that looks like a coordinate.
    #[error("two numbers are wanted, latitude then longitude, or a grid reference")]
    NotUnderstood,
    /// One comma between digits and no blank: it can be a decimal sign or stand between the two numbers.
    #[error("the comma can mean two things: put a blank between latitude and longitude")]
    CommaUnclear,
    /// The first number is above 90 and the second is not: likely longitude first.
    #[error("latitude comes first and is never above 90: are the two swapped?")]
    Swapped,
    /// Beyond the poles or past 180 degrees.
    #[error("latitude is at most 90, longitude at most 180")]
    OutOfRange,
    /// Minutes or seconds of 60 and more, or a fraction before them.
    #[error("minutes and seconds are below 60, and only the last part has a fraction")]
    BadMinutes,
    /// Zone, band, square and digits do not go together.
    #[error("there is no such grid reference: check zone, letters and the count of digits")]
    NoSuchGrid,
}

/// Reads what was typed.
///
/// # Errors
/// What is wrong, as a sentence can be made of it.
pub fn read_typed(text: &str) -> Result<Typed, NotAPlace> {
    let text = text.trim().to_ascii_uppercase();
    match grid_start(&text) {
        Some((zone, letter, rest)) => read_grid(zone, letter, rest),
        None => read_degrees(&text),
    }
}

/// A zone's number followed at once, or after a blank, by a letter: nothing in degrees starts so but a
/// hemisphere behind whole degrees (`45 N 84 W`), which another letter gives away.
fn grid_start(text: &str) -> Option<(u8, char, &str)> {
    let end = text.find(|c: char| !c.is_ascii_digit())?;
    let (number, rest) = text.split_at_checked(end).filter(|(number, _)| (1..=2).contains(&number.len()))?;
    let rest = rest.trim_start();
    let letter = rest.chars().next().filter(char::is_ascii_alphabetic)?;
    let after = rest.get(1..)?;
    let hemisphere = matches!(letter, 'N' | 'S') && after.contains(['W', 'E', 'O']) && !is_utm_with_units(after);
    let zone = number.parse().ok()?;
    (!hemisphere).then_some((zone, letter, after))
}

/// `684321E 5123456N` has its letters behind six and seven digits.
fn is_utm_with_units(after: &str) -> bool {
    let digits = after.chars().filter(char::is_ascii_digit).count();
    !after.contains(['.', '\'']) && digits >= 12 || after.trim_start().starts_with(|c: char| c.is_ascii_alphabetic())
}

fn read_grid(zone: u8, letter: char, rest: &str) -> Result<Typed, NotAPlace> {
    let packed: String = rest.chars().filter(|c| !c.is_whitespace()).collect();
    let letters: Vec<char> = packed.chars().take_while(char::is_ascii_alphabetic).collect();
    if !(1..=60).contains(&zone) {
        return Err(NotAPlace::NoSuchGrid);
    }
    if let [column, row] = letters[..] {
        let digits = packed.get(2..).unwrap_or_default();
        if digits.len() % 2 == 1 || digits.len() > 10 || !digits.bytes().all(|b| b.is_ascii_digit()) {
            return Err(NotAPlace::NoSuchGrid);
        }
        let square = of_grid(zone, letter, [column, row], digits).ok_or(NotAPlace::NoSuchGrid)?;
        let half = square.side_m / 2.0;
        return Ok(Typed { at: square.middle, within_m: hypot(half, half), notation: Notation::Grid });
    }
    read_utm(zone, letter, rest)
}

/// Easting and northing in metres, with or without `mE`, `mN`.
fn read_utm(zone: u8, letter: char, rest: &str) -> Result<Typed, NotAPlace> {
    let numbers: Vec<&str> =
        rest.split(|c: char| !(c.is_ascii_digit() || c == '.')).filter(|part| !part.is_empty()).collect();
    let [east, north] = numbers[..] else { return Err(NotAPlace::NoSuchGrid) };
    let metres = |text: &str| decimal::read(text).ok_or(NotAPlace::NoSuchGrid);
    let (east_m, north_m) = (metres(east)?, metres(north)?);
    let known = band_edges(letter).ok_or(NotAPlace::NoSuchGrid)?;
    let at = |is_north: bool| of_utm(Utm { zone, north: is_north, east_m, north_m });
    let in_band = |point: &Point| (known.0 - 0.1..known.1 + 0.1).contains(&point.lat_deg);
    // The letter is a band; N and S are also written for the halves of the globe.
    let by_band = at(known.0 >= 0.0).filter(in_band);
    let by_half = match letter {
        'N' => at(true),
        'S' => at(false),
        _ => None,
    };
    let point = by_band.or(by_half).ok_or(NotAPlace::NoSuchGrid)?;
    let decimals = [east, north].map(|text| text.split_once('.').map_or(0, |(_, part)| part.len())).into_iter().min();
    #[allow(clippy::cast_possible_truncation, clippy::cast_possible_wrap)]
    let half = pow(10.0, -f64::from(decimals.unwrap_or(0) as u32)) / 2.0;
    Ok(Typed { at: point, within_m: hypot(half, half), notation: Notation::Utm })
}
