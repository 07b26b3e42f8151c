//! Which answers wait for a person, and which do not. Rules of the house.

use super::decide::{NoDecision, answer, open, open_by};
use super::test_chain::{self, TestChain, noon};
use crate::bundle::DeviceKey;
use crate::record::{Act, Answer, Carcass, EntryId, Fold, Site, Value, fold, uuid_v7};

/// One carcass of which these are the answers: visit, finding, who, answer.
fn told(answers: &[(u8, &str, &str, Answer)]) -> (Fold, Vec<EntryId>) {
    decided(answers, &[])
}

/// The same, once the office has chosen these of them, one after the other.
fn decided(answers: &[(u8, &str, &str, Answer)], chosen: &[usize]) -> (Fold, Vec<EntryId>) {
    let mut chain = TestChain::of(&DeviceKey::from_seed(&[3; 32]));
    let carcass = Answer::Seen { value: Value::Ref(uuid_v7(2, [8; 10])) };
    let visits = [1, 2].map(|visit| (visit, "examined_carcass", "K7", carcass.clone()));
    let mut ids = Vec::new();
    for (visit, finding, who, said) in visits.iter().chain(answers) {
        let act = test_chain::answer(uuid_v7(1, [*visit; 10]), finding, who, said.clone());
        ids.push(chain.add(act, who, noon()));
    }
    let ids = ids.split_off(2);
    for at in chosen {
        let act = answer(only(&fold(&chain.journal())), &ids[*at].to_string(), "photo").unwrap();
        chain.add(act, "OFF", noon());
    }
    (fold(&chain.journal()), ids)
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

/// Two tests of one animal each say what they say: neither is another answer to the other's question. The page knows
/// the phones' findings alone.
#[test]
fn two_tests_of_one_animal_and_two_calls_are_no_question() {
    fn as_in_a_page(code: &str) -> Option<&'static crate::record::FindingDef> {
        crate::record::FINDINGS.iter().flat_map(|group| group.iter()).find(|def| def.code == code)
    }
    let text = |text: &str| Answer::Seen { value: Value::Text(text.to_owned()) };
    let (folded, _) = told(&[
        (1, "test_result", "OFF", Answer::choice("positive")),
        (2, "test_result", "OFF", Answer::NotSeen),
        (1, "test_for", "OFF", text("Chronic wasting disease")),
        (2, "test_for", "OFF", text("Bovine tuberculosis")),
        (1, "lab_test", "OFF", text("cwd")),
        (2, "lab_test", "OFF", text("tb")),
        (1, "cementum_sample", "OFF", text("A")),
        (2, "cementum_sample", "OFF", text("B")),
        (1, "call_done", "OFF", text("collar")),
        (1, "call_done", "OFF", text("landowner")),
    ]);
    assert_eq!(names(&folded), Vec::<String>::new());
    let in_page: Vec<String> = open_by(only(&folded), as_in_a_page).into_iter().map(|one| one.finding).collect();
    assert_eq!(in_page, Vec::<String>::new());
    // Of one test two people may not say different things.
    let (folded, _) = told(&[
        (1, "test_result", "OFF", Answer::choice("positive")),
        (1, "test_result", "K7", Answer::NotSeen),
        (2, "test_result", "OFF", Answer::NotSeen),
    ]);
    assert_eq!(names(&folded), ["test_result"]);
}

/// A phone's result and a sheet's, of one sample by one test, in an examination each.
#[test]
fn two_results_of_one_sample_by_one_test_are_a_question() {
    let text = |text: &str| Answer::Seen { value: Value::Text(text.to_owned()) };
    let results = |sample: &str| {
        vec![
            (1, "test_result", "K7", Answer::choice("positive")),
            (2, "test_result", "OFF", Answer::NotSeen),
            (1, "lab_test", "K7", text("cwd")),
            (2, "lab_test", "OFF", text("cwd")),
            (1, "lab_sample", "K7", text("kd-1")),
            (2, "lab_sample", "OFF", text(sample)),
        ]
    };
    assert_eq!(names(&told(&results("KD 1")).0), ["test_result"]);
    assert_eq!(names(&told(&results("KD-2")).0), Vec::<String>::new(), "another sample");
    let (folded, ids) = decided(&results("KD 1"), &[1]);
    assert_eq!(names(&folded), Vec::<String>::new());
    assert_eq!(answer(only(&folded), &ids[0].to_string(), "photo"), Err(NoDecision::NoEntry(ids[0].to_string())));
}

/// Decisions on two visits' questions say different things of the two: neither opens the other's again.
#[test]
fn a_decision_on_one_visit_is_none_on_another() {
    let choice = Answer::choice;
    let (folded, _) = decided(
        &[
            (1, "body_frozen", "K7", choice("frozen_solid")),
            (1, "body_frozen", "B2", choice("part_frozen")),
            (2, "body_frozen", "K7", choice("not_frozen")),
            (2, "body_frozen", "B2", choice("part_frozen")),
        ],
        &[0, 2],
    );
    assert_eq!(names(&folded), Vec::<String>::new());
    let standing = only(&folded).question("body_frozen", Site::NONE).standing;
    let standing: Vec<&Answer> = standing.into_iter().map(|one| &one.answer).collect();
    assert_eq!(standing, [&choice("frozen_solid"), &choice("not_frozen")], "each visit's own stands");
}
