//! Daily logs that the office keeps in the archive: `winter/NAME.csv`, and beside it `winter/NAME.units.json` where a
//! person has written down what the file does not say of itself.
//!
//! ```text
//! {"temperature": "f", "snow": "in", "place": "North gate"}
//! ```
//!
//! Members: `temperature`, `snow`, `dates`, `gauge` with the words of `office winter --help`, and `place`; each may
//! lack. No unit is ever taken from the numbers by themselves: a file whose units nobody wrote down is not used.

use serde::Deserialize;

use super::{LANGUAGE, tell};
use crate::office::winter::cells::DateOrder;
use crate::office::winter::table::{Confirmed, Draft};
use crate::office::winter::units::{From, SnowUnit, TemperatureUnit};
use crate::science::winter::log::{Gauge, Log};

#[derive(Deserialize, Default)]
#[serde(deny_unknown_fields, default)]
struct Units {
    temperature: Option<String>,
    snow: Option<String>,
    dates: Option<String>,
    gauge: Option<String>,
    place: Option<String>,
}

fn named<T: Copy>(member: &str, given: Option<&String>, all: &[(&'static str, T)]) -> Result<Option<T>, String> {
    let Some(given) = given else { return Ok(None) };
    let names = || all.iter().map(|(name, _)| *name).collect::<Vec<_>>().join(", ");
    let found = all.iter().find(|(name, _)| name == given).map(|(_, one)| *one);
    found.map(Some).ok_or_else(|| format!("its units: `{member}`: `{given}` is none of {}", names()))
}

/// The logs of a file. `stem` names the place where neither the file nor its units do.
///
/// # Errors
/// Why it is not used, as a clause.
pub fn read(stem: &str, bytes: &[u8], units: Option<&[u8]>) -> Result<Vec<Log>, String> {
    let units: Units = match units {
        Some(units) => serde_json::from_slice(units).map_err(|error| format!("its units: {error}"))?,
        None => Units::default(),
    };
    let draft = Draft::read(bytes).map_err(|error| error.say(LANGUAGE))?;
    let gauges = [
        ("quebec", Gauge::Quebec),
        ("copper", Gauge::Copper),
        ("deer-tracks", Gauge::DeerTracks),
        ("other", Gauge::Other),
    ];
    let orders = [("month-first", DateOrder::MonthFirst), ("day-first", DateOrder::DayFirst)];
    let mut told = Confirmed {
        temperature: named("temperature", units.temperature.as_ref(), &TemperatureUnit::ALL)?,
        snow: named("snow", units.snow.as_ref(), &SnowUnit::ALL)?,
        dates: named("dates", units.dates.as_ref(), &orders)?,
        gauge: named("gauge", units.gauge.as_ref(), &gauges)?,
        place: units.place.unwrap_or_else(|| stem.to_owned()),
        read_at: None,
    };
    // What the header itself says is no guess.
    told.temperature = told.temperature.or(draft.temperature.filter(|p| p.from == From::Header).map(|p| p.unit));
    told.snow = told.snow.or(draft.snow.filter(|p| p.from == From::Header).map(|p| p.unit));
    if !draft.open(&told).is_empty() {
        return Err(tell("season.units_not_told", &[("file", stem.to_owned().into())]));
    }
    Ok(draft.table(&told).logs)
}
