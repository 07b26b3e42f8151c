//! When a deer died: bounds on the instant of death, each with its rule, joined into one window.
//!
//! Every finding gives at most a bound: not before this, not after that. Hard bounds are never dropped;
//! soft ones are taken by weight and left out, and listed, where they would empty the window. A method
//! outside its range gives its reason instead of a bound. No instant is ever estimated more finely than
//! the window: the middle is named only where the window is a day or less.
//!
//! Instants are seconds since 1970 (UTC), as in a local time with its offset; spans are hours or days.

pub mod cooling;
pub mod decay;
pub mod early;
pub mod eaten;
pub mod freezing;
pub mod rule;
pub mod silent;
pub mod snow;
pub mod weather;
pub mod weathering;
pub mod window;

pub use rule::{Rule, Span};
pub use silent::Silent;
pub use window::{Bound, Conflict, Dropped, Window, combine};

/// Seconds since 1970, UTC.
pub type Instant = i64;

/// Seconds in an hour.
pub const HOUR_S: i64 = 3_600;
/// Seconds in a day.
pub const DAY_S: i64 = 24 * HOUR_S;

/// What a method comes to: bounds, and what gave none with the reason.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Found {
    /// Bounds on the instant of death.
    pub bounds: Vec<Bound>,
    /// Rules that something was seen for, and why they give no bound.
    pub silent: Vec<(Rule, Silent)>,
}

impl Found {
    /// Adds what another method came to.
    pub fn add(&mut self, other: Self) {
        self.bounds.extend(other.bounds);
        self.silent.extend(other.silent);
    }

    fn bound(&mut self, bound: Bound) {
        self.bounds.push(bound);
    }

    fn silent(&mut self, rule: Rule, why: Silent) {
        self.silent.push((rule, why));
    }
}

/// When something was seen: between two instants, the same where the moment was noted.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Looked {
    /// Not before.
    pub from: Instant,
    /// Not after.
    pub to: Instant,
}

impl Looked {
    /// Noted to the minute.
    pub const fn at(instant: Instant) -> Self {
        Self { from: instant, to: instant }
    }

    /// A bound of so many hours before the look, of a soft rule.
    fn before(self, rule: Rule, span: Span) -> Bound {
        Bound {
            rule,
            low: span.latest_h.and_then(|h| shifted(self.from, -h)),
            high: shifted(self.to, -span.earliest_h),
            hard: false,
        }
    }
}

/// So many hours later, to the second below.
#[allow(clippy::cast_possible_truncation)] // held within a hundred years
fn shifted(at: Instant, hours: f64) -> Option<Instant> {
    const MOST_H: f64 = 876_600.0;
    (hours.abs() <= MOST_H).then(|| at.saturating_add((hours * HOUR_S as f64).floor() as i64))
}

#[cfg(test)]
mod tests;
