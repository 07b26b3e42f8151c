//! Degrees, with or without minutes and seconds, with signs or letters for the halves of the globe.

use libm::{hypot, pow};

use crate::order::decimal;

use super::Point;
use super::distance::between;
use super::typed::{NotAPlace, Notation, Typed};

/// One number of a coordinate, or a letter.
#[derive(Clone, Debug, PartialEq)]
enum Piece {
    Number { value: f64, decimals: u32, minus: bool },
    Half(char),
}

/// Latitude and longitude as typed, in capitals.
pub(super) fn read_degrees(text: &str) -> Result<Typed, NotAPlace> {
    let pieces = pieces(&decimal_points(text)?)?;
    let (first, second) = halves(&pieces)?;
    let (first, second) = (angle(first)?, angle(second)?);
    // Longitude first is taken only where letters say so.
    let (lat, lon) = match (first.letter, second.letter) {
        (Some('E' | 'W'), None | Some('N' | 'S')) => (second, first),
        (Some('N' | 'S') | None, Some('E' | 'W') | None) | (None, Some('N' | 'S')) => {
            if second.letter.is_some_and(|l| matches!(l, 'N' | 'S')) { (second, first) } else { (first, second) }
        }
        _ => return Err(NotAPlace::NotUnderstood),
    };
    if lat.degrees.abs() > 90.0 && lon.degrees.abs() <= 90.0 && lat.letter.is_none() {
        return Err(NotAPlace::Swapped);
    }
    if lat.degrees.abs() > 90.0 || lon.degrees.abs() > 180.0 {
        return Err(NotAPlace::OutOfRange);
    }
    let at = Point { lat_deg: lat.degrees, lon_deg: lon.degrees };
    Ok(Typed { at, within_m: rounding_m(at, lat.half_unit_deg, lon.half_unit_deg), notation: Notation::Degrees })
}

/// How far half a unit of the last digit reaches, both ways together.
fn rounding_m(at: Point, lat_deg: f64, lon_deg: f64) -> f64 {
    let towards =
        |lat: f64, lon: f64| between(at, Point { lat_deg: at.lat_deg + lat, lon_deg: at.lon_deg + lon }).distance_m;
    let south = if at.lat_deg > 0.0 { -1.0 } else { 1.0 };
    hypot(towards(south * lat_deg, 0.0), towards(0.0, lon_deg))
}

/// Turns decimal commas into points. A comma between digits is a decimal sign where there are two of them or
/// where a blank parts the two numbers; a comma beside a blank or a sign stands between the numbers.
fn decimal_points(text: &str) -> Result<String, NotAPlace> {
    let bytes = text.as_bytes();
    let digit = |place: Option<usize>| place.and_then(|p| bytes.get(p)).is_some_and(u8::is_ascii_digit);
    let inner: Vec<usize> = text
        .match_indices(',')
        .map(|(place, _)| place)
        .filter(|&place| digit(place.checked_sub(1)) && digit(Some(place + 1)))
        .collect();
    if inner.is_empty() || text.contains('.') {
        return Ok(text.replace(',', " "));
    }
    let parted = text.split([' ', ';', '/']).filter(|part| part.contains(|c: char| c.is_ascii_digit())).count() > 1;
    if !parted {
        return Err(NotAPlace::CommaUnclear);
    }
    let mut out = String::with_capacity(text.len());
    for (place, c) in text.char_indices() {
        out.push(match c {
            ',' if inner.contains(&place) => '.',
            ',' => ' ',
            other => other,
        });
    }
    Ok(out)
}

fn pieces(text: &str) -> Result<Vec<Piece>, NotAPlace> {
    let mut out = Vec::new();
    let mut rest = text;
    while let Some(c) = rest.chars().next() {
        let end = rest.find(|c: char| !(c.is_ascii_digit() || c == '.')).unwrap_or(rest.len());
        match c {
            '0'..='9' | '.' => {
                let number = rest.get(..end).unwrap_or_default();
                let value = decimal::read(number).ok_or(NotAPlace::NotUnderstood)?;
                let decimals = number.split_once('.').map_or(0, |(_, part)| part.len());
                let before = text.get(..text.len() - rest.len()).unwrap_or_default();
                let minus = before.ends_with(['-', '\u{2212}']);
                out.push(Piece::Number { value, decimals: u32::try_from(decimals).unwrap_or(0), minus });
                rest = rest.get(end..).unwrap_or_default();
                continue;
            }
            // O: ouest, oeste.
            'N' | 'S' | 'E' | 'W' | 'O' => out.push(Piece::Half(if c == 'O' { 'W' } else { c })),
            c if c.is_ascii_alphabetic() => return Err(NotAPlace::NotUnderstood),
            _ => {}
        }
        rest = rest.get(c.len_utf8()..).unwrap_or_default();
    }
    Ok(out)
}

/// The pieces of the one and of the other coordinate: parted by letters where there are some, in the middle
/// otherwise.
fn halves(pieces: &[Piece]) -> Result<(&[Piece], &[Piece]), NotAPlace> {
    let letters: Vec<usize> =
        pieces.iter().enumerate().filter(|(_, p)| matches!(p, Piece::Half(_))).map(|(place, _)| place).collect();
    let cut = match letters[..] {
        [] => pieces.len() / 2,
        [0, second] => second,
        [first, _] => first + 1,
        _ => return Err(NotAPlace::NotUnderstood),
    };
    let (first, second) = pieces.split_at_checked(cut).ok_or(NotAPlace::NotUnderstood)?;
    let numbers = |part: &[Piece]| part.iter().filter(|p| matches!(p, Piece::Number { .. })).count();
    let counts = (numbers(first), numbers(second));
    if counts.0 != counts.1 || !(1..=3).contains(&counts.0) {
        return Err(NotAPlace::NotUnderstood);
    }
    Ok((first, second))
}

struct Angle {
    degrees: f64,
    half_unit_deg: f64,
    letter: Option<char>,
}

fn angle(pieces: &[Piece]) -> Result<Angle, NotAPlace> {
    let (mut degrees, mut unit, mut minus, mut letter, mut half_unit_deg) = (0.0, 1.0, false, None, 0.0);
    let mut had_fraction = false;
    for piece in pieces {
        match piece {
            Piece::Half(half) => letter = Some(*half),
            Piece::Number { value, decimals, minus: sign } => {
                let later = unit < 1.0;
                // A dash between degrees and minutes is no sign.
                if had_fraction || later && *value >= 60.0 {
                    return Err(NotAPlace::BadMinutes);
                }
                minus |= *sign && !later;
                had_fraction = *decimals > 0;
                degrees += value * unit;
                half_unit_deg = unit * pow(10.0, -f64::from(*decimals)) / 2.0;
                unit /= 60.0;
            }
        }
    }
    // `-84 W` says west twice; west it is.
    let turned = minus || matches!(letter, Some('S' | 'W'));
    Ok(Angle { degrees: if turned { -degrees } else { degrees }, half_unit_deg, letter })
}
