//! Snowfalls and degree days. The rules are the project's own; sums are worked by hand beside each.

use marrowbook::science::winter::degree_days::{BODY_FREEZES, Side, Thaw, degree_days, thawed};
use marrowbook::science::winter::log::{DayLog, Log, ReadAt, Said};
use marrowbook::science::winter::measure::{Depth, Temperature};
use marrowbook::science::winter::snowfall::{Basis, snowfalls};

use crate::days::{cm, date, gappy, log};

fn new_snow(fell: i64) -> Option<DayLog> {
    Some(DayLog { new_snow: Some(Said::one(cm(fell))), ..DayLog::default() })
}

fn depth(lies: i64) -> Option<DayLog> {
    Some(DayLog { depth: Some(Said::one(cm(lies))), ..DayLog::default() })
}

#[test]
fn falls_on_days_that_follow_each_other_are_one_and_a_dry_day_parts_them() {
    let log = gappy(date(2027, 1, 1), [new_snow(0), new_snow(5), new_snow(3), new_snow(0), new_snow(8)]);
    let all = snowfalls(&log);
    assert_eq!(all.len(), 2);
    assert_eq!((all[0].first, all[0].last, all[0].depth), (date(2027, 1, 2), date(2027, 1, 3), (cm(8), cm(8))));
    // Read once a day at an hour that nobody named: it may have begun right after the reading before.
    assert_eq!((all[0].began_from, all[0].ended_by), (Some(date(2027, 1, 1)), date(2027, 1, 3)));
    assert_eq!((all[1].began_from, all[1].ended_by), (Some(date(2027, 1, 4)), date(2027, 1, 5)));
    assert!(all.iter().all(|fall| fall.basis == Basis::Measured));
    let midnight = Log { read_at: Some(ReadAt::Midnight), ..log };
    assert_eq!(snowfalls(&midnight)[0].began_from, Some(date(2027, 1, 2)));
}

#[test]
fn a_trace_is_no_snowfall() {
    // Reference 5.4: a fall under 1 cm cannot be used.
    let trace = Some(DayLog { new_snow: Some(Said::one(Depth::from_thousandths_cm(900))), ..DayLog::default() });
    assert!(snowfalls(&gappy(date(2027, 1, 1), [new_snow(0), trace])).is_empty());
    assert_eq!(snowfalls(&gappy(date(2027, 1, 1), [new_snow(0), new_snow(1)])).len(), 1);
}

#[test]
fn a_gap_widens_the_span_in_which_snow_may_have_begun() {
    let log = gappy(date(2027, 1, 1), [new_snow(0), None, None, new_snow(12)]);
    assert_eq!(snowfalls(&log)[0].began_from, Some(date(2027, 1, 1)));
    // Nothing before the first reading: nobody knows since when it lay.
    assert_eq!(snowfalls(&gappy(date(2027, 1, 1), [new_snow(12)]))[0].began_from, None);
}

#[test]
fn where_only_the_depth_was_read_its_rise_is_a_weaker_sign() {
    let all = snowfalls(&gappy(date(2027, 1, 1), [depth(30), depth(28), depth(41), depth(41), depth(44)]));
    assert_eq!(all.len(), 2, "{all:?}");
    assert_eq!((all[0].first, all[0].depth, all[0].basis), (date(2027, 1, 3), (cm(13), cm(13)), Basis::DepthRise));
    assert_eq!((all[1].first, all[1].began_from), (date(2027, 1, 5), Some(date(2027, 1, 4))));
    // Across a gap one fall or two cannot be told: one, with the wider span.
    let gap = snowfalls(&gappy(date(2027, 1, 1), [depth(30), depth(28), depth(41), None, depth(44)]));
    assert_eq!((gap.len(), gap[0].first, gap[0].ended_by), (1, date(2027, 1, 3), date(2027, 1, 5)));
    // Measured none: a rise beside it is drift, not a fall.
    let mut log = gappy(date(2027, 1, 1), [depth(30), depth(41)]);
    log.days.get_mut(&date(2027, 1, 2)).unwrap().new_snow = Some(Said::one(cm(0)));
    assert!(snowfalls(&log).is_empty());
}

fn air(minimum: i64, maximum: i64) -> DayLog {
    let c = |degrees: i64| Some(Said::one(Temperature::from_hundredths_c(degrees * 100)));
    DayLog { minimum: c(minimum), maximum: c(maximum), ..DayLog::default() }
}

#[test]
fn frost_is_summed_below_minus_one_and_a_half() {
    // Reference 5.3: degrees below -1.5 C. Means -10, -1, -6: 8.5 + 0 + 4.5 = 13.
    let log = log(date(2027, 1, 1), [air(-15, -5), air(-4, 2), air(-8, -4)]);
    let sum = degree_days(&log, date(2027, 1, 1), date(2027, 1, 3), BODY_FREEZES, Side::Below);
    assert!((sum.middle - 13.0).abs() < 1e-9);
    // At least: by the maxima 3.5 + 0 + 2.5; at most: by the minima 13.5 + 2.5 + 6.5.
    assert!((sum.low - 6.0).abs() < 1e-9 && (sum.high.unwrap() - 22.5).abs() < 1e-9, "{sum:?}");
    assert_eq!((sum.days, sum.without_mean), (3, 0));
}

#[test]
fn a_day_that_nobody_read_leaves_degree_days_open() {
    let log = gappy(date(2027, 1, 1), [Some(air(-15, -5)), None, Some(DayLog { maximum: None, ..air(-8, 0) })]);
    let sum = degree_days(&log, date(2027, 1, 1), date(2027, 1, 3), BODY_FREEZES, Side::Below);
    assert!((sum.middle - 8.5).abs() < 1e-9 && (sum.low - 3.5).abs() < 1e-9);
    assert_eq!((sum.high, sum.without_mean), (None, 2));
    let warm = degree_days(&log, date(2027, 1, 1), date(2027, 1, 1), Temperature::ZERO_C, Side::Above);
    assert_eq!((warm.middle, warm.low, warm.high), (0.0, 0.0, Some(0.0)));
}

#[test]
fn a_mean_that_was_logged_stands_before_one_worked_out() {
    let mean = Some(Said::one(Temperature::from_hundredths_c(-400)));
    let log = log(date(2027, 1, 1), [DayLog { mean, ..air(-15, -5) }]);
    let sum = degree_days(&log, date(2027, 1, 1), date(2027, 1, 1), BODY_FREEZES, Side::Below);
    assert!((sum.middle - 2.5).abs() < 1e-9);
    assert_eq!((sum.low, sum.high), (sum.middle, Some(sum.middle)));
}

#[test]
fn a_thaw_shows_in_the_maximum_and_its_absence_too() {
    assert_eq!(thawed(&air(-5, 2)), Thaw::Yes);
    assert_eq!(thawed(&air(-5, 0)), Thaw::No);
    assert_eq!(thawed(&DayLog { maximum: None, ..air(-5, 0) }), Thaw::Unknown);
    assert_eq!(thawed(&DayLog { maximum: None, ..air(1, 0) }), Thaw::Yes, "a minimum above zero proves it");
    assert_eq!(thawed(&DayLog::default()), Thaw::Unknown);
}
