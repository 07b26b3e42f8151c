//! What was taken and looked at on the bench, thawed, some days later.

use marrowbook::record::{Answer, Side, Site, Why};

use super::dice::Dice;
use super::herd::{Deer, Fate, Left};
use super::look::{FEMUR, Seen, marrow_colour};

/// Whether femur and jaw of this one were taken along.
pub(crate) const fn taken(deer: &Deer) -> bool {
    deer.n % 3 != 2
}

/// Looks and weights. Of every ninth nobody had the time to weigh.
pub(crate) fn look(deer: &Deer, dice: &mut Dice) -> Vec<Seen> {
    let starved = deer.fate == Fate::Starved;
    let consistency = match (starved, deer.n % 3) {
        (true, 0) => "watery",
        (true, _) => "gelatinous_wet",
        (false, 0) => "gelatinous_opaque",
        (false, _) => "solid_waxy",
    };
    let dry_percent = match (starved, deer.n % 3) {
        (true, _) => dice.between(6, 24),
        (false, 0) => dice.between(45, 70),
        (false, _) => dice.between(72, 94),
    };
    let mut all = vec![
        ("marrow_bone", Site::NONE, Answer::choice("femur")),
        ("marrow_frozen", FEMUR, Answer::choice("thawed_after_freezing")),
        ("marrow_consistency", FEMUR, Answer::choice(consistency)),
        ("marrow_colour", FEMUR, Answer::choice(marrow_colour(deer))),
        ("bone_opened", FEMUR, Answer::choice(if deer.left == Left::Bones { "open_over_a_day" } else { "intact" })),
    ];
    if deer.n.is_multiple_of(9) {
        all.push(("marrow_dry_g", FEMUR, Answer::NotLooked { why: Why::Time }));
    } else {
        let wet = dice.between(420, 980);
        all.push(("marrow_wet_g", FEMUR, Answer::number(wet)));
        all.push(("marrow_dry_g", FEMUR, Answer::number(wet * dry_percent / 100)));
    }
    if deer.n % 6 != 4 {
        let grown = if deer.birthdays == 0 { 152 } else { 182 };
        let left = Site::side(Side::Left);
        let buck = if deer.female { 0 } else { 6 };
        all.push(("mandible_mm", left, Answer::number(grown + buck + dice.between(-6, 6))));
        all.push(("diastema_mm", left, Answer::number(grown * 38 / 100 + dice.between(-4, 4))));
    }
    all
}
