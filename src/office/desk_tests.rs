//! What must not happen at the desk: a stranger's entry that counts, a keyring lost, a picture that is not the signed
//! one. Rules of the house.

use std::collections::BTreeSet;
use std::sync::Arc;

use super::archive::{Archive, ArchiveError, hex};
use super::carcass_report::carcass_report;
use super::chains::{Odd, clocks, forks_and_gaps, unheeded};
use super::files::HeldFiles;
use super::hand::{DeskError, Hand, Kept, RingFrom, Stranger};
use super::judging::Judging;
use super::key_file::{KeyFile, Randomness};
use super::keyring::Keyring;
use super::opening::{Judged, Outcome};
use super::own_chain::{LABEL, WriteError, Writing, append};
use super::test_chain::{self, TestChain, noon as at};
use super::to_decide::odd_words;
use super::zipped::Tree;
use crate::bundle::{DeviceKey, Extras, Fingerprint, Kind, canonical, open, seal};
use crate::record::short_code::short_code;
use crate::record::{
    Act, Answer, CustodyStep, Digest, EntryId, Journal, Key, Moment, PersonCode, Photo, Site, Stored, Subject, Value,
    fold, uuid_v7,
};
use uuid::Uuid;

const JPEG: &[u8] = b"\xff\xd8\xff\xe0 a deer";

fn key(seed: u8) -> DeviceKey {
    DeviceKey::from_seed(&[seed; 32])
}

fn person() -> PersonCode {
    PersonCode::new("K7").unwrap()
}

fn exam() -> Uuid {
    uuid_v7(1, [7; 10])
}

fn carcass() -> Uuid {
    uuid_v7(2, [8; 10])
}

fn seen(value: Value) -> Answer {
    Answer::Seen { value }
}

fn answer(finding: &str, answer: Answer) -> Act {
    test_chain::answer(exam(), finding, "K7", answer)
}

fn of_carcass() -> Act {
    answer("examined_carcass", seen(Value::Ref(carcass())))
}

fn photo(bytes: &[u8]) -> Photo {
    Photo { bytes: bytes.len() as u64, media: "image/jpeg".to_owned(), sha256: Digest::of(&[bytes]) }
}

fn id(key: &DeviceKey, seq: u64) -> EntryId {
    EntryId { device: key.public().id(), seq }
}

/// One phone's whole chain of these acts, as a signed file.
fn bundle(key: &DeviceKey, label: &str, acts: Vec<Act>, withheld: bool, extras: Extras) -> String {
    let mut chain = TestChain::of(key);
    for act in acts {
        chain.add(act, "K7", at());
    }
    if withheld {
        let last = chain.entries.pop().unwrap();
        chain.entries.push(last.withhold());
    }
    chain.bundle(key, label, extras)
}

fn plain(key: &DeviceKey, label: &str, extras: Extras) -> String {
    bundle(key, label, vec![of_carcass()], false, extras)
}

fn ring(keys: &[&DeviceKey]) -> Keyring {
    let mut ring = Keyring::default();
    for (n, key) in keys.iter().enumerate() {
        let device = key.public().id();
        // The fifth key is the office's own.
        let own = DeviceKey::from_seed(&[5; 32]).public().id();
        let name = if device == own { LABEL.to_owned() } else { format!("phone {n}") };
        ring.enrol(&name, Fingerprint::of(device), Some(device), at()).unwrap();
    }
    ring
}

fn tree(files: &[(&str, &[u8])]) -> Tree {
    files.iter().map(|(path, bytes)| ((*path).to_owned(), Arc::from(*bytes))).collect()
}

fn plain_ring(keys: &[&DeviceKey]) -> Tree {
    tree(&[("keyring.json", ring(keys).write().unwrap().as_bytes())])
}

fn signed_ring(ring: &Keyring, by: &DeviceKey) -> Vec<u8> {
    seal(Kind::Keyring, &canonical::to_vec(ring).unwrap(), by).unwrap().into_bytes()
}

