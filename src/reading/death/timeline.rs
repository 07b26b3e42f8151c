//! What the plot of the time of death shows: storms, visits and the window, as instants.

use super::{Read, ids};
use crate::order::Short as _;
use crate::reading::Given;
use crate::record::Carcass;
use crate::science::death::{Instant, Rule};

/// One thing on the timeline.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Mark {
    /// Message id of what it is.
    pub kind: &'static str,
    /// When it began.
    pub from: Instant,
    /// When it ended; the same for a moment.
    pub to: Instant,
    /// The start is not known and only shown as far back as the plot reaches.
    pub open: bool,
}

/// Everything on one line of time, the window first.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Timeline {
    /// Minutes east of UTC, as where it was found.
    pub offset_minutes: i32,
    /// First and last instant shown.
    pub span: (Instant, Instant),
    /// Marks, the window first, then by time.
    pub marks: Vec<Mark>,
}

impl Timeline {
    /// A local time for the screen.
    pub fn local(&self, at: Instant) -> String {
        super::told::local(at, self.offset_minutes)
    }
}

/// The longest line shown: bones of years ago are no matter of storms.
const MOST_DAYS: i64 = 200;
const DAY_S: i64 = crate::science::death::DAY_S;

/// The timeline of a carcass; `None` where nothing has a date or the bounds contradict each other.
pub fn timeline(carcass: &Carcass, given: &Given) -> Option<Timeline> {
    let read = Read::of(carcass, given);
    let (low, high) = read.hull()?;
    let [window, storm, visit, reported, without, alive, open] = ids::TIMELINE;
    let bounded = low.filter(|(_, assumed)| !assumed).map(|(at, _)| at);
    let mut others: Vec<Mark> = Vec::new();
    let moment = |kind, at| Mark { kind, from: at, to: at, open: false };
    for taken in read.takens() {
        if let Some(arrived) = taken.arrived {
            others.push(moment(visit, arrived.unix_seconds()));
        }
        for (rule, at) in &taken.seen {
            let kind = match rule {
                Rule::PlaceClear => without,
                Rule::SeenAlive => alive,
                _ => reported,
            };
            others.push(moment(kind, *at));
        }
        for fall in &taken.falls {
            others.push(Mark { kind: storm, from: fall.from.unwrap_or(fall.begun_by), to: fall.to, open: false });
        }
    }
    others.order_by_key(|mark| (mark.from, mark.kind));
    others.dedup();
    let last = others.iter().map(|mark| mark.to).chain([high]).max()?;
    let reach = last - MOST_DAYS * DAY_S;
    // A day of air on either side of the window; storms long before it tell nothing.
    let assumed = low.map_or(reach, |(at, _)| at);
    let first = bounded.unwrap_or(assumed).max(reach) - DAY_S;
    others.retain(|mark| mark.to >= first);
    let kind = if bounded.is_some() { window } else { open };
    let mut marks = vec![Mark { kind, from: bounded.unwrap_or(first), to: high, open: bounded.is_none() }];
    marks.extend(others);
    Some(Timeline { offset_minutes: read.offset_minutes(), span: (first, last + DAY_S / 2), marks })
}
