//! Findings that tie the record together: which carcass, which outing, which report, what kind.

/// Finding: `field` or `bench`.
pub const EXAMINATION_KIND: &str = "examination_kind";
/// Finding of an outing: when the crew is due back.
pub const DUE_BACK: &str = "due_back";

/// Moments that are entered as they happen; all others lie in the past or to come.
pub const HAPPENS_NOW: [&str; 2] = ["arrived_at", "probed_at"];

/// Moments that are over when somebody asks for them: an animal that lies there dead is not being seen alive.
const OVER: [&str; 6] = [
    "place_clear_at",
    "seen_alive_at",
    "collar_switched_at",
    "report_clear_at",
    "snowfall_began_at",
    "snowfall_ended_at",
];

/// True where the present moment can be the answer.
pub fn may_be_now(finding: &str) -> bool {
    finding != DUE_BACK && !OVER.contains(&finding)
}

/// True where a day to come can be the answer.
pub fn may_lie_ahead(finding: &str) -> bool {
    finding == DUE_BACK
}

/// Findings whose value is another subject's or a carcass's id.
pub mod links {
    /// Of an examination: its carcass.
    pub const CARCASS: &str = "examined_carcass";
    /// Of an examination: the crew's outing.
    pub const OUTING: &str = "examined_on_outing";
    /// Of an examination: the report that sent the crew.
    pub const REPORT: &str = "answers_report";
    /// Of an examination: the first carcass of several that lie at one place.
    pub const EVENT: &str = "joins_event";
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::record::{Shape, find};

    /// A rule of the project's own, no outside source: what is over is not now, and only a return lies ahead.
    #[test]
    fn what_is_over_is_not_now_and_only_the_return_lies_ahead() {
        for finding in OVER.into_iter().chain(HAPPENS_NOW).chain([DUE_BACK]) {
            assert_eq!(find(finding).map(|def| def.shape), Some(Shape::Instant), "{finding}");
            assert_eq!(may_be_now(finding), HAPPENS_NOW.contains(&finding), "{finding}");
            assert_eq!(may_lie_ahead(finding), finding == DUE_BACK, "{finding}");
        }
        assert!(may_be_now("report_seen_at"), "who reports may stand there");
    }
}
