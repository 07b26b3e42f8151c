//! Who is named after a call was made, or by way of another number, another outing, another report, is called all the
//! same; a dog is no person. People, deer and results are invented; that nobody is left off whom nobody cleared is the
//! house's own rule.
#![cfg(feature = "cli")]
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, clippy::indexing_slicing)]

#[path = "office/kit.rs"]
mod kit;
#[path = "office/ran.rs"]
mod ran;
#[path = "office/sampled.rs"]
mod sampled;

use marrowbook::record::short_code::short_code;
use marrowbook::record::{Answer, Site, Subject, Value, links};
use ran::{Office, Ran};
use sampled::{Chain, carcass, examination, json_lines, keep, number, office, outing, report, text};
use serde_json::Value as Json;

fn reference(id: uuid::Uuid) -> Answer {
    Answer::Seen { value: Value::Ref(id) }
}

/// A deer whose outing names who was out.
fn with_outing(chain: &mut Chain, n: u8, out: u8, names: &str) {
    chain.put(Subject::Examination(examination(n)), "K7", "", links::OUTING, Site::NONE, reference(outing(out)));
    chain.put(Subject::Outing(outing(out)), "K7", "", "people_out", Site::NONE, text(names));
}

fn read(office: &Office, lines: &str, more: &[&str]) -> Ran {
    let sheet = office.put("sheet.csv", format!("sample,test,result,carcass\n{lines}\n").as_bytes());
    office.run(&[&["lab", "read", &sheet, "--by", "OFF"], more].concat())
}

fn positive(office: &Office, n: u8) {
    let ran = read(office, &format!("{},cwd,positive,", number(n, 3)), &[]);
    assert_eq!(ran.code, 0, "{ran:?}");
}

fn list(office: &Office) -> Vec<Json> {
    json_lines(office, &["calls", "list", "--json"])
}

fn names(all: &[Json]) -> Vec<&str> {
    let mut all: Vec<&str> = all.iter().map(|call| call["call"].as_str().unwrap()).collect();
    all.sort_unstable();
    all
}

fn call<'a>(all: &'a [Json], begin: &str) -> &'a Json {
    let found = all.iter().find(|call| call["call"].as_str().unwrap().starts_with(begin));
    found.unwrap_or_else(|| panic!("no {begin} in {:?}", names(all)))
}

/// Marks everything on the list as done.
fn call_all(office: &Office) {
    for one in list(office) {
        let (code, call) = (one["code"].as_str().unwrap(), one["call"].as_str().unwrap());
        let ran = office.run(&["calls", "done", code, call, "--by", "OFF"]);
        assert_eq!(ran.code, 0, "{call}: {ran:?}");
    }
    assert_eq!(names(&list(office)), Vec::<&str>::new());
}

/// One call is for all who were out: its mark holds for those who were named then.
#[test]
fn who_is_named_among_the_others_later_is_called() {
    let mut chain = Chain::new();
    chain.deer(1);
    with_outing(&mut chain, 1, 1, "Ada, Tom");
    let office = office("later-others", &chain);
    positive(&office, 1);
    call_all(&office);
    chain.put(Subject::Outing(outing(1)), "K7", "", "people_out", Site::NONE, text("a cousin of Tom"));
    keep(&office, &chain);
    let all = list(&office);
    let others = format!("exposed:others-{}:cwd:positive", short_code(outing(1)));
    assert_eq!(names(&all), [others.as_str(), "health:cwd:positive"], "K7 and the agency were told");
    let again = call(&all, "exposed:others-");
    assert!(again["who"].as_str().unwrap().contains("a cousin of Tom"), "{again}");
    assert!(again["why"].to_string().contains("CALLED BEFORE, by OFF"), "{again}");
    let health = call(&all, "health:")["why"].to_string();
    assert!(health.contains("a cousin of Tom") && health.contains("CALLED BEFORE"), "{health}");
    call_all(&office);
    // Taken back, it is owed again, and what was told before that is still known.
    let code = short_code(carcass(1));
    assert_eq!(office.run(&["calls", "undo", &code, &others, "--by", "OFF"]).code, 0);
    assert_eq!(names(&list(&office)), [others.as_str()]);
}

