//! A laboratory's result, a known age or day of death, a record of the kill, as answers of the office's own.

use super::homes::home;
use super::own_chain::Said;
use super::send_out::{NoOne, Numbers, samples};
use crate::record::short_code::short_code;
use crate::record::{Answer, Carcass, DeviceId, EXAMINATION_KIND, EntryId, Fold, Moment, Site, Value, find, links};
use uuid::Uuid;

/// What the office enters about one carcass. Each member is one finding.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Result {
    /// Completed birthdays by rings of cementum.
    pub cementum_years: Option<i64>,
    /// The laboratory's certainty, as the option's code.
    pub grade: Option<String>,
    /// The laboratory.
    pub lab: Option<String>,
    /// The tooth that was cut, as the option's code.
    pub tooth: Option<String>,
    /// The sample's number.
    pub sample: Option<String>,
    /// When the laboratory reported.
    pub reported_at: Option<Moment>,
    /// Completed birthdays, known from the animal.
    pub known_years: Option<i64>,
    /// How, as the option's code.
    pub known_how: Option<String>,
    /// Known moment of death.
    pub died_at: Option<Moment>,
    /// Animal whose DNA the laboratory typed, as the option's code; [`NO_ANIMAL`] where it typed no predator.
    pub dna_of: Option<String>,
    /// Where the swab came from, as the option's code.
    pub dna_from: Option<String>,
    /// The laboratory.
    pub dna_lab: Option<String>,
    /// The sample's number.
    pub dna_sample: Option<String>,
    /// When the laboratory reported.
    pub dna_reported_at: Option<Moment>,
    /// Animal that a photo, a collar or a witness names as the killer, as the option's code.
    pub killer: Option<String>,
    /// Which kind of record, as the option's code.
    pub killer_how: Option<String>,
    /// Who saw it: code of a person, a camera, a collar.
    pub killer_by: Option<String>,
    /// Whole days from a tagged deer's last catching to its death.
    pub handled_days: Option<i64>,
}

/// The laboratory looked for predators and typed none.
pub const NO_ANIMAL: &str = "none";

/// What to do where the office has entered the same before.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Again {
    /// Refuse, so that nothing is doubled by mistake.
    #[default]
    Refuse,
    /// The new one stands in place of the old: a slip of the pen.
    Correct,
    /// Both stand: a second tooth, another laboratory.
    Another,
}

/// Why nothing was entered.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub enum NotEntered {
    /// The office has entered one of these findings before.
    #[error("the office has entered `{finding}` for this carcass before")]
    Before {
        /// Which.
        finding: &'static str,
    },
    /// The sample is another carcass's: its result would be read as this one's.
    #[error("sample `{sample}` was taken from carcass {of}, not from {named}")]
    OtherCarcass {
        /// The sample's number.
        sample: String,
        /// Whose it is, by short code.
        of: String,
        /// The carcass that was named.
        named: String,
    },
    /// Several samples of this carcass have or had the number.
    #[error("more than one sample of this carcass has or had the number `{sample}` ({all})")]
    TwoSamples {
        /// The number.
        sample: String,
        /// Which, in words.
        all: String,
    },
}

/// What the answers are, and what a person has to know besides.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Answers {
    /// To be written.
    pub said: Vec<Said>,
    /// Line by line.
    pub notes: Vec<String>,
}

impl Result {
    fn answers(&self) -> Vec<(&'static str, Answer)> {
        let number = |n: &Option<i64>| n.map(Answer::number);
        let choice = |code: &Option<String>| code.as_deref().map(Answer::choice);
        let text = |text: &Option<String>| {
            text.as_ref().map(|text| Answer::Seen { value: Value::Text(text.trim().to_owned()) })
        };
        let instant = |at: &Option<Moment>| at.map(|at| Answer::Seen { value: Value::Instant(at) });
        let animal = |code: &Option<String>| match code.as_deref() {
            Some(NO_ANIMAL) => Some(Answer::NotSeen),
            code => code.map(Answer::choice),
        };
        let all = [
            ("cementum_years_count", number(&self.cementum_years)),
            ("cementum_grade", choice(&self.grade)),
            ("cementum_lab", text(&self.lab)),
            ("cementum_tooth", choice(&self.tooth)),
            ("cementum_sample", text(&self.sample)),
            ("cementum_reported_at", instant(&self.reported_at)),
            ("known_age_years_count", number(&self.known_years)),
            ("known_age_how", choice(&self.known_how)),
            ("death_known_at", instant(&self.died_at)),
            ("dna_of", animal(&self.dna_of)),
            ("dna_from", choice(&self.dna_from)),
            ("dna_lab", text(&self.dna_lab)),
            ("dna_sample", text(&self.dna_sample)),
            ("dna_reported_at", instant(&self.dna_reported_at)),
            ("kill_record_of", choice(&self.killer)),
            ("kill_record_how", choice(&self.killer_how)),
            ("kill_record_by", text(&self.killer_by)),
            ("days_since_handling_count", number(&self.handled_days)),
        ];
        all.into_iter().filter_map(|(finding, answer)| Some((finding, answer?))).collect()
    }

