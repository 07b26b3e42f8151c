//! Rows of the reference's check values (condition-and-winter.md, section 9) and a table made by SciPy and
//! statsmodels (`tests/reference/diet.csv`).

use std::collections::BTreeSet;

use super::grain::{Grain, send_to_laboratory};
use super::points::{FrameError, Tally, frame};
use super::pooled::{DRAWS, NoPool, pool};
use super::proportions::{Method, NoShares, Share, constant, simultaneous};
use super::volume::{NoVolumes, percent_shares, shares};
use super::*;
use crate::science::chi_square::{chi_square_cdf, chi_square_quantile};
use crate::science::marrow::MarrowClass;

const TABLE: &str = include_str!("../../../tests/reference/diet.csv");

fn rows(name: &str) -> Vec<Vec<f64>> {
    TABLE
        .lines()
        .filter_map(|line| line.strip_prefix(name)?.strip_prefix(','))
        .map(|line| line.split(',').map(|cell| cell.parse().unwrap()).collect())
        .collect()
}

/// A count in the table.
#[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss)] // small whole numbers
fn whole(n: f64) -> u32 {
    n as u32
}

fn close(got: f64, expected: f64, tolerance: f64) {
    assert!((got - expected).abs() <= tolerance, "{got} {expected}");
}

const COUNTS: [u32; 6] = [44, 55, 43, 32, 67, 78];

/// Row 18, printed by a public R function.
#[test]
fn quesenberry_and_hurst_as_printed() {
    close(constant(6, 0.95, Method::QuesenberryHurst).unwrap(), 11.0705, 5e-5);
    let low = [0.085_766_5, 0.113_355_1, 0.083_314_0, 0.057_091_2, 0.144_527_5, 0.173_905_2];
    let high = [0.214_383_0, 0.253_446_8, 0.210_776_2, 0.170_346_6, 0.294_986_1, 0.332_260_9];
    as_printed(Method::QuesenberryHurst, low, high, 5.1e-8);
}

/// Row 57, printed by a public R function to seven and eight digits.
#[test]
fn goodman_as_printed() {
    close(constant(6, 0.95, Method::Goodman).unwrap(), 6.960_401, 5e-7);
    let low = [0.094_683_68, 0.123_768_93, 0.092_085_27, 0.064_126_71, 0.156_379_44, 0.186_927_32];
    let high = [0.196_641_28, 0.235_048_89, 0.193_103_98, 0.153_569_68, 0.276_066_96, 0.313_011_94];
    as_printed(Method::Goodman, low, high, 5.1e-9);
}

fn as_printed(method: Method, low: [f64; 6], high: [f64; 6], tolerance: f64) {
    let got = simultaneous(&COUNTS, 0.95, method).unwrap();
    for ((share, low), high) in got.iter().zip(low).zip(high) {
        close(share.low, low, tolerance);
        close(share.high, high, tolerance);
    }
}

#[test]
fn shares_agree_with_statsmodels_and_scipy() {
    let mut seen = 0;
    for (name, method) in [("goodman", Method::Goodman), ("quesenberry_hurst", Method::QuesenberryHurst)] {
        for row in rows(name) {
            let [coverage, k, rest @ ..] = &row[..] else { panic!() };
            let k = whole(*k) as usize;
            let counts: Vec<u32> = rest[..k].iter().map(|n| whole(*n)).collect();
            let got = simultaneous(&counts, *coverage, method).unwrap();
            for (share, ends) in got.iter().zip(rest[k..].chunks(2)) {
                close(share.low, ends[0], 1e-11);
                close(share.high, ends[1], 1e-11);
                seen += 1;
            }
        }
    }
    assert!(seen > 60, "{seen}");
}

#[test]
fn chi_square_agrees_with_scipy() {
    let mut seen = 0;
    for row in rows("chi_square_cdf") {
        let [x, degrees, expected] = row[..] else { panic!() };
        close(chi_square_cdf(x, whole(degrees)).unwrap(), expected, 1e-12 + 1e-11 * expected);
        seen += 1;
    }
    for row in rows("chi_square_quantile") {
        let [p, degrees, expected] = row[..] else { panic!() };
        close(chi_square_quantile(p, whole(degrees)).unwrap(), expected, 1e-10 * expected + 1e-13);
        seen += 1;
    }
    assert!(seen > 40, "{seen}");
    assert_eq!(chi_square_quantile(1.0, 3), None);
    assert_eq!(chi_square_cdf(1.0, 0), None);
    assert_eq!(chi_square_cdf(-1.0, 2), None);
}