/// A second phone's bundle comes a week later; then a decision joins a carcass that somebody else touched.
#[test]
fn who_touched_it_by_a_later_bundle_or_a_later_decision_is_called() {
    let mut chain = Chain::new();
    chain.deer(1);
    let of = Subject::Examination(examination(2));
    chain.put(of, "D4", "", links::CARCASS, Site::NONE, reference(carcass(2)));
    chain.put(of, "D4", "rump_fat", "rump_fat", Site::NONE, Answer::NotSeen);
    with_outing(&mut chain, 2, 2, "Dora's brother");
    let office = office("later-bundle", &chain);
    positive(&office, 1);
    call_all(&office);
    let here = Subject::Examination(examination(1));
    chain.put(here, "B2", "femur_taken", "femur_taken", Site::NONE, Answer::choice("whole"));
    keep(&office, &chain);
    assert_eq!(names(&list(&office)), ["exposed:B2:cwd:positive", "health:cwd:positive"]);
    call_all(&office);
    let codes = [1, 2].map(|n| short_code(carcass(n)));
    assert_eq!(office.run(&["decide", "same", &codes[0], &codes[1], "--by", "OFF"]).code, 0);
    let all = list(&office);
    let others = format!("exposed:others-{}:cwd:positive", short_code(outing(2)));
    assert_eq!(names(&all), ["exposed:D4:cwd:positive", others.as_str(), "health:cwd:positive"]);
}

/// The number on a label was read wrong, given on under that, and mended.
#[test]
fn a_sample_is_found_by_each_number_that_it_went_by() {
    let mut chain = Chain::new();
    chain.deer(1);
    let (of, head) = (Subject::Examination(examination(1)), Site::item(3));
    let first = chain.instead(of, "B2", "sample_number", head, text("AB-1"), vec![]);
    chain.hand_over("AB 1", "K7", "D4");
    // B2 mends the slip, and the office chooses between B2's number and the one that K7 wrote.
    chain.instead(of, "B2", "sample_number", head, text("QR-31"), vec![first]);
    let office = office("later-numbers", &chain);
    let listed = office.run(&["decide", "list"]).out;
    let entry = listed.lines().find(|line| line.ends_with(": QR-31")).unwrap_or_else(|| panic!("{listed}"));
    let entry = entry.split_whitespace().next().unwrap();
    let code = short_code(carcass(1));
    let ran = office.run(&["decide", "answer", &code, entry, "--reason", "photo of the label", "--by", "OFF"]);
    assert_eq!(ran.code, 0, "{ran:?}");
    let lines = json_lines(&office, &["lab", "list", "--all", "--json"]);
    let of_head: Vec<&Json> = lines.iter().filter(|line| line["number"] == "QR-31").collect();
    assert!(!of_head.is_empty() && of_head.iter().all(|line| line["holder"] == "D4"), "{lines:#?}");
    // The laboratory went by the number that it was given.
    let ran = read(&office, "AB-1,cwd,positive,", &[]);
    assert!(ran.code == 0 && ran.out.contains("the label of this sample reads QR-31"), "{ran:?}");
    for same in ["QR-31", "ab1", &number(1, 3)] {
        let ran = read(&office, &format!("{same},cwd,positive,"), &[]);
        assert!(ran.code == 0 && ran.out.contains("entered before, the same"), "{same}: {ran:?}");
    }
    let twice = read(&office, "AB-1,tb,pending,\nQR-31,tb,pending,", &[]);
    assert!(twice.code == 1 && twice.err.contains("it repeats line 2"), "{twice:?}");
    let all = list(&office);
    assert!(call(&all, "exposed:D4")["why"].to_string().contains("had samples: QR-31"), "{all:#?}");
    let sent = office.run(&["lab", "send", "VETLAB", "AB-1", "--test", "tb", "--by", "OFF"]);
    assert_eq!(sent.code, 0, "{sent:?}");
}

