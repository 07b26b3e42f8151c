//! A step: one question of the protocol, as a row of a table.

use crate::record::{Answer, Site};

use super::{About, Phase, View};

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
    /// Signs that are there or not; the tile `I looked for each: none of these` writes `NotSeen` for each.
    Panel(&'static [&'static str]),
    /// Several steps looked over in one: `none_of_these` of the finding answers each of their signs `NotSeen` and
    /// states their read-do lines; `ask_each` leaves them to be asked. Offered to one who went through them at the
    /// carcass before.
    Sweep {
        /// The finding.
        finding: &'static str,
        /// The steps.
        steps: &'static [&'static str],
    },
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
    /// Photos one after the other, each at its own number.
    Photos {
        /// The finding.
        finding: &'static str,
        /// The numbers, in the order in which they are asked for.
        items: &'static [u16],
    },
    /// Points of a rumen: a plant is tapped for each pin. Each full frame is one entry of `points` under its
    /// number; `done` ends the count.
    Points {
        /// Frames of points.
        points: &'static str,
        /// That the count is done.
        done: &'static str,
    },
    /// Volumes of a rumen, plant by plant; `done` ends the sorting.
    Volumes {
        /// Amounts in millilitres and in percent, at the plant's number.
        amounts: [&'static str; 2],
        /// That the sorting is done.
        done: &'static str,
    },
    /// The drawn lower jaw of the step's side: state of every cheek tooth, dentine and crest of molars.
    Jaw,
}

/// A row of the protocol.
#[derive(Clone, Copy)]
pub struct Step {
    /// Id: `step.<id>.ask`, `.why` and `.how` are its texts, `.none` that of the tile which says that
    /// it was looked for and is not there, where [`Step::absent`] ever allows that.
    pub id: &'static str,
    /// When in the visit.
    pub phase: Phase,
    /// What it asks about.
    pub about: About,
    /// How it is answered.
    pub input: Input,
    /// What it does to the carcass.
    pub touch: Touch,
    /// Steps of one group that follow each other are asked place by place: all of the left jaw, then
    /// all of the right. Empty: alone.
    pub group: &'static str,
    /// Whether it applies to what stands in the record.
    pub when: fn(&View) -> bool,
    /// At which places it is asked; each place is one question.
    pub sites: fn(&View) -> Vec<Site>,
    /// The answer to write without asking, where the record already rules the question out
    /// (eaten, frozen, opened by nobody). `None` asks.
    pub ruled_out: fn(&View, Site) -> Option<Answer>,
    /// Whether `looked, and it is not there` can be an answer, given how much was looked over; `None`
    /// for steps of which it never is one.
    pub absent: Option<fn(&View) -> bool>,
    /// Whether it is asked again until there is a value: only for what can always be given.
    pub insists: bool,
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

fn always(_: &View) -> bool {
    true
}

impl Step {
    /// A step that only looks, always applies and has no place. A panel may be `none of these`; for
    /// other inputs [`Step::may_be_absent`] says so.
    pub(crate) const fn look(id: &'static str, phase: Phase, input: Input) -> Self {
        let absent: Option<fn(&View) -> bool> = if matches!(input, Input::Panel(_)) { Some(always) } else { None };
        Self {
            id,
            phase,
            about: match phase {
                Phase::StandOff | Phase::HandsOff | Phase::Outside | Phase::Opened | Phase::Samples | Phase::Bench => {
                    About::Body
                }
                _ => About::Visit,
            },
            input,
            touch: Touch::Look,
            group: "",
            when: always,
            sites: |_| vec![Site::NONE],
            ruled_out: |_, _| None,
            absent,
            insists: false,
        }
    }

    /// The same, about what lies round the carcass.
    pub(crate) const fn ground(self) -> Self {
        Self { about: About::Ground, ..self }
    }

    /// The same, about no part of the carcass and nothing that snow hides.
    pub(crate) const fn visit(self) -> Self {
        Self { about: About::Visit, ..self }
    }

    /// The same, touched or cut.
    pub(crate) const fn touch(self, touch: Touch) -> Self {
        Self { touch, ..self }
    }

    /// The same, asked place by place together with its neighbours of this group.
    pub(crate) const fn group(self, group: &'static str) -> Self {
        Self { group, ..self }
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
    pub(crate) const fn ruled_out(self, ruled_out: fn(&View, Site) -> Option<Answer>) -> Self {
        Self { ruled_out, ..self }
    }

    /// The same, asked until there is a value or the crew leaves.
    pub(crate) const fn insists(self) -> Self {
        Self { insists: true, ..self }
    }

    /// The same; `looked, and it is not there` is an answer.
    pub(crate) const fn may_be_absent(self) -> Self {
        Self { absent: Some(always), ..self }
    }

    /// The same; `looked, and it is not there` is an answer only when this holds.
    pub(crate) const fn absent_when(self, absent: fn(&View) -> bool) -> Self {
        Self { absent: Some(absent), ..self }
    }
}
