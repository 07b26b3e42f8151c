//! A step: one question of the protocol, as a row of a table.

use crate::record::Site;

use super::{Phase, View};

/// What a step does to the carcass.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Touch {
    /// Only looked at; stays open under a stop that closes hands-on work.
    Look,
    /// Touched with gloves.
    Handle,
    /// Cut, sawn or opened.
    Cut,
}

/// How a step is answered. The codes are findings.
#[derive(Clone, Copy, Debug)]
pub enum Input {
    /// One option.
    Choice(&'static str),
    /// One or more options, then `that is all`.
    Choices(&'static str),
    /// Signs that are there or not; `none of these` writes `NotSeen` for each after `I looked at ...`.
    Panel(&'static [&'static str]),
    /// A number on the pad.
    Number(&'static str),
    /// Words.
    Text(&'static str),
    /// A moment.
    Instant(&'static str),
    /// A place.
    Place(&'static str),
    /// A line that is read and done.
    ReadDo(&'static str),
    /// A photo.
    Photo(&'static str),
    /// The drawn lower jaw of the step's side: state of every cheek tooth, dentine and crest of molars.
    Jaw,
}

/// A row of the protocol.
#[derive(Clone, Copy)]
pub struct Step {
    /// Id: `step.<id>.ask`, `.why` and `.how` are its texts.
    pub id: &'static str,
    /// When in the visit.
    pub phase: Phase,
    /// How it is answered.
    pub input: Input,
    /// What it does to the carcass.
    pub touch: Touch,
    /// Whether it applies to what stands in the record.
    pub when: fn(&View) -> bool,
    /// At which places it is asked; each place is one question.
    pub sites: fn(&View) -> Vec<Site>,
    /// The answer to write without asking, where the record already rules the question out
    /// (eaten, frozen, opened by nobody). `None` asks.
    pub ruled_out: fn(&View) -> Option<crate::record::Answer>,
}

impl std::fmt::Debug for Step {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        write!(f, "Step({})", self.id)
    }
}

impl PartialEq for Step {
    fn eq(&self, other: &Self) -> bool {
        self.id == other.id
    }
}

impl Step {
    /// A step that only looks, always applies and has no place.
    pub(crate) const fn look(id: &'static str, phase: Phase, input: Input) -> Self {
        Self { id, phase, input, touch: Touch::Look, when: |_| true, sites: |_| vec![Site::NONE], ruled_out: |_| None }
    }

    /// The same, touched or cut.
    pub(crate) const fn touch(self, touch: Touch) -> Self {
        Self { touch, ..self }
    }

    /// The same, only when this holds.
    pub(crate) const fn when(self, when: fn(&View) -> bool) -> Self {
        Self { when, ..self }
    }

    /// The same, at these places.
    pub(crate) const fn sites(self, sites: fn(&View) -> Vec<Site>) -> Self {
        Self { sites, ..self }
    }

    /// The same, answered without asking when this gives an answer.
    pub(crate) const fn ruled_out(self, ruled_out: fn(&View) -> Option<crate::record::Answer>) -> Self {
        Self { ruled_out, ..self }
    }
}
