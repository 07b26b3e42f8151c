//! What of an answer is let out.
//!
//! Options, numbers, plants, moments and digests of photos always are. Words that a person typed may hold a name or a
//! place: they go only where names were asked for. Three findings never go: what hurt whom, whom to call
//! back, and whom the office called.

use super::asked::{Asked, Places};
use crate::record::{FindingDef, REPORT_CALL_BACK, Shape, Value, Why};

/// Never let out.
pub(in crate::office) const NEVER: [&str; 3] = ["exposure_note", REPORT_CALL_BACK, "call_done"];

/// Words that are a number or the name of a laboratory, not of a person.
const NUMBERS: [&str; 13] = [
    "sample_number",
    "seal_number",
    "tag_number",
    "permit_number",
    "cementum_sample",
    "cementum_lab",
    "dna_sample",
    "dna_lab",
    "rumen_lab_number",
    "lab_sample",
    "lab_name",
    "lab_test",
    "test_for",
];

/// Words that say where it lay.
const PLACES: [&str; 2] = ["place_words", "report_place_words"];

/// A value as it is let out.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Shown {
    /// In words: the option's code, the text, the moment, the digest.
    pub text: Option<String>,
    /// A number in the finding's unit.
    pub number: Option<f64>,
    /// Something was seen and is left out.
    pub withheld: bool,
}

impl Shown {
    fn text(text: String) -> Self {
        Self { text: Some(text), ..Self::default() }
    }

    const fn withheld() -> Self {
        Self { text: None, number: None, withheld: true }
    }
}

/// A scaled integer as a number.
pub fn unscaled(scaled: i64, decimals: u8) -> f64 {
    // The nearest double of the decimal, which prints as it was typed.
    let size = (0..decimals).fold(1.0, |size, _| size * 10.0);
    scaled as f64 / size
}

/// The value of an answer, as it is let out. `def` is `None` for a finding of a newer phone.
pub fn shown(finding: &str, def: Option<&FindingDef>, value: &Value, asked: &Asked) -> Shown {
    if NEVER.contains(&finding) {
        return Shown::withheld();
    }
    match value {
        Value::Choice(code) => Shown::text(code.clone()),
        Value::Choices(codes) => Shown::text(codes.join("|")),
        Value::Number(scaled) => match def.map(|def| def.shape) {
            Some(Shape::Number { decimals, .. }) => {
                Shown { number: Some(unscaled(*scaled, decimals)), ..Shown::default() }
            }
            // How many decimals a newer phone means is not known here.
            _ => Shown::text(format!("scaled {scaled}")),
        },
        Value::Text(words) => match def.map(|def| def.shape) {
            Some(Shape::Plants(_)) => Shown::text(words.clone()),
            Some(_) if NUMBERS.contains(&finding) => Shown::text(words.clone()),
            _ if !asked.names || (PLACES.contains(&finding) && asked.places != Places::Exact) => Shown::withheld(),
            _ => Shown::text(words.clone()),
        },
        Value::Instant(at) => Shown::text(at.to_string()),
        Value::Place(place) => {
            let given = asked.places.given(place);
            Shown::text(format!("{} {}", given.latitude, given.longitude))
        }
        Value::Photo(photo) => Shown::text(format!("sha256:{}", photo.sha256)),
        Value::Ref(id) => Shown::text(id.to_string()),
    }
}

/// A reason, as it is let out.
pub fn reason(why: &Why, asked: &Asked) -> String {
    match why {
        Why::Other(own) if asked.names && !own.trim().is_empty() => format!("other: {own}"),
        why => why.code().to_owned(),
    }
}
