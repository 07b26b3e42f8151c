//! What the office says of its country, for the reading of the cause of death.

use serde::{Deserialize, Serialize};

use super::{CardFlaw, EvidenceTable};
use crate::record::Moment;

/// Areas of the program's own table.
const AREAS: [&str; 3] = ["northeast", "great_lakes", "farm_forest"];

/// How hard the winter is.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(feature = "cli", derive(schemars::JsonSchema))]
#[serde(rename_all = "snake_case")]
#[allow(missing_docs)]
pub enum WinterWord {
    Mild,
    #[default]
    Usual,
    Severe,
}

/// What the reading of the cause of death starts from.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(feature = "cli", derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
pub struct CauseSettings {
    /// Which shares of the table: `northeast` (coyote and bobcat, no wolf), `great_lakes` (with wolf),
    /// `farm_forest` (roads, disease), or an area of the office's own table.
    pub area: String,
    /// How hard the winter is.
    #[serde(default)]
    pub winter: WinterWord,
    /// Bears are in their dens.
    #[serde(default)]
    pub bears_denned: bool,
    /// Whether there is a feeding site within 2 km of the ground that crews walk; absent where unknown.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub feed_site: Option<bool>,
    /// Last moment of the last deer season.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub season_ended: Option<Moment>,
    /// The office's own evidence table; absent for the program's.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub table: Option<Box<EvidenceTable>>,
}

impl CauseSettings {
    /// Checks the table and that it has the area.
    pub(super) fn check(&self) -> Result<(), CardFlaw> {
        let areas: Vec<&str> = match &self.table {
            Some(table) => {
                table.check()?;
                table.priors.iter().map(|prior| prior.area.as_str()).collect()
            }
            None => AREAS.to_vec(),
        };
        if areas.contains(&self.area.as_str()) {
            Ok(())
        } else {
            Err(CardFlaw::UnknownArea(self.area.clone(), areas.join(", ")))
        }
    }
}
