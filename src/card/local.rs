//! The local card as the office writes it and the phone reads it.

use serde::{Deserialize, Serialize};

use super::{CauseSettings, Figures, Laboratories};
use crate::record::{Moment, PersonCode};

/// For what somebody is called.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[cfg_attr(feature = "cli", derive(schemars::JsonSchema))]
#[serde(rename_all = "snake_case")]
pub enum CallFor {
    /// The crew's lead or the biologist in charge.
    Lead,
    /// The check-in contact at home.
    Contact,
    /// A wildlife officer: evidence, law.
    Officer,
    /// A wildlife veterinarian or laboratory: disease signs.
    Vet,
    /// Public health, for people who were exposed.
    Health,
    /// Road authority or police for a carcass on a road.
    Road,
    /// The emergency number as it holds at this place.
    Emergency,
    /// Owner or agency of a tag or collar.
    TagOwner,
    /// The land manager.
    Land,
}

/// One contact.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(feature = "cli", derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
pub struct Call {
    /// For what.
    pub call_for: CallFor,
    /// Who answers.
    pub name: String,
    /// Number or address, as the office wrote it.
    pub number: String,
}

/// A permit or authorisation.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(feature = "cli", derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
pub struct Permit {
    /// What it allows, in the office's words.
    pub what: String,
    /// Its number.
    pub number: String,
}

/// What one person may do; everything is off unless the office says so.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(feature = "cli", derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
#[allow(clippy::struct_excessive_bools)]
pub struct Person {
    /// Code used in entries.
    pub code: PersonCode,
    /// Name as called.
    pub name: String,
    /// May touch a carcass.
    #[serde(default)]
    pub may_touch: bool,
    /// May open a carcass.
    #[serde(default)]
    pub may_open: bool,
    /// May take the lower jaw.
    #[serde(default)]
    pub may_take_jaw: bool,
    /// May take a femur or another long bone.
    #[serde(default)]
    pub may_take_femur: bool,
    /// May take lymph nodes, obex or the whole head.
    #[serde(default)]
    pub may_take_head_parts: bool,
    /// May reopen a stop that is not fixed, with a reason.
    #[serde(default)]
    pub may_reopen_stops: bool,
}

/// What is about at this place and season.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(feature = "cli", derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
#[allow(clippy::struct_excessive_bools)]
pub struct Flags {
    /// Anthrax has been known here.
    #[serde(default)]
    pub anthrax_history: bool,
    /// Chronic wasting disease zone.
    #[serde(default)]
    pub cwd_zone: bool,
    /// Bovine tuberculosis zone.
    #[serde(default)]
    pub tuberculosis_zone: bool,
    /// A rabies notice is in force.
    #[serde(default)]
    pub rabies_notice: bool,
    /// A bird flu notice is in force.
    #[serde(default)]
    pub bird_flu_notice: bool,
    /// Predators about, by the codes of the track finding.
    #[serde(default)]
    pub predators: Vec<String>,
}

/// Rules of going out; a missing one is asked for, never guessed.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(feature = "cli", derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
pub struct Limits {
    /// Fewest people in a crew.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub min_crew_count: Option<u32>,
    /// Wind chill in degrees Celsius at or below which nobody goes hands-on; the stricter of this
    /// and the built-in band holds.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub wind_chill_stop_c: Option<i32>,
    /// Minutes between check-ins.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub check_in_min: Option<u32>,
    /// Minutes kept in reserve before dusk or due back.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub reserve_min: Option<u32>,
    /// Walk-out time as a percentage of the walk-in time (100 = equal).
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub walk_out_percent: Option<u32>,
}

/// Units shown on screen; the record stays metric.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(feature = "cli", derive(schemars::JsonSchema))]
#[serde(rename_all = "snake_case")]
pub enum Units {
    /// Metric.
    #[default]
    Metric,
    /// United States customary units.
    Us,
}

/// The local card.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(feature = "cli", derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
pub struct Card {
    /// Version of the card's form: 1.
    pub form: u32,
    /// Number that grows with every card that this office issues.
    pub serial: u64,
    /// The office's name.
    pub office: String,
    /// First moment at which it holds.
    pub valid_from: Moment,
    /// Last moment at which it holds; after it the form warns and hands-on is closed.
    pub valid_to: Moment,
    /// Whom to call for what.
    pub calls: Vec<Call>,
    /// Permits and authorisations.
    #[serde(default)]
    pub permits: Vec<Permit>,
    /// People and what each may do.
    pub people: Vec<Person>,
    /// What is about.
    #[serde(default)]
    pub flags: Flags,
    /// Rules of going out.
    #[serde(default)]
    pub limits: Limits,
    /// Units shown.
    #[serde(default)]
    pub units: Units,
    /// Figures of the reserve's own.
    #[serde(default, skip_serializing_if = "Figures::is_empty")]
    pub figures: Figures,
    /// What the reading of the cause of death starts from.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub cause: Option<CauseSettings>,
    /// Where samples go and what is tested there.
    #[serde(default, skip_serializing_if = "Laboratories::is_none")]
    pub laboratories: Laboratories,
    /// What to say to people on the trail, in the office's words.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub trail_words: String,
    /// What is done with the remains, in the office's words.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub disposal: String,
}

impl CallFor {
    /// All, in the order in which a card lists them.
    pub const ALL: [Self; 9] = [
        Self::Lead,
        Self::Contact,
        Self::Officer,
        Self::Vet,
        Self::Health,
        Self::Road,
        Self::Emergency,
        Self::TagOwner,
        Self::Land,
    ];

    /// The code used in message ids (`calls.for.<code>`) and on the card.
    pub const fn code(self) -> &'static str {
        match self {
            Self::Lead => "lead",
            Self::Contact => "contact",
            Self::Officer => "officer",
            Self::Vet => "vet",
            Self::Health => "health",
            Self::Road => "road",
            Self::Emergency => "emergency",
            Self::TagOwner => "tag_owner",
            Self::Land => "land",
        }
    }
}

impl Card {
    /// True within the card's dates.
    pub fn holds_at(&self, at: Moment) -> bool {
        (self.valid_from.unix_seconds()..=self.valid_to.unix_seconds()).contains(&at.unix_seconds())
    }

    /// Whom to call for something.
    pub fn call(&self, call_for: CallFor) -> Option<&Call> {
        self.calls.iter().find(|c| c.call_for == call_for)
    }

    /// A person of the card.
    pub fn person(&self, code: &PersonCode) -> Option<&Person> {
        self.people.iter().find(|p| p.code == *code)
    }
}
