//! From findings to the rows of the evidence table: which finding answers which observation, and how.
//!
//! What could not be told, was not looked at or is gone has no state. Two traps are built in: what a frozen
//! and thawed body shows is never more than a stain unless it is a clot at a hole, and snow that was
//! trampled, melted or fell later is no witness of what is not there.

use super::lens::Lens;
use crate::order::Short as _;
use crate::record::{Answer, Site, Value};
use crate::science::cause::{Answers, skeleton};

/// Findings that answer each row, by row number from 1: the first is the one to look at next.
pub const FINDINGS_OF: [&[&str]; 25] = [
    &["bruise_under_skin", "wound_bleeding", "clot_wiped", "wound_form"],
    &["wound_zone_main", "wounds_outside", "wound_region"],
    &["chase_or_struggle_marks", "snow_readable"],
    &["blood_on_snow", "blood_where"],
    &["body_position"],
    &["cached_over", "cover_with", "snow_over_body"],
    &["drag_marks", "drag_length_m"],
    &["hair_scattered", "hair_state"],
    &["bones_fed_on", "body_state"],
    &["rumen", "body_state"],
    &["feeding_began", "parts_eaten", "body_state"],
    &["marrow_consistency", "marrow_see_through", "marrow_colour"],
    &["inside_fat", "rump_fat"],
    &["organ_rupture", "bled_fracture", "blood_in_cavity"],
    &["projectile_or_wound_track", "bullet_or_arrow_wound", "snare_or_trap", "hole_hair_cut"],
    &["road_distance"],
    &["rumen_mostly"],
    &["tracks_main", "tracks_by"],
    &["upper_canines_mm"],
    &["lungs"],
    &["pedicle_pus_or_pits"],
    &["rump_stained"],
    &["death_place"],
    &["tooth_state", "quick_class"],
    &["claw_rakes"],
];

/// What else is read beside them.
const BESIDE: &[&str] =
    &["droppings_by", "bird_signs", "study_tag_or_collar", "days_since_handling_count", "snow_under_body"];
/// Cuts of a blade: straight hide edges and boned meat are a person's work, whatever ate later (Taras 2018).
const BLADE: &[&str] = &["clean_knife_cuts", "meat_cut_off_neatly"];

/// Every finding that the cause reading reads by itself: marrow and teeth come from their own readings.
pub(super) fn findings() -> Vec<&'static str> {
    let own = FINDINGS_OF
        .iter()
        .flat_map(|all| all.iter())
        .copied()
        .filter(|f| !f.starts_with("marrow_") && *f != "tooth_state");
    own.chain(BESIDE.iter().chain(BLADE).copied()).collect()
}

/// The least pairs of holes whose mean may be leaned on.
const FEWEST_PAIRS: usize = 3;

/// What was seen, as the table asks for it.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
#[allow(clippy::struct_excessive_bools)] // facts that stand alone
pub(super) struct Observed {
    pub(super) answers: Answers,
    /// The snow round the body was sharp.
    pub(super) snow_readable: bool,
    /// The snow at the body may have fallen after the death.
    pub(super) snow_after_death: bool,
    /// Fewer pairs of holes were measured than should be.
    pub(super) few_pairs: bool,
    /// Somebody cut with a blade.
    pub(super) cut_by_people: bool,
}

/// What one answer said of a sign or a choice.
enum Said<'a> {
    Code(&'a str),
    Not,
}

fn said<'a>(lens: &Lens<'_, 'a>, finding: &'static str) -> Option<Said<'a>> {
    match lens.result(finding, Site::NONE)? {
        Answer::Seen { value: Value::Choice(code) } => Some(Said::Code(code)),
        Answer::NotSeen => Some(Said::Not),
        _ => None,
    }
}

/// The state of a choice by its place in this list; `looked, not there` by the row's own rule.
fn choice(lens: &Lens, finding: &'static str, codes: &[&str], none: Option<u8>) -> Option<u8> {
    match said(lens, finding)? {
        Said::Code(code) => (0_u8..).zip(codes).find(|(_, known)| **known == code).map(|(n, _)| n),
        Said::Not => none,
    }
}

/// Yes or no of a sign.
fn sign(lens: &Lens, finding: &'static str) -> Option<bool> {
    said(lens, finding).map(|said| matches!(said, Said::Code(_)))
}

