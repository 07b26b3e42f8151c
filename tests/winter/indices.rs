//! The agencies' indices against what the agencies and the press printed. Numbers of rows are those of
//! the project's reference, section 9; each names its source.

use marrowbook::science::source::Mark;
use marrowbook::science::winter::agency::{Index, Lacking, find};
use marrowbook::science::winter::classes::{self, ClassSet};
use marrowbook::science::winter::index::{Asked, Bounds, Refusal, Severity, severity, winter_of};
use marrowbook::science::winter::log::{DayLog, Gauge, Log, Said};
use marrowbook::science::winter::measure::{Depth, Temperature};
use time::Duration;

use crate::days::{cm, date, day, fahrenheit, gappy, inches, log};

fn index(id: &str) -> &'static Index {
    find(id).unwrap()
}

fn points(id: &str, log: &Log, winter: i32) -> Severity {
    severity(index(id), &[log], &Asked::winter(winter)).unwrap()
}

fn exactly(value: f64) -> Bounds {
    Bounds { low: value, high: Some(value) }
}

fn class(set: &ClassSet, value: f64) -> &'static str {
    set.of(value).unwrap().id
}

#[test]
fn row_26_tower_in_minnesota_2005() {
    // Ely Echo: 67 cold days and 79 days of snow to 21 March 2005 make 146.
    // Which days they were is not printed; any 67 and 79 must give it.
    let days = (0..141)
        .map(|n| day(fahrenheit(if n % 2 == 0 && n < 134 { -5 } else { 12 }), inches(if n >= 62 { 16 } else { 9 })));
    let tower = log(date(2004, 11, 1), days);
    let asked = Asked { through: Some(date(2005, 3, 21)), ..Asked::winter(2004) };
    let found = severity(index("minnesota"), &[&tower], &asked).unwrap();
    assert_eq!(found.value, exactly(146.0));
    assert_eq!((found.parts[0].bounds, found.parts[1].bounds), (exactly(67.0), exactly(79.0)));
    assert_eq!(found.days, 141);
    assert_eq!(found.to_come, 71, "22 March to 31 May");
    assert!(!found.is_complete());
    let classes: Vec<_> = found.classes.iter().map(|c| (c.set.id, c.low.id)).collect();
    assert_eq!(classes, [("minnesota_2020", "severe"), ("minnesota_old", "between")]);
}

#[test]
fn row_27_a_printed_sum_that_is_wrong_is_not_repeated() {
    // The same article prints 115 for Eveleth's 46 and 71.
    let days = (0..117).map(|n| day(fahrenheit(if n < 46 { 0 } else { 3 }), inches(if n >= 46 { 15 } else { 14 })));
    assert_eq!(points("minnesota", &log(date(2004, 11, 15), days), 2004).value.low, 117.0);
}

#[test]
fn rows_28_30_and_31_classes_of_wisconsin() {
    // Milwaukee Journal Sentinel 2018-05-12: winter 2017-18.
    for (place, value) in [("Gile", 123.0), ("Mercer", 118.0), ("Upson", 110.0)] {
        assert_eq!(class(&classes::WISCONSIN, value), "very_severe", "{place}");
    }
    assert_eq!(class(&classes::WISCONSIN, 32.0), "mild", "Wausaukee");
    assert_eq!(class(&classes::WISCONSIN, 66.0), "moderate", "northern mean");
    // Plymouth Review; Milwaukee Journal Sentinel 2014: 2013-14, 1996-97, Barnes in March 2014.
    for value in [149.0, 127.0, 176.0] {
        assert_eq!(class(&classes::WISCONSIN, value), "very_severe");
    }
    // jsonline.com 2018 and 2014: under 50, 50 to 79, 80 to 99, 100 and more.
    let edges = [
        (49.0, "mild"),
        (50.0, "moderate"),
        (79.0, "moderate"),
        (80.0, "severe"),
        (99.0, "severe"),
        (100.0, "very_severe"),
    ];
    for (value, name) in edges {
        assert_eq!(class(&classes::WISCONSIN, value), name, "{value}");
    }
}

#[test]
fn row_32_days_of_wisconsin() {
    // news.yahoo.com, winter 2021-22: the rule; the third day is the rule's sum.
    let three = [(-2, 0), (10, 20), (-5, 20)];
    let alone: Vec<f64> = three
        .iter()
        .map(|(f, i)| points("wisconsin", &log(date(2022, 1, 1), [day(fahrenheit(*f), inches(*i))]), 2021))
        .map(|found| found.parts.iter().map(|p| p.bounds.low).sum())
        .collect();
    assert_eq!(alone, [1.0, 1.0, 2.0]);
    let all = log(date(2022, 1, 1), three.map(|(f, i)| day(fahrenheit(f), inches(i))));
    assert_eq!(points("wisconsin", &all, 2021).value.low, 4.0);
}

