//! Disease, poison, metal and parasites, as far as they show before the body is opened.

use super::names;
use super::read::{any_there, chose_any, chose_anywhere, newest_numbers, there};
use crate::card::CallFor;
use crate::guide::{Closes, Grade, Hazard, View, may_take_head_parts};
use crate::science::source::Mark::{Design, Memory, Seen};

/// Adult blacklegged ticks were seen questing down to -0.6 C (Schulze, Jordan & Hung 2001); the
/// whole degree on the safe side.
const TICKS_AWAKE_C: i64 = -1;
/// Animals whose droppings may hold eggs that harm people, and scat that invites picking apart.
const CANIDS: &[&str] = &["wolf", "coyote", "dog", "fox"];

pub(super) const HAZARDS: &[Hazard] = &[
    Hazard::row(names!("H17", "h17"), Grade::StopFixed, Closes::Place, &[Seen, Design], |v| {
        there(v, "sick_live_animal")
    })
    .signs(&["sick_live_animal"])
    .call(CallFor::Vet),
    Hazard::row(names!("H06", "h06"), Grade::StopFixed, Closes::HandsOn, &[Seen, Design], is_anthrax_like)
        .signs(&["blood_at_openings", "swollen_belly", "limp_not_frozen", "other_dead_grazers"])
        .call(CallFor::Vet),
    Hazard::row(names!("H18", "h18"), Grade::StopFixed, Closes::HandsOn, &[Seen, Memory], |v| {
        there(v, "drug_or_bait_sign")
    })
    .signs(&["drug_or_bait_sign"])
    .call(CallFor::Officer)
    .evidence(),
    Hazard::row(names!("H16", "h16"), Grade::Stop, Closes::HandsOn, &[Seen, Design], |v| {
        any_there(v, &["dead_bird_or_scavenger", "dead_small_mammal"])
    })
    .signs(&["dead_bird_or_scavenger", "dead_small_mammal"])
    .call(CallFor::Vet),
    Hazard::row(names!("H05", "h05"), Grade::Stop, Closes::HandsOn, &[Seen], |v| {
        chose_any(v, "witness_behaviour", &["unafraid", "aggressive", "circling", "part_paralysed"])
            && !any_there(v, &["wounds_outside", "bullet_or_arrow_wound"])
    })
    .signs(&["witness_behaviour"])
    .call(CallFor::Vet),
    Hazard::row(names!("H24", "h24"), Grade::Stop, Closes::HandsOn, &[Seen], |v| {
        there(v, "exposure_note") || chose_any(v, "glove_torn", &["skin_cut"])
    })
    .signs(&["exposure_note", "glove_torn"])
    .call(CallFor::Health),
    // Lymph nodes, obex or the whole head are for those whom the card names; braincase, spine and
    // antler base stay shut for them too, and they are told so.
    Hazard::row(names!("H03", "h03"), Grade::Stop, Closes::Head, &[Seen], |v| {
        there(v, "head_work_wanted") && !may_take_head_parts(v)
    })
    .signs(&["head_work_wanted"])
    .call(CallFor::Lead),
    Hazard::row(names!("H03A", "h03a"), Grade::Advise, Closes::Nothing, &[Seen, Design], |v| {
        there(v, "head_work_wanted") && may_take_head_parts(v)
    })
    .signs(&["head_work_wanted"]),
    // A wound does not clear the head of a deer that behaved oddly while it lived: H05 then gives
    // way to this one, it does not fall silent.
    Hazard::row(names!("H04", "h04"), Grade::Confirm, Closes::Mouth, &[Seen], |v| {
        any_there(v, &["very_thin", "wet_chin"])
            || chose_any(v, "witness_behaviour", &["stumbling", "unafraid", "aggressive", "circling", "part_paralysed"])
    })
    .signs(&["very_thin", "wet_chin", "witness_behaviour"])
    .call(CallFor::Lead),
    Hazard::row(names!("H07", "h07"), Grade::Confirm, Closes::Cutting, &[Seen, Design], |v| {
        there(v, "blood_at_openings") && !blood_is_explained(v) && !is_anthrax_like(v)
    })
    .signs(&["blood_at_openings"]),
    Hazard::row(names!("H08", "h08"), Grade::Confirm, Closes::Cutting, &[Memory], |v| {
        there(v, "swollen_belly") && !is_anthrax_like(v)
    })
    .signs(&["swollen_belly"]),
    Hazard::row(names!("H15", "h15"), Grade::Confirm, Closes::HandsOn, &[Seen], |v| there(v, "dead_small_mammal"))
        .signs(&["dead_small_mammal"]),
    // One hole may be a tooth's or a bullet's: fingers stay out of it either way.
    Hazard::row(names!("H19", "h19"), Grade::Confirm, Closes::HandsOn, &[Seen, Design], |v| {
        there(v, "bullet_or_arrow_wound") || chose_anywhere(v, "wound_form", &["single_hole"])
    })
    .signs(&["bullet_or_arrow_wound", "wound_form"]),
    Hazard::row(names!("H25", "h25"), Grade::Confirm, Closes::HandsOn, &[Design], |v| {
        chose_any(v, "glove_torn", &["replaced_no_cut", "skin_cut"])
    })
    .signs(&["glove_torn"]),
    Hazard::row(names!("H12", "h12"), Grade::Confirm, Closes::Asking(&["scat_collected"]), &[Seen, Memory], |v| {
        there(v, "droppings_by") || chose_anywhere(v, "sample_what", &["scat"]) || there(v, "scat_collected")
    }),
    Hazard::row(names!("H11", "h11"), Grade::Advise, Closes::Nothing, &[Seen], |v| {
        chose_any(v, "droppings_by", CANIDS)
    })
    .signs(&["droppings_by"]),
    Hazard::row(names!("H20", "h20"), Grade::Advise, Closes::Nothing, &[Seen, Design], |v| {
        newest_numbers(v, "air_temperature_c").iter().any(|c| *c >= TICKS_AWAKE_C)
            || chose_any(v, "snow_under_body", &["bare_ground"])
            || there(v, "live_ticks")
    })
    .signs(&["air_temperature_c", "snow_under_body", "live_ticks"]),
    Hazard::row(names!("H21", "h21"), Grade::Advise, Closes::Nothing, &[Seen], |v| there(v, "flat_flies"))
        .signs(&["flat_flies"]),
    Hazard::row(names!("H22", "h22"), Grade::Advise, Closes::Nothing, &[Seen], |v| there(v, "mangy_carnivore"))
        .signs(&["mangy_carnivore"]),
];

/// A wound, break or road that explains blood at nose, mouth or anus.
fn blood_is_explained(view: &View) -> bool {
    any_there(view, &["bullet_or_arrow_wound", "wounds_outside", "bones_broken", "road_edge", "road_lane"])
}

/// Unexplained blood at an opening together with one more sign. In the cold nothing stiffens or
/// clots as it should: a limp body speaks only where it is known not to be frozen.
fn is_anthrax_like(view: &View) -> bool {
    let frozen = chose_any(view, "body_frozen", &["frozen_solid", "part_frozen"]);
    let limp = there(view, "limp_not_frozen") && !frozen;
    let known_here = view.card.is_some_and(|c| c.flags.anthrax_history);
    there(view, "blood_at_openings")
        && !blood_is_explained(view)
        && (limp || known_here || any_there(view, &["swollen_belly", "other_dead_grazers"]))
}
