//! Weight from chest girth, by every rule that the deer fits.

use serde::{Deserialize, Serialize};

use super::rules::{
    Rule, carolina_dressed_lb, carolina_live_lb, florida_live_kg, inches, kg, west_virginia_dressed_lb,
    west_virginia_live_lb,
};
use super::{CM_PER_INCH, Weight};
use crate::science::age::Sex;
use crate::science::calipers::NINETY;

/// Least and greatest girth that a deer past its first months has, cm. Ours.
pub const GIRTHS_CM: (f64, f64) = (45.0, 140.0);
/// One standard deviation of a weight from girth, as a share of it. Design.
const SD_SHARE: f64 = 0.12;
/// Rules whose best values differ by more than this factor are said to disagree. Ours.
const DISAGREE_FROM: f64 = 1.15;

/// The girth and what is known of the body it was taken round. `None` is not known.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Girth {
    /// Round the chest just behind the forelegs, cm.
    pub girth_cm: f64,
    /// Body length, cm.
    pub body_length_cm: Option<f64>,
    /// Fawn, or older.
    pub fawn: Option<bool>,
    /// Age, years.
    pub age_years: Option<f64>,
    /// Sex.
    pub sex: Option<Sex>,
    /// Frozen, wholly or partly: the chest keeps the form it froze in.
    pub frozen: Option<bool>,
    /// Bloated.
    pub bloated: Option<bool>,
    /// Opened or eaten into.
    pub opened: Option<bool>,
}

/// Why a girth gives no weight.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize, thiserror::Error)]
#[serde(rename_all = "snake_case")]
pub enum GirthRefusal {
    /// Not a number above zero.
    #[error("the girth is no length")]
    NotALength,
    /// Frozen.
    #[error("a frozen chest keeps the form it froze in")]
    Frozen,
    /// Bloated.
    #[error("a bloated body is wider than the deer was")]
    Bloated,
    /// Opened.
    #[error("an opened or eaten body has no girth")]
    Opened,
    /// No deer in the unit it was given in, but one in the other.
    #[error("the girth only makes sense in the other unit")]
    OtherUnit {
        /// What it would be, cm.
        would_be_cm: f64,
        /// It was meant as inches and given as centimetres; otherwise the other way round.
        meant_inches: bool,
    },
    /// No deer in either unit.
    #[error("no deer has such a girth")]
    Impossible,
}

/// Why one rule gives no weight.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum RuleSilent {
    /// It is for the other age group.
    OtherAge,
    /// It wants body length, sex and age, and one is not known.
    NeedsMore,
    /// The girth lies outside the range that it is used for.
    OutsideRange,
}

/// What one rule says.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct RuleWeight {
    /// Which.
    pub rule: Rule,
    /// Live weight in autumn; nine in ten deer of its herd lie between the ends.
    pub live: Weight,
    /// Dressed weight, kg, where the rule gives one.
    pub dressed_kg: Option<f64>,
}

/// What all rules say.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct GirthReading {
    /// Rules that speak, in the order of [`Rule`]; may be empty.
    pub weights: Vec<RuleWeight>,
    /// Rules that do not, and why.
    pub silent: Vec<(Rule, RuleSilent)>,
    /// Their best values differ by more than 15 %.
    pub disagree: bool,
    /// Nobody said whether it was frozen, bloated or opened.
    pub state_not_asked: bool,
}

/// Whether a girth can be true, and whether it could be in the other unit. Weight aside.
pub fn check_girth(girth_cm: f64) -> Result<f64, GirthRefusal> {
    let can_be = |cm: f64| (GIRTHS_CM.0..=GIRTHS_CM.1).contains(&cm);
    if !girth_cm.is_finite() || girth_cm <= 0.0 {
        return Err(GirthRefusal::NotALength);
    }
    if can_be(girth_cm) {
        return Ok(girth_cm);
    }
    for (would_be_cm, meant_inches) in [(girth_cm * CM_PER_INCH, true), (girth_cm / CM_PER_INCH, false)] {
        if can_be(would_be_cm) {
            return Err(GirthRefusal::OtherUnit { would_be_cm, meant_inches });
        }
    }
    Err(GirthRefusal::Impossible)
}

