//! From a folded carcass, through the science, to statements.
//!
//! A reading is a pure function of the carcass: the office that holds the same entries makes the same
//! reading, digit for digit. Answers that differ are each worked out and all are shown. Condition is not
//! cause: only the cause reading says what a deer may have died of, and a phone shows it only once the
//! examination is closed.

mod age;
mod browse;
mod cause;
pub mod cause_ids;
mod cause_start;
mod combined;
mod condition;
mod evidence;
mod fat;
pub mod fat_ids;
mod diet;
mod diet_notes;
mod death;
pub mod for_season;
mod given;
mod jaw;
mod kill_record;
mod left_signs;
mod lens;
mod local;
mod local_calipers;
pub mod local_ids;
mod marrow;
mod measures;
pub mod message_ids;
mod reserve;
mod observations;
mod rumen_samples;
mod scope;
mod sex;
mod shape;
pub mod short;
pub mod sketch;
pub mod sketch_drawing;
mod size;
mod split;
mod still_open;
mod snow;
mod told;
mod unborn;
mod window;
pub mod winter_log;
pub mod winter_typed;

use serde::{Deserialize, Serialize};
use uuid::Uuid;

use crate::record::{Carcass, Digest};
pub use cause::CauseWork;
pub use death::{CLOCK_JUMP_S, Mark as TimelineMark, Timeline, timeline};
pub use evidence::{BUILT_IN_NAME, built_in, digest_of_table, table_of};
pub use given::{Given, GivenCard};
pub use observations::FINDINGS_OF;
pub use rumen_samples::{RumenMeasure, RumenSample, own_names as own_plant_names, rumen_samples};
pub use shape::{Basis, Estimate, Outcome, Reading, Share, Sharpen, Statement, Taken, Val, Variant};
pub use short::{Short, short};
pub use window::found_on;
pub use window::{DaysOfDeath, days_of_death};

/// All readings of one carcass.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Readings {
    /// The carcass.
    pub carcass: Uuid,
    /// Version of the methods.
    pub science: String,
    /// Digest of the local card that was given; absent where there was none.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub card: Option<Digest>,
    /// Age from the lower jaw.
    pub age: Reading,
    /// Condition from bone marrow.
    pub condition: Reading,
    /// Fat other than marrow. Absent in readings of an older phone.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub fat: Option<Reading>,
    /// All evidence of condition together.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub combined: Option<Reading>,
    /// Weight lost, and days of reserve for teaching.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub reserve: Option<Reading>,
    /// Sex.
    pub sex: Reading,
    /// Weight and size.
    pub size: Reading,
    /// Unborn young.
    pub unborn: Reading,
    /// Cause of death; absent where it was left out.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub cause: Option<Reading>,
    /// Who left the signs; absent with the cause.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub left_signs: Option<Reading>,
    /// What it had eaten; absent in readings of an older form.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub diet: Option<Reading>,
    /// Snow at the carcass; absent in readings of an older form.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub snow: Option<Reading>,
    /// Time of death; absent in what an older program wrote.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub death: Option<Reading>,
}

impl Readings {
    /// Each reading, in the order in which they are shown. One line a reading.
    pub fn each(&self) -> Vec<&Reading> {
        let all = [
            self.death.as_ref(),
            Some(&self.age),
            self.combined.as_ref(),
            Some(&self.condition),
            self.fat.as_ref(),
            self.reserve.as_ref(),
            Some(&self.sex),
            Some(&self.size),
            Some(&self.unborn),
            self.cause.as_ref(),
            self.left_signs.as_ref(),
            self.diet.as_ref(),
            self.snow.as_ref(),
        ];
        all.into_iter().flatten().collect()
    }

    /// The text that a phone hands over. Published sources go by name and mark alone: the office that works the
    /// reading out again holds their citations, and written out they are a sixth of a carcass's bundle. What
    /// only the phone's card can say (its own figures, marked `ours`) stays written out.
    ///
    /// # Errors
    /// Where a reading cannot be written as JSON.
    pub fn to_hand_over(&self) -> serde_json::Result<String> {
        let mut all = serde_json::to_value(self)?;
        let readings = all.as_object_mut().into_iter().flat_map(|all| all.values_mut());
        let sources = readings.filter_map(|reading| reading.get_mut("sources")?.as_array_mut()).flatten();
        for source in sources.filter_map(serde_json::Value::as_object_mut) {
            if source.get("mark").is_none_or(|mark| mark != crate::science::source::Mark::Ours.id()) {
                source.remove("cite");
            }
        }
        serde_json::to_string(&all)
    }
}

