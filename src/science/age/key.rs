//! The hard winter key: fawn, yearling or adult from which teeth are there.
//!
//! Tooth replacement is reliable where wear is a guess, but the printed keys are tuned to the autumn.
//! In winter a yearling may still carry worn milk premolars: it is a yearling all the same (9 of 13
//! wolf-killed yearlings of January to March, Mech and Frenzel 1971). The key is closed outside
//! December to April.

use serde::{Deserialize, Serialize};
use time::Month;

use super::evidence::{AgeEvidence, DeathWindow, Dentine, IncisorState, JawSide, MolarState, P4State, Species};
use crate::order::Short as _;

/// What the key can say.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum KeyClass {
    /// No completed birthday.
    Fawn,
    /// One.
    Yearling,
    /// Two or more.
    Adult,
}

/// What has to be said beside the key's class.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum KeyFlag {
    /// Milk teeth are there that should have changed: born late or badly nourished.
    DelayedTeeth,
    /// Four cheek teeth after 1 February: born late or retarded.
    LateFawn,
    /// Seven teeth counted: one is a P1.
    ExtraP1,
    /// A short or lacking third column of M3 was set aside: P4 is stained and M1 worn.
    ShortM3IsNoProof,
}

/// The key's answer.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct KeyReading {
    /// The class.
    pub class: KeyClass,
    /// Indiana's months for a fawn by its teeth, from and to.
    pub months: Option<(u8, u8)>,
    /// What has to be said beside it.
    pub flags: Vec<KeyFlag>,
}

/// Why the key does not answer.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize, thiserror::Error)]
#[serde(rename_all = "snake_case")]
pub enum KeyRefusal {
    /// The key is for white-tailed deer.
    #[error("the key is for white-tailed deer only")]
    NotWhiteTailed,
    /// Species not told.
    #[error("the species is not known")]
    SpeciesUnknown,
    /// No dates.
    #[error("no days are given between which the deer died")]
    NoDeathWindow,
    /// Some day of the window is not in December to April.
    #[error("the key is closed outside December to April")]
    OutsideMonths,
    /// Cheek teeth not counted, or the count is not one of a whole row.
    #[error("the cheek teeth of one side are not counted")]
    NeedsCount,
    /// Six teeth, third not looked at.
    #[error("the third cheek tooth was not looked at")]
    NeedsThirdTooth,
    /// Premolars are changing and M3 was not looked at.
    #[error("the last molar was not looked at")]
    NeedsThirdMolar,
    /// M3 short, P4 stained, wear of M1 not looked at.
    #[error("the wear of the first molar was not looked at")]
    NeedsFirstMolarWear,
    /// Five teeth, but clear wear or a permanent P4: look at the other side.
    #[error("five teeth with an adult's wear: P2 may be missing, look at the other side")]
    P2MayBeMissing,
}

/// Runs the key.
pub fn winter_key(evidence: &AgeEvidence) -> Result<KeyReading, KeyRefusal> {
    match evidence.species {
        Species::WhiteTailed => {}
        Species::Other => return Err(KeyRefusal::NotWhiteTailed),
        Species::Unknown => return Err(KeyRefusal::SpeciesUnknown),
    }
    let window = evidence.death.ok_or(KeyRefusal::NoDeathWindow)?;
    if !within_key_months(window) {
        return Err(KeyRefusal::OutsideMonths);
    }
    let row = evidence.row_count().ok_or(KeyRefusal::NeedsCount)?;
    let mut flags = Vec::new();
    if evidence.sides().iter().any(|s| s.cheek_teeth == Some(7)) {
        flags.push(KeyFlag::ExtraP1);
    }
    let changing = matches!(evidence.p4(), Some(P4State::MilkLooseOrGone | P4State::PermanentBelowRow));
    if row < 6 && changing {
        return changing_row(evidence, window, row, flags);
    }
    if row <= 5 { fawn(evidence, window, row, flags) } else { whole_row(evidence, flags) }
}

/// A short row while the premolars change: the gap may be a shed milk tooth.
fn changing_row(
    evidence: &AgeEvidence,
    window: DeathWindow,
    row: u8,
    flags: Vec<KeyFlag>,
) -> Result<KeyReading, KeyRefusal> {
    match evidence.molar(2) {
        None => Err(KeyRefusal::NeedsThirdMolar),
        Some(state) if state >= MolarState::CuspsThrough => Ok(reading(KeyClass::Yearling, flags)),
        Some(_) => fawn(evidence, window, row, flags),
    }
}

