//! What has to be known of all entries before any of them can be put with its carcass.

use std::collections::{BTreeMap, BTreeSet};

use uuid::Uuid;

use crate::bundle::{Contents, Fault};
use crate::office::opening::Judged;
use crate::record::{
    Act, Answer, Body, BodyError, Deciders, DeviceId, Entry, EntryId, Site, Stored, Subject, Value, links, named,
};

/// Entries that break the form that they claim, as was found when the file was opened.
pub(in crate::office) fn unreadable(contents: &Contents) -> BTreeSet<EntryId> {
    let of = |fault: &Fault| if let Fault::Unreadable { id, .. } = fault { Some(*id) } else { None };
    contents.faults.iter().filter_map(of).collect()
}

/// What an entry says, where that can be read. All but the `unreadable` were read strictly when their file was opened;
/// of two entries of one id the other may be readable.
pub(super) fn body_of(entry: &Entry, unreadable: &BTreeSet<EntryId>) -> Option<Body> {
    body_again(entry, unreadable).ok().flatten()
}

/// The same, with why it cannot be read.
pub(in crate::office) fn body_again(entry: &Entry, unreadable: &BTreeSet<EntryId>) -> Result<Option<Body>, BodyError> {
    let Stored::Whole { text, .. } = &entry.stored else { return Ok(None) };
    let read = if unreadable.contains(&entry.id()) { Body::read(text) } else { Body::read_again(text) };
    read.map(Some)
}

/// What stands beside the carcasses.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub(super) enum Beside {
    Outing,
    Report,
}

/// The answers to which carcass an examination is of, by their entries.
type Ties = Vec<(EntryId, Answer)>;

#[derive(Debug, Default)]
struct ExamOfFile {
    bytes: u64,
    ties: Ties,
    names: BTreeSet<Uuid>,
}

/// What one file adds.
#[derive(Debug, Default)]
pub(super) struct OfFile {
    devices: BTreeSet<DeviceId>,
    superseded: Vec<EntryId>,
    examinations: BTreeMap<Uuid, ExamOfFile>,
    beside: BTreeMap<(Beside, Uuid), u64>,
    aliases: Vec<(EntryId, [Uuid; 2])>,
}

impl OfFile {
    /// Of all that counts in it.
    pub(super) fn of(judged: &Judged, deciders: &Deciders) -> Self {
        let mut out = Self::default();
        for contents in judged.counted().into_iter().filter_map(|one| one.contents.as_ref()) {
            out.take(contents, deciders);
        }
        out
    }

    /// Whether nothing in it counts.
    pub(super) fn is_empty(&self) -> bool {
        self.devices.is_empty()
    }

    fn take(&mut self, contents: &Contents, deciders: &Deciders) {
        let unreadable = unreadable(contents);
        for entry in &contents.entries {
            self.devices.insert(entry.header.device);
            if let (Some(body), Stored::Whole { text, .. }) = (body_of(entry, &unreadable), &entry.stored) {
                self.body(entry.id(), text.len() as u64, deciders.heed(entry.id(), body).act);
            }
        }
    }

    fn body(&mut self, id: EntryId, bytes: u64, act: Act) {
        self.superseded.extend(named(&act));
        match act {
            Act::Answer { key, answer, .. } => match key.subject {
                Subject::Examination(of) => {
                    let examination = self.examinations.entry(of).or_default();
                    examination.bytes += bytes;
                    match (key.finding.as_str(), &answer) {
                        (links::CARCASS, _) if key.site == Site::NONE => examination.ties.push((id, answer)),
                        (links::OUTING | links::REPORT, Answer::Seen { value: Value::Ref(named) }) => {
                            examination.names.insert(*named);
                        }
                        _ => {}
                    }
                }
                Subject::Outing(of) => *self.beside.entry((Beside::Outing, of)).or_default() += bytes,
                Subject::Report(of) => *self.beside.entry((Beside::Report, of)).or_default() += bytes,
                Subject::WinterLog(_) => {}
            },
            Act::Alias { carcasses } => self.aliases.push((id, carcasses)),
            _ => {}
        }
    }
}

/// An answer to which carcass an examination is of.
#[derive(Debug)]
struct Tie {
    device: u32,
    seq: u64,
    says: Says,
}

#[derive(Debug)]
enum Says {
    Carcass(Uuid),
    /// Anything else.
    Other(Box<Answer>),
}

#[derive(Debug, Default)]
struct Examination {
    bytes: u64,
    ties: Vec<Tie>,
    names: Vec<Uuid>,
}

/// An examination, with what stands of it.
#[derive(Debug)]
pub(super) struct Placed {
    pub(super) examination: Uuid,
    /// The carcass that it is of, as the fold has it.
    pub(super) carcass: Option<Uuid>,
    /// Bytes of its entries.
    pub(super) bytes: u64,
    /// Outings and reports that it names, or did.
    pub(super) names: Vec<Uuid>,
}