/// Section 5.4: for two groups Wilson's; row 36: 81 of 263.
#[test]
fn two_groups_are_one_share() {
    let got = simultaneous(&[81, 182], 0.95, Method::Goodman).unwrap();
    close(got[0].low, 0.2553, 5e-5);
    close(got[0].high, 0.3662, 5e-5);
    let all = simultaneous(&[100], 0.95, Method::Goodman).unwrap();
    assert!(all[0].low > 0.96 && all[0].best > 0.999, "one food alone is still no certainty: {all:?}");
}

#[test]
fn no_points_no_shares() {
    assert_eq!(simultaneous(&[], 0.95, Method::Goodman), Err(NoShares::NoPoints));
    assert_eq!(simultaneous(&[0, 0, 0], 0.95, Method::Goodman), Err(NoShares::NoPoints));
    assert_eq!(simultaneous(&[1, 2, 3], 1.0, Method::Goodman), Err(NoShares::NoCoverage));
    assert_eq!(simultaneous(&[u32::MAX, 2, 3], 0.95, Method::Goodman), Err(NoShares::NoPoints));
}

/// Row 17: two deer, 900 and 100, 50 and 50: aggregate volume 86.4 %, aggregate percent 70.0 %.
#[test]
fn two_ways_to_pool() {
    let items = pool(&[vec![900.0, 100.0], vec![50.0, 50.0]]).unwrap();
    close(items[0].aggregate_volume, 0.864, 5e-4);
    close(items[0].aggregate_percent, 0.700, 1e-12);
    assert_eq!((items[0].deer_with, items[0].percent_interval), (2, None), "two deer give no interval");
}

/// All resamples of five and six deer counted out (NumPy), and SciPy's bootstrap of twelve: the ends lie where
/// four standard errors of our number of draws put them.
#[test]
fn resampled_deer_agree_with_all_resamples_counted_out() {
    let mut seen = 0;
    for row in rows("pooled") {
        let [deer, rest @ ..] = &row[..] else { panic!() };
        let n = whole(*deer) as usize;
        let table: Vec<Vec<f64>> = rest[..2 * n].chunks(2).map(<[f64]>::to_vec).collect();
        let item = pool(&table).unwrap()[0];
        let got = [(item.aggregate_percent, item.percent_interval), (item.aggregate_volume, item.volume_interval)];
        for ((best, interval), expected) in got.into_iter().zip(rest[2 * n..].chunks(5)) {
            let interval = interval.unwrap();
            close(best, expected[0], 1e-12);
            assert!((expected[1]..=expected[2]).contains(&interval.low), "{interval:?} {expected:?}");
            assert!((expected[3]..=expected[4]).contains(&interval.high), "{interval:?} {expected:?}");
            seen += 1;
        }
    }
    assert!(seen >= 6 && DRAWS >= 4_000);
}

/// The ruling: it is deer that are drawn again. Points of one rumen, however many, do not narrow it.
#[test]
fn more_points_in_each_rumen_do_not_narrow_the_herd() {
    let deer = |scale: f64| -> Vec<Vec<f64>> {
        [0.1, 0.9, 0.4, 0.6, 0.2, 0.8].iter().map(|p| vec![scale * p, scale * (1.0 - p)]).collect()
    };
    let (few, many) = (pool(&deer(100.0)).unwrap()[0], pool(&deer(40_000.0)).unwrap()[0]);
    let width = |i: Option<crate::science::special::ShareInterval>| i.map(|i| i.high - i.low).unwrap();
    close(width(few.percent_interval), width(many.percent_interval), 1e-9);
    assert!(width(few.percent_interval) > 0.3);
}

#[test]
fn what_cannot_be_pooled() {
    assert_eq!(pool(&[]), Err(NoPool::NoDeer));
    assert_eq!(pool(&[vec![1.0], vec![0.0]]), Err(NoPool::EmptyDeer(2)));
    assert_eq!(pool(&[vec![1.0], vec![-2.0]]), Err(NoPool::NotAnAmount(2)));
    assert_eq!(pool(&[vec![1.0], vec![1.0, 2.0]]), Err(NoPool::Ragged(2)));
}

