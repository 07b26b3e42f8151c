//! The word that is printed, and what caps it.
//!
//! Feeding is not killing: tracks, droppings and feeding alone never say more than `possibly`. A shooting
//! gets no word at all: what it gets is a look, and a stop once a thing of people's was found.

use super::animals::Animals;
use super::case::{Answers, Case, row};
use super::causes::{CAUSES, Cause, PerCause, ranked};
use super::interval::Ends;
use super::table::Table;

/// No animal is printed above this without a record of its own: on 32 caribou calves, DNA named the
/// predator on 94 %, people in the field on 62.5 % (Mumma et al. 2014). The figure is expert judgement.
pub const SPECIES_CAP: f64 = 0.90;
/// What is cut off is printed from here on.
const LEAST_PRINTED: f64 = 0.0005;
/// Below this the top cause gets no word. Expert judgement, as the two below.
const LEAST_TOP: f64 = 0.60;
const PROBABLE_TOP: f64 = 0.80;
const PROBABLE_LOW: f64 = 0.50;
/// From here on a look for signs of people comes first, and a stop is read. Expert judgement.
pub const LOOK_FOR_PEOPLE: f64 = 0.10;
/// From here on a look-only search for signs of people begins again.
pub const SEARCH_FOR_PEOPLE: f64 = 0.30;

/// The word.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[allow(missing_docs)]
pub enum Label {
    /// Killed by, definite.
    Killed(Cause),
    ProbablyKilled(Cause),
    PossiblyKilled(Cause),
    ProbablyDied(Cause),
    PossiblyDied(Cause),
    /// Scavenged; something other than a predator was lethal.
    ScavengedOnly,
    /// A thing of people's was found, or a blade was used: no word, a stop.
    People,
    /// The figures alone lean to people: no word, and a look for a thing of theirs; that alone stops.
    PeopleLikely,
    NotDetermined,
}

impl Label {
    /// Stable name.
    pub const fn code(self) -> &'static str {
        match self {
            Self::Killed(_) => "killed",
            Self::ProbablyKilled(_) => "probably_killed",
            Self::PossiblyKilled(_) => "possibly_killed",
            Self::ProbablyDied(_) => "probably_died",
            Self::PossiblyDied(_) => "possibly_died",
            Self::ScavengedOnly => "scavenged_only",
            Self::People => "people",
            Self::PeopleLikely => "people_likely",
            Self::NotDetermined => "not_determined",
        }
    }

    /// The cause that it names.
    pub const fn cause(self) -> Option<Cause> {
        match self {
            Self::Killed(c)
            | Self::ProbablyKilled(c)
            | Self::PossiblyKilled(c)
            | Self::ProbablyDied(c)
            | Self::PossiblyDied(c) => Some(c),
            _ => None,
        }
    }

    /// Whether no further look is advised for it.
    pub const fn is_final(self) -> bool {
        matches!(self, Self::Killed(_) | Self::People)
    }
}

/// What the word rests on beside the figures.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Default)]
pub struct Facts {
    /// The snow round the body could be read.
    pub snow_readable: bool,
    /// Whose attack was witnessed, or is on a photo of the kill.
    pub witnessed: Animals,
    /// Animals that DNA, a photo, a collar or a witness names. Where that is not the first cause alone, there is
    /// no word: signs and record contradict each other. Ours.
    pub named: Animals,
    /// Somebody cut with a blade: what a predator did to it can no longer be told, and it is a stop.
    pub cut_by_people: bool,
}

/// Something other than a predator that kills: rupture with bleeding, a projectile, solid lungs, pus in
/// the head.
fn lethal_otherwise(answers: &Answers) -> bool {
    [row::RUPTURE, row::PROJECTILE, row::LUNGS, row::HEAD_ABSCESS].iter().any(|number| answers.get(*number) == Some(0))
}

