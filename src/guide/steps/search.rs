//! Effort of a search: asked only of an outing that is one. An outing to a reported carcass is asked nothing; any other
//! one question.

use crate::guide::{ExamKind, Input, Phase, Step, View};
use crate::record::{Answer, Site};

use super::facts::carcass_here;

fn on_lines(v: &View) -> bool {
    v.chose("outing_kind", "search") && v.chose("search_route", "lines")
}

/// One place a line that was planned.
fn lines(v: &View) -> Vec<Site> {
    let count = v.number("search_lines_count").and_then(|n| u16::try_from(n).ok()).unwrap_or(0);
    (1..=count.min(20)).map(Site::item).collect()
}

/// Whoever follows a report goes where somebody has found one.
fn sent_by_report(v: &View, _: Site) -> Option<Answer> {
    v.report.is_some().then(|| Answer::choice("response"))
}

/// A carcass that a report led to was not found from the line.
fn found_on_lines(v: &View) -> bool {
    on_lines(v) && carcass_here(v) && v.report.is_none()
}

/// Of one line nobody is asked which.
fn only_line(v: &View, _: Site) -> Option<Answer> {
    (v.number("search_lines_count") == Some(1)).then(|| Answer::number(1))
}

/// The line from which it was seen.
fn its_line(v: &View) -> Vec<Site> {
    let told = if v.number("search_lines_count") == Some(1) { Some(1) } else { v.number("found_from_line_count") };
    told.and_then(|n| u16::try_from(n).ok()).map(Site::item).into_iter().collect()
}

const fn before(id: &'static str, input: Input) -> Step {
    Step::look(id, Phase::BeforeLeaving, input).when(on_lines)
}

/// Once an outing, at home, where the plan is.
pub(super) const OUTING: &[Step] = &[
    before("outing_kind", Input::Choice("outing_kind")).when(|_| true).ruled_out(sent_by_report),
    before("search_route", Input::Choice("search_route")).when(|v| v.chose("outing_kind", "search")),
    before("search_strip", Input::Number("search_strip_m")),
    before("search_lines", Input::Number("search_lines_count")),
    before("search_line", Input::Number("search_line_m")).sites(lines),
];

/// At each carcass.
pub(super) const FOUND: &[Step] = &[
    Step::look("found_from_line", Phase::Approach, Input::Number("found_from_line_count"))
        .when(found_on_lines)
        .ruled_out(only_line)
        .may_be_absent(),
    Step::look("from_line", Phase::Approach, Input::Number("from_line_m")).when(found_on_lines).sites(its_line),
];

fn back_from_lines(v: &View) -> bool {
    v.kind == ExamKind::Field && on_lines(v)
}

/// Once an outing, when it is over.
pub(super) const WALKED: &[Step] = &[
    Step::look("search_walked", Phase::HandOver, Input::Choice("search_walked")).when(back_from_lines),
    Step::look("search_walked_line", Phase::HandOver, Input::Number("search_walked_m"))
        .when(|v| back_from_lines(v) && v.chose("search_walked", "not_all"))
        .sites(lines),
];
