//! What was asked for, and what a place is given as.

use serde::{Deserialize, Serialize};

use crate::office::season::asked::{CELL_M, LEAST_CELL_M, NoYear, winter_typed};
use crate::office::season::places::{cell_of, degrees, middle};
use crate::record::{Place, PlaceSource};

/// How exactly places are given.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum Places {
    /// The middle of the square of so many metres in which it lies.
    Grid(u32),
    /// As recorded.
    Exact,
}

/// What was asked for.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Asked {
    /// Only carcasses found in the winter that begins in this year; all where nobody says.
    pub winter: Option<i32>,
    /// How exactly places are given.
    pub places: Places,
    /// Codes and names of persons, and what they typed in their own words.
    pub names: bool,
    /// `present` where the current text of Darwin Core recommends `detected`.
    pub older_status: bool,
}

impl Default for Asked {
    fn default() -> Self {
        Self { winter: None, places: Places::Grid(CELL_M), names: false, older_status: false }
    }
}

/// A place as it is let out.
#[derive(Clone, Debug, PartialEq)]
pub struct Given {
    /// Latitude, degrees, WGS 84.
    pub latitude: f64,
    /// Longitude, degrees, WGS 84.
    pub longitude: f64,
    /// Radius that holds the whole place, metres; `None` where nobody knows how exact it was. The radius of a receiver
    /// holds it with 95 %.
    pub uncertainty_m: Option<u32>,
    /// How it was got.
    pub source: PlaceSource,
}

/// Half a square's diagonal over its side, with a part in a hundred for squares that are a little wider at one end.
const HALF_DIAGONAL: f64 = 0.7142;
/// The middle is printed to the ten-thousandth of a degree, which moves it by 8 m at most.
const PRINTED_M: f64 = 8.0;

impl Places {
    /// The place as it is let out.
    #[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss)] // some kilometres
    pub fn given(self, place: &Place) -> Given {
        let source = place.source;
        // A radius of nothing is no radius: Darwin Core does not allow it.
        let told = place.accuracy_m_95.filter(|m| *m > 0);
        match self {
            Self::Exact => {
                let (latitude, longitude) = degrees(place);
                Given { latitude, longitude, uncertainty_m: told, source }
            }
            Self::Grid(cell_m) => {
                let (latitude, longitude) = middle(cell_of(place, cell_m), cell_m);
                let half = libm::ceil(HALF_DIAGONAL * f64::from(cell_m) + PRINTED_M) as u32;
                Given { latitude, longitude, uncertainty_m: told.map(|m| m.saturating_add(half)), source }
            }
        }
    }

    /// Side of the squares, metres; `None` where places are exact.
    pub const fn grid_m(self) -> Option<u32> {
        match self {
            Self::Grid(m) => Some(m),
            Self::Exact => None,
        }
    }
}

/// Why what somebody typed asks for nothing.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub enum NotAsked {
    /// No year.
    #[error("{0}")]
    Year(#[from] NoYear),
    /// No length.
    #[error("`{0}` is no length in whole metres")]
    Metres(String),
    /// It would name the place.
    #[error("squares of {0} m are too fine: {LEAST_CELL_M} m and more blur")]
    Fine(u32),
}

impl Asked {
    /// As somebody typed it: the winter, empty for all, and the side of the squares, `None` for exact places.
    ///
    /// # Errors
    /// See [`NotAsked`].
    pub fn typed(winter: &str, cell_m: Option<&str>) -> Result<Self, NotAsked> {
        let places = match cell_m.map(str::trim) {
            None => Places::Exact,
            Some(text) => match text.parse::<u32>() {
                Ok(m) if m < LEAST_CELL_M => return Err(NotAsked::Fine(m)),
                Ok(m) => Places::Grid(m),
                Err(_) => return Err(NotAsked::Metres(text.to_owned())),
            },
        };
        Ok(Self { winter: winter_typed(winter)?, places, ..Self::default() })
    }

    /// What was done to places, as a sentence for every form.
    pub fn of_places(&self) -> String {
        match self.places {
            Places::Grid(m) => format!(
                "Places are blurred: each is given as the middle of the square of {m} m in which it lies, on a grid that hangs on the globe."
            ),
            Places::Exact => "Places are given as they were recorded, not blurred.".to_owned(),
        }
    }

    /// What was left out, as a sentence for every form.
    pub fn of_persons(&self) -> String {
        let never = "Notes on exposure and who may be called back about a report are never let out.";
        if self.names {
            format!("Codes and names of persons, and what they typed in their own words, are in it. {never}")
        } else {
            format!("Codes and names of persons, and what they typed in their own words, are left out. {never}")
        }
    }
}