/// Over two animals nobody guesses; on one the label goes before what was mended, and it is said.
#[test]
fn a_number_that_two_samples_had_is_told_and_not_guessed() {
    let mut chain = Chain::new();
    for n in [1, 2] {
        let of = Subject::Examination(examination(n));
        chain.put(of, "K7", "", links::CARCASS, Site::NONE, reference(carcass(n)));
        chain.put(of, "K7", "sample_what", "sample_what", Site::item(3), Answer::choice("head_part"));
    }
    let (one, two) = (Subject::Examination(examination(1)), Subject::Examination(examination(2)));
    let slip = chain.instead(one, "K7", "sample_number", Site::item(3), text("AB-1"), vec![]);
    chain.instead(one, "K7", "sample_number", Site::item(3), text("QR-31"), vec![slip]);
    chain.put(two, "K7", "sample_number", "sample_number", Site::item(3), text("AB-1"));
    // On deer 1 a second head part bears what the first once bore by a slip.
    chain.put(one, "K7", "sample_what", "sample_what", Site::item(4), Answer::choice("head_part"));
    let slip = chain.instead(one, "K7", "sample_number", Site::item(3), text("CD-2"), vec![]);
    chain.instead(one, "K7", "sample_number", Site::item(3), text("QR-31"), vec![slip]);
    chain.put(one, "K7", "sample_number", "sample_number", Site::item(4), text("CD-2"));
    let office = office("later-shared", &chain);
    let codes = [1, 2].map(|n| short_code(carcass(n)));
    let ran = read(&office, "AB-1,cwd,positive,", &[]);
    assert!(ran.code == 1 && ran.err.contains("more than one sample has or had the number `AB-1`"), "{ran:?}");
    assert!(codes.iter().all(|code| ran.err.contains(code.as_str())) && ran.err.contains("column carcass"), "{ran:?}");
    let sent = office.run(&["lab", "send", "VETLAB", "AB-1", "--by", "OFF"]);
    assert!(sent.code == 1 && sent.err.contains("QR-31"), "{sent:?}");
    let named = read(&office, &format!("AB-1,cwd,positive,{}", codes[1]), &[]);
    assert!(named.code == 0 && named.out.contains(&format!("AB-1 of {}", codes[1])), "{named:?}");
    let ran = read(&office, "CD-2,cwd,suspect,", &[]);
    assert!(ran.code == 0 && ran.out.contains("sample QR-31 went by this number"), "{ran:?}");
    let lines = json_lines(&office, &["lab", "list", "--all", "--json"]);
    let state = |number: &str| {
        let of_cwd = |line: &&Json| line["number"] == number && line["test"] == "cwd";
        lines.iter().find(of_cwd).unwrap_or_else(|| panic!("{number}"))["state"].clone()
    };
    assert_eq!([state("AB-1"), state("CD-2"), state("QR-31")], ["answered", "answered", "not_sent"]);
}

/// Nobody asks a dog for its gloves, and a dog is not `people touched it`.
#[test]
fn a_dog_is_its_owners_matter_and_no_person() {
    let mut chain = Chain::new();
    chain.deer(1);
    let of = Subject::Examination(examination(2));
    chain.put(of, "K7", "", links::CARCASS, Site::NONE, reference(carcass(2)));
    chain.put(of, "K7", "", links::REPORT, Site::NONE, reference(report(1)));
    let said = Subject::Report(report(1));
    chain.put(said, "K7", "", "report_touched", Site::NONE, Answer::choice("not_touched"));
    chain.put(said, "K7", "", "report_dog", Site::NONE, Answer::choice("dog_touched"));
    chain.put(said, "K7", "", "report_call_back", Site::NONE, text("555 0123 (invented)"));
    chain.bench(2, 11, "OFF", &[("test_result", Answer::choice("positive")), ("lab_test", text("cwd"))]);
    let office = office("later-dog", &chain);
    let all = list(&office);
    assert!(!names(&all).iter().any(|name| name.starts_with("exposed:reporter")), "{:?}", names(&all));
    let dog = call(&all, "dog:");
    let why = dog["why"].to_string();
    assert!(why.contains("their dog touched the carcass") && why.contains("POSITIVE"), "{why}");
    assert!(!why.to_lowercase().contains("splash") && !why.contains("gloves"), "{why}");
    assert_eq!(
        (&dog["who"], &dog["number"]),
        (&"who reported it, for their dog".into(), &"555 0123 (invented)".into())
    );
    let health = call(&all, "health:")["why"].to_string();
    assert!(!health.contains("their dog") && !health.contains("people touched it"), "{health}");
    assert!(call(&all, "agency:")["why"].to_string().contains("a dog touched it"), "{all:#?}");
    let name = dog["call"].as_str().unwrap();
    assert_eq!(office.run(&["calls", "done", &short_code(carcass(2)), name, "--by", "OFF"]).code, 0);
    assert!(!names(&list(&office)).contains(&name));
}

