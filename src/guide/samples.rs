//! Samples that are worth taking here, given what was found: never given a cause. What to take, how it
//! is kept and who may, from the reference (`cause-and-time-of-death.md` 6.4).

use crate::record::{Site, sample_number};
use crate::science::source::Mark;

use super::View;
use super::hazards::read::{any_there, chose_any, chose_anywhere, there};
use super::permission::{may_open, may_take_femur, may_take_head_parts, may_take_jaw};
use super::steps::{any_bite_with_clot, head_is_there, viscera_are_there};

/// Who may take it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Taker {
    /// Anybody whom the card lets touch.
    Toucher,
    /// Who may open the body.
    Opener,
    /// Whom the card names for head parts.
    HeadParts,
    /// Whom the card names for the jaw.
    Jaw,
    /// Whom the card names for long bones.
    Femur,
    /// An officer, nobody else.
    Officer,
}

/// A row of the table of samples; `samples.<id>.take`, `.keep` and `.for` are its texts.
#[derive(Clone, Copy)]
pub struct SampleRow {
    /// Id.
    pub id: &'static str,
    /// What it is called on the label: an option of `sample_what`.
    pub what: &'static str,
    /// Who may take it.
    pub taker: Taker,
    /// How well amount and keeping are supported.
    pub mark: Mark,
    worth: fn(&View) -> bool,
    fresh: fn(&View) -> bool,
}

impl std::fmt::Debug for SampleRow {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        write!(f, "SampleRow({})", self.id)
    }
}

/// What the table says of one sample here.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum SampleVerdict {
    /// Take it.
    Take,
    /// It would be worth it, but what is left is no longer fresh enough, or froze.
    TooLate,
    /// It would be worth it, and the card does not let this person take it.
    NotAllowed,
    /// Left for an officer.
    LeaveToOfficer,
}

impl SampleVerdict {
    /// The code used in message ids (`samples.verdict.<code>`).
    pub const fn code(self) -> &'static str {
        match self {
            Self::Take => "take",
            Self::TooLate => "too_late",
            Self::NotAllowed => "not_allowed",
            Self::LeaveToOfficer => "leave_to_officer",
        }
    }
}

const fn row(
    id: &'static str,
    what: &'static str,
    taker: Taker,
    mark: Mark,
    worth: fn(&View) -> bool,
    fresh: fn(&View) -> bool,
) -> SampleRow {
    SampleRow { id, what, taker, mark, worth, fresh }
}

/// What spoils first comes first.
pub const SAMPLES: &[SampleRow] = &[
    // Scavengers leave spit too: only a hole with a clot speaks of the bite in life.
    row("bite_swab", "swab", Taker::Toucher, Mark::Seen, any_bite_with_clot, not_dried),
    row("control_swab", "swab", Taker::Toucher, Mark::Design, any_bite_with_clot, not_dried),
    row("muscle", "muscle", Taker::Toucher, Mark::Memory, any_bite_with_clot, not_dried),
    row("scat", "scat", Taker::Toucher, Mark::Memory, |v| there(v, "droppings_by"), always),
    row("lung_or_lesion", "lung_or_lesion", Taker::Opener, Mark::Seen, is_lung_sick, is_fresh_unfrozen),
    row("liver_kidney", "liver_or_kidney", Taker::Opener, Mark::Memory, may_be_poisoned_by_food, has_fresh_viscera),
    row("dung", "other", Taker::Toucher, Mark::Memory, is_thin_or_scours, is_unfrozen),
    row("rumen", "rumen", Taker::Opener, Mark::Memory, |v| there(v, "rumen"), always),
    row("head_parts", "head_part", Taker::HeadParts, Mark::Seen, may_waste, |v| not_dried(v) && head_is_there(v)),
    row("jaw", "jaw", Taker::Jaw, Mark::Memory, |v| !there(v, "jaw_taken") && head_is_there(v), always),
    row("femur", "femur", Taker::Femur, Mark::Memory, |v| !there(v, "femur_taken"), is_marrow_sound),
    row("projectile", "other", Taker::Officer, Mark::Design, has_projectile, always),
];

fn always(_: &View) -> bool {
    true
}

fn not_dried(v: &View) -> bool {
    !chose_any(v, "decay", &["dried", "bones_only"])
}

/// Freezing breaks cells: tissue for the microscope must not have frozen.
fn is_unfrozen(v: &View) -> bool {
    chose_any(v, "body_frozen", &["not_frozen"])
}

fn is_fresh_unfrozen(v: &View) -> bool {
    is_unfrozen(v) && chose_any(v, "decay", &["fresh"])
}

fn has_fresh_viscera(v: &View) -> bool {
    not_dried(v) && viscera_are_there(v)
}

fn is_marrow_sound(v: &View) -> bool {
    !chose_anywhere(v, "bone_opened", &["open_over_a_day"])
        && !chose_anywhere(v, "marrow_spoiled", &["dried", "mouldy"])
}

fn is_lung_sick(v: &View) -> bool {
    chose_any(v, "lungs", &["solid_or_pus", "froth_blood_water"])
}

/// Runny dung, feed that deer are not used to, or several dead together.
fn may_be_poisoned_by_food(v: &View) -> bool {
    any_there(v, &["rump_stained", "other_dead_grazers"])
        || chose_any(v, "rumen_mostly", &["grain_or_fruit", "garden_shrub"])
}

fn is_thin_or_scours(v: &View) -> bool {
    there(v, "rump_stained") || chose_any(v, "rump_fat", &["none"]) || chose_any(v, "inside_fat", &["none_or_gel"])
}

/// Wasting cannot be called by eye: where it is about, or the deer was thin or odd, the office wants
/// to know.
fn may_waste(v: &View) -> bool {
    v.card.is_some_and(|card| card.flags.cwd_zone)
        || any_there(v, &["very_thin", "wet_chin"])
        || there(v, "witness_behaviour")
        || there(v, "pedicle_pus_or_pits")
}

fn has_projectile(v: &View) -> bool {
    any_there(v, &["projectile_or_wound_track", "bullet_or_arrow_wound"])
}

fn is_allowed(v: &View, taker: Taker) -> bool {
    match taker {
        Taker::Toucher => true,
        Taker::Opener => may_open(v),
        Taker::HeadParts => may_take_head_parts(v),
        Taker::Jaw => may_take_jaw(v),
        Taker::Femur => may_take_femur(v),
        Taker::Officer => false,
    }
}

/// The samples that are worth a thought here, with what the table says of each.
pub fn samples_worth_taking(view: &View) -> Vec<(&'static SampleRow, SampleVerdict)> {
    let touches = super::permission::may_touch(view).is_ok();
    let verdict = |row: &SampleRow| {
        if row.taker == Taker::Officer {
            SampleVerdict::LeaveToOfficer
        } else if !(row.fresh)(view) {
            SampleVerdict::TooLate
        } else if touches && is_allowed(view, row.taker) {
            SampleVerdict::Take
        } else {
            SampleVerdict::NotAllowed
        }
    };
    SAMPLES.iter().filter(|row| (row.worth)(view)).map(|row| (row, verdict(row))).collect()
}

/// The number that the form proposes for a sample of the examination in hand.
pub fn proposed_number(examination: uuid::Uuid, site: Site) -> String {
    sample_number::sample_number(examination, site.item.unwrap_or_default())
}

/// A number of our own form that was typed wrong; others are taken as they are.
pub fn is_number_mistyped(typed: &str) -> bool {
    sample_number::is_typed_right(typed) == Some(false)
}
