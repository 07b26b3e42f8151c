//! What jaws of exactly known age say by themselves, nothing assumed.

use serde::Serialize;

use super::tally::Tally;
use crate::science::special::wilson;

/// Coverage of the intervals.
pub const COVERAGE: f64 = 0.95;

/// So many right of so many, with Wilson's interval.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct Right {
    /// Right.
    pub right: u32,
    /// Of so many; at least one.
    pub of: u32,
    /// Lower end, 0 to 1.
    pub low: f64,
    /// Upper end, 0 to 1.
    pub high: f64,
}

impl Right {
    fn of(right: u32, of: u32) -> Option<Self> {
        let ends = wilson(right, of, COVERAGE)?;
        Some(Self { right, of, low: ends.low, high: ends.high })
    }

    /// The share.
    pub fn share(&self) -> f64 {
        f64::from(self.right) / f64::from(self.of)
    }
}

/// How a reader does on jaws of exactly known age.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct Direct {
    /// Calls by true class.
    pub calls: [[u32; 11]; 10],
    /// The very class.
    pub exact: Option<Right>,
    /// Within a year.
    pub within_one: Option<Right>,
    /// In the right one of the broad classes fawn, yearling, 2, 3 to 5, 6 and over.
    pub broad: [Option<Right>; 5],
    /// Mean of the call less the true class in adults, years; ten and more as ten. Below zero: too young.
    pub bias_years: Option<f64>,
}

/// First and last class of the broad ones (Foley and others 2022, with fawn and yearling before them).
const BROAD: [(usize, usize); 5] = [(0, 0), (1, 1), (2, 2), (3, 5), (6, 10)];
/// The last true class is nine and more: a call of ten or more is right there too.
const LAST: usize = 9;

impl Direct {
    /// From a tally; ring counts are left out.
    pub fn of(tally: &Tally) -> Self {
        let all = || {
            let cells = |(class, row): (usize, &[u32; 11])| row.map(|n| (class, n)).into_iter().enumerate();
            tally.known.iter().enumerate().flat_map(cells).map(|(call, (class, n))| (class, call.min(LAST), n))
        };
        let count = |keep: &dyn Fn(usize, usize) -> bool| -> u32 {
            all().filter(|(class, call, _)| keep(*class, *call)).map(|(_, _, n)| n).sum()
        };
        let total = count(&|_, _| true);
        let broad = BROAD.map(|(from, to)| {
            let within = move |class: usize| (from..=to).contains(&class);
            Right::of(count(&|class, call| within(class) && within(call)), count(&|class, _| within(class)))
        });
        let adults = count(&|class, _| class >= 2);
        let off: f64 = tally
            .known
            .iter()
            .enumerate()
            .skip(2)
            .flat_map(|(class, row)| {
                row.iter().enumerate().map(move |(call, n)| (call as f64 - class as f64) * f64::from(*n))
            })
            .sum();
        Self {
            calls: tally.known,
            exact: Right::of(count(&|class, call| class == call), total),
            within_one: Right::of(count(&|class, call| class.abs_diff(call) <= 1), total),
            broad,
            bias_years: (adults > 0).then(|| off / f64::from(adults)),
        }
    }
}
