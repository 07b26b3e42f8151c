//! A hazard: what fires it, how hard it speaks, what it closes, whom to call.

use crate::card::CallFor;
use crate::science::source::Mark;

use super::View;

/// How hard a hazard speaks.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Grade {
    /// Once, in place; no tap.
    Advise,
    /// A deliberate statement of a fact before the step opens; `cannot` keeps the step closed.
    Confirm,
    /// Closed; a person whom the card names may reopen it with a reason.
    Stop,
    /// Closed; never reopened in the field.
    StopFixed,
}

impl Grade {
    /// The code used in message ids (`grade.<code>`).
    pub const fn code(self) -> &'static str {
        match self {
            Self::Advise => "advise",
            Self::Confirm => "confirm",
            Self::Stop => "stop",
            Self::StopFixed => "stop_fixed",
        }
    }
}

/// What a stop closes, or what a `cannot` on a confirm closes. Looking, leaving, the exposure note
/// and handing over are never closed, nor is saying where one stands and with what photo.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Closes {
    /// Nothing; it only speaks.
    Nothing,
    /// Braincase, spine and antler base.
    Head,
    /// Handling mouth and teeth.
    Mouth,
    /// The steps that ask these findings.
    Asking(&'static [&'static str]),
    /// Opening the body.
    Opening,
    /// Everything that cuts.
    Cutting,
    /// Everything that touches the carcass.
    HandsOn,
    /// Going in to the body: touching it, and measuring beside it. What can be seen from where the
    /// crew stands stays open.
    GoingIn,
    /// Being there: what remains is place, photo, leaving and handing over.
    Place,
}

impl Closes {
    /// The code used in message ids (`closes.<code>`).
    pub const fn code(self) -> &'static str {
        match self {
            Self::Nothing => "nothing",
            Self::Head => "head",
            Self::Mouth => "mouth",
            Self::Asking(_) => "taking",
            Self::Opening => "opening",
            Self::Cutting => "cutting",
            Self::HandsOn => "hands_on",
            Self::GoingIn => "going_in",
            Self::Place => "place",
        }
    }

    /// True where nothing that touches the carcass is left open.
    pub const fn closes_hands_on(self) -> bool {
        matches!(self, Self::HandsOn | Self::GoingIn | Self::Place)
    }
}

/// When a stop is read out.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Speaks {
    /// Before anything else that is open.
    AtOnce,
    /// Only as the reason on the steps that it closes: a permission that is missing, or a body that
    /// is frozen as most are, is no alarm.
    AtStep,
}

/// A row of the hazard table.
#[derive(Clone, Copy)]
pub struct Hazard {
    /// Id such as `H06`.
    pub id: &'static str,
    /// The id in lower case: `hazard.<code>.head`, `.do`, `.fact` and `.source` are its texts.
    pub code: &'static str,
    /// The finding under which its statement is kept: `confirm_<code>`.
    pub confirm: &'static str,
    /// How hard it speaks.
    pub grade: Grade,
    /// What it closes.
    pub closes: Closes,
    /// When it is read out.
    pub speaks: Speaks,
    /// Whom the crew should call once they can, where somebody.
    pub call: Option<CallFor>,
    /// Physical sign of a crime: the record becomes an evidence record, and hands-on work stays
    /// closed even when the answer is taken back.
    pub evidence: bool,
    /// The findings whose answers fire it. An answer given after a statement or a reopening asks
    /// for them anew.
    pub signs: &'static [&'static str],
    /// How well trigger, level and wording are supported; the worst is told on screen.
    pub marks: &'static [Mark],
    /// Whether it fires on what stands in the record.
    pub fires: fn(&View) -> bool,
}

impl Hazard {
    pub(crate) const fn row(
        names: [&'static str; 3],
        grade: Grade,
        closes: Closes,
        marks: &'static [Mark],
        fires: fn(&View) -> bool,
    ) -> Self {
        let [id, code, confirm] = names;
        Self {
            id,
            code,
            confirm,
            grade,
            closes,
            speaks: Speaks::AtOnce,
            call: None,
            evidence: false,
            signs: &[],
            marks,
            fires,
        }
    }

    /// The id of one of its texts: `head`, `do`, `fact` or `source`.
    pub fn text(&self, part: &str) -> String {
        format!("hazard.{}.{part}", self.code)
    }

    /// Whether the screen has to say that part of it rests on nobody outside.
    pub fn is_unconfirmed(&self) -> bool {
        self.marks.iter().any(|mark| mark.is_unconfirmed())
    }

    /// The findings whose answers fire it.
    pub(crate) const fn signs(self, signs: &'static [&'static str]) -> Self {
        Self { signs, ..self }
    }

    /// Whom to call.
    pub(crate) const fn call(self, call: CallFor) -> Self {
        Self { call: Some(call), ..self }
    }

    /// Only the reason on the steps that it closes.
    pub(crate) const fn at_step(self) -> Self {
        Self { speaks: Speaks::AtStep, ..self }
    }

    /// Makes the record an evidence record.
    pub(crate) const fn evidence(self) -> Self {
        Self { evidence: true, ..self }
    }
}

impl std::fmt::Debug for Hazard {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        write!(f, "Hazard({})", self.id)
    }
}

impl PartialEq for Hazard {
    fn eq(&self, other: &Self) -> bool {
        self.id == other.id
    }
}

/// A hazard that fires now.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Fired {
    /// Which.
    pub hazard: &'static Hazard,
    /// Its statement: `None` not said yet, `Some(true)` done, `Some(false)` cannot.
    pub said: Option<bool>,
    /// Reopened by a person whom the card names.
    pub reopened: bool,
}

impl Fired {
    /// True where it closes something now.
    pub fn closes_now(&self) -> bool {
        match self.hazard.grade {
            Grade::Advise => false,
            Grade::Confirm => self.said == Some(false),
            Grade::Stop => !self.reopened,
            Grade::StopFixed => true,
        }
    }
}