/// Reads a girth by every rule. Refused for a frozen, bloated or opened body and for what no deer has.
pub fn read_girth(given: &Girth) -> Result<GirthReading, GirthRefusal> {
    let girth_cm = check_girth(given.girth_cm)?;
    for (state, refusal) in [
        (given.opened, GirthRefusal::Opened),
        (given.bloated, GirthRefusal::Bloated),
        (given.frozen, GirthRefusal::Frozen),
    ] {
        if state == Some(true) {
            return Err(refusal);
        }
    }
    let (mut weights, mut silent) = (Vec::new(), Vec::new());
    for rule in Rule::ALL {
        match by_rule(rule, girth_cm, given) {
            Ok(weight) => weights.push(weight),
            Err(why) => silent.push((rule, why)),
        }
    }
    let bests = || weights.iter().map(|w| w.live.best_kg);
    let disagree = bests().fold(0.0, f64::max) > DISAGREE_FROM * bests().fold(f64::INFINITY, f64::min);
    let state_not_asked = [given.opened, given.bloated, given.frozen].iter().any(Option::is_none);
    Ok(GirthReading { weights, silent, disagree, state_not_asked })
}

fn by_rule(rule: Rule, girth_cm: f64, given: &Girth) -> Result<RuleWeight, RuleSilent> {
    let for_fawns = match rule {
        Rule::CarolinaFawn => Some(true),
        Rule::CarolinaAdult => Some(false),
        Rule::WestVirginia | Rule::Florida => None,
    };
    if for_fawns.zip(given.fawn).is_some_and(|(wanted, is)| wanted != is) {
        return Err(RuleSilent::OtherAge);
    }
    let (low, high) = rule.girths_cm();
    if !(low..=high).contains(&girth_cm) {
        return Err(RuleSilent::OutsideRange);
    }
    let girth_in = inches(girth_cm);
    let (live_kg, dressed_kg) = match rule {
        Rule::CarolinaFawn | Rule::CarolinaAdult => {
            let fawn = rule == Rule::CarolinaFawn;
            (kg(carolina_live_lb(girth_in, fawn)), Some(kg(carolina_dressed_lb(girth_in, fawn))))
        }
        Rule::WestVirginia => (kg(west_virginia_live_lb(girth_in)), Some(kg(west_virginia_dressed_lb(girth_in)))),
        Rule::Florida => {
            let (Some(length), Some(sex), Some(age)) = (given.body_length_cm, given.sex, given.age_years) else {
                return Err(RuleSilent::NeedsMore);
            };
            (florida_live_kg(girth_cm, length, sex, age), None)
        }
    };
    let reach = NINETY * SD_SHARE;
    Ok(RuleWeight { rule, live: Weight::scaled(live_kg, [1.0 - reach, 1.0, 1.0 + reach]), dressed_kg })
}

#[cfg(test)]
mod tests {
    use super::*;

    fn whole(girth_cm: f64) -> Girth {
        let no = Some(false);
        Girth { girth_cm, frozen: no, bloated: no, opened: no, ..Girth::default() }
    }

    #[test]
    fn every_rule_that_fits_stands_beside_the_others() {
        let rules = |given: &Girth| read_girth(given).unwrap().weights.iter().map(|w| w.rule).collect::<Vec<_>>();
        let open = whole(76.2);
        assert_eq!(rules(&open), [Rule::CarolinaFawn, Rule::CarolinaAdult, Rule::WestVirginia]);
        let fawn = Girth { fawn: Some(true), ..open };
        assert_eq!(rules(&fawn), [Rule::CarolinaFawn, Rule::WestVirginia]);
        let doe = Girth {
            fawn: Some(false),
            sex: Some(Sex::Female),
            age_years: Some(2.5),
            body_length_cm: Some(150.0),
            ..open
        };
        assert_eq!(rules(&doe), [Rule::CarolinaAdult, Rule::WestVirginia, Rule::Florida]);
        assert!(read_girth(&open).unwrap().silent.contains(&(Rule::Florida, RuleSilent::NeedsMore)));
    }

