//! Kidney fat: index (percent of the kidney's own weight) and mass.
//!
//! Two trimmings give two figures that must not be mixed: all the fat that tears off with the kidney, or
//! only what lies between two straight cuts before and behind it (Riney 1955). Both kidneys are summed
//! above and below the line.

use serde::Serialize;

use super::look::Stage;

/// How the fat was cut before it was weighed.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Trim {
    /// All that tears off along the natural line.
    Whole,
    /// Between two straight cuts just before and behind the kidney.
    StraightCuts,
}

/// One kidney on the scales, g. `None` is not weighed.
#[derive(Clone, Copy, Debug, Default, PartialEq, Serialize)]
pub struct KidneyWeights {
    /// The kidney with all fat off.
    pub kidney_g: Option<f64>,
    /// All its fat.
    pub fat_whole_g: Option<f64>,
    /// The fat between two straight cuts.
    pub fat_cut_g: Option<f64>,
}

impl KidneyWeights {
    const fn fat(&self, trim: Trim) -> Option<f64> {
        match trim {
            Trim::Whole => self.fat_whole_g,
            Trim::StraightCuts => self.fat_cut_g,
        }
    }
}

/// Fat of one trimming.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct KidneyFat {
    /// Which trimming.
    pub trim: Trim,
    /// Kidney fat mass, g: summed over the kidneys on the scales.
    pub fat_g: f64,
    /// Both kidneys were weighed with their fat. A mass of one kidney is not the deer's.
    pub both: bool,
    /// Kidney fat index, percent of the kidneys' weight without fat; may exceed 100.
    pub index: Result<f64, KidneyRefusal>,
}

/// From this index perirenal reserve is there. Seen: red deer stags, J. Zool. 1983: below about 40 the index
/// stops tracking condition, because marrow is drawn on beside it.
pub const PRESENT_FROM: f64 = 40.0;
/// Below this index it is essentially gone. Recalled switch point of a combined index.
pub const GONE_BELOW: f64 = 20.0;
/// Sika does with less kidney fat, g, both kidneys, had marrow that fell sharply. Seen: Hokkaido, abstract.
pub const SIKA_MASS_G: f64 = 20.0;

/// What an index says of the depot. Bands are ours.
pub fn stage(index: f64) -> Stage {
    if index >= PRESENT_FROM {
        Stage::Present
    } else if index >= GONE_BELOW {
        Stage::Low
    } else {
        Stage::Gone
    }
}

impl KidneyFat {
    /// What the index says of the depot.
    pub fn stage(&self) -> Option<Stage> {
        self.index.ok().map(stage)
    }

    /// Both kidneys' fat together weighs less than the limit seen in sika does.
    pub fn below_sika_mass(&self) -> bool {
        self.both && self.fat_g < SIKA_MASS_G
    }
}

/// Why there is no index. All weights stay in the record.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, thiserror::Error)]
#[serde(rename_all = "snake_case")]
pub enum KidneyRefusal {
    /// Not a number, infinite, below zero, or a kidney of no weight.
    #[error("a weight is below zero, not a number, or a kidney of 0 g")]
    NotAWeight,
    /// Fat without the weight of the kidney that it came from.
    #[error("the fat was weighed and the kidney was not")]
    NoKidneyWeight,
    /// A kidney without the weight of its fat.
    #[error("the kidney was weighed and its fat was not")]
    NoFatWeight,
    /// Less fat in all than between two straight cuts.
    #[error("all the fat of a kidney weighs less than the part between the cuts")]
    CutAboveWhole,
}

/// Fat by one trimming, from the kidneys on the scales (left, right). `None` where no weight of it was taken.
///
/// # Errors
/// Weights that cannot be true, or a kidney without its fat. Fat without its kidney has a mass and no index.
pub fn read_kidneys(kidneys: [KidneyWeights; 2], trim: Trim) -> Option<Result<KidneyFat, KidneyRefusal>> {
    let any_fat = kidneys.iter().any(|k| k.fat_whole_g.is_some() || k.fat_cut_g.is_some());
    if !any_fat {
        let any_kidney = kidneys.iter().any(|k| k.kidney_g.is_some());
        // Said once, with the trimming that is asked first.
        return (any_kidney && trim == Trim::Whole).then_some(Err(KidneyRefusal::NoFatWeight));
    }
    if kidneys.iter().all(|k| k.fat(trim).is_none()) {
        return None;
    }
    Some(sum(kidneys, trim))
}

fn sum(kidneys: [KidneyWeights; 2], trim: Trim) -> Result<KidneyFat, KidneyRefusal> {
    let (mut fat_g, mut kidney_g, mut sides, mut unweighed) = (0.0, 0.0, 0, false);
    for kidney in kidneys {
        check(kidney)?;
        let Some(fat) = kidney.fat(trim) else { continue };
        sides += 1;
        fat_g += fat;
        match kidney.kidney_g {
            Some(g) => kidney_g += g,
            None => unweighed = true,
        }
    }
    let index = if unweighed { Err(KidneyRefusal::NoKidneyWeight) } else { Ok(100.0 * fat_g / kidney_g) };
    Ok(KidneyFat { trim, fat_g, both: sides == 2, index })
}

fn check(kidney: KidneyWeights) -> Result<(), KidneyRefusal> {
    let fats = [kidney.fat_whole_g, kidney.fat_cut_g];
    let fat_is_true = fats.into_iter().flatten().all(|g| g.is_finite() && g >= 0.0);
    let kidney_is_true = kidney.kidney_g.is_none_or(|g| g.is_finite() && g > 0.0);
    if !(fat_is_true && kidney_is_true) {
        return Err(KidneyRefusal::NotAWeight);
    }
    match fats {
        [Some(whole), Some(cut)] if cut > whole => Err(KidneyRefusal::CutAboveWhole),
        _ => Ok(()),
    }
}
