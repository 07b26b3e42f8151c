//! Laboratories of the local card and what each tests: no code names one.
//!
//! A phone carries this part of the card unread; the office reads it.

use std::collections::BTreeSet;

use serde::{Deserialize, Serialize};

use super::Card;
use crate::record::{PersonCode, find};

/// What comes back from a test.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(feature = "cli", derive(schemars::JsonSchema))]
#[serde(rename_all = "snake_case")]
pub enum TestKind {
    /// Completed birthdays by rings of cementum.
    CementumAge,
    /// Marrow: dry weight, percent of wet.
    MarrowDryWeight,
    /// Marrow: fat drawn out, percent of wet.
    MarrowFat,
    /// A disease: positive, suspect, not detected, unsuitable.
    Disease,
    /// The animal whose DNA a swab holds.
    Dna,
}

/// One test.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(feature = "cli", derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
pub struct Test {
    /// The code in the laboratory's sheet; no other test of the card has it.
    pub code: String,
    /// What it is called on the send-out list.
    pub name: String,
    /// What comes back.
    pub kind: TestKind,
    /// Which samples it is done on, by the options of `sample_what`; none: any.
    #[serde(default)]
    pub samples: Vec<String>,
    /// How the laboratory wants it packed, in the office's words.
    #[serde(default)]
    pub packing: String,
    /// Of a disease: its name.
    #[serde(default)]
    pub disease: String,
    /// Of a disease: whether whoever touched the animal is called after a positive or suspect result. The
    /// office decides it, also for a disease that people are not known to catch.
    #[serde(default)]
    pub call_people: Option<bool>,
}

impl Test {
    /// Whether it is done on this kind of sample.
    pub fn takes(&self, what: &str) -> bool {
        self.samples.is_empty() || self.samples.iter().any(|one| one == what)
    }
}

/// One laboratory.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(feature = "cli", derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
pub struct Laboratory {
    /// Its code: who has a sample that was sent there.
    pub code: PersonCode,
    /// Its name.
    pub name: String,
    /// Where parcels go, in the office's words.
    #[serde(default)]
    pub address: String,
    /// What it tests here.
    pub tests: Vec<Test>,
}

/// The laboratories of a card as they stand on it.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(transparent)]
pub struct Laboratories(serde_json::Value);

impl Laboratories {
    /// Whether the card names none.
    pub fn is_none(&self) -> bool {
        self.0.is_null()
    }
}

#[cfg(feature = "cli")]
impl schemars::JsonSchema for Laboratories {
    fn schema_name() -> std::borrow::Cow<'static, str> {
        "Laboratories".into()
    }
    fn json_schema(generator: &mut schemars::SchemaGenerator) -> schemars::Schema {
        Vec::<Laboratory>::json_schema(generator)
    }
}

/// What is wrong with this part of a card.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub enum LaboratoryFlaw {
    /// Not of this form.
    #[error("laboratories: {0}")]
    Form(String),
    /// Two laboratories, or a laboratory and a person, have one code.
    #[error("laboratories: the code {0} stands twice on the card")]
    DoubleCode(String),
    /// No name.
    #[error("laboratories: {0} has no name")]
    NoName(String),
    /// Two tests have one code, or it is empty or longer than 40 characters.
    #[error("laboratories: the test code `{0}` is empty, too long or stands twice")]
    TestCode(String),
    /// Not an option of `sample_what`.
    #[error("laboratories: test {test}: `{sample}` is no kind of sample; there are {known}")]
    Sample {
        /// The test.
        test: String,
        /// What was written.
        sample: String,
        /// What there is.
        known: String,
    },
    /// A disease without its name, or of which it is not said whether people are called.
    #[error("laboratories: test {0}: a disease test needs `disease` and `call_people`, another test has neither")]
    Disease(String),
}

