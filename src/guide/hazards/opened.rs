//! Cutting, and what may come to light once the body is open.

use super::names;
use super::read::{chose_any, there};
use crate::card::CallFor;
use crate::guide::{Closes, Grade, Hazard, View};
use crate::record::Site;
use crate::science::source::Mark::{Design, Memory, Seen};

pub(super) const HAZARDS: &[Hazard] = &[
    Hazard::row(names!("H09", "h09"), Grade::Stop, Closes::HandsOn, &[Seen], |v| there(v, "lumps_inside"))
        .signs(&["lumps_inside"])
        .call(CallFor::Vet),
    // Most carcasses of a northern winter are frozen: no alarm, only the reason why opening is left out.
    Hazard::row(names!("H23", "h23"), Grade::Stop, Closes::Opening, &[Memory, Design], is_too_hard)
        .signs(&["body_frozen", "belly_dents_under_fist"])
        .at_step(),
    Hazard::row(names!("G26", "g26"), Grade::Confirm, Closes::Opening, &[Design], |v| {
        frozen_is_unknown(v) && !v.question("belly_dents_under_fist", Site::NONE).answer().is_informative()
    })
    .signs(&["body_frozen"]),
    Hazard::row(names!("H02", "h02"), Grade::Confirm, Closes::Cutting, &[Seen], |v| !there(v, "eyes_and_mask_on")),
    Hazard::row(names!("H10", "h10"), Grade::Confirm, Closes::Cutting, &[Seen], |v| there(v, "clear_bladder_inside"))
        .signs(&["clear_bladder_inside"]),
    Hazard::row(names!("H13", "h13"), Grade::Confirm, Closes::HandsOn, &[Seen], |v| there(v, "fetus"))
        .signs(&["fetus"]),
    Hazard::row(names!("H14", "h14"), Grade::Advise, Closes::Nothing, &[Seen], |v| there(v, "urine_contact"))
        .signs(&["urine_contact"]),
];

/// Said to be frozen solid, or hard under a fist where that could not be told.
fn is_too_hard(view: &View) -> bool {
    chose_any(view, "body_frozen", &["frozen_solid"])
        || chose_any(view, "belly_dents_under_fist", &["hard"])
        || (frozen_is_unknown(view) && chose_any(view, "confirm_g26", &["cannot"]))
}

/// Asked, and no result: nobody looked, or nobody could tell.
fn frozen_is_unknown(view: &View) -> bool {
    !view.answer("body_frozen").is_informative()
}
