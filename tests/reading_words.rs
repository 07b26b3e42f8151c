//! Every message that a reading can use has words, and none of them says what a deer died of.

use marrowbook::office::findings_table::FindingsTable;
use marrowbook::reading::cause_ids;
use marrowbook::reading::message_ids::ALL;
use marrowbook::reading::{self, Statement, Val};
use marrowbook::record::{Unit, fold};
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

#[test]
fn numbers_and_counts_of_a_statement_follow_the_language() {
    // Decimal marks and plural forms: Unicode CLDR 45 (fr: comma, one for 0 and 1; en: point, one for 1).
    let half =
        Statement::plain("reading.size.rule_silent").with("rule", Val::number(2.5, 1)).with("why", Val::Count(3));
    assert_eq!(half.say(Language::English), "2.5: not used, 3");
    assert_eq!(half.say(Language::French), "2,5\u{a0}: n'a pas servi, 3");
    let kilos = Statement::plain("reading.size.weighed").with("kg", Val::measure(61.24, Unit::Kilogram, 1));
    assert_eq!(kilos.say(Language::French), "À la balance\u{a0}: 61,2\u{a0}kg");
    let counted = |language, n| Statement::plain("reading.view.basis_count").with("n", Val::Count(n)).say(language);
    assert_eq!([0, 1, 2].map(|n| counted(Language::English, n)), ["0 answers", "1 answer", "2 answers"]);
    assert_eq!([0, 1, 2].map(|n| counted(Language::French, n)), ["0 réponse", "1 réponse", "2 réponses"]);
}

#[test]
fn every_method_has_a_name_in_words() {
    // A rule of the house: no code of the program stands where a person reads.
    let deer = serde_json::json!({
        "format": "marrowbook-findings-1",
        "carcasses": [{"name": "deer", "examinations": [{
            "kind": "field", "at": "2026-02-20T12:00:00-06:00",
            "findings": [
                {"finding": "species", "value": "white_tailed_deer"},
                {"finding": "examination_closed", "value": "complete"},
            ],
        }]}],
    });
    let tabled = FindingsTable::read(deer.to_string().as_bytes()).unwrap().journal().unwrap();
    let carcass = &fold(&tabled.journal).carcasses[&tabled.carcasses[0].1];
    let readings = reading::all(carcass, &reading::Given::default());
    let named = readings.each();
    // As many as the form has cards for.
    assert_eq!(named.len(), 13, "{:?}", named.iter().map(|one| one.method.as_str()).collect::<Vec<_>>());
    for reading in named {
        for language in Language::ALL {
            let id = format!("method.{}", reading.method);
            assert!(raw(language, &id).is_some_and(|name| !name.contains('_')), "{}: {id}", language.code());
        }
    }
}