#[test]
fn volumes() {
    assert_eq!(shares(&[900.0, 100.0]), Ok(vec![0.9, 0.1]));
    assert_eq!(shares(&[]), Err(NoVolumes::Nothing));
    assert_eq!(shares(&[-1.0, 4.0]), Err(NoVolumes::NotAVolume(-1.0)));
    assert_eq!(shares(&[0.0]), Err(NoVolumes::AllZero));
    assert_eq!(percent_shares(&[60.0, 55.0]), Err(NoVolumes::Over100(115.0)));
    let (shares, unnamed) = percent_shares(&[60.0, 20.0]).unwrap();
    assert_eq!(shares, vec![0.75, 0.25]);
    close(unnamed, 0.2, 1e-12);
    assert!(percent_shares(&[50.0, 50.5]).is_ok(), "rounding");
}

#[test]
fn frames_as_they_stand_in_the_record() {
    assert_eq!(frame("spruce pine spruce"), Ok(vec!["spruce", "pine", "spruce"]));
    assert_eq!(frame(" "), Err(FrameError::Empty));
    assert_eq!(frame("a a a a a a a a a a a"), Err(FrameError::TooMany(11)));
    assert_eq!(frame("Spruce, Pine"), Err(FrameError::NoCode));
    let mut tally = Tally::default();
    tally.add("spruce pine spruce").unwrap();
    tally.add("plant_of_a_newer_form spruce").unwrap();
    assert!(tally.add("").is_err());
    assert_eq!((tally.total(), tally.frames), (5, 2));
    assert_eq!(tally.ranked(), vec![("spruce", 3), ("pine", 1), ("plant_of_a_newer_form", 1)], "kept, unknown or not");
}

/// New York's list as the reference prints it (section 5.5): its best and its worst, and the numbers that
/// stand in records.
#[test]
fn the_browse_list() {
    let codes: BTreeSet<&str> = plants::all().map(|p| p.code).collect();
    let numbers: BTreeSet<u16> = plants::all().map(|p| p.number).collect();
    assert_eq!((codes.len(), numbers.len()), (PLANTS.len() + 3, PLANTS.len() + 3));
    let of = |code: &str| plants::of_code(code).unwrap();
    for (code, latin, tier) in [
        ("white_cedar", "Thuja occidentalis", Some(Tier::Preferred)),
        ("hemlock", "Tsuga canadensis", Some(Tier::Second)),
        ("sugar_maple", "Acer saccharum", Some(Tier::Readily)),
        ("balsam_fir", "Abies balsamea", Some(Tier::Poor)),
        ("alder", "Alnus incana", Some(Tier::Poor)),
        ("lichen", "Usnea and others", None),
        ("unknown_twig", "", None),
        ("own_2", "", None),
    ] {
        assert_eq!((of(code).latin, of(code).new_york), (latin, tier), "{code}");
    }
    for tier in Tier::ALL {
        assert!(PLANTS.iter().filter(|p| p.new_york == Some(tier)).count() >= 10, "{tier:?}");
    }
    // The reference: the two states disagree on mountain maple.
    assert!(of("mountain_maple").regions_disagree() && !of("white_cedar").regions_disagree());
    // Mautz et al. 1976 (section 5.5).
    let digested: Vec<i8> = of("hobblebush").food_values().map(|v| v.percent).collect();
    assert_eq!(digested, [54, 46, 37]);
    assert_eq!(of("hemlock").food_values().next().map(|v| v.percent), Some(-5));
    assert!(plants::FOOD_VALUES.iter().all(|v| plants::of_code(v.of).is_some()));
    assert_eq!(of("sheep_laurel").poison(), Some(plants::Poison::Laurel));
    assert_eq!(plants::of_code("plant_of_a_newer_form"), None);
    assert_eq!(plants::of_number(62).map(|p| p.code), Some("corn"));
}

/// Section 5.2: all three together, and what was not looked at supports nothing.
#[test]
fn grain_goes_to_the_laboratory() {
    let all = Grain { half: Some(true), sour: Some(true), watery: None, loose: None, marrow: Some(MarrowClass::M1) };
    assert!(send_to_laboratory(all));
    assert!(send_to_laboratory(Grain { sour: None, loose: Some(true), ..all }));
    assert!(!send_to_laboratory(Grain { sour: Some(false), ..all }));
    assert!(!send_to_laboratory(Grain { half: None, ..all }));
    assert!(!send_to_laboratory(Grain { marrow: Some(MarrowClass::M3), ..all }));
    assert!(!send_to_laboratory(Grain { marrow: None, ..all }));
}

#[test]
fn a_share_is_never_outside_its_ends() {
    for share in simultaneous(&[0, 1, 399], 0.95, Method::QuesenberryHurst).unwrap() {
        let Share { best, low, high } = share;
        assert!(0.0 <= low && low <= best && best <= high && high <= 1.0, "{share:?}");
    }
}
