//! How a count of points or a sorting by volume stands on the examination in hand, and when it may end.

use std::collections::BTreeSet;

use crate::order::Gather as _;
use crate::record::{Answer, Site, Value};
use crate::science::diet::plants::{self, OWN};
use crate::science::diet::points::{FEWEST, FRAME, Tally};

use super::View;

/// Percentages may pass 100 by this much through rounding; as in the method.
const MOST_PERCENT: i64 = 101;

/// A count of points as it stands.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct PointCount {
    /// Points of all frames in the journal.
    pub tally: Tally,
    /// Plants in the order in which they first came.
    pub order: Vec<String>,
    /// Number of the next frame.
    pub next_frame: u16,
    /// The last frame, its number and its points in order: what undo opens again.
    pub last: Option<(u16, Vec<String>)>,
}

impl PointCount {
    /// Points of a frame.
    pub const FRAME: usize = FRAME;

    /// Points in all, with so many in the frame in hand.
    pub fn total(&self, in_hand: usize) -> u32 {
        self.tally.total().saturating_add(u32::try_from(in_hand).unwrap_or(0))
    }

    /// Whether fewer were counted than are asked for.
    pub fn is_few(&self, in_hand: usize) -> bool {
        self.total(in_hand) < FEWEST
    }

    /// Points of one plant, with those of the frame in hand.
    pub fn of(&self, code: &str, in_hand: &[&str]) -> u32 {
        let here = in_hand.iter().filter(|one| **one == code).count();
        self.tally.points.get(code).copied().unwrap_or(0).saturating_add(u32::try_from(here).unwrap_or(0))
    }
}

/// The count on this examination.
pub fn point_count(view: &View) -> PointCount {
    let mut count = PointCount { next_frame: 1, ..PointCount::default() };
    for (code, site, all) in view.exam.answers() {
        let Some(number) = site.item.filter(|_| code.as_str() == "rumen_points") else { continue };
        for standing in all {
            if let Some(Value::Text(text)) = standing.answer.value()
                && count.tally.add(text).is_ok()
            {
                for plant in text.split(' ') {
                    if !count.order.iter().any(|known| known == plant) {
                        count.order.push(plant.to_owned());
                    }
                }
                count.last = Some((number, text.split(' ').map(str::to_owned).collect()));
            }
        }
        count.next_frame = count.next_frame.max(number.saturating_add(1));
    }
    count
}

/// A sorting by volume as it stands.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Volumes {
    /// True where it is judged in percent.
    pub in_percent: bool,
    /// Plants by number, with their amounts.
    pub amounts: Vec<(u16, i64)>,
}

impl Volumes {
    /// All amounts together.
    pub fn total(&self) -> i64 {
        self.amounts.iter().map(|(_, amount)| *amount).fold(0, i64::saturating_add)
    }

    /// Why the sorting cannot end as it stands: a message id with the amount in `{total}`.
    pub fn not_yet(&self) -> Option<&'static str> {
        if self.total() <= 0 {
            Some("volumes.nothing_yet")
        } else if self.in_percent && self.total() > MOST_PERCENT {
            Some("volumes.over_100")
        } else {
            None
        }
    }
}

/// The sorting on this examination.
pub fn volumes(view: &View) -> Volumes {
    let in_percent = view.chose("rumen_method", "volume_percent");
    let finding = if in_percent { "rumen_plant_percent" } else { "rumen_plant_ml" };
    let one = |(code, site, all): (&crate::record::FindingCode, Site, &[crate::record::Standing])| {
        let number = site.item.filter(|_| code.as_str() == finding)?;
        match all.first().map(|s| &s.answer) {
            Some(Answer::Seen { value: Value::Number(amount) }) => Some((number, *amount)),
            _ => None,
        }
    };
    Volumes { in_percent, amounts: view.exam.answers().filter_map(one).collect() }
}

/// A place for each plant of one's own that was tapped, to be named once the count or the sorting is done.
pub(super) fn own_plants(view: &View) -> Vec<Site> {
    if !view.there("rumen_point_count") && !view.there("rumen_sorting") {
        return Vec::new();
    }
    let count = point_count(view);
    let numbers: BTreeSet<u16> = volumes(view).amounts.into_iter().map(|(number, _)| number).gather();
    let used = |own: &&plants::Plant| count.tally.points.contains_key(own.code) || numbers.contains(&own.number);
    OWN.iter().zip(1_u16..).filter(|(own, _)| used(own)).map(|(_, n)| Site::item(n)).collect()
}
