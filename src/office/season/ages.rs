//! Age and sex over a season: one mixture over both.

use super::kept::Kept;
use super::table::{AgeTable, ShareLine};
use super::{share, tell};
use crate::reading::for_season::CLASSES;
use crate::science::season::mixture::{Draws, Fixed, Line, PRIOR_CARCASSES, draw};

/// States: each class of completed birthdays, female then male.
pub const STATES: usize = 2 * CLASSES;

/// Broad classes with their birthdays.
const BROAD: [(&str, std::ops::Range<usize>); 5] =
    [("fawn", 0..1), ("yearling", 1..2), ("two_years", 2..3), ("three_to_five", 3..6), ("six_and_over", 6..10)];
const SEXES: [&str; 2] = ["female", "male"];

/// Female and male of each class of completed birthdays.
pub type Classes = [[f64; 2]; CLASSES];

/// What each carcass says of age and sex, and the prior.
pub fn said(rows: &[&Kept]) -> Option<(Vec<f64>, Vec<Vec<f64>>)> {
    let told = rows.iter().filter_map(|row| Some((row.age_and_sex.as_ref()?, &*row.age_prior)));
    let prior = prior(told.clone().map(|(_, prior)| prior))?;
    Some((prior, told.map(|(said, _)| said.concat()).collect()))
}

/// One card, one prior: it is the mean of the readings' own, which differ only where a card was not in force. `None`
/// of none.
pub fn prior<'a>(own: impl Iterator<Item = &'a Classes>) -> Option<Vec<f64>> {
    let mut prior = vec![0.0; STATES];
    let mut any = false;
    for own in own {
        any = true;
        for (sum, own) in prior.iter_mut().zip(own.iter().flatten()) {
            *sum += own;
        }
    }
    let whole: f64 = prior.iter().sum();
    for share in &mut prior {
        *share /= whole;
    }
    any.then_some(prior)
}

/// Draws of one group of carcasses; `None` where nothing speaks of age or sex.
pub fn draws(rows: &[&Kept], seed: u64) -> Option<Draws> {
    let (prior, carcasses) = said(rows)?;
    Some(draw(&Fixed::new(&prior, &carcasses), seed))
}

fn states(birthdays: std::ops::Range<usize>, sexes: &[usize]) -> Vec<usize> {
    birthdays.flat_map(|class| sexes.iter().map(move |sex| 2 * class + sex)).collect()
}

/// A share as it is written.
pub fn line(what: &str, name: String, found: Line) -> ShareLine {
    ShareLine {
        what: what.to_owned(),
        name,
        share: share(found.share),
        low: share(found.low),
        high: share(found.high),
        prior: share(found.prior),
        prior_low: share(found.prior_low),
        prior_high: share(found.prior_high),
        data_alone: share(found.data_alone),
        data_carry: share(found.data_carry),
    }
}

/// The groups of states that two groups of carcasses are compared in.
pub fn compared() -> Vec<(String, Vec<usize>)> {
    let both = [0, 1];
    let mut all: Vec<_> = BROAD.map(|(what, birthdays)| (what.to_owned(), states(birthdays, &both))).into();
    all.push(("female".to_owned(), states(0..CLASSES, &[0])));
    all
}

/// The table.
pub fn table(rows: &[&Kept], drawn: Option<&Draws>) -> AgeTable {
    let aged = rows.iter().filter(|row| row.aged).count();
    let sexed = rows.iter().filter(|row| row.sexed).count();
    let mut out = AgeTable {
        aged,
        not_aged: rows.len() - aged,
        sexed,
        not_sexed: rows.len() - sexed,
        weighed: drawn.map_or(0, |drawn| drawn.carcasses),
        prior_carcasses: PRIOR_CARCASSES,
        classes: Vec::new(),
        by_sex: Vec::new(),
        sexes: Vec::new(),
        years: Vec::new(),
    };
    let Some(drawn) = drawn else { return out };
    let age = |what: &str| tell(&format!("season.age.{what}"), &[]);
    let sex = |what: &str| tell(&format!("season.sex.{what}"), &[]);
    for (what, birthdays) in BROAD {
        out.classes.push(line(what, age(what), drawn.line(&states(birthdays, &[0, 1]))));
    }
    for (at, of) in SEXES.iter().enumerate() {
        out.sexes.push(line(of, sex(of), drawn.line(&states(0..CLASSES, &[at]))));
        for (what, birthdays) in BROAD {
            let name = tell("season.age_of_sex", &[("age", age(what).into()), ("sex", sex(of).into())]);
            out.by_sex.push(line(&format!("{what}_{of}"), name, drawn.line(&states(birthdays, &[at]))));
        }
    }
    for class in 0..CLASSES {
        let what = if class + 1 == CLASSES { format!("y{class}_and_more") } else { format!("y{class}") };
        let name = super::tell(&format!("reading.age.class.{what}"), &[]);
        out.years.push(line(&what, name, drawn.line(&states(class..class + 1, &[0, 1]))));
    }
    out
}
