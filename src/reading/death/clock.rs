//! The phone's clock: it stands in where nobody answered, never decides, and its jumps are said.

use std::collections::BTreeMap;

use crate::order::Short as _;
use crate::record::{Moment, Sheet};

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
    let mut chains: BTreeMap<_, Vec<(u64, i64)>> = BTreeMap::new();
    for one in sheet.answers().flat_map(|(_, _, all)| all).filter(|s| s.at != Moment::EPOCH && s.subject.is_some()) {
        chains.entry(one.id.device).or_default().push((one.id.seq, one.at.unix_seconds()));
    }
    chains.into_values().any(|mut chain| {
        chain.order();
        chain.windows(2).any(|pair| match pair {
            [(_, a), (_, b)] => a - b > JUMP_S,
            _ => false,
        })
    })
}
