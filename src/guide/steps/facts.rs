//! What stands in the record, as the rows ask for it.

use crate::guide::View;
use crate::record::{Bone, Side, Site, Tooth, samples_counted};

/// A dead animal lies at the place, as far as anybody said.
pub(super) fn carcass_here(v: &View) -> bool {
    let nothing = ["not_found", "removed", "alive_or_injured"];
    !nothing.iter().any(|outcome| v.chose("report_outcome", outcome)) && !v.chose("alive", "alive")
}

/// There may be an animal, dead or alive, to look at from the stand-off place.
pub(super) fn something_here(v: &View) -> bool {
    !v.chose("report_outcome", "not_found") && !v.chose("report_outcome", "removed")
}

/// A dead deer: what is opened, measured and sampled is only asked of deer.
pub(super) fn deer_here(v: &View) -> bool {
    carcass_here(v) && !v.chose("species", "other_animal") && !v.chose("report_outcome", "other_species")
}

/// Some of the body has been eaten and some of it is left.
pub(super) fn some_eaten(v: &View) -> bool {
    carcass_here(v) && (v.body_is("part_eaten") || v.body_is("mostly_eaten"))
}

/// The belly is gone: what was in the rumen may lie on the snow.
pub(super) fn gut_pile_only(v: &View) -> bool {
    v.body_is("mostly_eaten") || v.body_is("bones_and_hair")
}

/// Nothing of the body has been eaten.
pub(super) fn whole_deer(v: &View) -> bool {
    deer_here(v) && v.body_is("whole")
}

/// Bones lie bare: pelvis and legs can be looked at.
pub(super) fn bones_bare(v: &View) -> bool {
    deer_here(v) && gut_pile_only(v)
}

/// Antlers were seen or felt.
pub(super) fn antlered(v: &View) -> bool {
    deer_here(v) && (v.chose("sex_evidence", "antlers") || v.chose("sex_evidence_handled", "antlers"))
}

/// One place an unborn young that was counted.
pub(super) fn fetuses(v: &View) -> Vec<Site> {
    let count = v.number("fetuses_count").and_then(|n| u16::try_from(n).ok()).unwrap_or(0);
    (1..=count.min(5)).map(Site::item).collect()
}

/// The hind cannon bone, unless it is the bone in hand and asked about as such.
pub(super) fn cannon_bone(v: &View) -> Vec<Site> {
    if v.chose("marrow_bone", "metatarsus") { Vec::new() } else { vec![Site::bone(Bone::Metatarsus)] }
}

/// Hands were laid on the carcass.
pub(super) fn touched(v: &View) -> bool {
    v.there("touching_allowed")
}

/// Something was cut or may have been.
pub(super) fn cut(v: &View) -> bool {
    v.there("opening_trained") || v.there("jaw_taken") || v.there("femur_taken")
}

/// Something leaves with the crew.
pub(super) fn sampled(v: &View) -> bool {
    !samples(v).is_empty()
}

/// One place a sample, in the order of `samples_counted`.
pub(super) fn samples(v: &View) -> Vec<Site> {
    samples_counted(v.exam).into_iter().map(Site::item).collect()
}

/// Those of which somebody said that they are sealed.
pub(super) fn sealed_samples(v: &View) -> Vec<Site> {
    let sealed = |site: &Site| v.question("sample_sealed", *site).answer().value().is_some();
    samples(v).into_iter().filter(sealed).collect()
}

/// One place a wound counted.
pub(super) fn wounds(v: &View) -> Vec<Site> {
    let count = v.number("wounds_count").and_then(|n| u16::try_from(n).ok()).unwrap_or(0);
    (1..=count.min(9)).map(Site::item).collect()
}

/// The sides of the lower jaw whose cheek teeth can be seen.
pub(super) fn jaw_sides(v: &View) -> Vec<Site> {
    let sides: &[Side] = match v.choice("jaw_in_view").as_deref() {
        Some("both") => &[Side::Left, Side::Right],
        Some("left") => &[Side::Left],
        Some("right") => &[Side::Right],
        _ => &[],
    };
    sides.iter().map(|side| Site::side(*side)).collect()
}

/// Some of the lower jaw can be seen.
pub(super) fn jaw_in_view(v: &View) -> bool {
    deer_here(v) && !jaw_sides(v).is_empty()
}

/// Sides on which a tooth is in one of these states.
fn sides_with(v: &View, tooth: Tooth, states: &[&str]) -> Vec<Site> {
    let is = |side: Side| {
        let answer = v.question("tooth_state", Site::tooth(side, tooth)).answer();
        matches!(answer.value(), Some(crate::record::Value::Choice(code)) if states.contains(&code.as_str()))
    };
    jaw_sides(v).into_iter().filter(|site| site.side.is_some_and(is)).collect()
}

/// Sides whose last molar has begun to come up: its back cusp can be read.
pub(super) fn last_molar_up(v: &View) -> Vec<Site> {
    sides_with(v, Tooth::M3, &["part_up", "up_unworn", "in_wear"])
}

/// Sides whose third cheek tooth is permanent: wear of the premolars can be read.
pub(super) fn premolars_changed(v: &View) -> Vec<Site> {
    sides_with(v, Tooth::P4, &["up_unworn", "in_wear"])
}

/// Sides whose third cheek tooth is still a milk tooth or changing: a yearling's tooth row tells months.
pub(super) fn milk_premolars(v: &View) -> Vec<Site> {
    sides_with(v, Tooth::P4, &["milk", "milk_loose", "milk_shed", "part_up", "up_unworn"])
}

/// Molars in wear, on each side in view.
pub(super) fn molars_in_wear(v: &View) -> Vec<Site> {
    let of_side = |site: Site| {
        let side = site.side.unwrap_or(Side::Left);
        Tooth::MOLARS.into_iter().map(move |tooth| Site::tooth(side, tooth))
    };
    let worn = |site: &Site| {
        matches!(v.question("tooth_state", *site).answer().value(),
            Some(crate::record::Value::Choice(code)) if code == "in_wear")
    };
    jaw_sides(v).into_iter().flat_map(of_side).filter(worn).collect()
}

/// The bone whose marrow is in hand.
pub(super) fn marrow_bone(v: &View) -> Vec<Site> {
    v.choice("marrow_bone").as_deref().and_then(Bone::of_code).map(Site::bone).into_iter().collect()
}

/// The same, where that bone has growing ends that can be looked at.
pub(super) fn leg_bone(v: &View) -> Vec<Site> {
    marrow_bone(v).into_iter().filter(|site| site.bone != Some(Bone::Mandible)).collect()
}

/// The head has not been eaten or taken.
pub(crate) fn head_is_there(v: &View) -> bool {
    !v.there("head_or_antlers_missing_only") && !v.chose("parts_eaten", "head") && !v.chose("parts_eaten", "all")
}

/// Liver, kidneys and lungs may still be there.
pub(crate) fn viscera_are_there(v: &View) -> bool {
    !gut_pile_only(v) && !v.chose("parts_eaten", "belly") && !v.chose("parts_eaten", "all")
}

/// A sign of people was seen that an officer may want described.
pub(super) fn people_sign(v: &View) -> bool {
    let mut signs = super::stand_off::PEOPLE_WOUNDS.iter().chain(super::stand_off::PEOPLE_PLACE);
    signs.any(|sign| v.there(sign)) || v.there("eagle_or_hawk_part") || super::evidence::is_evidence(v)
}