fn office() -> (KeyFile, DeviceKey) {
    let random = Randomness { seed: [5; 32], salt: [1; 16], nonce: [2; 12] };
    (KeyFile::make("acorn basin cedar dolphin", random).unwrap(), key(5))
}

/// A hand with an archive of these phones, signed by the office.
fn with_office(keys: &[&DeviceKey]) -> Hand {
    let (file, office) = office();
    let mut hand = Hand::default();
    hand.take_archive(plain_ring(keys)).unwrap();
    hand.take_office_key(&file, &office, &Keyring::default()).unwrap();
    hand
}

#[test]
fn an_unknown_phone_carried_by_two_that_are_known_counts_in_nothing() {
    let (a, b, c) = (key(1), key(2), key(3));
    let inmost = plain(&c, "c", Extras::default());
    let middle = plain(&b, "b", Extras { carried: vec![inmost], ..Extras::default() });
    let outer = plain(&a, "a", Extras { carried: vec![middle], ..Extras::default() });
    let mut hand = Hand::default();
    hand.take_archive(plain_ring(&[&a, &b])).unwrap();
    hand.take("a.txt".to_owned(), outer.into_bytes());
    let archive = Archive::held(hand.held());
    let known = archive.keyring().unwrap();
    let own = super::own_chain::held(&archive, &known).unwrap().gathered.journal;
    let season = super::season::gather::gather(&archive, &known, None).unwrap().entries.journal;
    for journal in [hand.journal(true), own, season] {
        let of = |key: &DeviceKey| journal.of_device(key.public().id()).count();
        assert_eq!((of(&a), of(&b), of(&c)), (1, 1, 0));
    }
    assert_eq!(hand.journal(false).of_device(c.public().id()).count(), 1, "it is there to be looked at");
}

#[test]
fn a_key_file_loaded_beside_its_signed_ring_keeps_the_ring() {
    let (file, office) = office();
    let phone = key(1);
    let text = signed_ring(&ring(&[&phone]), &office);
    let held = HeldFiles::of(tree(&[("keyring.txt", &text)]));
    Archive::held(&held).take_office_key(&file, &office, &Keyring::default()).unwrap();
    assert_eq!(Archive::held(&held).keyring().unwrap(), ring(&[&phone]));
    // the desk says it before, and takes the phones up again with the key
    let mut hand = Hand::default();
    hand.take_archive(tree(&[("keyring.txt", &text)])).unwrap();
    assert_eq!(hand.ring_from, RingFrom::KeyMissing(Fingerprint::of(office.public().id())));
    hand.take_office_key(&file, &office, &Keyring::default()).unwrap();
    assert_eq!(hand.keyring, ring(&[&phone]));
    // signed by somebody else: left as it is
    let foreign = signed_ring(&ring(&[&phone]), &key(6));
    let held = HeldFiles::of(tree(&[("keyring.txt", &foreign)]));
    let refused = Archive::held(&held).take_office_key(&file, &office, &Keyring::default());
    assert!(matches!(refused, Err(ArchiveError::KeyringNotOurs { .. })), "{refused:?}");
    assert_eq!(held.get("keyring.txt").as_deref(), Some(foreign.as_slice()));
    assert_eq!(held.get("office-key.json"), None);
}

#[test]
fn an_archive_with_a_key_of_this_page_does_not_swallow_another_s_phones() {
    let (file, office) = office();
    let mut hand = Hand::default();
    hand.take_office_key(&file, &office, &Keyring::default()).unwrap();
    let before = hand.held().all();
    let refused = hand.take_archive(plain_ring(&[&key(1)]));
    assert!(matches!(refused, Err(DeskError::Apart(_))), "{refused:?}");
    assert_eq!(hand.held().all(), before);
    hand.take_archive(tree(&[("received/none.txt", b"x")])).unwrap();
    assert_eq!(hand.office_key(), Some(file), "an archive without key or ring takes them in");
}

