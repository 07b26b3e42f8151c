//! Rows of the reference's check values: condition-and-winter.md, section 9.

use super::chest::Chest;
use super::gauge::{area_cm2, load_g_per_cm2};
use super::sinking::{Hindrance, Printed, checked, hindrance, relative_percent};
use super::travel::added_percent;
use super::*;
use crate::science::marrow::AgeGroup;

fn close(got: f64, expected: f64, tolerance: f64) {
    assert!((got - expected).abs() <= tolerance, "{got} {expected}");
}

/// Rows 20 and 21, computed there from the equation from memory.
#[test]
fn cost_of_walking() {
    for (density, relative, expected) in [
        (0.2, 25.0, 28.5),
        (0.2, 50.0, 91.8),
        (0.2, 75.0, 221.4),
        (0.2, 100.0, 474.7),
        (0.3, 50.0, 135.9),
        (0.4, 50.0, 186.6),
    ] {
        close(added_percent(relative, density).unwrap(), expected, 0.051);
    }
    close(added_percent(0.0, 0.2).unwrap(), 0.0, 0.0);
}

/// Section 6.1: never past 100 % of the chest, never outside 0.1 to 0.4.
#[test]
fn the_equation_is_never_stretched() {
    assert_eq!(added_percent(100.1, 0.2), Err(SnowRefusal::SinkingOutsideFit(100.1)));
    assert_eq!(added_percent(-1.0, 0.2), Err(SnowRefusal::SinkingOutsideFit(-1.0)));
    assert_eq!(added_percent(50.0, 0.45), Err(SnowRefusal::DensityOutsideFit(0.45)));
    assert!(added_percent(f64::NAN, 0.2).is_err() && added_percent(50.0, f64::NAN).is_err());
}

/// Row 22: sinking 25, chest 50; rows 23 and 58: depths that impede; section 6.2: the range 35.6 to 42.7.
#[test]
fn chest_and_relative_sinking() {
    close(relative_percent(25.0, &Chest::measured(50.0).unwrap())[0], 50.0, 0.0);
    for (chest_cm, impede_cm) in [(50.0, 35.0), (45.0, 31.5), (50.8, 35.56), (60.96, 42.672)] {
        close(Chest::measured(chest_cm).unwrap().impede_cm()[0], impede_cm, 1e-9);
    }
    let (older, fawn) = (Chest::by_age(AgeGroup::Adult), Chest::by_age(AgeGroup::Fawn));
    close(older.impede_cm()[0], 39.2, 1e-9);
    close(fawn.impede_cm()[0], 35.7, 1e-9);
    close(older.impede_cm()[1], 35.6, 0.05);
    close(older.impede_cm()[2], 42.7, 0.05);
    assert!(!older.measured && !fawn.measured);
}

/// Section 6.2: under 40 or over 70 cm is asked again.
#[test]
fn a_strange_chest_is_asked_again_and_an_impossible_one_refused() {
    assert!(Chest::measured(39.9).unwrap().recheck && Chest::measured(70.1).unwrap().recheck);
    assert!(!Chest::measured(40.0).unwrap().recheck && !Chest::measured(70.0).unwrap().recheck);
    assert_eq!(Chest::measured(0.0), Err(SnowRefusal::NotAChest(0.0)));
    assert!(Chest::measured(f64::NAN).is_err());
}

#[test]
fn what_cannot_be_is_refused() {
    assert_eq!(checked(-3.0, None), Err(SnowRefusal::NotADepth(-3.0)));
    assert_eq!(checked(10.0, Some(-1.0)), Err(SnowRefusal::NotADepth(-1.0)));
    let deeper = SnowRefusal::DeeperThanSnow { sinking_cm: 41.0, depth_cm: 40.0 };
    assert_eq!(checked(41.0, Some(40.0)), Err(deeper));
    assert_eq!(checked(40.0, Some(40.0)), Ok(40.0));
}

/// Section 6.3 and 6.2; row 64: on 24 January 1969 the gauge sank 106.7 cm in 115.8 cm of snow, on 21 March
/// 18.3 cm in 85.3 cm: shallow sinking in deep snow.
#[test]
fn classes() {
    let of = |cm| hindrance(cm, 56.0);
    for (cm, class) in [
        (24.9, Hindrance::BelowSteep),
        (25.0, Hindrance::Steep),
        (39.1, Hindrance::Steep),
        (39.3, Hindrance::Impeded),
        (55.9, Hindrance::Impeded),
        (56.0, Hindrance::Ploughs),
        (106.7, Hindrance::Ploughs),
        (18.3, Hindrance::BelowSteep),
    ] {
        assert_eq!(of(cm), class, "{cm}");
    }
    assert_eq!(hindrance(41.0, 61.0), Hindrance::PastSteep);
    assert!(Printed::OntarioVeryRestricted.is_reached(Some(85.3), Some(18.3)), "by depth it would look restricted");
    assert!(!Printed::QuebecSinking.is_reached(Some(85.3), Some(18.3)));
}

#[test]
fn printed_depths_in_their_order() {
    let reached = |cm| Printed::ALL.into_iter().filter(|p| p.is_reached(Some(cm), None)).count();
    assert_eq!([20.0, 35.0, 42.0, 45.8, 46.0, 50.0, 63.0].map(reached), [0, 1, 1, 2, 3, 4, 5]);
    assert!(Printed::QuebecSinking.is_reached(None, Some(50.0)));
}

/// Row 59: 3 lb on 1 1/8 in; the report prints "about 211".
#[test]
fn gauge() {
    close(area_cm2(1.125), 6.413, 0.0005);
    close(load_g_per_cm2(3.0, 1.125).unwrap(), 212.2, 0.05);
    assert_eq!(load_g_per_cm2(3.0, 0.0), None);
}
