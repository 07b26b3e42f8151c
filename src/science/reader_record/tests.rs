use proptest::prelude::*;

use super::*;
use crate::science::age::{ClassCall, Prior, Reader, Sex};
use crate::science::cementum::{Grade, LabAge};

const TABLE: &str = include_str!("../../../tests/reference/age_more.csv");
const FLAT: [f64; 10] = [0.1; 10];

fn rows(kind: &'static str) -> impl Iterator<Item = (Vec<&'static str>, f64)> {
    TABLE.lines().filter_map(move |line| {
        let cells: Vec<&str> = line.split(',').collect();
        (cells[0] == kind).then(|| (cells[1..4].to_vec(), cells[4].parse().unwrap()))
    })
}

fn at(text: &str) -> usize {
    text.parse().unwrap()
}

fn grade(name: &str) -> Option<Grade> {
    match name {
        "" => None,
        "best" => Some(Grade::Best),
        "middle" => Some(Grade::Middle),
        "lowest" => Some(Grade::Lowest),
        other => panic!("{other}"),
    }
}

fn record() -> Tally {
    let mut tally = Tally::default();
    let mut times = |truth: Truth, call: &str, n: f64| {
        #[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss)] // small whole counts of a table
        for _ in 0..n as u32 {
            tally.add(truth, ClassCall::ALL[at(call)]);
        }
    };
    for (cells, n) in rows("known") {
        times(Truth::Known(cells[0].parse().unwrap()), cells[1], n);
    }
    for (cells, n) in rows("by_rings") {
        let lab = LabAge::new(cells[0].parse().unwrap(), grade(cells[2])).unwrap();
        times(Truth::Cementum(lab), cells[1], n);
    }
    tally
}

/// The same record worked out by NumPy and SciPy.
#[test]
fn agrees_with_scipy() {
    let learned = learn(&record(), &Reader::FirstMolar, &FLAT);
    let close =
        |got: f64, expected: f64, what: &[&str]| assert!((got - expected).abs() < 1e-9, "{what:?}: {got} {expected}");
    let mut seen = 0;
    for (cells, expected) in rows("readings") {
        close(learned.rows[at(cells[0])].readings, expected, &cells);
    }
    for (cells, expected) in rows("worth") {
        close(learned.rows[at(cells[0])].worth, expected, &cells);
    }
    for kind in ["mean", "low", "high"] {
        for (cells, expected) in rows(kind) {
            let cell = learned.rows[at(cells[0])].cells[at(cells[1])];
            let got = match kind {
                "mean" => cell.mean,
                "low" => cell.low,
                _ => cell.high,
            };
            close(got, expected, &cells);
            seen += 1;
        }
    }
    assert_eq!(seen, 330);
    assert_eq!((learned.model.known(), learned.model.by_rings()), (78, 28));
}

/// Ruled: the published table is worth twenty readings a row.
#[test]
fn nothing_read_is_the_published_table_and_twenty_readings_move_it_half_way() {
    let empty = learn(&Tally::default(), &Reader::FirstMolar, &FLAT);
    for (birthdays, row) in (0_u8..).zip(&empty.rows) {
        for (call, cell) in ClassCall::ALL.into_iter().zip(row.cells) {
            let published = Reader::FirstMolar.probability(birthdays, call);
            assert!((cell.mean - published).abs() < 0.02, "{birthdays} {call:?}");
        }
    }
    let before = empty.rows[4].cells[2].mean;
    let mut tally = Tally::default();
    (0..20).for_each(|_| tally.add(Truth::Known(4), ClassCall::Two));
    let after = learn(&tally, &Reader::FirstMolar, &FLAT).rows[4].cells[2].mean;
    assert!((after - f64::midpoint(before, 1.0)).abs() < 1e-12);
}

/// A count of rings says less of the true class than a tag: it moves the row less and narrows it less.
#[test]
fn rings_tell_less_than_a_tag() {
    let with = |truth: Truth| {
        let mut tally = Tally::default();
        (0..30).for_each(|_| tally.add(truth, ClassCall::Six));
        learn(&tally, &Reader::FirstMolar, &FLAT).rows[4]
    };
    let tagged = with(Truth::Known(4));
    let counted = with(Truth::Cementum(LabAge::new(4, Some(Grade::Lowest)).unwrap()));
    assert!(counted.cells[6].mean < tagged.cells[6].mean - 0.05, "{} {}", counted.cells[6].mean, tagged.cells[6].mean);
    assert!(counted.readings < 30.0 && counted.worth < counted.readings);
    assert!((tagged.worth - 30.0).abs() < 1e-9);
}

/// A reader who calls young deer too old has calls read back younger.
#[test]
fn an_updated_reader_reads_with_the_reserves_experience() {
    let mut tally = Tally::default();
    (0..60).for_each(|_| tally.add(Truth::Known(3), ClassCall::Five));
    let learned = learn(&tally, &Reader::FirstMolar, &FLAT);
    let own = Reader::Own(Box::new(learned.model));
    let mean = |reader: &Reader| {
        let prior = Prior::WolfKill.shares(Sex::Female);
        let weights: Vec<f64> = prior.iter().zip(reader.likelihood(ClassCall::Five)).map(|(p, l)| p * l).collect();
        let total: f64 = weights.iter().sum();
        weights.iter().enumerate().map(|(c, w)| c as f64 * w / total).sum::<f64>()
    };
    assert!(mean(&own) < mean(&Reader::FirstMolar) - 0.5);
}

