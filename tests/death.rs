//! Time of death from findings: worked cases of the method's reference, conflicts, refusals with their
//! remedy, and what the age reading takes of it.
#![allow(clippy::unwrap_used, clippy::indexing_slicing, clippy::panic)]

use std::collections::BTreeMap;

use marrowbook::office::findings_table::FindingsTable;
use marrowbook::reading::{self, Given, Outcome, Reading, Readings, Timeline};
use marrowbook::record::{Fold, fold};
use marrowbook::science::winter::log::{DayLog, Log, ReadAt, Said};
use marrowbook::science::winter::measure::{Depth, Temperature};
use marrowbook::words::Language;
use proptest::prelude::*;
use serde_json::{Value, json};
use time::{Date, Month};
use uuid::Uuid;

fn folded(examinations: &[Vec<Value>]) -> (Fold, Uuid) {
    let all: Vec<Value> = examinations
        .iter()
        .map(|rows| json!({"kind": "field", "at": "2027-02-12T12:00:00-05:00", "findings": rows}))
        .collect();
    let table =
        json!({"format": "marrowbook-findings-1", "carcasses": [{"name": "deer", "examinations": all}]}).to_string();
    let tabled = FindingsTable::read(table.as_bytes()).unwrap().journal().unwrap();
    assert_eq!(tabled.set_aside, []);
    (fold(&tabled.journal), tabled.carcasses[0].1)
}

fn readings(examinations: &[Vec<Value>], logs: &[Log]) -> (Readings, Option<Timeline>) {
    let (fold, id) = folded(examinations);
    let given = Given::default().with(&fold, logs);
    (reading::all(&fold.carcasses[&id], &given), reading::timeline(&fold.carcasses[&id], &given))
}

fn death(examinations: &[Vec<Value>], logs: &[Log]) -> Reading {
    readings(examinations, logs).0.death.unwrap()
}

fn row(finding: &str, value: impl Into<Value>) -> Value {
    json!({"finding": finding, "value": value.into()})
}

fn item(finding: &str, item: u16, value: &str) -> Value {
    json!({"finding": finding, "item": item, "value": value})
}

/// Found on 12 February 2027 at 09:00, with more rows.
fn found(more: Vec<Value>) -> Vec<Value> {
    let mut rows = vec![row("species", "white_tailed_deer"), row("arrived_at", "2027-02-12T09:00:00-05:00")];
    rows.extend(more);
    rows
}

/// Falls P and Q of check rows 23 to 25, dated by the crew.
fn falls() -> Vec<Value> {
    vec![
        item("snowfall_began_at", 2, "2027-02-04T02:00:00-05:00"),
        item("snowfall_ended_at", 2, "2027-02-04T10:00:00-05:00"),
        item("snowfall_began_at", 1, "2027-02-09T20:00:00-05:00"),
        item("snowfall_ended_at", 1, "2027-02-10T06:00:00-05:00"),
    ]
}

fn between_p_and_q() -> Vec<Value> {
    let mut rows = falls();
    rows.extend([
        row("fall_over", "last_fall"),
        row("fall_over_lie", "two_sides"),
        row("fall_under", "second_last_fall"),
    ]);
    rows
}

fn with(mut rows: Vec<Value>, more: Vec<Value>) -> Vec<Value> {
    rows.extend(more);
    rows
}

fn says(reading: &Reading) -> Vec<String> {
    reading.statements.iter().chain(&reading.cautions).map(|s| s.say(Language::English)).collect()
}

fn said(reading: &Reading, part: &str) -> bool {
    says(reading).iter().any(|line| line.contains(part))
}

fn head(reading: &Reading) -> String {
    reading.statements[0].say(Language::English)
}

