//! The units of a log. They are proposed from the headers and the numbers; a person confirms them.

use crate::science::winter::measure::{Depth, Temperature};

/// How temperatures are written.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum TemperatureUnit {
    /// Degrees Celsius, as read.
    Celsius,
    /// Degrees Fahrenheit, as read.
    Fahrenheit,
    /// Whole tenths of a degree Celsius.
    TenthsCelsius,
    /// Degrees Celsius worked out from whole degrees Fahrenheit and rounded to the tenth: `-17.8` is
    /// 0 F exactly.
    CelsiusFromFahrenheit,
    /// The same, as whole tenths: `-178` is 0 F exactly.
    TenthsCelsiusFromFahrenheit,
}

impl TemperatureUnit {
    /// All, with the name used on the command line.
    pub const ALL: [(&'static str, Self); 5] = [
        ("c", Self::Celsius),
        ("f", Self::Fahrenheit),
        ("tenths-c", Self::TenthsCelsius),
        ("c-from-f", Self::CelsiusFromFahrenheit),
        ("tenths-c-from-f", Self::TenthsCelsiusFromFahrenheit),
    ];

    /// Its name.
    pub fn name(self) -> &'static str {
        Self::ALL.iter().find(|(_, unit)| *unit == self).map_or("", |(name, _)| name)
    }

    /// A temperature from a number in thousandths; `None` where it has more digits than a thermometer
    /// gives, or is no rounded whole degree Fahrenheit where it should be one.
    pub fn read(self, thousandths: i64) -> Option<Temperature> {
        let whole = |n: i64, by: i64| (n % by == 0).then(|| n / by);
        match self {
            Self::Celsius => whole(thousandths, 10).map(Temperature::from_hundredths_c),
            Self::Fahrenheit => whole(thousandths, 10).map(Temperature::from_hundredths_f),
            Self::TenthsCelsius => whole(thousandths, 100).map(Temperature::from_hundredths_c),
            Self::CelsiusFromFahrenheit => whole(thousandths, 100).and_then(from_tenths_c),
            Self::TenthsCelsiusFromFahrenheit => whole(thousandths, 1_000).and_then(from_tenths_c),
        }
    }
}

/// The whole degree Fahrenheit whose rounded Celsius tenth this is.
fn from_tenths_c(tenths: i64) -> Option<Temperature> {
    // 9 tenths of F are 5 tenths of C; the nearest whole degree lies within a few of the quotient.
    let near = (tenths * 9 / 5 + 320) / 10;
    (near - 2..=near + 2)
        .map(|f| Temperature::from_hundredths_f(f * 100))
        .find(|t| t.tenths().0 == tenths || rounds_down_to(*t, tenths))
}

/// Some programs cut a half tenth towards zero where others round it away.
fn rounds_down_to(t: Temperature, tenths: i64) -> bool {
    let twentieths = t.celsius() * 20.0;
    (twentieths - twentieths.round()).abs() < 1e-9 && (t.celsius() * 10.0 - tenths as f64).abs() <= 0.5 + 1e-9
}

/// How depths of snow are written.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum SnowUnit {
    /// Centimetres, as read.
    Centimetres,
    /// Millimetres, as read.
    Millimetres,
    /// Inches, as read.
    Inches,
    /// Whole millimetres worked out from inches: `457` is 18 in exactly. Whole inches for depth, tenths for
    /// new snow.
    MillimetresFromInches,
}

impl SnowUnit {
    /// All, with the name used on the command line.
    pub const ALL: [(&'static str, Self); 4] = [
        ("cm", Self::Centimetres),
        ("mm", Self::Millimetres),
        ("in", Self::Inches),
        ("mm-from-in", Self::MillimetresFromInches),
    ];

    /// Its name.
    pub fn name(self) -> &'static str {
        Self::ALL.iter().find(|(_, unit)| *unit == self).map_or("", |(name, _)| name)
    }