#[test]
fn row_34_classes_of_minnesota_since_2020() {
    // Minnesota DNR, paperzz.com/doc/8905519.
    for (value, name) in [(50.0, "mild"), (51.0, "moderate"), (119.0, "moderate"), (120.0, "severe")] {
        assert_eq!(class(&classes::MINNESOTA_2020, value), name, "{value}");
    }
    for (value, name) in [(99.0, "mild"), (100.0, "between"), (180.0, "between"), (181.0, "severe")] {
        assert_eq!(class(&classes::MINNESOTA_OLD, value), name, "{value}");
    }
}

#[test]
fn classes_of_new_york() {
    // outdoornews.com 2015-03-05.
    let edges = [
        (50.0, "mild"),
        (51.0, "moderate"),
        (80.0, "moderate"),
        (81.0, "severe"),
        (100.0, "severe"),
        (101.0, "very_severe"),
    ];
    for (value, name) in edges {
        assert_eq!(class(&classes::NEW_YORK, value), name, "{value}");
    }
}

#[test]
fn row_35_a_day_at_exactly_zero_fahrenheit() {
    // Definitions as printed: Wisconsin, Minnesota, New York `at or below`, Vermont `below`.
    let of = |id, minimum, depth| points(id, &log(date(2022, 1, 10), [day(minimum, depth)]), 2021).value.low;
    for (id, value) in [("wisconsin", 1.0), ("minnesota", 1.0), ("new_york", 1.0), ("vermont", 0.0)] {
        assert_eq!(of(id, fahrenheit(0), inches(10)), value, "{id}");
        // As a record in hundredths of C gives it back.
        assert_eq!(of(id, Temperature::from_record(-1_778), inches(10)), value, "{id} from the record");
        // Tenths of a degree C on either side: -17.7 C is 0.14 F, -17.8 C is -0.04 F.
        assert_eq!(of(id, Temperature::from_hundredths_c(-1_770), inches(10)), 0.0, "{id} at -17.7 C");
        assert_eq!(of(id, Temperature::from_hundredths_c(-1_780), inches(10)), 1.0, "{id} at -17.8 C");
    }
}

#[test]
fn snow_at_exactly_the_limit_counts_and_is_never_rounded_to_it() {
    // `18 inches or more`, `15 inches or more`; 1 in = 2.54 cm. Compute in the unit of measurement.
    let of = |id, depth| points(id, &log(date(2022, 1, 10), [day(fahrenheit(20), depth)]), 2021).value.low;
    for id in ["wisconsin", "new_york", "vermont"] {
        assert_eq!(of(id, inches(18)), 1.0, "{id}");
        assert_eq!(of(id, Depth::from_thousandths_cm(45_720)), 1.0, "{id}");
        assert_eq!(of(id, Depth::from_thousandths_cm(45_700)), 0.0, "{id}: 45.7 cm are 17.99 in");
        assert_eq!(of(id, cm(46)), 1.0, "{id}");
    }
    assert_eq!(of("minnesota", inches(15)), 1.0);
    assert_eq!(of("minnesota", cm(38)), 0.0, "38 cm are 14.96 in");
}

#[test]
fn seasons_begin_and_end_where_the_agency_says() {
    // Wisconsin, New York, Vermont 1 Dec to 30 Apr; Minnesota 1 Nov to 31 May, as printed.
    let cold = || day(fahrenheit(-9), inches(0));
    let whole = log(date(2021, 9, 1), (0..300).map(|_| cold()));
    for (id, days) in [("wisconsin", 151), ("new_york", 151), ("vermont", 151), ("minnesota", 212)] {
        let found = points(id, &whole, 2021);
        assert_eq!(found.value, exactly(f64::from(days)), "{id}");
        assert!(found.is_complete());
    }
    let leap = log(date(2023, 9, 1), (0..300).map(|_| cold()));
    assert_eq!(points("wisconsin", &leap, 2023).value, exactly(152.0), "with 29 February");
    assert_eq!(winter_of(date(2022, 6, 30)), 2021);
    assert_eq!(winter_of(date(2022, 7, 1)), 2022);
}

