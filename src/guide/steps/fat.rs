//! Fat in the opened body, once the gut has been looked at: first where there is still anything to look at,
//! so that an eaten carcass passes with one answer; then the depots in the order in which they empty.

use crate::guide::{Input, Phase, Step, Touch, View};
use crate::record::{Answer, Site, Why};

use super::facts::{deer_here, some_eaten};
use super::rules;

const fn row(id: &'static str, input: Input) -> Step {
    Step::look(id, Phase::Opened, input).touch(Touch::Cut).when(deer_here).ruled_out(rules::inside)
}

/// What stands for a part that was not among those named: eaten, or left closed.
fn part(v: &View, site: Site, part: &str) -> Option<Answer> {
    rules::inside(v, site).or_else(|| {
        if !v.is_answered("fat_parts_here", Site::NONE) || v.chose("fat_parts_here", part) {
            return None;
        }
        Some(match v.answer("fat_parts_here") {
            other @ (Answer::CantTell { .. } | Answer::NotLooked { .. } | Answer::PartGone { .. }) => other,
            _ if some_eaten(v) => Answer::PartGone { why: Why::Scavenged },
            _ => Answer::NotLooked { why: Why::NotOpened },
        })
    })
}

fn skin(v: &View, site: Site) -> Option<Answer> {
    part(v, site, "back_and_rump")
}

fn brisket(v: &View, site: Site) -> Option<Answer> {
    part(v, site, "brisket")
}

fn gut(v: &View, site: Site) -> Option<Answer> {
    part(v, site, "gut")
}

fn kidneys(v: &View, site: Site) -> Option<Answer> {
    part(v, site, "kidneys")
}

fn heart(v: &View, site: Site) -> Option<Answer> {
    part(v, site, "heart")
}

/// Any part can be looked at.
fn some_part(v: &View, site: Site) -> Option<Answer> {
    if v.there("fat_parts_here") { rules::inside(v, site) } else { part(v, site, "") }
}

/// Kidneys or heart can be taken.
fn an_organ(v: &View, site: Site) -> Option<Answer> {
    if v.chose("fat_parts_here", "heart") { rules::inside(v, site) } else { kidneys(v, site) }
}

/// The look at kidneys and heart in one, settled by the looks at each. It is asked only where none of them
/// could be told.
fn inside_fat(v: &View, site: Site) -> Option<Answer> {
    an_organ(v, site).or_else(|| {
        let of = |(finding, part): (&str, &str)| Some((v.choice(finding)?, v.chose("fat_watery", part)));
        let looks = [("kidney_fat", "kidneys"), ("heart_fat", "heart"), ("pericardial_fat", "heart")];
        let seen: Vec<(String, bool)> = looks.into_iter().filter_map(of).collect();
        let is_none = |(amount, watery): &(String, bool)| *watery || amount == "none";
        let code = if seen.is_empty() {
            return None;
        } else if seen.iter().all(is_none) {
            "none_or_gel"
        } else if seen.iter().any(|(amount, watery)| amount == "heavy" && !watery) {
            "plenty"
        } else {
            "some"
        };
        Some(Answer::choice(code))
    })
}

pub(super) const STEPS: &[Step] = &[
    row("fat_parts", Input::Choices("fat_parts_here")).may_be_absent(),
    row("rump_fat", Input::Choice("rump_fat")).ruled_out(skin),
    row("muscle_mass", Input::Choice("muscle_mass")).ruled_out(skin),
    row("brisket_fat", Input::Choice("brisket_fat")).ruled_out(brisket),
    row("gut_fat", Input::Choice("gut_fat")).ruled_out(gut),
    row("kidney_fat", Input::Choice("kidney_fat")).ruled_out(kidneys),
    row("heart_fat", Input::Choice("heart_fat")).ruled_out(heart),
    row("pericardial_fat", Input::Choice("pericardial_fat")).ruled_out(heart),
    row("fat_watery", Input::Choices("fat_watery")).ruled_out(some_part).may_be_absent(),
    row("inside_fat", Input::Choice("inside_fat")).ruled_out(inside_fat),
    row("organs_taken", Input::Choices("organs_taken")).ruled_out(an_organ).may_be_absent(),
];
