//! Merging journals is a union of entries; folding depends on the set of entries alone.
//! These are laws of the design, not of deer: no outside source is needed to state them.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::indexing_slicing, clippy::panic)]

use marrowbook::record::{
    Act, Answer, Body, Carcass, CustodyStep, DeviceId, Digest, ENTRY_SCHEMA, Entry, EntryId, Fold, Folding, Head,
    Journal, Key, Moment, PersonCode, Salt, Site, Subject, Superseded, Value, Versions, fold, fold_bodies, links,
};
use proptest::prelude::*;
use uuid::Uuid;

fn body(act: Act, minute: i64) -> Body {
    Body {
        schema: ENTRY_SCHEMA,
        act,
        typed_by: PersonCode::new("K7").unwrap(),
        at: Moment::from_unix(1_800_000_000 + minute * 60, -300).unwrap(),
        zone: "America/Toronto".to_owned(),
        since_start_ms: None,
        versions: Versions { protocol: 1, step: None, card: None },
    }
}

fn key(exam: u128, finding: &str, observer: &str) -> Key {
    Key {
        subject: Subject::Examination(Uuid::from_u128(exam)),
        finding: finding.into(),
        site: Site::NONE,
        observer: PersonCode::new(observer).unwrap(),
    }
}

/// One device's chain: each step answers one of three questions with one of three options, and
/// sometimes replaces or takes back what this device said last.
fn chain(device: u8, steps: &[(u8, u8, u8, i64)]) -> Vec<Entry> {
    let mut head = Head::start(DeviceId(Digest::of(&[&[device]])));
    let mut out: Vec<Entry> = Vec::new();
    let mut last_on = std::collections::BTreeMap::new();
    for (finding, option, what, minute) in steps {
        let name = ["body_state", "body_frozen", "species"][usize::from(finding % 3)];
        let code = ["whole", "part_eaten", "mostly_eaten"][usize::from(option % 3)];
        let place = (finding % 3, finding % 2);
        let before: Vec<_> = last_on.get(&place).copied().into_iter().collect();
        let act = match (what % 4, before.is_empty()) {
            (0, false) => Act::Withdraw { supersedes: before },
            (1, false) => Act::Answer {
                key: key(1 + u128::from(finding % 2), name, "K7"),
                answer: Answer::choice(code),
                supersedes: before,
            },
            (3, _) => Act::Answer {
                key: key(1 + u128::from(finding % 2), links::CARCASS, "K7"),
                answer: Answer::Seen { value: Value::Ref(Uuid::from_u128(50 + u128::from(option % 2))) },
                supersedes: vec![],
            },
            _ => Act::Answer {
                key: key(1 + u128::from(finding % 2), name, "K7"),
                answer: Answer::choice(code),
                supersedes: vec![],
            },
        };
        let entry = head.next(&body(act, *minute), Salt([device; 16])).unwrap();
        head = head.check(&entry).unwrap();
        last_on.insert(place, entry.id());
        out.push(entry);
    }
    out
}

fn journal(entries: &[Entry]) -> Journal {
    let mut all = Journal::new();
    for e in entries {
        all.add(e.clone()).unwrap();
    }
    all
}

fn steps() -> impl Strategy<Value = Vec<(u8, u8, u8, i64)>> {
    prop::collection::vec((0..6_u8, 0..3_u8, 0..4_u8, -500..500_i64), 0..14)
}

