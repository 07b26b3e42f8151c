//! Leaving from anywhere; answers written by rule give way when what they rest on is corrected.

use marrowbook::guide::{Ask, Phase, Situation, Status, situation};
use marrowbook::record::{Answer, Site, Why};

use crate::answering::Script;
use crate::visit::Visit;
use crate::walks::{fresh, frozen, scavenged};

fn everything_has_a_state(visit: &Visit) {
    visit.look(|view| {
        for state in &situation(view).asks {
            let phase = state.ask.phase();
            if matches!(state.ask, Ask::Step { .. }) && (phase.is_at_carcass() || phase == Phase::Bench) {
                assert_ne!(state.status, Status::Open, "{}", state.ask.name());
                for (finding, site) in state.ask.questions(view) {
                    assert!(view.question(finding, site).is_answered(), "{finding} was left silent");
                }
            }
        }
    });
}

#[test]
fn leaving_now_from_every_point_leaves_nothing_silent_and_can_be_taken_back() {
    let mut visit = Visit::field(1);
    let mut hand = fresh();
    let mut turns = 0;
    loop {
        let before = visit.situation();
        if turns % 9 == 0 && visit.look(|v| !v.is_closed()) {
            let mut left = visit.clone();
            let drafts = left.look(|view| Situation::leave_now(view, &Why::Cold));
            assert!(drafts.iter().all(|d| d.answer != Answer::NotSeen), "leaving never says: not there");
            left.write(&drafts);
            everything_has_a_state(&left);
            let after = left.situation();
            let next = after.next.map(|ask| ask.phase());
            assert!(next.is_none_or(|p| !p.is_at_carcass()), "{next:?}");
            assert_eq!(left.look(|v| Situation::leave_now(v, &Why::Cold)), [], "leaving twice writes nothing");
            left.take_back("examination_closed");
            assert_eq!(left.situation().next, before.next, "taking the leaving back goes on where it was");
        }
        if visit.step(&mut hand).is_none() {
            break;
        }
        turns += 1;
    }
    assert!(turns > 100);
}

#[test]
fn leaving_keeps_what_is_known_apart_from_what_was_not_looked_at() {
    let mut visit = Visit::field(1);
    let mut hand = Script::new("body_state=bones_and_hair");
    while visit.situation().next.is_some_and(|ask| ask.id() != "quick_class") {
        visit.step(&mut hand).unwrap();
    }
    let drafts = visit.look(|view| Situation::leave_now(view, &Why::Unsafe));
    visit.write(&drafts);
    assert_eq!(visit.answer("rump_fat", Site::NONE), Answer::PartGone { why: Why::Scavenged });
    assert_eq!(visit.answer("quick_class", Site::NONE), Answer::NotLooked { why: Why::Unsafe });
    assert_eq!(visit.answer("body_state", Site::NONE), Answer::choice("bones_and_hair"));
    assert_eq!(visit.answer("examination_closed", Site::NONE), Answer::choice("left_early"));
    assert_eq!(visit.answer("left_early", Site::NONE), Answer::choice("unsafe_here"));
    let asked = visit.walk(&mut hand);
    assert!(!asked.iter().any(|a| a == "left_early" || a == "examination_closed"), "{asked:?}");
}

#[test]
fn what_a_rule_wrote_opens_again_when_the_body_turns_out_whole() {
    let mut visit = Visit::field(1);
    let mut hand = scavenged();
    while visit.situation().next.is_some_and(|ask| ask.id() != "bones_broken") {
        visit.step(&mut hand).unwrap();
    }
    let settled = visit.situation().to_write;
    visit.write(&settled);
    let gone = Answer::PartGone { why: Why::Scavenged };
    assert_eq!(visit.answer("wounds_outside", Site::NONE), gone, "written when it was passed");
    visit.say("body_state", Site::NONE, Answer::choice("whole"));
    let now = visit.situation();
    assert_eq!(now.find("wounds_outside").unwrap().status, Status::Open);
    assert_eq!(now.find("body_frozen").unwrap().status, Status::Open);
    visit.walk(&mut fresh());
    assert_eq!(visit.answer("wounds_outside", Site::NONE), Answer::choice("there"));
    visit.look(|view| {
        let standing = view.question("wounds_outside", Site::NONE).standing;
        assert_eq!(standing.len(), 1, "the rule's answer gave way");
    });
}

#[test]
fn a_rule_that_changes_its_reason_writes_the_new_one_once() {
    let mut visit = Visit::field(1);
    visit.walk(&mut frozen());
    assert_eq!(visit.answer("rump_fat", Site::NONE), Answer::NotLooked { why: Why::Frozen });
    // Closed: the record stands. Taken back: it is read anew.
    visit.say("body_state", Site::NONE, Answer::choice("bones_and_hair"));
    assert_eq!(visit.situation().to_write, [], "a closed record is not rewritten");
    visit.take_back("examination_closed");
    let _ = visit.walk(&mut frozen());
    assert_eq!(visit.answer("rump_fat", Site::NONE), Answer::PartGone { why: Why::Scavenged });
    assert_eq!(visit.situation().to_write, []);
}

#[test]
fn another_observer_on_the_same_phone_is_not_asked_for_ever() {
    let mut visit = Visit::field(1);
    let mut hand = frozen();
    while visit.situation().next.is_some_and(|ask| ask.phase() != Phase::Samples) {
        visit.step(&mut hand).unwrap();
    }
    visit.say("body_state", Site::NONE, Answer::choice("bones_and_hair"));
    visit.person = marrowbook::record::PersonCode::new("B2").unwrap();
    visit.walk(&mut hand);
    assert_eq!(visit.situation().to_write, []);
}
