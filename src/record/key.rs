//! What a question is asked of, and which question it is.

use serde::{Deserialize, Serialize};
use uuid::Uuid;

use super::{PersonCode, Site};

/// What is asked: a crew's day out, a report, one occasion at one carcass, or a place's winter log.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[cfg_attr(feature = "cli", derive(schemars::JsonSchema))]
#[serde(rename_all = "snake_case")]
pub enum Subject {
    /// One crew's day out.
    Outing(Uuid),
    /// What somebody saw, before anybody went.
    Report(Uuid),
    /// One crew, one occasion, one carcass, in the field or on the bench.
    Examination(Uuid),
    /// One place where the winter is logged day by day.
    WinterLog(Uuid),
}

impl Subject {
    /// The id inside.
    pub const fn id(self) -> Uuid {
        match self {
            Self::Outing(id) | Self::Report(id) | Self::Examination(id) | Self::WinterLog(id) => id,
        }
    }
}

/// The code of a finding, as in the finding table. A newer phone may send one that is not there:
/// it is kept, shown as unknown and passed on.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[cfg_attr(feature = "cli", derive(schemars::JsonSchema))]
#[serde(transparent)]
pub struct FindingCode(pub String);

impl From<&str> for FindingCode {
    fn from(code: &str) -> Self {
        Self(code.to_owned())
    }
}

impl FindingCode {
    /// The code.
    pub fn as_str(&self) -> &str {
        &self.0
    }
}

/// The key of an answer.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[cfg_attr(feature = "cli", derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
pub struct Key {
    /// What was asked.
    pub subject: Subject,
    /// Which question.
    pub finding: FindingCode,
    /// Where on the animal, or which of several.
    #[serde(default, skip_serializing_if = "Site::is_none")]
    pub site: Site,
    /// Who looked.
    pub observer: PersonCode,
}
