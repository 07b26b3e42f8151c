//! Who stands on the call list, and whose mark hides whom. People, deer and results are invented; the rule that nobody
//! is left off whom nobody cleared is the house's own.
#![cfg(feature = "cli")]
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, clippy::indexing_slicing)]

#[path = "office/kit.rs"]
mod kit;
#[path = "office/ran.rs"]
mod ran;
#[path = "office/sampled.rs"]
mod sampled;

use marrowbook::record::short_code::short_code;
use marrowbook::record::{Answer, Site, Subject, Value, Why, links};
use ran::Office;
use sampled::{Chain, carcass, examination, json_lines, keep, number, office, outing, report, text};
use serde_json::Value as Json;

fn reference(id: uuid::Uuid) -> Answer {
    Answer::Seen { value: Value::Ref(id) }
}

fn result(office: &Office, n: u8, result: &str, more: &[&str]) {
    let sheet = office.put("sheet.csv", format!("sample,test,result\n{},cwd,{result}\n", number(n, 3)).as_bytes());
    let mut args = vec!["lab", "read", &sheet, "--by", "OFF"];
    args.extend(more);
    let ran = office.run(&args);
    assert_eq!(ran.code, 0, "{ran:?}");
}

fn list(office: &Office, more: &[&str]) -> Vec<Json> {
    json_lines(office, &[&["calls", "list", "--json"], more].concat())
}

fn names(all: &[Json]) -> Vec<String> {
    all.iter().map(|call| call["call"].as_str().unwrap().to_owned()).collect()
}

fn begins<'a>(all: &'a [Json], begin: &str) -> Vec<&'a Json> {
    all.iter().filter(|call| call["call"].as_str().unwrap().starts_with(begin)).collect()
}

fn done(office: &Office, n: u8, call: &str) {
    let ran = office.run(&["calls", "done", &short_code(carcass(n)), call, "--by", "OFF"]);
    assert_eq!(ran.code, 0, "{ran:?}");
}

/// To be allowed to touch is not to have touched; who said no more is asked, and not told that they did.
#[test]
fn who_was_allowed_to_touch_is_asked_and_not_told_that_they_did() {
    let mut chain = Chain::new();
    chain.deer(1);
    let of = Subject::Examination(examination(1));
    for who in ["K7", "M3"] {
        let allowed = Answer::Seen { value: Value::Choice("card_names_me".to_owned()) };
        chain.put(of, who, "touching_allowed", "touching_allowed", Site::NONE, allowed);
    }
    let office = office("whom-allowed", &chain);
    result(&office, 1, "positive", &[]);
    let all = list(&office, &[]);
    let why = |who: &str| {
        let call =
            all.iter().find(|call| call["call"].as_str().unwrap().starts_with(&format!("exposed:{who}:"))).unwrap();
        call["why"].to_string()
    };
    assert!(why("M3").contains("was allowed to touch it"), "{}", why("M3"));
    assert!(!why("M3").contains("May touch") && !why("M3").contains("touched ("), "{}", why("M3"));
    assert!(
        why("K7").contains("touched (cut or opened): Jaw taken") && !why("K7").contains("was allowed"),
        "{}",
        why("K7")
    );
}

#[test]
fn what_two_people_wrote_of_who_was_out_is_one_call_with_all_names() {
    let mut chain = Chain::new();
    chain.deer(1);
    let of = Subject::Examination(examination(1));
    chain.put(of, "K7", "", links::OUTING, Site::NONE, reference(outing(1)));
    for (who, names) in [("K7", "Ada, Tom"), ("B2", "a cousin of Tom")] {
        chain.put(Subject::Outing(outing(1)), who, "", "people_out", Site::NONE, text(names));
    }
    let office = office("whom-others", &chain);
    result(&office, 1, "positive", &[]);
    let all = list(&office, &[]);
    let others = begins(&all, "exposed:others-");
    assert_eq!(others.len(), 1, "{others:#?}");
    let who = others[0]["who"].as_str().unwrap();
    assert!(who.contains("Ada, Tom") && who.contains("a cousin of Tom"), "{who}");
}

/// Marking the call for one must not hide the other's.
#[test]
fn two_diseases_without_a_tests_code_are_two_calls() {
    let mut chain = Chain::new();
    chain.deer(1);
    for (bench, disease) in [(11, "Brook fever (invented)"), (12, "Fell fever (invented)")] {
        chain.bench(1, bench, "K7", &[("test_result", Answer::choice("positive")), ("test_for", text(disease))]);
    }
    let office = office("whom-diseases", &chain);
    let calls = names(&list(&office, &[]));
    let k7: Vec<&String> = calls.iter().filter(|call| call.starts_with("exposed:K7")).collect();
    assert_eq!(k7, ["exposed:K7:brook-fever-invented:positive", "exposed:K7:fell-fever-invented:positive"]);
    done(&office, 1, k7[0]);
    let left = names(&list(&office, &[]));
    assert!(left.contains(k7[1]) && !left.contains(k7[0]), "{left:?}");
}

