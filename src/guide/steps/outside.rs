//! Outside, gloved: whether to touch at all, then hide, wounds, legs, and what is felt of the sex.

use crate::guide::{Input, Phase, Step, Touch, View};

use super::facts::{antlered, bones_bare, deer_here, whole_deer, wounds};
use super::rules;
use super::wounds::{bites_with_clot, bled_wounds, may_have_thawed, paired_and_bled, some_bled, zone_of_one};

const fn row(id: &'static str, input: Input) -> Step {
    Step::look(id, Phase::Outside, input).touch(Touch::Handle).when(deer_here)
}

/// On hide or flesh: settled where none is left.
const fn on_hide(id: &'static str, input: Input) -> Step {
    row(id, input).ruled_out(rules::soft_touching)
}

/// `Not there` can be said of a wound only after both sides were looked over.
fn all_looked_over(v: &View) -> bool {
    v.chose("body_looked_over", "both_sides")
}

const fn wound(id: &'static str) -> Step {
    on_hide(id, Input::Choice(id)).group("wound").sites(wounds)
}

pub(super) const STEPS: &[Step] = &[
    row("touching_allowed", Input::Choice("touching_allowed")).visit().may_be_absent(),
    row("thumb_to_finger", Input::Choice("thumb_to_finger")).visit().ruled_out(rules::touching),
    on_hide("insects", Input::Panel(&["live_ticks", "flat_flies"])),
    on_hide("body_thaw", Input::Choice("body_thaw")),
    on_hide("body_looked_over", Input::Choice("body_looked_over")),
    on_hide("wounds_outside", Input::Panel(&["wounds_outside"])).absent_when(all_looked_over),
    on_hide("wounds_count", Input::Number("wounds_count")).when(|v| deer_here(v) && v.there("wounds_outside")),
    wound("wound_region"),
    wound("wound_form"),
    wound("wound_bleeding").when(|v| deer_here(v) && !may_have_thawed(v)),
    on_hide("wound_bleeding_thawed", Input::Choice("wound_bleeding"))
        .group("wound")
        .sites(wounds)
        .when(may_have_thawed),
    // Before tape, snow and fingers come near it.
    on_hide("bite_swabbed", Input::Choice("bite_swabbed")).group("wound").sites(bites_with_clot).may_be_absent(),
    on_hide("clot_wiped", Input::Choice("clot_wiped")).group("wound").sites(bled_wounds),
    on_hide("upper_canines", Input::Number("upper_canines_mm")).group("wound").sites(paired_and_bled),
    on_hide("lower_canines", Input::Number("lower_canines_mm")).group("wound").sites(paired_and_bled),
    on_hide("wound_zone_main", Input::Choice("wound_zone_main")).when(some_bled).ruled_out(zone_of_one),
    on_hide("hide_marks", Input::Panel(&["claw_rakes", "projectile_or_wound_track"])).absent_when(all_looked_over),
    on_hide("bruising", Input::Choices("bruising_outside")).absent_when(all_looked_over),
    row("bones_broken", Input::Choices("bones_broken")).ruled_out(rules::touching).may_be_absent(),
    row("leg_disease", Input::Choices("leg_disease")).ruled_out(rules::touching).may_be_absent(),
    row("hind_foot", Input::Number("hind_foot_mm")).ruled_out(rules::touching),
    // Hands-on: the leg has to be drawn straight.
    on_hide("chest_height", Input::Number("chest_height_cm")),
    on_hide("sex_handled", Input::Choices("sex_evidence_handled")).may_be_absent(),
    row("antler_beam", Input::Number("antler_beam_mm")).when(antlered).ruled_out(rules::touching),
    row("pelvis_knobs", Input::Choice("pelvis_knobs")).when(bones_bare).ruled_out(rules::touching),
    row("chest_girth", Input::Number("chest_girth_cm")).when(whole_deer).ruled_out(rules::girth),
    row("body_length", Input::Number("body_length_cm"))
        .when(|v| whole_deer(v) && v.number("chest_girth_cm").is_some())
        .ruled_out(rules::girth),
];