impl Card {
    /// The laboratories, read and checked; none where the card names none.
    ///
    /// # Errors
    /// The first flaw found.
    pub fn laboratories(&self) -> Result<Vec<Laboratory>, LaboratoryFlaw> {
        if self.laboratories.is_none() {
            return Ok(Vec::new());
        }
        let all: Vec<Laboratory> = serde_json::from_value(self.laboratories.0.clone())
            .map_err(|error| LaboratoryFlaw::Form(error.to_string()))?;
        let mut codes: BTreeSet<&PersonCode> = self.people.iter().map(|person| &person.code).collect();
        let mut tests = BTreeSet::new();
        for one in &all {
            if !codes.insert(&one.code) {
                return Err(LaboratoryFlaw::DoubleCode(one.code.to_string()));
            }
            if one.name.trim().is_empty() {
                return Err(LaboratoryFlaw::NoName(one.code.to_string()));
            }
            for test in &one.tests {
                let fits = (1..=40).contains(&test.code.chars().count()) && !test.code.contains(char::is_whitespace);
                if !fits || !tests.insert(&test.code) {
                    return Err(LaboratoryFlaw::TestCode(test.code.clone()));
                }
                check_test(test)?;
            }
        }
        Ok(all)
    }
}

fn check_test(test: &Test) -> Result<(), LaboratoryFlaw> {
    if test.name.trim().is_empty() {
        return Err(LaboratoryFlaw::NoName(test.code.clone()));
    }
    let known = find("sample_what").map(crate::record::FindingDef::options).unwrap_or_default();
    if let Some(sample) = test.samples.iter().find(|sample| !known.contains(&sample.as_str())) {
        let (test, sample) = (test.code.clone(), sample.clone());
        return Err(LaboratoryFlaw::Sample { test, sample, known: known.join(", ") });
    }
    let is_disease = test.kind == TestKind::Disease;
    let named = !test.disease.trim().is_empty() && test.disease.chars().count() <= 80;
    if is_disease != named || is_disease != test.call_people.is_some() {
        return Err(LaboratoryFlaw::Disease(test.code.clone()));
    }
    Ok(())
}

#[cfg(test)]
mod tests {
    use super::*;

    /// The demo's card with its laboratories changed as JSON.
    fn with(change: impl Fn(&mut serde_json::Value)) -> Result<Vec<Laboratory>, LaboratoryFlaw> {
        let mut value: serde_json::Value = serde_json::from_str(include_str!("../../demo/card.json")).unwrap();
        change(&mut value["laboratories"]);
        Card::from_json(&value.to_string()).unwrap().laboratories()
    }

    #[test]
    fn the_demo_cards_laboratories_hold() {
        let all = with(|_| {}).unwrap();
        assert_eq!(all.len(), 2);
        let kinds = [TestKind::CementumAge, TestKind::MarrowDryWeight, TestKind::Disease, TestKind::Dna];
        for kind in kinds {
            assert!(all.iter().flat_map(|lab| &lab.tests).any(|test| test.kind == kind), "{kind:?}");
        }
        assert_eq!(with(|all| *all = serde_json::Value::Null), Ok(Vec::new()));
    }

    /// Rules of the house: what each field is for is said at it.
    #[test]
    fn each_flaw_is_told_by_name() {
        let said = |change: &dyn Fn(&mut serde_json::Value)| with(change).unwrap_err().to_string();
        assert!(said(&|all| all[0]["phone"] = "1".into()).contains("unknown field `phone`"));
        assert!(said(&|all| all[1]["code"] = all[0]["code"].clone()).contains("stands twice"));
        assert!(said(&|all| all[0]["code"] = "K7".into()).contains("the code K7 stands twice"));
        assert!(said(&|all| all[0]["name"] = " ".into()).contains("has no name"));
        assert!(said(&|all| all[1]["tests"][0]["code"] = all[0]["tests"][0]["code"].clone()).contains("test code"));
        assert!(said(&|all| all[0]["tests"][0]["samples"] = vec!["tail"].into()).contains("`tail` is no kind"));
        assert!(said(&|all| all[0]["tests"][0]["disease"] = "x".into()).contains("a disease test needs"));
        assert!(said(&|all| all[1]["tests"][0]["call_people"] = serde_json::Value::Null).contains("call_people"));
    }
}
