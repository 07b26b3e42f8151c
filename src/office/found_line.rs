//! When and where a carcass was found, in one line: by this people look for it in a list.

use crate::guide::answer_words;
use crate::reading::found_on;
use crate::record::{Answer, Carcass, Site, Value};
use crate::words::{Language, say_office};

/// The day on which it was found and its place, in degrees or in the crew's words; empty where neither is there.
pub fn found_line(carcass: &Carcass) -> String {
    let day = found_on(carcass).map(|day| day.to_string());
    let said = |finding: &str| {
        let standing = carcass.question(finding, Site::NONE).standing;
        standing.iter().find_map(|one| match &one.answer {
            Answer::Seen { value: Value::Place(at) } => Some(answer_words::place(at)),
            Answer::Seen { value: Value::Text(words) } => Some(words.clone()),
            _ => None,
        })
    };
    let place = said("place").or_else(|| said("place_words"));
    let (id, args) = match (day, place) {
        (Some(day), Some(place)) => ("desk.found_at", vec![("day", day.into()), ("place", place.into())]),
        (Some(day), None) => ("desk.found_on", vec![("day", day.into())]),
        (None, Some(place)) => ("desk.found_place", vec![("place", place.into())]),
        (None, None) => return String::new(),
    };
    say_office(Language::English, id, &args)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::bundle::DeviceKey;
    use crate::office::test_chain::{TestChain, answer, noon};
    use crate::record::{Place, PlaceSource, fold, links, uuid_v7};

    /// The line of a carcass of which a crew answered this.
    fn line(said: &[(&str, Value)]) -> String {
        let (carcass, exam) = (uuid_v7(1, [1; 10]), uuid_v7(2, [2; 10]));
        let mut chain = TestChain::of(&DeviceKey::from_seed(&[4; 32]));
        for (finding, value) in [(links::CARCASS, Value::Ref(carcass))].iter().chain(said) {
            chain.add(answer(exam, finding, "K7", Answer::Seen { value: value.clone() }), "K7", noon());
        }
        found_line(&fold(&chain.journal()).carcasses[&carcass])
    }

    #[test]
    fn day_and_place_as_far_as_they_are_known() {
        let place =
            Place { lat_e7: 471_234_567, lon_e7: -915_000_000, accuracy_m_95: Some(8), source: PlaceSource::Device };
        let at = ("place", Value::Place(place));
        let words = ("place_words", Value::Text("by the old bridge".to_owned()));
        // Where nobody said when they arrived it is the day of the answers.
        assert_eq!(line(&[]), "Found 2027-02-14, no place given");
        assert_eq!(line(std::slice::from_ref(&words)), "Found 2027-02-14, at by the old bridge");
        // Degrees go before words: people go there by them.
        let both = line(&[words, at]);
        assert!(both.starts_with("Found 2027-02-14, at 47.12") && !both.contains("bridge"), "{both}");
    }
}
