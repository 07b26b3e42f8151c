//! Checks against SciPy (`tests/reference/death.csv`), the numbered check rows of the method's reference,
//! and laws of the joining of bounds.
#![allow(clippy::unwrap_used, clippy::indexing_slicing, clippy::panic)]

use proptest::prelude::*;

use super::cooling::{Air, Body, Site};
use super::early::{Early, Eyes, Stiffness};
use super::freezing::Part;
use super::rule::ROWS;
use super::snow::{Dates, Fall, Layer, Lie, Seen};
use super::weather::{DayTemp, Weather};
use super::weathering::Stage;
use super::window::End;
use super::*;

const TABLE: &str = include_str!("../../../tests/reference/death.csv");

/// 12 February 2027 09:00 at -05:00, when the body of rows 23 to 25 was found.
const FOUND: Instant = 1_802_440_800;

/// Local midnight so many days after 1 February 2027, plus hours.
fn feb(day: i64, hour: i64) -> Instant {
    FOUND - 9 * HOUR_S + (day - 12) * DAY_S + hour * HOUR_S
}

fn day(start: Instant, mean: f64) -> DayTemp {
    DayTemp { start, mean_c: [mean, mean], high_c: Some(mean + 3.0) }
}

/// Days of these means, the last one first, so that the last begins at 12 February.
fn days(means: &[f64]) -> Vec<DayTemp> {
    let mut all: Vec<DayTemp> = (0..).zip(means).map(|(back, mean)| day(feb(12 - back, 0), *mean)).collect();
    all.reverse();
    all
}

fn near(ours: f64, theirs: f64, within: f64) {
    assert!((ours - theirs).abs() <= within, "{ours} against {theirs}");
}

#[test]
fn scipy_comes_to_the_same() {
    let mut rows = 0;
    for line in TABLE.lines().filter(|l| !l.starts_with('#')).skip(1) {
        let cells: Vec<&str> = line.split(',').collect();
        let n: Vec<f64> = cells[1..7].iter().map(|c| c.parse().unwrap()).collect();
        let [look_h, now, t, start, k, value] = n[..] else { panic!("{line}") };
        let means: Vec<f64> = cells[7].split_whitespace().map(|d| d.parse().unwrap()).collect();
        let all = days(&means);
        #[allow(clippy::cast_possible_truncation)]
        let look = feb(12, 0) + (look_h * 3_600.0) as i64;
        match cells[0] {
            "steady" => {
                near(cooling::cooled_for(t, start, now, k), value, 1e-9 * value);
                near(cooling::rate(t, start, now, value), k, 1e-9);
                let air = Air { now_c: now, days: &[] };
                near(air.hours_back(look, t, start, k).unwrap(), value, 1e-9 * value);
            }
            "days" => {
                let air = Air { now_c: now, days: &all };
                near(air.hours_back(look, t, start, k).unwrap(), value, 1e-6);
            }
            "sum" => {
                // In these rows the cells are base, sign and sum.
                let (sign, sum) = (t, start);
                let each: fn(&DayTemp) -> f64 = if sign < 0.0 { DayTemp::most_frost } else { DayTemp::least_thaw };
                let back = Weather::up_to(&all, look).back_to(look, sum, each).unwrap();
                near((look - back) as f64 / 3_600.0, value, 1.5 / 3_600.0);
            }
            other => panic!("{other}"),
        }
        rows += 1;
    }
    assert!(rows > 40, "{rows}");
}