/// A log of daily minima and maxima from a day of January or February 2027 on; `new_cm` by day.
fn log(from: (Month, u8), minmax: &[(i64, i64)], new_cm: &[(usize, i64)]) -> Log {
    let mut date = Date::from_calendar_date(2027, from.0, from.1).unwrap();
    let mut days = BTreeMap::new();
    for (n, (min, max)) in minmax.iter().enumerate() {
        let new = new_cm.iter().find(|(day, _)| *day == n).map_or(0, |(_, cm)| *cm);
        let day = DayLog {
            minimum: Some(Said::one(Temperature::from_hundredths_c(min * 100))),
            maximum: Some(Said::one(Temperature::from_hundredths_c(max * 100))),
            new_snow: Some(Said::one(Depth::from_thousandths_cm(new * 1_000))),
            ..DayLog::default()
        };
        days.insert(date, day);
        date = date.next_day().unwrap();
    }
    Log { place: "Invented Hollow".to_owned(), read_at: Some(ReadAt::Midnight), gauge: None, days }
}

#[test]
fn check_row_23_in_words() {
    let r = death(&[found(between_p_and_q())], &[]);
    assert_eq!(r.outcome, Outcome::Read);
    assert_eq!(head(&r), "Died between 2027-02-04 02:00 and 2027-02-10 06:00");
    assert!(said(&r, "A snowfall lies under it: not before 2027-02-04 02:00. Sets the first end. [never left out"));
    assert!(said(&r, "A snowfall lies on it: not after 2027-02-10 06:00. Sets the last end."));
    assert!(said(&r, "Times are local, -05:00 from UTC."));
    // Layers are expert judgement in the reference: the mark is on the line.
    assert!(said(&r, "our choice, not published"));
    assert!(!said(&r, "LEFT OUT"));
    let days = &r.estimates[0];
    assert_eq!(days.best, None, "wider than a day: no point");
    assert!((days.low.unwrap() - 2.125).abs() < 1e-9 && (days.high.unwrap() - (8.0 + 7.0 / 24.0)).abs() < 1e-9);
}

#[test]
fn check_row_24_in_words() {
    // 40 degree days below -1.5 from 4 to 10 February: far from the 99 that a thigh may need.
    let cold: Vec<(i64, i64)> = vec![(-10, -6); 12];
    let rows = with(between_p_and_q(), vec![row("thigh_frozen_hard", Value::Null)]);
    let rows: Vec<Value> = rows
        .into_iter()
        .map(|r| if r["value"].is_null() { json!({"finding": "thigh_frozen_hard", "state": "not_seen"}) } else { r })
        .collect();
    let r = death(&[found(rows)], &[log((Month::February, 1), &cold, &[])]);
    assert_eq!(head(&r), "Died between 2027-02-04 02:00 and 2027-02-10 06:00");
    assert!(said(&r, "Frost in the thigh: gives no bound (the daily temperatures do not reach back so far)."));
}

#[test]
fn check_row_25_in_words() {
    let rows = with(between_p_and_q(), vec![row("muscle_twitch", "there")]);
    let r = death(&[found(rows)], &[]);
    assert_eq!(head(&r), "Died between 2027-02-04 02:00 and 2027-02-10 06:00");
    assert!(said(
        &r,
        "LEFT OUT: Muscle twitches, from 2027-02-12 05:00 to 2027-02-12 11:00. It runs against: A snowfall lies on it."
    ));
    assert!(said(&r, "Signs contradict each other"));
}

#[test]
fn check_row_27_in_words() {
    let rows = vec![
        row("body_state", "bones_and_hair"),
        row("snow_under_body", "bare_ground"),
        row("bone_weathering", "stage_2"),
        json!({"finding": "bones_greasy", "state": "not_seen"}),
    ];
    let r = readings(&[found(rows)], &[]).0;
    let death = r.death.unwrap();
    assert_eq!(head(&death), "Died between 2013-02-11 21:00 and 2025-02-11 23:00", "2 to twice 7 years");
    assert!(said(&death, "it may be of another winter"));
    assert!(!said(&death, "taken as the start of the season"), "the assumption gives way without noise");
}

