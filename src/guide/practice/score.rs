//! What a phone keeps of practice: how each reader called jaws of each made class, and the jaw in hand.

use std::collections::BTreeMap;

use serde::{Deserialize, Serialize};

use crate::science::age::ClassCall;
use crate::science::reader_record::{Direct, Right, Tally};

/// Version of the stored form.
const FORM: u8 = 1;
/// More jaws of one class and call than anybody reads in a life.
const MOST: u32 = 1_000_000;
/// Readers kept on one phone.
const MOST_READERS: usize = 64;

/// Message ids of the broad classes.
const BROAD: [&str; 5] = [
    "reading.view.broad.fawn",
    "reading.view.broad.yearling",
    "reading.view.broad.two",
    "reading.view.broad.three_to_five",
    "reading.view.broad.six_and_over",
];

/// Calls by made class: ten classes, eleven calls.
type Calls = [[u32; 11]; 10];

/// Practice as it is stored.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Practice {
    form: u8,
    /// Number of the jaw in hand.
    pub seed: u32,
    /// What was called on it; `None` while it is asked.
    pub call: Option<ClassCall>,
    readers: BTreeMap<String, Calls>,
}

/// Why stored practice is not taken.
#[derive(Clone, Copy, Debug, PartialEq, Eq, thiserror::Error)]
pub enum BadStored {
    /// Not in the form that this version writes.
    #[error("it is not in the form that this version writes")]
    Form,
    /// A count that cannot be true.
    #[error("a count in it cannot be true")]
    Count,
}

/// One line of the score.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct ScoreRow {
    /// Message id of the class.
    pub class: &'static str,
    /// Jaws read.
    pub jaws: u32,
    /// In the right class.
    pub right: u32,
    /// Share right, in 100.
    pub percent: u8,
    /// Lower end, in 100.
    pub low: u8,
    /// Upper end, in 100.
    pub high: u8,
}

/// How a reader does.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Score {
    /// Broad classes with any jaw read.
    pub rows: Vec<ScoreRow>,
    /// The very class, all jaws together.
    pub exact: Option<ScoreRow>,
    /// How far off in the mean in grown deer, tenths of a year; below zero too young.
    pub bias_tenths: Option<i32>,
}

impl Practice {
    /// Nothing read yet.
    pub const fn new(seed: u32) -> Self {
        Self { form: FORM, seed, call: None, readers: BTreeMap::new() }
    }

    /// Takes up what was stored.
    ///
    /// # Errors
    /// Why it is not taken; the text is then to be set aside.
    pub fn from_stored(text: &str) -> Result<Self, BadStored> {
        let stored: Self = serde_json::from_str(text).map_err(|_| BadStored::Form)?;
        if stored.form != FORM {
            return Err(BadStored::Form);
        }
        let all = stored.readers.values().flatten().flatten();
        if stored.readers.len() > MOST_READERS || all.into_iter().any(|n| *n > MOST) {
            return Err(BadStored::Count);
        }
        Ok(stored)
    }

    /// As it is stored.
    pub fn to_stored(&self) -> String {
        // Plain numbers and names: nothing in it can fail to be written.
        serde_json::to_string(self).unwrap_or_default()
    }

    /// Takes a call on the jaw in hand. A second call on the same jaw is not counted: the answer stood there.
    pub fn called(&mut self, reader: &str, call: ClassCall) {
        if self.call.is_some() {
            return;
        }
        self.call = Some(call);
        let truth = crate::science::age::practice::MadeJaw::of(self.seed).birthdays;
        let full = self.readers.len() >= MOST_READERS && !self.readers.contains_key(reader);
        if full {
            return;
        }
        let calls = self.readers.entry(reader.to_owned()).or_insert([[0; 11]; 10]);
        if let Some(cell) = calls.get_mut(usize::from(truth)).and_then(|row| row.get_mut(call.index())) {
            *cell = cell.saturating_add(1).min(MOST);
        }
    }

    /// The next jaw.
    pub const fn next(&mut self, seed: u32) {
        self.seed = seed;
        self.call = None;
    }

