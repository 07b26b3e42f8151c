//! Checks: reference text on cause of death, section 7, rows 6 to 14; every density against SciPy
//! (`tests/reference/predators.csv`).

use super::Animal::{Bobcat, Coyote, Fisher, GrayFox, Marten, Wolf};
use super::canines::{Jaw, canines, raw as raw_canines};
use super::scat::{WolfOrCoyote, raw as raw_scat, scat, wolf_or_coyote};
use super::talons::{Talons, talons};
use super::tracks::{length, raw_width, stride, toes, width};
use super::*;

const TABLE: &str = include_str!("../../../tests/reference/predators.csv");

fn close(got: f64, expected: f64, tolerance: f64) {
    assert!((got - expected).abs() <= tolerance, "{got} instead of {expected}");
}

#[test]
fn canines_of_the_reference() {
    let upper = |mm| canines(mm, Jaw::Upper);
    close(upper(28.0).odds(Coyote, Bobcat).unwrap(), 1.23, 0.005);
    close(upper(32.0).odds(Coyote, Bobcat).unwrap(), 20.9, 0.05);
    close(upper(32.0).odds(Wolf, Coyote).unwrap(), 0.03, 0.005);
    close(raw_canines(46.0, Jaw::Upper).odds(Wolf, Coyote).unwrap(), 45.9, 0.05);
    close(upper(46.0).odds(Wolf, Coyote).unwrap(), 30.0, 1e-9);
    // 28 mm: coyote or bobcat, undecided. 11 mm: no predator of deer; marten.
    assert_eq!(upper(28.0).told(), None);
    assert!([Coyote, Bobcat].iter().all(|animal| upper(28.0).candidates().contains(animal)));
    let (animal, _) = upper(11.0).told().unwrap();
    assert_eq!(animal, Marten);
    assert!(!animal.kills_deer());
}

#[test]
fn talons_of_the_reference() {
    assert_eq!(talons(50.0, Some(120.0)), Talons::Eagle);
    assert_eq!(talons(50.0, None), Talons::CannotTell);
    assert_eq!(talons(20.0, Some(120.0)), Talons::CannotTell);
}

#[test]
fn tracks_of_the_reference() {
    for (cm, odds, tolerance) in [(5.3, 0.011, 0.0005), (6.5, 0.206, 0.0005), (7.5, 6.80, 0.005)] {
        close(raw_width(cm).odds(Wolf, Coyote).unwrap(), odds, tolerance);
    }
    assert!(toes(5).unwrap().odds(Fisher, Coyote).unwrap() > 1.0);
    assert_eq!(toes(3), None);
}

#[test]
fn scats_of_the_reference() {
    for (mm, odds) in [(14.0, 0.17), (20.0, 8.93), (30.0, 1.84)] {
        close(raw_scat(mm).odds(Coyote, GrayFox).unwrap(), odds, 0.005);
    }
    close(scat(30.0).odds(Wolf, Coyote).unwrap(), 13.6, 0.05);
    close(scat(20.0).odds(Coyote, GrayFox).unwrap(), 3.0, 1e-9);
    assert_eq!(wolf_or_coyote(20), WolfOrCoyote::CannotTell);
    assert_eq!(
        [14, 15, 28, 29].map(wolf_or_coyote),
        [WolfOrCoyote::Coyote, WolfOrCoyote::CannotTell, WolfOrCoyote::CannotTell, WolfOrCoyote::Wolf]
    );
}

#[test]
fn densities_agree_with_scipy() {
    let mut rows = 0;
    for line in TABLE.lines().filter(|l| !l.starts_with('#')).skip(1) {
        let [what, animal, x, expected] = line.split(',').collect::<Vec<_>>()[..] else { panic!("{line}") };
        let x: f64 = x.parse().unwrap();
        let all = match what {
            "upper" => raw_canines(x, Jaw::Upper),
            "lower" => raw_canines(x, Jaw::Lower),
            "width" => raw_width(x),
            "scat" => raw_scat(x),
            other => panic!("{other}"),
        };
        let animal = Animal::ALL.into_iter().find(|a| a.code() == animal).unwrap();
        let expected: f64 = expected.parse().unwrap();
        close(all.density(animal).unwrap(), expected, 1e-12 + 1e-10 * expected);
        rows += 1;
    }
    assert!(rows > 100, "{rows}");
}

/// A slip never decides: a figure that no animal has leaves all of them within the caps.
#[test]
fn a_slip_leaves_everybody_in() {
    for far in [68.0, 9.0] {
        let all = canines(far, Jaw::Upper);
        let (top, last) = (all.each.first().unwrap().1, all.each.last().unwrap().1);
        assert!(top / last <= 30.0 + 1e-9);
    }
    for all in [width(15.9), length(2.1), stride(139.0)] {
        assert!(all.each.first().unwrap().1 / all.each.last().unwrap().1 <= 30.0 + 1e-9);
        close(all.shares().iter().map(|(_, p)| p).sum(), 1.0, 1e-12);
    }
}