/// A body that is said to lie where somebody later saw the place without it cannot be: the pair is named and
/// what to do.
#[test]
fn hard_evidence_that_conflicts_is_refused_with_the_pair() {
    let r = death(&[found(vec![row("place_clear_at", "2027-02-13T10:00:00-05:00")])], &[]);
    assert_eq!(r.outcome, Outcome::Refused);
    assert_eq!(
        head(&r),
        "No time: it cannot have died after 2027-02-13 10:00 (The place was seen without it) and before \
         2027-02-12 09:00 (Found dead). One of the two is wrong: look both up and correct it."
    );
    assert!(r.estimates.is_empty());
}

#[test]
fn a_death_after_the_find_is_refused_and_one_that_was_seen_is_told() {
    let after = death(&[found(vec![row("death_known_at", "2027-02-14T10:00:00-05:00")])], &[]);
    assert_eq!(after.outcome, Outcome::Refused);
    assert!(head(&after).contains("Seen to die") && head(&after).contains("look both up and correct it"));
    let seen = death(&[found(vec![row("death_known_at", "2027-02-11T10:00:00-05:00")])], &[]);
    assert_eq!(head(&seen), "Died at 2027-02-11 10:00, as seen");
}

#[test]
fn nothing_seen_leaves_the_start_open_and_says_what_would_help() {
    let r = death(&[found(vec![row("body_state", "whole"), row("snow_over_body", "covered")])], &[]);
    assert_eq!(head(&r), "Died before 2027-02-12 09:00. Nothing that was seen says how long before.");
    assert!(r.estimates.is_empty());
    assert!(said(&r, "Methods that need days take 2026-12-01 00:00 as the first"));
    let looks: Vec<&str> = r.sharpen.iter().map(|s| s.finding.as_str()).collect();
    assert_eq!(looks, ["fall_over", "fall_under", "place_clear_at"]);
    let (all, line) = readings(&[found(Vec::new())], &[]);
    assert!(all.death.unwrap().sources.iter().any(|s| s.id == "death-season"));
    assert!(line.unwrap().marks[0].open);
}

/// Worked by hand from section 5.2: thigh 20 C, air -5 C, a grown deer, probe at 09:00.
#[test]
fn a_fresh_body_is_dated_in_hours() {
    let rows = vec![
        row("body_state", "whole"),
        row("body_frozen", "not_frozen"),
        row("thigh_c", 20.0),
        row("air_now_c", -5.0),
        row("probed_at", "2027-02-12T09:00:00-05:00"),
        row("stiffness", "all_over"),
        row("eyes", "clear_and_round"),
    ];
    let r = death(&[found(rows.clone())], &[]);
    // ln(42.5/25)/0.10 = 5.306 h; ln(46/25)/0.03 + 2 = 22.325 h.
    assert_eq!(head(&r), "Died about 2027-02-11 19:11, between 2027-02-11 10:40 and 2027-02-12 03:41");
    assert!(said(&r, "Stiff all over, not frozen: from"));
    assert!(said(&r, "Eyes clear and round: gives no bound (air at 0"));
    assert!(said(&r, "the air is taken to have been as cold all along"));
    // With the outing's air instead, the same rule; without any, a reason.
    let without: Vec<Value> = rows.into_iter().filter(|r| r["finding"] != "air_now_c").collect();
    assert!(said(&death(&[found(without.clone())], &[]), "the temperature of the air is needed"));
    let outing = with(without, vec![row("air_temperature_c", -5)]);
    assert!(head(&death(&[found(outing)], &[])).starts_with("Died about"));
}

/// A frozen body: frost through the trunk needs at least 58 degree days below -1.5 C.
#[test]
fn frost_through_the_trunk_takes_days() {
    let cold: Vec<(i64, i64)> = vec![(-24, -19); 20];
    let logs = [log((Month::January, 24), &cold, &[])];
    let rows = vec![row("body_state", "whole"), row("body_frozen", "frozen_solid"), row("trunk_frozen_hard", "there")];
    let r = death(&[found(rows)], &logs);
    // 58.4 / 20 = 2.92 days before the look's end at 11:00.
    assert!(head(&r).starts_with("Died before 2027-02-09 12:"), "{}", head(&r));
    assert!(said(&r, "Frost in the trunk: not after"));
    assert!(said(&r, "the winter log of Invented Hollow"));
    assert!(said(&r, "worked out from figures that were read"));
}

