//! A report before anybody goes, and several carcasses at one place. The rules are the project's own, no source.

use marrowbook::guide::{Ask, ExamKind, Input, SHORT_FROM, Touch};
use marrowbook::record::{Answer, Site, Value, Why};
use uuid::Uuid;

use crate::answering::Script;
use crate::visit::Visit;

fn at_a_desk() -> Visit {
    let mut visit = Visit::field(1);
    visit.kind = ExamKind::Report;
    visit.report = Some(Uuid::from_u128(40));
    visit
}

#[test]
fn a_report_is_taken_before_anybody_goes_and_nobody_is_in_danger() {
    let mut visit = at_a_desk();
    let asked = visit.walk(&mut Script::new("report_triage=send_crew"));
    let expected = [
        "report_seen_by",
        "report_state",
        "report_seen_at",
        "report_place_words",
        "report_place",
        "report_count",
        "report_touched",
        "report_dog",
        "report_clear",
        "report_photo",
        "report_call_back",
        "report_triage",
    ];
    assert_eq!(asked.iter().map(|a| a.split('.').next().unwrap()).collect::<Vec<_>>(), expected);
    visit.look(|view| {
        assert_eq!(marrowbook::guide::situation(view).fired, []);
        assert_eq!(view.choice("report_triage").as_deref(), Some("send_crew"));
    });
}

#[test]
fn a_camera_has_no_hands_and_a_refused_visit_has_a_reason() {
    let mut visit = at_a_desk();
    let asked = visit.walk(&mut Script::new("report_seen_by=camera report_triage=no_visit"));
    let has = |name: &str| asked.iter().any(|a| a == name);
    assert!(!has("report_touched") && !has("report_dog") && !has("report_call_back"));
    assert!(has("report_triage_why"));
}

fn lies_with(number: i64) -> Visit {
    let mut visit = Visit::field(1);
    let draft = |finding, answer| marrowbook::guide::Draft { finding, site: Site::NONE, answer, step: "" };
    visit.write(&[
        draft("joins_event", Answer::Seen { value: Value::Ref(Uuid::from_u128(12)) }),
        draft("event_carcass_count", Answer::number(number)),
    ]);
    visit
}

#[test]
fn the_fourth_carcass_of_an_event_is_recorded_in_full_and_the_fifth_in_short() {
    let script = || Script::new("body_state=whole quick_class=fawn body_frozen=frozen_solid tracks_by=-");
    let (mut fourth, mut fifth) = (lies_with(SHORT_FROM - 1), lies_with(SHORT_FROM));
    let (long, short) = (fourth.walk(&mut script()), fifth.walk(&mut script()));
    println!("fourth: {} asks, fifth: {}", long.len(), short.len());
    assert!(short.len() + 20 < long.len());
    for asked in ["alive", "species", "people_on_body", "body_state", "quick_class", "sex_evidence", "tracks_by"] {
        assert!(short.iter().any(|a| a == asked), "{asked}");
    }
    // What is left out says why, and no question of the body is left without a state.
    fifth.look(|view| {
        assert_eq!(view.answer("body_position"), Answer::NotLooked { why: Why::OneOfMany });
        let situation = marrowbook::guide::situation(view);
        let touched =
            situation.asks.iter().filter(|a| matches!(a.ask, Ask::Step { step, .. } if step.touch > Touch::Look));
        assert!(touched.clone().count() > 10);
        assert!(touched.into_iter().all(|a| a.status != marrowbook::guide::Status::Open));
    });
}

#[test]
fn what_a_short_record_leaves_out_can_still_be_answered() {
    let mut visit = lies_with(SHORT_FROM);
    visit.walk(&mut Script::new("body_state=whole body_frozen=frozen_solid"));
    visit.look(|view| {
        let situation = marrowbook::guide::situation(view);
        let state = situation.asking(view, "body_position", Site::NONE).expect("still there");
        assert!(matches!(state.ask, Ask::Step { step, .. } if matches!(step.input, Input::Choice("body_position"))));
    });
}

#[test]
fn what_was_written_on_paper_is_typed_as_it_was_done() {
    // Typed at night, of a wound that closes hands-on work in the field: the crew had gone on all the same.
    let mut visit = Visit::field(1);
    visit.now = crate::visit::moment("2027-02-14T23:00:00-05:00");
    visit.say("from_paper", Site::NONE, Answer::choice("there"));
    let asked = visit.walk(&mut Script::new("body_state=whole body_frozen=not_frozen bullet_or_arrow_wound=there"));
    assert!(asked.iter().any(|a| a.starts_with("wounds_outside")), "{asked:?}");
    visit.look(|view| {
        let now = marrowbook::guide::situation(view);
        assert!(now.fired.is_empty());
        assert!(now.evidence_record, "that it is evidence stays");
    });
    // The same at the carcass.
    let mut there = Visit::field(1);
    let asked = there.walk(&mut Script::new("body_state=whole body_frozen=not_frozen bullet_or_arrow_wound=there"));
    assert!(!asked.iter().any(|a| a.starts_with("wounds_outside")));
}
