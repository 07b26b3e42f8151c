//! From a folded carcass, through the science, to statements.
//!
//! A reading is a pure function of the carcass: the office that holds the same entries makes the same
//! reading, digit for digit. Answers that differ are each worked out and all are shown. Condition and
//! cause are separate things: nothing here says what a deer died of.

mod age;
mod combined;
mod condition;
mod fat;
pub mod fat_ids;
mod given;
mod jaw;
mod lens;
mod local;
pub mod local_ids;
mod marrow;
mod measures;
pub mod message_ids;
mod reserve;
mod scope;
mod sex;
mod shape;
pub mod short;
mod size;
mod split;
mod unborn;
mod window;
pub mod winter_log;

use serde::{Deserialize, Serialize};
use uuid::Uuid;

use crate::record::{Carcass, Digest};
pub use given::{Given, GivenCard};
pub use shape::{Basis, Estimate, Outcome, Reading, Share, Sharpen, Statement, Taken, Val, Variant};
pub use short::{Short, short};
pub use window::days_of_death;

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
}

impl Readings {
    /// Each reading, in the order in which they are shown. One line a reading.
    pub fn each(&self) -> Vec<&Reading> {
        let all = [
            Some(&self.age),
            self.combined.as_ref(),
            Some(&self.condition),
            self.fat.as_ref(),
            self.reserve.as_ref(),
            Some(&self.sex),
            Some(&self.size),
            Some(&self.unborn),
        ];
        all.into_iter().flatten().collect()
    }
}

/// Makes all readings, with what is given beside the carcass.
pub fn all(carcass: &Carcass, given: &Given) -> Readings {
    let answers =
        lens::Answers::of(carcass, &[jaw::FINDINGS, measures::FINDINGS, fat::FINDINGS, reserve::FINDINGS].concat());
    let local = local::Local::of(carcass, given);
    let scope = scope::Scope::of(carcass, &lens::Lens::new(&answers, lens::Picks::new()));
    let age = age::read(carcass, &answers, &local);
    let marrow = marrow::find(carcass);
    let condition = condition::read(&marrow, &scope, age.p_fawn);
    let from_age = sex::FromAge { p_fawn: age.p_fawn, p_male: age.p_male };
    let sex = sex::reading(carcass, &answers, from_age, &local);
    let known = size::Known { p_fawn: age.p_fawn, age_years: age.years, sex: sex::agreed(&answers) };
    let size = size::reading(carcass, &answers, known, &local);
    let male = sex::agreed(&answers) == Some(crate::science::age::Sex::Male);
    let fat = fat::reading(&answers, &marrow, &scope, male);
    let combined = combined::reading(&answers, &marrow, &scope, age.p_fawn, male);
    let reserve = reserve::reading(carcass, &answers, &scope, age.p_fawn);
    let unborn = unborn::reading(carcass, &answers);
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
    }
}
