//! What a crew says of the next carcass of its day in one answer, having looked for each sign again; and how long
//! the record of scraps is to be.

use crate::record::finding::{FindingDef as F, Shape};

/// One answer for several panels: everything was looked for and nothing is there, or each is asked.
const SWEEP: Shape = Shape::Choice(&["none_of_these", "ask_each"]);

pub(super) const FINDINGS: &[F] = &[
    F::exam("ground_looked_over", SWEEP).of_occasion(),
    F::exam("round_looked_over", SWEEP).of_occasion(),
    // The code that another phone shows for the carcass that it began.
    F::exam("same_carcass_as_code", Shape::Text(6)),
    F::exam("record_length", Shape::Choice(&["full_record", "short_record"])).of_occasion(),
];
