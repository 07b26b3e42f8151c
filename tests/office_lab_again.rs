//! A sheet against what stands already: another's answer, another card, another disease. All figures are invented; the
//! rules are the project's own.
#![cfg(feature = "cli")]
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, clippy::indexing_slicing)]

#[path = "office/kit.rs"]
mod kit;
#[path = "office/ran.rs"]
mod ran;
#[path = "office/sampled.rs"]
mod sampled;

use marrowbook::record::short_code::short_code;
use marrowbook::record::{Answer, Bone, Site, Subject, Value, links};
use ran::{Office, Ran};
use sampled::{Chain, carcass, examination, number, office, received, text};
use serde_json::Value as Json;
use uuid::Uuid;

fn sheet(office: &Office, lines: &str, more: &[&str]) -> Ran {
    let file = office.put("sheet.csv", format!("sample,test,result,years,percent\n{lines}\n").as_bytes());
    let mut args = vec!["lab", "read", &file, "--by", "OFF"];
    args.extend(more);
    office.run(&args)
}

/// Positive for one disease, not detected for another, marrow beside them: three tests, no question.
#[test]
fn two_diseases_of_one_animal_are_no_answers_that_differ() {
    let mut chain = Chain::new();
    chain.deer(1);
    let office = office("again-diseases", &chain);
    let (femur, head) = (number(1, 2), number(1, 3));
    let ran = sheet(&office, &format!("{head},cwd,positive,,\n{head},tb,not detected,,\n{femur},marrow,,,37.4"), &[]);
    assert_eq!(ran.code, 0, "{ran:?}");
    let listed = office.run(&["decide", "list"]);
    assert!(listed.code == 0 && listed.out.is_empty(), "{listed:?}");
    let calls = office.run(&["calls", "list"]).out;
    assert!(calls.contains("exposed:K7:cwd:positive") && !calls.contains(":tb:"), "{calls}");
}

/// A phone's own count of the same sample: refused, then put beside it where a person asks, then settled.
#[test]
fn a_phones_answer_is_never_replaced_by_a_sheet() {
    let jaw = number(1, 1);
    let mut chain = Chain::new();
    chain.deer(1);
    chain.bench(1, 11, "K7", &[("cementum_years_count", Answer::number(4)), ("cementum_sample", text(&jaw))]);
    // Not counted on the other bench: that is no answer that could differ.
    let time = marrowbook::record::Why::Time;
    let late = [("cementum_years_count", Answer::NotLooked { why: time }), ("cementum_sample", text(&jaw))];
    chain.bench(1, 12, "B2", &late);
    let office = office("again-phone", &chain);
    let same = sheet(&office, &format!("{jaw},cementum,,4,"), &[]);
    assert!(same.code == 0 && same.out.contains("entered before, the same"), "{same:?}");
    let line = format!("{jaw},cementum,,5,");
    let ran = sheet(&office, &line, &[]);
    assert!(ran.code == 1 && ran.err.contains("a phone has `4 years` of this sample, entered by K7"), "{ran:?}");
    assert!(ran.err.contains("office decide"), "{}", ran.err);
    assert_eq!(received(&office).len(), 1, "nothing was written");
    let beside = sheet(&office, &line, &["--correct"]);
    assert!(
        beside.code == 0 && beside.out.contains("beside a phone's `4 years`, which is not corrected"),
        "{beside:?}"
    );
    let listed = office.run(&["decide", "list"]).out;
    let entry = listed.lines().find(|line| line.ends_with(": 5")).unwrap_or_else(|| panic!("{listed}"));
    let entry = entry.split_whitespace().next().unwrap();
    let code = short_code(carcass(1));
    let ran = office.run(&["decide", "answer", &code, entry, "--reason", "the laboratory's", "--by", "OFF"]);
    assert_eq!(ran.code, 0, "{ran:?}");
    let after = sheet(&office, &line, &[]);
    assert!(after.code == 0 && after.out.contains("nothing new"), "{after:?}");
    // A further sheet corrects the office's own, by its own figure.
    let other = format!("{jaw},cementum,,6,");
    let ran = sheet(&office, &other, &[]);
    assert!(ran.code == 1 && ran.err.contains("`5 years` was entered before by OFF"), "{ran:?}");
    let ran = sheet(&office, &other, &["--correct"]);
    assert!(ran.code == 0 && ran.out.contains("in place of 5 years"), "{ran:?}");
}

