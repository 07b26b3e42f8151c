//! Under which of its ids something of a joined carcass was written. What the office adds about it goes under the same
//! id, so that two that are taken apart again each keep what is theirs: results of its samples, marks of calls for it.

use std::collections::BTreeSet;

use uuid::Uuid;

use super::exposure::linked;
use crate::record::{Carcass, links};

/// The ids under which these examinations of the carcass were written; none where none of them says.
pub(super) fn homes<'e>(carcass: &Carcass, examinations: impl IntoIterator<Item = &'e Uuid>) -> BTreeSet<Uuid> {
    let of = examinations.into_iter().filter_map(|id| carcass.examinations.get(id));
    let mut homes: BTreeSet<Uuid> = of.flat_map(|one| linked(&one.sheet, links::CARCASS)).collect();
    homes.retain(|id| carcass.joined.contains(id));
    homes
}

/// The one id under which an examination was written; the carcass's name where it names several, or none.
pub(super) fn home(carcass: &Carcass, examination: Uuid) -> Uuid {
    let homes = homes(carcass, [&examination]);
    let mut all = homes.iter();
    all.next().filter(|_| all.next().is_none()).copied().unwrap_or(carcass.id)
}