#[test]
fn a_photo_is_found_by_its_bytes_and_never_by_its_name() {
    let phone = key(1);
    let wanted = photo(JPEG);
    let named = plain(&phone, "a", Extras { photos: vec![wanted.clone()], ..Extras::default() });
    let altered = format!("photos/{}.jpg", hex(wanted.sha256));
    let received = format!("received/{}.txt", hex(Digest::of(&[named.as_bytes()])));
    let files = |path: &str, bytes: &[u8]| {
        let mut hand = Hand::default();
        hand.take_archive(tree(&[(&received, named.as_bytes()), (path, bytes)])).unwrap();
        hand
    };
    let hand = files(&altered, b"\xff\xd8\xff\xe0 another deer");
    assert_eq!(hand.photo(wanted.sha256), None, "it is not the one that was signed");
    assert!(!hand.has(&wanted));
    let hand = files("photos/IMG_0001.jpg", JPEG);
    assert_eq!(hand.photo(wanted.sha256).as_deref(), Some(JPEG));
    assert!(hand.has(&wanted));
}

#[test]
fn a_plain_ring_does_not_take_the_place_of_the_office_s() {
    let mut hand = with_office(&[&key(1)]);
    let before = (hand.keyring.clone(), hand.ring_from);
    assert!(hand.take_keyring(ring(&[&key(2)]).write().unwrap().as_bytes()).is_err());
    assert_eq!((hand.keyring.clone(), hand.ring_from), before);
}

#[test]
fn picked_files_are_judged_by_the_archive_that_is_opened() {
    let phone = key(1);
    let text = plain(&phone, "a", Extras::default()).into_bytes();
    let mut hand = Hand::default();
    // looked at under a ring by itself, in an archive where it lies already
    let path = format!("received/{}.txt", hex(Digest::of(&[&text])));
    hand.take_archive(tree(&[(&path, &text)])).unwrap();
    hand.take_keyring(ring(&[&phone]).write().unwrap().as_bytes()).unwrap();
    hand.take("a.txt".to_owned(), text.clone());
    hand.take("cut.txt".to_owned(), text[..100].to_vec());
    assert_eq!(hand.count(super::opening::Outcome::Intact), 1);
    let mut other = plain_ring(&[]);
    other.insert(path, text.as_slice().into());
    hand.take_archive(other).unwrap();
    assert_eq!(hand.count(super::opening::Outcome::Intact), 0, "this archive's ring does not know the phone");
    assert_eq!(hand.files.iter().map(|file| file.kept).collect::<Vec<_>>(), [Kept::Before, Kept::Not]);
    // an archive in which it does not lie: picked again it is new there
    hand.take_archive(plain_ring(&[&phone])).unwrap();
    assert!(hand.files.iter().all(|file| file.kept == Kept::Not), "nothing is said to lie where it does not");
    hand.take("a.txt".to_owned(), text);
    assert_eq!(hand.files.last().map(|file| file.kept), Some(Kept::New));
    assert_eq!(hand.received().len(), 1);
}

fn card(serial: u64, by: &DeviceKey) -> Vec<u8> {
    let mut card: serde_json::Value = serde_json::from_str(include_str!("../../demo/card.json")).unwrap();
    card["serial"] = serial.into();
    super::card_made::sign(&card, by).unwrap().into_bytes()
}

#[test]
fn another_office_s_card_is_not_this_office_s_newest() {
    let mut hand = with_office(&[]);
    for (serial, by) in [(4, &key(5)), (9, &key(6))] {
        hand.archive().keep_card(&card(serial, by)).unwrap();
    }
    assert_eq!(hand.newest_card().map(|(card, _)| card.serial), Some(4));
    hand.archive().keep_card(&card(u64::MAX >> 11, &key(5))).unwrap();
    assert_eq!(hand.newest_card().map(|(card, _)| card.serial), Some(u64::MAX >> 11));
    assert_eq!(hand.take_archive(hand.held().all()).map_err(|error| error.to_string()), Ok(()));
}

