//! Units of measured findings. Metric in the record; another system is only a way of showing.

use serde::{Deserialize, Serialize};

/// How measures are shown. What is stored, signed and computed with stays metric.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Shown {
    /// As stored.
    #[default]
    Metric,
    /// United States customary units.
    Us,
}

/// A measure ready to be printed.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Measure {
    /// The number in the unit shown, unrounded.
    pub value: f64,
    /// Decimals to print.
    pub decimals: u8,
    /// The unit's symbol; empty for counts.
    pub symbol: &'static str,
}

impl Measure {
    /// Number and unit, with a space that does not break.
    pub fn print(&self) -> String {
        let number = self.number();
        if self.symbol.is_empty() || self.symbol == "\u{b0}" {
            format!("{number}{}", self.symbol)
        } else {
            format!("{number}\u{a0}{}", self.symbol)
        }
    }

    /// The number alone.
    pub fn number(&self) -> String {
        format!("{:.*}", usize::from(self.decimals), self.value)
    }
}

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
    /// Millilitres.
    Millilitre,
    /// Hundredths of a whole.
    Percent,
}

impl Unit {
    /// All units.
    pub const ALL: [Self; 12] = [
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
        Self::Millilitre,
        Self::Percent,
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
            Self::Millilitre => "millilitre",
            Self::Percent => "percent",
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
            Self::Millilitre => "ml",
            Self::Percent => "%",
        }
    }

    /// A measure of so many decimals as it is shown.
    ///
    /// Inch, pound and ounce are defined by the metre and the kilogram (international yard and pound,
    /// 1959: 25.4 mm, 0.45359237 kg), so these figures are exact. Decimals are the fewest at which the
    /// last place is worth no more than it was in metric: nothing measured is rounded away, and nothing
    /// finer is made up.
    pub const fn shown(self, value: f64, decimals: u8, system: Shown) -> Measure {
        let metric = Measure { value, decimals, symbol: self.symbol() };
        let (value, more, symbol) = match (system, self) {
            (Shown::Us, Self::Millimetre) => (value / 25.4, 2, "in"),
            (Shown::Us, Self::Centimetre) => (value / 2.54, 1, "in"),
            (Shown::Us, Self::Metre) => (value / 0.3048, 0, "ft"),
            (Shown::Us, Self::Gram) => (value / 28.349_523_125, 2, "oz"),
            (Shown::Us, Self::Kilogram) => (value / 0.453_592_37, 0, "lb"),
            (Shown::Us, Self::DegreeCelsius) => (value * 1.8 + 32.0, 0, "\u{b0}F"),
            (Shown::Us, Self::KilometreAnHour) => (value / 1.609_344, 1, "mph"),
            _ => return metric,
        };
        Measure { value, decimals: decimals + more, symbol }
    }

    /// The system in which a crew types it. Callipers, scale cards, balances and measuring jugs are marked in
    /// metric everywhere in this trade (common practice, no source): their readings are never turned round.
    pub const fn typed_in(self, system: Shown) -> Shown {
        match self {
            Self::Centimetre | Self::Metre | Self::Kilogram | Self::DegreeCelsius | Self::KilometreAnHour => system,
            _ => Shown::Metric,
        }
    }

    /// What is kept of a number that was typed in `system`: steps of the finding's resolution, rounded to the
    /// nearest.
    #[allow(clippy::cast_possible_truncation)] // a cast of a double stops at the ends of the integers
    pub fn kept(self, typed: f64, decimals: u8, system: Shown) -> i64 {
        // Every unit here is a straight line of the other.
        let [zero, one] = [0.0, 1.0].map(|metric| self.shown(metric, 0, system).value);
        libm::round((typed - zero) / (one - zero) * libm::pow(10.0, f64::from(decimals))) as i64
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn us(unit: Unit, value: f64, decimals: u8) -> String {
        unit.shown(value, decimals, Shown::Us).print().replace('\u{a0}', " ")
    }

    /// NIST Special Publication 811 (2008), appendix B.8, and NIST Handbook 44, appendix C: 1 in = 25.4 mm,
    /// 1 ft = 0.3048 m, 1 lb = 0.45359237 kg, 1 oz = 28.349523125 g, 1 mi/h = 1.609344 km/h,
    /// F = 1.8 C + 32. From memory of those tables; the definitions are exact.
    #[test]
    fn customary_units_by_their_definitions() {
        assert_eq!(us(Unit::Millimetre, 25.4, 0), "1.00 in");
        assert_eq!(us(Unit::Centimetre, 91.44, 0), "36.0 in", "a yard");
        assert_eq!(us(Unit::Metre, 30.48, 0), "100 ft");
        assert_eq!(us(Unit::Kilogram, 45.359_237, 1), "100.0 lb");
        assert_eq!(us(Unit::Gram, 28.349_523_125, 1), "1.000 oz");
        assert_eq!(us(Unit::KilometreAnHour, 160.934_4, 0), "100.0 mph");
        assert_eq!(us(Unit::DegreeCelsius, -40.0, 0), "-40 \u{b0}F", "where the scales meet");
        assert_eq!(us(Unit::DegreeCelsius, 100.0, 0), "212 \u{b0}F");
    }

    /// The same definitions the other way; `-5 F` is -20.6 C.
    #[test]
    fn what_is_typed_is_kept_in_metric() {
        assert_eq!(Unit::Kilogram.kept(100.0, 1, Shown::Us), 454);
        assert_eq!(Unit::Centimetre.kept(36.0, 0, Shown::Us), 91);
        assert_eq!(Unit::Metre.kept(100.0, 1, Shown::Us), 305);
        assert_eq!(Unit::DegreeCelsius.kept(-5.0, 0, Shown::Us), -21);
        assert_eq!(Unit::KilometreAnHour.kept(10.0, 0, Shown::Us), 16);
        for unit in Unit::ALL {
            assert_eq!(unit.kept(12.34, 2, Shown::Metric), 1_234, "{unit:?}");
            assert_eq!(unit.kept(12.34, 2, unit.typed_in(Shown::Metric)), 1_234, "{unit:?}");
        }
        assert_eq!(Unit::Millimetre.typed_in(Shown::Us), Shown::Metric, "callipers are metric");
    }

    #[test]
    fn counts_minutes_and_angles_are_the_same_in_both() {
        for unit in [Unit::Count, Unit::Minute, Unit::Degree] {
            assert_eq!(unit.shown(7.0, 0, Shown::Us), unit.shown(7.0, 0, Shown::Metric));
        }
    }

    #[test]
    fn the_last_place_shown_is_worth_no_more_than_the_one_kept() {
        for unit in Unit::ALL {
            let metric = unit.shown(0.0, 0, Shown::Metric);
            let [at_0, at_1] = [0.0, 1.0].map(|v| unit.shown(v, 0, Shown::Us));
            let step_in_metric = libm::pow(10.0, -f64::from(at_0.decimals)) / (at_1.value - at_0.value);
            assert!(step_in_metric <= 1.0, "{unit:?}: {step_in_metric}");
            assert_eq!(metric.symbol, unit.symbol());
        }
    }
}
