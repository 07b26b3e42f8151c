//! Fields of a chain of custody: reference `cause-and-time-of-death.md` 6.3 [design]; the cases are invented.

use super::*;
use crate::record::{Act, Answer, Body, DeviceId, Digest, ENTRY_SCHEMA, EntryId, FindingCode, Key, Subject, Versions};

const EXAM: Uuid = Uuid::from_u128(1);
const CARCASS: Uuid = Uuid::from_u128(2);

fn person(code: &str) -> PersonCode {
    PersonCode::new(code).unwrap()
}

fn body(act: Act, hour: u32) -> Body {
    Body {
        schema: ENTRY_SCHEMA,
        act,
        typed_by: person("K7"),
        at: Moment::parse(&format!("2027-02-14T{hour:02}:00:00-05:00")).unwrap(),
        zone: String::new(),
        since_start_ms: None,
        versions: Versions { protocol: 1, step: None, card: None },
    }
}

fn answer(finding: &str, site: Site, value: Value, hour: u32) -> Body {
    let key =
        Key { subject: Subject::Examination(EXAM), finding: FindingCode::from(finding), site, observer: person("K7") };
    body(Act::Answer { key, answer: Answer::Seen { value }, supersedes: vec![] }, hour)
}

fn hand(step: CustodyStep, from: &str, to: &str, seal: &str, hour: u32) -> Body {
    body(
        Act::Custody {
            sample: "abc-1".to_owned(),
            step,
            from: Some(person(from)),
            to: person(to),
            place: "Trail head".to_owned(),
            seal: seal.to_owned(),
            seal_intact: Some(true),
            condition: "frozen".to_owned(),
            note: String::new(),
        },
        hour,
    )
}

fn list(bodies: Vec<Body>) -> Vec<CustodyItem> {
    let device = DeviceId(Digest::of(&[b"phone"]));
    let all: Vec<(EntryId, Body)> = (0_u64..).zip(bodies).map(|(seq, body)| (EntryId { device, seq }, body)).collect();
    let fold = crate::record::fold_bodies(&all.iter().collect::<Vec<_>>());
    let carcass = &fold.carcasses[&CARCASS];
    custody_list(&fold, carcass)
}

fn whole() -> Vec<Body> {
    let one = Site::item(1);
    let place = Place {
        lat_e7: 450_000_001,
        lon_e7: -740_000_000,
        accuracy_m_95: Some(12),
        source: crate::record::PlaceSource::Device,
    };
    vec![
        answer(links::CARCASS, Site::NONE, Value::Ref(CARCASS), 9),
        answer("report_outcome", Site::NONE, Value::Choice("found".to_owned()), 9),
        answer("place", Site::NONE, Value::Place(place), 9),
        answer("jaw_taken", Site::NONE, Value::Choice("whole_jaw".to_owned()), 10),
        answer("sample_number", one, Value::Text("ABC-1".to_owned()), 10),
        answer("sample_sealed", one, Value::Choice("there".to_owned()), 11),
        answer("seal_number", one, Value::Text("S 44".to_owned()), 11),
        hand(CustodyStep::Handed, "K7", "B2", "S44", 14),
        hand(CustodyStep::Received, "B2", "LAB", "s44", 15),
    ]
}

#[test]
fn from_who_found_it_to_who_received_it() {
    let all = list(whole());
    let [jaw] = all.as_slice() else { panic!("{all:?}") };
    let steps: Vec<&str> = jaw.lines.iter().map(|l| l.step.code()).collect();
    assert_eq!(steps, ["found", "taken", "sealed", "handed", "received"]);
    let to: Vec<&str> = jaw.lines.iter().map(|l| l.to.as_str()).collect();
    assert_eq!(to, ["K7", "K7", "K7", "B2", "LAB"]);
    assert_eq!((jaw.number.as_str(), jaw.what.as_str(), jaw.seal.as_str()), ("ABC-1", "jaw", "S 44"));
    assert_eq!(jaw.lines[0].place, "45.0000001, -74.0000000 WGS 84, within 12 m");
    assert_eq!(jaw.gaps, []);
}

#[test]
fn each_gap_is_told() {
    let gap = |change: &dyn Fn(&mut Vec<Body>)| {
        let mut bodies = whole();
        change(&mut bodies);
        list(bodies)[0].gaps.clone()
    };
    assert_eq!(gap(&|b| drop(b.remove(8))), [CustodyGap::NotReceived]);
    assert_eq!(gap(&|b| drop(b.remove(7))), [CustodyGap::NotTheHolder], "B2 never had it");
    assert_eq!(gap(&|b| drop(b.remove(6))), [CustodyGap::NoSealNumber]);
    assert_eq!(gap(&|b| drop(b.remove(5))), [CustodyGap::NotSealed]);
    assert_eq!(gap(&|b| b[8] = hand(CustodyStep::Received, "B2", "LAB", "S45", 15)), [CustodyGap::OtherSeal]);
    let bare = |b: &mut Vec<Body>| {
        if let Act::Custody { place, seal_intact, .. } = &mut b[8].act {
            place.clear();
            *seal_intact = Some(false);
        }
    };
    assert_eq!(gap(&bare), [CustodyGap::SealBroken, CustodyGap::NotDescribed]);
    // Without a number nothing can be followed.
    let mut bodies = whole();
    bodies.remove(4);
    assert_eq!(list(bodies)[0].gaps, [CustodyGap::NoNumber, CustodyGap::NotReceived]);
}