#[test]
fn a_deletion_told_by_a_later_file_is_no_missing_photo() {
    let phone = key(1);
    let gone = photo(JPEG);
    let first = plain(&phone, "a", Extras { photos: vec![gone.clone()], ..Extras::default() });
    let later = vec![of_carcass(), answer("photo_deleted", seen(Value::Photo(gone)))];
    let later = bundle(&phone, "a", later, false, Extras::default());
    let mut hand = Hand::default();
    hand.take("first.txt".to_owned(), first.into_bytes());
    assert_eq!(hand.missing_photos().len(), 1);
    // even where another phone carries it
    let carrier = plain(&key(2), "b", Extras { carried: vec![later], ..Extras::default() });
    hand.take("later.txt".to_owned(), carrier.into_bytes());
    assert_eq!(hand.missing_photos().into_iter().collect::<Vec<_>>(), []);
}

#[test]
fn a_missing_photo_is_asked_of_the_phone_that_named_it() {
    let inner = plain(&key(1), "who took it", Extras { photos: vec![photo(JPEG)], ..Extras::default() });
    let outer = plain(&key(2), "who carries it", Extras { carried: vec![inner], ..Extras::default() });
    let mut hand = Hand::default();
    hand.take("a.txt".to_owned(), outer.into_bytes());
    assert_eq!(hand.missing_photos().into_values().collect::<Vec<_>>(), ["who took it"]);
}

/// The history's lines.
fn history(html: &str) -> Vec<&str> {
    html.split("class=\"history\">").nth(1).unwrap().split("<li>").skip(1).collect()
}

#[test]
fn answers_that_an_office_weighed_still_stand_in_the_report() {
    let phone = key(1);
    let acts = vec![
        of_carcass(),
        answer("species", Answer::choice("white_tailed_deer")),
        answer("species", Answer::choice("other_deer")),
    ];
    let crew = bundle(&phone, "a", acts, false, Extras::default());
    let mut hand = with_office(&[&phone, &key(5)]);
    hand.take("a.txt".to_owned(), crew.into_bytes());
    let decided = Act::Decide {
        carcass: carcass(),
        finding: "species".into(),
        site: Site::NONE,
        answer: Answer::choice("other_deer"),
        supersedes: vec![id(&phone, 2), id(&phone, 3)],
        reason: "tail".to_owned(),
    };
    hand.take(
        "office.txt".to_owned(),
        bundle(&key(5), "the office", vec![decided], false, Extras::default()).into_bytes(),
    );
    let html = carcass_report(&hand, carcass(), at(), None).unwrap();
    let lines = history(&html);
    assert!(!html.contains("<s>"), "nothing was replaced: {lines:?}");
    assert!(lines.iter().any(|line| line.contains("set aside by decision 4")), "{lines:?}");
    assert_eq!(html.matches("set aside by decision").count(), 1, "not the one that was chosen: {lines:?}");
}

fn number(text: &str) -> Act {
    let site = Site::item(1);
    let key = Key { subject: Subject::Examination(exam()), finding: "sample_number".into(), site, observer: person() };
    Act::Answer { key, answer: seen(Value::Text(text.into())), supersedes: vec![] }
}

fn hand_over(sample: &str) -> Act {
    Act::Custody {
        sample: sample.to_owned(),
        step: CustodyStep::Received,
        from: None,
        to: PersonCode::new("LAB").unwrap(),
        place: "Mill Road".to_owned(),
        seal: String::new(),
        seal_intact: None,
        condition: String::new(),
        note: String::new(),
    }
}

