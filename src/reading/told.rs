//! What a reading has said so far, and how it closes. One for all readings that add up sentence by sentence.

use super::lens::{Used, digest_of, ids_of};
use super::shape::{Basis, Estimate, Outcome, Reading, Sharpen, Statement};
use crate::record::Site;
use crate::science::source::Source;

/// What has been said so far. Nothing is said twice, and a source stands once.
#[derive(Default)]
pub(super) struct Told {
    pub(super) estimates: Vec<Estimate>,
    pub(super) statements: Vec<Statement>,
    pub(super) cautions: Vec<Statement>,
    pub(super) sources: Vec<&'static Source>,
    pub(super) sharpen: Vec<Sharpen>,
}

fn once<T: PartialEq>(all: &mut Vec<T>, one: T) {
    if !all.contains(&one) {
        all.push(one);
    }
}

/// A further look: what to do, and the finding that it answers. No model says what it is worth.
pub(super) fn look(look: &str, finding: &str) -> Sharpen {
    Sharpen { look: Statement::plain(look), finding: finding.to_owned(), site: Site::NONE, gain_bits: None }
}

impl Told {
    pub(super) fn say(&mut self, statement: Statement) {
        once(&mut self.statements, statement);
    }

    pub(super) fn caution(&mut self, id: &str) {
        self.caution_of(Statement::plain(id));
    }

    /// A caution with values.
    pub(super) fn caution_of(&mut self, statement: Statement) {
        once(&mut self.cautions, statement);
    }

    pub(super) fn rest_on(&mut self, all: &'static [Source]) {
        for source in all {
            self.rest_on_one(source);
        }
    }

    pub(super) fn rest_on_one(&mut self, source: &'static Source) {
        once(&mut self.sources, source);
    }

    pub(super) fn look(&mut self, what: &str, finding: &str) {
        self.sharpen.push(look(what, finding));
    }

    /// A figure whose source states no coverage.
    pub(super) fn figure(&mut self, unit: &str, best: Option<f64>, low: Option<f64>, high: Option<f64>) {
        let unit = unit.to_owned();
        self.estimates.push(Estimate { unit, best, low, high, coverage: None, shares: Vec::new() });
    }

    /// The reading of all that was said, resting on these entries.
    pub(super) fn close(self, method: &str, title: &str, outcome: Outcome, used: &Used) -> Reading {
        Reading {
            method: method.to_owned(),
            title: title.to_owned(),
            outcome,
            estimates: self.estimates,
            statements: self.statements,
            cautions: self.cautions,
            sharpen: self.sharpen,
            variants: Vec::new(),
            rests_on: ids_of(used),
            entries_digest: digest_of(used),
            sources: self.sources.into_iter().map(Basis::from).collect(),
        }
    }
}