/// Falls of the winter log, where the crew dated none: whole days, so that no bound is too narrow.
#[test]
fn the_winter_log_dates_the_layers() {
    let cold: Vec<(i64, i64)> = vec![(-12, -8); 20];
    // 15 cm on 4 February, 10 cm on 9 February, a trace on the 11th.
    let logs = [log((Month::January, 24), &cold, &[(11, 15), (16, 10)])];
    let rows = vec![
        row("body_state", "whole"),
        row("fall_over", "last_fall"),
        row("fall_over_lie", "two_sides"),
        row("fall_under", "second_last_fall"),
    ];
    let r = death(&[found(rows.clone())], &logs);
    assert_eq!(head(&r), "Died between 2027-02-04 00:00 and 2027-02-10 00:00");
    assert!(said(&r, "check that both count the same snowfalls"));
    let none = death(&[found(rows.clone())], &[]);
    assert!(said(&none, "A snowfall lies on it: gives no bound (nobody has dated that snowfall)."));
    assert!(none.sharpen.iter().any(|s| s.finding == "snowfall_began_at"));
    let two = death(&[found(rows)], &[logs[0].clone(), logs[0].clone()]);
    assert!(said(&two, "none was used"));
}

/// Rule S6 of the reference: a melt crust over the body, so death before that thaw ended. By the log the thaw ended
/// with the last day above 0 C, or with a later day of which nobody read the maximum.
#[test]
fn a_melt_crust_over_it_ends_with_the_logs_last_thaw() {
    let mut days: Vec<(i64, i64)> = vec![(-12, -8); 20];
    let rows = || vec![row("body_state", "whole"), row("crust_over_body", "there")];
    let cold = death(&[found(rows())], &[log((Month::January, 24), &days, &[])]);
    assert!(!said(&cold, "not after 2027-02-07 00:00"), "nothing thawed");
    // 6 February.
    days[13] = (-3, 3);
    let mut thawed = log((Month::January, 24), &days, &[]);
    let r = death(&[found(rows())], std::slice::from_ref(&thawed));
    assert!(said(&r, "not after 2027-02-07 00:00"));
    let unread = Date::from_calendar_date(2027, Month::February, 8).unwrap();
    thawed.days.get_mut(&unread).unwrap().maximum = None;
    let r = death(&[found(rows())], &[thawed]);
    assert!(said(&r, "not after 2027-02-09 00:00"));
}

#[test]
fn drift_and_caching_weaken_the_snow_over_it() {
    let over = |lie: Vec<Value>| death(&[found(with(falls(), with(vec![row("fall_over", "last_fall")], lie)))], &[]);
    assert!(said(
        &over(vec![row("fall_over_lie", "drifted")]),
        "A snowfall lies on it: not after 2027-02-10 06:00. Sets the last end. [gives way"
    ));
    assert!(said(
        &over(vec![row("cached_over", "there")]),
        "A snowfall lies on it: gives no bound (an animal heaped snow on it"
    ));
}

#[test]
fn a_report_and_a_camera_bound_it() {
    let rows = vec![row("report_seen_at", "2027-02-11T07:30:00-05:00"), row("report_state", "dead")];
    let r = death(&[found(rows)], &[]);
    assert_eq!(head(&r), "Died before 2027-02-11 07:30. Nothing that was seen says how long before.");
    // Somebody passed the day before and nothing lay there.
    let rows = vec![
        row("report_seen_at", "2027-02-11T07:30:00-05:00"),
        row("report_state", "dead"),
        row("report_clear_at", "2027-02-10T15:00:00-05:00"),
    ];
    let r = death(&[found(rows)], &[]);
    assert!(head(&r).contains("2027-02-10 15:00 and 2027-02-11 07:30"), "{}", head(&r));
    let alive = vec![row("report_seen_at", "2027-02-11T07:30:00-05:00"), row("report_state", "alive")];
    let r = death(&[found(alive)], &[]);
    assert!(head(&r).contains("2027-02-11 07:30 and 2027-02-12 09:00"));
    assert!(said(&r, "Seen alive: not before 2027-02-11 07:30. Sets the first end. [gives way"));
    let collar = vec![row("collar_switched_at", "2027-02-11T07:30:00-05:00"), row("collar_delay_min", 240)];
    assert!(said(
        &death(&[found(collar)], &[]),
        "The collar changed its signal, less its delay: not after 2027-02-11 03:30"
    ));
}

