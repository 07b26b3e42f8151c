//! Every message that a reading can use has words, and none of them says what a deer died of.

use marrowbook::reading::cause_ids;
use marrowbook::reading::message_ids::ALL;
use marrowbook::words::{Language, ids, raw};

#[test]
fn every_message_of_a_reading_has_words() {
    let missing: Vec<&str> =
        ALL.iter().flat_map(|list| list.iter()).copied().filter(|id| raw(Language::English, id).is_none()).collect();
    assert!(missing.is_empty(), "no English for {missing:?}");
}

#[test]
fn no_message_of_a_reading_says_that_a_deer_was_killed_or_starved() {
    // Condition and cause are separate fields: Mech and DelGiudice 1985, Wildl. Soc. Bull. 13:204-206.
    for id in ids().filter(|id| id.starts_with("reading.")) {
        let text = raw(Language::English, id).unwrap().to_lowercase();
        for word in ["kill", "starv", "shot", "poach", "predat", "prey"] {
            assert!(!text.contains(word), "{id} says `{word}`: {text}");
        }
    }
}

#[test]
fn every_message_of_the_cause_reading_has_words() {
    let missing: Vec<String> = cause_ids::all().into_iter().filter(|id| raw(Language::English, id).is_none()).collect();
    assert!(missing.is_empty(), "no English for {missing:?}");
}

#[test]
fn what_to_look_at_next_names_no_cause() {
    // What is offered before the examination is closed must not steer the eye: no animal, no cause.
    for id in ids().filter(|id| id.starts_with("cause.look.") || id.starts_with("next.")) {
        let text = raw(Language::English, id).unwrap().to_lowercase();
        for word in ["kill", "starv", "shot", "predat", "coyote", "wolf", "bobcat", "lynx", "bear", "dog", "disease"] {
            assert!(!text.contains(word), "{id} says `{word}`: {text}");
        }
    }
}