#[test]
fn a_missing_day_bounds_the_index_and_is_never_a_mild_one() {
    let cold = day(fahrenheit(-5), inches(20));
    let no_depth = DayLog { depth: None, ..cold };
    let log = gappy(date(2021, 12, 1), [Some(cold), None, None, Some(no_depth), Some(cold)]);
    let found = points("wisconsin", &log, 2021);
    // Read: 2 + 1 + 2; missing: two whole days at up to 2, one depth at up to 1.
    assert_eq!(found.value, Bounds { low: 5.0, high: Some(10.0) });
    assert_eq!((found.parts[0].read, found.parts[0].missing), (3, 2));
    assert_eq!((found.parts[1].read, found.parts[1].missing), (2, 3));
    assert_eq!((found.days, found.to_come), (5, 146));
    // Days that are over and were not logged are missing, not to come.
    let asked = Asked { through: Some(date(2021, 12, 10)), ..Asked::winter(2021) };
    let found = severity(index("wisconsin"), &[&log], &asked).unwrap();
    assert_eq!(found.value, Bounds { low: 5.0, high: Some(20.0) });
    assert_eq!((found.days, found.to_come), (10, 141));
}

#[test]
fn a_class_is_settled_only_where_both_ends_agree() {
    let cold = Some(day(fahrenheit(-5), inches(0)));
    let with_gap = |gap: usize| {
        gappy(
            date(2021, 12, 1),
            (0..151).map(|n| {
                if n < 45 {
                    cold
                } else if n < 45 + gap {
                    None
                } else {
                    Some(day(fahrenheit(9), inches(0)))
                }
            }),
        )
    };
    let found = points("wisconsin", &with_gap(2), 2021);
    assert_eq!(found.value, Bounds { low: 45.0, high: Some(49.0) });
    assert_eq!(found.classes[0].settled().unwrap().id, "mild");
    let found = points("wisconsin", &with_gap(3), 2021);
    assert_eq!(found.value, Bounds { low: 45.0, high: Some(51.0) });
    assert_eq!(found.classes[0].settled(), None);
    assert_eq!((found.classes[0].low.id, found.classes[0].high.unwrap().id), ("mild", "moderate"));
}

#[test]
fn readings_of_a_day_that_differ_are_both_in_the_bounds() {
    let split =
        DayLog { minimum: Some(Said { low: fahrenheit(-1), high: fahrenheit(1) }), ..day(fahrenheit(0), inches(0)) };
    let found = points("wisconsin", &log(date(2021, 12, 1), [split]), 2021);
    assert_eq!(found.value, Bounds { low: 0.0, high: Some(1.0) });
    assert_eq!(found.parts[0].split, 1);
}

#[test]
fn new_hampshire_names_no_season_so_none_is_assumed() {
    let days = log(date(2021, 12, 1), (0..30).map(|_| day(fahrenheit(0), inches(18))));
    assert_eq!(severity(index("new_hampshire"), &[&days], &Asked::winter(2021)), Err(Refusal::NeedsFrom));
    let from = Asked { from: Some(date(2021, 12, 1)), ..Asked::winter(2021) };
    assert_eq!(severity(index("new_hampshire"), &[&days], &from), Err(Refusal::NeedsTo));
    let both = Asked { to: Some(date(2021, 12, 30)), ..from };
    let found = severity(index("new_hampshire"), &[&days], &both).unwrap();
    assert_eq!(found.value, exactly(30.0), "days below 0 F: none of those at zero");
    assert!(found.classes.is_empty(), "no class names were found");
    let backwards = Asked { to: Some(date(2021, 11, 30)), ..from };
    assert_eq!(severity(index("new_hampshire"), &[&days], &backwards), Err(Refusal::Backwards));
    assert_eq!(severity(index("wisconsin"), &[&days], &from), Err(Refusal::SeasonIsFixed));
}

#[test]
fn what_cannot_be_worked_out_is_refused() {
    // Reference, section 7: Maine's critical values and Verme's tables were not retrieved.
    let days = log(date(2021, 12, 1), (0..30).map(|_| day(fahrenheit(0), inches(18))));
    let refused = |id| severity(index(id), &[&days], &Asked::winter(2021)).unwrap_err();
    assert_eq!(refused("maine"), Refusal::Lacking(Lacking::CriticalValues));
    assert_eq!(refused("michigan_verme"), Refusal::Lacking(Lacking::ConversionTables));
    let another = severity(index("wisconsin"), &[&days], &Asked::winter(1990)).unwrap_err();
    assert_eq!(another, Refusal::NothingLogged);
    assert_eq!(severity(index("wisconsin"), &[&days, &days], &Asked::winter(2021)), Err(Refusal::OnePlace));
}

