//! Time of death: every bound that the record gives, joined into one window.

mod assemble;
mod clock;
pub mod ids;
mod layers;
mod log;
mod remains;
mod seasons;
mod sharpen;
mod take;
mod timeline;
mod told;

use time::Date;

use super::Given;
use super::lens::{Answers, Ask, Lens, Picks, Used};
use super::shape::Reading;
use super::window::Window as Days;
use crate::record::{Carcass, Examination, Site, Value, links};
use crate::science::age::DeathWindow;
use crate::science::death::{Bound, Conflict, Instant, Rule, Window, combine, weathering};
pub(super) use assemble::read;
pub use clock::JUMP_S as CLOCK_JUMP_S;
pub(super) use clock::earliest as earliest_in;
use log::LogData;
use take::{Taken, Visit, take};
pub use timeline::{Mark, Timeline, timeline};

/// Findings of an examination that bound its death.
const FINDINGS: &[&str] = &[
    "arrived_at",
    "place_clear_at",
    "seen_alive_at",
    "death_known_at",
    "collar_switched_at",
    "collar_delay_min",
    "snow_over_body",
    "snow_under_body",
    "snow_depth_cm",
    "fall_over",
    "fall_over_lie",
    "fall_under",
    "event_tracks_cut",
    "event_tracks_filled",
    "blood_layer",
    "crust_over_body",
    "on_pedestal",
    "cached_over",
    "eaters_count",
    "tracks_by",
    "droppings_by",
    "bird_signs",
    "bones_scattered",
    "hair_state",
    "chase_or_struggle_marks",
    "body_state",
    "body_frozen",
    "body_buried",
    "decay",
    "quick_class",
    "eyes",
    "blood_state",
    "stiffness",
    "body_warm",
    "muscle_twitch",
    "thigh_c",
    "belly_c",
    "nose_c",
    "air_now_c",
    "probed_at",
    "leg_frozen_hard",
    "neck_frozen_hard",
    "thigh_frozen_hard",
    "trunk_frozen_hard",
    "fly_eggs_or_maggots",
    "bone_weathering",
    "bones_greasy",
    "hair_mat_left",
    "plants_pressed",
    "plants_grown_through",
    "moss_on_bones",
];
const OF_OUTING: &[&str] = &["snowfall_began_at", "snowfall_ended_at", "air_temperature_c", "wind_km_h"];
const OF_REPORT: &[&str] = &["report_clear_at", "report_seen_at", "report_state"];

/// One way of settling answers that differ.
struct Way {
    /// Of which visit, by its place, and how.
    picks: Option<(usize, Picks)>,
    result: Result<Window, Conflict>,
}

/// Everything worked out for one carcass.
struct Read<'a> {
    visits: Vec<Visit<'a>>,
    takens: Vec<Taken<'a>>,
    ways: Vec<Way>,
    log: LogData,
    jumped: bool,
    whole: bool,
    used: Used<'a>,
}

/// The reading, and the days for the methods that need them.
pub(super) struct DeathRead<'a> {
    pub(super) reading: Reading,
    pub(super) days: Option<Days>,
    pub(super) used: Used<'a>,
}

fn visit_of<'a>(carcass: &'a Carcass, exam: &'a Examination, given: &Given<'a>) -> Visit<'a> {
    let linked = |finding: &str| match exam.sheet.answer(finding).value() {
        Some(Value::Ref(id)) => Some(*id),
        _ => None,
    };
    let outing = linked(links::OUTING);
    // Where no report was named, the outing's id stands in for one.
    let report = linked(links::REPORT).or(outing);
    let sheet_of = |id, pick: fn(&crate::record::Fold, uuid::Uuid) -> Option<&crate::record::Sheet>| {
        given.beside.zip(id).and_then(|(fold, id)| pick(fold, id))
    };
    let outing = sheet_of(outing, |fold, id| fold.outings.get(&id));
    let report = sheet_of(report, |fold, id| fold.reports.get(&id));
    Visit {
        exam: Answers::of_examination(carcass, &exam.sheet, FINDINGS),
        outing: outing.map_or_else(Answers::none, |sheet| Answers::of_sheet(sheet, OF_OUTING)),
        report: report.map_or_else(Answers::none, |sheet| Answers::of_sheet(sheet, OF_REPORT)),
        clock: clock::earliest(&exam.sheet),
    }
}

