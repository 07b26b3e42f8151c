//! Age from the lower jaw, as a distribution over completed birthdays.
//!
//! Fawn, yearling and adult are told by which teeth are there and are reliable; years after that are a
//! guess from wear. So there are two answers: the hard [`key`] for December to April, which refuses
//! rather than guesses, and the [`estimate`], a distribution over 0 to 9 and more completed birthdays
//! and the sexes, from a prior for deer dead in winter and every look that was taken.
//!
//! | file | holds |
//! |---|---|
//! | [`evidence`] | what was seen, as enums; `None` is no evidence |
//! | [`item`] | the single looks |
//! | [`key`] | the winter key, the wear pivots |
//! | [`birth`] | months at death over birth dates and the death window |
//! | `eruption` | likelihood of which teeth are there, with late deer |
//! | `wear` | likelihood of how worn they are |
//! | [`reader`] | likelihood of a class called by a person |
//! | [`local`] | crown heights and molar ratio by the office's own constants |
//! | [`more`] | calipers, rings, growing ends, antlers, size |
//! | [`practice`] | jaws made up to practise on |
//! | [`prior`] | who dies in winter |
//! | [`contradiction`] | teeth that cannot stand together |
//! | [`sharpen`] | the look worth most |

mod basis;
pub mod birth;
mod caution;
pub mod contradiction;
mod eruption;
pub mod evidence;
mod gate;
pub mod item;
pub mod key;
pub mod local;
pub mod more;
mod posterior;
pub mod practice;
pub mod prior;
pub mod reader;
pub mod sharpen;
mod sides;
mod sources;
pub mod summary;
mod wear;

#[cfg(test)]
mod more_tests;
#[cfg(test)]
mod tests;

use serde::{Deserialize, Serialize};

use crate::science::source::Source;
pub use basis::Basis;
pub use birth::Births;
pub use caution::Caution;
pub use contradiction::{Contradiction, ContradictionKind};
pub use evidence::{
    AgeEvidence, ClassCall, Crest, DeathWindow, Dentine, IncisorState, Infundibulum, JawFlags, JawSide, M3Posterior,
    MolarState, P4State, PremolarWear, QuickClass, Sex, Species,
};
pub use gate::AgeRefusal;
pub use item::{Item, Tooth};
pub use key::{KeyClass, KeyFlag, KeyReading, KeyRefusal, pivot_birthdays, winter_key};
pub use local::{LocalAge, LocalSpread};
pub use more::{LabComparison, Measures, MoreEvidence};
pub use prior::Prior;
pub use reader::Reader;
pub use sharpen::Gain;
pub use summary::{Broad, LikelySet, MonthsInterval};

use posterior::Posterior;

/// Share of deer whose teeth run late where nothing is known of the cause. Design.
pub const LATE_SHARE: f64 = 0.5;
/// Wear speaks at this power in a diseased or lopsided jaw: wider, not shifted. Ours.
const LOPSIDED_POWER: f64 = 0.5;

/// The choices that are not evidence; always printed with an estimate.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Settings {
    /// Prior.
    pub prior: Prior,
    /// Share of deer whose teeth run late, 0 to 1.
    pub late_share: f64,
    /// Who called the class, if one was called.
    pub reader: Reader,
    /// When most fawns are born.
    pub births: Births,
}

impl Default for Settings {
    fn default() -> Self {
        Self { prior: Prior::default(), late_share: LATE_SHARE, reader: Reader::default(), births: Births::default() }
    }
}

