use super::*;
use crate::bundle::{DeviceKey, Kind, canonical, seal};
use crate::office::key_file::KeyFile;
use crate::record::Moment;

fn at() -> Moment {
    Moment::parse("2027-02-03T12:00:00-05:00").unwrap()
}

fn bundle() -> Vec<u8> {
    include_bytes!("../../../tests/kit/intact--as-made.txt").to_vec()
}

fn outcomes(hand: &Hand) -> Vec<Outcome> {
    hand.judged().map(Judged::outcome).collect()
}

#[test]
fn a_bundle_is_unknown_until_its_device_is_on_the_ring_and_is_judged_anew_then() {
    let mut hand = Hand::default();
    hand.take("from-mail.txt".to_owned(), bundle());
    assert_eq!(outcomes(&hand), [Outcome::UnknownDevice]);
    let device = hand.judged().next().unwrap().signer.unwrap();
    let mut ring = Keyring::default();
    ring.enrol("blue phone", Fingerprint::of(device), Some(device), at()).unwrap();
    hand.take_keyring(ring.write().unwrap().as_bytes()).unwrap();
    assert_eq!(outcomes(&hand), [Outcome::Intact]);
    assert_eq!(hand.ring_from, RingFrom::Plain);
}

#[test]
fn a_signed_ring_says_who_signed_it_and_a_changed_one_is_refused() {
    let key = DeviceKey::from_seed(&[5; 32]);
    let text = seal(Kind::Keyring, &canonical::to_vec(&Keyring::default()).unwrap(), &key).unwrap();
    let mut hand = Hand::default();
    hand.take_keyring(text.as_bytes()).unwrap();
    assert_eq!(hand.ring_from, RingFrom::Signed(Fingerprint::of(key.public().id())));
    let changed = text.replacen("\"signature\":\"", "\"signature\":\"A", 1);
    assert!(hand.take_keyring(changed.as_bytes()).is_err());
    assert!(hand.take_keyring(&bundle()).is_err(), "a bundle is no keyring");
    assert!(matches!(hand.ring_from, RingFrom::Signed(_)), "the ring before stays");
}

#[test]
fn the_same_file_picked_twice_is_one_file() {
    let mut hand = Hand::default();
    hand.take("a.txt".to_owned(), bundle());
    hand.take("a (1).txt".to_owned(), bundle());
    assert_eq!(hand.files.len(), 1);
    hand.take_too_large("film.mov".to_owned());
    hand.take_too_large("film.mov".to_owned());
    assert_eq!(hand.count(Outcome::Damaged), 2);
}

#[test]
fn a_photo_that_no_bundle_names_stands_apart() {
    let mut hand = Hand::default();
    // First bytes of a JPEG file: ISO/IEC 10918-1, SOI and the next marker.
    hand.take("deer.jpg".to_owned(), b"\xff\xd8\xff\xe0....".to_vec());
    assert_eq!(hand.photos(), (0, 1));
    assert!(matches!(hand.files[0].what, What::Photo(digest) if hand.names(digest).is_none()));
    assert_eq!(hand.files[0].kept, Kept::Not);
    assert_eq!(hand.held().unsaved().count(), 0, "nothing vouches for it, so it is not kept");
}

// Rule of the house: what a phone calls itself must not make its decisions the office's.
#[test]
fn a_stranger_is_proposed_under_its_own_label_but_never_as_the_office() {
    let name = |label: &str| super::Stranger { label: label.to_owned(), retired: None }.proposed_name();
    assert_eq!(["blue", "the office", "the office of acorn"].map(name), ["blue", "", ""]);
}

#[test]
fn files_go_into_the_archive_byte_for_byte_and_once_and_damaged_ones_do_not() {
    let mut hand = Hand::default();
    hand.take("from-mail.txt".to_owned(), bundle());
    let name = format!("received/{}.txt", super::super::archive::hex(Digest::of(&[&bundle()])));
    assert_eq!(hand.held().get(&name).as_deref(), Some(bundle().as_slice()));
    assert_eq!(hand.files[0].kept, Kept::New);
    let mut broken = bundle();
    broken.truncate(200);
    hand.take("cut.txt".to_owned(), broken);
    assert_eq!(hand.files[1].kept, Kept::Not);
    assert_eq!(hand.held().all().len(), 1);
    // the same archive opened another day: the bundle again is no news
    let mut other = Hand::default();
    other.take_archive(hand.held().all()).unwrap();
    other.take("again.txt".to_owned(), bundle());
    assert_eq!(other.files[0].kept, Kept::Before);
    assert_eq!(other.held().unsaved().count(), 0);
}

