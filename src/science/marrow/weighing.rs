//! The dry-weight method: a plug of marrow weighed wet, dried, and weighed again.

use serde::Serialize;

use super::{AgeGroup, Bone, Caution, DryPercent, Exposure, FatPercent, Frost, Verdict, Word, settle, shared_cautions};
use crate::order::Short as _;

/// Least wet mass of a plug, g. Recalled protocol, not confirmed.
pub const LEAST_WET_G: f64 = 1.0;
/// Half width of the drying itself, points. Our figure.
pub const DRYING_POINTS: f64 = 5.0;
/// Half width where the marrow had been frozen: fresh and frozen halves of one marrow differed by up
/// to 10 percent. Seen: Greer 1968, abstract.
pub const FROZEN_POINTS: f64 = 10.0;
/// Shares of water lost to the air for which the result is shown again.
pub const LOSS_STEPS: [f64; 3] = [0.1, 0.2, 0.3];

/// Two weights.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct DryWeighing {
    /// Before drying, g.
    pub wet_g: f64,
    /// After drying to constant weight, g, with the fat that ran out.
    pub dry_g: f64,
}

/// The result if a share of the marrow's mass had gone as water before it was weighed.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct LossRow {
    /// Share of the original mass lost, 0 to 1.
    pub lost_share: f64,
    /// Dry percent then.
    pub dry: DryPercent,
    /// Fat percent then.
    pub fat: FatPercent,
}

/// What a laboratory's percentage is a percentage of. The two scales differ by 7 points and many sheets call
/// both `marrow fat`.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum LabScale {
    /// Dry weight, percent of wet.
    DryWeight,
    /// Fat drawn out with a solvent, percent of wet.
    FatExtracted,
    /// Nobody said: no figure, since each scale would give another.
    NotSaid,
}

/// A weighing worked out.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct WeighingReading {
    /// Dry weight, percent of wet; `None` where fat itself was drawn out.
    pub dry: Option<DryPercent>,
    /// Fat, percent of wet.
    pub fat: FatPercent,
    /// Half width, points; expert judgement, with no stated coverage.
    pub half_width: f64,
    /// Lower end, fat percent.
    pub fat_low: FatPercent,
    /// Upper end, fat percent.
    pub fat_high: FatPercent,
    /// Verdict if the deer was a fawn.
    pub fawn: Verdict,
    /// Verdict if it was older.
    pub adult: Verdict,
    /// What it would be had water been lost, shown where the marrow may have dried.
    pub if_water_lost: Vec<LossRow>,
    /// What has to be said beside it.
    pub cautions: Vec<Caution>,
}

impl WeighingReading {
    /// The verdict for one age group.
    pub const fn verdict(&self, group: AgeGroup) -> Verdict {
        match group {
            AgeGroup::Fawn => self.fawn,
            AgeGroup::Adult => self.adult,
        }
    }
}

/// Why two weights give no figure. They stay in the record.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, thiserror::Error)]
#[serde(rename_all = "snake_case")]
pub enum WeighingRefusal {
    /// Not a number, infinite or below zero.
    #[error("a weight is below zero or not a number")]
    NotAWeight,
    /// Wet mass under 1 g.
    #[error("the wet plug weighs less than 1 g")]
    TooLittle,
    /// Dry weight above wet weight.
    #[error("the dry weight is above the wet weight")]
    DryAboveWet,
    /// A percentage beyond 0 to 100.
    #[error("the laboratory's percentage is not from 0 to 100")]
    NotAPercentage,
    /// A laboratory's percentage without its scale.
    #[error("nobody said whether the laboratory's percentage is dry weight or fat")]
    ScaleNotSaid,
    /// Water loss not from 0 to below 1.
    #[error("the share of water lost is not from 0 to below 1")]
    Loss,
}

/// Dry percent from two weights.
pub fn dry_percent(weighing: &DryWeighing) -> Result<DryPercent, WeighingRefusal> {
    let DryWeighing { wet_g, dry_g } = *weighing;
    if !(wet_g.is_finite() && dry_g.is_finite() && wet_g >= 0.0 && dry_g >= 0.0) {
        return Err(WeighingRefusal::NotAWeight);
    }
    if wet_g < LEAST_WET_G {
        return Err(WeighingRefusal::TooLittle);
    }
    if dry_g > wet_g {
        return Err(WeighingRefusal::DryAboveWet);
    }
    DryPercent::new(100.0 * dry_g / wet_g).ok_or(WeighingRefusal::NotAWeight)
}