#[test]
fn the_report_s_history_has_changes_of_hands_and_counts_what_it_does_not_show() {
    let (phone, lab, strange) = (key(1), key(2), key(3));
    let acts = vec![of_carcass(), number("AB-1"), answer("remark", Answer::NotSeen)];
    let mut hand = with_office(&[&phone, &lab]);
    hand.take("a.txt".to_owned(), bundle(&phone, "a", acts, true, Extras::default()).into_bytes());
    let hands = vec![hand_over("ab 1"), hand_over("XY-9")];
    hand.take("lab.txt".to_owned(), bundle(&lab, "lab", hands, false, Extras::default()).into_bytes());
    hand.take("s.txt".to_owned(), plain(&strange, "strange phone", Extras::default()).into_bytes());
    let html = carcass_report(&hand, carcass(), at(), None).unwrap();
    let lines = history(&html);
    assert_eq!(lines.iter().filter(|line| line.contains("Mill Road")).count(), 1, "{lines:?}");
    assert!(!html.contains("Nothing is left out"));
    assert!(html.contains("1 entry whose text is withheld"), "{html}");
    assert!(html.contains("1 entry on this carcass by phones not enrolled"), "{html}");
    // both files that it rests on are named
    let files = html.split("class=\"files\">").nth(1).unwrap().split("</ul>").next().unwrap();
    assert_eq!(files.matches("<li>").count(), 2, "{files}");
}

#[test]
fn a_file_that_only_takes_an_answer_back_is_among_those_that_the_report_rests_on() {
    let (phone, second) = (key(1), key(2));
    let mut hand = with_office(&[&phone, &second]);
    let acts = vec![of_carcass(), answer("species", Answer::choice("other_deer"))];
    hand.take("a.txt".to_owned(), bundle(&phone, "a", acts, false, Extras::default()).into_bytes());
    let back = vec![Act::Withdraw { supersedes: vec![id(&phone, 2)] }];
    hand.take("b.txt".to_owned(), bundle(&second, "b", back, false, Extras::default()).into_bytes());
    let html = carcass_report(&hand, carcass(), at(), None).unwrap();
    let files = html.split("class=\"files\">").nth(1).unwrap().split("</ul>").next().unwrap();
    assert_eq!(files.matches("<li>").count(), 2, "{files}");
}

#[test]
fn the_report_says_by_whom_a_ring_is_signed_and_who_is_retired() {
    let phone = key(1);
    let mut hand = Hand::default();
    hand.take("a.txt".to_owned(), plain(&phone, "a", Extras::default()).into_bytes());
    let html = |hand: &Hand| carcass_report(hand, carcass(), at(), None).unwrap();
    let none = html(&hand);
    assert!(none.contains("no keyring") && !none.contains("is not signed"), "{none}");
    assert!(none.contains("no office key"), "{none}");
    hand.take_keyring(&signed_ring(&ring(&[&phone]), &key(6))).unwrap();
    let foreign = html(&hand);
    assert!(!foreign.contains("signed by the office key"), "{foreign}");
    assert!(foreign.contains(&Fingerprint::of(key(6).public().id()).to_string()), "{foreign}");
    let mut hand = with_office(&[&phone]);
    hand.take("a.txt".to_owned(), plain(&phone, "a", Extras::default()).into_bytes());
    let since = Moment::parse("2027-02-01T00:00:00-05:00").unwrap();
    hand.retire("phone 0", since, Some(&key(5)), since).unwrap();
    let retired = html(&hand);
    assert!(retired.contains("retired by the office on 2027-02-01"), "{retired}");
    assert!(retired.contains("phone 0"), "{retired}");
}

#[test]
fn a_retired_phone_is_told_from_a_stranger() {
    let (phone, strange) = (key(1), key(3));
    let mut hand = with_office(&[&phone]);
    hand.take("a.txt".to_owned(), plain(&phone, "a", Extras::default()).into_bytes());
    hand.take("s.txt".to_owned(), plain(&strange, "s", Extras::default()).into_bytes());
    let since = Moment::parse("2027-02-01T00:00:00-05:00").unwrap();
    hand.retire("phone 0", since, Some(&key(5)), since).unwrap();
    let all = hand.unknown();
    assert_eq!(all.keys().copied().collect::<BTreeSet<_>>(), [&phone, &strange].map(|key| key.public().id()).into());
    assert_eq!(all[&phone.public().id()].retired, Some(("phone 0".to_owned(), since)));
    assert_eq!(all[&strange.public().id()], Stranger { label: "s".to_owned(), retired: None });
}

