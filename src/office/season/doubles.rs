//! Pairs of carcasses that may be one animal. They are listed for a person; nothing is joined here.

use std::collections::BTreeMap;

use super::ages;
use super::places::{DEGREE_M, apart_m, cell_of, degrees};
use super::rows::Row;
use super::table::{DoubleLine, DoubleTable};
use super::{rounded, share, tell};
use crate::record::{Place, Site};
use crate::science::season::doubles::{Around, LISTED_FROM, Pair, UNKNOWN_ERROR_M, common_days, probability};

/// Pairs farther apart than this are not compared, metres.
const FARTHEST_M: u32 = 2_000;
/// Days of a season, November to May.
const SEASON_DAYS: i64 = 212;

/// The table.
pub fn table(rows: &[&Row]) -> DoubleTable {
    let placed: Vec<(&Row, &Place)> = rows.iter().filter_map(|row| Some((*row, row.place.as_ref()?))).collect();
    let around = Around {
        carcasses: rows.len(),
        area_m2: area_m2(placed.iter().map(|(_, place)| *place)),
        season_days: SEASON_DAYS,
    };
    let prior = ages::said(rows).map(|(prior, _)| prior);
    let mut cells: BTreeMap<(i64, i64), Vec<usize>> = BTreeMap::new();
    for (at, (_, place)) in placed.iter().enumerate() {
        cells.entry(cell_of(place, FARTHEST_M)).or_default().push(at);
    }
    let mut pairs = Vec::new();
    for (at, (row, place)) in placed.iter().enumerate() {
        // Columns of the rows above and below do not line up: their cells are found by a place moved there.
        for near in around_cells(place) {
            for other in cells.get(&near).into_iter().flatten().filter(|other| **other > at) {
                let Some((with, there)) = placed.get(*other) else { continue };
                pairs.extend(pair(row, place, with, there, prior.as_deref(), &around));
            }
        }
    }
    pairs.sort_by(|a, b| {
        b.probability.total_cmp(&a.probability).then_with(|| (&a.first, &a.second).cmp(&(&b.first, &b.second)))
    });
    DoubleTable { pairs, no_place: rows.len() - placed.len(), note: tell("season.doubles.note", &[]) }
}

/// The cell of a place and those within one step of it, each once.
fn around_cells(place: &Place) -> Vec<(i64, i64)> {
    #[allow(clippy::cast_possible_truncation)] // some kilometres
    let step = (f64::from(FARTHEST_M) / DEGREE_M * 1e7) as i64;
    let mut all = Vec::new();
    for north in [-1, 0, 1] {
        let moved = Place { lat_e7: place.lat_e7 + north * step, ..place.clone() };
        let (row, column) = cell_of(&moved, FARTHEST_M);
        all.extend([column - 1, column, column + 1].map(|column| (row, column)));
    }
    all.sort_unstable();
    all.dedup();
    all
}

/// The rectangle round all places, square metres, a square kilometre at least.
fn area_m2<'p>(places: impl Iterator<Item = &'p Place>) -> f64 {
    let mut ends: Option<[f64; 4]> = None;
    for (latitude, longitude) in places.map(degrees) {
        let [south, north, west, east] = ends.unwrap_or([latitude, latitude, longitude, longitude]);
        ends = Some([south.min(latitude), north.max(latitude), west.min(longitude), east.max(longitude)]);
    }
    let Some([south, north, west, east]) = ends else { return 1e6 };
    let width = (east - west) * DEGREE_M * libm::cos(f64::midpoint(south, north).to_radians());
    ((north - south) * DEGREE_M * width).max(1e6)
}

fn pair(
    a: &Row,
    place_a: &Place,
    b: &Row,
    place_b: &Place,
    prior: Option<&[f64]>,
    around: &Around,
) -> Option<DoubleLine> {
    let error = |place: &Place| place.accuracy_m_95.map_or(UNKNOWN_ERROR_M, f64::from);
    let distance = apart_m(place_a, place_b);
    let days = a.window().zip(b.window()).map(|(a, b)| {
        let numbers = |w: crate::science::age::DeathWindow| (w.from.to_julian_day(), w.to.to_julian_day());
        let (a, b) = (numbers(a), numbers(b));
        (common_days(a, b), i64::from(a.1 - a.0) + 1, i64::from(b.1 - b.0) + 1)
    });
    let known =
        |row: &Row| super::findings::result(row.carcass, "known_carcass_revisited") == super::findings::Result::Seen;
    let compared = Pair {
        apart: Some((distance, error(place_a), error(place_b))),
        days,
        age_and_sex: prior.and_then(|prior| age_and_sex(a, b, prior)),
        same_jaw: same_jaw(a, b),
        known_before: known(a) || known(b),
    };
    let (likely, factors) = probability(&compared, around);
    (likely >= LISTED_FROM).then(|| DoubleLine {
        first: a.code.clone(),
        second: b.code.clone(),
        probability: share(likely),
        apart_m: rounded(distance, -1),
        factors: factors.map(|factor| rounded(factor, 3)),
    })
}

/// How much more often two looks at one animal say this than looks at two: the sum over ages and sexes of both
/// likelihoods, over the product of each sum.
fn age_and_sex(a: &Row, b: &Row, prior: &[f64]) -> Option<f64> {
    let (a, b) = (a.view.age_and_sex?.concat(), b.view.age_and_sex?.concat());
    let over = |of: &dyn Fn(f64, f64) -> f64| -> f64 {
        prior.iter().zip(a.iter().zip(&b)).map(|(p, (a, b))| p * of(*a, *b)).sum()
    };
    let (both, first, second) = (over(&|a, b| a * b), over(&|a, _| a), over(&|_, b| b));
    (first > 0.0 && second > 0.0).then(|| both / (first * second))
}

/// Whether both had the same half of the jaw taken, or one of them the whole.
fn same_jaw(a: &Row, b: &Row) -> Option<bool> {
    let taken = |row: &Row| match row.carcass.question("jaw_taken", Site::NONE).settled() {
        Some(crate::record::Answer::Seen { value: crate::record::Value::Choice(code) }) => Some(code.clone()),
        _ => None,
    };
    let (a, b) = (taken(a)?, taken(b)?);
    let half = |code: &str| matches!(code, "left_half" | "right_half");
    Some(!(half(&a) && half(&b) && a != b))
}
