//! Bounds joined into one window: hard ones first, soft ones by weight, nothing lost.

use super::{Instant, Rule};
use crate::order::Short as _;

/// What one finding says of the instant of death.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Bound {
    /// The rule behind it.
    pub rule: Rule,
    /// Not before.
    pub low: Option<Instant>,
    /// Not after.
    pub high: Option<Instant>,
    /// Never dropped.
    pub hard: bool,
}

impl Bound {
    /// Not before an instant.
    pub const fn low(rule: Rule, at: Instant, hard: bool) -> Self {
        Self { rule, low: Some(at), high: None, hard }
    }

    /// Not after an instant.
    pub const fn high(rule: Rule, at: Instant, hard: bool) -> Self {
        Self { rule, low: None, high: Some(at), hard }
    }
}

/// One end of a window and the rule that set it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct End {
    /// When.
    pub at: Instant,
    /// By which rule.
    pub rule: Rule,
}

/// A soft bound that would have emptied the window, and what it ran against.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Dropped {
    /// The bound.
    pub bound: Bound,
    /// The rule of the end that it contradicts; its own where it contradicts itself.
    pub against: Rule,
}

/// The window in which the deer died.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Window {
    /// Not before.
    pub low: Option<End>,
    /// Not after.
    pub high: Option<End>,
    /// Bounds taken, in the order in which they were.
    pub taken: Vec<Bound>,
    /// Soft bounds left out.
    pub dropped: Vec<Dropped>,
}

/// Hard bounds that contradict each other: nothing can be said until one is put right.
#[derive(Clone, Copy, Debug, PartialEq, Eq, thiserror::Error)]
#[error("hard evidence conflicts: not before {} by {:?}, not after {} by {:?}", low.at, low.rule, high.at, high.rule)]
pub struct Conflict {
    /// The latest `not before`.
    pub low: End,
    /// The earliest `not after`.
    pub high: End,
}

/// Hours from end to end up to which the middle is named.
pub const POINT_WITHIN_H: f64 = 24.0;

impl Window {
    /// Hours from end to end, where both are known.
    pub fn hours(&self) -> Option<f64> {
        let (low, high) = (self.low?, self.high?);
        Some((high.at - low.at) as f64 / super::HOUR_S as f64)
    }

    /// The middle, where the window is a day or less and neither end is assumed.
    pub fn middle(&self) -> Option<Instant> {
        let (low, high) = (self.low?, self.high?);
        let near = self.hours()? <= POINT_WITHIN_H && !low.rule.is_assumed();
        near.then(|| low.at + (high.at - low.at) / 2)
    }

    fn take(&mut self, bound: Bound) {
        let rule = bound.rule;
        if let Some(at) = bound.low.filter(|at| self.low.is_none_or(|end| *at > end.at)) {
            self.low = Some(End { at, rule });
        }
        if let Some(at) = bound.high.filter(|at| self.high.is_none_or(|end| *at < end.at)) {
            self.high = Some(End { at, rule });
        }
        self.taken.push(bound);
    }

    /// What taking this bound would contradict.
    fn contradicts(&self, bound: &Bound) -> Option<Rule> {
        let over = |low: Option<Instant>, high: Option<Instant>| low.zip(high).is_some_and(|(low, high)| low > high);
        if over(bound.low, bound.high) {
            Some(bound.rule)
        } else if over(bound.low, self.high.map(|end| end.at)) {
            self.high.map(|end| end.rule)
        } else if over(self.low.map(|end| end.at), bound.high) {
            self.low.map(|end| end.rule)
        } else {
            None
        }
    }
}

/// Joins bounds. The result does not depend on the order in which they come.
///
/// # Errors
/// [`Conflict`] where hard bounds contradict each other, with the pair.
pub fn combine(bounds: &[Bound]) -> Result<Window, Conflict> {
    let mut hard: Vec<Bound> = bounds.iter().copied().filter(|b| b.hard).collect();
    hard.order();
    let mut soft: Vec<Bound> = bounds.iter().copied().filter(|b| !b.hard).collect();
    soft.order_by_key(|b| (std::cmp::Reverse(b.rule.row().weight), *b));
    let mut window = Window::default();
    for bound in hard {
        window.take(bound);
    }
    if let (Some(low), Some(high)) = (window.low, window.high)
        && low.at > high.at
    {
        return Err(Conflict { low, high });
    }
    for bound in soft {
        match window.contradicts(&bound) {
            Some(against) => window.dropped.push(Dropped { bound, against }),
            None => window.take(bound),
        }
    }
    Ok(window)
}