/// Entries that others replace or take back, by device.
#[derive(Debug, Default)]
pub(super) struct Superseded(BTreeMap<DeviceId, Vec<u64>>);

impl Superseded {
    fn put_in_order(&mut self) {
        for all in self.0.values_mut() {
            all.sort_unstable();
            all.dedup();
            all.shrink_to_fit();
        }
    }

    /// Whether it is among them.
    pub(super) fn holds(&self, id: EntryId) -> bool {
        self.0.get(&id.device).is_some_and(|all| all.binary_search(&id.seq).is_ok())
    }
}

/// What stands, over all files.
#[derive(Debug)]
pub(super) struct Settled {
    /// Examinations, in the order of their ids.
    pub(super) placed: Vec<Placed>,
    /// Outings and reports with the bytes of their entries.
    pub(super) beside: BTreeMap<(Beside, Uuid), u64>,
    /// Pairs of carcasses that are one.
    pub(super) joined: Vec<[Uuid; 2]>,
    /// What is replaced or taken back.
    pub(super) superseded: Superseded,
}

/// What is known of all files.
#[derive(Debug, Default)]
pub(super) struct Survey {
    /// Numbers of devices, in the order in which they were met, and the files in which each one's chain lies.
    devices: BTreeMap<DeviceId, (u32, Vec<u32>)>,
    superseded: Superseded,
    examinations: BTreeMap<Uuid, Examination>,
    beside: BTreeMap<(Beside, Uuid), u64>,
    aliases: Vec<(EntryId, [Uuid; 2])>,
}

impl Survey {
    /// Takes in what one file adds; `file` is its number among those that count.
    pub(super) fn take(&mut self, file: usize, of_file: OfFile) {
        let file = u32::try_from(file).unwrap_or(u32::MAX);
        for device in of_file.devices {
            let number = u32::try_from(self.devices.len()).unwrap_or(u32::MAX);
            self.devices.entry(device).or_insert_with(|| (number, Vec::new())).1.push(file);
        }
        for id in of_file.superseded {
            self.superseded.0.entry(id.device).or_default().push(id.seq);
        }
        for (id, one) in of_file.examinations {
            let examination = self.examinations.entry(id).or_default();
            examination.bytes += one.bytes;
            examination
                .names
                .extend(one.names.iter().filter(|id| !examination.names.contains(id)).copied().collect::<Vec<_>>());
            for (by, answer) in one.ties {
                let says = match answer {
                    Answer::Seen { value: Value::Ref(carcass) } => Says::Carcass(carcass),
                    other => Says::Other(Box::new(other)),
                };
                let device = self.devices.get(&by.device).map_or(u32::MAX, |(number, _)| *number);
                examination.ties.push(Tie { device, seq: by.seq, says });
            }
        }
        for (which, bytes) in of_file.beside {
            *self.beside.entry(which).or_default() += bytes;
        }
        self.aliases.extend(of_file.aliases);
    }

    /// Every chain, in the order of the devices, with the files in which it lies.
    pub(super) fn chains(&self) -> Vec<(DeviceId, Vec<u32>)> {
        self.devices.iter().map(|(device, (_, files))| (*device, files.clone())).collect()
    }

    /// When all were taken.
    pub(super) fn settled(mut self) -> Settled {
        self.superseded.put_in_order();
        let superseded = self.superseded;
        let mut by_number: Vec<(u32, DeviceId)> = self.devices.iter().map(|(device, (n, _))| (*n, *device)).collect();
        by_number.sort_unstable();
        let stands = |tie: &&Tie| {
            let device = by_number.get(tie.device as usize).map(|(_, device)| *device);
            device.is_none_or(|device| !superseded.holds(EntryId { device, seq: tie.seq }))
        };
        let placed = self.examinations.into_iter().map(|(examination, one)| Placed {
            examination,
            carcass: carcass(one.ties.iter().filter(stands)),
            bytes: one.bytes,
            names: one.names,
        });
        let placed = placed.collect();
        let mut aliases = self.aliases;
        aliases.retain(|(id, _)| !superseded.holds(*id));
        let joined = aliases.into_iter().map(|(_, pair)| pair).collect();
        Settled { placed, beside: self.beside, joined, superseded }
    }
}

/// The carcass of an examination as the fold takes it: the first of all results, if that is a carcass.
fn carcass<'a>(standing: impl Iterator<Item = &'a Tie>) -> Option<Uuid> {
    let answer = |tie: &Tie| match &tie.says {
        Says::Carcass(id) => Answer::Seen { value: Value::Ref(*id) },
        Says::Other(answer) => (**answer).clone(),
    };
    match standing.map(answer).filter(Answer::is_informative).min() {
        Some(Answer::Seen { value: Value::Ref(id) }) => Some(id),
        _ => None,
    }
}
