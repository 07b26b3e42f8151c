//! What a season keeps of one carcass: some hundred numbers and no sentence, so that a hundred thousand of them fit into a
//! small office's memory. Carcass and readings are let go as soon as it is made.

use std::borrow::Cow;
use std::collections::{BTreeMap, BTreeSet};
use std::sync::Arc;

use uuid::Uuid;

use super::ages::Classes;
use super::density::{Lead, Outing, leads};
use super::findings::{self, FINDINGS};
use super::rows::{AgeGroup, Row, row};
use super::{causes, doubles};
use crate::office::diet::{self, OfOne};
use crate::reading::{DaysOfDeath, Given};
use crate::record::{DeviceId, Digest, Fold, Place};
use crate::science::age::DeathWindow;
use crate::science::cause::undamped::OneCase;

/// What a cause was called: stable name, and in words.
pub type Called = (String, String);
/// An evidence table: its name and digest.
pub type TableName = (String, Digest);
/// Id, citation and mark of a source.
pub type Cited = (Cow<'static, str>, Cow<'static, str>, Cow<'static, str>);

/// One carcass.
#[derive(Clone, Debug)]
#[allow(clippy::struct_excessive_bools)] // facts that stand alone
pub struct Kept {
    /// Its id.
    pub carcass: Uuid,
    /// The year in which the winter begins in which it was found; `None` where nothing has a date.
    pub winter: Option<i32>,
    /// Days on which it can have died.
    pub days: Option<DaysOfDeath>,
    /// The crew that examined it first.
    pub crew: Option<Arc<str>>,
    /// Where it lay, by its most exact place.
    pub place: Option<Place>,
    /// As [`Row::nothing_lay_there`].
    pub nothing_lay_there: bool,
    /// Reported under several ids that the office joined.
    pub joined: bool,
    /// Why the methods are closed for it.
    pub closed: Option<&'static str>,
    /// Its age group, where that is known well enough.
    pub age_group: AgeGroup,
    /// As [`Row::condition`].
    pub condition: Arc<str>,
    /// What came of each of [`FINDINGS`].
    pub findings: [findings::Result; FINDINGS.len()],
    /// What its cause was called.
    pub called: Arc<Called>,
    /// What was seen of its cause, where anything was, and the table that it is weighed by.
    pub cause: Option<Box<(OneCase, Arc<TableName>)>>,
    /// No cause of the table fits well.
    pub poor_fit: bool,
    /// As in [`ForSeason`](crate::reading::for_season::ForSeason).
    pub age_and_sex: Option<Classes>,
    /// Something beyond a look from afar speaks of its age.
    pub aged: bool,
    /// Something speaks of its sex.
    pub sexed: bool,
    /// As in [`ForSeason`](crate::reading::for_season::ForSeason).
    pub age_prior: Arc<Classes>,
    /// Lines from which it may have been found.
    pub leads: Box<[Lead]>,
    /// Which part of the jaw was taken.
    pub jaw: Option<Arc<str>>,
    /// The crew knew the carcass already.
    pub known_before: bool,
    /// What it had eaten.
    pub diet: Box<OfOne>,
}

impl Kept {
    fn of(row: &Row) -> Self {
        let view = &row.view;
        let cause = view.cause_seen.then(|| Box::new((view.cause.clone(), Arc::new(view.table.clone()))));
        Self {
            carcass: row.carcass.id,
            winter: row.winter,
            days: row.days,
            crew: row.crew.as_deref().map(Arc::from),
            place: row.place.clone(),
            nothing_lay_there: row.nothing_lay_there(),
            joined: row.carcass.joined.len() > 1,
            closed: view.closed,
            age_group: row.age_group(),
            condition: Arc::from(row.condition()),
            findings: FINDINGS.map(|finding| findings::result(row.carcass, finding)),
            called: Arc::new(causes::called_of(&view.readings)),
            cause,
            poor_fit: view.poor_fit,
            age_and_sex: view.age_and_sex,
            aged: view.aged,
            sexed: view.sexed,
            age_prior: Arc::new(view.age_prior),
            leads: leads(row.carcass).into(),
            jaw: doubles::jaw(row.carcass).map(Arc::from),
            known_before: doubles::known_before(row.carcass),
            diet: Box::new(diet::of_one(row.carcass)),
        }
    }

    /// Whether it is a white-tailed deer that died in the months of the methods: it counts in the figures.
    pub const fn counts(&self) -> bool {
        self.closed.is_none()
    }

    /// The window of its death, where it has one.
    pub fn window(&self) -> Option<DeathWindow> {
        self.days.map(|days| DeathWindow { from: days.from, to: days.to })
    }

    /// What came of one of [`FINDINGS`].
    pub fn finding(&self, finding: &str) -> findings::Result {
        let at = FINDINGS.iter().position(|one| *one == finding);
        at.and_then(|at| self.findings.get(at)).copied().unwrap_or(findings::Result::NotLooked)
    }
}

/// Carcasses of one fold, on their way to those of all folds.
#[derive(Debug, Default)]
pub struct OfFold {
    rows: Vec<Kept>,
    /// Sources of the readings that count, by winter.
    sources: BTreeMap<i32, BTreeSet<Cited>>,
}

impl OfFold {
    /// Reads each carcass, in the order of their ids.
    pub fn of(folded: &Fold, given: &Given, crews: &BTreeMap<DeviceId, String>) -> Self {
        let mut out = Self::default();
        for carcass in folded.carcasses.values() {
            let row = row(carcass, given, crews);
            let kept = Kept::of(&row);
            if let (Some(winter), true) = (kept.winter, kept.counts() && !kept.nothing_lay_there) {
                let all = out.sources.entry(winter).or_default();
                for source in row.view.readings.each().into_iter().flat_map(|reading| &reading.sources) {
                    all.insert((source.id.clone(), source.cite.clone(), source.mark.clone()));
                }
            }
            out.rows.push(kept);
        }
        out
    }
}

/// What of all carcasses is one and the same is held once.
#[derive(Debug)]
struct Once<T: ?Sized>(BTreeSet<Arc<T>>);

impl<T: Ord + ?Sized> Default for Once<T> {
    fn default() -> Self {
        Self(BTreeSet::new())
    }
}

impl<T: Ord + ?Sized> Once<T> {
    fn hold(&mut self, one: &mut Arc<T>) {
        match self.0.get(one) {
            Some(held) => *one = Arc::clone(held),
            None => drop(self.0.insert(Arc::clone(one))),
        }
    }
}

/// All that a season is made of.
#[derive(Debug, Default)]
pub struct All {
    /// Carcasses, in the order of their ids.
    pub rows: Vec<Kept>,
    /// Outings, in the order of theirs.
    pub outings: Vec<Outing>,
    /// Examinations that name no carcass.
    pub adrift: usize,
    /// Ids that two different entries claim.
    pub forks: usize,
    sources: BTreeMap<i32, BTreeSet<Cited>>,
    words: Once<str>,
    called: Once<Called>,
    tables: Once<TableName>,
    priors: Vec<Arc<Classes>>,
}

impl All {
    /// No carcass yet.
    pub fn beside(adrift: usize, forks: usize) -> Self {
        Self { adrift, forks, ..Self::default() }
    }

    /// Takes in the carcasses of a fold; their ids lie behind all that was taken.
    pub fn take(&mut self, of_fold: OfFold) {
        for (winter, sources) in of_fold.sources {
            self.sources.entry(winter).or_default().extend(sources);
        }
        self.rows.reserve(of_fold.rows.len());
        for mut row in of_fold.rows {
            self.words.hold(&mut row.condition);
            row.crew.iter_mut().chain(&mut row.jaw).for_each(|word| self.words.hold(word));
            self.called.hold(&mut row.called);
            if let Some(cause) = &mut row.cause {
                self.tables.hold(&mut cause.1);
            }
            // One card, one prior: there are hardly ever two.
            match self.priors.iter().find(|prior| **prior == row.age_prior) {
                Some(held) => row.age_prior = Arc::clone(held),
                None => self.priors.push(Arc::clone(&row.age_prior)),
            }
            self.rows.push(row);
        }
    }

    /// Takes in the outings of a fold.
    pub fn take_outings(&mut self, folded: &Fold) {
        self.outings.extend(folded.outings.iter().map(|(id, sheet)| Outing::of(*id, sheet)));
    }

    /// Sources of the readings that count in a winter.
    pub fn sources(&self, winter: i32) -> impl Iterator<Item = &Cited> {
        self.sources.get(&winter).into_iter().flatten()
    }
}