proptest! {
    #[test]
    fn merge_is_commutative_associative_and_idempotent(a in steps(), b in steps(), c in steps()) {
        let (a, b, c) = (journal(&chain(1, &a)), journal(&chain(2, &b)), journal(&chain(3, &c)));
        let union = |x: &Journal, y: &Journal| { let mut z = x.clone(); z.merge(y); z };
        prop_assert_eq!(union(&a, &b), union(&b, &a));
        prop_assert_eq!(union(&union(&a, &b), &c), union(&a, &union(&b, &c)));
        prop_assert_eq!(union(&a, &a), a.clone());
        prop_assert_eq!(union(&union(&a, &b), &b), union(&a, &b));
    }

    #[test]
    fn the_fold_ignores_the_order_of_files(a in steps(), b in steps(), seed in any::<u64>()) {
        let mut all = chain(1, &a);
        all.extend(chain(2, &b));
        let straight = fold(&journal(&all));
        let mut state = seed | 1;
        for i in (1..all.len()).rev() {
            state = state.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
            all.swap(i, usize::try_from(state >> 33).unwrap() % (i + 1));
        }
        prop_assert_eq!(straight, fold(&journal(&all)));
    }

    #[test]
    fn the_fold_ignores_clocks(a in steps(), shift in -400..400_i64) {
        let told = fold(&journal(&chain(1, &a)));
        let moved: Vec<_> = a.iter().enumerate().map(|(i, (f, o, w, m))| (*f, *o, *w, if i % 2 == 0 { m + shift } else { *m })).collect();
        let other = fold(&journal(&chain(1, &moved)));
        let answers = |f: &marrowbook::record::Fold| {
            f.adrift.values().chain(f.carcasses.values().flat_map(|c| c.examinations.values()))
                .map(|e| (e.id, e.sheet.answers().map(|(c, s, all)| (c.clone(), s, all.iter().map(|x| (x.id, x.answer.clone())).collect::<Vec<_>>())).collect::<Vec<_>>()))
                .collect::<Vec<_>>()
        };
        prop_assert_eq!(answers(&told), answers(&other));
    }
}

/// What an office writes beside the phones: joins, decisions, changes of hands, and all three taken back.
fn office(steps: &[(u8, u8, u8)], phones: &[Entry]) -> Vec<Entry> {
    let mut head = Head::start(DeviceId(Digest::of(&[b"office"])));
    let mut out: Vec<Entry> = Vec::new();
    let carcass = |n: u8| Uuid::from_u128(50 + u128::from(n % 3));
    for (what, one, other) in steps {
        let before = out.get(usize::from(*other)).or(phones.get(usize::from(*other))).map(Entry::id);
        let act = match what % 4 {
            0 => Act::Alias { carcasses: [carcass(*one), carcass(*other)] },
            1 => Act::Decide {
                carcass: carcass(*one),
                finding: ["body_state", "body_frozen"][usize::from(one % 2)].into(),
                site: Site::NONE,
                answer: Answer::choice("whole"),
                supersedes: before.into_iter().chain(phones.iter().take(usize::from(*one)).map(Entry::id)).collect(),
                reason: "seen again".to_owned(),
            },
            2 => Act::Custody {
                sample: format!("S{one}"),
                step: CustodyStep::Handed,
                from: None,
                to: PersonCode::new("K7").unwrap(),
                place: String::new(),
                seal: String::new(),
                seal_intact: Some(one % 2 == 0),
                condition: String::new(),
                note: String::new(),
            },
            _ => Act::Withdraw { supersedes: before.into_iter().collect() },
        };
        let entry = head.next(&body(act, i64::from(*one)), Salt([9; 16])).unwrap();
        head = head.check(&entry).unwrap();
        out.push(entry);
    }
    out
}

/// The fold in parts, of bodies as a page has read them.
fn in_parts(journal: &Journal) -> Fold {
    let (bodies, set_aside) = journal.bodies();
    let mut superseded = Superseded::default();
    for (_, body) in &bodies {
        superseded.note(body);
    }
    let mut folding = Folding::begin(superseded);
    for body in &bodies {
        folding.take(body);
    }
    let mut finishing = folding.finish();
    while finishing.step() {}
    Fold { set_aside, ..finishing.done() }
}

proptest! {
    #[test]
    fn the_fold_in_parts_is_the_fold(
        a in steps(),
        b in steps(),
        desk in prop::collection::vec((0..4_u8, 0..9_u8, 0..9_u8), 0..12),
        seed in any::<u64>(),
    ) {
        let mut all = chain(1, &a);
        all.extend(chain(2, &b));
        let office = office(&desk, &all);
        all.extend(office);
        let straight = fold(&journal(&all));
        let mut state = seed | 1;
        for i in (1..all.len()).rev() {
            state = state.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
            all.swap(i, usize::try_from(state >> 33).unwrap() % (i + 1));
        }
        prop_assert_eq!(straight, in_parts(&journal(&all)));
    }
}

fn two_phones() -> (Head, Head) {
    (Head::start(DeviceId(Digest::of(&[b"phone one"]))), Head::start(DeviceId(Digest::of(&[b"phone two"]))))
}

