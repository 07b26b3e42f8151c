//! What a crew saw of a deer in the field, hands off and in gloves.

use marrowbook::record::{Answer, Bone, Moment, Place, PlaceSource, Side, Site, Tooth, Value, Why};

use super::dice::Dice;
use super::herd::{Deer, Fate, Left};
use super::people::May;
use super::samples::{femur_taken, jaw_taken};
use super::winter;

/// Finding, place and answer.
pub(crate) type Seen = (&'static str, Site, Answer);

/// The reserve's middle; invented, in country where such winters are.
const MIDDLE_E7: (i64, i64) = (479_500_000, -914_500_000);

pub(crate) const FEMUR: Site = Site::bone(Bone::Femur);

fn one(code: &str) -> Answer {
    Answer::choice(code)
}

fn many(codes: &[&str]) -> Answer {
    Answer::Seen { value: Value::choices(codes.iter().copied()) }
}

fn sign(there: bool) -> Answer {
    if there { one("there") } else { Answer::NotSeen }
}

/// Where it lay, as the phone of the crew had it.
pub(crate) fn place(deer: &Deer, moved_e7: i64, accuracy_m: u32) -> Place {
    let (lat, lon) = MIDDLE_E7;
    Place {
        lat_e7: lat + deer.north_e7 + moved_e7,
        lon_e7: lon + deer.east_e7 + moved_e7,
        accuracy_m_95: Some(accuracy_m),
        source: PlaceSource::Device,
    }
}

/// All that was seen of it, in the order of the visit. `clear` is when somebody last passed the place and nothing lay there.
pub(crate) fn look(deer: &Deer, may: May, at: Moment, clear: Option<Moment>, dice: &mut Dice) -> Vec<Seen> {
    let mut all: Vec<Seen> = vec![
        ("report_outcome", Site::NONE, one("found")),
        ("land_leave", Site::NONE, one("reserve_or_public")),
        ("arrived_at", Site::NONE, Answer::Seen { value: Value::Instant(at) }),
        ("alive", Site::NONE, one("dead")),
        ("quick_class", Site::NONE, one(if deer.birthdays == 0 { "fawn" } else { "older" })),
    ];
    if let Some(clear) = clear {
        all.push(("times_known", Site::NONE, many(&["place_without_body"])));
        all.push(("place_clear_at", Site::NONE, Answer::Seen { value: Value::Instant(clear) }));
    }
    scene(deer, at, &mut all, dice);
    body(deer, &mut all, dice);
    if may.touch() {
        all.push(("touching_allowed", Site::NONE, one("card_names_me")));
        all.push(("confirm_h01", Site::NONE, one("done")));
        touched(deer, may, &mut all, dice);
        jaw_in_the_field(deer, may, &mut all, dice);
    } else {
        all.push(("touching_allowed", Site::NONE, Answer::NotLooked { why: Why::NotTrained }));
    }
    all
}

/// More than a dusting has fallen on it since.
pub(crate) const fn snowed_over(deer: &Deer) -> bool {
    deer.days >= 6
}

fn scene(deer: &Deer, at: Moment, all: &mut Vec<Seen>, dice: &mut Dice) {
    let killed = matches!(deer.fate, Fate::Wolf | Fate::Coyote);
    let readable = deer.days < 6 && dice.chance(75);
    let mut add = |finding, answer| all.push((finding, Site::NONE, answer));
    // Woods hold a little more than the stake at the gate shows.
    add("snow_depth_cm", Answer::number((winter::snow_cm(at) + dice.between(-5, 12)).max(0)));
    add("snow_readable", one(if readable { "sharp" } else { "snowed_over" }));
    let over = match readable {
        true => "none",
        false if snowed_over(deer) => "part_covered",
        false => "dusting",
    };
    add("snow_over_body", one(over));
    if snowed_over(deer) {
        add("snow_over_body_cm", Answer::number(dice.between(6, 18)));
    }
    let hidden = Answer::CantTell { why: Why::Buried };
    for (finding, there) in [
        ("blood_on_snow", killed || deer.fate == Fate::Vehicle),
        ("chase_or_struggle_marks", killed),
        ("drag_marks", killed && dice.chance(40)),
        ("hair_scattered", deer.left != Left::Whole),
        ("bones_scattered", deer.left == Left::Bones),
    ] {
        // What later snow hides nobody can tell.
        add(finding, if readable || there && dice.chance(70) { sign(there) } else { hidden.clone() });
    }
    let eater = match deer.fate {
        Fate::Wolf => &["wolf"][..],
        Fate::Coyote => &["coyote"],
        _ if deer.left == Left::Whole => &[],
        _ => &["fox"],
    };
    if eater.is_empty() {
        add("tracks_by", Answer::NotSeen);
    } else {
        add("tracks_by", many(eater));
    }
    add("bird_signs", if deer.left == Left::Whole { Answer::NotSeen } else { many(&["whitewash"]) });
    let (road, spot) = match deer.fate {
        Fate::Vehicle => ("within_50_m", "roadside_or_yard"),
        Fate::Starved => ("over_500_m", "bed_under_cover"),
        _ => ("over_500_m", "woods_or_trail"),
    };
    add("road_distance", one(road));
    add("death_place", one(spot));
    for people in ["bullet_or_arrow_wound", "snare_or_trap", "clean_knife_cuts"] {
        add(people, Answer::NotSeen);
    }
}

fn body(deer: &Deer, all: &mut Vec<Seen>, dice: &mut Dice) {
    let state = match deer.left {
        Left::Whole => "whole",
        Left::Part => "part_eaten",
        Left::Little => "mostly_eaten",
        Left::Bones => "bones_and_hair",
    };
    let bones = deer.left == Left::Bones;
    let gone = Answer::PartGone { why: Why::Scavenged };
    let mut add = |finding, answer| all.push((finding, Site::NONE, answer));
    add("body_state", one(state));
    let frozen = one(if deer.days < 2 { "part_frozen" } else { "frozen_solid" });
    add("body_frozen", if bones { gone.clone() } else { frozen });
    add("very_thin", if bones { gone.clone() } else { sign(deer.fate == Fate::Starved && dice.chance(70)) });
    let sex = match (deer.left, deer.female) {
        (Left::Bones | Left::Little, _) => gone.clone(),
        (_, true) => many(&["udder_or_vulva"]),
        (_, false) => many(&["scrotum_or_penis"]),
    };
    add("sex_evidence", sex);
}

/// Hide, bones and marrow, in gloves.
fn touched(deer: &Deer, may: May, all: &mut Vec<Seen>, dice: &mut Dice) {
    let bones = deer.left == Left::Bones;
    let gone = Answer::PartGone { why: Why::Scavenged };
    let mut add = |finding, answer| all.push((finding, Site::NONE, answer));
    if deer.left == Left::Whole || deer.left == Left::Part {
        let bitten = matches!(deer.fate, Fate::Wolf | Fate::Coyote);
        let both = dice.chance(60);
        add("body_looked_over", one(if both { "both_sides" } else { "upper_side_only" }));
        let under = Answer::CantTell { why: Why::UnderBody };
        add("wounds_outside", if both || bitten { sign(bitten) } else { under });
        if bitten {
            add("wounds_count", Answer::number(1));
            let first = Site::item(1);
            let region = if deer.fate == Fate::Wolf { "rump_or_hind_legs" } else { "throat" };
            all.push(("wound_region", first, one(region)));
            all.push(("wound_form", first, one("paired_holes")));
            all.push(("wound_bleeding", first, one("clot_at_hole")));
        }
        let broken = if deer.fate == Fate::Vehicle { many(&["leg", "ribs"]) } else { Answer::NotSeen };
        all.push(("bones_broken", Site::NONE, broken));
    } else {
        add("wounds_outside", gone.clone());
    }
    let shut = if deer.days < 2 { Why::Time } else { Why::Frozen };
    let unopened = |why| if bones { gone.clone() } else { Answer::NotLooked { why } };
    all.push(("opening_trained", Site::NONE, unopened(shut)));
    // No fetus is looked for in a buck.
    if deer.female || matches!(deer.left, Left::Bones | Left::Little) {
        all.push(("fetus", Site::NONE, unopened(Why::NotOpened)));
    }
    // A femur that goes to the bench is left whole for it.
    if !femur_taken(deer, may) {
        all.push(("marrow_bone", Site::NONE, one("femur")));
        all.push(("bone_opened", FEMUR, one(if bones { "open_over_a_day" } else { "intact" })));
        all.push(("marrow_frozen", FEMUR, one("frozen")));
        all.push(("marrow_consistency", FEMUR, Answer::CantTell { why: Why::Frozen }));
        all.push(("marrow_colour", FEMUR, one(marrow_colour(deer))));
    }
}

/// Red marrow is fat used up.
pub(crate) fn marrow_colour(deer: &Deer) -> &'static str {
    match deer.fate {
        Fate::Starved => "red",
        _ if deer.n.is_multiple_of(4) => "pink",
        _ => "white",
    }
}