    /// A depth from a number in thousandths; `None` where it has more digits than a ruler gives, or is no
    /// rounded inch where it should be one.
    pub fn read(self, thousandths: i64) -> Option<Depth> {
        match self {
            Self::Centimetres => Some(Depth::from_thousandths_cm(thousandths)),
            Self::Millimetres => (thousandths % 10 == 0).then(|| Depth::from_thousandths_cm(thousandths / 10)),
            Self::Inches => (thousandths % 10 == 0).then(|| Depth::from_hundredths_in(thousandths / 10)),
            Self::MillimetresFromInches => {
                let mm = (thousandths % 1_000 == 0).then_some(thousandths / 1_000)?;
                // A whole inch where it is one; else a tenth, which new snow is read to.
                whole_inch(mm).or_else(|| {
                    let tenth = (mm * 100 + 127) / 254;
                    let depth = Depth::from_hundredths_in(tenth * 10);
                    ((depth.thousandths_cm() + 50) / 100 == mm).then_some(depth)
                })
            }
        }
    }
}

fn whole_inch(mm: i64) -> Option<Depth> {
    let inch = (mm * 10 + 127) / 254;
    let depth = Depth::from_hundredths_in(inch * 100);
    ((depth.thousandths_cm() + 50) / 100 == mm).then_some(depth)
}

/// What was proposed, and from what.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Proposed<U> {
    /// The unit.
    pub unit: U,
    /// Where the proposal comes from.
    pub from: From,
}

/// Where a proposal comes from.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum From {
    /// The headers name it.
    Header,
    /// The numbers allow no other, or fit no other.
    Numbers,
}

/// A run of numbers that all fit a rounded conversion is one only from so many different ones on.
const ENOUGH: usize = 10;

/// The temperatures' unit by the header and the numbers (thousandths); `None` where both leave it open.
pub fn propose_temperature(header: Option<TemperatureUnit>, numbers: &[i64]) -> Option<Proposed<TemperatureUnit>> {
    use TemperatureUnit as T;
    let fits = |unit: T| various(numbers) >= ENOUGH && numbers.iter().all(|n| unit.read(*n).is_some());
    let broken = numbers.iter().any(|n| n % 1_000 != 0);
    let most = numbers.iter().map(|n| n.abs()).max().unwrap_or_default();
    let by_numbers = |unit| Some(Proposed { unit, from: From::Numbers });
    match header {
        Some(T::Celsius) if broken && fits(T::CelsiusFromFahrenheit) => by_numbers(T::CelsiusFromFahrenheit),
        Some(unit) => Some(Proposed { unit, from: From::Header }),
        // No winter's air is at 140 degrees of either scale.
        None if most > 140_000 && !broken && fits(T::TenthsCelsiusFromFahrenheit) => {
            by_numbers(T::TenthsCelsiusFromFahrenheit)
        }
        None if most > 140_000 => by_numbers(T::TenthsCelsius),
        // A minimum above 45 is no Celsius.
        None if numbers.iter().any(|n| *n > 45_000) => by_numbers(T::Fahrenheit),
        None if broken && fits(T::CelsiusFromFahrenheit) => by_numbers(T::CelsiusFromFahrenheit),
        None => None,
    }
}

/// The depths' unit by the header and the numbers (thousandths); `None` where both leave it open.
pub fn propose_snow(header: Option<SnowUnit>, numbers: &[i64]) -> Option<Proposed<SnowUnit>> {
    use SnowUnit as S;
    let fits =
        |unit: S| various(numbers) >= ENOUGH && numbers.iter().all(|n| n % 1_000 == 0 && unit.read(*n).is_some());
    let most = numbers.iter().copied().max().unwrap_or_default();
    match header {
        Some(S::Millimetres) if fits(S::MillimetresFromInches) && all_inches(numbers) => {
            Some(Proposed { unit: S::MillimetresFromInches, from: From::Numbers })
        }
        Some(unit) => Some(Proposed { unit, from: From::Header }),
        // Four metres of snow on the ground is not deer country, in cm or in inches.
        None if most > 400_000 && fits(S::MillimetresFromInches) && all_inches(numbers) => {
            Some(Proposed { unit: S::MillimetresFromInches, from: From::Numbers })
        }
        None if most > 400_000 => Some(Proposed { unit: S::Millimetres, from: From::Numbers }),
        None => None,
    }
}

/// Tenths of an inch leave hardly a millimetre out: only whole inches prove anything.
fn all_inches(numbers: &[i64]) -> bool {
    let whole: Vec<i64> = numbers.iter().copied().filter(|n| whole_inch(n / 1_000).is_some()).collect();
    various(&whole) >= ENOUGH && whole.len() * 10 >= numbers.len() * 9
}

fn various(numbers: &[i64]) -> usize {
    numbers.iter().collect::<std::collections::BTreeSet<_>>().len()
}
