//! Each agency's index as its source defines it. What a source does not say is not filled in here.

use super::classes::{self, ClassSet};
use super::measure::Depth;
use super::sources as s;
use crate::science::source::Source;

/// Which days count as cold.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Cold {
    /// Minimum at 0 F or below.
    AtOrBelowZeroF,
    /// Minimum below 0 F: a day at exactly zero does not count.
    BelowZeroF,
}

/// Why an index that has a name cannot be worked out.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Lacking {
    /// Its critical values were not found.
    CriticalValues,
    /// Its conversion tables were not found.
    ConversionTables,
}

/// What is summed.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Rule {
    /// One point a cold day, one a day with at least so much snow on the ground.
    Points(Cold, Depth),
    /// Days with more than so much snow on the ground.
    DaysOver(Depth),
    /// Depth on each Monday, in inches.
    MondayInches,
    /// Weekly mean depth in cm over the stations of a course; so many stations make the agency's course.
    WeeklyCm(u32),
    /// Sinking depth of Quebec's gauge on each day, in cm.
    DailySinkCm,
    /// Cannot be worked out.
    Cannot(Lacking),
}

/// A day of the year: month and day.
pub type MonthDay = (u8, u8);

/// An agency's index.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Index {
    /// Stable name.
    pub id: &'static str,
    /// What is summed.
    pub rule: Rule,
    /// First day of the season, where the source names it.
    pub from: Option<MonthDay>,
    /// Last day of the season, where the source names it.
    pub to: Option<MonthDay>,
    /// Class names in use at one time or another, the latest first.
    pub classes: &'static [&'static ClassSet],
    /// What it rests on.
    pub sources: &'static [&'static Source],
}

const IN_15: Depth = Depth::from_hundredths_in(1_500);
const IN_18: Depth = Depth::from_hundredths_in(1_800);
const CM_50: Depth = Depth::from_thousandths_cm(50_000);

const fn points(id: &'static str, cold: Cold, deep: Depth, sources: &'static [&'static Source]) -> Index {
    Index { id, rule: Rule::Points(cold, deep), from: Some((12, 1)), to: Some((4, 30)), classes: &[], sources }
}

const fn cannot(id: &'static str, lacking: Lacking, sources: &'static [&'static Source]) -> Index {
    Index { id, rule: Rule::Cannot(lacking), from: None, to: None, classes: &[], sources }
}

/// All indices, in the order of the table that they were taken from.
pub static INDICES: [Index; 11] = [
    Index {
        classes: &[&classes::WISCONSIN],
        ..points("wisconsin", Cold::AtOrBelowZeroF, IN_18, &[&s::WISCONSIN, &s::WISCONSIN_CLASSES])
    },
    Index {
        from: Some((11, 1)),
        to: Some((5, 31)),
        classes: &[&classes::MINNESOTA_2020, &classes::MINNESOTA_OLD],
        ..points("minnesota", Cold::AtOrBelowZeroF, IN_15, &[&s::MINNESOTA, &s::MINNESOTA_CLASSES])
    },
    Index { classes: &[&classes::NEW_YORK], ..points("new_york", Cold::AtOrBelowZeroF, IN_18, &[&s::NEW_YORK]) },
    points("vermont", Cold::BelowZeroF, IN_18, &[&s::VERMONT]),
    Index { from: None, to: None, ..points("new_hampshire", Cold::BelowZeroF, IN_18, &[&s::NEW_HAMPSHIRE]) },
    cannot("maine", Lacking::CriticalValues, &[&s::MAINE]),
    cannot("michigan_verme", Lacking::ConversionTables, &[&s::VERME]),
    Index {
        id: "michigan_total_snow",
        rule: Rule::MondayInches,
        from: Some((11, 1)),
        to: None,
        classes: &[],
        sources: &[&s::MICHIGAN],
    },
    Index {
        id: "ontario_snow_depth",
        rule: Rule::WeeklyCm(10),
        from: None,
        to: None,
        classes: &[&classes::ONTARIO],
        sources: &[&s::ONTARIO, &s::ONTARIO_MILD, &s::ONTARIO_CLASSES],
    },
    Index {
        id: "ontario_days_over_50_cm",
        rule: Rule::DaysOver(CM_50),
        from: None,
        to: None,
        classes: &[],
        sources: &[&s::ONTARIO_DAYS, &s::FIFTY_DAYS],
    },
    Index {
        id: "quebec_niva",
        rule: Rule::DailySinkCm,
        from: None,
        to: None,
        classes: &[&classes::QUEBEC],
        sources: &[&s::QUEBEC, &s::QUEBEC_DAYS],
    },
];

/// The index of that name.
pub fn find(id: &str) -> Option<&'static Index> {
    INDICES.iter().find(|index| index.id == id)
}