/// Rows 15, 17, 20, 21, 36 of the check values.
#[test]
fn check_rows_of_cooling_and_freezing() {
    for (k, hours) in [(0.10, 5.65), (0.05, 11.31), (0.03, 18.84)] {
        near(cooling::cooled_for(20.0, 39.0, -5.0, k), hours, 0.005);
    }
    near(cooling::rate(27.0, 38.5, 0.0, 40.0), 0.0089, 0.000_05);
    for (hours, k) in [(3.2, 0.0845), (2.1, 0.1287), (4.7, 0.0575)] {
        near(cooling::rate(34.5, 39.0, 20.0, hours), k, 0.000_05);
    }
    near(Part::Thigh.plank_degree_hours(), 1_062.0, 0.5);
    near(Part::Thigh.middle_degree_days(), 61.9, 0.05);
    near(Part::Thigh.middle_degree_days() / (10.0 - 1.5), 7.3, 0.05);
    near(Part::Trunk.plank_degree_hours(), 2_503.0, 0.5);
    near(Part::Trunk.middle_degree_days(), 146.0, 0.5);
    // The table of section 5.3, low, middle and high.
    let table = [(2.0, 5.6, 9.0), (18.0, 45.0, 73.0), (25.0, 62.0, 99.0), (58.0, 146.0, 234.0)];
    for (part, (low, middle, high)) in Part::ALL.into_iter().zip(table) {
        let [ours_low, ours_high] = part.degree_days(false);
        near(ours_low, low, 0.5);
        near(part.middle_degree_days(), middle, 0.5);
        near(ours_high, high, 0.6);
        near(part.degree_days(true)[0] * 3.0, ours_low, 1e-12);
    }
}

fn falls() -> Dates {
    let p = Fall::seen(feb(4, 2), feb(4, 10));
    let q = Fall::seen(feb(9, 20), feb(10, 6));
    Dates::new(&[p, q], FOUND, None, None)
}

fn row_23() -> Vec<Bound> {
    let seen = Seen { over: Some((Layer::Last, Lie::TwoSides)), under: Some(Layer::SecondLast), ..Seen::default() };
    let mut all = snow::bounds(&seen, &falls()).bounds;
    all.push(Bound::high(Rule::Found, FOUND, true));
    all
}

const P_TO_Q: (Rule, Rule) = (Rule::SnowUnder, Rule::SnowOver);

/// Row 23: between the fall under it and the fall over it.
#[test]
fn check_row_23() {
    let window = combine(&row_23()).unwrap();
    assert_eq!(window.low, Some(End { at: feb(4, 2), rule: P_TO_Q.0 }));
    assert_eq!(window.high, Some(End { at: feb(10, 6), rule: P_TO_Q.1 }));
    assert!(window.dropped.is_empty());
    assert_eq!(window.hours(), Some(148.0));
    assert_eq!(window.middle(), None, "wider than a day");
}

/// Row 24: the thigh is not frozen, but only 40 degree days of frost have fallen since 4 February.
#[test]
fn check_row_24() {
    // 40 degree days from 4 to 10 February, and thaw-free before without reaching 99.
    let log: Vec<DayTemp> = (1..=12).map(|d| day(feb(d, 0), if d < 4 { -5.0 } else { -1.5 - 40.0 / 6.0 })).collect();
    let weather = Weather::up_to(&log, FOUND);
    near(weather.sum(feb(4, 0), feb(10, 0), DayTemp::most_frost), 40.0, 1e-9);
    let found = freezing::bound(Part::Thigh, false, false, false, &weather, Looked::at(FOUND));
    assert_eq!(found.silent, [(Rule::ThighFrozen, Silent::LogTooShort)]);
    let mut all = row_23();
    all.extend(found.bounds);
    let window = combine(&all).unwrap();
    assert_eq!((window.low.unwrap().rule, window.high.unwrap().rule), P_TO_Q);
}

/// Row 25: a twitch says within four hours, the snow says days ago: the snow is kept, the twitch listed.
#[test]
fn check_row_25() {
    let early = Early { twitch: Some(true), ..Early::default() };
    let mut all = row_23();
    all.extend(early::bounds(&early, Looked::at(FOUND)).bounds);
    let window = combine(&all).unwrap();
    assert_eq!((window.low.unwrap().rule, window.high.unwrap().rule), P_TO_Q);
    let dropped = window.dropped[0];
    assert_eq!((dropped.bound.rule, dropped.against), (Rule::Twitch, Rule::SnowOver));
    assert_eq!(dropped.bound.low, Some(feb(12, 5)), "12 February 05:00");
}

/// Row 27: stage 2 is two to seven years or more, so not of this winter.
#[test]
fn check_row_27() {
    assert_eq!(Stage::S2.years(), (2, Some(7)));
    let mut all = weathering::bound(Stage::S2, Looked::at(FOUND)).bounds;
    all.push(Bound::high(Rule::Found, FOUND, true));
    all.push(Bound::low(Rule::SeasonStart, feb(1, 0), false));
    let window = combine(&all).unwrap();
    let high = window.high.unwrap();
    assert_eq!(high.rule, Rule::BoneWeathering);
    near((FOUND - high.at) as f64 / DAY_S as f64, 730.5, 0.01);
    assert_eq!(window.dropped[0].bound.rule, Rule::SeasonStart, "the assumption gives way");
}