fn yes_no(there: Option<bool>) -> Option<u8> {
    there.map(|there| u8::from(!there))
}

/// Reads all rows but marrow (12) and age (24), which come from readings of their own.
pub(super) fn observe(lens: &Lens) -> Observed {
    let snow = lens.choice("snow_readable", Site::NONE);
    let sharp = snow == Some("sharp");
    let fell_later = snow == Some("snowed_over")
        || matches!(lens.choice("snow_over_body", Site::NONE), Some("part_covered" | "covered"));
    let buried = lens.choice("snow_over_body", Site::NONE) == Some("covered");
    let (spacing, pairs) = canines(lens);
    let mut out = Observed {
        snow_readable: sharp,
        snow_after_death: fell_later,
        few_pairs: pairs > 0 && pairs < FEWEST_PAIRS,
        cut_by_people: BLADE.iter().any(|cut| sign(lens, cut) == Some(true)) || wounds(lens).any(|w| straight(lens, w)),
        ..Observed::default()
    };
    // What was looked for and is not there counts only where the snow would still show it.
    let unless = |hidden: bool, state: Option<u8>, none: u8| state.filter(|s| !(hidden && *s == none));
    let states = [
        bite(lens),
        wound_zone(lens),
        unless(!sharp, yes_no(sign(lens, "chase_or_struggle_marks")), 1),
        unless(fell_later, blood(lens), 2),
        posture(lens),
        unless(buried, covered(lens), 1),
        unless(fell_later, dragged(lens), 1),
        unless(fell_later, hair(lens), 2),
        bones(lens),
        rumen(lens),
        feeding(lens),
        None,
        fat(lens),
        rupture(lens),
        projectile(lens),
        choice(lens, "road_distance", &["within_50_m", "within_500_m", "over_500_m"], None),
        choice(lens, "rumen_mostly", &["woody_browse", "grain_or_fruit", "near_empty", "garden_shrub"], None),
        unless(fell_later, tracks(lens), 6),
        spacing,
        choice(lens, "lungs", &["solid_or_pus", "froth_blood_water", "normal"], None),
        yes_no(sign(lens, "pedicle_pus_or_pits")),
        yes_no(sign(lens, "rump_stained")),
        choice(lens, "death_place", PLACES, None),
        None,
        yes_no(sign(lens, "claw_rakes")),
    ];
    for (number, state) in (1_u8..).zip(states) {
        out.answers.set(number, state);
    }
    debug_assert!(states.len() == skeleton().len());
    out
}

const PLACES: &[&str] =
    &["bed_under_cover", "on_or_in_ice", "woods_or_trail", "roadside_or_yard", "fence_cliff_or_snag"];

/// Wounds counted, with what was said of each.
fn wounds(lens: &Lens) -> impl Iterator<Item = Site> {
    lens.sites(&["wound_form", "wound_bleeding", "wound_region", "upper_canines_mm"]).into_iter()
}

fn straight(lens: &Lens, wound: Site) -> bool {
    lens.choice("wound_form", wound) == Some("cut_straight")
}

/// A clot at a tooth hole, which stays when it is wiped.
fn has_clot(lens: &Lens, wound: Site) -> bool {
    let bitten = matches!(lens.choice("wound_form", wound), Some("paired_holes" | "tear"));
    let clot = matches!(lens.choice("wound_bleeding", wound), Some("clot_at_hole" | "bruised_and_bloody"));
    bitten && clot && lens.choice("clot_wiped", wound) != Some("wipes_off")
}

fn bite(lens: &Lens) -> Option<u8> {
    if wounds(lens).any(|wound| has_clot(lens, wound)) {
        return Some(0);
    }
    let under_skin = choice(lens, "bruise_under_skin", &["clot_at_hole", "diffuse_or_thawed"], Some(2));
    let stained = |wound| {
        lens.choice("wound_bleeding", wound) == Some("diffuse_or_stained")
            || lens.choice("clot_wiped", wound) == Some("wipes_off")
    };
    under_skin.or_else(|| wounds(lens).any(stained).then_some(1))
}