#[test]
fn the_model_travels_exactly_and_a_bad_one_is_refused() {
    let model = learn(&record(), &Reader::Volunteer, &FLAT).model;
    let text = serde_json::to_string(&model).unwrap();
    assert!(!text.contains('.'), "whole numbers only");
    assert_eq!(serde_json::from_str::<ReaderModel>(&text).unwrap(), model);
    let mut rows = *model.rows();
    rows[3][4] += 1;
    assert_eq!(ReaderModel::new(rows, 1, 0), Err(BadModel { birthdays: 3 }));
    let bad = serde_json::json!({"rows": rows, "known": 1, "by_rings": 0}).to_string();
    assert!(serde_json::from_str::<ReaderModel>(&bad).is_err());
}

/// Cook and Hart 1979: 242 of 363 readings right, 0.6667; 4 of 25 by rings, 0.16.
#[test]
fn direct_shares_of_a_published_study() {
    let mut tally = Tally::default();
    (0..242).for_each(|_| tally.add(Truth::Known(4), ClassCall::Four));
    (0..121).for_each(|_| tally.add(Truth::Known(4), ClassCall::Five));
    let direct = Direct::of(&tally);
    let exact = direct.exact.unwrap();
    assert!((exact.share() - 0.6667).abs() < 0.00005);
    assert!(exact.low < 0.6667 && exact.high > 0.6667);
    assert_eq!(direct.within_one.unwrap().right, 363);
    assert_eq!(direct.broad[3].unwrap().of, 363);
    assert_eq!(direct.broad[0], None);
    assert!((direct.bias_years.unwrap() - 121.0 / 363.0).abs() < 1e-12);
    assert!((4.0 / 25.0_f64 - 0.16).abs() < 1e-12);
}

/// Jacobson and Reiner 1989: 98 jaws by 55 readers are 5,390 readings; 62.6 % of them right are some 3,374.
#[test]
fn a_study_of_many_readers() {
    let (mut right, mut wrong) = (Tally::default(), Tally::default());
    right.add(Truth::Known(5), ClassCall::Five);
    wrong.add(Truth::Known(5), ClassCall::Four);
    let mut pool = Tally::default();
    (0..3374).for_each(|_| pool.add_all(&right));
    (0..98 * 55 - 3374).for_each(|_| pool.add_all(&wrong));
    assert_eq!(pool.known_readings(), 5390);
    assert!((Direct::of(&pool).exact.unwrap().share() - 0.626).abs() < 0.0005);
}

#[test]
fn nine_and_more_takes_a_call_of_ten() {
    let mut tally = Tally::default();
    tally.add(Truth::Known(13), ClassCall::TenPlus);
    assert_eq!(Direct::of(&tally).exact.unwrap().right, 1);
    assert_eq!(Direct::of(&Tally::default()).exact, None);
    assert_eq!(Direct::of(&Tally::default()).bias_years, None);
}

fn any_reading() -> impl Strategy<Value = (Truth, ClassCall)> {
    let lab = (0..=22_u8, prop::option::of(prop::sample::select(vec![Grade::Best, Grade::Middle, Grade::Lowest])));
    let truth = prop_oneof![
        (0..15_u8).prop_map(Truth::Known),
        lab.prop_map(|(years, grade)| Truth::Cementum(LabAge { years, grade })),
    ];
    (truth, prop::sample::select(ClassCall::ALL.to_vec()))
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(40))]

    /// Rows are distributions, means lie in their intervals, and neither order nor splitting matters.
    #[test]
    fn any_record(readings in prop::collection::vec(any_reading(), 0..60), cut in 0..60_usize) {
        let mut forward = Tally::default();
        for (truth, call) in &readings {
            forward.add(*truth, *call);
        }
        let (first, second) = readings.split_at(cut.min(readings.len()));
        let (mut a, mut b) = (Tally::default(), Tally::default());
        for (truth, call) in first.iter().rev() {
            a.add(*truth, *call);
        }
        second.iter().rev().for_each(|(truth, call)| b.add(*truth, *call));
        b.add_all(&a);
        prop_assert_eq!(&b, &forward);
        let learned = learn(&forward, &Reader::FirstMolar, &FLAT);
        let total: f64 = learned.rows.iter().map(|r| r.readings).sum();
        prop_assert!((total - readings.len() as f64).abs() < 1e-6);
        for row in &learned.rows {
            prop_assert!((row.cells.iter().map(|c| c.mean).sum::<f64>() - 1.0).abs() < 1e-9);
            prop_assert!(row.cells.iter().all(|c| c.low <= c.high && c.mean > 0.0 && c.high >= c.mean * 0.5));
            prop_assert!(row.worth <= row.readings + 1e-9);
        }
        let text = serde_json::to_string(&learned.model).unwrap();
        prop_assert_eq!(serde_json::from_str::<ReaderModel>(&text).unwrap(), learned.model);
    }

    /// One more right call never lowers the probability of that call.
    #[test]
    fn one_more_call_never_lowers_its_cell(readings in prop::collection::vec(any_reading(), 0..30), class in 0..10_u8) {
        let call = ClassCall::ALL[usize::from(class)];
        let known: Vec<_> = readings.into_iter().filter(|(t, _)| matches!(t, Truth::Known(_))).collect();
        let mut tally = Tally::default();
        for (truth, call) in &known {
            tally.add(*truth, *call);
        }
        let cell = |tally: &Tally| learn(tally, &Reader::FirstMolar, &FLAT).rows[usize::from(class)].cells[call.index()].mean;
        let before = cell(&tally);
        tally.add(Truth::Known(class), call);
        prop_assert!(cell(&tally) > before);
    }
}
