//! From a folded winter log to what the methods take.

use std::collections::BTreeMap;

use crate::record::{Answer, Fold, Sheet, Site, Standing, Value};
use crate::science::winter::log::{Crust, DayLog, Gauge, Log, ReadAt, Said};
use crate::science::winter::measure::{Depth, Temperature};

/// Every finding of a log that is read once a day.
pub const OF_A_DAY: [&str; 7] = [
    "day_minimum_c",
    "day_snow_depth_cm",
    "day_new_snow_cm",
    "day_maximum_c",
    "day_sink_cm",
    "day_crust",
    "day_mean_c",
];

/// All logs of a journal, in the order of their ids.
pub fn logs(fold: &Fold) -> Vec<Log> {
    fold.winter_logs.values().map(log).collect()
}

/// One log. Answers of a day that differ are both kept; only what was read counts.
pub fn log(sheet: &Sheet) -> Log {
    let mut days: BTreeMap<_, DayLog> = BTreeMap::new();
    for (code, site, standing) in sheet.answers() {
        let Some(date) = site.day else { continue };
        let degrees = || Said::of(standing.iter().filter_map(number).map(Temperature::from_record));
        let depth = || Said::of(standing.iter().filter_map(thickness).map(Depth::from_thousandths_cm));
        let day = days.entry(date.date()).or_default();
        match code.as_str() {
            "day_minimum_c" => day.minimum = degrees(),
            "day_maximum_c" => day.maximum = degrees(),
            "day_mean_c" => day.mean = degrees(),
            "day_snow_depth_cm" => day.depth = depth(),
            "day_new_snow_cm" => day.new_snow = depth(),
            "day_sink_cm" => day.sink = depth(),
            "day_crust" => day.crust = settled(sheet, "day_crust", site).as_deref().and_then(crust),
            _ => {}
        }
    }
    days.retain(|_, day| *day != DayLog::default());
    let read_at = settled(sheet, "log_read_at", Site::NONE).and_then(|code| match code.as_str() {
        "morning" => Some(ReadAt::Morning),
        "evening" => Some(ReadAt::Evening),
        "midnight" => Some(ReadAt::Midnight),
        _ => None,
    });
    let gauge = settled(sheet, "log_sink_gauge", Site::NONE).map(|code| match code.as_str() {
        "quebec_2_kg" => Gauge::Quebec,
        "copper_3_lb" => Gauge::Copper,
        "deer_tracks" => Gauge::DeerTracks,
        _ => Gauge::Other,
    });
    Log { place: place(sheet), read_at, gauge, days }
}

/// What a log's place is called; empty where nobody has said.
pub fn place(sheet: &Sheet) -> String {
    match sheet.answer("log_place_name") {
        Answer::Seen { value: Value::Text(name) } => name,
        _ => String::new(),
    }
}

fn number(standing: &Standing) -> Option<i64> {
    match standing.answer {
        Answer::Seen { value: Value::Number(n) } => Some(n),
        _ => None,
    }
}

/// A depth of snow: none that was looked for is a depth of zero.
fn thickness(standing: &Standing) -> Option<i64> {
    if standing.answer == Answer::NotSeen { Some(0) } else { number(standing) }
}

/// The option on which all who looked agree.
fn settled(sheet: &Sheet, finding: &str, site: Site) -> Option<String> {
    match sheet.question(finding, site).settled() {
        Some(Answer::Seen { value: Value::Choice(code) }) => Some(code.clone()),
        _ => None,
    }
}

fn crust(code: &str) -> Option<Crust> {
    Some(match code {
        "none" => Crust::None,
        "breaks_under_deer" => Crust::BreaksUnderDeer,
        "holds_deer" => Crust::HoldsDeer,
        "holds_predator_only" => Crust::HoldsPredatorOnly,
        _ => return None,
    })
}
