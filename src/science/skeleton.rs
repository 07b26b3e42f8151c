//! What the bones of a carcass without teeth still tell: growing ends of leg bones, antlers, size.

use serde::{Deserialize, Serialize};

use super::source::{Mark, Source};
use super::special::normal_cdf;

/// Growing ends.
pub static PLATE_SOURCES: [Source; 2] = [
    Source::new(
        "purdue-1983",
        "Purdue 1983, J. Wildl. Manage. 47:1207-1213, as a data note of 2021 tells it: lower end of the cannon bones",
        Mark::Seen,
    ),
    Source::new("plate-cuts", "stages parted at 20 and 29 months, spreads 2 and 1.5 months", Mark::Design),
];
/// Growing end of the radius.
pub static RADIUS_SOURCES: [Source; 2] = [
    Source::new(
        "flinn-2013",
        "Flinn, Strickland, Demarais and Christiansen 2013, Southeast. Nat. 12:297-306: all closed by 3.5 years",
        Mark::Seen,
    ),
    Source::new("radius-cut", "an open end taken as under about 3 years; a closed one says nothing", Mark::Ours),
];
/// Antlers.
pub static BEAM_SOURCES: [Source; 1] = [Source::new(
    "antler-beam",
    "Great Plains Research 23:33-37, 2013: main beam below 364 mm 114 of 123 yearlings, else 251 of 271 older bucks",
    Mark::Seen,
)];
/// Size.
pub static SIZE_SOURCES: [Source; 1] = [Source::new(
    "size-z",
    "fawn 2 and yearling half a standard deviation below the local adult mean; fawn against older only",
    Mark::Design,
)];

/// Least likelihood: no single look rules an age out. Design.
const FLOOR: f64 = 0.002;

/// The growing end of a leg bone.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Plate {
    /// A gap.
    Open,
    /// Grown together, the line still to be seen.
    Line,
    /// No line.
    Closed,
}

impl Plate {
    /// All stages, youngest first.
    pub const ALL: [Self; 3] = [Self::Open, Self::Line, Self::Closed];
}

/// Where an open end gives way to a line, and a line to none: months and spread.
const CUTS: [(f64, f64); 2] = [(20.0, 2.0), (29.0, 1.5)];
/// An open radius gives way. Ours: 2 % still open at 42 months.
const RADIUS_CUT: (f64, f64) = (36.0, 3.0);

fn passed((months, sd): (f64, f64), at: f64) -> f64 {
    normal_cdf((at - months) / sd)
}

/// Probabilities of the three stages of the lower end of a cannon bone (metacarpus or metatarsus) at
/// `months`. They sum to one.
pub fn cannon_stages(months: f64) -> [f64; 3] {
    let [line, closed] = CUTS.map(|cut| passed(cut, months));
    [1.0 - line, (line - closed).max(0.0), closed]
}

/// Likelihood of a stage of the lower end of a radius at `months`. Only an open one speaks: the source
/// prints when the last has closed, not when the first does.
pub fn radius_likelihood(plate: Plate, months: f64) -> f64 {
    match plate {
        Plate::Open => (1.0 - passed(RADIUS_CUT, months)).max(FLOOR),
        Plate::Line | Plate::Closed => 1.0,
    }
}

/// Length of a main beam that parts yearling bucks from older ones, mm.
pub const BEAM_PARTS_AT_MM: f64 = 364.0;
/// How often the rule is right, both ways.
const BEAM_RIGHT: f64 = 0.93;

/// What a main beam says.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum BeamCall {
    /// Below the limit.
    Yearling,
    /// At the limit or above.
    TwoOrMore,
}

/// Reads the length of a main beam, mm. `None` where it is no length.
pub fn read_beam(beam_mm: f64) -> Option<BeamCall> {
    if !beam_mm.is_finite() || beam_mm <= 0.0 {
        return None;
    }
    Some(if beam_mm < BEAM_PARTS_AT_MM { BeamCall::Yearling } else { BeamCall::TwoOrMore })
}

