//! Recomputing the readings of everything that was handed in, and comparing them with what the phone
//! saw. The office trusts no number that it can recompute.

use super::cards::Cards;
use super::compare::{Again, Comparison, compare};
use super::opening::Judged;
use crate::bundle::PhoneReading;
use crate::reading::{self, CauseWork, Given, Readings, winter_log};
use crate::record::{CustodyItem, EntryId, Fold, Hands, Journal, Moment, fold};
use crate::science::winter::log::Log;
use crate::words::Language;
use serde::Serialize;
use std::collections::BTreeMap;
use std::sync::Arc;
use uuid::Uuid;

/// The first carcasses ask for most of the drawn table, and it is drawn for them in parts; what those behind them lack
/// is drawn as they are read.
const DRAWN_BEFORE: usize = 10;

/// Carcasses whose samples are noted in one part.
const AT_ONCE: usize = 50;

/// Entries of several bundles as one journal, with what the phones said beside them.
#[derive(Clone, Debug)]
pub struct Gathered {
    /// The union of all entries.
    pub journal: Journal,
    /// Every phone's readings, with the bundle that they came in.
    pub phones: Vec<(Uuid, PhoneReading)>,
}

impl Default for Gathered {
    fn default() -> Self {
        Self { journal: Journal::of_an_office(), phones: Vec::new() }
    }
}

impl Gathered {
    /// Takes in a judged file and all that it carries. Only what is intact is taken, whoever signed it.
    pub fn take(&mut self, judged: &Judged) {
        judged.intact().into_iter().for_each(|one| self.take_own(one));
    }

    fn take_own(&mut self, judged: &Judged) {
        let Some(contents) = &judged.contents else { return };
        judged.decider().into_iter().for_each(|device| self.journal.let_decide(device));
        for entry in &contents.entries {
            // Entries rebuilt from a bundle agree with their headers: adding them cannot fail.
            let _ = self.journal.add(entry.clone());
        }
        let bundle = contents.payload.bundle;
        self.phones.extend(contents.payload.readings.iter().map(|one| (bundle, one.clone())));
    }

    /// Takes in what counts of a judged file, see [`Judged::counted`].
    pub fn take_counted(&mut self, judged: &Judged) {
        judged.counted().into_iter().for_each(|one| self.take_own(one));
    }

    /// Folds the journal and recomputes every carcass without any local card, in order of their ids.
    pub fn recompute(&self) -> Recomputed {
        self.recompute_with(&Cards::default(), Moment::EPOCH)
    }

    /// The same with today's card; where a phone's reading differs, with the phone's card too.
    pub fn recompute_with(&self, cards: &Cards, now: Moment) -> Recomputed {
        let (forks, phones) = (self.journal.forks(), self.phones.clone());
        let mut parts = Recomputing::begin(fold(&self.journal), forks, phones, Arc::new(cards.clone()), now);
        while parts.step() {}
        parts.done()
    }
}

/// A fold whose carcasses are read one after the other, so that a page can answer taps in between.
#[derive(Debug)]
pub struct Recomputing {
    cards: Arc<Cards>,
    now: Moment,
    folded: Fold,
    hands: Hands,
    forks: Vec<EntryId>,
    logs: Vec<Log>,
    phones: Vec<(Uuid, PhoneReading)>,
    /// Places among the phones' readings, by the carcass that they name.
    of: BTreeMap<Uuid, Vec<usize>>,
    /// Whose samples are not noted yet.
    bearing: std::vec::IntoIter<Uuid>,
    /// What is lacking of the drawn table for the next carcass.
    drawing: Option<CauseWork>,
    todo: std::vec::IntoIter<Uuid>,
    done: Vec<CarcassLine>,
}