fn sinking(depth_cm: i64, days: i64, gauge: Option<Gauge>) -> Log {
    let one = DayLog { sink: Some(Said::one(cm(depth_cm))), ..DayLog::default() };
    Log { gauge, ..log(date(2021, 12, 1), (0..days).map(|_| one)) }
}

fn hundred_days() -> Asked {
    Asked { from: Some(date(2021, 12, 1)), to: Some(date(2021, 12, 1) + Duration::days(99)), ..Asked::winter(2021) }
}

#[test]
fn rows_24_and_25_of_quebec() {
    // Le Monde forestier: 20 cm for 100 days are 2,000; 50 cm make 5,000, where losses are expected.
    let of =
        |depth| severity(index("quebec_niva"), &[&sinking(depth, 100, Some(Gauge::Quebec))], &hundred_days()).unwrap();
    assert_eq!(of(20).value, exactly(2_000.0));
    assert_eq!(of(20).classes[0].settled().unwrap().id, "no_class_named");
    assert_eq!(of(50).value, exactly(5_000.0));
    assert_eq!(of(50).classes[0].settled().unwrap().id, "losses_expected");
}

#[test]
fn another_gauge_never_goes_into_quebec_s_sum() {
    // Reference 6.4: name the gauge beside every reading, never mix.
    for gauge in [None, Some(Gauge::Copper), Some(Gauge::DeerTracks), Some(Gauge::Other)] {
        let log = sinking(50, 100, gauge);
        assert_eq!(severity(index("quebec_niva"), &[&log], &hundred_days()), Err(Refusal::WrongGauge(gauge)));
    }
}

#[test]
fn a_missing_depth_leaves_a_sum_without_a_high_end() {
    let mut log = sinking(50, 100, Some(Gauge::Quebec));
    log.days.remove(&date(2022, 1, 1));
    log.days.insert(date(2022, 1, 2), DayLog { sink: Some(Said::one(cm(60))), ..DayLog::default() });
    let found = severity(index("quebec_niva"), &[&log], &hundred_days()).unwrap();
    assert_eq!(found.value, Bounds { low: 4_960.0, high: None });
    assert_eq!(found.if_deepest, Some(5_020.0));
    assert_eq!(found.classes[0].settled(), None);
    assert_eq!(found.classes[0].low.id, "no_class_named");
}

#[test]
fn row_61_classes_of_ontario_and_their_marks() {
    // Haliburton Echo: a season of 507 was called mild; under 590 is mild. The rest is from memory.
    assert_eq!(class(&classes::ONTARIO, 507.0), "mild");
    assert_eq!(class(&classes::ONTARIO, 589.9), "mild");
    let moderate = classes::ONTARIO.of(590.0).unwrap();
    assert_eq!((moderate.id, moderate.source.mark), ("moderate", Mark::Memory));
    assert_eq!(class(&classes::ONTARIO, 760.0), "moderate");
    let severe = classes::ONTARIO.of(760.1).unwrap();
    assert_eq!((severe.id, severe.source.mark), ("severe", Mark::Memory));
    assert!(index("ontario_snow_depth").sources.iter().any(|s| s.mark == Mark::Memory), "the mark travels");
}

/// Isabella, Minnesota, weekly depth and sink in feet: US Forest Service Research Paper NC-52 (1971),
/// chapter 3, digitised from its figure.
fn isabella() -> Vec<(&'static str, time::Date, Option<Depth>, Option<Depth>)> {
    let feet = |text: &str| {
        let tenths: i64 = match text.split_once('.') {
            Some((whole, tenth)) => whole.parse::<i64>().unwrap() * 10 + tenth.parse::<i64>().unwrap(),
            None if text.is_empty() => return None,
            None => text.parse::<i64>().unwrap() * 10,
        };
        Some(Depth::from_hundredths_in(tenths * 120))
    };
    include_str!("../reference/nc52-1971-isabella-weekly-snow.csv")
        .lines()
        .skip(1)
        .map(|line| {
            let cells: Vec<&str> = line.split(',').collect();
            let parts: Vec<i32> = cells[1].split('-').map(|n| n.parse().unwrap()).collect();
            let at = date(parts[0], u8::try_from(parts[1]).unwrap(), u8::try_from(parts[2]).unwrap());
            (cells[0], at, feet(cells[2]), feet(cells[3]))
        })
        .collect()
}

