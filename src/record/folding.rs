//! The fold in short parts, for a page that answers taps in between: the same as [`fold_bodies`](super::fold_bodies).

use std::collections::btree_map::IntoIter;
use std::collections::{BTreeMap, BTreeSet};

use super::decided::Deciding;
use super::fold::{finish, take};
use super::{Body, EntryId, Fold, Sheet, Subject, named};

/// What is replaced or taken back, known before anything is folded.
#[derive(Debug, Default)]
pub struct Superseded(BTreeSet<EntryId>);

impl Superseded {
    /// Notes what this body replaces or takes back.
    pub fn note(&mut self, body: &Body) {
        self.0.extend(named(&body.act));
    }
}

/// A fold in the making: every body is taken, in the order of device and number, then one subject after the other is
/// finished.
#[derive(Debug)]
pub struct Folding {
    superseded: BTreeSet<EntryId>,
    out: Fold,
    sheets: BTreeMap<Subject, Sheet>,
    deciding: Deciding,
}

/// A fold of which nothing more is taken.
#[derive(Debug)]
pub struct Finishing {
    out: Fold,
    sheets: IntoIter<Subject, Sheet>,
    deciding: Deciding,
}

impl Folding {
    /// Before the first body.
    pub fn begin(superseded: Superseded) -> Self {
        let Superseded(superseded) = superseded;
        Self { superseded, out: Fold::default(), sheets: BTreeMap::new(), deciding: Deciding::default() }
    }

    /// Takes the next body.
    pub fn take(&mut self, body: &(EntryId, Body)) {
        take(&mut self.out, &mut self.sheets, body, &self.superseded);
        self.deciding.take(body, &self.superseded);
    }

    /// Forgets a subject; false where none is left.
    pub fn let_go(&mut self) -> bool {
        self.sheets.pop_first().is_some()
    }

    /// Once all were taken.
    pub fn finish(self) -> Finishing {
        Finishing { out: self.out, sheets: self.sheets.into_iter(), deciding: self.deciding }
    }
}

impl Finishing {
    /// Finishes the next subject; false where there is none.
    pub fn step(&mut self) -> bool {
        let Some((subject, sheet)) = self.sheets.next() else { return false };
        finish(&mut self.out, subject, sheet);
        true
    }

    /// Forgets a subject; false where none is left.
    pub fn let_go(&mut self) -> bool {
        self.sheets.next().is_some() || self.out.carcasses.pop_first().is_some()
    }

    /// The fold, once nothing is left: what the office joined and decided is put on it.
    pub fn done(mut self) -> Fold {
        while self.step() {}
        self.deciding.settle(&mut self.out);
        self.out
    }
}
