//! The scene sketch: marks as they were paced out, laid on the ground.

use std::collections::BTreeMap;

use crate::record::{Answer, PersonCode, Sheet, Site, Value};
use crate::science::place::{Leg, Spot, Told, laid};

/// How far a mark was from the one before it, as it was told.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum HowFar {
    /// Paces, and how long one was taken to be in centimetres.
    Paces {
        /// Paces counted.
        count: i64,
        /// Centimetres a pace.
        pace_cm: i64,
    },
    /// Measured, in decimetres.
    Decimetres(i64),
}

impl HowFar {
    /// In metres.
    pub fn metres(self) -> f64 {
        match self {
            Self::Paces { count, pace_cm } => (count * pace_cm) as f64 / 100.0,
            Self::Decimetres(dm) => dm as f64 / 10.0,
        }
    }
}

/// One mark.
#[derive(Clone, Debug, PartialEq)]
pub struct Mark {
    /// Its number, from 1.
    pub number: u16,
    /// What it is, as the option's code.
    pub what: String,
    /// What it was paced from; 0 is the body.
    pub from: u16,
    /// Bearing read, degrees from the sketch's north.
    pub bearing_deg: u16,
    /// How far.
    pub far: HowFar,
    /// Both ends of its leg; `None` where it was paced from a mark that is not there.
    pub ends: Option<(Spot, Spot)>,
}

impl Mark {
    /// Whether the leg itself is what was seen: tracks, a trail, a drag.
    pub fn is_line(&self) -> bool {
        matches!(self.what.as_str(), "tracks" | "trail_to_body" | "drag")
    }
}

/// What one person drew.
#[derive(Clone, Debug, PartialEq)]
pub struct Sketch {
    /// Who paced.
    pub by: PersonCode,
    /// Which north, as the option's code; `None` where nobody said.
    pub north: Option<String>,
    /// Where the head points, in degrees from that north.
    pub head_deg: Option<u16>,
    /// The marks, by number.
    pub marks: Vec<Mark>,
}

/// What stands at one number for one person.
#[derive(Default)]
struct Parts<'a> {
    what: Option<&'a str>,
    numbers: BTreeMap<&'a str, i64>,
}

/// The sketches of one examination, one a person, in order of their codes. A mark that lacks what it is, its bearing
/// or its distance is not drawn.
pub fn sketches(sheet: &Sheet) -> Vec<Sketch> {
    let mut people: BTreeMap<&PersonCode, BTreeMap<u16, Parts>> = BTreeMap::new();
    for (finding, site, standing) in sheet.answers().filter(|(finding, ..)| finding.as_str().starts_with("sketch_")) {
        for one in standing {
            let item = match (site, finding.as_str()) {
                (Site { item: Some(item), .. }, _) => item,
                (_, "sketch_north" | "sketch_head_deg") => 0,
                _ => continue,
            };
            let Answer::Seen { value } = &one.answer else { continue };
            let parts = people.entry(&one.observer).or_default().entry(item).or_default();
            match value {
                Value::Choice(code) => parts.what = Some(code),
                Value::Number(n) => {
                    parts.numbers.insert(finding.as_str(), *n);
                }
                _ => {}
            }
        }
    }
    people.into_iter().filter_map(|(by, parts)| sketch(by, &parts)).collect()
}

fn sketch(by: &PersonCode, parts: &BTreeMap<u16, Parts>) -> Option<Sketch> {
    let mut marks: Vec<Mark> = parts.iter().filter_map(|(number, parts)| mark(*number, parts)).collect();
    let told: Vec<Told> = marks
        .iter()
        .map(|m| {
            let leg = Leg { distance_m: m.far.metres(), bearing_deg: f64::from(m.bearing_deg) };
            Told { from: m.from, number: m.number, leg }
        })
        .collect();
    for (mark, ends) in marks.iter_mut().zip(laid(&told)) {
        mark.ends = ends;
    }
    let body = parts.get(&0);
    let head_deg = body.and_then(|p| p.numbers.get("sketch_head_deg")).and_then(|n| u16::try_from(*n).ok());
    let north = body.and_then(|p| p.what).map(str::to_owned);
    (head_deg.is_some() || !marks.is_empty()).then(|| Sketch { by: by.clone(), north, head_deg, marks })
}

fn mark(number: u16, parts: &Parts) -> Option<Mark> {
    let n = |finding| parts.numbers.get(finding).copied();
    let far = match (n("sketch_paces_count"), n("sketch_pace_cm"), n("sketch_distance_m")) {
        (Some(count), Some(pace_cm), _) => HowFar::Paces { count, pace_cm },
        (_, _, Some(dm)) => HowFar::Decimetres(dm),
        _ => return None,
    };
    Some(Mark {
        number,
        what: parts.what.filter(|_| number > 0)?.to_owned(),
        from: u16::try_from(n("sketch_from_count")?).ok()?,
        bearing_deg: u16::try_from(n("sketch_bearing_deg")?).ok()?,
        far,
        ends: None,
    })
}
