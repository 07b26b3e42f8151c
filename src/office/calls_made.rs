//! Calls that were made: the marks, and what puts one there or takes it back.
//!
//! Who was called for a result that was corrected since is owed a call that says so; its mark sets the first one aside,
//! so that the same result, should it come back, calls anew.

use std::cmp::Ordering;
use std::collections::BTreeSet;

use serde::Serialize;
use uuid::Uuid;

use super::calls::Call;
use super::own_chain::Said;
use crate::record::{Act, Answer, Carcass, DeviceId, EXAMINATION_KIND, EntryId, Moment, Site, Standing, Value, links};

/// The finding of a call that was made.
pub const CALL_DONE: &str = "call_done";

/// Begins the name of a call by which who was called hears that the result was corrected.
pub(super) const CORRECTED: &str = "corrected:";

/// That a call was made.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Done {
    /// The entry that says so.
    pub entry: EntryId,
    /// Who.
    pub by: String,
    /// When it was noted.
    pub at: Moment,
}

/// The names of all calls of a carcass that are marked.
pub(super) fn marked(carcass: &Carcass) -> BTreeSet<String> {
    let all = carcass.question(CALL_DONE, Site::NONE).standing;
    all.into_iter()
        .filter_map(|one| match one.answer.value() {
            Some(Value::Text(name)) => Some(name.clone()),
            _ => None,
        })
        .collect()
}

/// Which of two marks was written later. On one chain its numbers say so; clocks are asked only between two.
fn later(one: &Done, other: &Done) -> Ordering {
    if one.entry.device == other.entry.device {
        return one.entry.seq.cmp(&other.entry.seq);
    }
    one.at.unix_seconds().cmp(&other.at.unix_seconds())
}

/// The last mark of a call on one of these carcasses.
fn last(of: &[&Carcass], name: &str) -> Option<Done> {
    let of_this = |answer: &Answer| matches!(answer.value(), Some(Value::Text(text)) if text == name);
    let all = of.iter().flat_map(|carcass| carcass.question(CALL_DONE, Site::NONE).standing);
    let done = |one: &Standing| Done { entry: one.id, by: one.observer.to_string(), at: one.at };
    all.filter(|one| of_this(&one.answer)).map(done).max_by(later)
}

/// Whether a call was marked as made and holds: not so where its opposite was marked later.
pub(super) fn done(of: &[&Carcass], name: &str) -> Option<Done> {
    let opposite = name.strip_prefix(CORRECTED).map_or_else(|| format!("{CORRECTED}{name}"), ToOwned::to_owned);
    let other = last(of, &opposite);
    last(of, name).filter(|done| other.as_ref().is_none_or(|other| later(other, done) == Ordering::Less))
}

/// Why a call was not marked.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub enum NotMarked {
    /// The list has no such call for this carcass.
    #[error("the call list has no call `{0}` for this carcass")]
    NoCall(String),
    /// It was marked before.
    #[error("the call `{0}` was marked as made before")]
    Before(String),
    /// It was never marked.
    #[error("the call `{0}` is not marked as made")]
    NotBefore(String),
}

/// The answers that mark a call as made, in the examination of the office's own that holds such marks; `fresh` is
/// the id of one where there is none.
///
/// # Errors
/// See [`NotMarked`].
pub fn mark(
    carcass: &Carcass,
    all: &[Call],
    name: &str,
    office: DeviceId,
    fresh: Uuid,
) -> Result<Vec<Said>, NotMarked> {
    let named = all.iter().find(|call| call.call == name && call.carcass == carcass.id);
    match named.map(|call| call.done.is_some()) {
        None => return Err(NotMarked::NoCall(name.to_owned())),
        Some(true) => return Err(NotMarked::Before(name.to_owned())),
        Some(false) => {}
    }
    let is_own = |one: &&crate::record::Examination| {
        one.sheet.question(CALL_DONE, Site::NONE).standing.iter().any(|mark| mark.id.device == office)
    };
    let before = carcass.examinations.values().find(is_own).map(|one| one.id);
    let examination = before.unwrap_or(fresh);
    let say = |finding, answer| Said { examination, finding, answer, supersedes: Vec::new() };
    let mut said = Vec::new();
    if before.is_none() {
        said.push(say(links::CARCASS, Answer::Seen { value: Value::Ref(carcass.id) }));
        said.push(say(EXAMINATION_KIND, Answer::choice("bench")));
    }
    said.push(say(CALL_DONE, Answer::Seen { value: Value::Text(name.to_owned()) }));
    Ok(said)
}

/// What takes a mark back, wherever it stands: of two carcasses with one report the list has the call on one.
///
/// # Errors
/// It is not marked.
pub fn unmark(carcass: &Carcass, all: &[Call], name: &str) -> Result<Act, NotMarked> {
    let listed = all.iter().find(|call| call.call == name && call.carcass == carcass.id);
    let mark = listed.and_then(|call| call.done.clone()).or_else(|| last(&[carcass], name));
    let mark = mark.ok_or_else(|| NotMarked::NotBefore(name.to_owned()))?;
    Ok(Act::Withdraw { supersedes: vec![mark.entry] })
}
