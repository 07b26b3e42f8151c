//! What another phone shows is read with its signature, or refused with a reason. Rules of the house.

use super::received::{Carried, MOST_TEXT_BYTES};
use super::tests::{answer, begun};
use super::*;
use crate::bundle::deflate::{deflate, inflate};
use crate::bundle::envelope::seal;
use crate::bundle::key::DeviceKey;
use crate::bundle::kind::Kind;
use crate::bundle::opening::open;
use crate::web::settings::Settings;

const OTHERS_SEED: [u8; 32] = [9; 32];

/// A bundle of one carcass, made by another phone.
fn bundle() -> (String, Session) {
    let bench = tests::bench();
    let key = DeviceKey::from_seed(&OTHERS_SEED);
    let mut session = Session::new(Journal::new(), key.public().id(), None);
    session.seed = Some(crate::keep::Seed(OTHERS_SEED));
    session.is_held_by(PersonCode::new("K7").unwrap());
    let bodies = session.start_outing(&bench).unwrap();
    tests::write(&mut session, bodies);
    answer(&mut session, &bench, "body_state", Answer::choice("whole"));
    let text = session.make_bundle(&Settings::default(), false, &bench).unwrap().text;
    (text, session)
}

fn why(packed: &[u8]) -> Unread {
    match read_frames(packed) {
        Err(why) => why,
        Ok(_) => panic!("taken"),
    }
}

#[test]
fn what_a_phone_shows_is_its_own_and_ends_where_its_chain_ends() {
    let (text, session) = bundle();
    let Ok(Came::Bundle(envelope, came)) = read_frames(&deflate(text.as_bytes())) else { panic!("not taken") };
    assert_eq!(came, text, "byte for byte");
    assert_eq!(envelope.signer, DeviceKey::from_seed(&OTHERS_SEED).public().id());
    assert_eq!(Some(envelope.head), session.journal.head(session.device).digest);
    assert_eq!(envelope.carcasses, 1);
    assert_eq!(Carried::read(&text), Carried { read: Ok(envelope), text });
}

#[test]
fn entries_of_another_device_than_the_one_that_signed_are_nobodys() {
    let (text, _) = bundle();
    let payload = open(text.as_bytes(), Kind::Bundle).unwrap().payload;
    let thief = DeviceKey::from_seed(&[4; 32]);
    let again = seal(Kind::Bundle, &payload, &thief).unwrap();
    assert_eq!(Carried::read(&again).read, Err(Unread::Content));
    // Sealed again by its own key it is taken: the payload is whole.
    let own = seal(Kind::Bundle, &payload, &DeviceKey::from_seed(&OTHERS_SEED)).unwrap();
    assert!(Carried::read(&own).read.is_ok());
}

#[test]
fn what_unpacks_to_more_than_a_bundle_is_refused_before_it_is_read() {
    let (text, _) = bundle();
    // White space behind a bundle is no damage; too much of it is no bundle. Mixed, or it would shrink beyond what a
    // text may.
    let mixed = (0_u64..).map(|n| if n.wrapping_mul(0x9E37_79B9_7F4A_7C15) >> 62 == 0 { '\n' } else { ' ' });
    let padded = |bytes: usize| deflate(text.chars().chain(mixed.clone()).take(bytes).collect::<String>().as_bytes());
    assert!(inflate(&padded(MOST_TEXT_BYTES), MOST_TEXT_BYTES).is_ok());
    assert!(read_frames(&padded(MOST_TEXT_BYTES)).is_ok());
    assert_eq!(why(&padded(MOST_TEXT_BYTES + 1)), Unread::NotWhole);
    assert_eq!(why(b"no deflate"), Unread::NotWhole);
    assert_eq!(why(&deflate(&[0xff, 0xfe])), Unread::NotWhole);
}

#[test]
fn a_card_comes_the_same_way_and_a_signed_thing_of_another_kind_is_told() {
    let card = include_str!("../../../demo/card.txt");
    assert!(matches!(read_frames(&deflate(card.as_bytes())), Ok(Came::Card(_))));
    let enrolment = seal(Kind::Bundle, b"{\"a\":1}", &DeviceKey::from_seed(&[3; 32])).unwrap();
    assert_eq!(why(&deflate(enrolment.as_bytes())), Unread::Content);
}

#[test]
fn every_note_of_somebody_hurt_stands_the_latest_first() {
    let (mut session, bench) = begun();
    let note = |text: &str| Answer::Seen { value: crate::record::Value::Text(text.to_owned()) };
    answer(&mut session, &bench, "exposure_note", note("left thumb"));
    // The other of the two that share the phone: one's hurt does not take the place of another's.
    session.is_held_by(PersonCode::new("M1").unwrap());
    answer(&mut session, &bench, "exposure_note", note("right eye"));
    let all: Vec<_> = session.exposure_notes().into_iter().map(|n| (n.observer.to_string(), n.answer)).collect();
    assert_eq!(all, [("M1".to_owned(), note("right eye")), ("K7".to_owned(), note("left thumb"))]);
}