    /// South Carolina fawn of 30 inches: 84.86 lb live, 62.88 dressed; the spread of 12 % is a choice.
    #[test]
    fn a_fawn_of_thirty_inches() {
        let reading = read_girth(&Girth { fawn: Some(true), ..whole(76.2) }).unwrap();
        let carolina = reading.weights[0];
        assert!((carolina.live.best_kg / super::super::KG_PER_LB - 84.86).abs() < 0.005);
        assert!((carolina.dressed_kg.unwrap() / super::super::KG_PER_LB - 62.88).abs() < 0.005);
        assert!((carolina.live.high_kg / carolina.live.best_kg - 1.1974).abs() < 0.0001);
    }

    #[test]
    fn disagreement_is_said() {
        // Fawn and adult rules of South Carolina part by a fifth at 36 inches.
        assert!(read_girth(&whole(91.0)).is_ok_and(|r| !r.disagree));
        let small = read_girth(&whole(62.0)).unwrap();
        assert!(small.disagree, "{small:?}");
    }

    #[test]
    fn refused_for_a_body_that_has_no_true_girth() {
        let good = whole(80.0);
        for (given, why) in [
            (Girth { frozen: Some(true), ..good }, GirthRefusal::Frozen),
            (Girth { bloated: Some(true), ..good }, GirthRefusal::Bloated),
            (Girth { opened: Some(true), frozen: Some(true), ..good }, GirthRefusal::Opened),
            (Girth { girth_cm: f64::NAN, ..good }, GirthRefusal::NotALength),
        ] {
            assert_eq!(read_girth(&given), Err(why));
        }
        assert!(read_girth(&Girth { frozen: None, ..good }).unwrap().state_not_asked);
    }

    /// No rule speaks beyond the girths that it is taken to hold for; the wider ones beside it do.
    #[test]
    fn a_rule_is_never_stretched() {
        let of = |girth_cm, fawn| {
            let more =
                Girth { body_length_cm: Some(150.0), sex: Some(Sex::Male), age_years: Some(3.0), ..Girth::default() };
            read_girth(&Girth { girth_cm, fawn: Some(fawn), ..more }).unwrap()
        };
        for (girth_cm, fawn, silent) in [
            (92.0, true, Rule::CarolinaFawn),
            (57.0, false, Rule::CarolinaAdult),
            (57.0, false, Rule::WestVirginia),
            (118.0, false, Rule::Florida),
            (118.0, false, Rule::CarolinaAdult),
        ] {
            let reading = of(girth_cm, fawn);
            assert!(reading.silent.contains(&(silent, RuleSilent::OutsideRange)), "{girth_cm}: {:?}", reading.silent);
            assert!(!reading.weights.is_empty(), "{girth_cm}");
        }
    }

    /// A girth typed in the wrong unit is named as such, and what it would be is offered.
    #[test]
    fn the_other_unit() {
        assert_eq!(check_girth(34.0), Err(GirthRefusal::OtherUnit { would_be_cm: 34.0 * 2.54, meant_inches: true }));
        assert_eq!(
            check_girth(86.0 * 2.54),
            Err(GirthRefusal::OtherUnit { would_be_cm: 86.0 * 2.54 / 2.54, meant_inches: false })
        );
        assert_eq!(check_girth(86.0), Ok(86.0));
        assert_eq!(check_girth(5.0), Err(GirthRefusal::Impossible));
        assert_eq!(check_girth(900.0), Err(GirthRefusal::Impossible));
    }
}