/// Whether the teeth are in view as the head lies: nobody pries a whole head open, and of one deer in six the jaw is gone.
pub(crate) fn teeth_in_view(deer: &Deer) -> bool {
    deer.n % 6 != 4 && deer.left != Left::Whole
}

fn jaw_in_the_field(deer: &Deer, may: May, all: &mut Vec<Seen>, dice: &mut Dice) {
    if teeth_in_view(deer) {
        return jaw(deer, all, dice);
    }
    let not_seen = match deer.left {
        Left::Whole => Answer::NotLooked { why: Why::NotOpened },
        _ => Answer::PartGone { why: Why::Scavenged },
    };
    // A jaw that is taken along is in view on the bench.
    if !jaw_taken(deer, may) {
        all.push(("jaw_in_view", Site::NONE, one("neither")));
    }
    all.push(("third_tooth", Site::side(Side::Left), not_seen));
}

/// The lower jaw: whose teeth stand how, by age.
pub(crate) fn jaw(deer: &Deer, all: &mut Vec<Seen>, dice: &mut Dice) {
    let left = Side::Left;
    all.push(("jaw_in_view", Site::NONE, one("left")));
    let (count, third) = match deer.birthdays {
        0 => (5, "three_cusps"),
        1 => (6, "two_cusps_white"),
        _ => (6, "two_cusps_stained"),
    };
    all.push(("cheek_teeth_count", Site::side(left), Answer::number(count)));
    all.push(("third_tooth", Site::side(left), one(third)));
    for tooth in Tooth::CHEEK {
        let state = match (deer.birthdays, tooth) {
            (0, Tooth::P2 | Tooth::P3 | Tooth::P4) => "milk",
            (0, Tooth::M2) => "part_up",
            (0, Tooth::M3) => "not_there",
            _ => "in_wear",
        };
        all.push(("tooth_state", Site::tooth(left, tooth), one(state)));
    }
    if deer.birthdays > 0 {
        for (tooth, later) in [(Tooth::M1, 0), (Tooth::M2, 1), (Tooth::M3, 2)] {
            // A reader is off by a class now and then.
            let slip = i64::from(dice.chance(15));
            all.push(("dentine", Site::tooth(left, tooth), one(dentine(deer.birthdays - later + slip))));
        }
    }
}

/// How wide the dentine looks after so many winters of wear.
pub(crate) fn dentine(wear: i64) -> &'static str {
    match wear {
        ..=0 => "none",
        1 | 2 => "narrower",
        3 => "about_equal",
        4 | 5 => "wider",
        6..=8 => "twice_or_more",
        _ => "smooth",
    }
}