#[test]
fn a_correction_supersedes_and_two_voices_are_both_kept() {
    let (one, two) = two_phones();
    let first = one
        .next(
            &body(
                Act::Answer { key: key(1, "body_state", "K7"), answer: Answer::choice("whole"), supersedes: vec![] },
                0,
            ),
            Salt([0; 16]),
        )
        .unwrap();
    let second = Head::after(&first)
        .next(
            &body(
                Act::Answer {
                    key: key(1, "body_state", "K7"),
                    answer: Answer::choice("part_eaten"),
                    supersedes: vec![first.id()],
                },
                1,
            ),
            Salt([1; 16]),
        )
        .unwrap();
    let other = two
        .next(
            &body(
                Act::Answer {
                    key: key(1, "body_state", "B2"),
                    answer: Answer::choice("mostly_eaten"),
                    supersedes: vec![],
                },
                2,
            ),
            Salt([2; 16]),
        )
        .unwrap();
    let folded = fold(&journal(&[first, second, other]));
    let sheet = folded.sheet(Subject::Examination(Uuid::from_u128(1))).unwrap();
    let question = sheet.question("body_state", Site::NONE);
    assert_eq!(question.results(), [&Answer::choice("mostly_eaten"), &Answer::choice("part_eaten")]);
    assert!(question.is_split());
    assert_eq!(sheet.conflicts().count(), 0, "two observers are two keys, not one person against themselves");
    assert_eq!(sheet.history().len(), 3);
}

#[test]
fn the_same_key_answered_twice_without_seeing_is_a_conflict() {
    let (one, two) = two_phones();
    let say = |head: Head, code: &str| {
        head.next(
            &body(Act::Answer { key: key(1, "body_state", "K7"), answer: Answer::choice(code), supersedes: vec![] }, 0),
            Salt([0; 16]),
        )
        .unwrap()
    };
    let folded = fold(&journal(&[say(one, "whole"), say(two, "part_eaten")]));
    assert_eq!(folded.sheet(Subject::Examination(Uuid::from_u128(1))).unwrap().conflicts().count(), 1);
}

#[test]
fn taking_back_leaves_not_looked_and_the_history() {
    let (one, _) = two_phones();
    let first = one
        .next(
            &body(
                Act::Answer { key: key(1, "body_state", "K7"), answer: Answer::choice("whole"), supersedes: vec![] },
                0,
            ),
            Salt([0; 16]),
        )
        .unwrap();
    let back =
        Head::after(&first).next(&body(Act::Withdraw { supersedes: vec![first.id()] }, 1), Salt([1; 16])).unwrap();
    let folded = fold(&journal(&[first, back]));
    let sheet = folded.sheet(Subject::Examination(Uuid::from_u128(1))).unwrap();
    assert_eq!(sheet.answer("body_state").state(), "not_looked");
    assert!(!sheet.is_answered("body_state", Site::NONE));
    assert_eq!(sheet.history().len(), 1);
}

#[test]
fn an_alias_joins_carcasses_and_can_be_taken_back() {
    let (one, two) = two_phones();
    let of = |exam: u128, carcass: u128| Act::Answer {
        key: key(exam, links::CARCASS, "K7"),
        answer: Answer::Seen { value: Value::Ref(Uuid::from_u128(carcass)) },
        supersedes: vec![],
    };
    let a = one.next(&body(of(1, 50), 0), Salt([0; 16])).unwrap();
    let b = Head::after(&a).next(&body(of(2, 60), 0), Salt([0; 16])).unwrap();
    let alias = two
        .next(&body(Act::Alias { carcasses: [Uuid::from_u128(60), Uuid::from_u128(50)] }, 0), Salt([0; 16]))
        .unwrap();
    let joined = fold(&journal(&[a.clone(), b.clone(), alias.clone()]));
    assert_eq!(joined.carcasses.keys().copied().collect::<Vec<_>>(), [Uuid::from_u128(50)]);
    assert_eq!(joined.carcasses[&Uuid::from_u128(50)].examinations.len(), 2);
    let back =
        Head::after(&alias).next(&body(Act::Withdraw { supersedes: vec![alias.id()] }, 1), Salt([1; 16])).unwrap();
    assert_eq!(fold(&journal(&[a, b, alias, back])).carcasses.len(), 2);
}

