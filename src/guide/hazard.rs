//! A hazard: what fires it, how hard it speaks, what it closes, whom to call.

use crate::card::CallFor;

use super::View;

/// How hard a hazard speaks.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Grade {
    /// Once, in place; no tap.
    Advise,
    /// A deliberate statement of a fact before the step opens.
    Confirm,
    /// Closed; a person whom the card names may reopen it with a reason.
    Stop,
    /// Closed; never reopened in the field.
    StopFixed,
}

/// What a stop closes, or what a `cannot` on a confirm closes. The hands-off record, leaving, the
/// exposure note and handing over are never closed.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Closes {
    /// Nothing; it only speaks.
    Nothing,
    /// Head, brain and spine.
    Head,
    /// Cutting and opening.
    Cutting,
    /// Everything that touches the carcass.
    HandsOn,
    /// Being there: what remains is leaving and handing over.
    Place,
}

/// A row of the hazard table.
#[derive(Clone, Copy)]
pub struct Hazard {
    /// Id such as `H06`; `hazard.<id in lower case>.head`, `.do` and `.source` are its texts.
    pub id: &'static str,
    /// The finding under which its statement is kept: `confirm_<id in lower case>`.
    pub confirm: &'static str,
    /// How hard it speaks.
    pub grade: Grade,
    /// What it closes.
    pub closes: Closes,
    /// Whom the crew should call once they can, where somebody.
    pub call: Option<CallFor>,
    /// Physical sign of a crime: the record becomes an evidence record, and hands-on work stays
    /// closed even when the answer is taken back.
    pub evidence: bool,
    /// Whether it fires on what stands in the record.
    pub fires: fn(&View) -> bool,
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
