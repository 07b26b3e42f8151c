//! Pairs of carcasses that may be one animal. They are listed for a person; nothing is joined here.

use std::collections::BTreeMap;

use uuid::Uuid;

use super::ages::{self, Classes};
use super::kept::Kept;
use super::places::{DEGREE_M, apart_m, cell_of, degrees};
use super::rows::{nothing_lay_there, place};
use super::table::{DoubleLine, DoubleTable};
use super::{rounded, share, tell};
use crate::reading::for_season::age_and_sex;
use crate::reading::{Given, days_of_death, found_on};
use crate::record::short_code::short_code;
use crate::record::{Answer, Carcass, Place, Site, Value};
use crate::science::age::DeathWindow;
use crate::science::season::doubles::{Around, LISTED_FROM, Pair, UNKNOWN_ERROR_M, common_days, probability};
use crate::science::winter::index::winter_of;

/// Pairs farther apart than this are not compared, metres.
const FARTHEST_M: u32 = 2_000;
/// Days of a season, November to May.
const SEASON_DAYS: i64 = 212;

/// The table.
pub fn table(rows: &[&Kept]) -> DoubleTable {
    let all: Vec<Compared> = rows.iter().map(|row| Compared::of_row(row)).collect();
    let line = |likely: Likely| DoubleLine {
        first: likely.first.code.clone(),
        second: likely.second.code.clone(),
        probability: likely.probability,
        apart_m: likely.apart_m,
        factors: likely.factors,
    };
    DoubleTable {
        pairs: pairs(&all).into_iter().map(line).collect(),
        no_place: all.iter().filter(|one| one.place.is_none()).count(),
        note: tell("season.doubles.note", &[]),
    }
}

/// What is compared of a carcass.
#[derive(Clone, Debug)]
pub struct Compared {
    /// Its id.
    pub carcass: Uuid,
    /// Its short code.
    pub code: String,
    place: Option<Place>,
    window: Option<DeathWindow>,
    age_and_sex: Option<Classes>,
    age_prior: Classes,
    jaw: Option<String>,
    known_before: bool,
}

impl Compared {
    fn of_row(row: &Kept) -> Self {
        Self {
            carcass: row.carcass,
            code: short_code(row.carcass),
            place: row.place.clone(),
            window: row.window(),
            age_and_sex: row.age_and_sex,
            age_prior: *row.age_prior,
            jaw: row.jaw.as_deref().map(str::to_owned),
            known_before: row.known_before,
        }
    }

    /// Of a carcass by itself, with the winter in which it was found; `None` where it counts in no season's figures:
    /// another species, another time of year, no date, or nothing lay there.
    pub fn of(carcass: &Carcass, given: &Given) -> Option<(i32, Self)> {
        let winter = winter_of(found_on(carcass)?);
        let told = age_and_sex(carcass, given);
        if told.closed.is_some() || nothing_lay_there(carcass) {
            return None;
        }
        let days = days_of_death(carcass, given);
        let of = Self {
            carcass: carcass.id,
            code: short_code(carcass.id),
            place: place(carcass),
            window: days.map(|days| DeathWindow { from: days.from, to: days.to }),
            age_and_sex: told.said,
            age_prior: told.prior,
            jaw: jaw(carcass).map(str::to_owned),
            known_before: known_before(carcass),
        };
        Some((winter, of))
    }
}

/// Which part of the jaw was taken, where all who say agree.
pub(super) fn jaw(carcass: &Carcass) -> Option<&str> {
    match carcass.question("jaw_taken", Site::NONE).settled() {
        Some(Answer::Seen { value: Value::Choice(code) }) => Some(code),
        _ => None,
    }
}

/// Whether the crew knew the carcass already.
pub(super) fn known_before(carcass: &Carcass) -> bool {
    super::findings::result(carcass, "known_carcass_revisited") == super::findings::Result::Seen
}

/// Two carcasses that may be one.
#[derive(Clone, Copy, Debug)]
pub struct Likely<'a> {
    /// The one.
    pub first: &'a Compared,
    /// The other.
    pub second: &'a Compared,
    /// Probability that they are one.
    pub probability: f64,
    /// Between the two places, metres, to the ten.
    pub apart_m: f64,
    /// Factors: place, days, age and sex, jaw.
    pub factors: [f64; 4],
}

/// Every pair of one winter's carcasses that is likely enough to be looked at, likeliest first.
pub fn pairs(all: &[Compared]) -> Vec<Likely<'_>> {
    let pairing = Pairing::of(all);
    let mut pairs: Vec<Likely> = (0..pairing.len()).flat_map(|at| pairing.at(at)).collect();
    pairs.sort_by(|a: &Likely, b: &Likely| {
        let codes = |pair: &Likely| (pair.first.code.clone(), pair.second.code.clone());
        b.probability.total_cmp(&a.probability).then_with(|| codes(a).cmp(&codes(b)))
    });
    pairs
}