#[test]
fn a_decision_settles_until_new_evidence_comes() {
    let (one, two) = two_phones();
    let carcass = Uuid::from_u128(50);
    let a = one
        .next(
            &body(
                Act::Answer {
                    key: key(1, links::CARCASS, "K7"),
                    answer: Answer::Seen { value: Value::Ref(carcass) },
                    supersedes: vec![],
                },
                0,
            ),
            Salt([0; 16]),
        )
        .unwrap();
    let b = Head::after(&a)
        .next(
            &body(
                Act::Answer { key: key(1, "quick_class", "K7"), answer: Answer::choice("fawn"), supersedes: vec![] },
                0,
            ),
            Salt([0; 16]),
        )
        .unwrap();
    let c = Head::after(&b)
        .next(
            &body(
                Act::Answer { key: key(1, "quick_class", "B2"), answer: Answer::choice("older"), supersedes: vec![] },
                0,
            ),
            Salt([0; 16]),
        )
        .unwrap();
    let decide = two
        .next(
            &body(
                Act::Decide {
                    carcass,
                    finding: "quick_class".into(),
                    site: Site::NONE,
                    answer: Answer::choice("fawn"),
                    supersedes: vec![b.id(), c.id()],
                    reason: "jaw shows milk teeth".to_owned(),
                },
                0,
            ),
            Salt([0; 16]),
        )
        .unwrap();
    let settled = fold(&journal(&[a.clone(), b.clone(), c.clone(), decide.clone()]));
    assert_eq!(settled.carcasses[&carcass].choice("quick_class").as_deref(), Some("fawn"));
    let late = Head::after(&c)
        .next(
            &body(
                Act::Answer { key: key(1, "quick_class", "D4"), answer: Answer::choice("older"), supersedes: vec![] },
                0,
            ),
            Salt([0; 16]),
        )
        .unwrap();
    let reopened = fold(&journal(&[a, b, c, decide, late]));
    assert!(reopened.carcasses[&carcass].question("quick_class", Site::NONE).is_split());
}

#[test]
fn a_withheld_body_keeps_the_chain_whole_and_a_changed_one_breaks_it() {
    let steps: Vec<(u8, u8, u8, i64)> = (0..6).map(|i| (i, i, 2, 0)).collect();
    let mut entries = chain(1, &steps);
    let start = Head::start(entries[0].header.device);
    assert!(marrowbook::record::verify_range(start, &entries).is_ok());
    entries[2] = entries[2].withhold();
    assert!(marrowbook::record::verify_range(start, &entries).is_ok());
    let missing: Vec<_> = entries.iter().enumerate().filter(|(i, _)| *i != 3).map(|(_, e)| e.clone()).collect();
    assert!(marrowbook::record::verify_range(start, &missing).is_err());
    if let marrowbook::record::Stored::Whole { text, .. } = &mut entries[4].stored {
        *text = text.replace("K7", "K8");
    }
    assert_eq!(marrowbook::record::verify_range(start, &entries), Err(marrowbook::record::ChainError::Body { seq: 5 }));
    let mut journal = Journal::new();
    assert!(journal.add(entries[4].clone()).is_err());
}

/// Acts of one device, folded.
fn folded(acts: Vec<Act>) -> Fold {
    let bodies: Vec<(EntryId, Body)> = (1_u64..).zip(acts).map(|(seq, act)| (entry(seq), body(act, 0))).collect();
    fold_bodies(&bodies.iter().collect::<Vec<_>>())
}

fn entry(seq: u64) -> EntryId {
    EntryId { device: DeviceId(Digest::of(&[&[9]])), seq }
}

/// A carcass with two answers on its species (entries 2 and 3), and these decisions: what each weighed, what it chose.
fn decided(decisions: Vec<(Vec<u64>, &str)>) -> Fold {
    let seen = |value| Answer::Seen { value };
    let said = |finding: &str, who: &str, answer| Act::Answer { key: key(1, finding, who), answer, supersedes: vec![] };
    let mut acts = vec![
        said(links::CARCASS, "K7", seen(Value::Ref(Uuid::from_u128(50)))),
        said("species", "K7", Answer::choice("white_tailed_deer")),
        said("species", "B2", Answer::choice("other_deer")),
    ];
    acts.extend(decisions.into_iter().map(|(weighed, chosen)| Act::Decide {
        carcass: Uuid::from_u128(50),
        finding: "species".into(),
        site: Site::NONE,
        answer: Answer::choice(chosen),
        supersedes: weighed.into_iter().map(entry).collect(),
        reason: "made to do harm".to_owned(),
    }));
    folded(acts)
}

