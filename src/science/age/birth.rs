//! When deer are born, and so how many months old a deer of each class is when it dies.

use std::sync::OnceLock;

use serde::{Deserialize, Serialize};
use time::{Date, Month};

use super::evidence::DeathWindow;
use crate::science::source::{Mark, Source};
use crate::science::special::normal_cdf;

/// What the birth dates rest on.
pub const BIRTH_DATES: Source = Source::new(
    "birth-dates",
    "three waves of births round 3 June, from Haugen 1975 and the Pennsylvania Game Commission",
    Mark::Design,
);

/// Mean length of a month, days.
pub const DAYS_PER_MONTH: f64 = 30.4375;
/// Southern limit of the birth dates, degrees north. Design.
pub const SOUTHERN_LIMIT_DEG: f64 = 38.0;

/// When most fawns of a region are born: the first wave. The two later ones (does bred as fawns, second
/// heats) keep their shares, their spread and their distance from it.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct Births {
    /// Mean of the first wave, days after 3 June; below zero before it.
    pub mean_day: f64,
    /// Its standard deviation, days.
    pub sd_days: f64,
}

/// Earliest and latest mean that is taken, days after 3 June: 25 May and 10 June. Design.
pub const MEAN_DAYS: (f64, f64) = (-9.0, 7.0);
/// Smallest and largest spread that is taken, days. Ours.
pub const SD_DAYS: (f64, f64) = (3.0, 20.0);

impl Default for Births {
    fn default() -> Self {
        Self { mean_day: MAIN.mean_day, sd_days: MAIN.sd_days }
    }
}

impl Births {
    /// First and last day of all but the odd birth, days after 3 June: three standard deviations before the
    /// first two waves, and the end of the last.
    pub fn span_days(&self) -> (f64, f64) {
        let shift = self.mean_day - MAIN.mean_day;
        let first = (self.mean_day - ODD_SD * self.sd_days).min(SECOND.mean_day + shift - ODD_SD * SECOND.sd_days);
        (first, LATE_TO + shift)
    }

    /// Whether the waves can be used.
    pub fn is_sound(&self) -> bool {
        (MEAN_DAYS.0..=MEAN_DAYS.1).contains(&self.mean_day) && (SD_DAYS.0..=SD_DAYS.1).contains(&self.sd_days)
    }
}

/// Birth dates north of 40 N as shares of three waves. Design, from Haugen 1975 (Iowa) and the
/// Pennsylvania Game Commission's study of 3,180 does, at 200 days of gestation.
const MAIN: Wave = Wave { share: 0.88, mean_day: 0.0, sd_days: 11.0 };
const SECOND: Wave = Wave { share: 0.10, mean_day: 26.0, sd_days: 20.0 };
/// Evenly from 15 July to 30 August, in days after 3 June.
const LATE_SHARE: f64 = 0.02;
const LATE_FROM: f64 = 42.0;
const LATE_TO: f64 = 88.0;
/// Day 0 of the waves.
const ORIGIN: (Month, u8) = (Month::June, 3);
/// First and last day of the grid after [`ORIGIN`], and its step.
const GRID_FROM: i32 = -48;
const GRID_TO: i32 = 107;
const STEP: i32 = 5;
/// Width of a cell of months.
const CELL_MONTHS: f64 = 0.25;
/// Standard deviations beyond which a birth is odd. Ours.
const ODD_SD: f64 = 3.0;
/// Most days of the window that are tried.
const MOST_DAYS: i64 = 16;

struct Wave {
    share: f64,
    mean_day: f64,
    sd_days: f64,
}

impl Wave {
    fn mass(&self, from: f64, to: f64) -> f64 {
        let z = |day: f64| (day - self.mean_day) / self.sd_days;
        self.share * (normal_cdf(z(to)) - normal_cdf(z(from)))
    }
}

