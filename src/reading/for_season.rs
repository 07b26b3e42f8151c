//! What one carcass gives to the figures of a season. Only the office asks: nothing here is shown by itself.

#![allow(clippy::similar_names)] // case and cause are both the right word

use std::sync::Arc;

use super::lens::{Answers, Lens, Picks};
use super::local::Local;
use super::scope::Scope;
use super::shape::Outcome;
use super::{Given, Readings, age, all, cause, cause_answers, death, jaw, measures, message_ids as id};
use crate::record::{Carcass, Digest};
use crate::science::age::Sex;
use crate::science::cause::undamped::OneCase;

/// Classes of completed birthdays.
pub const CLASSES: usize = 10;

/// What a season takes of one carcass.
#[derive(Clone, Debug)]
#[allow(clippy::struct_excessive_bools)] // facts that stand alone
pub struct ForSeason {
    /// Why the methods are closed for it, as a message id: another species, one not told, died in summer.
    pub closed: Option<&'static str>,
    /// What was seen of its cause, to be weighed; with nothing answered where nobody looked.
    pub cause: OneCase,
    /// What the evidence table is called, and its digest.
    pub table: (String, Digest),
    /// Whether any row of the table counts.
    pub cause_seen: bool,
    /// No cause of the table fits well.
    pub poor_fit: bool,
    /// How well each class of completed birthdays and each sex (female, male) fits, without any prior. `None` where
    /// nothing speaks of age or sex.
    pub age_and_sex: Option<[[f64; 2]; CLASSES]>,
    /// Something beyond a look from afar speaks of its age.
    pub aged: bool,
    /// Something speaks of its sex.
    pub sexed: bool,
    /// Shares of classes and sexes among the dead before anything is seen, as its age reading starts from them.
    pub age_prior: [[f64; 2]; CLASSES],
    /// All its readings.
    pub readings: Readings,
}

/// Reads it. `given` as for [`all`]; the cause is always weighed.
pub fn for_season(carcass: &Carcass, given: &Given) -> ForSeason {
    let given = Given { without_cause: false, ..*given };
    let readings = all(carcass, &given);
    let death = death::read(carcass, &given);
    let findings = [jaw::FINDINGS, measures::FINDINGS].concat();
    let answers = Answers::of(carcass, &findings).with_days(death.days, &death.used);
    let local = Local::of(carcass, &given);
    let closed = Scope::of(carcass, &Lens::new(&answers, Picks::new())).why_closed();
    let seen = cause_answers(carcass).with_days(death.days, &death.used);
    let for_cause = age::read_for_cause(carcass, &seen, &local);
    let weighed = cause::weigh(carcass, &seen, Some(&for_cause), &given);
    let (case, table) = weighed.case();
    let cause_seen = !case.used(table).is_empty();
    let poor_fit = cause_seen && crate::science::cause::fit(table, case).is_poor();
    let in_force = weighed.in_force();
    let cause = OneCase { drawn: Arc::clone(&in_force.drawn), digest: in_force.digest.0, case: *case };
    let by_age = age::likelihood(carcass, &answers, &local);
    let age_prior = prior(&local);
    let by_sex = sex_alone(&readings);
    let read = readings.age.outcome == Outcome::Read;
    let told = |unit: &str| readings.age.estimates.iter().any(|e| e.unit == unit && e.best.is_some());
    ForSeason {
        closed,
        cause,
        table: (in_force.name.clone(), in_force.digest),
        cause_seen,
        poor_fit,
        age_and_sex: by_age.or(by_sex),
        aged: read && told(id::UNIT_BIRTHDAYS),
        sexed: by_sex.is_some(),
        age_prior,
        readings,
    }
}

/// What one carcass says of age and sex, without its cause.
#[derive(Clone, Copy, Debug)]
pub struct AgeAndSex {
    /// As in [`ForSeason::closed`].
    pub closed: Option<&'static str>,
    /// As in [`ForSeason::age_and_sex`].
    pub said: Option<[[f64; 2]; CLASSES]>,
    /// As in [`ForSeason::age_prior`].
    pub prior: [[f64; 2]; CLASSES],
}

/// Reads that alone: nothing of the cause is weighed or drawn.
pub fn age_and_sex(carcass: &Carcass, given: &Given) -> AgeAndSex {
    let given = Given { without_cause: true, ..*given };
    let death = death::read(carcass, &given);
    let findings = [jaw::FINDINGS, measures::FINDINGS].concat();
    let answers = Answers::of(carcass, &findings).with_days(death.days, &death.used);
    let local = Local::of(carcass, &given);
    let said = age::likelihood(carcass, &answers, &local).or_else(|| sex_alone(&all(carcass, &given)));
    let closed = Scope::of(carcass, &Lens::new(&answers, Picks::new())).why_closed();
    AgeAndSex { closed, said, prior: prior(&local) }
}

fn prior(local: &Local) -> [[f64; 2]; CLASSES] {
    let settings = local.settings();
    let (female, male) = (settings.prior.shares(Sex::Female), settings.prior.shares(Sex::Male));
    let mut prior = [[0.0; 2]; CLASSES];
    for (slot, (f, m)) in prior.iter_mut().zip(female.into_iter().zip(male)) {
        *slot = [0.5 * f, 0.5 * m];
    }
    prior
}

/// What the signs of sex say by themselves, of every age alike.
fn sex_alone(readings: &Readings) -> Option<[[f64; 2]; CLASSES]> {
    let shares = &readings.sex.estimates.first()?.shares;
    let of = |id: &str| shares.iter().find(|share| share.of == id).map(|share| share.probability);
    let row = [of(id::SEX_FEMALE)?, of(id::SEX_MALE)?];
    Some([row; CLASSES])
}