fn wound_zone(lens: &Lens) -> Option<u8> {
    let zones = ["throat", "nape_or_skull", "rump_hind_leg_or_flank", "many_zones_mutilated"];
    if let Some(zone) = choice(lens, "wound_zone_main", &zones, Some(4)) {
        return Some(zone);
    }
    let zone_of = |wound| match lens.choice("wound_region", wound)? {
        "throat" => Some(0),
        "nape" | "head" => Some(1),
        "belly_or_flank" | "rump_or_hind_legs" => Some(2),
        _ => None,
    };
    let mut bitten: Vec<u8> = wounds(lens).filter(|w| has_clot(lens, *w)).filter_map(zone_of).collect();
    bitten.order();
    bitten.dedup();
    match bitten.as_slice() {
        [one] => Some(*one),
        [_, _, ..] => Some(3),
        [] => (sign(lens, "wounds_outside") == Some(false)).then_some(4),
    }
}

fn blood(lens: &Lens) -> Option<u8> {
    if sign(lens, "blood_on_snow")? {
        let places = lens.choices("blood_where", Site::NONE)?;
        let spread = places.iter().any(|place| matches!(*place, "trail_to_body" | "sprayed"));
        (!places.is_empty()).then_some(u8::from(!spread))
    } else {
        Some(2)
    }
}

/// Wind heaps snow as well as paws do: snow alone is no cover, and no proof that there was none.
fn covered(lens: &Lens) -> Option<u8> {
    let there = sign(lens, "cached_over")?;
    let mixed_in = |code: &&str| matches!(*code, "leaves_or_soil" | "sticks" | "plucked_hair");
    let snow_alone = lens.choices("cover_with", Site::NONE).is_some_and(|with| !with.iter().any(mixed_in));
    (!(there && snow_alone)).then_some(u8::from(!there))
}

/// A body that nothing has opened, unless somebody said of this part that it is gone.
fn whole(lens: &Lens, part: &'static str) -> bool {
    lens.choice("body_state", Site::NONE) == Some("whole")
        && !matches!(lens.said(part, Site::NONE), Some(Answer::PartGone { .. }))
}

/// Bones that lie under a whole hide are intact.
fn bones(lens: &Lens) -> Option<u8> {
    choice(lens, "bones_fed_on", &["long_bones_crushed", "ribs_or_blades_gnawed", "intact"], None)
        .or_else(|| whole(lens, "bones_fed_on").then_some(2))
}

fn posture(lens: &Lens) -> Option<u8> {
    match lens.choice("body_position", Site::NONE)? {
        "on_chest" => Some(0),
        "on_left_side" | "on_right_side" => Some(1),
        "on_back" | "scattered" => Some(2),
        _ => None,
    }
}

fn dragged(lens: &Lens) -> Option<u8> {
    if sign(lens, "drag_marks")? {
        lens.number("drag_length_m", Site::NONE).map(|metres| u8::from(metres < 2))
    } else {
        Some(1)
    }
}

fn hair(lens: &Lens) -> Option<u8> {
    if sign(lens, "hair_scattered")? {
        let found = lens.choices("hair_state", Site::NONE)?;
        if found.iter().any(|code| matches!(*code, "plucked_clean" | "bitten_off")) {
            Some(0)
        } else {
            found.contains(&"clumps_with_skin").then_some(1)
        }
    } else {
        Some(2)
    }
}

/// `Looked, and it is not there` is the row's `gone`; in a body that is whole it is in place.
fn rumen(lens: &Lens) -> Option<u8> {
    match said(lens, "rumen") {
        Some(Said::Code("pulled_out")) => Some(0),
        Some(Said::Code("torn_open" | "spilled_only")) => Some(1),
        Some(Said::Code("present")) => Some(2),
        Some(Said::Not) => Some(3),
        Some(Said::Code(_)) => None,
        None => whole(lens, "rumen").then_some(2),
    }
}