#[test]
fn an_unknown_phone_counts_in_nothing_until_its_words_were_compared_and_a_retired_one_keeps_what_it_made() {
    let key = DeviceKey::from_seed(&[5; 32]);
    let random = crate::office::key_file::Randomness { seed: [5; 32], salt: [1; 16], nonce: [2; 12] };
    let file = KeyFile::make("acorn basin cedar dolphin", random).unwrap();
    let mut hand = Hand::default();
    hand.take("a.txt".to_owned(), bundle());
    let figures = hand.figures(at());
    assert_eq!((figures.counted.carcasses.len(), figures.only_looked().count()), (0, 1));
    let unknown = hand.unknown();
    let (device, _) = unknown.iter().next().unwrap();
    assert!(matches!(hand.enrol("blue", *device, Some(&key), at()), Err(DeskError::NoKey)), "no office key yet");
    hand.take_office_key(&file, &key, &Keyring::default()).unwrap();
    let other = DeviceKey::from_seed(&[6; 32]);
    assert!(matches!(hand.enrol("blue", *device, Some(&other), at()), Err(DeskError::NoKey)), "another's key");
    hand.enrol("blue", *device, Some(&key), at()).unwrap();
    let figures = hand.figures(at());
    assert_eq!((figures.counted.carcasses.len(), figures.only_looked().count()), (1, 0));
    assert!(hand.unknown().is_empty());
    assert_eq!(outcomes(&hand), [Outcome::Intact], "the file on the desk is judged anew");
    // retired from a day before it was made: it counts no more, and that is known beforehand
    let long_ago = Moment::parse("2020-01-01T00:00:00-05:00").unwrap();
    assert_eq!(hand.made_after(Fingerprint::of(*device), long_ago), 1);
    assert_eq!(hand.made_after(Fingerprint::of(*device), Moment::parse("2099-01-01T00:00:00-05:00").unwrap()), 0);
    hand.retire("blue", long_ago, Some(&key), at()).unwrap();
    assert_eq!(hand.figures(at()).counted.carcasses.len(), 0);
    assert!(hand.retire("blue", at(), Some(&key), at()).is_err(), "no such device in use");
    // what is saved opens with the command line's own code, and with another key in it does not
    let mut next = Hand::default();
    next.take_archive(hand.held().all()).unwrap();
    assert_eq!(next.keyring, hand.keyring);
    assert_eq!(next.ring_from, RingFrom::Archive(Fingerprint::of(key.public().id())));
    let mut files = hand.held().all();
    let foreign = seal(Kind::Keyring, &canonical::to_vec(&Keyring::default()).unwrap(), &other).unwrap();
    files.insert("keyring.txt".to_owned(), foreign.as_bytes().into());
    assert!(Hand::default().take_archive(files.clone()).is_err());
    assert!(matches!(hand.take_archive(files), Err(DeskError::Apart(_))), "two keyrings cannot be one");
}

