//! Weathering of bone and growth on it: which winter a body found in spring is of.
//!
//! The stages are of bones in the open in Kenya. Bodies under 100 kg weather faster; cool shade, snow
//! and moss slow it, so the upper years are doubled and everything is soft.

use super::{Bound, DAY_S, Found, Looked, Rule};

/// Stage of weathering, 0 to 5.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[allow(missing_docs)]
pub enum Stage {
    S0,
    S1,
    S2,
    S3,
    S4,
    S5,
}

/// The upper years are not safe in the north. Expert judgement.
const NORTH: i64 = 2;
const YEAR_S: i64 = 31_557_600;

impl Stage {
    /// Years since death: at least, and at most as seen in Kenya where there is a most.
    pub const fn years(self) -> (i64, Option<i64>) {
        match self {
            Self::S0 => (0, Some(1)),
            Self::S1 => (0, Some(4)),
            Self::S2 => (2, Some(7)),
            Self::S3 => (4, None),
            Self::S4 | Self::S5 => (6, None),
        }
    }
}

/// The bound of a stage.
pub fn bound(stage: Stage, look: Looked) -> Found {
    let (least, most) = stage.years();
    let mut found = Found::default();
    found.bound(Bound {
        rule: Rule::BoneWeathering,
        low: most.map(|years| look.from - years * NORTH * YEAR_S),
        high: (least > 0).then(|| look.to - least * YEAR_S),
        hard: false,
    });
    found
}

/// Greasy bone and hair mat with plants pressed, not grown through: it died after leaves last fell.
pub fn after_leaf_fall(leaf_fall: super::Instant) -> Found {
    let mut found = Found::default();
    found.bound(Bound::low(Rule::PlantsPressed, leaf_fall, false));
    found
}

/// Moss, algae or roots on bone: more than one growing season has passed.
pub fn grown_over(last_season_start: super::Instant) -> Found {
    let mut found = Found::default();
    found.bound(Bound::high(Rule::GrownOver, last_season_start, false));
    found
}

/// Days for which most bodies last in the field: a body with flesh on it is rarely older.
///
/// Medians of 18 to 101 days by season and year in Wisconsin give a log-normal with median 30 and 90 % in
/// 5 to 110.
pub const LASTS_DAYS: i64 = 110;

/// The assumed bound of a body that still has flesh.
pub const fn persistence(found: super::Instant) -> Bound {
    Bound::low(Rule::Persistence, found - LASTS_DAYS * DAY_S, false)
}