    /// Forgets a reader's score.
    pub fn clear(&mut self, reader: &str) {
        self.readers.remove(reader);
    }

    /// How a reader does.
    pub fn score(&self, reader: &str) -> Score {
        let Some(calls) = self.readers.get(reader) else { return Score::default() };
        let direct = Direct::of(&Tally::of_known(*calls));
        let rows = BROAD.into_iter().zip(direct.broad).filter_map(|(id, right)| Some(row(id, right?))).collect();
        #[allow(clippy::cast_possible_truncation)] // at most ten years
        let tenths = |years: f64| (years * 10.0).round() as i32;
        Score {
            rows,
            exact: direct.exact.map(|right| row("practice.exact", right)),
            bias_tenths: direct.bias_years.map(tenths),
        }
    }
}

fn row(class: &'static str, right: Right) -> ScoreRow {
    #[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss)] // a share from 0 to 1
    let percent = |share: f64| (share.clamp(0.0, 1.0) * 100.0).round() as u8;
    ScoreRow {
        class,
        jaws: right.of,
        right: right.right,
        percent: percent(right.share()),
        low: percent(right.low),
        high: percent(right.high),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::science::age::practice::MadeJaw;

    fn seed_of(birthdays: u8) -> u32 {
        (0..10_000).find(|seed| MadeJaw::of(*seed).birthdays == birthdays).unwrap()
    }

    #[test]
    fn calls_are_counted_by_reader_and_once_a_jaw() {
        let mut practice = Practice::new(seed_of(4));
        practice.called("K7", ClassCall::Three);
        practice.called("K7", ClassCall::Four);
        assert_eq!(practice.call, Some(ClassCall::Three));
        practice.next(seed_of(4));
        practice.called("K7", ClassCall::Seven);
        practice.next(seed_of(0));
        practice.called("B2", ClassCall::Fawn);
        let score = practice.score("K7");
        assert_eq!(score.rows.len(), 1, "3 to 5 years only: {score:?}");
        assert_eq!((score.rows[0].right, score.rows[0].jaws), (1, 2), "3 for 4 is in the right broad class");
        assert_eq!(score.exact.unwrap().right, 0);
        assert_eq!(score.bias_tenths, Some(10), "one year too young, three too old");
        practice.clear("K7");
        assert_eq!(practice.score("K7"), Score::default());
        assert_eq!(practice.score("B2").exact.unwrap().right, 1);
    }

    /// 8 of 10 right: Wilson 49.0 to 94.3 in 100 (Brown, Cai and DasGupta 2001 give 0.490 to 0.943; from
    /// memory, and the formula worked by hand).
    #[test]
    fn the_interval_is_wilson_s() {
        let mut practice = Practice::new(seed_of(0));
        for n in 0..10 {
            practice.next(seed_of(0));
            practice.called("", if n < 8 { ClassCall::Fawn } else { ClassCall::Yearling });
        }
        let exact = practice.score("").exact.unwrap();
        assert_eq!((exact.percent, exact.low, exact.high), (80, 49, 94));
    }

    #[test]
    fn what_is_stored_is_taken_up_again_and_nonsense_is_not() {
        let mut practice = Practice::new(4_294_967_295);
        practice.called("K7", ClassCall::Nine);
        assert_eq!(Practice::from_stored(&practice.to_stored()), Ok(practice.clone()));
        for bad in ["", "{}", "null", "[1,2]", "{\"form\":2,\"seed\":1,\"call\":null,\"readers\":{}}"] {
            assert_eq!(Practice::from_stored(bad), Err(BadStored::Form), "{bad}");
        }
        let extra = practice.to_stored().replacen('{', "{\"more\":1,", 1);
        assert_eq!(Practice::from_stored(&extra), Err(BadStored::Form));
        let odd = practice.to_stored().replacen("[[0,", "[[4000000000,", 1);
        assert_eq!(Practice::from_stored(&odd), Err(BadStored::Count));
    }
}