/// Which of the two answers count.
fn counting(fold: &Fold) -> [bool; 2] {
    let carcass: &Carcass = &fold.carcasses[&Uuid::from_u128(50)];
    let sheet = &carcass.examinations[&Uuid::from_u128(1)].sheet;
    let all = sheet.question("species", Site::NONE).standing;
    [0, 1].map(|at| carcass.counts("species", Site::NONE, all[at]))
}

/// Enough that a call within a call for each of them overflows a stack of 8 MB, and that going through all of them for
/// each of them ends after everybody has gone home.
const MANY: u64 = 100_000;

#[test]
fn a_chain_of_decisions_made_to_do_harm_is_folded_to_its_end() {
    let deer = "white_tailed_deer";
    let chain = |first: Vec<u64>| {
        std::iter::once((first, deer)).chain((1..MANY).map(|n| (vec![n + 3], deer))).collect::<Vec<_>>()
    };
    let fold = decided(chain(vec![2, 3]));
    assert_eq!(counting(&fold), [true, false]);
    let carcass = &fold.carcasses[&Uuid::from_u128(50)];
    let standing = carcass.question("species", Site::NONE).standing;
    assert_eq!(standing.iter().map(|one| one.id).collect::<Vec<_>>(), [entry(MANY + 3)]);
    let resting = carcass.with_decisions("species", Site::NONE, &[entry(2)]);
    assert_eq!(resting.len(), usize::try_from(MANY).unwrap() + 1);
    let decisions = carcass.decisions("species", Site::NONE);
    let on: Vec<_> = decisions.iter().map(|(made, on)| (made.id, on.iter().copied().collect::<Vec<_>>())).collect();
    assert_eq!(on, [(entry(MANY + 3), vec![entry(2), entry(3)])]);
    // The last chose otherwise: then neither the chain nor what it chose counts.
    let mut other = chain(vec![2, 3]);
    other.last_mut().unwrap().1 = "other_deer";
    assert_eq!(counting(&decided(other)), [false, false]);
    // A ring has no last one.
    let ring = chain(vec![2, 3, MANY + 3]);
    assert_eq!(counting(&decided(ring)), [false, false]);
}

/// Each of two decisions weighs both of the two before: the ways from first to last double with each pair.
#[test]
fn decisions_that_weigh_each_other_twice_are_folded_to_their_end() {
    let mut all = vec![(vec![2, 3], "white_tailed_deer"), (vec![2, 3], "white_tailed_deer")];
    for pair in 1..1_000 {
        let before = vec![2 + 2 * pair, 3 + 2 * pair];
        all.extend([(before.clone(), "white_tailed_deer"), (before, "white_tailed_deer")]);
    }
    assert_eq!(counting(&decided(all.clone())), [true, false]);
    let last = vec![2002, 2003];
    all.push((last, "other_deer"));
    assert_eq!(counting(&decided(all)), [false, false]);
}

/// Carcasses joined one to the next, in an order that makes long ways, and the last to the first.
#[test]
fn a_ring_of_joins_made_to_do_harm_is_one_carcass() {
    let id = |n: u64| Uuid::from_u128(1_000 + u128::from(n));
    let mut acts: Vec<Act> = (0..MANY)
        .map(|n| Act::Answer {
            key: key(1_000_000 + u128::from(n), links::CARCASS, "K7"),
            answer: Answer::Seen { value: Value::Ref(id(n)) },
            supersedes: vec![],
        })
        .collect();
    let joins = (0..MANY).rev().map(|n| Act::Alias { carcasses: [id(n), id((n + 1) % MANY)] });
    acts.extend(joins);
    let fold = folded(acts);
    assert_eq!(fold.carcasses.len(), 1);
    let whole = &fold.carcasses[&id(0)];
    assert_eq!((whole.id, whole.joined.len(), whole.examinations.len()), (id(0), 100_000, 100_000));
}
