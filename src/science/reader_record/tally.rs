//! Counting calls.

use std::collections::BTreeMap;

use crate::science::age::ClassCall;
use crate::science::cementum::LabAge;

/// What is known of the age of a jaw that was read.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Truth {
    /// Completed birthdays, known exactly from a tag.
    Known(u8),
    /// A laboratory's count of rings.
    Cementum(LabAge),
}

/// How often each call was made on jaws of each known age or ring count. Adding is a sum, so neither the
/// order of jaws nor who adds them up matters.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Tally {
    /// By class of completed birthdays, the last nine and more.
    pub(super) known: [[u32; 11]; 10],
    /// By ring count.
    pub(super) lab: BTreeMap<LabKey, [u32; 11]>,
}

/// A ring count as a key: years, then 0 for no grade and 1 to 3 from the best grade to the lowest.
pub(super) type LabKey = (u8, u8);

impl Tally {
    /// Adds one reading.
    pub fn add(&mut self, truth: Truth, call: ClassCall) {
        let row = match truth {
            Truth::Known(birthdays) => self.known.get_mut(usize::from(birthdays.min(9))),
            Truth::Cementum(lab) => Some(self.lab.entry(key(lab)).or_default()),
        };
        if let Some(slot) = row.and_then(|row| row.get_mut(call.index())) {
            *slot += 1;
        }
    }

    /// From counted readings of jaws of exactly known age.
    pub const fn of_known(known: [[u32; 11]; 10]) -> Self {
        Self { known, lab: BTreeMap::new() }
    }

    /// The readings of jaws of exactly known age.
    pub const fn known(&self) -> &[[u32; 11]; 10] {
        &self.known
    }

    /// Adds all of another tally.
    pub fn add_all(&mut self, other: &Self) {
        let add = |to: &mut [u32; 11], from: &[u32; 11]| to.iter_mut().zip(from).for_each(|(t, f)| *t += f);
        for (to, from) in self.known.iter_mut().zip(&other.known) {
            add(to, from);
        }
        for (lab, from) in &other.lab {
            add(self.lab.entry(*lab).or_default(), from);
        }
    }

    /// Readings of jaws of exactly known age.
    pub fn known_readings(&self) -> u32 {
        self.known.iter().flatten().sum()
    }

    /// Readings of jaws of which only the rings were counted.
    pub fn lab_readings(&self) -> u32 {
        self.lab.values().flatten().sum()
    }
}

fn key(lab: LabAge) -> LabKey {
    (lab.years, lab.grade.map_or(0, |grade| 1 + grade as u8))
}

/// The ring count of a key.
pub(super) fn lab_of((years, grade): LabKey) -> LabAge {
    use crate::science::cementum::Grade::{Best, Lowest, Middle};
    let grade = [Best, Middle, Lowest].into_iter().find(|g| 1 + *g as u8 == grade);
    LabAge { years, grade }
}