/// Sent for a test that the card no longer names for such a sample, its result still comes in; never sent, it does not.
#[test]
fn what_was_sent_is_entered_though_the_card_has_changed() {
    let mut chain = Chain::new();
    chain.deer(1);
    chain.deer(2);
    let office = office("again-card", &chain);
    let (sent, not) = (number(1, 3), number(2, 3));
    assert_eq!(office.run(&["lab", "send", "VETLAB", &sent, "--by", "OFF", "--test", "cwd"]).code, 0);
    let mut card: Json = serde_json::from_str(include_str!("../demo/card.json")).unwrap();
    card["serial"] = 8.into();
    card["laboratories"][1]["tests"][0]["samples"] = vec!["scat"].into();
    let card = office.put("card-8.json", card.to_string().as_bytes());
    assert_eq!(office.run(&["card", &card]).code, 0);
    let ran = sheet(&office, &format!("{sent},cwd,positive,,\n{not},cwd,positive,,"), &[]);
    assert!(ran.code == 1 && ran.err.contains(&format!("test `cwd` is not done on sample `{not}`")), "{ran:?}");
    assert!(!ran.err.contains(&format!("`{sent}`")), "{}", ran.err);
    let ran = sheet(&office, &format!("{sent},cwd,positive,,\n{not},cwd,positive,,"), &["--without", "3"]);
    assert!(ran.code == 0 && !ran.out.contains("never noted as sent"), "{ran:?}");
}

/// Two ids with one short code: five letters and a check letter name one id in some six million.
fn of_one_code() -> [Uuid; 2] {
    let mut known = std::collections::BTreeMap::new();
    for n in 0_u128.. {
        let id = Uuid::from_u128(n);
        if let Some(before) = known.insert(short_code(id), id) {
            return [before, id];
        }
    }
    unreachable!("there are fewer codes than ids")
}

/// A code or id is read in capitals as well; one that two carcasses have takes neither.
#[test]
fn labels_are_of_the_carcass_that_was_named() {
    let mut chain = Chain::new();
    chain.deer(1);
    chain.deer(2);
    let twins = of_one_code();
    for (n, id) in [(3, twins[0]), (4, twins[1])] {
        let of = Subject::Examination(examination(n));
        chain.put(of, "K7", "", links::CARCASS, Site::NONE, Answer::Seen { value: Value::Ref(id) });
        chain.put(of, "K7", "", "jaw_taken", Site::NONE, Answer::choice("whole_jaw"));
    }
    let office = office("again-labels", &chain);
    let out = office.put("labels.html", b"");
    let labels = |named: &str| office.run(&["labels", "--carcass", named, "--out", &out]);
    let page = || std::fs::read_to_string(&out).unwrap();
    for named in [carcass(1).to_string().to_uppercase(), short_code(carcass(1)).to_lowercase()] {
        std::fs::write(&out, "").unwrap();
        let ran = labels(&named);
        assert!(ran.code == 0, "{named}: {ran:?}");
        let html = page();
        assert!((1..=4).all(|item| html.contains(&number(1, item))), "{named}: {html}");
        assert!([2, 3, 4].iter().all(|n| !html.contains(&number(*n, 1))), "{named}: another's label");
    }
    std::fs::write(&out, "as before").unwrap();
    let both = labels(&short_code(twins[0]));
    assert!(both.code == 1 && both.err.contains("2 carcasses have the code"), "{both:?}");
    assert_eq!(page(), "as before", "no label of either was written");
    let one = labels(&twins[1].to_string());
    assert_eq!(one.code, 0, "{one:?}");
    assert!(page().contains(&number(4, 1)) && !page().contains(&number(3, 1)), "{}", page());
}

