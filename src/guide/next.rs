//! What to look at next: of the questions that are open, the one that narrows the readings most for its
//! time. It names no cause and no animal; ages and causes are weighed together.
//!
//! Offered is only what the visit has come to: a look behind a gate that nobody has passed would tempt
//! past it. A cut is offered only once the untouched body was photographed.

use crate::card::Card;
use crate::order::Short as _;
use crate::reading::{FINDINGS_OF, Given, cause_ids, shot_so_far, so_far};
use crate::record::{Answer, Carcass, Digest, Site};
use crate::science::cause::LEAST_GAIN_BITS;

use super::{Ask, AskState, ExamKind, Situation, Status, Touch, View};

/// Rows whose first question is one that opens the others.
const OPENERS: [(u8, &[&str]); 2] =
    [(12, &["marrow_bone"]), (24, &["jaw_in_view", "third_tooth", "cheek_teeth_count"])];
/// The row of age classes: looks at the teeth are worth what they tell of age, too.
const AGE_ROW: u8 = 24;
/// Most that are offered.
const OFFERED: usize = 3;

/// A look that is worth its time.
#[derive(Clone, Debug, PartialEq)]
pub struct NextLook {
    /// What to ask.
    pub ask: Ask,
    /// Message of what to do, without a cause.
    pub look: String,
    /// Expected fall of entropy, bits, of causes and ages together.
    pub bits: f64,
    /// Minutes that it takes, about.
    pub minutes: u8,
}

/// Whether the cause of death of a carcass may be shown on a phone: every examination of it here is closed.
pub fn cause_may_be_shown(carcass: &Carcass) -> bool {
    carcass.examinations.values().all(|exam| exam.sheet.is_seen("examination_closed"))
}

/// The looks that narrow most for their time, best first; empty before anything was seen of the body, once
/// the examination is closed, and on the bench.
pub fn next_looks(view: &View, situation: &Situation) -> Vec<NextLook> {
    let Some(carcass) = view.carcass.filter(|_| view.kind == ExamKind::Field && !view.is_closed()) else {
        return Vec::new();
    };
    let Some(now_at) = situation.next.map(|ask| ask.phase()).filter(|phase| phase.is_at_carcass()) else {
        return Vec::new();
    };
    let known = so_far(carcass, &given(view.card_in_force()));
    let age_bits = known.age.iter().filter_map(|look| look.gain_bits).fold(0.0, f64::max);
    let mut looks: Vec<(f64, NextLook)> = known
        .rows
        .iter()
        .filter_map(|gain| {
            let of_age = if gain.number == AGE_ROW { age_bits } else { 0.0 };
            let bits = gain.bits + of_age;
            let state = open_ask(view, situation, gain.number)?;
            let too_late_or_early = state.ask.phase() > now_at;
            let cut = touch(&state.ask) == Touch::Cut && !photographed(view);
            if bits < LEAST_GAIN_BITS || too_late_or_early || cut {
                return None;
            }
            let look = NextLook { ask: state.ask, look: cause_ids::look(gain.number), bits, minutes: gain.minutes };
            Some((gain.rate() + of_age / (f64::from(gain.minutes) + crate::science::cause::gain::MINUTES_BESIDE), look))
        })
        .collect();
    // Stable: equal rates stay in the order of the rows.
    looks.order_by(|a, b| b.0.total_cmp(&a.0));
    looks.into_iter().map(|(_, look)| look).take(OFFERED).collect()
}

/// Whether what was seen without touching calls for a search by eye for signs of people. The figure behind
/// it stays unsaid: it would name a cause. Asked between the last of those looks and the first touch: it costs a reading, and
/// no tap outside that stretch pays for it.
pub fn search_for_people(view: &View) -> bool {
    let Some(carcass) = view.carcass.filter(|_| view.kind == ExamKind::Field) else { return false };
    let known = |finding| view.question(finding, Site::NONE).is_answered();
    known("death_place")
        && known("road_distance")
        && !known("touching_allowed")
        && shot_so_far(carcass, &given(view.card_in_force())) >= crate::science::cause::label::SEARCH_FOR_PEOPLE
}

/// Its digest is not told to anybody here.
fn given(card: Option<&Card>) -> Given<'_> {
    card.map(|card| Given::card(card, Digest::of(&[]))).unwrap_or_default()
}

fn touch(ask: &Ask) -> Touch {
    match ask {
        Ask::Step { step, .. } => step.touch,
        Ask::Hazard { .. } => Touch::Look,
    }
}

/// A picture of the whole scene before anything was touched.
fn photographed(view: &View) -> bool {
    let scene = view.question("photo", Site::item(1)).answer();
    view.there("scene_photographed") || matches!(scene, Answer::Seen { .. })
}

/// The first open question that answers a row.
fn open_ask<'s>(view: &View, situation: &'s Situation, number: u8) -> Option<&'s AskState> {
    // The glance from afar answers the row of ages, but it is no look at the teeth, as the line would say.
    let findings = if number == AGE_ROW { &[][..] } else { *FINDINGS_OF.get(usize::from(number).checked_sub(1)?)? };
    let openers = OPENERS.iter().find(|(row, _)| *row == number).map(|(_, findings)| *findings).unwrap_or_default();
    let answers_it = |ask: &Ask| {
        matches!(ask, Ask::Step { .. })
            && ask.questions(view).iter().any(|(finding, _)| findings.contains(finding) || openers.contains(finding))
    };
    situation.asks.iter().find(|state| state.status == Status::Open && answers_it(&state.ask))
}
