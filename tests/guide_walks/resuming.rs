//! After any interruption the record alone says what comes next.

use marrowbook::guide::{Draft, Phase, situation};
use marrowbook::record::{Answer, Journal, Site, Why, fold};

use crate::answering::Script;
use crate::visit::{Visit, moment};
use crate::walks::{fresh, frozen};

#[test]
fn the_same_record_gives_the_same_next_ask_at_every_point() {
    let mut visit = Visit::field(1);
    let mut hand = frozen();
    loop {
        let here = visit.situation();
        // The phone died: entries come back from the store in whatever order.
        let mut again = Journal::new();
        let entries: Vec<_> = visit.journal.entries().cloned().collect();
        for entry in entries.into_iter().rev() {
            again.add(entry).unwrap();
        }
        assert_eq!(visit.look_in(&fold(&again), situation), here);
        if visit.step(&mut hand).is_none() {
            break;
        }
    }
}

#[test]
fn the_card_shows_the_last_answers_and_where_it_goes_on() {
    let mut visit = Visit::field(1);
    let mut hand = fresh();
    while visit.situation().next.is_some_and(|ask| ask.id() != "snow_crust") {
        visit.step(&mut hand).unwrap();
    }
    visit.now = moment("2027-02-14T11:25:00-05:00");
    let card = visit.look(|view| situation(view).resume(view, 3));
    let last: Vec<_> = card.last.iter().map(|l| l.finding.as_str()).collect();
    assert_eq!(last, ["sinking_depth_cm", "snow_depth_cm", "snow_under_body"]);
    assert_eq!(card.last[0].step.as_deref(), Some("sinking_depth"));
    assert_eq!(card.away_s, Some(25 * 60));
    assert_eq!(card.phase, Phase::HandsOff);
    assert_eq!(card.next.unwrap().name(), "snow_crust");
    assert!(card.open_count > 20);
    assert_eq!(card.stops, Vec::<&str>::new());
}

#[test]
fn of_signs_answered_in_one_tap_the_card_shows_what_was_seen() {
    let mut visit = Visit::field(1);
    let drafts = [
        ("blood_on_snow", Answer::choice("there")),
        ("drag_marks", Answer::CantTell { why: Why::Buried }),
        ("hair_scattered", Answer::CantTell { why: Why::Buried }),
        ("chase_or_struggle_marks", Answer::CantTell { why: Why::Buried }),
    ];
    visit.write(&drafts.map(|(finding, answer)| Draft { finding, site: Site::NONE, answer, step: "snow_signs" }));
    let card = visit.look(|view| situation(view).resume(view, 3));
    assert_eq!(card.last[0].finding, "blood_on_snow");
    assert_eq!(card.last.len(), 3);
}

#[test]
fn answers_that_nobody_gave_are_not_among_the_last() {
    let mut visit = Visit::field(1);
    let mut hand = Script::new("body_state=bones_and_hair");
    while visit.situation().next.is_some_and(|ask| ask.id() != "quick_class") {
        visit.step(&mut hand).unwrap();
    }
    let settled = visit.situation().to_write;
    assert!(settled.iter().any(|d| d.finding == "body_frozen"));
    visit.write(&settled);
    let card = visit.look(|view| situation(view).resume(view, 1));
    assert_eq!(card.last[0].finding, "browse_or_beds_by_body");
}

#[test]
fn a_clock_that_jumped_back_gives_no_time_away_and_keeps_the_order_of_the_chain() {
    let mut visit = Visit::field(1);
    visit.say("body_state", Site::NONE, Answer::choice("whole"));
    visit.now = moment("2027-02-14T09:00:00-05:00");
    visit.say("body_frozen", Site::NONE, Answer::choice("not_frozen"));
    let card = visit.look(|view| situation(view).resume(view, 2));
    let last: Vec<_> = card.last.iter().map(|l| l.finding.as_str()).collect();
    assert_eq!(last, ["body_frozen", "body_state"]);
    visit.now = moment("2027-02-14T08:00:00-05:00");
    assert_eq!(visit.look(|view| situation(view).resume(view, 2)).away_s, None);
}

#[test]
fn stops_in_force_stand_on_the_card() {
    let mut visit = Visit::field(1);
    visit.say("snare_or_trap", Site::NONE, Answer::choice("there"));
    let card = visit.look(|view| situation(view).resume(view, 3));
    assert!(card.stops.contains(&"L04"), "{:?}", card.stops);
}
