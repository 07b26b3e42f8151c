//! Who dies in winter: the starting point before any tooth is looked at.
//!
//! The dead are a selected sample, so the living herd is not the prior. Never choose a prior by the
//! suspected cause and then use the age as evidence for that cause.

use serde::{Deserialize, Serialize};

use super::evidence::Sex;

/// Which prior was used; always printed.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Prior {
    /// Half wolf kill, half survival. Design; the only one that phones use.
    #[default]
    WinterDead,
    /// Wolf kills, Mech and Frenzel 1971 table 4.
    WolfKill,
    /// Deaths by survival, Nelson and Mech 1986.
    Survival,
    /// Hunter kills, Mech and Frenzel 1971 table 4.
    Harvest,
    /// The same weight for each class.
    Flat,
}

/// Wolf kills by age 0.5, 1+ ... 9+, 10 and over: Mech and Frenzel 1971, table 4. Some of both rows
/// is imputed by its authors.
pub const WOLF_KILLS: [u16; 11] = [24, 13, 16, 8, 13, 21, 12, 16, 6, 6, 7];
/// Hunter kills, same table.
pub const HUNTER_KILLS: [u16; 11] = [112, 90, 63, 64, 55, 28, 3, 11, 6, 1, 0];
/// Added to each count so that none is impossible.
const HALF: f64 = 0.5;
/// Yearly survival of fawns, yearlings and adults, does: Nelson and Mech 1986.
const SURVIVAL_FEMALE: [f64; 3] = [0.31, 0.80, 0.79];
/// The same, bucks.
const SURVIVAL_MALE: [f64; 3] = [0.31, 0.41, 0.47];

impl Prior {
    /// Share of each class among the dead of that sex. Sums to one; the tail lies in class 9.
    pub fn shares(self, sex: Sex) -> [f64; 10] {
        match self {
            Self::WolfKill => from_counts(WOLF_KILLS),
            Self::Harvest => from_counts(HUNTER_KILLS),
            Self::Survival => from_survival(sex),
            Self::Flat => [0.1; 10],
            Self::WinterDead => {
                let mut mixed = from_counts(WOLF_KILLS);
                for (slot, other) in mixed.iter_mut().zip(from_survival(sex)) {
                    *slot = 0.5 * *slot + 0.5 * other;
                }
                mixed
            }
        }
    }
}

fn from_counts(counts: [u16; 11]) -> [f64; 10] {
    let raised = counts.map(|n| f64::from(n) + HALF);
    let total: f64 = raised.iter().sum();
    let mut shares = [0.0; 10];
    for (class, count) in raised.iter().enumerate() {
        if let Some(slot) = shares.get_mut(class.min(9)) {
            *slot += count / total;
        }
    }
    shares
}

fn from_survival(sex: Sex) -> [f64; 10] {
    let [fawn, yearling, adult] = match sex {
        Sex::Female => SURVIVAL_FEMALE,
        Sex::Male => SURVIVAL_MALE,
    };
    let mut alive = 1.0;
    let mut shares = [0.0; 10];
    for (class, slot) in shares.iter_mut().enumerate() {
        let survival = match class {
            0 => fawn,
            1 => yearling,
            // All that are left die at nine or later.
            9 => 0.0,
            _ => adult,
        };
        *slot = alive * (1.0 - survival);
        alive *= survival;
    }
    shares
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Mech and Frenzel 1971, table 4: 142 wolf kills, mean 4.7 years (published), 48 % of five and over.
    #[test]
    fn table_4() {
        let ages_10_up = [(10.5, 3.0), (11.5, 1.0), (12.5, 0.0), (13.5, 1.0), (14.5, 2.0)];
        let mut sum: f64 = ages_10_up.iter().map(|(age, n)| age * n).sum();
        sum += WOLF_KILLS[..10].iter().zip(0_u8..).map(|(n, k)| f64::from(*n) * (f64::from(k) + 0.5)).sum::<f64>();
        assert_eq!(WOLF_KILLS.iter().sum::<u16>(), 142);
        assert_eq!(HUNTER_KILLS.iter().sum::<u16>(), 433);
        assert!((sum / 142.0 - 4.68).abs() < 0.005);
        let old: u16 = WOLF_KILLS[5..].iter().sum();
        assert!((f64::from(old) / 142.0 - 0.479).abs() < 0.0005);
    }

    /// The printed row for wolf kills, and for bucks by survival (Nelson and Mech 1986).
    #[test]
    fn printed_rows() {
        let wolf = [0.166, 0.092, 0.112, 0.058, 0.092, 0.146, 0.085, 0.112, 0.044, 0.095];
        for (got, expected) in Prior::WolfKill.shares(Sex::Female).iter().zip(wolf) {
            assert!((got - expected).abs() < 0.0006, "{got} {expected}");
        }
        let bucks = [0.690, 0.183, 0.067, 0.032, 0.015, 0.007, 0.003, 0.002, 0.001, 0.000];
        for (got, expected) in Prior::Survival.shares(Sex::Male).iter().zip(bucks) {
            assert!((got - expected).abs() < 0.0011, "{got} {expected}");
        }
    }

    /// The tail is absorbed, not cut: does dead at nine and over are those that lived through it.
    #[test]
    fn the_tail_lies_in_the_last_class() {
        let does = Prior::Survival.shares(Sex::Female);
        assert!((does[9] - 0.31 * 0.80 * libm::pow(0.79, 7.0)).abs() < 1e-12);
        for prior in [Prior::WinterDead, Prior::WolfKill, Prior::Survival, Prior::Harvest, Prior::Flat] {
            for sex in [Sex::Female, Sex::Male] {
                assert!((prior.shares(sex).iter().sum::<f64>() - 1.0).abs() < 1e-12, "{prior:?}");
            }
        }
    }
}
