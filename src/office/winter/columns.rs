//! What each column of a log holds, by its header: in any order, with or without its unit.

use super::note::Note;
use super::units::{SnowUnit, TemperatureUnit};
use crate::words::Arg;

/// What a column holds.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
#[allow(missing_docs)]
pub enum Column {
    Date,
    Year,
    Month,
    Day,
    Place,
    Minimum,
    Maximum,
    Mean,
    Depth,
    NewSnow,
    Sink,
}

impl Column {
    /// True for a temperature.
    pub const fn is_temperature(self) -> bool {
        matches!(self, Self::Minimum | Self::Maximum | Self::Mean)
    }

    /// True for a depth of snow.
    pub const fn is_snow(self) -> bool {
        matches!(self, Self::Depth | Self::NewSnow | Self::Sink)
    }

    /// The message id of its name.
    pub const fn id(self) -> &'static str {
        match self {
            Self::Date => "winter.column.date",
            Self::Year => "winter.column.year",
            Self::Month => "winter.column.month",
            Self::Day => "winter.column.day",
            Self::Place => "winter.column.place",
            Self::Minimum => "winter.column.minimum",
            Self::Maximum => "winter.column.maximum",
            Self::Mean => "winter.column.mean",
            Self::Depth => "winter.column.depth",
            Self::NewSnow => "winter.column.new_snow",
            Self::Sink => "winter.column.sink",
        }
    }
}

/// Headers as weather services and notebooks write them, freed of units, case and marks.
const NAMES: &[(Column, &[&str])] = &[
    (Column::Date, &["date", "date time", "day date", "local date", "date lst", "obs date"]),
    (Column::Year, &["year"]),
    (Column::Month, &["month"]),
    (Column::Day, &["day"]),
    (Column::Place, &["station", "station name", "name", "place", "site", "log"]),
    (
        Column::Minimum,
        &[
            "tmin",
            "t min",
            "min",
            "minimum",
            "low",
            "min temp",
            "minimum temp",
            "temp min",
            "min temperature",
            "minimum temperature",
            "minimum air temperature",
            "temperature min",
            "temperature minimum",
            "daily minimum",
            "day minimum",
            "lowest temperature",
        ],
    ),
    (
        Column::Maximum,
        &[
            "tmax",
            "t max",
            "max",
            "maximum",
            "high",
            "max temp",
            "maximum temp",
            "temp max",
            "max temperature",
            "maximum temperature",
            "maximum air temperature",
            "temperature max",
            "temperature maximum",
            "daily maximum",
            "day maximum",
            "highest temperature",
        ],
    ),
    (
        Column::Mean,
        &[
            "tavg",
            "tmean",
            "mean",
            "average",
            "mean temp",
            "average temp",
            "mean temperature",
            "average temperature",
            "day mean",
        ],
    ),
    (
        Column::Depth,
        &[
            "snwd",
            "depth",
            "snow depth",
            "snow on ground",
            "snow on grnd",
            "snow on the ground",
            "snowdepth",
            "depth of snow",
            "day snow depth",
        ],
    ),
    (Column::NewSnow, &["snow", "new snow", "snowfall", "total snow", "fresh snow", "snow fall", "day new snow"]),
    (Column::Sink, &["sink", "sinking depth", "sink depth", "sinking", "gauge sink", "day sink"]),
];

const CELSIUS: &[&str] = &["c", "celsius", "degc", "deg c", "\u{b0}c"];
const FAHRENHEIT: &[&str] = &["f", "fahrenheit", "degf", "deg f", "\u{b0}f"];

/// The columns of a file.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Columns {
    /// What each column holds, and its place in the row.
    pub of: Vec<(Column, usize)>,
    /// The temperatures' unit, where the headers name it, each column's own.
    pub temperatures: Vec<(Column, TemperatureUnit)>,
    /// The depths' unit, where the headers name it.
    pub snow: Vec<(Column, SnowUnit)>,
    /// Headers that were not used.
    pub idle: Vec<String>,
}

