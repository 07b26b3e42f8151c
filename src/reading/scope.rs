//! Whether the methods are open for this carcass.

use super::jaw;
use super::lens::{Lens, Used, digest_of, ids_of};
use super::local_ids::SPECIES_DIFFER;
use super::message_ids as id;
use super::shape::{Outcome, Reading, Sharpen, Statement};
use super::window;
use crate::record::{Carcass, Site};
use crate::science::scope::{OutOfScope, in_scope};

/// The check, and the entries that it rests on.
pub(super) struct Scope<'a> {
    closed: Option<Closed>,
    used: Used<'a>,
}

#[derive(Clone, Copy, PartialEq, Eq)]
enum Closed {
    Out(OutOfScope),
    /// Open by one answer on the species and closed by another, or closed for different reasons.
    SpeciesDiffer,
}

impl<'a> Scope<'a> {
    /// By the answers of the lens, whichever of those on the species holds; its own use of them is not noted
    /// in it.
    pub(super) fn of(carcass: &Carcass, lens: &Lens<'_, 'a>) -> Self {
        let mut used = Used::new();
        let mut all = Vec::new();
        for way in lens.each_way(("species", Site::NONE)) {
            let days = window::window(carcass, &way).map(|w| w.days);
            all.push(in_scope(jaw::species(&way), days).err().map(Closed::Out));
            used.extend(way.into_used());
        }
        let closed = match all.split_first() {
            Some((first, others)) if others.iter().all(|other| other == first) => *first,
            _ => Some(Closed::SpeciesDiffer),
        };
        Self { closed, used }
    }

    /// Why the methods are closed, as a message id.
    pub(super) fn why_closed(&self) -> Option<&'static str> {
        self.closed.map(said)
    }

    /// The reading as it is, or refused where the method is closed and something was seen; with the entries
    /// used.
    pub(super) fn guarded(&self, mut used: Used<'a>, reading: Reading) -> (Reading, Used<'a>) {
        let closed = self.closed.is_some() && reading.outcome != Outcome::NoEvidence;
        let reading = self.guard(used.clone(), reading);
        if closed {
            used.extend(&self.used);
        }
        (reading, used)
    }

    /// The reading as it is, or refused where the method is closed and something was seen.
    pub(super) fn guard(&self, mut used: Used<'a>, reading: Reading) -> Reading {
        let Some(why) = self.closed else { return reading };
        if reading.outcome == Outcome::NoEvidence {
            // No further look opens a method that is for another animal.
            let sharpen = if why == Closed::Out(OutOfScope::NotWhiteTailed) { Vec::new() } else { reading.sharpen };
            return Reading { sharpen, ..reading };
        }
        used.extend(&self.used);
        Reading {
            outcome: Outcome::Refused,
            estimates: Vec::new(),
            statements: vec![Statement::plain(said(why))],
            cautions: Vec::new(),
            sharpen: match why {
                Closed::Out(OutOfScope::SpeciesUnknown) | Closed::SpeciesDiffer => vec![look_at_species()],
                Closed::Out(_) => Vec::new(),
            },
            variants: Vec::new(),
            rests_on: ids_of(&used),
            entries_digest: digest_of(&used),
            sources: Vec::new(),
            ..reading
        }
    }
}

const fn said(why: Closed) -> &'static str {
    match why {
        Closed::Out(why) => id::out_of_scope(why),
        Closed::SpeciesDiffer => SPECIES_DIFFER,
    }
}

/// The look that opens every method.
pub(super) fn look_at_species() -> Sharpen {
    Sharpen {
        look: Statement::plain(id::LOOK_SPECIES),
        finding: "species".to_owned(),
        site: Site::NONE,
        gain_bits: None,
    }
}
