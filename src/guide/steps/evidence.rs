//! An evidence record: what to leave alone, which photos to take from where one stands, whom to tell.
//! What an officer asks for beyond that comes after the call, and only then.

use crate::guide::{Input, Phase, Step, View, hazards};
use crate::record::Site;

use super::facts::something_here;

/// A physical sign of a crime was seen at this carcass, for good.
pub(crate) fn is_evidence(v: &View) -> bool {
    hazards::all().any(|h| h.evidence && hazards::was_ever_fired(v, h))
}

fn evidence_here(v: &View) -> bool {
    something_here(v) && is_evidence(v)
}

fn officer_knows(v: &View) -> bool {
    v.chose("officer_told", "officer_told") && evidence_here(v)
}

fn officer_wants_photos(v: &View) -> bool {
    v.chose("officer_asks", "more_photos") && evidence_here(v)
}

const fn row(id: &'static str, input: Input) -> Step {
    Step::look(id, Phase::HandsOff, input).when(evidence_here)
}

/// A photo has a number of its own, so that each stays apart.
const fn photo(id: &'static str, site: fn(&View) -> Vec<Site>) -> Step {
    row(id, Input::Photo("photo")).ground().sites(site)
}

const fn asked_photo(id: &'static str, site: fn(&View) -> Vec<Site>) -> Step {
    photo(id, site).when(officer_wants_photos)
}

macro_rules! item {
    ($n:literal) => {
        |_| vec![Site::item($n)]
    };
}

pub(super) const STEPS: &[Step] = &[
    row("evidence_rules", Input::ReadDo("evidence_rules_read")).visit(),
    // What melts or blows away first comes first, after the card that says whose photos these are.
    photo("ev_label", item!(11)),
    photo("ev_tracks", item!(12)),
    photo("ev_overview", item!(13)),
    photo("ev_middle", item!(14)),
    photo("ev_close", item!(15)),
    photo("ev_way_in", item!(16)),
    row("officer_told", Input::Choice("officer_told")).visit(),
    row("officer_asks", Input::Choice("officer_asks")).visit().when(officer_knows),
    row("officer_words", Input::Text("officer_words")).visit().when(officer_knows).may_be_absent(),
    asked_photo("ev_north", item!(21)),
    asked_photo("ev_east", item!(22)),
    asked_photo("ev_south", item!(23)),
    asked_photo("ev_west", item!(24)),
    asked_photo("ev_both_sides", item!(25)),
    asked_photo("ev_head_feet", item!(26)),
    asked_photo("ev_wounds", item!(27)),
    asked_photo("ev_wounds_scale", item!(28)),
    asked_photo("ev_snow_wall", item!(29)),
];
