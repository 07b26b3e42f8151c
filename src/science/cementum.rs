//! Rings of tooth cementum, counted by a laboratory: evidence that comes weeks later and is joined to the
//! rest, not put in its place.
//!
//! A count is not the truth: 16 % right in one Texas study (Cook and Hart 1979), 71 % in another (Jacobson
//! and Reiner 1989); both age methods make old deer too young (Foley and others 2022). Northern winters make
//! clearer rings.

use serde::{Deserialize, Serialize};

use super::source::{Mark, Source};

/// What a count rests on.
pub static SOURCES: [Source; 5] = [
    Source::new(
        "cementum-lab",
        "a commercial laboratory's own statement for 307,067 white-tailed deer: about 70 % exact, about 90 % within a year; not peer reviewed",
        Mark::Seen,
    ),
    Source::new("cementum-errors", "0.70 exact, 0.10 a year off either way, the rest spread evenly", Mark::Design),
    Source::new(
        "cementum-grades",
        "0.85, 0.65 and 0.45 exact for the three grades of certainty; grades as in Storm and others 2014, their rates were not found",
        Mark::Design,
    ),
    Source::new("cook-hart-1979", "Cook and Hart 1979, Proc. SEAFWA: 4 of 25 known-age deer right", Mark::Seen),
    Source::new(
        "jacobson-reiner-1989",
        "Jacobson and Reiner 1989, Proc. SEAFWA: 71 % of 76 known-age deer right; wear better below 3.5 years, rings above",
        Mark::Seen,
    ),
];

/// Oldest white-tailed deer that a laboratory reported, years; a larger count is a slip of the pen.
pub const OLDEST_YEARS: u8 = 22;
/// Counts above this are read as this: beyond it the base has no deer (oldest wolf-killed deer 14 and more,
/// Mech and Frenzel 1971, table 4).
const LAST: u8 = 14;
/// Ages that a count can have.
const AGES: u8 = LAST + 1;
/// Of what is not exact, the share that falls a year short, and as much a year over. From 70 % and 90 %.
const NEIGHBOUR_SHARE: f64 = 1.0 / 3.0;
/// Yearly survival of grown does, Nelson and Mech 1986: how ages thin out within nine and more.
const SURVIVAL: f64 = 0.79;
/// Least likelihood: no single count rules an age out. Design.
const FLOOR: f64 = 0.002;

/// How sure the laboratory was.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Grade {
    /// The best of three.
    Best,
    /// The middle one.
    Middle,
    /// The lowest.
    Lowest,
}

/// A laboratory's count.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct LabAge {
    /// Completed birthdays.
    pub years: u8,
    /// Its certainty, where the laboratory gives one.
    pub grade: Option<Grade>,
}

/// A count that no deer has.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize, thiserror::Error)]
#[error("no white-tailed deer of more than {OLDEST_YEARS} years is known to a laboratory")]
pub struct TooManyRings;

impl LabAge {
    /// A count with its certainty. Refused above [`OLDEST_YEARS`].
    pub fn new(years: u8, grade: Option<Grade>) -> Result<Self, TooManyRings> {
        if years > OLDEST_YEARS { Err(TooManyRings) } else { Ok(Self { years, grade }) }
    }

    /// Probability that a count of this grade is exact.
    pub const fn exact(self) -> f64 {
        match self.grade {
            None => 0.70,
            Some(Grade::Best) => 0.85,
            Some(Grade::Middle) => 0.65,
            Some(Grade::Lowest) => 0.45,
        }
    }

    /// Probability of this count for a deer of exactly `age` completed birthdays, 0 to 14.
    fn given_age(self, age: u8) -> f64 {
        let exact = self.exact();
        let neighbour = NEIGHBOUR_SHARE * (1.0 - exact);
        let rest = (1.0 - exact - 2.0 * neighbour) / f64::from(AGES - 3);
        let weight = |count: u8| match count.abs_diff(age) {
            0 => exact,
            1 => neighbour,
            _ => rest,
        };
        // At either end one neighbour is lacking.
        let total: f64 = (0..AGES).map(weight).sum();
        weight(self.years.min(LAST)) / total
    }

    /// Probability of this count for each class of completed birthdays, the last nine and more.
    pub fn probabilities(self) -> [f64; 10] {
        let mut classes = [0.0; 10];
        for (class, slot) in (0_u8..).zip(&mut classes) {
            *slot = if class < 9 { self.given_age(class) } else { self.given_nine_and_more() };
        }
        classes
    }

    fn given_nine_and_more(self) -> f64 {
        let (mut left, mut sum) = (1.0, 0.0);
        for age in 9..LAST {
            sum += left * (1.0 - SURVIVAL) * self.given_age(age);
            left *= SURVIVAL;
        }
        sum + left * self.given_age(LAST)
    }

    /// The same, none below the floor.
    pub fn likelihood(self) -> [f64; 10] {
        self.probabilities().map(|p| p.max(FLOOR))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    const GRADES: [Option<Grade>; 4] = [None, Some(Grade::Best), Some(Grade::Middle), Some(Grade::Lowest)];

    /// The laboratory's own statement: about 70 % exact, about 90 % within a year; grades as designed.
    #[test]
    fn shares() {
        let row = |grade| LabAge { years: 5, grade }.probabilities();
        let [.., four, five, six, _, _, _] = row(None);
        assert!((five - 0.70).abs() < 1e-12 && (four + five + six - 0.90).abs() < 1e-12);
        for (grade, exact) in GRADES.into_iter().zip([0.70, 0.85, 0.65, 0.45]) {
            assert!((row(grade)[5] - exact).abs() < 1e-12, "{grade:?}");
        }
    }

    /// For every age, the counts that it can give sum to one.
    #[test]
    fn counts_of_an_age_are_a_distribution() {
        for grade in GRADES {
            for class in 0..10 {
                let total: f64 = (0..AGES).map(|years| LabAge { years, grade }.probabilities()[class]).sum();
                assert!((total - 1.0).abs() < 1e-12, "{grade:?} {class}: {total}");
            }
        }
    }

    /// The class counted gains on every other. At nine only those two years off: nine and more is spread
    /// over many counts, so that a doubtful nine may as well be eight and one ring too many.
    #[test]
    fn the_class_counted_gains_most() {
        for grade in GRADES {
            for years in 0..=OLDEST_YEARS {
                let row = LabAge::new(years, grade).unwrap().likelihood();
                let counted = usize::from(years.min(9));
                let others = row.iter().enumerate().filter(|(c, _)| *c != counted && (years != 9 || *c != 8));
                assert!(others.into_iter().all(|(_, p)| *p < row[counted]), "{grade:?} {years}: {row:?}");
                assert!(row.iter().all(|p| *p >= FLOOR));
            }
        }
    }

    #[test]
    fn a_slip_of_the_pen_is_refused() {
        assert_eq!(LabAge::new(45, None), Err(TooManyRings));
        assert!(LabAge::new(OLDEST_YEARS, None).is_ok());
    }
}