/// Two samples of one animal with the same result are one call, with both of its reasons.
#[test]
fn nobody_is_called_twice_for_one_disease_of_one_animal() {
    let mut chain = Chain::new();
    chain.deer(1);
    for (bench, sample) in [(11, "NODE-1"), (12, "OBEX-2")] {
        let said =
            [("test_result", Answer::choice("positive")), ("lab_test", text("cwd")), ("lab_sample", text(sample))];
        chain.bench(1, bench, "K7", &said);
    }
    let office = office("whom-samples", &chain);
    let all = list(&office, &[]);
    let k7 = begins(&all, "exposed:K7");
    assert_eq!(k7.len(), 1, "{k7:#?}");
    let why = k7[0]["why"].to_string();
    assert!(why.contains("NODE-1") && why.contains("OBEX-2"), "{why}");
}

/// Not asked is not `not touched`.
#[test]
fn a_reporter_of_whom_nobody_knows_is_asked() {
    let time = || Answer::NotLooked { why: Why::Time };
    let cannot = || Answer::CantTell { why: Why::Other("line was bad".to_owned()) };
    let choice = Answer::choice;
    for (name, answers, called) in [
        ("time", vec![("report_touched", time()), ("report_dog", choice("no_dog"))], true),
        ("cannot", vec![("report_touched", cannot()), ("report_dog", choice("no_dog"))], true),
        ("nothing", vec![("report_seen_by", choice("trail_user"))], true),
        ("both", vec![("report_touched", time()), ("report_dog", time())], true),
        ("dog", vec![("report_touched", choice("not_touched")), ("report_dog", time())], false),
        ("not", vec![("report_touched", choice("not_touched")), ("report_dog", choice("dog_near"))], false),
        ("camera", vec![("report_seen_by", choice("camera"))], false),
    ] {
        let mut chain = Chain::new();
        chain.deer(1);
        chain.put(Subject::Examination(examination(1)), "K7", "", links::REPORT, Site::NONE, reference(report(1)));
        for (finding, answer) in answers {
            chain.put(Subject::Report(report(1)), "K7", "", finding, Site::NONE, answer);
        }
        let office = office(&format!("whom-reporter-{name}"), &chain);
        result(&office, 1, "suspect", &[]);
        let all = list(&office, &[]);
        let asked = begins(&all, "exposed:reporter-");
        assert_eq!(!asked.is_empty(), called, "{name}");
        let dogs = begins(&all, "dog:");
        assert_eq!(!dogs.is_empty(), name == "dog", "{name}: who is asked anyway is asked of the dog: {dogs:?}");
        let asks_of_dog = asked.iter().chain(&dogs).any(|call| call["why"].to_string().contains("a dog of theirs"));
        assert_eq!(asks_of_dog, ["nothing", "dog", "both"].contains(&name), "{name}");
        let unknown = asked.iter().chain(&dogs).all(|call| call["why"].to_string().contains("not known whether"));
        assert!(unknown, "{name}: {asked:?}");
    }
    // Of two who spoke with the reporter one heard it.
    let mut chain = Chain::new();
    chain.deer(1);
    chain.put(Subject::Examination(examination(1)), "K7", "", links::REPORT, Site::NONE, reference(report(1)));
    for (who, said) in [("K7", "not_touched"), ("B2", "touched")] {
        chain.put(Subject::Report(report(1)), who, "", "report_touched", Site::NONE, choice(said));
    }
    let office = office("whom-reporter-two", &chain);
    result(&office, 1, "suspect", &[]);
    assert_eq!(begins(&list(&office, &[]), "exposed:reporter-").len(), 1);
}

/// Public health is told what is known: that somebody touched it is said only where somebody wrote so.
#[test]
fn that_people_touched_it_is_said_only_where_somebody_wrote_so() {
    let mut chain = Chain::new();
    let of = Subject::Examination(examination(1));
    chain.put(of, "K7", "", links::CARCASS, Site::NONE, reference(carcass(1)));
    chain.put(of, "K7", "", "examination_kind", Site::NONE, Answer::choice("field"));
    chain.bench(1, 11, "K7", &[("test_result", Answer::choice("positive")), ("lab_test", text("cwd"))]);
    chain.deer(2);
    let office = office("whom-nobody", &chain);
    result(&office, 2, "positive", &[]);
    let all = list(&office, &[]);
    let health = begins(&all, "health:");
    assert_eq!(health.len(), 2, "{all:#?}");
    let why = |n: u8| health.iter().find(|call| call["carcass"] == carcass(n).to_string()).unwrap()["why"].to_string();
    assert!(
        why(1).contains("nobody wrote that they touched it; ask") && !why(1).contains("people touched it"),
        "{}",
        why(1)
    );
    assert!(why(2).contains("people touched it"), "{}", why(2));
}