/// Nothing leaves unlisted: what was counted and never described, organs, and what left before anybody wrote a number.
#[test]
fn what_bears_no_label_has_the_forms_number() {
    let mut bodies = whole();
    bodies.remove(4);
    bodies.push(answer("other_samples_count", Site::NONE, Value::Number(2), 10));
    bodies.push(answer("organs_taken", Site::NONE, Value::Choices(vec!["heart".to_owned()]), 10));
    let all = list(bodies);
    assert_eq!(all.iter().map(|item| item.item).collect::<Vec<_>>(), [1, 3, 4, 11]);
    for item in &all {
        assert_eq!(item.number, sample_number(EXAM, item.item));
        assert!(item.gaps.contains(&CustodyGap::NoNumber), "{item:?}");
    }
    // The form's number given where no label was written yet is still no label.
    let mut bodies = whole();
    bodies.remove(4);
    let mut given = answer("sample_number", Site::item(1), Value::Text("KDR-1".to_owned()), 10);
    given.versions.step = Some(UNLABELLED.to_owned());
    bodies.push(given);
    let [jaw] = list(bodies).try_into().unwrap();
    assert_eq!(jaw.number, "KDR-1");
    assert!(jaw.gaps.contains(&CustodyGap::NoNumber));
}

/// The same answer from a second person.
fn by_other(mut body: Body) -> Body {
    if let Act::Answer { key, .. } = &mut body.act {
        key.observer = person("B2");
    }
    body
}

#[test]
fn a_number_that_a_second_person_read_off_the_label_is_the_number() {
    let mut bodies = whole();
    bodies.remove(4);
    let mut given = answer("sample_number", Site::item(1), Value::Text("AAA-1".to_owned()), 10);
    given.versions.step = Some(UNLABELLED.to_owned());
    bodies.push(given);
    bodies.push(by_other(answer("sample_number", Site::item(1), Value::Text("ZZZ-9".to_owned()), 11)));
    let [jaw] = list(bodies).try_into().unwrap();
    assert_eq!(jaw.number, "ZZZ-9");
    assert!(!jaw.gaps.contains(&CustodyGap::NoNumber), "{jaw:?}");
}

#[test]
fn what_changed_hands_under_the_forms_number_is_found_under_the_printed_one() {
    let mut bodies = whole();
    let Act::Custody { sample, .. } = &mut bodies[7].act else { panic!("a change of hands") };
    *sample = sample_number(EXAM, 1);
    let [jaw] = list(bodies).try_into().unwrap();
    let [as_it_was] = list(whole()).try_into().unwrap();
    assert_eq!((jaw.lines, jaw.gaps), (as_it_was.lines, as_it_was.gaps));
}

#[test]
fn of_two_counts_the_larger_is_on_the_list() {
    for (mine, others) in [(1, 2), (2, 1)] {
        let mut bodies = whole();
        bodies.push(answer("other_samples_count", Site::NONE, Value::Number(mine), 10));
        bodies.push(by_other(answer("other_samples_count", Site::NONE, Value::Number(others), 10)));
        let items: Vec<u16> = list(bodies).iter().map(|item| item.item).collect();
        assert_eq!(items, [1, 3, 4]);
    }
}

#[test]
fn one_number_on_two_things_is_told_of_both() {
    let mut bodies = whole();
    bodies.push(answer("femur_taken", Site::NONE, Value::Choice("whole".to_owned()), 10));
    bodies.push(answer("sample_number", Site::item(2), Value::Text("abc 1".to_owned()), 10));
    let all = list(bodies);
    assert_eq!(all.len(), 2);
    assert!(all.iter().all(|item| item.gaps.contains(&CustodyGap::NumberTwice)), "{all:?}");
}

/// The same answer in place of the entry at this place.
fn instead(mut body: Body, of: u64) -> Body {
    let device = DeviceId(Digest::of(&[b"phone"]));
    if let Act::Answer { supersedes, .. } = &mut body.act {
        supersedes.push(EntryId { device, seq: of });
    }
    body
}

#[test]
fn a_thing_is_found_by_each_number_that_it_went_by() {
    let one = Site::item(1);
    let mut bodies = whole();
    // The label was read wrong; what changed hands before that was mended did so under the wrong number.
    bodies.push(instead(answer("sample_number", one, Value::Text("QR 7".to_owned()), 12), 4));
    bodies.push(by_other(answer("sample_number", one, Value::Text("QR-1".to_owned()), 12)));
    let [jaw] = list(bodies).try_into().unwrap();
    assert_eq!(jaw.number, "QR 7");
    assert_eq!(jaw.lines.iter().map(|line| line.to.as_str()).collect::<Vec<_>>(), ["K7", "K7", "K7", "B2", "LAB"]);
    let ours = sample_number(EXAM, 1);
    let ranks = ["qr-7", &ours, "abc 1", "QR1", "QR-8", ""].map(|number| jaw.rank_of(number));
    assert_eq!(ranks, [Some(0), Some(1), Some(2), Some(2), None, None]);
    assert!(jaw.is_called("ABC-1") && !jaw.is_called(" "));
}

/// A slip that was mended gives nobody another thing's chain of custody.
#[test]
fn what_bears_a_number_now_has_its_changes_of_hands() {
    let (one, two) = (Site::item(1), Site::item(2));
    let mut bodies = whole();
    bodies.push(instead(answer("sample_number", one, Value::Text("QR-7".to_owned()), 12), 4));
    bodies.push(answer("femur_taken", Site::NONE, Value::Choice("whole".to_owned()), 10));
    bodies.push(answer("sample_number", two, Value::Text("ABC-1".to_owned()), 12));
    let [jaw, femur] = list(bodies).try_into().unwrap();
    assert!(!jaw.lines.iter().any(|line| line.to == "LAB"), "{:?}", jaw.lines);
    assert!(femur.lines.iter().any(|line| line.to == "LAB"), "{:?}", femur.lines);
}
