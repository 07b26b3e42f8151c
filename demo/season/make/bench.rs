//! What was looked at on the bench, thawed, some days later.

use marrowbook::record::{Answer, Side, Site, Why};

use super::dice::Dice;
use super::herd::{Deer, Fate};
use super::look::{FEMUR, Seen, jaw, marrow_colour, teeth_in_view};
use super::people::May;
use super::samples::{femur_taken, jaw_taken};

/// Dry weight of the marrow in a hundred parts of its wet weight.
pub(crate) fn dry_percent(deer: &Deer) -> i64 {
    let mut dice = Dice::new(3_000 + u64::try_from(deer.n).unwrap_or_default());
    match (deer.fate, deer.n % 3) {
        (Fate::Starved, _) => dice.between(6, 24),
        (_, 0) => dice.between(45, 70),
        (_, _) => dice.between(72, 94),
    }
}

/// Looks and weights of what the crew had taken; nothing where nothing was.
pub(crate) fn look(deer: &Deer, may: May, dice: &mut Dice) -> Vec<Seen> {
    let mut all = Vec::new();
    if femur_taken(deer, may) {
        marrow(deer, &mut all, dice);
    }
    if jaw_taken(deer, may) {
        // The teeth of a head that was shut are seen here first.
        if !teeth_in_view(deer) {
            jaw(deer, &mut all, dice);
        }
        let grown = if deer.birthdays == 0 { 152 } else { 182 };
        let left = Site::side(Side::Left);
        let buck = if deer.female { 0 } else { 6 };
        all.push(("mandible_mm", left, Answer::number(grown + buck + dice.between(-6, 6))));
        all.push(("diastema_mm", left, Answer::number(grown * 38 / 100 + dice.between(-4, 4))));
    }
    if !all.is_empty() {
        all.push(("examination_closed", Site::NONE, Answer::choice("complete")));
    }
    all
}

/// Of every ninth nobody had the time to weigh.
fn marrow(deer: &Deer, all: &mut Vec<Seen>, dice: &mut Dice) {
    let consistency = match (deer.fate, deer.n % 3) {
        (Fate::Starved, 0) => "watery",
        (Fate::Starved, _) => "gelatinous_wet",
        (_, 0) => "gelatinous_opaque",
        (_, _) => "solid_waxy",
    };
    all.extend([
        ("marrow_bone", Site::NONE, Answer::choice("femur")),
        ("bone_opened", FEMUR, Answer::choice("intact")),
        ("marrow_frozen", FEMUR, Answer::choice("thawed_after_freezing")),
        ("marrow_consistency", FEMUR, Answer::choice(consistency)),
        ("marrow_colour", FEMUR, Answer::choice(marrow_colour(deer))),
    ]);
    if deer.n.is_multiple_of(9) {
        all.push(("marrow_dry_g", FEMUR, Answer::NotLooked { why: Why::Time }));
    } else {
        let wet = dice.between(420, 980);
        all.push(("marrow_wet_g", FEMUR, Answer::number(wet)));
        all.push(("marrow_dry_g", FEMUR, Answer::number(wet * dry_percent(deer) / 100)));
    }
}