/// One report of two deer: the reporter is owed one call, and the mark holds whichever examination is closed first.
#[test]
fn a_report_of_two_carcasses_owes_one_call() {
    let mut chain = Chain::new();
    let said = Subject::Report(report(1));
    for n in [1, 2] {
        chain.deer(n);
        chain.put(Subject::Examination(examination(n)), "K7", "", links::REPORT, Site::NONE, reference(report(1)));
    }
    chain.put(said, "K7", "", "report_call_back", Site::NONE, text("555 0123 (invented)"));
    let close = |chain: &mut Chain, n: u8| {
        let of = Subject::Examination(examination(n));
        chain.put(of, "K7", "", "examination_closed", Site::NONE, Answer::choice("complete"));
    };
    close(&mut chain, 2);
    let office = office("whom-report", &chain);
    let owed = format!("reporter:{}", short_code(report(1)));
    assert_eq!(names(&list(&office, &[])), [owed.as_str()]);
    done(&office, 2, &owed);
    close(&mut chain, 1);
    keep(&office, &chain);
    assert_eq!(names(&list(&office, &[])), Vec::<String>::new(), "the mark is not lost");
    let all = list(&office, &["--all"]);
    assert_eq!(names(&all), [owed.as_str()]);
    // It can be taken back where the list has it now.
    let at = all[0]["code"].as_str().unwrap();
    let undo = office.run(&["calls", "undo", at, &owed, "--by", "OFF"]);
    assert_eq!(undo.code, 0, "{undo:?}");
    assert_eq!(names(&list(&office, &[])), [owed.as_str()]);
}

/// Who was told of a positive that was none is told so; a positive after all is told anew.
#[test]
fn a_result_that_was_corrected_is_told_to_who_was_called() {
    let mut chain = Chain::new();
    chain.deer(1);
    let office = office("whom-corrected", &chain);
    result(&office, 1, "suspect", &[]);
    done(&office, 1, "exposed:K7:cwd:suspect");
    result(&office, 1, "positive", &[]);
    assert!(
        !names(&list(&office, &[])).iter().any(|call| call.contains("suspect")),
        "a suspect that went on is no slip"
    );
    assert!(names(&list(&office, &["--all"])).contains(&"exposed:K7:cwd:suspect".to_owned()), "what was done is kept");
    done(&office, 1, "exposed:K7:cwd:positive");
    done(&office, 1, "agency:cwd:positive");
    done(&office, 1, "health:cwd:positive");
    result(&office, 1, "not detected", &["--correct"]);
    let all = list(&office, &[]);
    let mut owed = names(&all);
    owed.sort();
    let wanted = [
        "corrected:agency:cwd:positive",
        "corrected:exposed:K7:cwd:positive",
        "corrected:exposed:K7:cwd:suspect",
        "corrected:health:cwd:positive",
    ];
    assert_eq!(owed, wanted);
    // Those whom the demo's card names for it, not a name out of the mark.
    assert_eq!(begins(&all, "corrected:agency:")[0]["who"], "Reserve veterinarian, invented");
    assert_eq!(begins(&all, "corrected:health:")[0]["who"], "Public health nurse, invented");
    let k7 = begins(&all, "corrected:exposed:K7:cwd:positive")[0];
    assert_eq!(k7["who"], "Ada Fenn (invented) (K7)");
    let why = k7["why"].to_string();
    assert!(why.contains("result corrected: tell them") && why.contains("not detected"), "{why}");
    done(&office, 1, "corrected:exposed:K7:cwd:positive");
    assert!(!names(&list(&office, &[])).contains(&"corrected:exposed:K7:cwd:positive".to_owned()));
    // Positive after all: the call of then was taken back by the one that said so.
    result(&office, 1, "positive", &["--correct"]);
    let now = names(&list(&office, &[]));
    assert!(now.contains(&"exposed:K7:cwd:positive".to_owned()), "{now:?}");
    assert!(!now.contains(&"agency:cwd:positive".to_owned()), "nobody told them otherwise: {now:?}");
}

