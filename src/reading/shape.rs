//! The one shape of every reading.
//!
//! What is estimated and its unit; best value; range or distribution with its coverage; the entries
//! that it rests on; method, version and sources with their marks; cautions for this case; what
//! further look would sharpen it most. Statements are message ids with values, so that a reading can
//! be printed in any language and compared byte by byte.

use std::borrow::Cow;
use std::collections::BTreeMap;

use serde::{Deserialize, Serialize};

use crate::record::{Digest, EntryId, Shown, Site, Unit};
use crate::science::source::Source;
use crate::words::{self, Arg, Language};

/// "under 1"
pub(super) const UNDER_1: &str = "reading.under_1";
/// "over 99"
pub(super) const OVER_99: &str = "reading.over_99";

/// A value inside a statement.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Val {
    /// A whole number.
    Count(i64),
    /// A number, and the decimals to print.
    Number {
        /// The number, unrounded.
        value: f64,
        /// Decimals to print.
        decimals: u8,
    },
    /// A probability, 0 to 1, unrounded; printed in 100 as a whole number, never as none or all.
    InHundred(f64),
    /// A measure: printed with its unit, in the units that the phone is set to.
    Measure {
        /// The number in `unit`, unrounded.
        value: f64,
        /// Its metric unit.
        unit: Unit,
        /// Decimals to print in that unit.
        decimals: u8,
    },
    /// Another message, such as the name of a class.
    Message(String),
    /// Several values.
    List(Vec<Val>),
    /// Text that needs no translation, such as a date.
    Text(String),
}

/// A message with its values.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Statement {
    /// Message id.
    pub id: String,
    /// Values by name.
    #[serde(default, skip_serializing_if = "BTreeMap::is_empty")]
    pub values: BTreeMap<String, Val>,
}

/// How good the estimate is said to be.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Estimate {
    /// What is estimated, by the unit's message id.
    pub unit: String,
    /// Best value.
    pub best: Option<f64>,
    /// Lower end.
    pub low: Option<f64>,
    /// Upper end.
    pub high: Option<f64>,
    /// Probability that the range holds the true value, 0 to 1; absent where the source states none.
    pub coverage: Option<f64>,
    /// The distribution, where there is one.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub shares: Vec<Share>,
}

/// One part of a distribution.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Share {
    /// Message id of the part.
    pub of: String,
    /// Its probability.
    pub probability: f64,
}

/// A source as it travels.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Basis {
    /// Stable name.
    pub id: Cow<'static, str>,
    /// Author, year, journal or agency, or what was chosen. Empty where it travelled by name alone.
    #[serde(default, skip_serializing_if = "str::is_empty")]
    pub cite: Cow<'static, str>,
    /// `seen`, `derived`, `memory`, `design` or `ours`.
    pub mark: Cow<'static, str>,
}

impl From<&Source> for Basis {
    fn from(source: &Source) -> Self {
        Self { id: source.id.into(), cite: source.cite.into(), mark: source.mark.id().into() }
    }
}

impl Basis {
    /// True where nobody outside this project has confirmed it.
    pub fn is_unconfirmed(&self) -> bool {
        matches!(&*self.mark, "memory" | "design" | "ours")
    }
}

impl Estimate {
    /// The metric unit of a measure, for showing it in another; `None` for shares, months and the like.
    pub fn metric_unit(&self) -> Option<Unit> {
        (self.unit == super::message_ids::UNIT_KG).then_some(Unit::Kilogram)
    }

    /// The same as it is shown: for figures and plots. The unit's message id becomes that of the unit
    /// shown.
    #[must_use]
    pub fn shown_in(&self, shown: Shown) -> Self {
        let mut own = self.clone();
        if let (Some(unit), Shown::Us) = (self.metric_unit(), shown) {
            for value in [&mut own.best, &mut own.low, &mut own.high] {
                *value = value.map(|v| unit.shown(v, 0, shown).value);
            }
            super::message_ids::UNIT_LB.clone_into(&mut own.unit);
        }
        own
    }
}

/// One further look, and what it is worth.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Sharpen {
    /// What to do.
    pub look: Statement,
    /// The finding that it answers.
    pub finding: String,
    /// Where.
    #[serde(default, skip_serializing_if = "Site::is_none")]
    pub site: Site,
    /// Expected fall of entropy, bits; absent where a rule and not a model puts it first.
    pub gain_bits: Option<f64>,
}

/// What became of the method.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Outcome {
    /// There is an estimate.
    Read,
    /// Nothing was seen that speaks of it.
    NoEvidence,
    /// Something was seen, but the method refuses; the statements say why.
    Refused,
}

