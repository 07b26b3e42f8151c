//! What was asked for.

use serde::{Deserialize, Serialize};

/// Sides of the map's cells, metres, where nobody says.
pub const CELL_M: u32 = 2_000;
/// Youngest age that counts for survival, where nobody says: completed birthdays.
pub const YOUNGEST: u32 = 2;
/// Smallest cell: a finer one would name the place.
pub const LEAST_CELL_M: u32 = 100;

/// What was typed is no year.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
#[error("`{0}` is no year: type the one in which the winter begins, such as 2026 for 2026-27")]
pub struct NoYear(String);

/// The year in which a winter begins, as typed; `None` where nothing was.
///
/// # Errors
/// It is no year.
pub fn winter_typed(text: &str) -> Result<Option<i32>, NoYear> {
    let text = text.trim();
    let is_year = text.len() == 4 && text.bytes().all(|byte| byte.is_ascii_digit());
    match text.parse() {
        _ if text.is_empty() => Ok(None),
        Ok(year) if is_year => Ok(Some(year)),
        _ => Err(NoYear(text.to_owned())),
    }
}

/// What was asked for. It goes into the manifest: the same again gives the same bytes.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(feature = "cli", derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
pub struct Asked {
    /// The year in which the winter begins; the last in which a carcass was found where nobody says.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub winter: Option<i32>,
    /// Side of a cell of the map, metres, 100 and more.
    pub cell_m: u32,
    /// To how far from a line the searches looked, metres; what lies farther is left out of a density.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub strip_m: Option<u32>,
    /// Youngest age that counts for survival, completed birthdays, 1 to 4.
    pub youngest: u32,
}

impl Default for Asked {
    fn default() -> Self {
        Self { winter: None, cell_m: CELL_M, strip_m: None, youngest: YOUNGEST }
    }
}