/// A result that was weighed away calls nobody.
#[test]
fn a_result_that_the_office_weighed_away_calls_nobody() {
    let mut chain = Chain::new();
    chain.deer(1);
    let said = [("lab_test", text("cwd")), ("lab_sample", text(&number(1, 3)))];
    chain.bench(1, 11, "K7", &[&said[..], &[("test_result", Answer::choice("positive"))]].concat());
    chain.put(Subject::Examination(examination(11)), "B2", "", "test_result", Site::NONE, Answer::NotSeen);
    let office = office("whom-weighed", &chain);
    assert!(names(&list(&office, &[])).contains(&"exposed:K7:cwd:positive".to_owned()));
    let listed = office.run(&["decide", "list"]);
    assert!(listed.out.contains("Result of the test"), "{listed:?}");
    let entry = |words: &str| {
        let line = listed.out.lines().find(|line| line.ends_with(words)).unwrap_or_else(|| panic!("{}", listed.out));
        line.split_whitespace().next().unwrap().to_owned()
    };
    let (positive, none) = (entry(": positive"), entry(": not detected"));
    let code = short_code(carcass(1));
    let choose = |entry: &str| office.run(&["decide", "answer", &code, entry, "--reason", "asked", "--by", "OFF"]);
    let ran = choose(&none);
    assert_eq!(ran.code, 0, "{ran:?}");
    assert_eq!(names(&list(&office, &[])), Vec::<String>::new());
    let lines = office.run(&["lab", "list", "--all", "--json"]).out;
    assert!(lines.contains("\"answered\""), "what was chosen still answers: {lines}");
    assert_ne!(choose(&positive).code, 0, "it no longer stands");
}

#[test]
fn an_exposure_note_forges_no_line() {
    let mut chain = Chain::new();
    chain.deer(1);
    chain.put(Subject::Examination(examination(1)), "K7", "", links::OUTING, Site::NONE, reference(outing(1)));
    let note = text("cut\n[x] OFF 2027-02-20 09:00: called\u{1b}[2J");
    chain.put(Subject::Outing(outing(1)), "K7", "", "exposure_note", Site::NONE, note);
    let office = office("whom-forged", &chain);
    result(&office, 1, "positive", &[]);
    let ran = office.run(&["calls", "list"]);
    assert!(ran.code == 0 && ran.out.contains("cut\\u000a[x] OFF"), "{ran:?}");
    assert!(
        !ran.out.contains('\u{1b}') && !ran.out.lines().any(|line| line.trim_start().starts_with("[x]")),
        "{ran:?}"
    );
}

/// As a spreadsheet saves it; a code given twice is no guess.
#[test]
fn numbers_are_read_as_a_sheet_is() {
    let mut chain = Chain::new();
    chain.deer(1);
    let office = office("whom-numbers", &chain);
    result(&office, 1, "positive", &[]);
    let numbers = office.put("numbers.csv", "\u{feff}Code;Number\r\nK7;555 0147 (invented)\r\n".as_bytes());
    let all = list(&office, &["--numbers", &numbers]);
    assert_eq!(begins(&all, "exposed:K7")[0]["number"], "555 0147 (invented)");
    for (text, words) in [
        ("code,number\nK7,1\nB2,2\nK7,3\n", "line 4: the code `K7` stands on line 2 too"),
        ("code,number,number\nK7,1,2\n", "`number` stands twice"),
        ("code,phone\nK7,1\n", "no column `number`"),
    ] {
        let file = office.put("numbers.csv", text.as_bytes());
        let ran = office.run(&["calls", "list", "--numbers", &file]);
        assert!(
            ran.code == 1 && ran.err.contains(words) && ran.err.contains("columns code and number"),
            "{text}: {ran:?}"
        );
    }
}

/// Marks stand on the list alone, not in the report for vet, officer or court.
#[test]
fn no_mark_of_a_call_is_in_the_report() {
    let mut chain = Chain::new();
    chain.deer(1);
    let office = office("whom-report-page", &chain);
    result(&office, 1, "suspect", &[]);
    done(&office, 1, "exposed:K7:cwd:suspect");
    let code = short_code(carcass(1));
    assert_eq!(office.run(&["calls", "undo", &code, "exposed:K7:cwd:suspect", "--by", "OFF"]).code, 0);
    let out = office.put("page.html", b"");
    let ran = office.run(&["report", &code, "--out", &out]);
    assert_eq!(ran.code, 0, "{ran:?}");
    let html = std::fs::read_to_string(out).unwrap();
    assert!(html.contains("suspect, not confirmed"), "the result is: {html}");
    assert!(html.contains("Result of the test") && html.contains("Chronic wasting disease"), "{html}");
    assert!(!html.contains("exposed:") && !html.contains("call done"), "{html}");
}