/// One way of settling answers that differ, worked out by itself.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Variant {
    /// The answers taken: finding, place, code.
    pub taken: Vec<Taken>,
    /// The headline of that way.
    pub headline: Statement,
    /// Its estimates.
    pub estimates: Vec<Estimate>,
}

/// One answer taken in a variant.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Taken {
    /// Finding code.
    pub finding: String,
    /// Where.
    #[serde(default, skip_serializing_if = "Site::is_none")]
    pub site: Site,
    /// The answer's state and value as the record writes them.
    pub answer: crate::record::Answer,
}

/// A reading.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Reading {
    /// Method id, such as `age.lower_jaw`.
    pub method: String,
    /// Message id of its title.
    pub title: String,
    /// What became of it.
    pub outcome: Outcome,
    /// The figures.
    pub estimates: Vec<Estimate>,
    /// What is said, headline first.
    pub statements: Vec<Statement>,
    /// Cautions for this case.
    pub cautions: Vec<Statement>,
    /// Open looks, most worth first.
    pub sharpen: Vec<Sharpen>,
    /// Where answers differ: every way of settling them.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub variants: Vec<Variant>,
    /// Entries that it rests on, in order.
    pub rests_on: Vec<EntryId>,
    /// Digest over those entries' ids and answers.
    pub entries_digest: Digest,
    /// What the method rests on.
    pub sources: Vec<Basis>,
}

impl Statement {
    /// A message without values.
    pub fn plain(id: &str) -> Self {
        Self { id: id.to_owned(), values: BTreeMap::new() }
    }

    /// Adds a value.
    #[must_use]
    pub fn with(mut self, name: &str, value: Val) -> Self {
        self.values.insert(name.to_owned(), value);
        self
    }

    /// The sentence in a language, measures in metric units.
    pub fn say(&self, language: Language) -> String {
        self.say_in(language, Shown::Metric)
    }

    /// The sentence in a language, measures in these units.
    pub fn say_in(&self, language: Language, shown: Shown) -> String {
        let args: Vec<(&str, Arg)> =
            self.values.iter().map(|(name, value)| (name.as_str(), value.arg(language, shown))).collect();
        words::say(language, &self.id, &args)
    }
}

impl Val {
    /// Another message.
    pub fn message(id: &str) -> Self {
        Self::Message(id.to_owned())
    }

    /// A probability as a whole number from 1 to 99: a reading is never sure and nothing is ruled out.
    #[allow(clippy::cast_possible_truncation)] // held within 1 to 99
    pub fn percent(probability: f64) -> Self {
        Self::Count((probability * 100.0 + 0.5).floor().clamp(1.0, 99.0) as i64)
    }

    /// A number to print with so many decimals.
    pub const fn number(value: f64, decimals: u8) -> Self {
        Self::Number { value, decimals }
    }

    /// A measure in its metric unit, and the decimals to print.
    pub const fn measure(value: f64, unit: Unit, decimals: u8) -> Self {
        Self::Measure { value, unit, decimals }
    }

    fn arg(&self, language: Language, shown: Shown) -> Arg {
        match self {
            Self::Count(n) => Arg::Count(*n),
            Self::Number { value, decimals } => {
                Arg::Text(language.number(format!("{value:.*}", usize::from(*decimals))))
            }
            Self::InHundred(probability) => in_hundred(language, *probability),
            Self::Measure { value, unit, decimals } => {
                Arg::Text(language.number(unit.shown(*value, *decimals, shown).print()))
            }
            Self::Message(id) => Arg::Text(words::say(language, id, &[])),
            Self::Text(text) => Arg::Text(text.clone()),
            Self::List(all) => {
                let parts: Vec<String> = all
                    .iter()
                    .map(|v| match v.arg(language, shown) {
                        Arg::Count(n) => n.to_string(),
                        Arg::Text(text) => text,
                    })
                    .collect();
                Arg::Text(parts.join(", "))
            }
        }
    }
}

/// A probability in 100: a whole number, `under 1` or `over 99`.
fn in_hundred(language: Language, probability: f64) -> Arg {
    let whole = (probability * 100.0 + 0.5).floor();
    if whole < 1.0 {
        Arg::Text(words::say(language, UNDER_1, &[]))
    } else if whole > 99.0 {
        Arg::Text(words::say(language, OVER_99, &[]))
    } else {
        #[allow(clippy::cast_possible_truncation)] // 1 to 99
        Arg::Count(whole as i64)
    }
}