#[test]
fn an_empty_file_is_not_taken_for_one_that_was_too_large_to_read() {
    let mut hand = Hand::default();
    hand.take_too_large("film.mov".to_owned());
    hand.take("empty.txt".to_owned(), Vec::new());
    hand.take("empty (1).txt".to_owned(), Vec::new());
    assert_eq!(hand.files.iter().map(|file| file.name.as_str()).collect::<Vec<_>>(), ["film.mov", "empty.txt"]);
}

#[test]
fn nothing_is_written_with_fewer_salts_than_entries() {
    let held = HeldFiles::default();
    let office = key(5);
    let writing = |salts| Writing { key: &office, person: person(), at: at(), id: [1; 10], salts };
    let acts = || vec![of_carcass(), answer("species", Answer::choice("other_deer"))];
    let write = |salts| append(&Archive::held(&held), &Journal::new(), acts(), &writing(salts));
    let refused = write(vec![[1; 16]]);
    assert!(matches!(refused, Err(WriteError::FewSalts { acts: 2, salts: 1 })), "{refused:?}");
    assert!(held.all().is_empty());
    write(vec![[1; 16], [2; 16]]).unwrap();
    assert_eq!(held.all().len(), 1);
}

// A law of the design: the archive worked out in parts is the archive. Held against the one-piece functions that the
// command line has.
#[test]
fn what_is_worked_out_in_parts_is_what_all_entries_come_to() {
    let (one, two, strange, mine) = (key(1), key(2), key(3), key(5));
    let acts = |n: u8| {
        let mut acts = vec![of_carcass(), answer("body_state", Answer::choice("whole")), hand_over("S1")];
        acts.push(Act::Withdraw { supersedes: vec![id(&one, u64::from(n))] });
        // An office's act of a device that decides nothing.
        acts.push(Act::Alias { carcasses: [carcass(), uuid_v7(2, [n; 10])] });
        acts
    };
    let carried = Extras { carried: vec![plain(&strange, "?", Extras::default())], ..Extras::default() };
    let mut rival = acts(2);
    rival.swap(1, 2);
    let files = [
        bundle(&one, "one", acts(1), true, Extras::default()),
        bundle(&one, "one", acts(1), false, Extras::default()),
        bundle(&one, "one, from an old copy", rival, false, Extras::default()),
        bundle(&two, "two", acts(3), false, carried),
        bundle(
            &mine,
            "office",
            vec![Act::Alias { carcasses: [carcass(), uuid_v7(2, [1; 10])] }],
            false,
            Extras::default(),
        ),
        bundle(&strange, "?", acts(4), false, Extras::default()),
    ];
    // Whole texts take the place of withheld ones in whatever order the files lie.
    for turned in 0..files.len() {
        let mut hand = with_office(&[&one, &two, &mine]);
        for file in files.iter().cycle().skip(turned).take(files.len()) {
            hand.take("of a phone".to_owned(), file.clone().into_bytes());
        }
        let figures = hand.figures(at());
        for (worked, counted) in [(&figures.counted, true), (&figures.looked, false)] {
            let journal = hand.journal(counted);
            let (bodies, _) = journal.bodies();
            assert_eq!(worked.bodies, bodies);
            assert_eq!(worked.folded, fold(&journal));
            let odd = forks_and_gaps(&journal).into_iter().chain(clocks(&bodies)).chain(unheeded(&bodies));
            assert_eq!(worked.odd, odd.collect::<Vec<_>>());
            assert!(worked.odd.iter().any(|odd| matches!(odd, Odd::Fork(_))), "{counted}");
            assert_eq!(worked.recomputed.forks, journal.forks());
            let withheld = journal.entries().filter(|entry| entry.stored == Stored::Withheld).count();
            assert_eq!(worked.withheld, withheld);
        }
        assert!(figures.looked.bodies.len() > figures.counted.bodies.len());
    }
}