    /// Whether nothing is entered.
    pub fn is_empty(&self) -> bool {
        *self == Self::default()
    }

    /// The answers to write: a bench examination of the office's own, `fresh` its id; or that of before
    /// where it is corrected. A sample must be one of this carcass's; one that nobody here took is noted.
    ///
    /// # Errors
    /// See [`NotEntered`].
    pub fn said(
        &self,
        folded: &Fold,
        carcass: &Carcass,
        own: DeviceId,
        fresh: Uuid,
        again: Again,
    ) -> std::result::Result<Answers, NotEntered> {
        let (of, notes) = self.of_sample(folded, carcass)?;
        let answers = self.answers();
        let before = |finding: &str| standing(carcass, own, finding);
        if again == Again::Refuse
            && let Some((finding, _)) = answers.iter().find(|(finding, _)| before(finding).is_some())
        {
            return Err(NotEntered::Before { finding });
        }
        let corrected = answers.iter().find_map(|(finding, _)| before(finding)).filter(|_| again == Again::Correct);
        let examination = corrected.as_ref().map_or(fresh, |(examination, _)| *examination);
        let mut said = Vec::new();
        let mut say = |finding, answer, supersedes| said.push(Said { examination, finding, answer, supersedes });
        if corrected.is_none() {
            say(links::CARCASS, Answer::Seen { value: Value::Ref(of) }, Vec::new());
            say(EXAMINATION_KIND, Answer::choice("bench"), Vec::new());
        }
        for (finding, answer) in answers {
            let supersedes = if again == Again::Correct { before(finding) } else { None };
            say(finding, answer, supersedes.map(|(_, ids)| ids).unwrap_or_default());
        }
        Ok(Answers { said, notes })
    }

    /// The id of the carcass under which the samples that are named were taken, and what is to be noted of them.
    fn of_sample(&self, folded: &Fold, carcass: &Carcass) -> std::result::Result<(Uuid, Vec<String>), NotEntered> {
        let named: Vec<&String> = [&self.sample, &self.dna_sample].into_iter().flatten().collect();
        let (mut of, mut notes) = (carcass.id, Vec::new());
        if named.is_empty() {
            return Ok((of, notes));
        }
        let all = samples(folded);
        let numbers = Numbers::of(&all);
        for number in named {
            let sample = number.clone();
            match numbers.find(number, Some(&carcass.id.to_string())) {
                Ok(found) => of = home(carcass, found.sample.item.examination),
                Err(NoOne::OtherCarcass(of)) => {
                    return Err(NotEntered::OtherCarcass { sample, of, named: short_code(carcass.id) });
                }
                Err(NoOne::Several(all)) => return Err(NotEntered::TwoSamples { sample, all }),
                Err(NoOne::Unknown) => notes.push(format!(
                    "no sample of this archive has the number `{number}`: nobody can check that it is this carcass's; \
                     look at its label"
                )),
            }
        }
        Ok((of, notes))
    }
}

/// The office's own examination in which a finding stands, and the entries.
fn standing(carcass: &Carcass, own: DeviceId, finding: &str) -> Option<(Uuid, Vec<EntryId>)> {
    carcass.examinations.values().find_map(|examination| {
        let question = examination.sheet.question(finding, Site::NONE);
        let ids: Vec<EntryId> = question.standing.iter().map(|s| s.id).filter(|id| id.device == own).collect();
        (!ids.is_empty()).then_some((examination.id, ids))
    })
}

/// The options of a finding, for the message that names them.
pub fn options(finding: &str) -> &'static [&'static str] {
    find(finding).map(crate::record::FindingDef::options).unwrap_or_default()
}
