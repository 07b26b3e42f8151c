//! The phone's clock: it stands in where nobody answered, never decides, and its jumps are said.

use std::collections::BTreeSet;

use crate::order::Gather as _;
use crate::record::{EntryId, Moment, Sheet};

/// A clock that goes back further than this between two entries has been set, s.
pub const JUMP_S: i64 = 600;

/// The earliest entry made at the body; `None` of a sheet of paper typed in later, whose entries only say
/// when somebody sat at a desk.
pub(in crate::reading) fn earliest(sheet: &Sheet) -> Option<Moment> {
    if sheet.is_seen("from_paper") {
        return None;
    }
    let standing = sheet.answers().flat_map(|(_, _, all)| all);
    standing.map(|s| s.at).filter(|at| *at != Moment::EPOCH).min_by_key(|at| at.unix_seconds())
}

/// Whether the clock of a phone went back between two entries.
pub(super) fn jumped(sheet: &Sheet) -> bool {
    let told = sheet.answers().flat_map(|(_, _, all)| all).filter(|s| s.at != Moment::EPOCH && s.subject.is_some());
    let times: BTreeSet<(EntryId, i64)> = told.map(|s| (s.id, s.at.unix_seconds())).gather();
    let mut pairs = times.iter().zip(times.iter().skip(1));
    pairs.any(|((id, before), (next, after))| id.device == next.device && before - after > JUMP_S)
}