/// A cell of age within the class: months since birth, less the completed years.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct MonthCell {
    /// Number of the cell from birth, each a quarter of a month wide.
    pub index: usize,
    /// Its share.
    pub weight: f64,
}

impl MonthCell {
    /// Middle of the cell, months.
    pub const fn months(&self) -> f64 {
        middle_of(self.index)
    }
}

/// Cells in a year.
pub const CELLS_PER_YEAR: usize = 48;

/// Middle of a cell, months.
pub const fn middle_of(cell: usize) -> f64 {
    (cell as f64 + 0.5) * CELL_MONTHS
}

/// Half the width of a cell, months.
pub const fn cell_half_width() -> f64 {
    CELL_MONTHS / 2.0
}

/// Months since the last birth season at death, over all birth dates and all days of the window.
/// `births` must be sound.
/// Weights sum to one. The window must lie within November to May of one winter.
pub fn months_at_death(window: DeathWindow, births: Births) -> Vec<MonthCell> {
    let own;
    let grid: &[(f64, f64)] = if births == Births::default() {
        default_grid()
    } else {
        own = grid(births);
        &own
    };
    let mut cells: Vec<f64> = Vec::new();
    let last = i64::from(window.to.to_julian_day()) - i64::from(window.from.to_julian_day());
    let tried = (last + 1).clamp(1, MOST_DAYS);
    let first = days_since_origin(window.from);
    for step in 0..tried {
        // Evenly spread, ends included.
        let offset = if tried == 1 { 0 } else { last * step / (tried - 1) };
        add_day(&mut cells, grid, first + offset as f64);
    }
    let total: f64 = cells.iter().sum();
    cells
        .into_iter()
        .enumerate()
        .filter(|(_, weight)| *weight > 0.0)
        .map(|(index, weight)| MonthCell { index, weight: weight / total })
        .collect()
}

/// The grid of the births that hold where the office says nothing else.
fn default_grid() -> &'static [(f64, f64)] {
    static BIRTHS: OnceLock<Vec<(f64, f64)>> = OnceLock::new();
    BIRTHS.get_or_init(|| grid(Births::default()))
}

/// Middle of each step of the grid of birth dates, days after [`ORIGIN`], and its share.
fn grid(births: Births) -> Vec<(f64, f64)> {
    let shift = births.mean_day - MAIN.mean_day;
    let main = Wave { mean_day: births.mean_day, sd_days: births.sd_days, ..MAIN };
    let second = Wave { mean_day: SECOND.mean_day + shift, ..SECOND };
    let (late_from, late_to) = (LATE_FROM + shift, LATE_TO + shift);
    let starts = (GRID_FROM..GRID_TO).step_by(STEP.unsigned_abs() as usize);
    starts
        .map(|low| {
            let (from, to) = (f64::from(low), f64::from(low + STEP));
            let late = (to.min(late_to) - from.max(late_from)).max(0.0) / (late_to - late_from);
            (f64::midpoint(from, to), main.mass(from, to) + second.mass(from, to) + LATE_SHARE * late)
        })
        .collect()
}

/// Adds one day of death to the weights of the cells.
fn add_day(cells: &mut Vec<f64>, grid: &[(f64, f64)], days: f64) {
    for (birthday, weight) in grid {
        let months = (days - birthday) / DAYS_PER_MONTH;
        if months <= 0.0 {
            continue;
        }
        #[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss)] // months are small, above zero
        let cell = (months / CELL_MONTHS) as usize;
        if cells.len() <= cell {
            cells.resize(cell + 1, 0.0);
        }
        if let Some(total) = cells.get_mut(cell) {
            *total += weight;
        }
    }
}

/// Days from the last 3 June that lies before the winter of `date`.
fn days_since_origin(date: Date) -> f64 {
    let year = if date.month() as u8 >= Month::July as u8 { date.year() } else { date.year() - 1 };
    let origin = Date::from_calendar_date(year, ORIGIN.0, ORIGIN.1).map_or(0, Date::to_julian_day);
    f64::from(date.to_julian_day() - origin)
}

