//! `office schema`: the JSON Schemas of what travels, made from the types that read it.

use super::error::CliError;
use super::exit::Exit;
use super::findings_schema;
use super::streams::Streams;
use crate::bundle::Payload;
use crate::card::Card;
use crate::office::findings_table::{FORMAT, FindingsTable};
use crate::office::keyring::Keyring;
use crate::office::season;
use crate::record::Body;
use schemars::{JsonSchema, Schema, SchemaGenerator};
use std::str::FromStr;

/// A schema's name.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Name {
    /// The body of an entry.
    EntryBody,
    /// The payload of a bundle.
    BundlePayload,
    /// A plain table of findings.
    FindingsTable,
    /// The office's keyring.
    Keyring,
    /// The local card.
    Card,
    /// A season.
    Season,
    /// What a season rests on.
    SeasonManifest,
}

impl Name {
    /// All names.
    pub(super) const ALL: [Self; 7] = [
        Self::EntryBody,
        Self::BundlePayload,
        Self::FindingsTable,
        Self::Keyring,
        Self::Card,
        Self::Season,
        Self::SeasonManifest,
    ];

    /// The name as typed; the committed file is this with `.json`.
    pub(super) fn text(self) -> &'static str {
        match self {
            Self::EntryBody => "marrowbook-entry-1",
            Self::BundlePayload => "marrowbook-bundle-1",
            Self::FindingsTable => FORMAT,
            Self::Keyring => "marrowbook-keyring-1",
            Self::Card => "marrowbook-card-1",
            Self::Season => season::table::FORMAT,
            Self::SeasonManifest => season::manifest::FORMAT,
        }
    }

    fn title(self) -> &'static str {
        match self {
            Self::EntryBody => "The body of one entry of a journal",
            Self::BundlePayload => "The payload of a bundle that a phone hands over",
            Self::FindingsTable => "A table of findings for office read",
            Self::Keyring => "The devices that an office has enrolled",
            Self::Card => "The local card that an office gives its crews",
            Self::Season => "A season, as office season writes it",
            Self::SeasonManifest => "Everything that a season run used and wrote, which the office signs",
        }
    }

    /// The schema as text: JSON Schema draft 2020-12, members in a fixed order.
    ///
    /// # Errors
    /// Never in practice: a schema holds only what JSON can hold.
    pub(super) fn schema(self) -> Result<String, serde_json::Error> {
        let mut schema = match self {
            Self::EntryBody => root::<Body>(),
            Self::BundlePayload => root::<Payload>(),
            Self::FindingsTable => findings_schema::with_findings(root::<FindingsTable>()),
            Self::Keyring => root::<Keyring>(),
            Self::Card => root::<Card>(),
            Self::Season => root::<season::Season>(),
            Self::SeasonManifest => root::<season::manifest::Manifest>(),
        };
        schema.insert("$id".into(), format!("urn:marrowbook:schema:{}", self.text()).into());
        schema.insert("title".into(), self.title().into());
        Ok(serde_json::to_string_pretty(&schema)? + "\n")
    }
}

fn root<T: JsonSchema>() -> Schema {
    SchemaGenerator::default().into_root_schema_for::<T>()
}

impl FromStr for Name {
    type Err = String;

    fn from_str(text: &str) -> Result<Self, String> {
        Self::ALL.into_iter().find(|name| name.text() == text).ok_or_else(|| {
            let all: Vec<&str> = Self::ALL.iter().map(|name| name.text()).collect();
            format!("there is no schema \"{text}\"; there are {}", all.join(", "))
        })
    }
}

/// Prints one schema, or the names of all.
pub(super) fn run(name: Option<Name>, streams: &mut Streams<'_>) -> Result<Exit, CliError> {
    match name {
        Some(name) => {
            let text = name.schema().map_err(|error| CliError::Output(error.into()))?;
            streams.own_text(text.trim_end())?;
        }
        None => {
            for name in Name::ALL {
                streams.line(&format!("{}  {}", name.text(), name.title()))?;
            }
        }
    }
    Ok(Exit::Done)
}
