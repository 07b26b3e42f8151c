//! The scene sketch: when it is asked for, and the drafts that a mark makes.

use crate::reading::sketch::HowFar;
use crate::record::{Answer, FindingDef, PersonCode, Shape, Sheet, Site, Value, find};

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

/// A bearing as it was typed; 360 is north as well. `None` where it is none.
pub fn bearing_deg(typed: &str) -> Option<u16> {
    let degrees = typed.parse::<u16>().ok()?;
    let turned = if degrees == 360 { 0 } else { degrees };
    within("sketch_bearing_deg", turned.into()).then_some(turned)
}

/// The length of a pace in centimetres; `None` where no person has it.
pub fn pace_that_is_one(cm: i64) -> Option<i64> {
    within("sketch_pace_cm", cm).then_some(cm)
}

/// Whether the finding may have this number.
fn within(finding: &str, number: i64) -> bool {
    match find(finding).map(|def| def.shape) {
        Some(Shape::Number { min, max, .. }) => (min..=max).contains(&number),
        _ => false,
    }
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

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_is_typed_is_held_to_what_the_finding_may_be() {
        assert_eq!(["0", "359", "360"].map(bearing_deg), [Some(0), Some(359), Some(0)]);
        assert_eq!(["361", "-1", "", "4.5", "north"].map(bearing_deg), [None; 5]);
        assert_eq!([20, 150].map(pace_that_is_one), [Some(20), Some(150)]);
        assert_eq!([19, 151, 0].map(pace_that_is_one), [None; 3]);
    }
}