/// Months of a deer of `birthdays` completed birthdays if it was born on 1 June: the plain figure for
/// display.
pub fn nominal_months(birthdays: u8, death: Date) -> f64 {
    // 1 June is two days before the origin of the waves.
    (days_since_origin(death) + 2.0) / DAYS_PER_MONTH + 12.0 * f64::from(birthdays)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn day(year: i32, month: Month, day: u8) -> Date {
        Date::from_calendar_date(year, month, day).unwrap()
    }

    /// Worked from (death - 1 June) / 30.4375.
    #[test]
    fn nominal() {
        for (date, months) in [
            (day(2025, Month::December, 1), 6.01),
            (day(2026, Month::January, 15), 7.49),
            (day(2026, Month::February, 15), 8.51),
            (day(2026, Month::March, 15), 9.43),
            (day(2026, Month::April, 15), 10.45),
        ] {
            assert!((nominal_months(0, date) - months).abs() < 0.006, "{date}");
            assert!((nominal_months(1, date) - months - 12.0).abs() < 0.006, "{date}");
        }
    }

    /// Shares of the mixture as designed: mean 3 June + 0.1 * 26 d + 0.02 * 65 d = 6.9 June.
    #[test]
    fn cells_are_a_distribution() {
        let feb = day(2026, Month::February, 15);
        let cells = months_at_death(DeathWindow { from: feb, to: feb }, Births::default());
        let total: f64 = cells.iter().map(|c| c.weight).sum();
        assert!((total - 1.0).abs() < 1e-12);
        let mean: f64 = cells.iter().map(|c| c.weight * c.months()).sum();
        let expected = (257.0 - (0.10 * 26.0 + 0.02 * 65.0)) / DAYS_PER_MONTH;
        assert!((mean - expected).abs() < 0.02, "{mean} {expected}");
    }

    /// A region's own mean moves every deer by as much; its own spread widens the months.
    #[test]
    fn a_region_of_its_own() {
        let feb = day(2026, Month::February, 15);
        let spread = |births| {
            let cells = months_at_death(DeathWindow { from: feb, to: feb }, births);
            let mean: f64 = cells.iter().map(|c| c.weight * c.months()).sum();
            let var: f64 = cells.iter().map(|c| c.weight * (c.months() - mean) * (c.months() - mean)).sum();
            (mean, var)
        };
        let (mean, var) = spread(Births::default());
        let (earlier, same) = spread(Births { mean_day: -9.0, ..Births::default() });
        assert!((earlier - mean - 9.0 / DAYS_PER_MONTH).abs() < 0.02, "{earlier} {mean}");
        assert!((same - var).abs() < 0.02);
        let (_, wider) = spread(Births { sd_days: 18.0, ..Births::default() });
        // The first wave is 0.88 of all: its variance in days grows by 18 squared less 11 squared.
        let grown = 0.88 * (18.0 * 18.0 - 11.0 * 11.0) / (DAYS_PER_MONTH * DAYS_PER_MONTH);
        assert!((wider - var - grown).abs() < 0.1 * grown, "{wider} {var} {grown}");
        assert!(!Births { mean_day: 20.0, sd_days: 11.0 }.is_sound());
        assert!(!Births { mean_day: 0.0, sd_days: f64::NAN }.is_sound());
    }

    #[test]
    fn a_window_moves_and_widens_the_months() {
        let window = DeathWindow { from: day(2025, Month::December, 1), to: day(2026, Month::April, 30) };
        let cells = months_at_death(window, Births::default());
        let mean: f64 = cells.iter().map(|c| c.weight * c.months()).sum();
        assert!((mean - 8.3).abs() < 0.2, "{mean}");
        assert!((cells.iter().map(|c| c.weight).sum::<f64>() - 1.0).abs() < 1e-12);
    }
}
