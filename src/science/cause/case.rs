//! What was seen at one carcass, as the table asks for it.

use super::causes::{Cause, PerCause};
use super::table::{Row, Table};

/// Highest number of a row, plus one.
const NUMBERS: usize = 32;

/// Row numbers that rules name.
pub mod row {
    #![allow(missing_docs)]
    pub const BITE_HAEMORRHAGE: u8 = 1;
    pub const WOUND_ZONE: u8 = 2;
    pub const CHASE: u8 = 3;
    pub const BLOOD: u8 = 4;
    pub const COVERED: u8 = 6;
    pub const FEEDING_START: u8 = 11;
    pub const MARROW: u8 = 12;
    pub const BODY_FAT: u8 = 13;
    pub const RUPTURE: u8 = 14;
    pub const PROJECTILE: u8 = 15;
    pub const TRACKS: u8 = 18;
    pub const CANINES: u8 = 19;
    pub const LUNGS: u8 = 20;
    pub const HEAD_ABSCESS: u8 = 21;
    pub const AGE: u8 = 24;
}

/// The state of each row that was answered, by row number. A row that could not be told, was not looked
/// at or is gone has no state.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Default)]
pub struct Answers([Option<u8>; NUMBERS]);

impl Answers {
    /// Nothing answered.
    pub const NONE: Self = Self([None; NUMBERS]);

    /// The state of a row, counted from 0.
    pub fn get(&self, number: u8) -> Option<u8> {
        self.0.get(usize::from(number)).copied().flatten()
    }

    /// Sets or clears a row. Numbers beyond 31 are left out.
    pub fn set(&mut self, number: u8, state: Option<u8>) {
        if let Some(slot) = self.0.get_mut(usize::from(number)) {
            *slot = state;
        }
    }

    /// The same with one row answered.
    #[must_use]
    pub fn with(mut self, number: u8, state: u8) -> Self {
        self.set(number, Some(state));
        self
    }

    /// Rows answered, in order of their numbers.
    pub fn each(&self) -> impl Iterator<Item = (u8, u8)> {
        (0_u8..).zip(self.0).filter_map(|(number, state)| Some((number, state?)))
    }
}

/// A carcass before the table.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Case {
    /// What is likely before anything is seen, adding to 1.
    pub prior: PerCause,
    /// What was seen.
    pub answers: Answers,
    /// A buck of two and a half years or more: row 21 has figures of its own.
    pub buck: bool,
    /// Age moved the prior: row 24 is left out.
    pub age_in_prior: bool,
    /// The snow at the body fell after the death: row 18 is left out.
    pub snow_after_death: bool,
}

impl Case {
    /// A case with nothing special about it.
    pub const fn new(prior: PerCause, answers: Answers) -> Self {
        Self { prior, answers, buck: false, age_in_prior: false, snow_after_death: false }
    }

    /// Whether a row counts if it is answered: a spacing only for a pair of holes with a clot, tracks only
    /// in snow that lay before the death, age only once.
    pub fn counts(&self, number: u8) -> bool {
        match number {
            row::CANINES => self.answers.get(row::BITE_HAEMORRHAGE) == Some(0),
            row::TRACKS => !self.snow_after_death,
            row::AGE => !self.age_in_prior,
            _ => true,
        }
    }

    /// Rows used with their answered states, in order of their numbers.
    pub fn used<'t>(&self, table: &'t Table) -> Vec<(&'t Row, u8)> {
        self.used_with(table, 0)
    }

    /// The same with some rows used even where a rule leaves them out: one bit a row number.
    pub(super) fn used_with<'t>(&self, table: &'t Table, forced: u32) -> Vec<(&'t Row, u8)> {
        let of = |(number, state): (u8, u8)| {
            let row = table.row(number, self.buck)?;
            (usize::from(state) < row.states.len()).then_some((row, state))
        };
        let taken = |(number, _): &(u8, u8)| forced >> number & 1 == 1 || self.counts(*number);
        self.answers.each().filter(taken).filter_map(of).collect()
    }

    /// 0 for causes that occur, negative infinity for those that do not.
    pub(super) fn closed(&self) -> PerCause {
        self.prior.map(|share| if share > 0.0 { 0.0 } else { f64::NEG_INFINITY })
    }

    /// The same case with only the rows of classes up to this one.
    #[must_use]
    pub fn up_to_class(&self, table: &Table, class: u8) -> Self {
        let mut answers = Answers::NONE;
        for (row, state) in self.used(table) {
            if row.class <= class {
                answers.set(row.number, Some(state));
            }
        }
        Self { answers, ..*self }
    }

    /// The probability of a shooting, from what is seen without touching.
    pub fn shot_hands_off(&self, table: &Table) -> f64 {
        Cause::Shot.of(&super::combine::posterior(table, &self.up_to_class(table, 0)))
    }
}
