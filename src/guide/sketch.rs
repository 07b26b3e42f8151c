//! The scene sketch: when it is asked for, and the drafts that a mark makes.

use crate::reading::sketch::HowFar;
use crate::record::{Answer, FindingDef, PersonCode, Sheet, Site, Value, find};

use super::{Draft, View};

/// The eight points of the compass, clockwise from north, in degrees.
pub const POINTS: [u16; 8] = [0, 45, 90, 135, 180, 225, 270, 315];

/// What may be marked, in the order in which it is offered.
pub fn kinds() -> &'static [&'static str] {
    find("sketch_what").map(FindingDef::options).unwrap_or_default()
}

/// A mark before it has a number.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct NewMark {
    /// What it is.
    pub what: &'static str,
    /// What it was paced from; 0 is the body.
    pub from: u16,
    /// Bearing, 0 to 359.
    pub bearing_deg: u16,
    /// How far.
    pub far: HowFar,
}

/// The drafts that write a mark.
pub fn mark(number: u16, mark: NewMark) -> Vec<Draft> {
    let draft = |finding, answer| Draft { finding, site: Site::item(number), answer, step: "sketch" };
    let mut out = vec![
        draft("sketch_what", Answer::choice(mark.what)),
        draft("sketch_from_count", Answer::number(mark.from.into())),
        draft("sketch_bearing_deg", Answer::number(mark.bearing_deg.into())),
    ];
    match mark.far {
        HowFar::Paces { count, pace_cm } => {
            out.push(draft("sketch_paces_count", Answer::number(count)));
            out.push(draft("sketch_pace_cm", Answer::number(pace_cm)));
        }
        HowFar::Decimetres(dm) => out.push(draft("sketch_distance_m", Answer::number(dm))),
    }
    out
}

/// The questions of a mark, for taking it back.
pub fn questions(number: u16) -> Vec<(&'static str, Site)> {
    let all = [
        "sketch_what",
        "sketch_from_count",
        "sketch_bearing_deg",
        "sketch_paces_count",
        "sketch_pace_cm",
        "sketch_distance_m",
    ];
    all.map(|finding| (finding, Site::item(number))).to_vec()
}

/// The number of this person's last mark; 0 where there is none yet.
pub fn last_number(sheet: &Sheet, person: &PersonCode) -> u16 {
    let mine = sheet.answers().filter(|(finding, _, all)| {
        finding.as_str() == "sketch_what" && all.iter().any(|s| s.observer == *person && s.answer.value().is_some())
    });
    mine.filter_map(|(_, site, _)| site.item).max().unwrap_or(0)
}

/// How long this person's pace was taken to be last, in centimetres.
pub fn pace_cm(sheet: &Sheet, person: &PersonCode) -> Option<i64> {
    let all = sheet.answers().filter(|(finding, ..)| finding.as_str() == "sketch_pace_cm").flat_map(|(_, _, all)| all);
    let mine = all.filter(|s| s.observer == *person).max_by_key(|s| s.id);
    match mine?.answer.value() {
        Some(Value::Number(cm)) => Some(*cm),
        _ => None,
    }
}

/// Whether something was seen that tells by where it lies: blood, a drag, marks of a chase.
pub(super) fn has_something_to_draw(v: &View) -> bool {
    const SIGNS: [&str; 3] = ["blood_on_snow", "drag_marks", "chase_or_struggle_marks"];
    SIGNS.iter().any(|sign| v.there(sign))
}