/// Section 5.1, hours by rule, and what stiffness says of a frozen body: nothing.
#[test]
fn the_first_hours() {
    let of = |seen: Early| early::bounds(&seen, Looked::at(FOUND));
    let hours = |found: &Found| {
        let b = found.bounds[0];
        (b.rule, b.high.map(|at| (FOUND - at) / HOUR_S), b.low.map(|at| (FOUND - at) / HOUR_S))
    };
    let stiff =
        |stiffness, thigh_c| Early { stiffness: Some(stiffness), thigh_c, air_c: Some(3.0), ..Early::default() };
    let limp = stiff(Stiffness::Limp, Some(33.0));
    assert_eq!(hours(&of(limp)), (Rule::LimpWarm, Some(0), Some(6)));
    assert_eq!(hours(&of(stiff(Stiffness::JawOnly, None))), (Rule::JawStiff, Some(1), Some(12)));
    assert_eq!(hours(&of(stiff(Stiffness::AllOver, Some(6.0)))), (Rule::AllStiff, Some(3), Some(72)));
    let gone = Early { ever_frozen: Some(false), ..stiff(Stiffness::Limp, Some(4.0)) };
    assert_eq!(hours(&of(gone)), (Rule::StiffnessGone, Some(24), None));
    let eyes = |eyes, air_c| Early { eyes: Some(eyes), air_c, ..Early::default() };
    assert_eq!(hours(&of(eyes(Eyes::ClearAndRound, Some(2.0)))), (Rule::EyesClear, Some(0), Some(12)));
    assert_eq!(hours(&of(eyes(Eyes::SunkenOrCloudy, None))), (Rule::EyesSunken, Some(6), None));
    let blood = |air_c| Early { blood_liquid: Some(true), air_c, ..Early::default() };
    assert_eq!(hours(&of(blood(Some(-9.0)))), (Rule::BloodLiquid, Some(0), Some(2)));
    let warm = Early { warm: Some(true), ..Early::default() };
    assert_eq!(hours(&of(warm)), (Rule::BodyWarm, Some(0), Some(24)));
    for (seen, why) in [
        (stiff(Stiffness::AllOver, Some(-2.0)), Silent::FrozenStiff),
        (stiff(Stiffness::AllOver, None), Silent::NeedsThigh),
        (Early { frozen: Some(true), ..stiff(Stiffness::JawOnly, None) }, Silent::FrozenStiff),
        (stiff(Stiffness::Limp, None), Silent::LimpUndecided),
        (Early { ever_frozen: Some(true), ..stiff(Stiffness::Limp, Some(4.0)) }, Silent::WasFrozen),
        (eyes(Eyes::ClearAndRound, Some(-1.0)), Silent::ColdEyes),
        (eyes(Eyes::Gone, Some(5.0)), Silent::Pecked),
        (blood(Some(-5.0)), Silent::TooMildForBlood),
        (blood(None), Silent::NeedsAir),
    ] {
        let found = of(seen);
        assert!(found.bounds.is_empty() && found.silent[0].1 == why, "{seen:?}: {found:?}");
    }
    let nothing = Early { twitch: Some(false), warm: Some(false), blood_liquid: Some(false), ..Early::default() };
    assert_eq!(of(nothing), Found::default(), "no twitch proves nothing");
}

