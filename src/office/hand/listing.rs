//! Samples and calls of the whole archive, found carcass by carcass: a page answers taps in between.

use std::collections::BTreeMap;
use std::slice::Iter;

use super::{Bearers, Hand, Worked};
use crate::card::Laboratory;
use crate::office::calls::{Call, Calling, From};
use crate::office::cards::Cards;
use crate::office::receipt::{Unreceived, unreceived};
use crate::office::recompute::CarcassLine;
use crate::office::send_out::{Line, Sample, State, of_carcass};
use crate::record::{DeviceId, Fold, Moment};

/// What the lists are made with, besides what was worked out.
#[derive(Debug)]
pub struct Local {
    cards: Cards,
    now: Moment,
    laboratories: Result<Vec<Laboratory>, String>,
    office: Option<DeviceId>,
    numbers: BTreeMap<String, String>,
}

/// Samples with their tests, and calls.
#[derive(Clone, Debug)]
pub struct Listed {
    /// The laboratories of today's card, or why there are none.
    pub laboratories: Result<Vec<Laboratory>, String>,
    /// Every test of every sample.
    pub lines: Vec<Line>,
    /// Every call.
    pub calls: Vec<Call>,
    /// Whose sample bears which number.
    pub bearers: Bearers,
    /// The office's own key.
    pub office: Option<DeviceId>,
    /// Samples that nobody received.
    pub unreceived: Vec<Unreceived>,
}

/// Lists in the making.
#[derive(Debug)]
pub struct Listing<'a> {
    local: &'a Local,
    folded: &'a Fold,
    todo: Iter<'a, CarcassLine>,
    lines: Vec<Line>,
    bearers: Bearers,
    unreceived: Vec<Unreceived>,
    calling: Calling<'a>,
}

impl Hand {
    /// What lists are made with as of `now`. `numbers` are those of people by code; they are kept nowhere.
    pub fn local(&self, now: Moment, numbers: BTreeMap<String, String>) -> Local {
        let cards = self.cards().0;
        let laboratories = cards.laboratories(now).map_err(|error| error.to_string());
        let office = self.office_key().and_then(|key| key.public().ok()).map(|key| key.id());
        Local { cards, now, laboratories, office, numbers }
    }

    /// The lists in one go, of what counts.
    pub fn listed(&self, worked: &Worked, now: Moment, numbers: BTreeMap<String, String>) -> Listed {
        let local = self.local(now, numbers);
        let mut listing = Listing::of(&local, worked);
        while listing.step() {}
        listing.done()
    }
}

impl Listed {
    /// Whether the last that happened to the sample of a line was noted by this office and nothing came of it yet.
    pub fn can_take_back(&self, line: &Line) -> bool {
        let is_ours = line.last.is_some_and(|entry| Some(entry.device) == self.office);
        is_ours && line.state <= State::Sent
    }
}

impl<'a> Listing<'a> {
    /// Before the first carcass.
    pub fn of(local: &'a Local, worked: &'a Worked) -> Self {
        let Local { cards, now, laboratories, office, numbers } = local;
        let folded = &worked.folded;
        let card = cards.today(*now).map(|given| given.card);
        let laboratories = laboratories.as_deref().unwrap_or_default();
        let calling = Calling::begin(From { folded, card, laboratories, office: *office, numbers }, &worked.hands);
        Self {
            local,
            folded,
            todo: worked.carcasses.iter(),
            lines: Vec::new(),
            bearers: Bearers::default(),
            unreceived: Vec::new(),
            calling,
        }
    }

    /// Does the next part; false where nothing is left.
    pub fn step(&mut self) -> bool {
        let Some(line) = self.todo.next() else { return self.calling.step() };
        for (item, number) in line.custody.iter().flat_map(|item| item.numbers().map(move |number| (item, number))) {
            if item.rank_of(number).is_some() {
                self.bearers.note(number, line.carcass);
            }
        }
        if let (Some(carcass), Ok(laboratories)) = (self.folded.carcasses.get(&line.carcass), &self.local.laboratories)
        {
            let samples: Vec<Sample> = line.custody.iter().map(|item| Sample { carcass, item: item.clone() }).collect();
            self.lines.extend(of_carcass(&samples, laboratories));
        }
        let laboratories = self.local.laboratories.as_deref().unwrap_or_default();
        self.unreceived.extend(unreceived(line.carcass, &line.custody, laboratories));
        true
    }

    /// The lists, once nothing is left.
    pub fn done(self) -> Listed {
        let laboratories = self.local.laboratories.clone();
        Listed {
            laboratories,
            office: self.local.office,
            lines: self.lines,
            calls: self.calling.done(),
            bearers: self.bearers,
            unreceived: self.unreceived,
        }
    }
}