/// Two who examined one deer each named their own outing and their own report.
#[test]
fn both_outings_and_both_reports_of_one_examination_are_asked() {
    let mut chain = Chain::new();
    chain.deer(1);
    let of = Subject::Examination(examination(1));
    for (who, n) in [("K7", 1), ("B2", 2)] {
        chain.put(of, who, "", links::OUTING, Site::NONE, reference(outing(n)));
        chain.put(of, who, "", links::REPORT, Site::NONE, reference(report(n)));
        chain.put(Subject::Outing(outing(n)), who, "", "people_out", Site::NONE, text("a guest"));
        chain.put(Subject::Report(report(n)), who, "", "report_touched", Site::NONE, Answer::choice("touched"));
        chain.put(Subject::Report(report(n)), who, "", "report_call_back", Site::NONE, text("555 (invented)"));
    }
    chain.put(of, "K7", "", "examination_closed", Site::NONE, Answer::choice("complete"));
    let office = office("later-two", &chain);
    positive(&office, 1);
    let all = list(&office);
    for n in [1, 2] {
        call(&all, &format!("exposed:others-{}", short_code(outing(n))));
        call(&all, &format!("exposed:reporter-{}", short_code(report(n))));
        call(&all, &format!("reporter:{}", short_code(report(n))));
    }
}

/// Who held while another wrote is named nowhere: where more were out than wrote, somebody has to find out who.
#[test]
fn a_crew_larger_than_those_who_wrote_is_asked() {
    for (count, asked) in [(Some(3), true), (Some(1), false), (None, true)] {
        let mut chain = Chain::new();
        chain.deer(1);
        let of = Subject::Examination(examination(1));
        chain.put(of, "K7", "", links::OUTING, Site::NONE, reference(outing(1)));
        chain.put(Subject::Outing(outing(1)), "K7", "", "contact_told", Site::NONE, Answer::choice("there"));
        if let Some(count) = count {
            chain.put(Subject::Outing(outing(1)), "K7", "", "crew_count", Site::NONE, Answer::number(count));
        }
        let office = office(&format!("later-count-{count:?}"), &chain);
        positive(&office, 1);
        let all = list(&office);
        let others: Vec<&Json> =
            all.iter().filter(|call| call["call"].as_str().unwrap().starts_with("exposed:others")).collect();
        assert_eq!(!others.is_empty(), asked, "{count:?}: {:?}", names(&all));
        assert!(others.iter().all(|call| call["why"].to_string().contains("ask the crew")), "{others:?}");
    }
}

/// A result that names no carcass calls nobody who touched it: that is said until it does.
#[test]
fn a_result_of_no_carcass_is_on_the_list() {
    let mut chain = Chain::new();
    chain.deer(1);
    let of = Subject::Examination(examination(11));
    chain.put(of, "B2", "", "test_result", Site::NONE, Answer::choice("positive"));
    chain.put(of, "B2", "", "lab_test", Site::NONE, text("cwd"));
    let office = office("later-adrift", &chain);
    let all = list(&office);
    assert!(call(&all, "whose:cwd:positive")["why"].to_string().contains("names no carcass"), "{all:#?}");
    chain.put(of, "B2", "", links::CARCASS, Site::NONE, reference(carcass(1)));
    keep(&office, &chain);
    let all = list(&office);
    assert!(
        names(&all).contains(&"exposed:K7:cwd:positive") && !names(&all).iter().any(|name| name.starts_with("whose"))
    );
}

/// Only the office marks a call: what a phone says of it hides nobody.
#[test]
fn a_mark_that_the_office_did_not_make_hides_nobody() {
    let mut chain = Chain::new();
    chain.deer(1);
    chain.bench(1, 11, "K7", &[("call_done", text("exposed:K7:cwd:positive"))]);
    let office = office("later-mark", &chain);
    positive(&office, 1);
    assert!(names(&list(&office)).contains(&"exposed:K7:cwd:positive"));
    let listed = office.run(&["decide", "list"]).out;
    assert!(listed.contains("blue phone: 1 entry in it is a decision"), "{listed}");
}

/// A laboratory that a person's code is taken for is no reason to leave out who wrote under it.
#[test]
fn who_wrote_under_a_laboratorys_code_is_called() {
    let mut chain = Chain::new();
    chain.deer(1);
    let of = Subject::Examination(examination(1));
    chain.put(of, "VETLAB", "femur_taken", "femur_taken", Site::NONE, Answer::choice("whole"));
    chain.hand_over(&number(1, 3), "K7", "ROOT");
    let office = office("later-code", &chain);
    positive(&office, 1);
    let all = list(&office);
    assert!(names(&all).contains(&"exposed:VETLAB:cwd:positive"), "{:?}", names(&all));
    assert!(
        !names(&all).iter().any(|name| name.starts_with("exposed:ROOT")),
        "a laboratory's people are its own matter"
    );
}

