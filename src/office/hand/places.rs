//! Where the entries of each examination stand among all bodies, so that one carcass is told without going through an
//! archive's every entry.

use std::collections::BTreeMap;

use uuid::Uuid;

use crate::record::{Act, Subject};

/// Places among the bodies of an archive.
#[derive(Clone, Debug, Default)]
pub struct Places {
    of: BTreeMap<Uuid, Vec<usize>>,
    /// What speaks of no one examination: changes of hands, decisions, entries taken back.
    others: Vec<usize>,
}

impl Places {
    /// Notes the act that stands at this place.
    pub(super) fn note(&mut self, act: &Act, at: usize) {
        match act {
            Act::Answer { key, .. } => {
                if let Subject::Examination(id) = key.subject {
                    self.of.entry(id).or_default().push(at);
                }
            }
            _ => self.others.push(at),
        }
    }

    /// Answers of these examinations, and all that are no answers, in the order in which they stand.
    pub fn about<'a>(&self, examinations: impl IntoIterator<Item = &'a Uuid>) -> Vec<usize> {
        let own = examinations.into_iter().filter_map(|id| self.of.get(id)).flatten();
        let mut all: Vec<usize> = own.chain(&self.others).copied().collect();
        all.sort_unstable();
        all
    }
}
