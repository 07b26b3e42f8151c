//! Which further looks can still be done: none at a part that is gone, and at teeth only where a jaw is in view,
//! may yet be, or was taken for the bench.

use super::lens::Used;
use super::message_ids as id;
use super::shape::{Sharpen, Statement, Val};
use crate::record::{Answer, Carcass, Side, Site, Value};

/// Looks that need no jaw.
const OFF_THE_JAW: &[&str] = &["growth_plate", "species"];

/// Where the teeth are.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Jaw {
    /// In view, or nobody has said.
    Here(Side),
    /// Taken, and not yet looked at on the bench.
    ForTheBench(Side),
    /// Only its front teeth were taken.
    FrontForTheBench,
    /// Not in view, eaten or taken by others.
    Gone,
}

/// Codes seen on a question, with whether one said that the part is gone or not there.
fn codes<'a>(carcass: &'a Carcass, finding: &str, used: &mut Used<'a>) -> (Vec<&'a str>, bool) {
    let (mut seen, mut gone) = (Vec::new(), false);
    for standing in carcass.question(finding, Site::NONE).standing {
        match &standing.answer {
            Answer::Seen { value: Value::Choice(code) } => seen.push(code.as_str()),
            Answer::Seen { value: Value::Choices(all) } => seen.extend(all.iter().map(String::as_str)),
            Answer::PartGone { .. } | Answer::NotSeen => gone = true,
            _ => continue,
        }
        used.insert(standing.id, &standing.answer);
    }
    (seen, gone)
}

fn jaw<'a>(carcass: &'a Carcass, used: &mut Used<'a>) -> Jaw {
    let half = |right: bool| if right { Side::Right } else { Side::Left };
    let on_bench = carcass.examinations.values().any(|e| {
        e.sheet.choice("examination_kind").as_deref() == Some("bench")
            && e.sheet.choice("jaw_in_view").is_some_and(|code| code != "neither")
    });
    let (in_view, not_there) = codes(carcass, "jaw_in_view", used);
    let (taken, _) = codes(carcass, "jaw_taken", used);
    if !on_bench && let Some(part) = taken.first() {
        return match *part {
            "front_teeth_only" => Jaw::FrontForTheBench,
            part => Jaw::ForTheBench(half(part == "right_half")),
        };
    }
    if in_view.iter().any(|code| *code != "neither") {
        return Jaw::Here(half(in_view.iter().all(|code| matches!(*code, "right" | "neither"))));
    }
    let (eaten, _) = codes(carcass, "parts_eaten", used);
    let (cut_off, _) = codes(carcass, "head_or_antlers_missing_only", used);
    let gone = not_there || !in_view.is_empty() || !cut_off.is_empty();
    if gone || eaten.iter().any(|part| matches!(*part, "head" | "all")) { Jaw::Gone } else { Jaw::Here(Side::Left) }
}

/// Whether all that stands on a question is that the part is gone.
fn is_gone(carcass: &Carcass, finding: &str, site: Site) -> bool {
    let standing = carcass.question(finding, site).standing;
    !standing.is_empty() && standing.iter().all(|s| matches!(s.answer, Answer::PartGone { .. }))
}

/// Leaves out looks at what is gone; the other side stands in where only one is.
pub(super) fn leave_out_gone(carcass: &Carcass, looks: &mut Vec<Sharpen>) {
    looks.retain_mut(|look| {
        if !is_gone(carcass, &look.finding, look.site) {
            return true;
        }
        let Some(side) = look.site.side else { return false };
        look.site.side = Some(if side == Side::Left { Side::Right } else { Side::Left });
        !is_gone(carcass, &look.finding, look.site)
    });
}

/// The same for looks of the age, by where the jaw is; what that rests on is used.
pub(super) fn of_teeth<'a>(carcass: &'a Carcass, looks: &mut Vec<Sharpen>, used: &mut Used<'a>) {
    let jaw = jaw(carcass, used);
    looks.retain_mut(|look| {
        if OFF_THE_JAW.contains(&look.finding.as_str()) {
            return true;
        }
        let (Jaw::Here(side) | Jaw::ForTheBench(side)) = jaw else {
            let front = jaw == Jaw::FrontForTheBench && look.finding == "front_teeth";
            if front {
                on_bench(look);
            }
            return front;
        };
        if look.site.side.is_some() {
            look.site.side = Some(side);
        }
        if matches!(jaw, Jaw::ForTheBench(_)) {
            on_bench(look);
        }
        true
    });
    leave_out_gone(carcass, looks);
}

fn on_bench(look: &mut Sharpen) {
    look.look = Statement::plain(id::LOOK_ON_BENCH).with("look", Val::message(&look.look.id));
}