#[test]
fn a_decision_is_signed_with_the_open_key_and_the_figures_follow() {
    use crate::office::hand::{Decision, NotDecided, Random};
    use crate::office::keyring::KeyringError;
    use crate::office::test_chain::{TestChain, answer};
    use crate::office::to_decide::waiting;
    use crate::reading::Given;
    use crate::record::{Answer, PersonCode, Site, Value, uuid_v7};
    let phone = DeviceKey::from_seed(&[3; 32]);
    let office = DeviceKey::from_seed(&[5; 32]);
    let random = crate::office::key_file::Randomness { seed: [5; 32], salt: [1; 16], nonce: [2; 12] };
    let person = |code: &str| PersonCode::new(code).unwrap();
    let ids = [uuid_v7(2, [8; 10]), uuid_v7(2, [9; 10])];
    let mut chain = TestChain::of(&phone);
    let mut say = |n: u8, finding: &str, who: &str, said: Answer| {
        chain.add(answer(uuid_v7(1, [n; 10]), finding, who, said), who, at());
    };
    for (n, id) in (0..).zip(ids) {
        say(n, "examined_carcass", "K7", Answer::Seen { value: Value::Ref(id) });
    }
    say(0, "species", "K7", Answer::choice("white_tailed_deer"));
    say(0, "species", "B2", Answer::choice("other_deer"));
    let bundle = chain.bundle(&phone, "blue", crate::bundle::Extras::default());
    let mut hand = Hand::default();
    hand.take("a.txt".to_owned(), bundle.into_bytes());
    hand.take_office_key(&KeyFile::make("acorn basin cedar dolphin", random).unwrap(), &office, &Keyring::default())
        .unwrap();
    hand.enrol("blue", phone.public().id(), Some(&office), at()).unwrap();
    let by = || (person("K7"), at(), Random { id: [4; 10], salts: [[5; 16], [6; 16]] });
    let same = Decision::Same(ids[0], ids[1]);
    let (before, figures) = (hand.held().all(), hand.figures(at()));
    let other = DeviceKey::from_seed(&[6; 32]);
    for key in [None, Some(&other)] {
        let refused = hand.decide(&figures, &same, key, by());
        assert!(matches!(refused, Err(NotDecided::Desk(DeskError::NoKey))), "{refused:?}");
    }
    assert_eq!(hand.held().all(), before, "nothing was written");
    // One animal, then two after all: each is one more signed file of the office's own chain.
    hand.decide(&figures, &same, Some(&office), by()).unwrap();
    let figures = hand.figures(at());
    assert_eq!(figures.counted.carcasses.len(), 1);
    assert_eq!(hand.held().all().keys().filter(|path| path.starts_with("received/")).count(), 2);
    hand.decide(&figures, &Decision::Apart(ids[0], ids[1]), Some(&office), by()).unwrap();
    let figures = hand.figures(at());
    assert_eq!(figures.counted.carcasses.len(), 2);
    assert!(figures.counted.odd.is_empty(), "one chain without a gap: {:?}", figures.counted.odd);
    // An answer is chosen with a reason only.
    let of = |hand: &Hand| hand.folded().carcasses[&ids[0]].question("species", Site::NONE).results().len();
    assert_eq!(of(&hand), 2);
    let entry = chain.entries[3].id();
    let choose = |reason: &str| Decision::Answer { carcass: ids[0], entry, reason: reason.to_owned() };
    assert!(hand.decide(&figures, &choose(" "), Some(&office), by()).is_err());
    hand.decide(&figures, &choose("photo"), Some(&office), by()).unwrap();
    assert_eq!(of(&hand), 1);
    let now = hand.folded();
    let settled = now.carcasses[&ids[0]].question("species", Site::NONE).settled().cloned();
    assert_eq!(settled, Some(Answer::choice("other_deer")));
    // Its own key is on the ring since it signed, is counted as no phone, and cannot be retired: all of this would stop
    // counting.
    assert!(hand.keyring.devices().iter().any(|one| hand.is_own(one)));
    assert_eq!((hand.keyring.devices().len(), hand.phones_in_use()), (2, 1));
    let refused = hand.retire("the office", at(), Some(&office), at());
    assert!(matches!(refused, Err(DeskError::Keyring(KeyringError::OwnKey))), "{refused:?}");
    // The choice is listed and can be taken back: both answers stand again.
    let figures = hand.figures(at());
    let waiting = waiting(&figures.counted.folded, &figures.counted.bodies, Given::default());
    let [decided] = waiting.decided.as_slice() else { panic!("one decision: {:?}", waiting.decided) };
    assert_eq!((decided.carcass, waiting.two.as_slice()), (ids[0], [ids].as_slice()));
    let undo = Decision::Undo { carcass: decided.carcass, entry: decided.made.entry };
    hand.decide(&figures, &undo, Some(&office), by()).unwrap();
    assert_eq!(of(&hand), 2);
    assert!(hand.decide(&hand.figures(at()), &undo, Some(&office), by()).is_err(), "taken back already");
    hand.decide(&hand.figures(at()), &choose("photo"), Some(&office), by()).unwrap();
    let now = hand.folded();
    // The archive opens again with the same decisions in it.
    let mut next = Hand::default();
    next.take_archive(hand.held().all()).unwrap();
    assert_eq!(next.folded(), now);
}

