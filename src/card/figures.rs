//! Figures of the reserve's own on the card: what its readers, its deer and its births are like.
//!
//! All are optional. Numbers are whole, with their unit and scale in the name, so that every phone reads
//! the same digits. Each row says where it comes from: the words go to the screen beside what it moves.

use serde::{Deserialize, Serialize};

use crate::record::Tooth;
use crate::record::letters::lower;

/// What the office has found out about its own deer and readers.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(feature = "cli", derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
pub struct Figures {
    /// How the reserve's readers call jaws of known age; `office reader --onto CARD` writes it.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub reader_model: Option<ReaderTable>,
    /// When most fawns of the region are born.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub birth_dates: Option<BirthDates>,
    /// Where ages start from, in place of the form's own choice.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub age_prior: Option<AgePrior>,
    /// Sizes of the reserve's own deer.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub norms: Vec<Norm>,
    /// Crown heights against age.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub crown_heights: Vec<CrownHeight>,
    /// Widths of molars over heights of their crowns against age.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub molar_ratio: Option<MolarRatio>,
    /// Lets formulas from memory stand in the combined reading of condition; absent, they stay out.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub formulas_from_memory: Option<FormulasFromMemory>,
    /// What the reserve's own foods are worth, in place of the form's list.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub browse: Vec<BrowseFood>,
}

/// The office's word that formulas which nobody has confirmed may stand beside the others.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(feature = "cli", derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
pub struct FormulasFromMemory {
    /// Why, in the office's words.
    pub why: String,
}

/// How a food ranks in winter.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(feature = "cli", derive(schemars::JsonSchema))]
#[serde(rename_all = "snake_case")]
pub enum BrowseTier {
    /// Preferred.
    Preferred,
    /// Second choice.
    Second,
    /// Readily eaten.
    Readily,
    /// Eaten when starving, or poor.
    Poor,
}

/// What one food is worth in the reserve's region: its tier, its digestibility, or both.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(feature = "cli", derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
pub struct BrowseFood {
    /// Code of a plant of the form's list, such as `white_cedar`; or the name under which crews write an item of
    /// their own, such as `Beaked hazel`.
    pub item: String,
    /// How it ranks.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub tier: Option<BrowseTier>,
    /// Share of its dry matter that deer digest, percent.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub digestible_percent: Option<u32>,
    /// Of which region, in the office's words.
    pub region: String,
    /// Where it comes from, in the office's words.
    pub source: String,
}

/// Calls of the reserve's readers by true class.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(feature = "cli", derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
pub struct ReaderTable {
    /// Number that grows each time the office makes the table anew.
    pub version: u32,
    /// Day on which it was made, such as `2027-05-02`.
    pub made_on: String,
    /// Readers behind it.
    pub readers_count: u32,
    /// Readings of jaws of exactly known age behind it.
    pub known_count: u32,
    /// Readings of jaws of which a laboratory counted the rings behind it.
    pub by_rings_count: u32,
    /// Ten rows, for 0 to 9 and more completed birthdays; eleven columns, for calls of fawn, yearling,
    /// 2.5 to 9.5 and 10.5 and over. Each row adds up to 1,000,000.
    pub rows_millionths: Vec<Vec<u32>>,
}

/// When most fawns are born.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(feature = "cli", derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
pub struct BirthDates {
    /// Month of the mean day: 5 or 6.
    pub month: u8,
    /// Day of that month; the mean lies within 25 May to 10 June.
    pub day: u8,
    /// Standard deviation, days: 3 to 20.
    pub sd_days: u32,
    /// Where it comes from, in the office's words.
    pub source: String,
}

/// Where ages start from.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(feature = "cli", derive(schemars::JsonSchema))]
#[serde(rename_all = "snake_case")]
pub enum PriorName {
    /// The form's own: half wolf kill, half survival.
    WinterDead,
    /// Wolf kills, Minnesota.
    WolfKill,
    /// Deaths worked out from survival, Minnesota.
    Survival,
    /// Hunter kills, Minnesota.
    Harvest,
    /// Every class alike.
    Flat,
}

/// The office's choice of where ages start from.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(feature = "cli", derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
pub struct AgePrior {
    /// Which.
    pub prior: PriorName,
    /// Why, in the office's words. Never the suspected cause of death.
    pub why: String,
}

/// Age of the deer behind a norm.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[cfg_attr(feature = "cli", derive(schemars::JsonSchema))]
#[serde(rename_all = "snake_case")]
pub enum NormAge {
    /// No completed birthday.
    Fawn,
    /// One.
    Yearling,
    /// Two and more.
    Grown,
}

/// Sex of the deer behind a norm.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[cfg_attr(feature = "cli", derive(schemars::JsonSchema))]
#[serde(rename_all = "snake_case")]
pub enum NormSex {
    /// Does.
    Female,
    /// Bucks.
    Male,
}

/// Mean and spread of one measure in one group of the reserve's deer.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(feature = "cli", derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
pub struct Norm {
    /// Code of the finding: `hind_foot_mm`, `mandible_mm`, `diastema_mm` or `femur_width_mm`.
    pub measure: String,
    /// Age of the deer.
    pub age: NormAge,
    /// Their sex; absent for both together.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub sex: Option<NormSex>,
    /// Mean, tenths of a millimetre.
    pub mean_tenths_mm: u32,
    /// Standard deviation, tenths of a millimetre.
    pub sd_tenths_mm: u32,
    /// Deer measured: at least 5.
    pub deer_count: u32,
    /// Where it comes from, in the office's words.
    pub source: String,
}

/// Constants of the quadratic crown height for one molar, measured on the reserve's own deer.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(feature = "cli", derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
pub struct CrownHeight {
    /// Which: `m1`, `m2` or `m3`.
    pub tooth: Tooth,
    /// Height of the unworn crown, tenths of a millimetre.
    pub unworn_tenths_mm: u32,
    /// Age at which it comes into wear, months.
    pub in_wear_months: u32,
    /// Age at which it is worn out, months.
    pub worn_out_months: u32,
    /// Deer measured: at least 5.
    pub deer_count: u32,
    /// Where it comes from, in the office's words.
    pub source: String,
}

/// Line of months on the ratio of molar widths to crown heights, fitted on the reserve's own deer.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(feature = "cli", derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
pub struct MolarRatio {
    /// Months at a ratio of zero, tenths.
    pub intercept_tenths_months: i32,
    /// Months a unit of ratio, tenths.
    pub slope_tenths_months: u32,
    /// Spread about the line, tenths of a month.
    pub sd_tenths_months: u32,
    /// Smallest ratio of the deer behind it, hundredths.
    pub from_hundredths: u32,
    /// Largest, hundredths.
    pub to_hundredths: u32,
    /// Deer of known age behind it: at least 5.
    pub deer_count: u32,
    /// Where it comes from, in the office's words.
    pub source: String,
}

/// Measures that a norm may be of.
pub const NORM_MEASURES: [&str; 4] = ["hind_foot_mm", "mandible_mm", "diastema_mm", "femur_width_mm"];

impl BrowseFood {
    /// What names it, whatever the case and the blanks round it.
    pub fn key(&self) -> String {
        browse_key(&self.item)
    }
}

/// A plant's code or written name as rows are found by it.
pub fn browse_key(item: &str) -> String {
    lower(item.trim())
}

impl Figures {
    /// Whether the office has entered nothing.
    pub fn is_empty(&self) -> bool {
        *self == Self::default()
    }
}
