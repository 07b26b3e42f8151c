//! The resume card: where the visit stood when it was interrupted.
//!
//! The first step after an interruption is where errors cluster, and people repeat more often than
//! they skip (HFES 2006, seen as an abstract): the card shows what was answered last, with its
//! answer, before it offers to carry on.

use crate::order::Short as _;
use crate::record::{Answer, EntryId, Moment, Sheet, Site};

use super::view::is_unasked;
use super::{Ask, AskState, Phase, Situation, Status, View};

/// One of the answers given last.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct LastAnswer {
    /// The finding's code.
    pub finding: String,
    /// Its place.
    pub site: Site,
    /// What was answered.
    pub answer: Answer,
    /// The entry, for taking it back.
    pub id: EntryId,
    /// When, by the device's clock.
    pub at: Moment,
    /// The step or hazard that asked, by id, where the entry names it.
    pub step: Option<String>,
}

/// Where the visit stands, for the card shown after an interruption.
#[derive(Clone, Debug, PartialEq)]
pub struct Resume {
    /// Phase of the next ask; the last phase where nothing is open.
    pub phase: Phase,
    /// The answers given last, the latest first; of those of one tap what was seen before the rest.
    pub last: Vec<LastAnswer>,
    /// Seconds since the last of them, where the clock has not jumped back behind it.
    pub away_s: Option<u64>,
    /// How many asks are open.
    pub open_count: usize,
    /// What comes next.
    pub next: Option<Ask>,
    /// Stops in force, by id.
    pub stops: Vec<&'static str>,
}

impl Situation {
    /// The card for this situation, with at most so many last answers.
    pub fn resume(&self, view: &View, last_count: usize) -> Resume {
        let last = last_answers(view, last_count);
        let away_s =
            last.first().and_then(|l| u64::try_from(view.now.unix_seconds().saturating_sub(l.at.unix_seconds())).ok());
        let open_count = self.asks.iter().filter(|a| matches!(a, AskState { status: Status::Open, .. })).count();
        let phase = self.next.map_or(Phase::HandOver, |ask| ask.phase());
        let stops = self.stops().map(|f| f.hazard.id).collect();
        Resume { phase, last, away_s, open_count, next: self.next, stops }
    }
}

/// The answers given by hand last, on the outing and on the examination, the latest first; of those of one tap what was
/// seen before the rest. Entries of one device are in the order of its chain; between devices only clocks can tell.
pub(super) fn last_answers(view: &View, count: usize) -> Vec<LastAnswer> {
    let mut all: Vec<LastAnswer> = [view.outing, view.exam]
        .into_iter()
        .flat_map(Sheet::answers)
        .flat_map(|(finding, site, standing)| standing.iter().map(move |s| (finding, site, s)))
        .filter(|(_, _, s)| s.step.is_some() && !is_unasked(s))
        .map(|(finding, site, s)| LastAnswer {
            finding: finding.as_str().to_owned(),
            site,
            answer: s.answer.clone(),
            id: s.id,
            at: s.at,
            step: s.step.clone(),
        })
        .collect();
    let one_device = all.windows(2).all(|pair| matches!(pair, [a, b] if a.id.device == b.id.device));
    if one_device {
        all.order_by_key(|l| std::cmp::Reverse(l.id.seq));
    } else {
        all.order_by_key(|l| std::cmp::Reverse((l.at, l.id)));
    }
    // Of signs that one tap answered, first what was seen: it is what the person ticked.
    for tap in all.chunk_by_mut(|a, b| a.id.device == b.id.device && a.step == b.step && a.at == b.at) {
        tap.order_by_key(|l| !matches!(l.answer, Answer::Seen { .. }));
    }
    all.truncate(count);
    all
}