impl Columns {
    /// Where a column stands.
    pub fn place(&self, column: Column) -> Option<usize> {
        self.of.iter().find(|(c, _)| *c == column).map(|(_, place)| *place)
    }
}

/// Why the headers are no log.
#[derive(Clone, Debug, PartialEq)]
pub enum NoColumns {
    /// No date.
    NoDate(Note),
    /// Nothing that is logged.
    NoReading(Note),
    /// Two columns of one kind.
    Twice(Note),
}

impl NoColumns {
    /// What to say.
    pub const fn note(&self) -> &Note {
        match self {
            Self::NoDate(note) | Self::NoReading(note) | Self::Twice(note) => note,
        }
    }
}

/// What each header means.
///
/// # Errors
/// Where no date, or nothing that is logged, is among them; or one thing stands in two columns.
pub fn columns(header: &[String]) -> Result<Columns, NoColumns> {
    let mut out = Columns::default();
    for (place, text) in header.iter().enumerate() {
        let Some((column, unit)) = meaning(text) else {
            if !text.is_empty() {
                out.idle.push(text.clone());
            }
            continue;
        };
        if let Some(before) = out.place(column) {
            // A station's number and its name, in one file: the name is for reading.
            if column == Column::Place {
                out.of.retain(|(c, _)| *c != Column::Place);
            } else {
                let first = header.get(before).cloned().unwrap_or_default();
                let args = vec![("first", Arg::Text(first)), ("second", Arg::Text(text.clone()))];
                return Err(NoColumns::Twice(Note::look(None, "winter.csv.twice", args)));
            }
        }
        out.of.push((column, place));
        match unit {
            Some(Unit::Temperature(unit)) if column.is_temperature() => out.temperatures.push((column, unit)),
            Some(Unit::Snow(unit)) if column.is_snow() => out.snow.push((column, unit)),
            _ => {}
        }
    }
    let found = || vec![("found", Arg::Text(header.join(", ")))];
    let parts = [Column::Year, Column::Month, Column::Day].iter().all(|c| out.place(*c).is_some());
    if out.place(Column::Date).is_none() && !parts {
        return Err(NoColumns::NoDate(Note::look(None, "winter.csv.no_date", found())));
    }
    if !out.of.iter().any(|(c, _)| c.is_temperature() || c.is_snow()) {
        return Err(NoColumns::NoReading(Note::look(None, "winter.csv.no_reading", found())));
    }
    Ok(out)
}

enum Unit {
    Temperature(TemperatureUnit),
    Snow(SnowUnit),
}

fn unit(words: &str) -> Option<Unit> {
    Some(match words {
        w if CELSIUS.contains(&w) => Unit::Temperature(TemperatureUnit::Celsius),
        w if FAHRENHEIT.contains(&w) => Unit::Temperature(TemperatureUnit::Fahrenheit),
        "cm" | "centimetres" | "centimeters" => Unit::Snow(SnowUnit::Centimetres),
        "mm" | "millimetres" | "millimeters" => Unit::Snow(SnowUnit::Millimetres),
        "in" | "inch" | "inches" => Unit::Snow(SnowUnit::Inches),
        _ => return None,
    })
}

/// The column of a header and the unit that it names; `None` for what is not used.
fn meaning(text: &str) -> Option<(Column, Option<Unit>)> {
    let lower = text.to_lowercase().replace('\u{ba}', "\u{b0}");
    let plain: String = lower.chars().map(|c| if c.is_alphanumeric() || c == '\u{b0}' { c } else { ' ' }).collect();
    let words: Vec<&str> = plain.split_whitespace().collect();
    let named = |words: &[&str]| {
        let joined = words.join(" ");
        NAMES.iter().find(|(_, all)| all.contains(&joined.as_str())).map(|(column, _)| *column)
    };
    if let Some(column) = named(&words) {
        return Some((column, None));
    }
    // The unit is the last word, or the last two (`deg C`).
    [1, 2].into_iter().find_map(|n| {
        let (name, last) = words.split_at_checked(words.len().checked_sub(n)?)?;
        Some((named(name)?, Some(unit(&last.join(" "))?)))
    })
}