/// The page and the command line read one archive: a log that the page keeps is what `office winter` finds there.
#[test]
fn a_daily_log_is_kept_with_its_units_and_read_from_the_archive() {
    use crate::office::winter::kept::{Kept as KeptLog, KeptError};
    use crate::office::winter::table::Confirmed;
    use crate::office::winter::units::{SnowUnit, TemperatureUnit};
    let csv = "date,tmin,snow depth\n2027-01-01,14,10\n2027-01-02,5,12\n";
    let told = Confirmed {
        temperature: Some(TemperatureUnit::Fahrenheit),
        snow: Some(SnowUnit::Inches),
        place: "Ridge".to_owned(),
        ..Confirmed::default()
    };
    let mut hand = Hand::default();
    assert!(hand.daily_logs().unwrap().is_empty());
    let mut keep = |told: &Confirmed, correct| hand.keep_winter(("ridge.csv", csv.as_bytes()), told, correct, at());
    assert!(matches!(keep(&told, false), Ok(KeptLog::New(_))));
    assert!(matches!(keep(&told, false), Ok(KeptLog::Before)));
    let celsius = Confirmed { temperature: Some(TemperatureUnit::Celsius), ..told.clone() };
    assert!(matches!(keep(&celsius, false), Err(KeptError::ToldOtherwise { .. })));
    // What was refused has changed nothing; the archive's own reader finds it as the page does.
    let logs = hand.daily_logs().unwrap();
    assert_eq!((logs.len(), logs[0].place.as_str(), logs[0].days.len()), (1, "Ridge", 2));
    let kept = hand.archive().winter_logs().unwrap();
    assert_eq!((kept[0].sheet.file.as_str(), kept[0].confirmed.temperature), ("ridge.csv", told.temperature));
    assert!(hand.held().unsaved().written.iter().any(|path| path.starts_with("winter/")), "it is to be saved");
    let mut keep = |told: &Confirmed, correct| hand.keep_winter(("ridge.csv", csv.as_bytes()), told, correct, at());
    assert!(matches!(keep(&celsius, true), Ok(KeptLog::Corrected(_))));
    let read = |hand: &Hand| hand.archive().winter_logs().unwrap()[0].confirmed.temperature;
    assert_eq!(read(&hand), celsius.temperature);
    let path = hand.archive().winter_logs().unwrap()[0].path.clone();
    hand.held.put(&path.to_string_lossy(), b"date,tmin\n2027-01-01,1\n");
    assert!(hand.daily_logs().is_err(), "a log that was changed is not passed over");
}

// Rule of the house: what nobody waits for is given back part by part to the last of it, so that no tap is held up.
#[test]
fn figures_that_nobody_waits_for_are_given_back_to_the_last() {
    let mut hand = Hand::default();
    hand.take("from-mail.txt".to_owned(), bundle());
    let mut working = hand.working(at());
    while working.step() {}
    assert_eq!(working.so_far(), (1, 1));
    while working.let_go() {}
    assert_eq!(working.so_far(), (0, 0));
}

// A law of the design: an archive opened in parts is the archive.
#[test]
fn an_archive_opened_in_parts_is_the_archive_taken_at_once() {
    let key = DeviceKey::from_seed(&[5; 32]);
    let random = crate::office::key_file::Randomness { seed: [5; 32], salt: [1; 16], nonce: [2; 12] };
    let mut first = Hand::default();
    let file = KeyFile::make("acorn basin cedar dolphin", random).unwrap();
    first.take_office_key(&file, &key, &Keyring::default()).unwrap();
    first.take("a.txt".to_owned(), bundle());
    let device = first.judged().next().unwrap().signer.unwrap();
    first.enrol("blue", device, Some(&key), at()).unwrap();
    let mut opening = ArchiveOpening::of(first.held().all());
    let (_, of) = opening.so_far();
    assert!(of > 0);
    let mut parts = 0;
    while opening.step() {
        parts += 1;
        assert!(parts < 1_000_000, "it comes to an end");
    }
    assert_eq!(opening.so_far(), (of, of));
    let (mut at_once, mut in_parts) = (Hand::default(), Hand::default());
    at_once.take_archive(first.held().all()).unwrap();
    in_parts.take_opened(opening).unwrap();
    let received = |hand: &Hand| hand.received().values().map(|judged| judged.outcome()).collect::<Vec<_>>();
    assert_eq!(received(&in_parts), [Outcome::Intact]);
    assert_eq!(received(&in_parts), received(&at_once));
    assert_eq!(in_parts.keyring, at_once.keyring);
    assert_eq!(in_parts.figures(at()).counted.carcasses.len(), 1);
}
