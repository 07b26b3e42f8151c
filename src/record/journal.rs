//! The journal: a set of entries of one or several devices. Merging is set union.

use std::collections::BTreeMap;

use super::{Body, DeviceId, Digest, Entry, EntryId, Head, Stored};

/// An entry set aside, with the reason. The rest of the journal is not touched by it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Setback {
    /// Which entry.
    pub id: EntryId,
    /// What is wrong with it, in a plain clause.
    pub reason: String,
}

/// A set of entries. Two entries with one id and different headers (a fork) are both kept.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Journal {
    entries: BTreeMap<(EntryId, Digest), Entry>,
}

impl Journal {
    /// No entries.
    pub fn new() -> Self {
        Self::default()
    }

    /// Take an entry in. One that is there already changes nothing, except that a body takes the
    /// place of a withheld one.
    ///
    /// # Errors
    /// Where the body is not the one that the header was made over: it is set aside.
    pub fn add(&mut self, entry: Entry) -> Result<(), Setback> {
        if !entry.body_agrees() {
            return Err(Setback { id: entry.id(), reason: "its text was altered".to_owned() });
        }
        let name = (entry.id(), entry.header.digest());
        match self.entries.get(&name) {
            Some(Entry { stored: Stored::Whole { .. }, .. }) => {}
            _ => {
                self.entries.insert(name, entry);
            }
        }
        Ok(())
    }

    /// The union with another journal.
    pub fn merge(&mut self, other: &Self) {
        for entry in other.entries.values() {
            // Entries inside a journal agree with their headers: adding them cannot fail.
            let _ = self.add(entry.clone());
        }
    }

    /// All entries, by device and number.
    pub fn entries(&self) -> impl Iterator<Item = &Entry> {
        self.entries.values()
    }

    /// How many entries there are.
    pub fn len(&self) -> usize {
        self.entries.len()
    }

    /// True without entries.
    pub fn is_empty(&self) -> bool {
        self.entries.is_empty()
    }

    /// All entries of one device, by number.
    pub fn of_device(&self, device: DeviceId) -> impl Iterator<Item = &Entry> {
        self.entries.values().filter(move |e| e.header.device == device)
    }

    /// Ids that more than one header claims.
    pub fn forks(&self) -> Vec<EntryId> {
        let mut all = Vec::new();
        let mut before: Option<EntryId> = None;
        for (id, _) in self.entries.keys() {
            if before == Some(*id) && all.last() != Some(id) {
                all.push(*id);
            }
            before = Some(*id);
        }
        all
    }

    /// The end of a device's chain as far as this journal holds it.
    pub fn head(&self, device: DeviceId) -> Head {
        self.of_device(device).last().map_or(Head::start(device), Head::after)
    }

    /// Its entries, by device and number, to be read one after the other.
    pub fn into_entries(self) -> std::collections::btree_map::IntoValues<(EntryId, Digest), Entry> {
        self.entries.into_values()
    }

    /// Every body that can be read, with its entry's id and header digest; and those that cannot.
    pub fn bodies(&self) -> (Vec<(EntryId, Body)>, Vec<Setback>) {
        let mut good = Vec::new();
        let mut bad = Vec::new();
        for entry in self.entries.values() {
            match entry.body() {
                Ok(Some(body)) => good.push((entry.id(), body)),
                Ok(None) => {}
                Err(e) => bad.push(Setback { id: entry.id(), reason: e.to_string() }),
            }
        }
        (good, bad)
    }
}
