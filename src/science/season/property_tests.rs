//! What must hold of every season, whatever its carcasses.

use proptest::prelude::*;
use time::{Date, Duration, macros::date};

use super::doubles::{Around, Pair, common_days, probability};
use super::keyed::Stream;
use super::maximum::{Rows, shares};
use super::mixture::{Fixed, draw};
use super::survival::{FEWEST, NoSurvival, over_draws};
use super::weeks::by_week;
use crate::science::age::DeathWindow;
use crate::science::cause::undamped::{OneCase, Undamped};
use crate::science::cause::{Answers, Case, Cause, Drawn, Table, posterior};
use crate::science::season::mixture::Said;

fn day(n: i64) -> Date {
    date!(2027 - 01 - 01) + Duration::days(n)
}

fn window(from: i64, length: i64) -> DeathWindow {
    DeathWindow { from: day(from), to: day(from + length - 1) }
}

/// The shares that fit best, by expectation and maximisation alone and very long.
fn slowly(rows: &Rows, pulls: &[f64]) -> Vec<f64> {
    let total: f64 = rows.weights.iter().sum::<f64>() + pulls.iter().sum::<f64>();
    let mut share = vec![1.0 / rows.states as f64; rows.states];
    for _ in 0..20_000 {
        let mut given = pulls.to_vec();
        for (row, weight) in rows.likelihood.chunks_exact(rows.states).zip(rows.weights) {
            let sum: f64 = row.iter().zip(&share).map(|(l, s)| l * s).sum();
            for ((given, l), s) in given.iter_mut().zip(row).zip(&share) {
                *given += weight * l * s / sum;
            }
        }
        share = given.iter().map(|given| given / total).collect();
    }
    share
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(32))]

    #[test]
    fn the_best_fit_is_that_of_the_slow_way(seed in any::<u64>()) {
        let mut s = Stream::at(seed, 0, 0);
        let states = 3;
        let likelihood: Vec<f64> = (0..9 * states).map(|_| s.uniform()).collect();
        let weights: Vec<f64> = (0..9).map(|_| s.gamma(4.0)).collect();
        let pulls: Vec<f64> = (0..states).map(|_| s.gamma(1.0) + 0.05).collect();
        let rows = Rows { likelihood: &likelihood, states, weights: &weights };
        let (fast, slow) = (shares(&rows, &pulls), slowly(&rows, &pulls));
        prop_assert!((fast.iter().sum::<f64>() - 1.0).abs() < 1e-12);
        for (a, b) in fast.iter().zip(&slow) {
            prop_assert!((a - b).abs() < 1e-7, "{:?} {:?}", fast, slow);
        }
    }

    #[test]
    fn no_death_leaves_its_windows(all in prop::collection::vec((0_i64..120, 1_i64..40), 1..40)) {
        let windows: Vec<DeathWindow> = all.iter().map(|(from, length)| window(*from, *length)).collect();
        let weeks = by_week(windows.iter().copied());
        let sum: f64 = weeks.weeks.iter().map(|week| week.deaths).sum();
        prop_assert!((sum - f64::from(weeks.spread)).abs() < 1e-9);
        prop_assert_eq!(weeks.spread + weeks.apart, u32::try_from(all.len()).unwrap());
        for week in &weeks.weeks {
            let touches = |w: &&DeathWindow| w.from <= week.monday + Duration::days(6) && w.to >= week.monday;
            let short = |w: &&DeathWindow| (w.to - w.from).whole_days() < 28;
            let most = windows.iter().filter(short).filter(touches).count();
            prop_assert_eq!(usize::try_from(week.at_most).unwrap(), most);
            prop_assert!(f64::from(week.at_least) <= week.deaths + 1e-12 && week.deaths <= f64::from(week.at_most) + 1e-12);
        }
        let mut turned = windows.clone();
        turned.reverse();
        prop_assert_eq!(by_week(turned), weeks);
    }

    #[test]
    fn one_death_stays_within_its_window(from in 0_i64..60, length in 1_i64..28) {
        let weeks = by_week([window(from, length)]);
        let (first, last) = (day(from), day(from + length - 1));
        let outside = |week: &super::weeks::Week| week.monday > last || week.monday + Duration::days(6) < first;
        prop_assert!(weeks.weeks.iter().filter(|week| outside(week)).all(|week| week.deaths == 0.0));
    }
}

/// A carcass of three states, one of them likelier.
fn carcass(seed: u64, n: u64) -> Vec<f64> {
    let mut s = Stream::at(seed, n, 1);
    (0..3).map(|_| s.uniform() * s.uniform()).collect()
}

#[test]
fn the_order_of_carcasses_moves_no_digit_and_shares_add_to_one() {
    let carcasses: Vec<Vec<f64>> = (0..30).map(|n| carcass(5, n)).collect();
    let prior = [0.5, 0.3, 0.2];
    let drawn = draw(&Fixed::new(&prior, &carcasses), 1);
    let mut turned = carcasses.clone();
    turned.reverse();
    turned.swap(3, 17);
    assert_eq!(draw(&Fixed::new(&prior, &turned), 1), drawn);
    for shares in &drawn.shares {
        assert!((shares.iter().sum::<f64>() - 1.0).abs() < 1e-12);
        assert!(shares.iter().all(|share| *share >= 0.0));
    }
    assert!((drawn.means().iter().sum::<f64>() - 1.0).abs() < 1e-12);
    let line = drawn.line(&[0, 1]);
    assert!((line.share + drawn.line(&[2]).share - 1.0).abs() < 1e-12);
}