/// Our own rule, no source: a sheet is typed in days after the look at the body.
#[test]
fn a_sheet_of_paper_typed_in_later_says_nothing_of_when_the_deer_was_found() {
    let seen = || vec![row("species", "white_tailed_deer"), row("body_state", "whole")];
    let typed_there = death(&[seen()], &[]);
    assert!(head(&typed_there).contains("2027-02-12"), "{}", head(&typed_there));
    let from_paper = with(seen(), vec![row("from_paper", "there")]);
    let r = death(std::slice::from_ref(&from_paper), &[]);
    assert!(!says(&r).iter().chain([&head(&r)]).any(|line| line.contains("2027-02-12")), "{:?}", says(&r));
    // What the sheet itself says of the time is taken.
    let dated = with(from_paper, vec![row("arrived_at", "2027-02-10T09:00:00-05:00")]);
    assert!(head(&death(&[dated], &[])).contains("2027-02-10 09:00"));
}

#[test]
fn scavengers_give_a_least_time_and_never_a_most() {
    let eaten = |more: Vec<Value>| death(&[found(with(vec![row("body_state", "mostly_eaten")], more))], &[]);
    let tracks = |who: &str| json!({"finding": "tracks_by", "value": [who]});
    // 50 kg x 0.70 x 0.5 = 17.5 kg; 2 coyotes at 4 kg a day: 2.1875 days before 11:00.
    let r = eaten(vec![tracks("coyote"), row("eaters_count", 2)]);
    assert!(said(&r, "So much cannot be eaten faster: not after 2027-02-10 06:30."));
    assert!(said(&eaten(vec![tracks("coyote")]), "the number of animals is needed"));
    assert!(said(&eaten(vec![tracks("bear"), row("eaters_count", 1)]), "nobody knows how much"));
    assert!(!said(&eaten(Vec::new()), "So much cannot be eaten faster"));
}

/// Two observers who differ: every way is worked out, and the window spans them.
#[test]
fn answers_that_differ_are_each_worked_out() {
    let mut rows = found(with(falls(), vec![row("fall_over", "last_fall"), row("fall_over_lie", "two_sides")]));
    rows.push(json!({"finding": "fall_over", "value": "second_last_fall", "observer": "B2"}));
    let r = death(&[rows], &[]);
    assert_eq!(r.variants.len(), 2);
    let heads: Vec<String> = r.variants.iter().map(|v| v.headline.say(Language::English)).collect();
    assert!(
        heads.iter().any(|h| h.contains("2027-02-04 10:00")) && heads.iter().any(|h| h.contains("2027-02-10 06:00"))
    );
    assert!(head(&r).contains("2027-02-10 06:00"), "the wider end: {}", head(&r));
    assert!(said(&r, "Answers differ"));
}

/// Two visits: each look counts at its own time; the earlier find bounds.
#[test]
fn two_visits_each_count_at_their_own_time() {
    let second = vec![row("arrived_at", "2027-02-20T09:00:00-05:00"), row("body_warm", "there")];
    let r = death(&[found(between_p_and_q()), second], &[]);
    assert_eq!(head(&r), "Died between 2027-02-04 02:00 and 2027-02-10 06:00");
    assert!(said(&r, "LEFT OUT: Steams, or warm under the foreleg"));
}