/// Section 5.2: the earliest by the fast rate and the low start, the latest by the slow rate and the high
/// start and two hours more.
#[test]
fn cooling_bounds_and_refusals() {
    let air = Air { now_c: -5.0, days: &[] };
    let span = cooling::hours(Site::Thigh, 20.0, Body::default(), &air, FOUND).unwrap();
    near(span.earliest_h, libm::log(42.5 / 25.0) / 0.10, 1e-9);
    near(span.latest_h.unwrap(), libm::log(46.0 / 25.0) / 0.03 + 2.0, 1e-9);
    let fawn = Body { fawn: true, opened: true, ..Body::default() };
    near(fawn.factor(), 3.2, 1e-12);
    let faster = cooling::hours(Site::Thigh, 20.0, fawn, &air, FOUND).unwrap();
    near(faster.earliest_h * 3.2, span.earliest_h, 1e-9);
    let chased = Body { chased: true, ..Body::default() };
    assert!(cooling::hours(Site::Thigh, 20.0, chased, &air, FOUND).unwrap().latest_h > span.latest_h);
    let near_air = cooling::hours(Site::Thigh, -2.0 + 3.0, Body::default(), &Air { now_c: -2.0, days: &[] }, FOUND);
    let near_air = near_air.unwrap();
    near(near_air.earliest_h, libm::log(39.5 / 4.0) / 0.10, 1e-9);
    assert_eq!(near_air.latest_h, None);
    let of = |site, t, now_c| cooling::hours(site, t, Body::default(), &Air { now_c, days: &[] }, FOUND);
    assert_eq!(of(Site::Thigh, 42.0, 0.0), Err(Silent::TooWarm));
    assert_eq!(of(Site::Thigh, -1.0, -8.0), Err(Silent::FrozenThere));
    assert_eq!(of(Site::Thigh, 35.0, 34.0), Err(Silent::ColderThanAir));
    assert_eq!(of(Site::Nose, 0.5, -4.0), Err(Silent::NoseTooLate));
    assert!(of(Site::Nose, 20.0, -8.0).is_ok());
    // The moose of the reference, still at 27 C after 40 h, is a far larger body than any deer.
    let moose = of(Site::Belly, 27.0, 0.0).unwrap();
    assert!(moose.latest_h.unwrap() < 40.0);
    // Where the log ends before the slowest body was warm, only the least time is left.
    let short = days(&[-5.0]);
    let cut = cooling::hours(Site::Thigh, 20.0, Body::default(), &Air { now_c: -5.0, days: &short }, FOUND).unwrap();
    assert_eq!(cut.latest_h, None);
}

/// Sections 5.4 and 5.5.
#[test]
fn layers_and_scavengers() {
    let dates = falls();
    let only = |seen: Seen| snow::bounds(&seen, &dates);
    let over = |layer, lie| only(Seen { over: Some((layer, lie)), ..Seen::default() });
    assert!(over(Layer::Last, Lie::TwoSides).bounds[0].hard);
    assert!(!over(Layer::Last, Lie::Doubtful).bounds[0].hard, "S10: drift makes it soft");
    assert_eq!(over(Layer::Last, Lie::Cached).silent, [(Rule::SnowOver, Silent::Cached)], "S11: void");
    assert_eq!(over(Layer::ThirdLast, Lie::TwoSides).silent, [(Rule::SnowOver, Silent::NoDates)]);
    let blood = only(Seen { blood: Some(Layer::SecondLast), ..Seen::default() }).bounds[0];
    assert_eq!((blood.low, blood.high), (Some(feb(4, 2)), Some(feb(10, 6))));
    let blood = only(Seen { blood: Some(Layer::Last), ..Seen::default() }).bounds[0];
    assert_eq!((blood.low, blood.high), (Some(feb(9, 20)), None));
    let tracks = only(Seen { cut: Some(Layer::SecondLast), filled: Some(Layer::Last), ..Seen::default() });
    assert_eq!((tracks.bounds[0].low, tracks.bounds[1].high), (Some(feb(4, 2)), Some(feb(10, 6))));
    assert_eq!(only(Seen { melt_cast: true, ..Seen::default() }).silent, [(Rule::MeltCast, Silent::NoDate)]);
    assert_eq!(only(Seen { crust_over: true, ..Seen::default() }).silent, [(Rule::CrustOver, Silent::NoThaw)]);
    assert_eq!(only(Seen::default()), Found::default());
    // Two falls within six hours are one layer; a trace is none; a mere rise of depth binds nothing hard.
    let near_falls = [Fall::seen(feb(8, 1), feb(8, 3)), Fall::seen(feb(8, 8), feb(8, 12))];
    assert_eq!(Dates::new(&near_falls, FOUND, None, None).layers().len(), 1);
    let trace = Fall { depth_mm: Some(9), ..Fall::seen(feb(8, 1), feb(8, 3)) };
    assert!(Dates::new(&[trace], FOUND, None, None).layers().is_empty());
    let drift = Fall { measured: false, ..Fall::seen(feb(8, 1), feb(8, 3)) };
    let dates = Dates::new(&[drift], FOUND, None, None);
    let seen = Seen { over: Some((Layer::Last, Lie::TwoSides)), under: Some(Layer::Last), ..Seen::default() };
    assert!(snow::bounds(&seen, &dates).bounds.iter().all(|b| !b.hard));

    // Ravens took up to 43 kg a day (source S45); six wolves at 10 kg each.
    near(eaten::least_days(43.0, &[(eaten::Eater::RavenFlock, 1)]).unwrap(), 1.0, 1e-12);
    near(eaten::least_days(30.0, &[(eaten::Eater::Wolf, 6)]).unwrap(), 0.5, 1e-12);
    near(eaten::eaten_kg(eaten::Gone::All, false), 50.0 * 0.7 * 0.9, 1e-12);
    let unknown = eaten::bound(eaten::Gone::All, false, Err(Silent::UnknownEater), Looked::at(FOUND));
    assert_eq!(unknown.silent, [(Rule::Eaten, Silent::UnknownEater)]);
}

