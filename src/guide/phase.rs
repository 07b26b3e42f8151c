//! The phases of a visit, in order.

/// A phase. A report and the bench, each on a day of its own, have one each.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
#[allow(missing_docs)]
pub enum Phase {
    Report,
    BeforeLeaving,
    Approach,
    StandOff,
    HandsOff,
    Outside,
    Opened,
    Samples,
    CleanUp,
    Leave,
    HandOver,
    Bench,
}

impl Phase {
    /// The phases of a visit in the field, in order.
    pub const FIELD: [Self; 10] = [
        Self::BeforeLeaving,
        Self::Approach,
        Self::StandOff,
        Self::HandsOff,
        Self::Outside,
        Self::Opened,
        Self::Samples,
        Self::CleanUp,
        Self::Leave,
        Self::HandOver,
    ];

    /// What is asked of a report, before anybody goes.
    pub const REPORT: [Self; 1] = [Self::Report];

    /// The phases on the bench, on any later day.
    pub const BENCH: [Self; 2] = [Self::Bench, Self::HandOver];

    /// The code used in message ids (`phase.<code>`).
    pub const fn code(self) -> &'static str {
        match self {
            Self::Report => "report",
            Self::BeforeLeaving => "before_leaving",
            Self::Approach => "approach",
            Self::StandOff => "stand_off",
            Self::HandsOff => "hands_off",
            Self::Outside => "outside",
            Self::Opened => "opened",
            Self::Samples => "samples",
            Self::CleanUp => "clean_up",
            Self::Leave => "leave",
            Self::HandOver => "hand_over",
            Self::Bench => "bench",
        }
    }

    /// True where the crew is at the carcass or on the way to it.
    pub const fn is_at_carcass(self) -> bool {
        matches!(self, Self::Approach | Self::StandOff | Self::HandsOff | Self::Outside | Self::Opened | Self::Samples)
    }

    /// True where something is touched.
    pub const fn is_hands_on(self) -> bool {
        matches!(self, Self::Outside | Self::Opened | Self::Samples)
    }
}
