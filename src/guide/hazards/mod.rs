//! The hazard table, and what each row guards and closes.

mod carcass;
mod cover;
mod day;
mod law;
mod opened;
mod people;
mod place;
pub(crate) mod read;

use crate::record::{Answer, Site, Value, Why};

use super::{Closes, Fired, Grade, Hazard, Phase, Speaks, Step, View};
use cover::{asks_any, covers, takes_bone};

/// All hazards, in the order in which they speak: the place before the law before the carcass, as
/// what can kill a crew comes first.
pub const HAZARDS: [&[Hazard]; 6] =
    [place::HAZARDS, day::HAZARDS, law::HAZARDS, carcass::HAZARDS, opened::HAZARDS, people::HAZARDS];

/// Name a row: `names!("H06", "h06")`.
macro_rules! names {
    ($id:literal, $code:literal) => {
        [$id, $code, concat!("confirm_", $code)]
    };
}
use names;

/// Every row.
pub fn all() -> impl Iterator<Item = &'static Hazard> {
    HAZARDS.iter().flat_map(|part| part.iter())
}

/// A row by its id.
pub fn find(id: &str) -> Option<&'static Hazard> {
    all().find(|h| h.id == id)
}

/// Whether a confirm must be said before this step.
pub(crate) fn guards(hazard: &Hazard, step: &Step) -> bool {
    if hazard.grade != Grade::Confirm {
        return false;
    }
    match hazard.id {
        // Feathers lie where one walks, long before anything is taken.
        "L06" => matches!(step.phase, Phase::HandsOff | Phase::Outside | Phase::Opened | Phase::Samples),
        "G19" | "G27" => step.phase == Phase::Leave,
        "G20" => step.phase == Phase::HandOver,
        _ => covers(hazard.closes, step) || (hazard.closes == Closes::Cutting && takes_bone(step)),
    }
}

/// Whether a hazard that fires closes this step now.
///
/// Taking the lower jaw or a femur is closed by any stop but those that speak of opening the body
/// alone (a frozen body may still give its jaw), and by suspected brain disease or rabies even when
/// the statement was made or the stop reopened: both bring saliva or the head into play.
pub fn closes_step(fired: &Fired, step: &Step) -> bool {
    let hazard = fired.hazard;
    if takes_bone(step) && matches!(hazard.id, "H04" | "H05") {
        return true;
    }
    // Where the card does not let the person open, somebody else here may be named: that is still asked.
    let still_asked = hazard.id == "G14" && asks_any(step, &["opening_trained"]);
    if !fired.closes_now() || still_asked {
        return false;
    }
    let any_stop = hazard.grade >= Grade::Stop && !matches!(hazard.closes, Closes::Opening | Closes::Asking(_));
    covers(hazard.closes, step) || (takes_bone(step) && (any_stop || hazard.closes == Closes::Cutting))
}

/// Whether a stop that was not read yet stands before everything else.
pub fn is_loud(hazard: &Hazard) -> bool {
    hazard.grade >= Grade::Stop && hazard.speaks == Speaks::AtOnce
}

/// The confirms that have to be said before this step opens, in the order in which they speak.
pub fn unsaid_before<'a>(fired: &'a [Fired], step: &Step) -> Vec<&'a Fired> {
    fired.iter().filter(|f| f.said.is_none() && guards(f.hazard, step)).collect()
}

/// A hazard's statement, where it was made knowing of every sign that fires the hazard. Where two
/// people differ, `cannot` holds.
pub(crate) fn said(view: &View, hazard: &Hazard) -> Option<bool> {
    let fresh: Vec<bool> = view
        .question(hazard.confirm, Site::NONE)
        .standing
        .iter()
        .filter(|s| !read::seen_since(view, hazard.signs, s.id))
        // Whatever was said but `done` means that the fact is not to be had.
        .map(|s| matches!(&s.answer, Answer::Seen { value: Value::Choice(code) } if code == "done"))
        .collect();
    (!fresh.is_empty()).then(|| fresh.iter().all(|done| *done))
}

/// Whether an evidence hazard fires now or fired on an answer that was since taken back, on this or
/// an earlier occasion at this carcass.
pub(crate) fn was_ever_fired(view: &View, hazard: &Hazard) -> bool {
    (hazard.fires)(view)
        || (hazard.id == "L04" && law::ever_cut(view))
        || hazard.signs.iter().any(|sign| law::sign_counts(view, sign) && read::ever_there(view, sign))
}

/// The reason written for a question that stayed closed.
pub(crate) fn why_closed(by: &[&'static str]) -> Why {
    let only = |ids: &[&str]| !by.is_empty() && by.iter().all(|id| ids.contains(id));
    if only(&["H23", "G26"]) {
        Why::Frozen
    } else if only(&["G08"]) {
        Why::Dark
    } else if only(&["G03", "G04", "G05", "H26", "G25"]) {
        Why::Cold
    } else if only(&["G06", "G07"]) {
        Why::Time
    } else if only(&["G11", "G12", "G13", "G14", "G15", "G16", "G17"]) {
        Why::NotTrained
    } else {
        Why::StopInForce
    }
}