#[test]
fn more_carcasses_narrow() {
    let prior = [0.5, 0.3, 0.2];
    let width = |times: usize| {
        let carcasses: Vec<Vec<f64>> = (0..times).flat_map(|_| (0..12).map(|n| carcass(9, n))).collect();
        let line = draw(&Fixed::new(&prior, &carcasses), 1).line(&[0]);
        (line.high - line.low, line.data_carry)
    };
    let (few, carried_few) = width(1);
    let (some, carried_some) = width(8);
    let (many, carried_many) = width(64);
    assert!(many < some && some < few, "{few} {some} {many}");
    assert!(carried_few < carried_some && carried_some < carried_many);
}

fn drawn() -> std::sync::Arc<Drawn> {
    std::sync::Arc::new(Drawn::new(Table::built_in()))
}

/// Sixty carcasses of each of which one weak sign was seen (marrow gone). Adding up their posteriors keeps near the
/// prior, however many there are; the mixture does not, because the prior enters once.
#[test]
fn adding_up_posteriors_gives_the_prior_back_and_is_not_what_is_done() {
    let drawn = drawn();
    let prior = *drawn.table().prior("northeast").unwrap();
    let case = Case::new(prior, Answers::NONE.with(12, 0));
    let own = posterior(drawn.table(), &case);
    let starved = Cause::Starvation as usize;
    let added_up = own[starved];
    let season = |n: usize| {
        let one = OneCase { drawn: drawn.clone(), digest: [0; 32], case };
        draw(&Undamped::new(&vec![one; n]), 1).line(&[starved])
    };
    // One carcass or many: the sum of posteriors stays the same.
    let (one, many) = (season(1), season(60));
    assert!(prior[starved] < added_up && added_up < 0.8, "{added_up}");
    assert!(many.share > one.share + 0.1, "{one:?} {many:?}");
    assert!((many.share - added_up).abs() > 0.05, "{many:?} {added_up}");
    // Carcasses of which nothing was seen are none at all; adding up would count the prior for each.
    let nothing = OneCase { drawn: drawn.clone(), digest: [0; 32], case: Case::new(prior, Answers::NONE) };
    assert!(Undamped::new(&[nothing]).counts().is_empty());
}

/// Carcasses share one drawn table: with the table doubtful, more of the same carcasses do not narrow a share to
/// nothing.
#[test]
fn the_tables_doubt_stays() {
    let drawn = drawn();
    let prior = *drawn.table().prior("northeast").unwrap();
    let seen = [(1, 0), (10, 0)].into_iter().fold(Answers::NONE, |all, (row, state)| all.with(row, state));
    let other = Answers::NONE.with(12, 0).with(13, 0);
    let of = |answers| OneCase { drawn: drawn.clone(), digest: [0; 32], case: Case::new(prior, answers) };
    let cases: Vec<OneCase> = (0..400).map(|n| of(if n % 2 == 0 { seen } else { other })).collect();
    let line = draw(&Undamped::new(&cases), 1).line(&[Cause::Coyote as usize]);
    let sampling = 3.92 * (0.25_f64 / 400.0).sqrt();
    assert!(line.high - line.low > 1.5 * sampling, "{line:?}");
}

#[test]
fn a_survival_is_refused_where_it_does_not_hold() {
    let few = vec![vec![5, 4, 3, 2, 1, 0, 0, 1]; 4];
    assert_eq!(over_draws(&few, 2, 0.95), Err(NoSurvival::TooFew(16)));
    // As many old as young: no constant survival.
    let flat = vec![vec![2, 30, 2, 30, 2, 30, 2, 30]; 4];
    assert!(matches!(over_draws(&flat, 2, 0.95), Err(NoSurvival::PoorFit(_) | NoSurvival::YoungestDoesNotFit(_))));
    let good = vec![vec![62, 41, 26, 17, 11, 7, 5, 9]; 10];
    let found = over_draws(&good, 2, 0.95).unwrap();
    assert!(found.low < found.survival && found.survival < found.high && found.deer > f64::from(FEWEST));
    // Draws that differ widen.
    let mut differ = good;
    differ.extend(vec![vec![72, 41, 22, 13, 8, 5, 3, 5]; 10]);
    let wider = over_draws(&differ, 2, 0.95).unwrap();
    assert!(wider.high - wider.low > found.high - found.low);
}

#[test]
fn doubles() {
    let around = Around { carcasses: 60, area_m2: 40e6, season_days: 150 };
    let pair = Pair {
        apart: Some((12.0, 30.0, 30.0)),
        days: Some((5, 6, 9)),
        age_and_sex: Some(1.8),
        same_jaw: None,
        known_before: false,
    };
    let (near, _) = probability(&pair, &around);
    let of = |pair: Pair| probability(&pair, &around).0;
    assert!(near > 0.9, "{near}");
    assert!(of(Pair { apart: Some((400.0, 30.0, 30.0)), ..pair }) < 0.05);
    assert!(of(Pair { days: Some((0, 6, 9)), ..pair }) < near);
    assert!(of(Pair { age_and_sex: Some(0.0), ..pair }) < near);
    assert!(of(Pair { same_jaw: Some(true), ..pair }) < near);
    assert!(of(Pair { same_jaw: Some(false), ..pair }) >= near);
    assert!(of(Pair { known_before: true, ..pair }) > near);
    assert!(of(Pair::default()) < 0.01, "nothing told says next to nothing");
    assert_eq!((common_days((3, 9), (7, 20)), common_days((3, 6), (7, 20))), (3, 0));
}