fn fawn(
    evidence: &AgeEvidence,
    window: DeathWindow,
    row: u8,
    mut flags: Vec<KeyFlag>,
) -> Result<KeyReading, KeyRefusal> {
    let adult_wear = evidence.clearly_worn(0) || evidence.clearly_worn(1);
    if row == 5 && (adult_wear || evidence.p4() >= Some(P4State::PermanentBelowRow)) {
        return Err(KeyRefusal::P2MayBeMissing);
    }
    let month = window.from.month();
    if row == 4 && matches!(month, Month::February | Month::March | Month::April) {
        flags.push(KeyFlag::LateFawn);
    }
    if evidence.i1() == Some(IncisorState::Milk) && month != Month::December {
        flags.push(KeyFlag::DelayedTeeth);
    }
    let months = match row {
        4 => Some((5, 6)),
        5 => Some((7, 12)),
        _ => None,
    };
    Ok(KeyReading { months, ..reading(KeyClass::Fawn, flags) })
}

fn whole_row(evidence: &AgeEvidence, mut flags: Vec<KeyFlag>) -> Result<KeyReading, KeyRefusal> {
    let stained = match evidence.p4().ok_or(KeyRefusal::NeedsThirdTooth)? {
        P4State::MilkThreeCusps => {
            flags.push(KeyFlag::DelayedTeeth);
            return Ok(reading(KeyClass::Yearling, flags));
        }
        P4State::MilkLooseOrGone | P4State::PermanentBelowRow => {
            return Ok(reading(KeyClass::Yearling, flags));
        }
        P4State::PermanentWhite => false,
        P4State::PermanentStained => true,
    };
    let worn = evidence.clearly_worn(0);
    if !stained && !worn && !evidence.clearly_worn(1) {
        return Ok(reading(KeyClass::Yearling, flags));
    }
    let short = evidence.third_column_anomaly() || evidence.molar(2).is_some_and(|s| s <= MolarState::CuspsThrough);
    if short && stained && !worn && !evidence.wear_seen(0) {
        return Err(KeyRefusal::NeedsFirstMolarWear);
    }
    if short && !(stained && worn) {
        return Ok(reading(KeyClass::Yearling, flags));
    }
    if short {
        flags.push(KeyFlag::ShortM3IsNoProof);
    }
    Ok(reading(KeyClass::Adult, flags))
}

fn reading(class: KeyClass, mut flags: Vec<KeyFlag>) -> KeyReading {
    flags.order();
    KeyReading { class, months: None, flags }
}

/// Whether every day of the window lies in December to April of one winter.
fn within_key_months(window: DeathWindow) -> bool {
    let open =
        |month| matches!(month, Month::December | Month::January | Month::February | Month::March | Month::April);
    let days = window.to.to_julian_day() - window.from.to_julian_day();
    open(window.from.month()) && open(window.to.month()) && (0..=151).contains(&days)
}

/// What the printed wear keys say from dentine alone: completed birthdays, 8 for eight and more.
///
/// M1 wider than its enamel is 3 or more, M2 wider 4, M3 wider 5; then smooth M1 is 6, smooth M2 7,
/// smooth M3 8. `None` if one of the three was not looked at or they do not follow that order.
pub fn pivot_birthdays(side: &JawSide) -> Option<u8> {
    let [m1, m2, m3] = side.dentine;
    let teeth = [m1?, m2?, m3?];
    let wider = teeth.map(|d| d >= Dentine::Wider);
    let smooth = teeth.map(|d| d == Dentine::Smooth);
    let falling = |marks: [bool; 3]| marks.is_sorted_by(|front, back| front >= back);
    if !falling(wider) || !falling(smooth) {
        return None;
    }
    let count = |marks: [bool; 3]| marks.into_iter().map(u8::from).sum::<u8>();
    let (wide, gone) = (count(wider), count(smooth));
    if wide < 3 && gone > 0 {
        // A smooth M1 beside a narrow M3 is between the key's lines: the smooth tooth decides.
        return (gone == 1).then_some(6);
    }
    Some(if gone > 0 { 5 + gone } else { 2 + wide })
}