impl BeamCall {
    /// Likelihood for a buck of each class of completed birthdays. A fawn has no main beam; what was measured
    /// on one is the floor for a long beam, and keeps to a yearling's odds for a short one, so that a longer
    /// beam never makes a deer younger.
    pub fn likelihood(self) -> [f64; 10] {
        let wrong = 1.0 - BEAM_RIGHT;
        let (in_fawn, in_yearling, in_older) = match self {
            Self::Yearling => (FLOOR * BEAM_RIGHT / wrong, BEAM_RIGHT, wrong),
            Self::TwoOrMore => (FLOOR, wrong, BEAM_RIGHT),
        };
        let mut classes = [in_older; 10];
        let [fawn, one, ..] = &mut classes;
        (*fawn, *one) = (in_fawn, in_yearling);
        classes
    }
}

/// Means of a measure of size in fawns, yearlings and adults, in standard deviations from the local adult
/// mean. Design.
const SIZE_MEANS: [f64; 3] = [-2.0, -0.5, 0.0];
/// Beyond these a measure says no more than at them, so that none rules an age out.
const SIZE_LIMITS: (f64, f64) = (-3.5, 1.5);

/// Yearlings among the older deer that died in winter. Ours, about that of the starting point.
const YEARLINGS_AMONG_OLDER: f64 = 0.2;

/// Odds of a fawn against an older deer that a measure `z` standard deviations from the local adult mean
/// multiplies. Weight is no such measure: winter swamps it. `None` where `z` is not a number.
pub fn fawn_odds_of_size(z: f64) -> Option<f64> {
    if z.is_nan() {
        return None;
    }
    let z = z.clamp(SIZE_LIMITS.0, SIZE_LIMITS.1);
    let [fawn, yearling, adult] = SIZE_MEANS.map(|mean| libm::exp(-0.5 * (z - mean) * (z - mean)));
    Some(fawn / (YEARLINGS_AMONG_OLDER * yearling + (1.0 - YEARLINGS_AMONG_OLDER) * adult))
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Purdue 1983 as told: open under 20 months, line 20 to 29, none from 29 on.
    #[test]
    fn cannon_bones() {
        for (months, stage) in [(8.5, 0), (14.0, 0), (24.5, 1), (36.0, 2), (60.0, 2)] {
            let stages = cannon_stages(months);
            assert!((stages.iter().sum::<f64>() - 1.0).abs() < 1e-12);
            assert!(stages.iter().all(|p| *p <= stages[stage]), "{months}: {stages:?}");
        }
        // A yearling in February is on the edge of open and line.
        let [open, line, _] = cannon_stages(20.5);
        assert!((open - 0.40).abs() < 0.01 && (line - 0.60).abs() < 0.01, "{open} {line}");
    }

    /// Flinn and others 2013: all closed by 3.5 years.
    #[test]
    fn an_open_radius_is_no_old_deer() {
        assert!(radius_likelihood(Plate::Open, 42.0) < 0.025);
        assert!(radius_likelihood(Plate::Open, 20.0) > 0.99);
        for months in [8.0, 20.0, 80.0] {
            assert!((radius_likelihood(Plate::Closed, months) - 1.0).abs() < 1e-15);
        }
    }

    /// Great Plains Research 23:33-37: 350 mm a yearling, 370 mm older, 93 % each way.
    #[test]
    fn main_beams() {
        assert_eq!(read_beam(350.0), Some(BeamCall::Yearling));
        assert_eq!(read_beam(370.0), Some(BeamCall::TwoOrMore));
        assert_eq!(read_beam(0.0), None);
        assert_eq!(read_beam(f64::NAN), None);
        for (right, all) in [(114.0, 123.0), (251.0, 271.0)] {
            assert!((BEAM_RIGHT - right / all).abs() < 0.005);
        }
        let [_, one, two, ..] = BeamCall::Yearling.likelihood();
        assert!((one / two - 0.93 / 0.07).abs() < 1e-9);
    }

    #[test]
    fn larger_is_never_more_of_a_fawn() {
        let mut last = f64::INFINITY;
        for tenth in -60..60 {
            let odds = fawn_odds_of_size(f64::from(tenth) / 10.0).unwrap();
            assert!(odds <= last * (1.0 + 1e-12) && odds > FLOOR && odds < 1.0 / FLOOR, "{tenth}: {odds}");
            last = odds;
        }
        assert_eq!(fawn_odds_of_size(f64::NAN), None);
    }
}