impl Recomputing {
    /// Before the first carcass.
    pub fn begin(
        folded: Fold,
        forks: Vec<EntryId>,
        phones: Vec<(Uuid, PhoneReading)>,
        cards: Arc<Cards>,
        now: Moment,
    ) -> Self {
        let mut of: BTreeMap<Uuid, Vec<usize>> = BTreeMap::new();
        for (at, (_, phone)) in phones.iter().enumerate() {
            of.entry(phone.carcass).or_default().push(at);
        }
        let todo: Vec<Uuid> = folded.carcasses.keys().copied().collect();
        let logs = winter_log::logs(&folded);
        let hands = Hands::begin(&folded);
        let (bearing, todo, drawing) = (todo.clone().into_iter(), todo.into_iter(), None);
        Self { cards, now, folded, hands, forks, logs, phones, of, bearing, drawing, todo, done: Vec::new() }
    }

    /// Goes on, at most by one carcass; false where nothing is left.
    pub fn step(&mut self) -> bool {
        if self.bearing.len() > 0 {
            let some = self.bearing.by_ref().take(AT_ONCE).filter_map(|id| self.folded.carcasses.get(&id));
            some.for_each(|carcass| self.hands.bear(carcass));
            return true;
        }
        let Some(carcass) = self.todo.as_slice().first().and_then(|id| self.folded.carcasses.get(id)) else {
            return false;
        };
        let given = Given { card: self.cards.today(self.now), ..Given::default() }.with(&self.folded, &self.logs);
        if self.done.len() < DRAWN_BEFORE {
            let drawing = self.drawing.get_or_insert_with(|| reading::cause_work(carcass, &given));
            if !drawing.step() {
                return true;
            }
            self.drawing = None;
        }
        self.todo.next();
        let readings = reading::all(carcass, &given);
        let mut of_this: Vec<usize> =
            carcass.joined.iter().filter_map(|id| self.of.get(id)).flatten().copied().collect();
        of_this.sort_unstable();
        let again = Again { carcass, cards: &self.cards, given };
        let phones = of_this.into_iter().filter_map(|at| self.phones.get(at));
        let phones = phones.map(|(bundle, phone)| compare(*bundle, &phone.text, &readings, &again)).collect();
        let custody = self.hands.list(&self.folded, carcass);
        self.done.push(CarcassLine { custody, phones, ..CarcassLine::of(readings) });
        true
    }

    /// How many carcasses are read, of how many.
    pub fn so_far(&self) -> (usize, usize) {
        (self.done.len(), self.done.len() + self.todo.len())
    }

    /// Forgets a carcass; false where none is left.
    pub fn let_go(&mut self) -> bool {
        self.done.pop().is_some() | self.folded.carcasses.pop_first().is_some()
    }

    /// All that was read.
    pub fn done(self) -> Recomputed {
        Recomputed { carcasses: self.done, forks: self.forks, folded: self.folded, hands: self.hands }
    }
}

/// What came of recomputing.
#[derive(Clone, Debug)]
pub struct Recomputed {
    /// Each carcass.
    pub carcasses: Vec<CarcassLine>,
    /// Ids that two different entries claim.
    pub forks: Vec<EntryId>,
    /// The fold behind it.
    pub folded: Fold,
    /// Its changes of hands.
    pub hands: Hands,
}

/// One carcass as it is printed.
#[derive(Clone, Debug, Serialize)]
pub struct CarcassLine {
    /// Its id.
    pub carcass: Uuid,
    /// Its name in a findings table.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub name: Option<String>,
    /// The readings, recomputed.
    pub readings: Readings,
    /// The same in words: every statement and caution, by method.
    pub said: BTreeMap<String, Vec<String>>,
    /// What was taken from it, and who had each thing from when.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub custody: Vec<CustodyItem>,
    /// How each phone's own readings compare.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub phones: Vec<Comparison>,
    /// Rows of a findings table that were set aside.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub set_aside: Vec<String>,
}

impl CarcassLine {
    /// The line of a carcass of which nothing but its readings is known.
    pub fn of(readings: Readings) -> Self {
        let said = readings
            .each()
            .into_iter()
            .map(|one| {
                let sentences = one.statements.iter().chain(&one.cautions).map(|said| said.say(Language::English));
                (one.method.clone(), sentences.collect())
            })
            .collect();
        Self {
            carcass: readings.carcass,
            name: None,
            readings,
            said,
            custody: Vec::new(),
            phones: Vec::new(),
            set_aside: Vec::new(),
        }
    }
}
