//! What a condition reading lets one say and what it does not: the one-way rule beside every figure.
//!
//! Depleted marrow supports poor condition; full marrow never proves good condition, and condition is not
//! cause (Mech and DelGiudice 1985, Wildl. Soc. Bull. 13:204-206).

use crate::reading::{Outcome, Reading, Statement, Val, message_ids as id};
use crate::science::marrow::Word;

/// Message ids of what is allowed and of what is not.
pub fn allows(reading: &Reading) -> (&'static str, Vec<&'static str>) {
    let words: Vec<Word> = reading.statements.iter().flat_map(words_of).collect();
    let all = |of: &[Word]| !words.is_empty() && words.iter().all(|w| of.contains(w));
    let allowed = if reading.outcome != Outcome::Read || words.is_empty() {
        "reading.allows.nothing"
    } else if all(&[Word::Exhausted, Word::Depleted]) {
        "reading.allows.low"
    } else if all(&[Word::MarrowFull]) {
        "reading.allows.full"
    } else if words.contains(&Word::MarrowFull) {
        "reading.allows.either"
    } else {
        "reading.allows.middle"
    };
    let mut forbidden = vec!["reading.forbids.cause", "reading.forbids.good"];
    let mut fat = reading.estimates.iter().filter(|e| e.unit == id::UNIT_FAT).peekable();
    if fat.peek().is_some() && fat.all(|e| e.best.is_none()) {
        forbidden.push("reading.forbids.percent");
    }
    (allowed, forbidden)
}

/// The words of the marrow reserve that a statement gives.
fn words_of(statement: &Statement) -> Vec<Word> {
    const ALL: [Word; 4] = [Word::Exhausted, Word::Depleted, Word::PartlyUsed, Word::MarrowFull];
    let named = |value: &Val| match value {
        Val::Message(message) => ALL.into_iter().find(|word| id::word(*word) == message),
        _ => None,
    };
    statement.values.values().filter_map(named).collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::record::Digest;

    fn reading(words: &[Word]) -> Reading {
        let say = |w: &Word| Statement::plain(id::CONDITION_WORD).with("word", Val::message(id::word(*w)));
        Reading {
            method: "condition.marrow".to_owned(),
            title: id::CONDITION_TITLE.to_owned(),
            outcome: Outcome::Read,
            estimates: Vec::new(),
            statements: words.iter().map(say).collect(),
            cautions: Vec::new(),
            sharpen: Vec::new(),
            variants: Vec::new(),
            rests_on: Vec::new(),
            entries_digest: Digest([0; 32]),
            sources: Vec::new(),
        }
    }

    #[test]
    fn the_evidence_is_one_way() {
        // Mech and DelGiudice 1985: low marrow fat shows poor condition, high marrow fat does not show good.
        assert_eq!(allows(&reading(&[Word::Exhausted])).0, "reading.allows.low");
        let (full, not) = allows(&reading(&[Word::MarrowFull]));
        assert_eq!(full, "reading.allows.full");
        assert!(not.contains(&"reading.forbids.good") && not.contains(&"reading.forbids.cause"));
    }

    #[test]
    fn bones_that_differ_settle_nothing() {
        assert_eq!(allows(&reading(&[Word::Exhausted, Word::MarrowFull])).0, "reading.allows.either");
        assert_eq!(allows(&reading(&[Word::Depleted, Word::PartlyUsed])).0, "reading.allows.middle");
        assert_eq!(allows(&reading(&[])).0, "reading.allows.nothing");
    }
}
