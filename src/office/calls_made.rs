//! Calls that were made: the marks, and what puts one there or takes it back.
//!
//! Who was called for a result that was corrected since is owed a call that says so; its mark sets the first one aside,
//! so that the same result, should it come back, calls anew.
//!
//! A mark holds for whom it was made. Where one call is for several people (others out that day, public health) it bears
//! a digest of who they were, so that one who is named later is not taken for one who was told.

use std::cmp::Ordering;
use std::collections::BTreeSet;

use serde::Serialize;
use uuid::Uuid;

use super::calls::Call;
use super::homes::home;
use super::own_chain::Said;
use crate::record::{
    Act, Answer, CALL_DONE, Carcass, DeviceId, Digest, EXAMINATION_KIND, EntryId, Examination, Moment, Site, Standing,
    Value, links,
};

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

/// Letters of the digest of whom a call is for: 96 bits, so that nobody finds another list of names with the same.
const COVER: usize = 16;

/// Whom a call for several people is for, as a mark says it.
pub(super) fn cover<'n>(names: impl IntoIterator<Item = &'n str>) -> String {
    let mut all = String::new();
    for name in names {
        // No name holds a line's end of its own here.
        all.extend(name.chars().filter(|c| *c != '\n').chain(['\n']));
    }
    Digest::of(&[all.as_bytes()]).to_string().chars().take(COVER).collect()
}

/// A mark's call, and whom it covers where it says so.
fn read(mark: &str) -> (&str, &str) {
    let is_cover =
        |text: &str| text.len() == COVER && text.bytes().all(|b| b.is_ascii_alphanumeric() || b"-_".contains(&b));
    mark.rsplit_once('#').filter(|(_, cover)| is_cover(cover)).unwrap_or((mark, ""))
}

fn written(call: &str, covers: &str) -> String {
    if covers.is_empty() { call.to_owned() } else { format!("{call}#{covers}") }
}

/// The names of all calls of a carcass that are marked.
pub(super) fn marked(carcass: &Carcass) -> BTreeSet<String> {
    let all = carcass.question(CALL_DONE, Site::NONE).standing;
    all.into_iter()
        .filter_map(|one| match one.answer.value() {
            Some(Value::Text(mark)) => Some(read(mark).0.to_owned()),
            _ => None,
        })
        .collect()
}

/// Whether an examination holds a mark of this call, for whomever.
pub(super) fn has_mark(examination: &Examination, name: &str) -> bool {
    let all = examination.sheet.question(CALL_DONE, Site::NONE).standing;
    all.iter().any(|one| matches!(one.answer.value(), Some(Value::Text(mark)) if read(mark).0 == name))
}

/// Which of two marks was written later. On one chain its numbers say so; clocks are asked only between two.
fn later(one: &Done, other: &Done) -> Ordering {
    if one.entry.device == other.entry.device {
        return one.entry.seq.cmp(&other.entry.seq);
    }
    one.at.unix_seconds().cmp(&other.at.unix_seconds())
}

/// The last mark of a call on one of these carcasses; for these people, or for whomever.
fn last(of: &[&Carcass], name: &str, covers: Option<&str>) -> Option<Done> {
    let is_this = |(call, cover): (&str, &str)| call == name && covers.is_none_or(|wanted| wanted == cover);
    let of_this = |answer: &Answer| matches!(answer.value(), Some(Value::Text(text)) if is_this(read(text)));
    let all = of.iter().flat_map(|carcass| carcass.question(CALL_DONE, Site::NONE).standing);
    let done = |one: &Standing| Done { entry: one.id, by: one.observer.to_string(), at: one.at };
    all.filter(|one| of_this(&one.answer)).map(done).max_by(later)
}

/// Whether a call was marked as made for these people, and holds: not so where its opposite was marked later.
pub(super) fn done(of: &[&Carcass], name: &str, covers: &str) -> Option<Done> {
    holds(of, name, Some(covers))
}

/// The same for whomever it was made.
pub(super) fn done_for_some(of: &[&Carcass], name: &str) -> Option<Done> {
    holds(of, name, None)
}

fn holds(of: &[&Carcass], name: &str, covers: Option<&str>) -> Option<Done> {
    let opposite = name.strip_prefix(CORRECTED).map_or_else(|| format!("{CORRECTED}{name}"), ToOwned::to_owned);
    let other = last(of, &opposite, None);
    last(of, name, covers).filter(|done| other.as_ref().is_none_or(|other| later(other, done) == Ordering::Less))
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

/// The answers that mark a call as made, in an examination of the office's own that holds such marks; `fresh` is the id
/// of one where there is none. The mark goes under each id that the call is about: where carcasses that were joined are
/// taken apart again, who was called about the one was called about that one.
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
    let named = named.ok_or_else(|| NotMarked::NoCall(name.to_owned()))?;
    if named.done.is_some() {
        return Err(NotMarked::Before(name.to_owned()));
    }
    let is_own = |one: &&Examination| {
        one.sheet.question(CALL_DONE, Site::NONE).standing.iter().any(|mark| mark.id.device == office)
    };
    let alone = [carcass.id].into();
    let homes = if named.homes.is_empty() { &alone } else { &named.homes };
    let mut said = Vec::new();
    for (n, of) in (0_u128..).zip(homes) {
        let before = carcass.examinations.values().filter(is_own).find(|one| home(carcass, one.id) == *of);
        // Random to its last bits: the next ones are nobody's either.
        let examination = before.map_or_else(|| Uuid::from_u128(fresh.as_u128().wrapping_add(n)), |one| one.id);
        let mut say = |finding, answer| said.push(Said { examination, finding, answer, supersedes: Vec::new() });
        if before.is_none() {
            say(links::CARCASS, Answer::Seen { value: Value::Ref(*of) });
            say(EXAMINATION_KIND, Answer::choice("bench"));
        }
        say(CALL_DONE, Answer::Seen { value: Value::Text(written(name, &named.covers)) });
    }
    Ok(said)
}

/// What takes a mark back, wherever it stands: of two carcasses with one report the list has the call on one, and one
/// that was made about several ids bears a mark under each.
///
/// # Errors
/// It is not marked.
pub fn unmark(carcass: &Carcass, all: &[Call], name: &str) -> Result<Act, NotMarked> {
    let listed = all.iter().find(|call| call.call == name && call.carcass == carcass.id);
    let mark = listed.and_then(|call| call.done.clone()).or_else(|| last(&[carcass], name, None));
    let mark = mark.ok_or_else(|| NotMarked::NotBefore(name.to_owned()))?;
    let of_it = |one: &&Standing| {
        let is_this = matches!(one.answer.value(), Some(Value::Text(text)) if read(text).0 == name);
        is_this && one.id.device == mark.entry.device && one.at == mark.at
    };
    let beside = carcass.question(CALL_DONE, Site::NONE).standing.into_iter().filter(of_it).map(|one| one.id);
    let entries: BTreeSet<EntryId> = beside.chain([mark.entry]).collect();
    Ok(Act::Withdraw { supersedes: entries.into_iter().collect() })
}
