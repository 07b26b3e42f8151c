//! Findings that tie the record together: which carcass, which outing, which report, what kind.

/// Finding: `field` or `bench`.
pub const EXAMINATION_KIND: &str = "examination_kind";
/// Finding of an outing: when the crew is due back.
pub const DUE_BACK: &str = "due_back";

/// Moments that are entered as they happen; all others lie in the past or to come.
pub const HAPPENS_NOW: [&str; 2] = ["arrived_at", "probed_at"];

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