// What one file carries may swell to so much in all and no more, whichever of it comes first.
#[test]
fn what_is_carried_is_bounded_together() {
    let carried = [2, 3].map(|seed| plain(&key(seed), "carried", Extras::default()));
    let sizes = carried.each_ref().map(|text| open(text.as_bytes(), Kind::Bundle).unwrap().payload.len());
    let whole = plain(&key(1), "carries", Extras { carried: carried.into(), ..Extras::default() });
    let outcomes = |left_bytes: usize| {
        let mut judging = Judging::within(whole.as_bytes(), left_bytes);
        while judging.step() {}
        judging.done(&Keyring::default()).carried.iter().map(Judged::outcome).collect::<Vec<_>>()
    };
    let (good, refused) = (Outcome::UnknownDevice, Outcome::Damaged);
    let [one, other] = sizes;
    assert_eq!(one, other);
    assert_eq!(outcomes(one + other), [good, good]);
    assert_eq!(outcomes(one + other - 1), [good, refused]);
    assert_eq!(outcomes(one - 1), [refused, refused]);
}

/// Picked only to look at files, and then the page's own key is made: its phones go along or stay out, as was chosen.
#[test]
fn a_picked_ring_goes_onto_the_archive_s_own_where_it_is_chosen() {
    let (file, office) = office();
    let phone = key(1);
    let text = plain(&phone, "phone", Extras::default());
    for take in [true, false] {
        let mut hand = Hand::default();
        assert_eq!(hand.picked_ring(), Keyring::default());
        hand.take_keyring(ring(&[&phone, &key(6)]).write().unwrap().as_bytes()).unwrap();
        hand.take("a.txt".into(), text.as_bytes().to_vec());
        assert_eq!(hand.journal(true).len(), 1);
        assert_eq!(hand.picked_ring(), ring(&[&phone, &key(6)]));
        let more = if take { hand.picked_ring() } else { Keyring::default() };
        hand.take_office_key(&file, &office, &more).unwrap();
        assert_eq!(hand.journal(true).len(), usize::from(take));
        assert_eq!(hand.keyring.devices().len(), if take { 2 } else { 0 });
        assert_eq!((hand.picked_ring(), hand.archive().keyring().unwrap()), (Keyring::default(), hand.keyring.clone()));
    }
    // One that does not fit beside the archive's own: nothing is changed, the key is not there.
    let mut hand = Hand::default();
    hand.take_archive(plain_ring(&[&key(2)])).unwrap();
    assert_eq!(hand.picked_ring(), Keyring::default(), "the archive's own was picked by nobody");
    hand.take_keyring(ring(&[&phone]).write().unwrap().as_bytes()).unwrap();
    let more = hand.picked_ring();
    let before = hand.held().all();
    let refused = hand.take_office_key(&file, &office, &more);
    assert!(refused.as_ref().is_err_and(|why| why.to_string().contains("phone 0")), "{refused:?}");
    assert_eq!((hand.held().all(), hand.office_key()), (before, None));
}

// Rule of the house: an office's key used on two machines at once shows, and what each machine said can be read.
#[test]
fn a_number_used_for_two_joins_says_which_animals_each_joined() {
    let mine = key(5);
    let pairs = [[carcass(), uuid_v7(2, [1; 10])], [carcass(), uuid_v7(2, [2; 10])]];
    let mut hand = with_office(&[&mine]);
    for pair in pairs {
        let file = bundle(&mine, "office", vec![Act::Alias { carcasses: pair }], false, Extras::default());
        hand.take("of the office".to_owned(), file.into_bytes());
    }
    let figures = hand.figures(at());
    let odd = figures.counted.odd.iter().find(|odd| matches!(odd, Odd::Fork(_))).unwrap();
    let (_, said) = odd_words(odd, &Keyring::default(), &figures.counted.bodies);
    assert_eq!(said.len(), 2, "{said:?}");
    for pair in pairs {
        let [one, other] = pair.map(short_code);
        let wanted = format!("{one} and {other} are one animal");
        assert!(said.iter().any(|line| line.contains(&wanted)), "{wanted}: {said:?}");
    }
}
