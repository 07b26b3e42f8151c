//! What many carcasses say of their causes, each by its likelihood alone: neither prior nor damping is in it.
//!
//! For the shares of a season. Rows of one block say partly the same, and one carcass's figure damps them; over a
//! season the mixture weighs whole carcasses, and the drawn table carries what is doubtful of the rows
//! (rulings of the project: undamped, the prior once).

use std::collections::BTreeMap;
use std::sync::Arc;

use super::case::Case;
use super::causes::{CAUSES, PerCause};
use super::draws::{Column, Drawn, Place, place};
use super::table::Row;
use crate::science::season::mixture::Said;

/// A case and the table that it is read with.
#[derive(Clone, Debug)]
pub struct OneCase {
    /// The drawn table.
    pub drawn: Arc<Drawn>,
    /// Names the table.
    pub digest: [u8; 32],
    /// What was seen.
    pub case: Case,
}

/// One column of a drawn table.
struct Source {
    drawn: Arc<Drawn>,
    row: Row,
    state: u8,
    place: Place,
    column: Arc<Column>,
}

/// Carcasses that say the same.
struct Group {
    /// Causes that occur for them.
    open: [bool; CAUSES],
    /// Places among the sources.
    used: Vec<usize>,
}

/// Cases of a season by what they say.
pub struct Undamped {
    sources: Vec<Source>,
    groups: Vec<Group>,
    counts: Vec<u32>,
    /// Mean of the cases' own priors.
    prior: PerCause,
    /// The table whose draws move the prior: the random numbers are the same in all.
    of_prior: Option<Arc<Drawn>>,
}

impl Undamped {
    /// Joins cases that say the same, in an order of their own. Cases of which no row counts say nothing and are left
    /// out; `self.counts()` adds up to those that are in.
    pub fn new<'a>(cases: impl IntoIterator<Item = &'a OneCase>) -> Self {
        type Key = ([u8; 32], [bool; CAUSES], Vec<Place>);
        let mut sources: Vec<Source> = Vec::new();
        let mut by_place: BTreeMap<([u8; 32], Place), usize> = BTreeMap::new();
        let mut groups: BTreeMap<Key, (Vec<usize>, u32)> = BTreeMap::new();
        let mut priors: Vec<PerCause> = Vec::new();
        for one in cases {
            let used = one.case.used(one.drawn.table());
            if used.is_empty() {
                continue;
            }
            let mut places = Vec::with_capacity(used.len());
            let mut at = Vec::with_capacity(used.len());
            for (row, state) in used {
                let place = place(row, state, &one.case);
                places.push(place);
                at.push(*by_place.entry((one.digest, place)).or_insert_with(|| {
                    let column = one.drawn.column(place);
                    let drawn = Arc::clone(&one.drawn);
                    sources.push(Source { drawn, row: row.clone(), state, place, column });
                    sources.len() - 1
                }));
            }
            let open = one.case.prior.map(|share| share > 0.0);
            groups.entry((one.digest, open, places)).or_insert((at, 0)).1 += 1;
            priors.push(one.case.prior);
        }
        // Sorted, so that the order of the carcasses moves no digit.
        priors.sort_by(|a, b| {
            a.iter().zip(b).map(|(a, b)| a.total_cmp(b)).find(|o| o.is_ne()).unwrap_or(core::cmp::Ordering::Equal)
        });
        let mut prior = [0.0; CAUSES];
        for own in &priors {
            for (sum, share) in prior.iter_mut().zip(own) {
                *sum += share / priors.len() as f64;
            }
        }
        let mut out = Self { sources, groups: Vec::new(), counts: Vec::new(), prior, of_prior: None };
        out.of_prior = out.sources.first().map(|source| Arc::clone(&source.drawn));
        for ((_, open, _), (used, count)) in groups {
            out.groups.push(Group { open, used });
            out.counts.push(count);
        }
        out
    }

    /// Mean of the cases' own priors, adding to one; all zero where nothing was seen of any.
    pub const fn prior_shares(&self) -> &PerCause {
        &self.prior
    }

    fn rows(&self, rows: &mut Vec<f64>, of: impl Fn(&Source) -> Option<PerCause>) {
        let said: Vec<PerCause> = self.sources.iter().map(|source| of(source).unwrap_or([0.0; CAUSES])).collect();
        rows.clear();
        for group in &self.groups {
            let mut sum = group.open.map(|open| if open { 0.0 } else { f64::NEG_INFINITY });
            for ln_p in group.used.iter().filter_map(|at| said.get(*at)) {
                for (sum, ln_p) in sum.iter_mut().zip(ln_p) {
                    *sum += ln_p;
                }
            }
            let top = sum.iter().copied().fold(f64::NEG_INFINITY, f64::max);
            rows.extend(sum.iter().map(|ln| if *ln > f64::NEG_INFINITY { libm::exp(ln - top) } else { 0.0 }));
        }
    }
}

impl Said for Undamped {
    fn states(&self) -> usize {
        CAUSES
    }

    fn counts(&self) -> &[u32] {
        &self.counts
    }

    fn likelihood(&self, draw: usize, rows: &mut Vec<f64>) {
        self.rows(rows, |source| source.drawn.cells(&source.column, &source.row, source.place, draw).copied());
    }

    fn middle(&self, rows: &mut Vec<f64>) {
        self.rows(rows, |source| source.row.ln_mid(source.state).copied());
    }

    fn prior(&self, draw: usize) -> Vec<f64> {
        let none = [0.0; CAUSES];
        let moved = self.of_prior.as_ref().and_then(|drawn| drawn.moved(draw)).unwrap_or(&none);
        let raised: Vec<f64> = self.prior.iter().zip(moved).map(|(share, ln)| share * libm::exp(*ln)).collect();
        let sum: f64 = raised.iter().sum();
        raised.iter().map(|share| if sum > 0.0 { share / sum } else { 0.0 }).collect()
    }
}
