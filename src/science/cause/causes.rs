//! The twelve causes of death that are told apart.

use crate::order::Short as _;

/// How many causes there are.
pub const CAUSES: usize = 12;

/// One figure a cause, in the order of [`Cause::ALL`].
pub type PerCause = [f64; CAUSES];

/// A cause of death. `Felid` is bobcat or Canada lynx.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
#[allow(missing_docs)]
pub enum Cause {
    Coyote,
    Wolf,
    Felid,
    Cougar,
    Dog,
    Bear,
    Starvation,
    Vehicle,
    Shot,
    Disease,
    Feed,
    Accident,
}

impl Cause {
    /// All, in column order of the table.
    pub const ALL: [Self; CAUSES] = [
        Self::Coyote,
        Self::Wolf,
        Self::Felid,
        Self::Cougar,
        Self::Dog,
        Self::Bear,
        Self::Starvation,
        Self::Vehicle,
        Self::Shot,
        Self::Disease,
        Self::Feed,
        Self::Accident,
    ];

    /// Stable name, in message ids, tables and exports.
    pub const fn code(self) -> &'static str {
        match self {
            Self::Coyote => "coyote",
            Self::Wolf => "wolf",
            Self::Felid => "bobcat_or_lynx",
            Self::Cougar => "cougar",
            Self::Dog => "dog",
            Self::Bear => "bear",
            Self::Starvation => "starvation",
            Self::Vehicle => "vehicle",
            Self::Shot => "shot",
            Self::Disease => "disease",
            Self::Feed => "feed",
            Self::Accident => "accident",
        }
    }

    /// The cause of a name.
    pub fn of_code(code: &str) -> Option<Self> {
        Self::ALL.into_iter().find(|cause| cause.code() == code)
    }

    /// An animal that kills: its figure is capped in print.
    pub const fn is_predator(self) -> bool {
        (self as usize) < Self::Starvation as usize
    }

    /// This cause's figure.
    pub fn of(self, figures: &PerCause) -> f64 {
        figures.get(self as usize).copied().unwrap_or(0.0)
    }
}

/// Causes by their figure, largest first, ties in column order.
pub fn ranked(figures: &PerCause) -> [Cause; CAUSES] {
    let mut order = Cause::ALL;
    order.order_by(|a, b| b.of(figures).total_cmp(&a.of(figures)));
    order
}