/// One winter's carcasses laid out by place, to be compared one after the other.
#[derive(Debug)]
pub struct Pairing<'a> {
    placed: Vec<(&'a Compared, &'a Place)>,
    cells: BTreeMap<(i64, i64), Vec<usize>>,
    prior: Option<Vec<f64>>,
    around: Around,
}

impl<'a> Pairing<'a> {
    /// Lays them out.
    pub fn of(all: &'a [Compared]) -> Self {
        let placed: Vec<(&Compared, &Place)> = all.iter().filter_map(|one| Some((one, one.place.as_ref()?))).collect();
        let around = Around {
            carcasses: all.len(),
            area_m2: area_m2(placed.iter().map(|(_, place)| *place)),
            season_days: SEASON_DAYS,
        };
        let prior = ages::prior(all.iter().filter(|one| one.age_and_sex.is_some()).map(|one| &one.age_prior));
        let mut cells: BTreeMap<(i64, i64), Vec<usize>> = BTreeMap::new();
        for (at, (_, place)) in placed.iter().enumerate() {
            cells.entry(cell_of(place, FARTHEST_M)).or_default().push(at);
        }
        Self { placed, cells, prior, around }
    }

    /// How many have a place.
    pub const fn len(&self) -> usize {
        self.placed.len()
    }

    /// Whether none has.
    pub const fn is_empty(&self) -> bool {
        self.placed.is_empty()
    }

    /// The pairs of one of them with those behind it, in no order.
    pub fn at(&self, at: usize) -> Vec<Likely<'a>> {
        let mut pairs = Vec::new();
        let Some((one, place)) = self.placed.get(at) else { return pairs };
        // Columns of the rows above and below do not line up: their cells are found by a place moved there.
        for near in around_cells(place) {
            for other in self.cells.get(&near).into_iter().flatten().filter(|other| **other > at) {
                let Some((with, there)) = self.placed.get(*other) else { continue };
                pairs.extend(pair((one, place), (with, there), self.prior.as_deref(), &self.around));
            }
        }
        pairs
    }
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

fn pair<'a>(
    (a, place_a): (&'a Compared, &Place),
    (b, place_b): (&'a Compared, &Place),
    prior: Option<&[f64]>,
    around: &Around,
) -> Option<Likely<'a>> {
    let error = |place: &Place| place.accuracy_m_95.map_or(UNKNOWN_ERROR_M, f64::from);
    let distance = apart_m(place_a, place_b);
    let days = a.window.zip(b.window).map(|(a, b)| {
        let numbers = |w: DeathWindow| (w.from.to_julian_day(), w.to.to_julian_day());
        let (a, b) = (numbers(a), numbers(b));
        (common_days(a, b), i64::from(a.1 - a.0) + 1, i64::from(b.1 - b.0) + 1)
    });
    let compared = Pair {
        apart: Some((distance, error(place_a), error(place_b))),
        days,
        age_and_sex: prior.and_then(|prior| same_age_and_sex(a, b, prior)),
        same_jaw: same_jaw(a, b),
        known_before: a.known_before || b.known_before,
    };
    let (likely, factors) = probability(&compared, around);
    (likely >= LISTED_FROM).then(|| Likely {
        first: a,
        second: b,
        probability: share(likely),
        apart_m: rounded(distance, -1),
        factors: factors.map(|factor| rounded(factor, 3)),
    })
}

/// How much more often two looks at one animal say this than looks at two: the sum over ages and sexes of both
/// likelihoods, over the product of each sum.
fn same_age_and_sex(a: &Compared, b: &Compared, prior: &[f64]) -> Option<f64> {
    let (a, b) = (a.age_and_sex?.concat(), b.age_and_sex?.concat());
    let over = |of: &dyn Fn(f64, f64) -> f64| -> f64 {
        prior.iter().zip(a.iter().zip(&b)).map(|(p, (a, b))| p * of(*a, *b)).sum()
    };
    let (both, first, second) = (over(&|a, b| a * b), over(&|a, _| a), over(&|_, b| b));
    (first > 0.0 && second > 0.0).then(|| both / (first * second))
}

/// Whether both had the same half of the jaw taken, or one of them the whole.
fn same_jaw(a: &Compared, b: &Compared) -> Option<bool> {
    let (a, b) = (a.jaw.as_deref()?, b.jaw.as_deref()?);
    let half = |code: &str| matches!(code, "left_half" | "right_half");
    Some(!(half(a) && half(b) && a != b))
}