/// Who was called about an animal was called about that one, however the two were named while they were taken for one.
/// The rule is the house's own, no outside source.
#[test]
fn marks_and_results_go_with_their_animal_when_two_are_taken_apart() {
    let mut chain = Chain::new();
    for n in [1, 2] {
        chain.deer(n);
        let of = Subject::Examination(examination(n));
        chain.put(of, "K7", "", links::REPORT, Site::NONE, reference(report(n)));
        chain.put(of, "K7", "", "examination_closed", Site::NONE, Answer::choice("there"));
        let told = Subject::Report(report(n));
        chain.put(told, "K7", "", "report_call_back", Site::NONE, text(&format!("555-010{n}")));
        chain.put(told, "K7", "", "report_touched", Site::NONE, Answer::choice("not_touched"));
    }
    let office = office("whom-apart", &chain);
    let [one, other] = [1, 2].map(|n| carcass(n).to_string());
    let run = |args: &[&str]| {
        let ran = office.run(args);
        assert_eq!(ran.code, 0, "{ran:?}");
    };
    run(&["decide", "same", &one, &other, "--by", "OFF"]);
    // The sample is of the second; the two go by the name of the first.
    let sheet = office.put("sheet.csv", format!("sample,test,result\n{},cwd,positive\n", number(2, 3)).as_bytes());
    run(&["lab", "read", &sheet, "--by", "OFF"]);
    let name = |call: &Json| call["call"].as_str().unwrap().to_owned();
    let open = || json_lines(&office, &["calls", "list", "--json"]);
    let of = |all: &[Json], n: u8| -> Vec<String> {
        all.iter().filter(|call| call["carcass"] == carcass(n).to_string()).map(name).collect()
    };
    let joined = open();
    assert!(of(&joined, 2).is_empty() && joined.len() > 3, "{joined:?}");
    let called = [format!("reporter:{}", short_code(report(2))), "exposed:K7:cwd:positive".to_owned()];
    for call in &called {
        run(&["calls", "done", &one, call, "--by", "OFF"]);
    }
    run(&["decide", "apart", &one, &other, "--by", "OFF"]);
    let parted = open();
    assert_eq!(of(&parted, 1), [format!("reporter:{}", short_code(report(1)))], "nothing of the second stays here");
    let second = of(&parted, 2);
    assert!(second.iter().any(|call| call == "agency:cwd:positive"), "{second:?}");
    assert!(called.iter().all(|call| !second.contains(call)), "called once, and not again: {second:?}");
    let all = json_lines(&office, &["calls", "list", "--all", "--json"]);
    assert!(all.iter().all(|call| !name(call).starts_with("corrected:")), "no result was corrected: {all:?}");
    // Taken back, both are owed again where they were made.
    for call in &called {
        run(&["calls", "undo", &other, call, "--by", "OFF"]);
    }
    let again = of(&open(), 2);
    assert!(called.iter().all(|call| again.contains(call)), "{again:?}");
}

/// One call about results of both was made about both.
#[test]
fn a_call_about_two_that_were_joined_is_marked_on_each() {
    let mut chain = Chain::new();
    chain.deer(1);
    chain.deer(2);
    let office = office("whom-apart-both", &chain);
    let [one, other] = [1, 2].map(|n| carcass(n).to_string());
    let run = |args: &[&str]| {
        let ran = office.run(args);
        assert_eq!(ran.code, 0, "{ran:?}");
    };
    let listed = |call: &str| {
        let all = json_lines(&office, &["calls", "list", "--json"]);
        all.into_iter().filter(|one| one["call"] == call).count()
    };
    run(&["decide", "same", &one, &other, "--by", "OFF"]);
    let both = format!("sample,test,result\n{},cwd,positive\n{},cwd,positive\n", number(1, 3), number(2, 3));
    let sheet = office.put("sheet.csv", both.as_bytes());
    run(&["lab", "read", &sheet, "--by", "OFF"]);
    let call = "exposed:K7:cwd:positive";
    assert_eq!(listed(call), 1);
    run(&["calls", "done", &one, call, "--by", "OFF"]);
    assert_eq!(listed(call), 0);
    run(&["calls", "undo", &one, call, "--by", "OFF"]);
    assert_eq!(listed(call), 1, "one call, taken back whole");
    run(&["calls", "done", &one, call, "--by", "OFF"]);
    run(&["decide", "apart", &one, &other, "--by", "OFF"]);
    assert_eq!(listed(call), 0);
    run(&["calls", "undo", &other, call, "--by", "OFF"]);
    assert_eq!(listed(call), 1, "each has its own mark");
}