/// The office decided for a laboratory's positive; the sheet that says now that the sample was unsuitable takes the
/// laboratory's entry back, not the decision.
#[test]
fn what_was_decided_outlives_a_corrected_sheet_and_says_so() {
    let head = number(1, 3);
    let mut chain = Chain::new();
    chain.deer(1);
    let said = [("test_result", Answer::NotSeen), ("lab_test", text("cwd")), ("lab_sample", text(&head))];
    chain.bench(1, 11, "K7", &said);
    let office = office("again-decided", &chain);
    let code = short_code(carcass(1));
    let enter = |result: &str, more: &[&str]| sheet(&office, &format!("{head},cwd,{result},,"), more);
    let calls = || office.run(&["calls", "list"]).out;
    assert_eq!(enter("positive", &["--correct"]).code, 0);
    let listed = office.run(&["decide", "list"]).out;
    let entry = listed.lines().find(|line| line.ends_with(": positive")).unwrap_or_else(|| panic!("{listed}"));
    let entry = entry.split_whitespace().next().unwrap();
    let ran = office.run(&["decide", "answer", &code, entry, "--reason", "seen at the bench", "--by", "OFF"]);
    assert_eq!(ran.code, 0, "{ran:?}");
    assert!(calls().contains("exposed:K7:cwd:positive"));
    let corrected = enter("unsuitable", &["--correct"]);
    assert!(corrected.code == 0 && corrected.out.contains("in place of positive"), "{corrected:?}");
    assert!(corrected.out.contains("`positive` was decided by OFF") && corrected.out.contains("decide undo"));
    let left = calls();
    assert!(left.contains("exposed:K7:cwd:positive"), "who touched it is still called: {left}");
    assert!(left.contains("the result that it rests on was corrected"), "{left}");
    let made = left.split("(entry ").nth(1).unwrap().split(')').next().unwrap().to_owned();
    assert_ne!(office.run(&["decide", "undo", &code, entry, "--by", "OFF"]).code, 0, "that is no decision");
    let ran = office.run(&["decide", "undo", &code, &made, "--by", "OFF"]);
    assert_eq!(ran.code, 0, "{ran:?}");
    assert!(!calls().contains("exposed:K7"), "{}", calls());
}

/// What can be done where nothing is to be decided: the sheet says nothing of the animal, or every reading is kept.
#[test]
fn beside_a_phones_answer_it_is_said_what_the_office_can_do() {
    let (femur, head) = (number(1, 2), number(1, 3));
    let mut chain = Chain::new();
    chain.deer(1);
    let said = [("test_result", Answer::choice("positive")), ("lab_test", text("cwd")), ("lab_sample", text(&head))];
    chain.bench(1, 11, "K7", &said);
    let of = Subject::Examination(examination(12));
    chain.bench(1, 12, "K7", &[("lab_test", text("marrow")), ("lab_sample", text(&femur))]);
    chain.put(of, "K7", "", "marrow_lab_percent", Site::bone(Bone::Femur), Answer::number(300));
    let office = office("again-beside", &chain);
    for (line, words) in [
        (format!("{head},cwd,unsuitable,,"), "there is nothing to decide"),
        (format!("{head},cwd,not detected,,"), "by office decide answer"),
        (format!("{femur},marrow,,,37.4"), "both count"),
    ] {
        let ran = sheet(&office, &line, &[]);
        assert!(ran.code == 1 && ran.err.contains("No sheet corrects what a phone has"), "{line}: {ran:?}");
        assert!(ran.err.contains(words) && ran.err.contains("--correct enters this beside it"), "{line}: {ran:?}");
        assert!(!ran.err.contains("box"), "a terminal has no box: {}", ran.err);
    }
    let beside = sheet(&office, &format!("{head},cwd,unsuitable,,"), &["--correct"]);
    assert!(beside.code == 0 && beside.out.contains("which is not corrected"), "{beside:?}");
    assert!(office.run(&["calls", "list"]).out.contains("exposed:K7:cwd:positive"), "the phone's goes on counting");
}
