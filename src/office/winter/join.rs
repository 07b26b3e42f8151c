//! Logs of several files, one a place. A station sends a file a month, and the next one reaches back: days that
//! say the same are one, days that do not are both kept and named.

use std::collections::BTreeMap;

use time::Date;

use crate::science::winter::log::{DayLog, Log, Said};

/// A log and the file that it comes from.
#[derive(Clone, Debug)]
pub struct FromFile {
    /// What the file is called.
    pub file: String,
    /// Its log of one place.
    pub log: Log,
}

/// Two files that disagree on a day.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Clash {
    /// The place.
    pub place: String,
    /// The day.
    pub day: Date,
    /// The file that said it first, and the one that says otherwise.
    pub files: [String; 2],
}

/// One log a place, gauge and time of reading, in the order in which they were first found.
pub fn join(all: Vec<FromFile>) -> (Vec<Log>, Vec<Clash>) {
    let mut joined: Vec<(Log, BTreeMap<Date, String>)> = Vec::new();
    let mut clashes = Vec::new();
    for FromFile { file, log } in all {
        let same = |(known, _): &&mut (Log, _)| {
            known.place == log.place && known.gauge == log.gauge && known.read_at == log.read_at
        };
        let Some((known, said_by)) = joined.iter_mut().find(same) else {
            let said_by = log.days.keys().map(|day| (*day, file.clone())).collect();
            joined.push((log, said_by));
            continue;
        };
        for (date, day) in &log.days {
            let before = known.day(*date);
            let first = said_by.entry(*date).or_insert_with(|| file.clone());
            if contradicts(&before, day) {
                clashes.push(Clash { place: log.place.clone(), day: *date, files: [first.clone(), file.clone()] });
            }
            known.days.insert(*date, both(&before, day));
        }
    }
    (joined.into_iter().map(|(log, _)| log).collect(), clashes)
}

fn differ<T: PartialEq>(a: Option<T>, b: Option<T>) -> bool {
    a.zip(b).is_some_and(|(a, b)| a != b)
}

/// Something that both read, and read differently.
fn contradicts(a: &DayLog, b: &DayLog) -> bool {
    differ(a.minimum, b.minimum)
        || differ(a.maximum, b.maximum)
        || differ(a.mean, b.mean)
        || differ(a.depth, b.depth)
        || differ(a.new_snow, b.new_snow)
        || differ(a.sink, b.sink)
        || differ(a.crust, b.crust)
}

fn wider<T: Copy + Ord>(a: Option<Said<T>>, b: Option<Said<T>>) -> Option<Said<T>> {
    Said::of([a, b].into_iter().flatten().flat_map(|said| [said.low, said.high]))
}

fn both(a: &DayLog, b: &DayLog) -> DayLog {
    DayLog {
        minimum: wider(a.minimum, b.minimum),
        maximum: wider(a.maximum, b.maximum),
        mean: wider(a.mean, b.mean),
        depth: wider(a.depth, b.depth),
        new_snow: wider(a.new_snow, b.new_snow),
        sink: wider(a.sink, b.sink),
        // A crust has no ends: where files differ it was not read.
        crust: if differ(a.crust, b.crust) { None } else { a.crust.or(b.crust) },
    }
}