/// Makes all readings, with what is given beside the carcass.
pub fn all(carcass: &Carcass, given: &Given) -> Readings {
    let death = death::read(carcass, given);
    let findings = [jaw::FINDINGS, measures::FINDINGS, fat::FINDINGS, reserve::FINDINGS].concat();
    let answers = lens::Answers::of(carcass, &findings).with_days(death.days, &death.used);
    let local = local::Local::of(carcass, given);
    let scope = scope::Scope::of(carcass, &lens::Lens::new(&answers, lens::Picks::new()));
    let mut age = age::read(carcass, &answers, &local);
    let marrow = marrow::find(carcass);
    let mut condition = condition::read(&marrow, &scope, age.p_fawn);
    let from_age = sex::FromAge { p_fawn: age.p_fawn, p_male: age.p_male };
    let mut sex = sex::reading(carcass, &answers, from_age, &local);
    let known = size::Known { p_fawn: age.p_fawn, age_years: age.years, sex: sex::agreed(&answers) };
    let mut size = size::reading(carcass, &answers, known, &local);
    let male = sex::agreed(&answers) == Some(crate::science::age::Sex::Male);
    let mut fat = fat::reading(&answers, &marrow, &scope, male, &local);
    let mut combined = combined::reading(&answers, &marrow, &scope, (age.p_fawn, male), &local);
    let reserve = reserve::reading(carcass, &answers, &scope, age.p_fawn);
    for of in [&mut age.reading, &mut condition, &mut sex, &mut size, &mut fat, &mut combined] {
        still_open::leave_out_gone(carcass, &mut of.sharpen);
    }
    let unborn = unborn::reading(carcass, &answers, &local);
    let left_signs =
        (!given.without_cause).then(|| left_signs::reading(&lens::Answers::of(carcass, left_signs::FINDINGS), &scope));
    let cause = (!given.without_cause).then(|| {
        let seen = cause_answers(carcass).with_days(death.days, &death.used);
        let apart = local.for_cause().map(|local| age::read(carcass, &answers, &local));
        cause::reading(&seen, &scope, cause::weigh(carcass, &seen, Some(apart.as_ref().unwrap_or(&age)), given))
    });
    Readings {
        carcass: carcass.id,
        science: crate::science::VERSION.to_owned(),
        card: given.card.map(|given| given.digest),
        age: age.reading,
        condition,
        fat: Some(fat),
        combined: Some(combined),
        reserve: Some(reserve),
        sex,
        size,
        unborn,
        cause,
        left_signs,
        diet: Some(diet::reading(carcass, &scope, local)),
        snow: Some(snow::reading(carcass, &scope, age.p_fawn)),
        death: Some(scope.guard(death.used, death.reading)),
    }
}

/// What the cause reading sees, with the days on which it can have died.
fn cause_seen<'a>(carcass: &'a Carcass, given: &Given<'a>) -> lens::Answers<'a> {
    let death = death::read(carcass, given);
    cause_answers(carcass).with_days(death.days, &death.used)
}

fn cause_answers(carcass: &Carcass) -> lens::Answers<'_> {
    lens::Answers::of(carcass, &cause_findings())
}

/// What the cause reading and the sex and dates that it takes need.
fn cause_findings() -> Vec<&'static str> {
    [jaw::FINDINGS, measures::FINDINGS, &observations::findings()].concat()
}

/// The work on the drawn table that makes the cause reading quick; a phone does it between taps.
pub fn cause_work(carcass: &Carcass, given: &Given) -> CauseWork {
    let seen = cause_seen(carcass, given);
    let age = age::read_for_cause(carcass, &seen, &local::Local::of(carcass, given));
    cause::weigh(carcass, &seen, Some(&age), given).work()
}

/// What is known so far, for what to look at next. It names no cause to anybody.
pub struct SoFar {
    /// Open rows of the evidence table, the most worth first: row number and bits.
    pub rows: Vec<crate::science::cause::Gain>,
    /// Looks that would tell the age better.
    pub age: Vec<Sharpen>,
}

/// What further looks are worth. Rows that do not count as things stand are left out.
pub fn so_far(carcass: &Carcass, given: &Given) -> SoFar {
    let seen = cause_seen(carcass, given);
    let age = age::read_for_cause(carcass, &seen, &local::Local::of(carcass, given));
    let weighed = cause::weigh(carcass, &seen, Some(&age), given);
    let (case, table) = weighed.case();
    let rows = crate::science::cause::gains(table, case).into_iter().filter(|gain| case.counts(gain.number)).collect();
    SoFar { rows, age: age.reading.sharpen }
}

/// The probability of a shooting from what is seen without touching, at the table's middle figures; 0 to 1.
/// It never reaches a screen in the field. Ages weigh nothing in it: they are not told hands off.
pub fn shot_so_far(carcass: &Carcass, given: &Given) -> f64 {
    cause::weigh(carcass, &cause_seen(carcass, given), None, given).shot_hands_off()
}
