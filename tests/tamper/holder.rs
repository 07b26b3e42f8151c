//! What no signature shows: who holds a phone's key can do all this, and the file is intact. `README.md` says so under
//! what the signature proves and what it does not; here it is held fast, with what the office is told all the same.

use super::{judged, kit, outcome, ring};
use marrowbook::bundle::{Cover, Extras, Kind, canonical, make, open, seal};
use marrowbook::office::chains::{Odd, forks_and_gaps};
use marrowbook::office::opening::{Judged, Outcome, Verdict, judge};
use marrowbook::office::report::report;
use marrowbook::record::{Entry, Head, Journal, Salt};
use marrowbook::words::Language;
use serde_json::{Value, json};

fn entries(judged: &Judged) -> Vec<Entry> {
    judged.contents.as_ref().unwrap().entries.clone()
}

fn told(of: impl IntoIterator<Item = Entry>) -> Vec<Odd> {
    let mut journal = Journal::new();
    of.into_iter().for_each(|entry| journal.add(entry).unwrap());
    forks_and_gaps(&journal)
}

#[test]
fn the_newest_answers_left_out_do_not_show() {
    let all = kit::entries(&kit::phone());
    let shorter = judged(&kit::bundle(&all[..4], Extras::default(), &kit::phone()));
    assert_eq!(shorter.outcome(), Outcome::Intact);
    assert_eq!(told(entries(&shorter)), []);
}

#[test]
fn the_first_answers_left_out_are_told_as_a_gap() {
    let all = kit::entries(&kit::phone());
    let later = judged(&kit::bundle(&all[2..], Extras::default(), &kit::phone()));
    assert_eq!(later.outcome(), Outcome::Intact);
    let device = kit::phone().public().id();
    assert_eq!(told(entries(&later)), [Odd::Gap { device, first: 1, last: 2 }]);
}

#[test]
fn an_answer_written_anew_is_told_once_both_are_here() {
    let all = kit::entries(&kit::phone());
    let mut anew = all[..5].to_vec();
    let body = all[4].body().unwrap().unwrap();
    anew.push(Head::after(&all[4]).next(&body, Salt([99; 16])).unwrap());
    let first = judged(&kit::good());
    let second = judged(&kit::bundle(&anew, Extras::default(), &kit::phone()));
    assert_eq!((first.outcome(), second.outcome()), (Outcome::Intact, Outcome::Intact));
    assert_eq!(told(entries(&second)), [], "alone it does not show");
    assert_eq!(told(entries(&first).into_iter().chain(entries(&second))), [Odd::Fork(all[5].id())]);
}

/// A retired phone's holder who sets its clock back: the date is what the phone says.
#[test]
fn a_bundle_dated_before_its_key_was_retired_counts() {
    let key = kit::lost_phone();
    let made_at = |at: &str| {
        let cover = Cover { made_at: kit::moment(at), ..kit::cover() };
        judged(&make(cover, &kit::entries(&key), Extras::default(), &key).unwrap())
    };
    assert!(matches!(made_at("2027-02-01T10:00:00-05:00").verdict, Verdict::Retired { .. }));
    assert!(matches!(made_at("2027-01-01T10:00:00-05:00").verdict, Verdict::Intact { .. }));
}

/// A chain "taken over" may be another phone's, or made up: only the phone that hands it over vouches for it, and the
/// office is told so. Beside what that other phone hands in itself, it shows as a fork.
#[test]
fn a_chain_taken_over_rests_on_who_hands_it_over_and_that_is_said() {
    let (blue, thief) = (kit::phone(), kit::stranger());
    let genuine = kit::entries(&blue);
    let mut head = Head::start(blue.public().id());
    let mut false_ones = Vec::new();
    for (place, entry) in (50_u8..).zip(&genuine) {
        let next = head.next(&entry.body().unwrap().unwrap(), Salt([place; 16])).unwrap();
        head = Head::after(&next);
        false_ones.push(next);
    }
    let extras = Extras { adopted: vec![false_ones], ..Extras::default() };
    let text = make(kit::cover(), &kit::entries(&thief), extras, &thief).unwrap();
    let mut ring = ring();
    let id = thief.public().id();
    ring.enrol(
        "red phone",
        marrowbook::bundle::Fingerprint::of(id),
        Some(id),
        kit::moment("2026-12-01T10:00:00-05:00"),
    )
    .unwrap();
    let judged = judge(text.as_bytes(), &ring);
    assert_eq!(judged.verdict, Verdict::Intact { label: "red phone".into() });
    let about = report(&judged, Language::English, &|_| false).about.join("\n");
    assert!(about.contains("6 entries come from a chain whose key the phone has lost"), "{about}");
    let forks: Vec<Odd> = genuine.iter().map(|entry| Odd::Fork(entry.id())).collect();
    assert_eq!(told(entries(&judged).into_iter().chain(genuine)), forks);
}

/// What stands beside the entries is the holder's word as well: label, crew, photos, readings.
#[test]
fn what_stands_beside_the_entries_is_what_the_holder_says() {
    let mut payload: Value =
        serde_json::from_slice(&open(kit::good().as_bytes(), Kind::Bundle).unwrap().payload).unwrap();
    payload["label"] = json!("another name");
    payload["crew"] = json!("south");
    let text = seal(Kind::Bundle, &canonical::to_vec(&payload).unwrap(), &kit::phone()).unwrap();
    assert_eq!(outcome(&text), Outcome::Intact);
    // The office goes by the name that it gave the key, not by that in the file.
    assert_eq!(judged(&text).verdict, Verdict::Intact { label: "blue phone".into() });
}
