//! For how many days the fat of a deer would last in winter.
//!
//! A figure for teaching. It rests on five captive does and leaves out protein, pregnancy, cold below the
//! lower critical temperature, travel in snow and the rise in spring; it says nothing of a dead deer's past.

use serde::Serialize;

use super::Range;
use crate::science::marrow::AgeGroup;

/// Energy of fat, kcal/g. Seen: Robbins and others 1974, J. Anim. Sci., 23 white-tails.
pub const FAT_KCAL_PER_G: f64 = 9.490;
/// Fasting rate of adult does in winter, kcal a day and kg to the power 0.75. Seen: Worden and Pekins 1995.
/// (Its abbreviation is that of the field rate in another paper; here both are written out.)
pub const FASTING_RATE: Range = Range::of(79.0, 90.0);
/// Middle used for a single figure.
pub const FASTING_RATE_BEST: f64 = 85.0;
/// What a free doe spends, as a multiple of the fasting rate. Taken by Worden and Pekins 1995.
pub const SPENT_OVER_FASTING: f64 = 1.7;
/// What it eats, as a share of the fasting rate. Seen in the same paper.
pub const EATEN_OVER_FASTING: Range = Range::of(0.9, 1.1);
/// Field rate of fawns, January to March, kcal a day and kg to the power 0.75: 758.4 kJ (535.9 to 1032.8) of
/// Tarr and Pekins 2002, at 4.184 kJ a kcal.
pub const FAWN_FIELD_RATE: Range = Range::of(535.9 / KJ_PER_KCAL, 1032.8 / KJ_PER_KCAL);
/// Middle of the same.
pub const FAWN_FIELD_RATE_BEST: f64 = 758.4 / KJ_PER_KCAL;
/// Kilojoules in a kilocalorie, by definition.
pub const KJ_PER_KCAL: f64 = 4.184;
/// Fat of captive does in December, share of the body: 24.9 less and more 4.4 %. Seen: Worden and Pekins 1995.
pub const DOE_FAT: Range = Range::of(0.205, 0.293);
/// Fat of fed wild fawns in winter: 12.1 less and more 1.4 %. Seen: Tarr and Pekins 2002.
pub const FAWN_FAT: Range = Range::of(0.107, 0.135);

/// What goes into the figure. Rates are kcal a day and kg to the power 0.75.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct Inputs {
    /// Body mass, kg.
    pub mass_kg: Range,
    /// Fat, share of body mass.
    pub fat_share: Range,
    /// Middle of the same.
    pub fat_share_best: f64,
    /// Spent.
    pub spent: Range,
    /// Middle of the same.
    pub spent_best: f64,
    /// Spent less eaten.
    pub short: Range,
    /// Middle of the same.
    pub short_best: f64,
}

impl Inputs {
    /// The published ranges for an age group, and a mass. Fat is that of an early winter.
    pub fn published(group: AgeGroup, mass_kg: Range) -> Self {
        let eaten = Range::of(EATEN_OVER_FASTING.low * FASTING_RATE.low, EATEN_OVER_FASTING.high * FASTING_RATE.high);
        match group {
            // One deer's fasting rate stands on both sides, so the difference is taken before the range.
            AgeGroup::Adult => Self {
                mass_kg,
                fat_share: DOE_FAT,
                fat_share_best: DOE_FAT.middle(),
                spent: Range::of(SPENT_OVER_FASTING * FASTING_RATE.low, SPENT_OVER_FASTING * FASTING_RATE.high),
                spent_best: SPENT_OVER_FASTING * FASTING_RATE_BEST,
                short: Range::of(
                    (SPENT_OVER_FASTING - EATEN_OVER_FASTING.high) * FASTING_RATE.low,
                    (SPENT_OVER_FASTING - EATEN_OVER_FASTING.low) * FASTING_RATE.high,
                ),
                short_best: (SPENT_OVER_FASTING - 1.0) * FASTING_RATE_BEST,
            },
            // Fawns are taken to eat as much for their size as does; no figure of theirs was found.
            AgeGroup::Fawn => Self {
                mass_kg,
                fat_share: FAWN_FAT,
                fat_share_best: FAWN_FAT.middle(),
                spent: FAWN_FIELD_RATE,
                spent_best: FAWN_FIELD_RATE_BEST,
                short: Range::of(FAWN_FIELD_RATE.low - eaten.high, FAWN_FIELD_RATE.high - eaten.low),
                short_best: FAWN_FIELD_RATE_BEST - FASTING_RATE_BEST,
            },
        }
    }

    /// The same deer eating nothing.
    #[must_use]
    pub const fn fasting(self) -> Self {
        Self { short: self.spent, short_best: self.spent_best, ..self }
    }
}

/// Days, and the daily need.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct Reserve {
    /// Need, kcal a day.
    pub need_kcal: Range,
    /// Days at the middles.
    pub best_days: Option<f64>,
    /// Fewest days.
    pub low_days: Option<f64>,
    /// Most days. `None`: it may eat as much as it spends, and then no end is in sight.
    pub high_days: Option<f64>,
}

/// Why there is no figure.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, thiserror::Error)]
#[serde(rename_all = "snake_case")]
pub enum ReserveRefusal {
    /// There is no weight.
    #[error("there is no weight")]
    NoWeight,
    /// A weight of nothing or below, a share of fat beyond 0 to 1, or a rate below zero.
    #[error("a weight, a share of fat or a rate cannot be true")]
    NotTrue,
    /// It died after April: spring rates are up to 1.9 times those of winter.
    #[error("the rates are those of winter, October to April")]
    AfterApril,
}

/// A day's need, kcal, of a deer of so many kg at a rate.
pub fn need_kcal(rate: f64, mass_kg: f64) -> f64 {
    rate * libm::pow(mass_kg, 0.75)
}

/// Days of reserve. `None` for an input that is not short of anything.
pub fn days(fat_share: f64, mass_kg: f64, short: f64) -> Option<f64> {
    (short > 0.0).then(|| fat_share * mass_kg * 1000.0 * FAT_KCAL_PER_G / need_kcal(short, mass_kg))
}

/// Works out need and days over the ranges.
///
/// # Errors
/// Inputs that cannot be true.
pub fn reserve(inputs: &Inputs) -> Result<Reserve, ReserveRefusal> {
    let Inputs { mass_kg, fat_share, fat_share_best, spent, short, short_best, .. } = *inputs;
    let ordered = |r: Range| r.low.is_finite() && r.high.is_finite() && r.low <= r.high;
    let is_true = [mass_kg, fat_share, spent, short].into_iter().all(ordered)
        && mass_kg.low > 0.0
        && fat_share.low >= 0.0
        && fat_share.high <= 1.0
        && spent.low >= 0.0;
    if !is_true {
        return Err(ReserveRefusal::NotTrue);
    }
    Ok(Reserve {
        need_kcal: Range::of(need_kcal(spent.low, mass_kg.low), need_kcal(spent.high, mass_kg.high)),
        best_days: days(fat_share_best, mass_kg.middle(), short_best),
        // More fat and more mass last longer, a greater shortfall less long.
        low_days: days(fat_share.low, mass_kg.low, short.high),
        high_days: days(fat_share.high, mass_kg.high, short.low),
    })
}
