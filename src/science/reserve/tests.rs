use super::days::{FAWN_FIELD_RATE, FAWN_FIELD_RATE_BEST, Inputs, ReserveRefusal, days, need_kcal, reserve};
use super::loss::{Body, LossBand, LossRefusal, band, weight_loss};
use super::*;
use crate::science::marrow::AgeGroup;

const TABLE: &str = include_str!("../../../tests/reference/reserve.csv");

fn near(got: f64, expected: f64, half_digit: f64) {
    assert!((got - expected).abs() <= half_digit, "{got} against {expected}");
}

fn kg(low: f64, high: f64) -> Range {
    Range::new(low, high).unwrap()
}

/// Worden and Pekins 1995 (constants seen, and `about 3 months` for a deer with 20 % fat); a 60-kg doe at a
/// fasting rate of 85: need 3115.2 kcal; 77.7, 88.8 and 103.6 days for 0.9, 1.0 and 1.1 eaten, 36.6 fasting.
#[test]
fn a_doe_of_60_kg() {
    near(need_kcal(1.7 * 85.0, 60.0), 3115.2, 0.05);
    for (eaten, expected) in [(0.9, 77.7), (1.0, 88.8), (1.1, 103.6), (0.0, 36.6)] {
        near(days(0.20, 60.0, (1.7 - eaten) * 85.0).unwrap(), expected, 0.05);
    }
    let inputs = Inputs::published(AgeGroup::Adult, kg(60.0, 60.0));
    let got = reserve(&inputs).unwrap();
    let (low, best, high) = (got.low_days.unwrap(), got.best_days.unwrap(), got.high_days.unwrap());
    assert!(low < best && best < high);
    assert!(reserve(&inputs.fasting()).unwrap().high_days.unwrap() < high);
}

/// Tarr and Pekins 2002: 758.4 kJ (535.9 to 1032.8) are 181.3 kcal (128.1 to 246.8). A fawn of 35 kg with
/// 12.1 % fat that eats 85 needs 2609 kcal and lasts 29.0 days.
#[test]
fn a_fawn_of_35_kg() {
    near(FAWN_FIELD_RATE_BEST, 181.3, 0.05);
    near(FAWN_FIELD_RATE.low, 128.1, 0.05);
    near(FAWN_FIELD_RATE.high, 246.8, 0.05);
    near(need_kcal(181.3, 35.0), 2609.0, 0.5);
    near(days(0.121, 35.0, 181.3 - 85.0).unwrap(), 29.0, 0.05);
    near(reserve(&Inputs::published(AgeGroup::Fawn, kg(35.0, 35.0))).unwrap().best_days.unwrap(), 29.0, 0.05);
}

/// Ends over the whole box of inputs as SciPy's bounded optimiser has them.
#[test]
fn ends_of_the_ranges() {
    let mut rows = 0;
    for line in TABLE.lines().filter(|l| !l.starts_with('#')).skip(1) {
        let cells: Vec<&str> = line.split(',').collect();
        let number = |i: usize| cells[i].parse::<f64>().unwrap();
        let mass = kg(number(1), number(2));
        let (low, high) = match cells[0] {
            "loss" => {
                let got = weight_loss(Some(mass), Some(kg(number(3), number(4))), Body::Whole).unwrap();
                (got.low, got.high)
            }
            group => {
                let group = if group == "fawn" { AgeGroup::Fawn } else { AgeGroup::Adult };
                let got = reserve(&Inputs::published(group, mass)).unwrap();
                (got.low_days.unwrap(), got.high_days.unwrap())
            }
        };
        near(low, number(5), 1e-9 * number(5).abs());
        near(high, number(6), 1e-9 * number(6).abs());
        rows += 1;
    }
    assert_eq!(rows, 10);
}

