//! Units of measured findings. Metric in the record; another system is only a way of showing.

use serde::{Deserialize, Serialize};

/// The unit of a measured finding. The finding's resolution says what one step of the stored
/// integer is worth: `femur 5.12 g` at two decimals is stored as `512`.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[cfg_attr(feature = "cli", derive(schemars::JsonSchema))]
#[serde(rename_all = "snake_case")]
pub enum Unit {
    /// Millimetres.
    Millimetre,
    /// Centimetres.
    Centimetre,
    /// Metres.
    Metre,
    /// Grams.
    Gram,
    /// Kilograms.
    Kilogram,
    /// Degrees Celsius.
    DegreeCelsius,
    /// Kilometres an hour.
    KilometreAnHour,
    /// Degrees of an angle.
    Degree,
    /// Whole things counted.
    Count,
    /// Minutes.
    Minute,
}

impl Unit {
    /// All units.
    pub const ALL: [Self; 10] = [
        Self::Millimetre,
        Self::Centimetre,
        Self::Metre,
        Self::Gram,
        Self::Kilogram,
        Self::DegreeCelsius,
        Self::KilometreAnHour,
        Self::Degree,
        Self::Count,
        Self::Minute,
    ];

    /// The code used in message ids.
    pub const fn code(self) -> &'static str {
        match self {
            Self::Millimetre => "millimetre",
            Self::Centimetre => "centimetre",
            Self::Metre => "metre",
            Self::Gram => "gram",
            Self::Kilogram => "kilogram",
            Self::DegreeCelsius => "degree_celsius",
            Self::KilometreAnHour => "kilometre_an_hour",
            Self::Degree => "degree",
            Self::Count => "count",
            Self::Minute => "minute",
        }
    }

    /// The symbol printed after a number; empty for counts.
    pub const fn symbol(self) -> &'static str {
        match self {
            Self::Millimetre => "mm",
            Self::Centimetre => "cm",
            Self::Metre => "m",
            Self::Gram => "g",
            Self::Kilogram => "kg",
            Self::DegreeCelsius => "\u{b0}C",
            Self::KilometreAnHour => "km/h",
            Self::Degree => "\u{b0}",
            Self::Count => "",
            Self::Minute => "min",
        }
    }
}
