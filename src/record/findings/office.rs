//! What only the office writes: a laboratory's result of a test, and calls that were made. No phone asks or carries
//! these; one that meets them keeps them as it keeps any finding that it does not know.

use crate::record::finding::{FindingDef as F, Shape};

/// All of them. They stand apart from the table that phones carry.
pub const OFFICE_FINDINGS: &[F] = &[
    // Of any laboratory's answer: the test by its code on the local card, the sample by its label, who, when.
    F::exam("lab_test", Shape::Text(40)).of_occasion(),
    F::exam("lab_sample", Shape::Text(40)).of_occasion(),
    F::exam("lab_name", Shape::Text(80)).of_occasion(),
    F::exam("lab_reported_at", Shape::Instant).of_occasion(),
    // A disease, in the card's words on the day it was entered.
    F::exam("test_for", Shape::Text(80)).of_occasion(),
    // `NotSeen`: tested, not detected. `CantTell`: the sample was unsuitable. `NotLooked`: pending. A suspect is
    // a result of its own and never a positive.
    F::exam("test_result", Shape::Choice(&["positive", "suspect"])).of_occasion(),
    // A call of the call list, by its name there: made, or owed no longer.
    F::exam("call_done", Shape::Text(200)).repeated(),
];