/// A deer that may eat as much as it spends has no last day.
#[test]
fn not_losing() {
    let mut inputs = Inputs::published(AgeGroup::Adult, kg(60.0, 60.0));
    inputs.short = Range { low: -1.0, high: 10.0 };
    let got = reserve(&inputs).unwrap();
    assert_eq!(got.high_days, None);
    assert!(got.low_days.is_some());
    assert_eq!(days(0.2, 60.0, 0.0), None);
}

/// Bands are ours, on figures that were seen: 10 to 15 % is normal, 25 to 30 % can be survived.
#[test]
fn bands_of_loss() {
    use LossBand::{AtLimit, Gained, NearLimit, Ordinary, Stressed};
    let words = [-0.01, 0.0, 0.149, 0.15, 0.249, 0.25, 0.299, 0.30, 0.5].map(band);
    assert_eq!(words, [Gained, Ordinary, Ordinary, Stressed, Stressed, NearLimit, NearLimit, AtLimit, AtLimit]);
    let got = weight_loss(Some(kg(40.0, 40.0)), Some(kg(50.0, 60.0)), Body::Whole).unwrap();
    near(got.low, 0.2, 1e-12);
    near(got.high, 1.0 / 3.0, 1e-12);
    assert_eq!((got.band_low, got.band_high), (Stressed, AtLimit));
}

#[test]
fn refusals() {
    let (now, was) = (Some(kg(40.0, 40.0)), Some(kg(50.0, 60.0)));
    assert_eq!(weight_loss(None, was, Body::Whole), Err(LossRefusal::NoWeight));
    assert_eq!(weight_loss(now, None, Body::Whole), Err(LossRefusal::NoReference));
    assert_eq!(weight_loss(now, was, Body::NotWhole), Err(LossRefusal::NotWhole));
    assert_eq!(weight_loss(now, was, Body::NotTold), Err(LossRefusal::BodyNotTold));
    let reversed = Some(Range { low: 60.0, high: 50.0 });
    assert_eq!(weight_loss(now, reversed, Body::Whole), Err(LossRefusal::NotAWeight));
    assert_eq!(weight_loss(Some(kg(0.0, 0.0)), was, Body::Whole), Err(LossRefusal::NotAWeight));
    assert_eq!(Range::new(2.0, 1.0), None);
    assert_eq!(Range::new(f64::NAN, 1.0), None);
    let inputs = Inputs::published(AgeGroup::Adult, Range { low: 0.0, high: 60.0 });
    assert_eq!(reserve(&inputs), Err(ReserveRefusal::NotTrue));
    let inputs =
        Inputs { fat_share: Range { low: 0.2, high: 1.2 }, ..Inputs::published(AgeGroup::Adult, kg(50.0, 60.0)) };
    assert_eq!(reserve(&inputs), Err(ReserveRefusal::NotTrue));
}

/// Reference, section 9, row 60: fasting white-tails of Silver and others 1969, kcal a day and kg of live mass, as
/// two statistics textbooks reprint them; their masses were not retrieved, 60 kg is assumed. An independent check
/// of the winter rate used here, and why no days are told after April.
#[test]
fn the_fasting_rate_stands_beside_another_herd_s() {
    let mean = |readings: &[f64]| readings.iter().sum::<f64>() / readings.len() as f64;
    let winter = mean(&[36.0, 33.6, 26.9, 35.8, 30.1, 31.2, 35.3]);
    near(winter, 32.70, 0.005);
    near(winter * libm::pow(60.0, 0.25), 91.01, 0.01);
    near(winter * libm::pow(70.0, 0.25), 94.58, 0.01);
    // The upper edge of the range: not further off than its own width over the middle.
    let reach = days::FASTING_RATE.high - days::FASTING_RATE_BEST;
    assert!((winter * libm::pow(60.0, 0.25) - days::FASTING_RATE.high).abs() < reach);
    let spring = mean(&[44.6, 54.4, 48.2, 55.7, 50.0]) / winter;
    let summer = mean(&[53.8, 53.9, 62.5, 46.6]) / winter;
    assert!(spring > 1.5 && (1.6..1.7).contains(&summer));
}