/// What the fresh marrow's dry percent was, if `lost_share` of its mass went as water before weighing.
pub fn before_loss(measured: DryPercent, lost_share: f64) -> Result<DryPercent, WeighingRefusal> {
    if !(0.0..1.0).contains(&lost_share) {
        return Err(WeighingRefusal::Loss);
    }
    DryPercent::new(measured.get() * (1.0 - lost_share)).ok_or(WeighingRefusal::Loss)
}

/// Works out a weighing.
pub fn read_weighing(
    weighing: &DryWeighing,
    bone: Option<Bone>,
    exposure: Exposure,
) -> Result<WeighingReading, WeighingRefusal> {
    let dry = dry_percent(weighing)?;
    work_out(Some(dry), dry.fat(), bone, exposure)
}

/// Works out a laboratory's percentage.
pub fn read_lab(
    percent: f64,
    scale: LabScale,
    bone: Option<Bone>,
    exposure: Exposure,
) -> Result<WeighingReading, WeighingRefusal> {
    if !(0.0..=100.0).contains(&percent) {
        return Err(WeighingRefusal::NotAPercentage);
    }
    let dry = DryPercent::new(percent).ok_or(WeighingRefusal::NotAPercentage)?;
    let fat = FatPercent::new(percent).ok_or(WeighingRefusal::NotAPercentage)?;
    match scale {
        LabScale::DryWeight => work_out(Some(dry), dry.fat(), bone, exposure),
        LabScale::FatExtracted => work_out(None, fat, bone, exposure),
        LabScale::NotSaid => Err(WeighingRefusal::ScaleNotSaid),
    }
}

fn work_out(
    dry: Option<DryPercent>,
    fat: FatPercent,
    bone: Option<Bone>,
    exposure: Exposure,
) -> Result<WeighingReading, WeighingRefusal> {
    let half_width = match exposure.frost {
        Some(Frost::NeverFrozen) => DRYING_POINTS,
        // On snow frost is the rule, so not knowing costs the wider figure.
        Some(Frost::Thawed | Frost::FrozenNow) | None => FROZEN_POINTS,
    };
    let end = |points: f64| FatPercent::new(fat.get() + points).unwrap_or(fat);
    let (fat_low, fat_high) = (end(-half_width), end(half_width));
    let verdict = |group| {
        let words =
            Verdict::Words { best: Some(fat.word(group)), lowest: fat_low.word(group), highest: fat_high.word(group) };
        settle(words, bone, exposure)
    };
    let mut if_water_lost = Vec::new();
    if let Some(dry) = dry.filter(|_| exposure.may_be_dried()) {
        for lost_share in LOSS_STEPS {
            let dry = before_loss(dry, lost_share)?;
            if_water_lost.push(LossRow { lost_share, dry, fat: dry.fat() });
        }
    }
    Ok(WeighingReading {
        dry,
        fat,
        half_width,
        fat_low,
        fat_high,
        fawn: verdict(AgeGroup::Fawn),
        adult: verdict(AgeGroup::Adult),
        if_water_lost,
        cautions: cautions(fat, fat_high, bone, exposure),
    })
}

fn cautions(fat: FatPercent, fat_high: FatPercent, bone: Option<Bone>, exposure: Exposure) -> Vec<Caution> {
    let mut list = shared_cautions(bone, exposure);
    if fat_high.word(AgeGroup::Adult) == Word::MarrowFull {
        list.push(Caution::FullIsNotGood);
    }
    if fat.word(AgeGroup::Fawn) != fat.word(AgeGroup::Adult) || fat.word(AgeGroup::Fawn) == Word::Depleted {
        list.push(Caution::SikaLimits);
    }
    match exposure.frost {
        None => list.push(Caution::FrostNotKnown),
        Some(Frost::Thawed | Frost::FrozenNow) => list.push(Caution::FrozenThawed),
        Some(Frost::NeverFrozen) => {}
    }
    list.order();
    list
}