/// Section 5.6, and the log's limits.
#[test]
fn decay_needs_warm_days() {
    let log = days(&[4.0, 6.0, 8.0, 5.0, -3.0, -4.0]);
    let weather = Weather::up_to(&log, FOUND);
    let of = |seen| decay::bounds(seen, &weather, Looked::at(FOUND));
    let bloated = of(decay::Decay { bloated: true, ..Default::default() }).bounds[0];
    // 9 h of 4, 24 h of 6, then 7.5 of the 8: 1.5 + 6 + 7.5 = 15 degree days.
    assert_eq!(bloated.high, Some(feb(10, 0) + (DAY_S - 81_000)));
    let slips = of(decay::Decay { hair_slips: true, ..Default::default() });
    assert_eq!(slips.silent, [(Rule::HairSlips, Silent::LogTooShort)]);
    let fresh = |frozen| of(decay::Decay { fresh: true, frozen, ..Default::default() }).silent[0].1;
    assert_eq!((fresh(true), fresh(false)), (Silent::WasFrozen, Silent::LogTooShort));
    let flies = of(decay::Decay { flies: true, ..Default::default() }).bounds[0];
    assert_eq!(flies.high, Some(feb(11, 0)), "10 February rose to 11 C");
    let gnawed = of(decay::Decay { bones_only: true, gnawed: true, ..Default::default() });
    assert_eq!(gnawed.silent, [(Rule::BonesUngnawed, Silent::Gnawed)]);
    // A gap ends the log.
    let mut gap = log.clone();
    gap.remove(3);
    assert_eq!(Weather::up_to(&gap, FOUND).days().len(), 2);
    assert!(Weather::up_to(&log[..4], FOUND).is_empty(), "a log that ends before the look says nothing");
}

/// A thaw voids what an unfrozen part says; snow over it too.
#[test]
fn an_unfrozen_part_bounds_only_in_steady_frost() {
    let cold = days(&[-20.0; 12]);
    let at = Looked::at(FOUND);
    let of = |log: &[DayTemp], snow| freezing::bound(Part::Thigh, false, false, snow, &Weather::up_to(log, FOUND), at);
    let low = of(&cold, false).bounds[0].low.unwrap();
    near((FOUND - low) as f64 / DAY_S as f64, Part::Thigh.degree_days(false)[1] / 18.5, 0.001);
    assert_eq!(of(&cold, true).silent[0].1, Silent::UnderSnow);
    let mut thaw = cold.clone();
    thaw[9].high_c = Some(1.0);
    assert_eq!(of(&thaw, false).silent[0].1, Silent::Thawed);
    thaw[9].high_c = None;
    assert_eq!(of(&thaw, false).silent[0].1, Silent::Thawed, "what was not read may have been a thaw");
    assert_eq!(of(&[], false).silent[0].1, Silent::NoLog);
    let frozen = freezing::bound(Part::Trunk, true, false, true, &Weather::up_to(&cold, FOUND), at).bounds[0];
    near((FOUND - frozen.high.unwrap()) as f64 / DAY_S as f64, Part::Trunk.degree_days(false)[0] / 18.5, 0.001);
    assert_eq!(frozen.low, None, "a frozen trunk gives no upper bound");
}

