//! Leaving now, from anywhere: nothing at the carcass is left without a state.

use crate::record::{Answer, Site, Why};

use super::situation::rest;
use super::{Draft, LEFT, Situation, View};

impl Situation {
    /// What to write when the crew leaves now. Every question at the carcass that is still open gets
    /// `NotLooked` with this reason, those behind a stop `NotLooked(StopInForce)`, those that the
    /// record settles their own answer; then the examination is closed as left early. Taking the
    /// closing entry back opens all of it again.
    pub fn leave_now(view: &View, why: &Why) -> Vec<Draft> {
        let mut drafts = rest(view, why);
        if !view.is_answered("left_early", Site::NONE) && view.kind == super::ExamKind::Field {
            drafts.extend(reason_code(why).map(|code| left("left_early", code)));
        }
        if !view.is_closed() {
            drafts.push(left("examination_closed", "left_early"));
        }
        drafts
    }
}

fn left(finding: &'static str, code: &str) -> Draft {
    Draft { finding, site: Site::NONE, answer: Answer::choice(code), step: LEFT }
}

/// The outing's reason for leaving early, where the reason for not looking says it; else the leaving
/// phase asks.
const fn reason_code(why: &Why) -> Option<&'static str> {
    match why {
        Why::Unsafe => Some("unsafe_here"),
        Why::Time | Why::Dark => Some("time"),
        Why::Cold => Some("cold"),
        _ => None,
    }
}