fn feeding(lens: &Lens) -> Option<u8> {
    if lens.choice("body_state", Site::NONE) == Some("whole") {
        return Some(4);
    }
    let began = ["rump_or_hams", "behind_ribs", "shoulder_or_neck", "eyes_mouth_anus"];
    if let Some(state) = choice(lens, "feeding_began", &began, Some(4)) {
        return Some(state);
    }
    let group = |part: &str| match part {
        "rump" => Some(0),
        "belly" => Some(1),
        "chest" | "shoulder" | "neck" => Some(2),
        "eyes_or_anus" => Some(3),
        _ => None,
    };
    // One part eaten is where it began; of several nobody can say.
    let parts = lens.choices("parts_eaten", Site::NONE)?;
    match parts.iter().map(|part| group(part)).collect::<Vec<_>>().as_slice() {
        [one] => *one,
        _ => None,
    }
}

/// Fat inside goes last: where it was looked at it decides. A rump without fat alone says little.
fn fat(lens: &Lens) -> Option<u8> {
    choice(lens, "inside_fat", &["none_or_gel", "some", "plenty"], None)
        .or_else(|| choice(lens, "rump_fat", &["", "thin", "thick"], None))
        .or_else(|| choice(lens, "rump_fat", &["", "moderate"], None))
}

/// A body that is mostly eaten cannot show that its hide was mostly whole. An organ that tore without blood
/// tore after death. Blood in the cavity alone is no rupture: freezing and thawing makes bloody fluid there
/// (Roe et al. 2012: 5 of 5 thawed, 0 of 5 chilled); but with it nobody can say that nothing tore.
fn rupture(lens: &Lens) -> Option<u8> {
    let (torn, broken) = (sign(lens, "organ_rupture"), sign(lens, "bled_fracture"));
    let blood = sign(lens, "blood_in_cavity");
    let eaten = matches!(lens.choice("body_state", Site::NONE), Some("mostly_eaten" | "bones_and_hair"));
    match (torn, broken, blood) {
        _ if eaten => None,
        (_, Some(true), _) => Some(0),
        (Some(true), _, blood) => (blood != Some(false)).then_some(0),
        (Some(false), Some(false), blood) => (blood != Some(true)).then_some(1),
        _ => None,
    }
}

/// A wound of a person seen from afar counts; that none was seen from afar does not.
fn projectile(lens: &Lens) -> Option<u8> {
    let afar = ["bullet_or_arrow_wound", "snare_or_trap", "hole_hair_cut"];
    if afar.into_iter().any(|finding| sign(lens, finding) == Some(true)) {
        return Some(0);
    }
    yes_no(sign(lens, "projectile_or_wound_track"))
}

fn tracks(lens: &Lens) -> Option<u8> {
    let main = ["large_canid", "medium_canid", "felid", "bear", "human_or_vehicle", "fox_fisher_bird_only"];
    if let Some(state) = choice(lens, "tracks_main", &main, Some(6)) {
        return Some(state);
    }
    let by = lens.choices("tracks_by", Site::NONE)?;
    if by.is_empty() {
        return Some(6);
    }
    let state = |animal: &str| match animal {
        "wolf" => Some(0),
        "coyote" => Some(1),
        "bobcat_or_lynx" | "cougar" => Some(2),
        "bear" => Some(3),
        "fox" | "marten_or_fisher" => Some(5),
        _ => None,
    };
    // A dog may be large or middling, and what was not named may be anything: then nobody can say.
    if by.iter().any(|animal| matches!(*animal, "dog" | "other" | "not_named" | "wolverine")) {
        return None;
    }
    let mut found: Vec<u8> = by.iter().filter_map(|animal| state(animal)).collect();
    found.order();
    found.dedup();
    match found.as_slice() {
        [one] | [one, 5] => Some(*one),
        _ => None,
    }
}

/// State of the mean of all pairs of upper canines at wounds with a clot, to the nearest millimetre, half
/// up, and how many pairs there were.
fn canines(lens: &Lens) -> (Option<u8>, usize) {
    let pairs: Vec<i64> = wounds(lens)
        .filter(|wound| has_clot(lens, *wound))
        .flat_map(|wound| lens.every_number("upper_canines_mm", wound))
        .collect();
    let count = i64::try_from(pairs.len()).unwrap_or(i64::MAX);
    if count == 0 {
        return (None, 0);
    }
    let sum: i64 = pairs.iter().sum();
    let mean = (2 * sum + count) / (2 * count);
    let state = match mean {
        ..20 => 0,
        20..28 => 1,
        28..37 => 2,
        37..46 => 3,
        _ => 4,
    };
    (Some(state), pairs.len())
}