/// The zone bitten is one that this animal often bites: at least half as often as its first choice.
fn zone_fits(table: &Table, case: &Case, cause: Cause) -> bool {
    let p = |state: u8| table.row(row::WOUND_ZONE, false).and_then(|r| Some(cause.of(r.ln_mid(state)?)));
    let Some(zone) = case.answers.get(row::WOUND_ZONE).filter(|zone| *zone < 4) else { return false };
    let most = (0..4).filter_map(p).fold(f64::NEG_INFINITY, f64::max);
    p(zone).is_some_and(|p| p >= most - core::f64::consts::LN_2)
}

/// The word for a case. `ends` holds the ends of the first and the second of [`ranked`].
pub fn label(table: &Table, case: &Case, posterior: &PerCause, top: Ends, second: Ends, facts: Facts) -> Label {
    let [first, ..] = ranked(posterior);
    let found = case.answers.get(row::PROJECTILE) == Some(0);
    if facts.cut_by_people || (first == Cause::Shot && found) {
        return Label::People;
    }
    if first == Cause::Shot {
        return Label::PeopleLikely;
    }
    if facts.named.contradict(first) {
        return Label::NotDetermined;
    }
    let said = |number: u8, state: u8| case.counts(number) && case.answers.get(number) == Some(state);
    let clot = said(row::BITE_HAEMORRHAGE, 0);
    let (chase, blood) = (said(row::CHASE, 0), said(row::BLOOD, 0));
    let figure = first.of(posterior);
    let skinned = case.answers.get(row::BITE_HAEMORRHAGE).is_some_and(|state| state > 0);
    let clear = figure >= LEAST_TOP && top.low >= second.high;
    let scavenged = lethal_otherwise(&case.answers) && skinned && was_fed_on(&case.answers);
    if !clear {
        return if scavenged && first.is_predator() { Label::ScavengedOnly } else { Label::NotDetermined };
    }
    if !first.is_predator() {
        if clot {
            return Label::NotDetermined;
        }
        let probable = figure >= PROBABLE_TOP && top.low >= PROBABLE_LOW;
        return if probable { Label::ProbablyDied(first) } else { Label::PossiblyDied(first) };
    }
    let measured = case.answers.get(row::CANINES).is_some();
    let backed = chase || blood || zone_fits(table, case, first);
    if clot && measured && backed && facts.snow_readable && !lethal_otherwise(&case.answers) {
        Label::Killed(first)
    } else if clot || (chase && blood) || facts.witnessed.has(first) {
        Label::ProbablyKilled(first)
    } else if scavenged {
        Label::ScavengedOnly
    } else {
        Label::PossiblyKilled(first)
    }
}

/// Signs that something ate: where feeding began, bones, rumen out.
pub fn was_fed_on(answers: &Answers) -> bool {
    answers.get(row::FEEDING_START).is_some_and(|state| state < 4)
        || answers.get(9).is_some_and(|state| state < 2)
        || answers.get(10).is_some_and(|state| state != 2)
}

/// Figures as they are printed.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Printed {
    /// By cause.
    pub figures: PerCause,
    /// Sum of what was cut off predators' figures; `None` where it rounds to nothing.
    pub species_uncertain: Option<f64>,
}

/// A figure or an end as printed. `on_record`: animals that DNA, a photo or a collar names.
pub const fn capped(cause: Cause, figure: f64, on_record: Animals) -> f64 {
    if cause.is_predator() && !on_record.has(cause) && figure > SPECIES_CAP { SPECIES_CAP } else { figure }
}

/// All figures as printed; the cap is lifted for the animals on record alone.
pub fn printed(posterior: &PerCause, on_record: Animals) -> Printed {
    let (mut figures, mut cut) = ([0.0; CAUSES], 0.0);
    for ((out, cause), figure) in figures.iter_mut().zip(Cause::ALL).zip(posterior) {
        *out = capped(cause, *figure, on_record);
        cut += figure - *out;
    }
    Printed { figures, species_uncertain: (cut >= LEAST_PRINTED).then_some(cut) }
}
