//! The journal: a set of entries of one or several devices. Merging is set union.

use std::collections::{BTreeMap, BTreeSet};

use super::{Act, Body, DeviceId, Digest, Entry, EntryId, Head, Stored};

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
    deciders: Deciders,
}

/// The devices that decide: join carcasses, weigh answers, mark calls. On a phone, which has no keyring, nobody asks.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Deciders(Option<BTreeSet<DeviceId>>);

impl Deciders {
    /// Nobody yet: what takes a decision counts from devices that are named only.
    pub const fn nobody() -> Self {
        Self(Some(BTreeSet::new()))
    }

    /// These devices, and no others.
    pub fn these(devices: impl IntoIterator<Item = DeviceId>) -> Self {
        Self(Some(devices.into_iter().collect()))
    }

    /// One more that decides; where nobody asks it changes nothing.
    pub fn add(&mut self, device: DeviceId) {
        if let Some(all) = &mut self.0 {
            all.insert(device);
        }
    }

    /// Whether what this device decides counts.
    pub fn has(&self, device: DeviceId) -> bool {
        self.0.as_ref().is_none_or(|all| all.contains(&device))
    }

    /// What an entry counts for. A decision of a device that makes none is read as one of an unknown kind: kept, shown as
    /// that, and used for nothing. Nor does such a device take back or replace what those that decide wrote.
    pub fn heed(&self, id: EntryId, mut body: Body) -> Body {
        let Some(deciders) = self.0.as_ref().filter(|all| !all.contains(&id.device)) else { return body };
        let kind = match &mut body.act {
            Act::Alias { .. } => LEFT_OUT[0],
            Act::Decide { .. } => LEFT_OUT[1],
            Act::Answer { key, .. } if key.finding.as_str() == CALL_DONE => LEFT_OUT[2],
            Act::Answer { supersedes, .. } | Act::Withdraw { supersedes } => {
                supersedes.retain(|id| !deciders.contains(&id.device));
                return body;
            }
            _ => return body,
        };
        body.act = Act::Unknown { kind: kind.to_owned() };
        body
    }

    /// Whether this is what [`Self::heed`] makes of a decision that counts for nothing.
    pub fn left_out(act: &Act) -> bool {
        matches!(act, Act::Unknown { kind } if LEFT_OUT.contains(&kind.as_str()))
    }
}

/// Kinds under which decisions are read that count for nothing.
const LEFT_OUT: [&str; 3] = ["alias left out", "decide left out", "call left out"];

/// The finding of a call that was made.
pub const CALL_DONE: &str = "call_done";

impl Journal {
    /// No entries.
    pub fn new() -> Self {
        Self::default()
    }

    /// No entries, and nobody who decides until [`Self::let_decide`] names them.
    pub fn of_an_office() -> Self {
        Self { deciders: Deciders::nobody(), ..Self::default() }
    }

    /// What this device decides counts from now on.
    pub fn let_decide(&mut self, device: DeviceId) {
        self.deciders.add(device);
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

    /// Every body that can be read, as it counts, with its entry's id; and those that cannot.
    pub fn bodies(&self) -> (Vec<(EntryId, Body)>, Vec<Setback>) {
        let mut good = Vec::new();
        let mut bad = Vec::new();
        for entry in self.entries.values() {
            match entry.body() {
                Ok(Some(body)) => good.push((entry.id(), self.deciders.heed(entry.id(), body))),
                Ok(None) => {}
                Err(e) => bad.push(Setback { id: entry.id(), reason: e.to_string() }),
            }
        }
        (good, bad)
    }
}