/// Age takes the window: its days are the bounded ones, and the assumption is gone.
#[test]
fn the_age_reading_counts_months_to_the_window() {
    let jaw = vec![
        json!({"finding": "cheek_teeth_count", "side": "left", "value": 5}),
        json!({"finding": "third_tooth", "side": "left", "value": "three_cusps"}),
    ];
    let assumed = readings(&[found(jaw.clone())], &[]).0.age;
    assert!(said(&assumed, "Days of death taken as 2026-12-01 to 2027-02-12") && said(&assumed, "is assumed"));
    let bounded = readings(&[found(with(jaw, between_p_and_q()))], &[]).0.age;
    assert!(said(&bounded, "Days of death taken as 2027-02-04 to 2027-02-10") && !said(&bounded, "is assumed"));
    let months = |r: &Reading| r.estimates[1].high.unwrap() - r.estimates[1].low.unwrap();
    assert!(months(&bounded) < months(&assumed), "a narrower window, fewer months");
    assert!(bounded.rests_on.len() > assumed.rests_on.len(), "it rests on the snow's entries too");
}

#[test]
fn other_species_and_unknown_ones_are_refused() {
    let rows = vec![row("arrived_at", "2027-02-12T09:00:00-05:00"), row("species", "other_deer")];
    assert_eq!(death(&[rows], &[]).outcome, Outcome::Refused);
    let unknown = vec![row("arrived_at", "2027-02-12T09:00:00-05:00"), row("muscle_twitch", "there")];
    let r = death(&[unknown], &[]);
    assert_eq!((r.outcome, r.sharpen[0].finding.as_str()), (Outcome::Refused, "species"));
}

#[test]
fn the_timeline_holds_window_storms_and_visits() {
    let rows = with(between_p_and_q(), vec![row("place_clear_at", "2027-02-03T15:00:00-05:00")]);
    let line = readings(&[found(rows)], &[]).1.unwrap();
    let kinds: Vec<&str> = line.marks.iter().map(|m| m.kind.rsplit('.').next().unwrap()).collect();
    assert_eq!(kinds, ["window", "without", "snowfall", "snowfall", "visit"]);
    assert_eq!(line.local(line.marks[0].from), "2027-02-04 02:00");
    assert!(line.marks.iter().all(|m| line.span.0 <= m.from && m.to <= line.span.1));
    // Room of half a day behind the last of them: a rule of the drawing.
    assert_eq!(line.span.1 - line.marks.iter().map(|m| m.to).max().unwrap(), 43_200);
}

/// Rows that bound nothing when they are not answered, `NotLooked`, or cannot be told.
const BOUNDS: &[(&str, &str)] = &[
    ("fall_over", "last_fall"),
    ("fall_under", "second_last_fall"),
    ("stiffness", "jaw_only"),
    ("eyes", "sunken_or_cloudy"),
    ("blood_layer", "last_fall"),
    ("event_tracks_cut", "second_last_fall"),
    ("event_tracks_filled", "last_fall"),
    ("blood_state", "liquid_or_smears"),
    ("bone_weathering", "stage_0"),
];

proptest! {
    #![proptest_config(ProptestConfig::with_cases(24))]

    /// The order of answering does not matter; an unanswered question, one not looked at and one that
    /// cannot be told change nothing.
    #[test]
    fn order_and_unanswered(picked in prop::collection::vec(0..BOUNDS.len(), 0..6), turn in 0_usize..6, none in 0..BOUNDS.len()) {
        let mut picked = picked;
        picked.sort_unstable();
        picked.dedup();
        let rows: Vec<Value> = picked.iter().map(|n| row(BOUNDS[*n].0, BOUNDS[*n].1)).collect();
        let one = death(&[found(with(falls(), rows.clone()))], &[]);
        let mut turned = rows.clone();
        turned.rotate_left(turn.min(rows.len()));
        turned.reverse();
        let other = death(&[found(with(turned, falls()))], &[]);
        prop_assert_eq!((&one.statements, &one.estimates), (&other.statements, &other.estimates));
        if !picked.contains(&none) {
            for state in ["not_looked", "cant_tell"] {
                let silent = json!({"finding": BOUNDS[none].0, "state": state, "why": "dark"});
                let with_it = death(&[found(with(falls(), with(rows.clone(), vec![silent])))], &[]);
                prop_assert_eq!((&one.statements, &one.estimates), (&with_it.statements, &with_it.estimates));
            }
        }
    }
}
