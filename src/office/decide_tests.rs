//! Which answers wait for a person, and which do not. Rules of the house.

use super::decide::{NoDecision, answer, open};
use crate::bundle::DeviceKey;
use crate::record::{
    Act, Answer, Body, Carcass, ENTRY_SCHEMA, EntryId, Fold, Head, Journal, Key, Moment, PersonCode, Salt, Site,
    Subject, Value, Versions, fold, uuid_v7,
};

/// One carcass of which these are the answers: visit, finding, who, answer.
fn told(answers: &[(u8, &str, &str, Answer)]) -> (Fold, Vec<EntryId>) {
    let mut head = Head::start(DeviceKey::from_seed(&[3; 32]).public().id());
    let mut journal = Journal::new();
    let carcass = Answer::Seen { value: Value::Ref(uuid_v7(2, [8; 10])) };
    let visits = [1, 2].map(|visit| (visit, "examined_carcass", "K7", carcass.clone()));
    let mut ids = Vec::new();
    for (visit, finding, who, answer) in visits.iter().chain(answers) {
        let observer = PersonCode::new(who).unwrap();
        let subject = Subject::Examination(uuid_v7(1, [*visit; 10]));
        let key = Key { subject, finding: (*finding).into(), site: Site::NONE, observer: observer.clone() };
        let body = Body {
            schema: ENTRY_SCHEMA,
            act: Act::Answer { key, answer: answer.clone(), supersedes: vec![] },
            typed_by: observer,
            at: Moment::parse("2027-02-14T12:00:00-05:00").unwrap(),
            zone: String::new(),
            since_start_ms: None,
            versions: Versions { protocol: 1, step: None, card: None },
        };
        let entry = head.next(&body, Salt([1; 16])).unwrap();
        head = Head::after(&entry);
        ids.push(entry.id());
        journal.add(entry).unwrap();
    }
    (fold(&journal), ids.split_off(2))
}

fn only(folded: &Fold) -> &Carcass {
    folded.carcasses.values().next().unwrap()
}

fn names(folded: &Fold) -> Vec<String> {
    open(only(folded)).into_iter().map(|one| one.finding).collect()
}

#[test]
fn two_visits_may_differ_in_what_is_of_a_visit() {
    let choice = Answer::choice;
    let (folded, _) = told(&[
        (1, "examination_kind", "K7", choice("field")),
        (2, "examination_kind", "K7", choice("bench")),
        (1, "body_frozen", "K7", choice("frozen_solid")),
        (2, "body_frozen", "K7", choice("not_frozen")),
    ]);
    assert_eq!(names(&folded), Vec::<String>::new());
    // Of the animal they may not, and two people on one visit may not either; only their own answers are weighed then.
    let (folded, ids) = told(&[
        (1, "sex_called", "K7", choice("male")),
        (2, "sex_called", "K7", choice("female")),
        (1, "body_frozen", "K7", choice("frozen_solid")),
        (1, "body_frozen", "B2", choice("part_frozen")),
        (2, "body_frozen", "K7", choice("not_frozen")),
    ]);
    assert_eq!(names(&folded), ["body_frozen", "sex_called"]);
    let weighed = |entry: EntryId| match answer(only(&folded), &entry.to_string(), "photo") {
        Ok(Act::Decide { supersedes, .. }) => supersedes,
        other => panic!("{other:?}"),
    };
    assert_eq!(weighed(ids[2]), [ids[2], ids[3]]);
    assert_eq!(weighed(ids[1]), [ids[0], ids[1]]);
    assert_eq!(answer(only(&folded), &ids[4].to_string(), "photo"), Err(NoDecision::NotSplit));
}

#[test]
fn readings_that_are_all_kept_are_no_question() {
    let (folded, ids) =
        told(&[(1, "hind_foot_mm", "K7", Answer::number(400)), (1, "hind_foot_mm", "B2", Answer::number(410))]);
    assert_eq!(names(&folded), Vec::<String>::new());
    assert_eq!(answer(only(&folded), &ids[0].to_string(), "tape"), Err(NoDecision::NotSplit));
}