#[test]
fn every_rule_has_its_row_in_its_order() {
    for (index, row) in ROWS.iter().enumerate() {
        assert_eq!(row.rule as usize, index, "{}", row.id);
        assert_eq!(row.rule.row().id, row.id);
    }
    let mut ids: Vec<&str> = ROWS.iter().map(|r| r.id).collect();
    ids.sort_unstable();
    ids.dedup();
    assert_eq!(ids.len(), ROWS.len());
}

fn any_bound() -> impl Strategy<Value = Bound> {
    (0..ROWS.len(), prop::option::of(0_i64..100), prop::option::of(0_i64..100), any::<bool>())
        .prop_map(|(rule, low, high, hard)| Bound { rule: ROWS[rule].rule, low, high, hard })
}

fn within(inner: &Window, outer: &Window) -> bool {
    let low = outer.low.is_none_or(|o| inner.low.is_some_and(|i| i.at >= o.at));
    let high = outer.high.is_none_or(|o| inner.high.is_some_and(|i| i.at <= o.at));
    low && high
}

proptest! {
    /// The order of answering does not matter.
    #[test]
    fn order_does_not_matter(bounds in prop::collection::vec(any_bound(), 0..9), turn in 0_usize..9) {
        let mut turned = bounds.clone();
        turned.rotate_left(turn.min(bounds.len()));
        turned.reverse();
        prop_assert_eq!(combine(&bounds), combine(&turned));
    }

    /// Every hard bound more leaves the hard window the same or smaller, or conflicts; and the whole
    /// window lies within the hard one.
    #[test]
    fn hard_bounds_only_shrink(bounds in prop::collection::vec(any_bound(), 0..9), more in any_bound()) {
        let hard: Vec<Bound> = bounds.iter().copied().filter(|b| b.hard).collect();
        let more = Bound { hard: true, ..more };
        if let Ok(before) = combine(&hard) {
            if let Ok(after) = combine(&[hard.clone(), vec![more]].concat()) {
                prop_assert!(within(&after, &before));
            }
            if let Ok(whole) = combine(&bounds) {
                prop_assert!(within(&whole, &before));
            }
        }
    }

    /// Where no soft bound conflicts, a hard bound more shrinks the whole window too.
    #[test]
    fn without_conflict_everything_shrinks(bounds in prop::collection::vec(any_bound(), 0..9), more in any_bound()) {
        let more = Bound { hard: true, ..more };
        if let (Ok(before), Ok(after)) = (combine(&bounds), combine(&[bounds.clone(), vec![more]].concat()))
            && after.dropped.is_empty()
        {
            prop_assert!(within(&after, &before));
        }
    }

    /// Nothing is lost: every bound is taken or listed as dropped; hard ones are never dropped.
    #[test]
    fn every_bound_is_taken_or_listed(bounds in prop::collection::vec(any_bound(), 0..9)) {
        if let Ok(window) = combine(&bounds) {
            let mut told: Vec<Bound> = window.taken.clone();
            told.extend(window.dropped.iter().map(|d| d.bound));
            told.sort_unstable();
            let mut all = bounds.clone();
            all.sort_unstable();
            prop_assert_eq!(told, all);
            prop_assert!(window.dropped.iter().all(|d| !d.bound.hard));
            if let (Some(low), Some(high)) = (window.low, window.high) {
                prop_assert!(low.at <= high.at, "never empty");
            }
        }
    }

    /// A bound that says nothing changes nothing.
    #[test]
    fn an_empty_bound_changes_no_end(bounds in prop::collection::vec(any_bound(), 0..9), rule in 0..ROWS.len()) {
        let nothing = Bound { rule: ROWS[rule].rule, low: None, high: None, hard: false };
        let with = combine(&[bounds.clone(), vec![nothing]].concat());
        let ends = |w: Result<Window, Conflict>| w.map(|w| (w.low, w.high, w.dropped));
        prop_assert_eq!(ends(with), ends(combine(&bounds)));
    }
}
