//! Wounds and bruises: what the record already says of them, and at which of them what is asked.

use crate::guide::View;
use crate::order::Short as _;
use crate::record::{Answer, Site, Value};

use super::facts::{deer_here, wounds};
use super::rules;

/// Thawed flesh stains red like a bruise (Roe et al. 2012, drowned seals). Only a body of which it is
/// known that it never thawed is asked about without the warning.
pub(super) fn may_have_thawed(v: &View) -> bool {
    deer_here(v) && !v.chose("body_thaw", "never_thawed")
}

fn is(v: &View, finding: &str, site: Site, code: &str) -> bool {
    v.question(finding, site).answer() == Answer::choice(code)
}

/// Wounds with a clot in the flesh, as far as it was looked at.
pub(super) fn bled_wounds(v: &View) -> Vec<Site> {
    wounds(v).into_iter().filter(|site| is(v, "wound_bleeding", *site, "clot_at_hole")).collect()
}

/// Wounds whose clot stayed when it was wiped, or was not wiped.
fn true_clots(v: &View) -> Vec<Site> {
    bled_wounds(v).into_iter().filter(|site| !is(v, "clot_wiped", *site, "wipes_off")).collect()
}

/// Pairs of holes with a clot: only their distance speaks of who killed.
pub(super) fn paired_and_bled(v: &View) -> Vec<Site> {
    true_clots(v).into_iter().filter(|site| is(v, "wound_form", *site, "paired_holes")).collect()
}

/// Holes or tears with a clot: spit of the one that bit in life may be in them.
pub(super) fn bites_with_clot(v: &View) -> Vec<Site> {
    let bite = |site: &Site| ["paired_holes", "tear"].iter().any(|form| is(v, "wound_form", *site, form));
    true_clots(v).into_iter().filter(bite).collect()
}

/// At least one such bite.
pub(crate) fn any_bite_with_clot(v: &View) -> bool {
    !bites_with_clot(v).is_empty()
}

/// Some wound bled.
pub(super) fn some_bled(v: &View) -> bool {
    deer_here(v) && !true_clots(v).is_empty()
}

/// All wounds that bled lie in one zone.
pub(super) fn zone_of_one(v: &View, site: Site) -> Option<Answer> {
    let zone = |site: Site| {
        let answer = v.question("wound_region", site).answer();
        let Some(Value::Choice(region)) = answer.value() else { return None };
        match region.as_str() {
            "throat" => Some("throat"),
            "nape" | "head" => Some("nape_or_skull"),
            "rump_or_hind_legs" | "belly_or_flank" => Some("rump_hind_leg_or_flank"),
            _ => None,
        }
    };
    let mut zones: Vec<&str> = true_clots(v).into_iter().map(zone).collect::<Option<_>>()?;
    zones.order();
    zones.dedup();
    match zones.as_slice() {
        [only] => Some(Answer::choice(only)),
        _ => rules::soft_touching(v, site),
    }
}

/// `No bruise` is said only of a body skinned where teeth go in.
pub(super) fn skinned_all(v: &View) -> bool {
    ["neck_and_head", "shoulders", "rump"].iter().all(|part| v.chose("skinned", part))
}

/// A clot seen at a wound already answers the question.
pub(super) fn bruise_known(v: &View, site: Site) -> Option<Answer> {
    if true_clots(v).is_empty() { rules::inside(v, site) } else { Some(Answer::choice("clot_at_hole")) }
}

/// Plants of one kind alone say what prevails.
pub(super) fn rumen_known(v: &View, site: Site) -> Option<Answer> {
    let answer = v.answer("rumen_plants");
    let Some(Value::Choices(plants)) = answer.value() else { return rules::inside(v, site) };
    let all = |codes: &[&str]| plants.iter().all(|plant| codes.contains(&plant.as_str()));
    if v.chose("rumen_fill", "empty") {
        Some(Answer::choice("near_empty"))
    } else if all(&["conifer", "hardwood_twigs"]) {
        Some(Answer::choice("woody_browse"))
    } else if all(&["corn_or_grain"]) {
        Some(Answer::choice("grain_or_fruit"))
    } else {
        rules::inside(v, site)
    }
}
