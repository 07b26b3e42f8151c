//! Evidence beside the look of the teeth: calipers, rings, growing ends, antlers, size and signs of sex.

use serde::{Deserialize, Serialize};

use super::evidence::{AgeEvidence, Sex};
use super::local::LocalAge;
use super::{Basis, summary};
use crate::science::calipers::CaliperRefusal;
use crate::science::calipers::dentine_width::{self, DentineAge, Herd, read_dentine_width};
use crate::science::calipers::tooth_row::{ToothRow, read_tooth_row};
use crate::science::cementum::LabAge;
use crate::science::sex::SexSign;
use crate::science::skeleton::{BeamCall, Plate, fawn_odds_of_size, radius_likelihood, read_beam};

/// What is known beside the look of the teeth. `None` is no evidence.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct MoreEvidence {
    /// Front of the first premolar to the front edge of the third molar, mm.
    pub tooth_row_mm: Option<f64>,
    /// Dentine of the front cheek-side cusp of the right first molar, mm.
    pub dentine_width_mm: Option<f64>,
    /// A crown height or molar ratio by the office's own constants.
    pub local_age: Option<LocalAge>,
    /// A laboratory's count of rings.
    pub cementum: Option<LabAge>,
    /// Lower end of a cannon bone.
    pub cannon_plate: Option<Plate>,
    /// Lower end of a radius.
    pub radius_plate: Option<Plate>,
    /// Main beam of an antler, mm.
    pub antler_beam_mm: Option<f64>,
    /// A measure of size in standard deviations from the local adult mean.
    pub size_z: Option<f64>,
    /// The firmest sign of sex that is not certain; a certain one is [`AgeEvidence::sex`].
    pub sex_line: Option<SexSign>,
}

/// What each caliper measure came to, or why it has no say.
#[derive(Clone, Copy, Debug, Default, PartialEq, Serialize, Deserialize)]
pub struct Measures {
    /// Tooth row: months within the class of yearlings.
    pub tooth_row: Option<Result<ToothRow, CaliperRefusal>>,
    /// Width of dentine: years among adults.
    pub dentine_width: Option<Result<DentineAge, CaliperRefusal>>,
}

impl Measures {
    pub(super) fn of(evidence: &AgeEvidence) -> Self {
        let more = &evidence.more;
        Self {
            tooth_row: more.tooth_row_mm.map(|mm| read_tooth_row(mm, evidence.sex)),
            dentine_width: more.dentine_width_mm.map(|mm| read_dentine_width(mm, HERD)),
        }
    }

    pub(super) fn row(&self) -> Option<ToothRow> {
        self.tooth_row?.ok()
    }

    pub(super) fn dentine(&self) -> Option<DentineAge> {
        self.dentine_width?.ok()
    }
}

/// The method is open north of 38 degrees only: never the southern bucks behind the formula.
const HERD: Herd = Herd::Other;
/// Youngest class that the formula for dentine knows.
const ADULT_FROM: usize = 2;

impl MoreEvidence {
    /// The beam, where it can speak: not on a deer known to be a doe.
    pub(super) fn beam(&self, sex: Option<Sex>) -> Option<BeamCall> {
        if sex == Some(Sex::Female) { None } else { self.antler_beam_mm.and_then(read_beam) }
    }

    /// Likelihood of the growing ends at so many months, `cannon` being the stages of the cannon bone then.
    pub(super) fn plates(&self, months: f64, cannon: [f64; 3]) -> f64 {
        self.cannon_plate.and_then(|plate| cannon.get(plate as usize).copied()).unwrap_or(1.0)
            * self.radius_plate.map_or(1.0, |plate| radius_likelihood(plate, months))
    }

    /// Likelihood of the signs of sex and of the beam for a class, female and male.
    pub(super) fn by_sex(&self, class: usize, sex: Option<Sex>) -> [f64; 2] {
        let beam = self.beam(sex);
        // A beam is an antler, whether or not somebody ticked it.
        let line = self.sex_line.or(beam.map(|_| SexSign::Antlers));
        let [female, male] = line.map_or([1.0; 2], |sign| sign.likelihood(class == 0));
        let of_buck = beam.and_then(|call| call.likelihood().get(class).copied()).unwrap_or(1.0);
        // What an antlered doe's beam says is not known: nothing.
        let of_doe = if beam.is_some() { 0.5 } else { 1.0 };
        [female * of_doe, male * of_buck]
    }

    /// Likelihood of the size: a fawn against older deer, who keep their shares among themselves.
    pub(super) fn size(&self) -> [f64; 10] {
        let mut classes = [1.0; 10];
        if let (Some(odds), Some(fawn)) = (self.size_z.and_then(fawn_odds_of_size), classes.first_mut()) {
            *fawn = odds;
        }
        classes
    }
}

/// Likelihood of a width of dentine. Fawns and yearlings are taken like deer of two, the youngest that the
/// formula knows: so a width parts adults, and a wider band never makes a deer younger.
pub(super) fn dentine_likelihood(seen: DentineAge, ages_years: &[f64; 10]) -> [f64; 10] {
    let youngest = ages_years.get(ADULT_FROM).copied().unwrap_or(0.0);
    ages_years.map(|years| dentine_width::likelihood(seen, years.max(youngest), HERD))
}

/// How far everything else lies from a laboratory's count.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct LabComparison {
    /// The count.
    pub lab: LabAge,
    /// Mean of completed birthdays without the count, nine and more as nine.
    pub others_mean: f64,
    /// That less the count (nine at most), years: below zero, the teeth look younger.
    pub others_less_lab: f64,
    /// Probability of the count's class without the count.
    pub others_give_it: f64,
}

/// Years apart from which a difference is said. Ours.
const APART_YEARS: f64 = 2.0;
/// The count's class is said to be unlikely below this. Ours.
const UNLIKELY: f64 = 0.05;

impl LabComparison {
    pub(super) fn of(lab: LabAge, without: &[f64; 10]) -> Self {
        let class = lab.years.min(9);
        let others_mean = summary::mean_birthdays(without);
        Self {
            lab,
            others_mean,
            others_less_lab: others_mean - f64::from(class),
            others_give_it: without.get(usize::from(class)).copied().unwrap_or(0.0),
        }
    }

    /// Whether the two are so far apart that both should be looked at again.
    pub fn is_far(&self) -> bool {
        self.others_less_lab.abs() >= APART_YEARS || self.others_give_it < UNLIKELY
    }
}

impl Basis {
    /// Whether anything speaks of the class. Tooth row and width of dentine only divide what
    /// something else has told.
    pub const fn speaks(&self) -> bool {
        self.eruption
            || self.wear
            || self.class_call
            || self.quick_class
            || self.cementum
            || self.growth_plate
            || self.antler_beam
            || self.size
    }

    /// Whether the look from afar is all there is.
    pub const fn only_quick(&self) -> bool {
        self.quick_class && !Self { quick_class: false, ..*self }.speaks()
    }
}