/// The distribution and what goes with it.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct AgeEstimate {
    /// Probability of 0, 1, ... 8, 9-and-more completed birthdays.
    pub classes: [f64; 10],
    /// The same by sex: female, male.
    pub joint: [[f64; 2]; 10],
    /// The broad classes.
    pub broad: Broad,
    /// The fewest classes that reach 80 %.
    pub likely_set: LikelySet,
    /// The most probable class.
    pub best_class: u8,
    /// Its probability.
    pub best_probability: f64,
    /// The one class that may be said alone, if it reaches 0.8; never nine-and-more.
    pub single_class: Option<u8>,
    /// Mean of completed birthdays, nine-and-more counted as nine.
    pub mean_birthdays: f64,
    /// Months, if the best class is fawn or yearling, given that class.
    pub months: Option<MonthsInterval>,
    /// Entropy over the ten classes, bits.
    pub entropy_bits: f64,
    /// Whether the spread is so wide that a class should not be leaned on.
    pub wide: bool,
    /// Probability that the teeth ran late, if the best class is fawn or yearling and teeth were seen.
    pub late_teeth: Option<f64>,
    /// What was used.
    pub basis: Basis,
    /// The hard key's answer, or why it has none.
    pub key: Result<KeyReading, KeyRefusal>,
    /// What the printed wear keys say from dentine, as completed birthdays, left and right.
    pub pivots: [Option<u8>; 2],
    /// Best class by the left and the right side alone, where both were looked at and they differ.
    pub sides_apart: Option<[u8; 2]>,
    /// What the caliper measures came to.
    pub measures: Measures,
    /// How far the rest lies from a laboratory's count, where there is both.
    pub lab: Option<LabComparison>,
    /// Teeth that cannot stand together.
    pub contradictions: Vec<Contradiction>,
    /// What has to be said beside it.
    pub cautions: Vec<Caution>,
    /// Prior, late share and reader used.
    pub settings: Settings,
    /// What it rests on.
    pub sources: Vec<&'static Source>,
    /// Open looks, most worth first.
    pub sharpen: Vec<Gain>,
}

/// What comes back when the method is open.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum AgeOutcome {
    /// Nothing was seen that speaks of age. The prior is not an answer, so none is shown; only the look
    /// worth most.
    NoEvidence {
        /// Open looks, most worth first.
        sharpen: Vec<Gain>,
    },
    /// An estimate.
    Estimate(Box<AgeEstimate>),
}

/// Runs the method.
pub fn estimate(evidence: &AgeEvidence, settings: &Settings) -> Result<AgeOutcome, AgeRefusal> {
    let (window, cut) = gate::check(evidence, settings)?;
    let basis = basis::basis_of(evidence);
    let cells = birth::months_at_death(window, settings.births);
    let lopsided = basis::is_lopsided(evidence) || evidence.flags.swelling == Some(true);
    let power = if lopsided { LOPSIDED_POWER } else { 1.0 };
    let measures = Measures::of(evidence);
    let run = |basis| Posterior::new(evidence, settings, basis, &measures, &cells, power);
    let posterior = run(basis);
    let sharpen = sharpen::gains(evidence, &posterior);
    if !basis.speaks() {
        return Ok(AgeOutcome::NoEvidence { sharpen });
    }
    let (best_class, best_probability) = summary::best(&posterior.classes);
    let entropy_bits = summary::entropy_bits(&posterior.classes);
    let months = (best_class <= 1).then(|| {
        let of_class = posterior.states.iter().filter(|s| s.class == usize::from(best_class));
        summary::months_interval(of_class.map(|s| (s.months, s.probability)).collect())
    });
    let without_lab = Basis { cementum: false, ..basis };
    let lab = evidence.more.cementum.filter(|_| basis.cementum && without_lab.speaks());
    let lab = lab.map(|lab| LabComparison::of(lab, &run(without_lab).classes));
    let key = winter_key(evidence);
    let late_teeth = (best_class <= 1 && basis.eruption).then(|| posterior.late_in(best_class));
    let contradictions = contradiction::contradictions(evidence);
    let mut estimate = AgeEstimate {
        classes: posterior.classes,
        joint: posterior.joint,
        broad: summary::broad(&posterior.classes),
        likely_set: summary::likely_set(&posterior.classes),
        best_class,
        best_probability,
        single_class: (best_class < 9 && best_probability >= summary::SINGLE_YEAR_FROM).then_some(best_class),
        mean_birthdays: summary::mean_birthdays(&posterior.classes),
        months: months.flatten(),
        entropy_bits,
        wide: entropy_bits > summary::WIDE_BITS,
        late_teeth,
        basis,
        key,
        pivots: evidence.sides().map(pivot_birthdays),
        sides_apart: sides::apart(evidence, settings, &cells),
        measures,
        lab,
        contradictions,
        cautions: Vec::new(),
        settings: settings.clone(),
        sources: basis::sources_of(evidence, basis),
        sharpen,
    };
    estimate.cautions = caution::cautions(evidence, &estimate, window, cut);
    Ok(AgeOutcome::Estimate(Box::new(estimate)))
}
