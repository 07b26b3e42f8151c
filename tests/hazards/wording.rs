//! Every hazard has its texts, short and in the form's own voice; one bleach instruction; no number
//! to call and no law in words; marks of what nobody confirmed reach the screen.

use marrowbook::card::{CallFor, CardState};
use marrowbook::guide::{BASELINE, CANNOT_CALL, Closes, Grade, NO_CARD_TO_CALL, NoReopen, hazards};
use marrowbook::record::find;
use marrowbook::science::source::Mark;
use marrowbook::words::{Language, ids, raw};

fn text(id: &str) -> &'static str {
    raw(Language::English, id).unwrap_or_else(|| panic!("no text {id}"))
}

#[test]
fn every_hazard_has_all_its_texts_and_its_statement() {
    let mut seen = std::collections::BTreeSet::new();
    for hazard in hazards::all() {
        assert!(seen.insert(hazard.id), "{} stands twice", hazard.id);
        assert_eq!(hazard.id.to_ascii_lowercase(), hazard.code);
        for part in ["head", "do", "fact", "source"] {
            assert!(!text(&format!("hazard.{}.{part}", hazard.code)).trim().is_empty());
        }
        assert_eq!(hazard.confirm, format!("confirm_{}", hazard.code));
        assert!(find(hazard.confirm).is_some(), "{}", hazard.confirm);
        for sign in hazard.signs {
            assert!(find(sign).is_some(), "{}: no finding {sign}", hazard.id);
        }
        text(&format!("grade.{}", hazard.grade.code()));
        text(&format!("grade.{}.means", hazard.grade.code()));
        text(&format!("closes.{}", hazard.closes.code()));
    }
    for number in 1..=26 {
        assert!(seen.contains(format!("H{number:02}").as_str()), "H{number:02}");
    }
    for number in 1..=10 {
        assert!(seen.contains(format!("E{number:02}").as_str()), "E{number:02}");
    }
    for number in 1..=7 {
        assert!(seen.contains(format!("L{number:02}").as_str()), "L{number:02}");
    }
}

/// A gloved reader at arm's length: our own measure, no source.
#[test]
fn headline_and_two_short_lines() {
    for hazard in hazards::all() {
        let head = text(&hazard.text("head"));
        let lines: Vec<_> = text(&hazard.text("do")).lines().collect();
        assert!(head.chars().count() <= 30, "{head}");
        assert_eq!(lines.len(), 2, "{}", hazard.id);
        assert!(lines.iter().all(|l| l.chars().count() <= 52), "{lines:?}");
    }
}

#[test]
fn marks_travel_to_the_screen() {
    for hazard in hazards::all() {
        let source = text(&hazard.text("source"));
        for (mark, word) in [(Mark::Memory, "[memory]"), (Mark::Design, "[design]")] {
            assert_eq!(hazard.marks.contains(&mark), source.contains(word), "{}: {source}", hazard.id);
        }
        assert!(!hazard.marks.is_empty(), "{}", hazard.id);
    }
}

/// Strictest of the instructions seen (North Dakota Game and Fish, Wyoming Game and Fish: equal parts
/// for an hour); weaker ones for other uses must not stand beside it.
#[test]
fn there_is_one_bleach_instruction() {
    let with_bleach: Vec<_> = ids().filter(|id| text(id).to_lowercase().contains("bleach")).collect();
    assert_eq!(with_bleach, ["clean.bleach"]);
    let words = text("clean.bleach");
    for part in ["one part", "60 minutes", "20 C", "wipe"] {
        assert!(words.contains(part), "{part}");
    }
}

#[test]
fn no_telephone_number_and_no_law_in_words() {
    for hazard in hazards::all() {
        for part in ["head", "do", "fact"] {
            let words = text(&format!("hazard.{}.{part}", hazard.code));
            let digits = words.chars().filter(char::is_ascii_digit).count();
            assert!(digits < 3, "{}: {words}", hazard.id);
            for law in ["illegal", "law", "felony", "protected", "must by", "911"] {
                assert!(!words.to_lowercase().split_whitespace().any(|w| w == law), "{}: {words}", hazard.id);
            }
        }
    }
}

#[test]
fn the_phone_never_sounds_as_if_it_could_call() {
    assert!(text(CANNOT_CALL).contains("will not call"));
    for id in ids().filter(|id| id.starts_with("hazard.") || id.starts_with("calls.") || id.starts_with("hurt.")) {
        let words = text(id).to_lowercase();
        for promise in ["help is coming", "we will call", "is being called", "has been told", "calling "] {
            assert!(!words.contains(promise), "{id}: {words}");
        }
    }
}

#[test]
fn everything_that_is_shown_has_a_text() {
    for id in BASELINE.iter().chain([&CANNOT_CALL, &NO_CARD_TO_CALL]) {
        text(id);
    }
    for call in CallFor::ALL {
        text(&format!("calls.for.{}", call.code()));
    }
    for state in [CardState::None, CardState::Expired, CardState::NotYet, CardState::InForce] {
        text(&format!("card.state.{}", state.code()));
    }
    for no in [
        NoReopen::NotAStop,
        NoReopen::Fixed,
        NoReopen::NotInForce,
        NoReopen::NoCard,
        NoReopen::NotNamed,
        NoReopen::IceNotMeasured,
        NoReopen::IceTooThin,
        NoReopen::IceItems,
        NoReopen::NoReason,
    ] {
        text(no.message());
    }
    for closes in [Closes::Head, Closes::Mouth, Closes::Asking(&[]), Closes::Opening, Closes::Cutting, Closes::GoingIn]
    {
        text(&format!("closes.{}", closes.code()));
    }
    assert!(hazards::all().filter(|h| h.grade >= Grade::Stop).count() >= 30);
}