impl<'a> Read<'a> {
    fn of(carcass: &'a Carcass, given: &Given<'a>) -> Self {
        let mut exams: Vec<&Examination> =
            carcass.examinations.values().filter(|e| e.kind.as_deref() != Some("bench")).collect();
        if exams.is_empty() {
            // Of a jaw brought in only the bench knows a day.
            exams = carcass.examinations.values().collect();
        }
        let jumped = exams.iter().any(|exam| clock::jumped(&exam.sheet));
        let visits: Vec<Visit> = exams.into_iter().map(|exam| visit_of(carcass, exam, given)).collect();
        // The offset and the season are those of the first arrival, whatever else differs.
        let none = LogData::default();
        let plain = |log: &LogData, start| -> Vec<Taken<'a>> {
            visits.iter().map(|visit| take(visit, Picks::new(), log, start)).collect()
        };
        let first = plain(&none, 0);
        let offset = offset_of(&first);
        let log = LogData::of(given.logs, offset);
        let start = seasons::midnight(seasons::season_start(found_date(&first)), offset);
        let takens = plain(&log, start);
        let joined = |takens: &[Taken]| {
            let mut bounds: Vec<Bound> = takens.iter().flat_map(|t| t.found.bounds.iter().copied()).collect();
            if let Some(found) = found_at(takens) {
                bounds.extend(assumed(takens, found, offset));
            }
            combine(&bounds)
        };
        let mut ways = vec![Way { picks: None, result: joined(&takens) }];
        let mut used = Used::new();
        let asks: Vec<Ask> = FINDINGS.iter().filter(|f| **f != "arrived_at").map(|f| (*f, Site::NONE)).collect();
        let mut whole = true;
        for (place, visit) in visits.iter().enumerate() {
            let (picked, all) = Lens::new(&visit.exam, Picks::new()).ways(&asks);
            whole &= all && (picked.len() <= 1 || ways.len() == 1);
            for picks in picked.into_iter().skip(1) {
                let mut other = plain(&log, start);
                if let Some(slot) = other.get_mut(place) {
                    *slot = take(visit, picks.clone(), &log, start);
                }
                ways.push(Way { picks: Some((place, picks)), result: joined(&other) });
                used.extend(other.into_iter().flat_map(|t| t.used));
            }
        }
        used.extend(takens.iter().flat_map(|t| t.used.iter().map(|(id, answer)| (*id, *answer))));
        Self { visits, takens, ways, log, jumped, whole, used }
    }

    fn takens(&self) -> &[Taken<'a>] {
        &self.takens
    }

    fn offset_minutes(&self) -> i32 {
        offset_of(&self.takens)
    }

    fn windows(&self) -> impl Iterator<Item = &Window> {
        self.ways.iter().filter_map(|way| way.result.as_ref().ok())
    }

    /// From the first end of any way, with whether it is assumed, to the last end of any; `None` where
    /// nothing has a date.
    fn hull(&self) -> Option<(Option<(Instant, bool)>, Instant)> {
        let high = self.windows().filter_map(|w| w.high).map(|end| end.at).max()?;
        let lows = self.windows().map(|w| w.low.map(|end| (end.at, end.rule.is_assumed())));
        let low = lows.reduce(|a, b| a.zip(b).map(|(a, b)| if b.0 < a.0 { b } else { a })).flatten();
        Some((low, high))
    }

    /// The days, for methods that count months.
    fn days(&self) -> Option<Days> {
        let offset = self.offset_minutes();
        let by_clock = self.takens.iter().all(|t| t.by_clock);
        let date = |at| seasons::local_date(at, offset);
        if let Some((low, high)) = self.hull() {
            let to = date(high);
            let from = low.map_or_else(|| seasons::days_before(to, 3_650), |(at, _)| date(at));
            let known = low.is_some_and(|(_, assumed)| !assumed);
            return Some(Days { days: DeathWindow { from: from.min(to), to }, by_clock, known });
        }
        // Bounds that contradict each other bound nothing: the season up to the find is left.
        let found = date(found_at(&self.takens)?);
        let from = seasons::season_start(found).min(found);
        Some(Days { days: DeathWindow { from, to: found }, by_clock, known: false })
    }
}

fn found_at(takens: &[Taken]) -> Option<Instant> {
    takens.iter().filter_map(|t| t.arrived).map(crate::record::Moment::unix_seconds).min()
}

fn offset_of(takens: &[Taken]) -> i32 {
    let first = takens.iter().filter_map(|t| t.arrived).min_by_key(|at| at.unix_seconds());
    first.map_or(0, crate::record::Moment::offset_minutes)
}

fn found_date(takens: &[Taken]) -> Date {
    seasons::local_date(found_at(takens).unwrap_or_default(), offset_of(takens))
}

/// The soft start that stands where nothing was seen.
fn assumed(takens: &[Taken], found: Instant, offset: i32) -> Vec<Bound> {
    let start = seasons::midnight(seasons::season_start(seasons::local_date(found, offset)), offset);
    let mut all = vec![Bound::low(Rule::SeasonStart, start, false)];
    if takens.iter().all(|t| t.flesh) {
        all.push(weathering::persistence(found));
    }
    all
}