fn isabella_log(winter: &str) -> Log {
    let day = |depth: Depth| DayLog { depth: Some(Said::one(depth)), ..DayLog::default() };
    let rows = isabella().into_iter().filter(|row| row.0 == winter);
    Log { days: rows.filter_map(|(_, at, depth, _)| Some((at, day(depth?)))).collect(), ..log(date(1966, 1, 1), []) }
}

#[test]
fn rows_62_and_63_isabella_s_weeks() {
    let expected = [
        ("1966-67", 1966, 841.2, 17, 1, 12),
        ("1967-68", 1967, 573.0, 21, 0, 0),
        ("1968-69", 1968, 1_658.1, 23, 0, 18),
    ];
    for (winter, year, sum, weeks, missing, deep) in expected {
        let log = isabella_log(winter);
        let (from, to) = log.span().unwrap();
        let asked = Asked { from: Some(from), to: Some(to), ..Asked::winter(year) };
        let found = severity(index("ontario_snow_depth"), &[&log], &asked).unwrap();
        assert!((found.value.low - sum).abs() < 0.05, "{winter}: {}", found.value.low);
        assert_eq!((found.parts[0].read, found.parts[0].missing), (weeks, missing), "{winter}");
        assert_eq!(found.value.high.is_none(), missing > 0, "{winter}");
        let over = log.days.values().filter(|day| day.depth.unwrap().low >= inches(18)).count();
        assert_eq!(over, deep, "{winter}: weeks with 45.72 cm or more");
    }
}

#[test]
fn row_64_a_shallow_sink_in_deep_snow() {
    let cm_of = |at| {
        let row = isabella().into_iter().find(|row| row.1 == at).unwrap();
        (row.2.unwrap().cm(), row.3.unwrap().cm())
    };
    let (january, march) = (cm_of(date(1969, 1, 24)), cm_of(date(1969, 3, 21)));
    assert!((january.0 - 115.8).abs() < 0.05 && (january.1 - 106.7).abs() < 0.05, "{january:?}");
    assert!((march.0 - 85.3).abs() < 0.05 && (march.1 - 18.3).abs() < 0.05, "{march:?}");
}

#[test]
fn ontario_averages_the_stations_of_a_course_week_by_week() {
    // The definition as printed: weekly mean of the stations, summed. Two stations, two weeks, worked by hand:
    // week 1: station A 10 and 20 (mean 15), station B 25: 20; week 2: only A, 30.
    let depth = |d: i64| DayLog { depth: Some(Said::one(cm(d))), ..DayLog::default() };
    let mut a = log(date(2021, 12, 1), []);
    a.days = [(date(2021, 12, 1), depth(10)), (date(2021, 12, 5), depth(20)), (date(2021, 12, 10), depth(30))].into();
    let mut b = log(date(2021, 12, 1), []);
    b.days = [(date(2021, 12, 7), depth(25))].into();
    let asked = Asked { from: Some(date(2021, 12, 1)), to: Some(date(2022, 4, 30)), ..Asked::winter(2021) };
    let found = severity(index("ontario_snow_depth"), &[&a, &b], &asked).unwrap();
    assert_eq!(found.value, exactly(50.0));
    assert_eq!(found.places, 2);
}

#[test]
fn michigan_sums_mondays_in_inches_and_has_no_classes() {
    // MLive, March 2018: depth each Monday from 1 November. 1 November 2021 was a Monday (a calendar's fact).
    let depth = |n: i64| DayLog { depth: Some(Said::one(inches(n))), ..DayLog::default() };
    let days = log(date(2021, 10, 25), (0..22).map(depth));
    let found = points("michigan_total_snow", &days, 2021);
    // 1, 8 and 15 November are the 8th, 15th and 22nd day: 7, 14 and 21 in.
    assert_eq!(found.value, exactly(42.0));
    assert_eq!((found.parts[0].read, found.parts[0].missing), (3, 0));
    assert!(found.classes.is_empty());
    assert_eq!(found.to, date(2021, 11, 15), "a running sum, to the last day logged");
}

#[test]
fn ontario_days_over_50_cm_are_over_it() {
    let asked = Asked { from: Some(date(2021, 12, 1)), to: Some(date(2021, 12, 2)), ..Asked::winter(2021) };
    let days =
        log(date(2021, 12, 1), [day(fahrenheit(9), cm(50)), day(fahrenheit(9), Depth::from_thousandths_cm(50_100))]);
    assert_eq!(severity(index("ontario_days_over_50_cm"), &[&days], &asked).unwrap().value, exactly(1.0));
}
