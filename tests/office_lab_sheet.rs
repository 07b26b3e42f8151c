//! Samples go to a laboratory and its sheet of results comes back. The five states of a disease test are the usual
//! ones of veterinary laboratories (common practice, no source); all figures are invented.
#![cfg(feature = "cli")]
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, clippy::indexing_slicing)]

#[path = "office/kit.rs"]
mod kit;
#[path = "office/ran.rs"]
mod ran;
#[path = "office/sampled.rs"]
mod sampled;

use marrowbook::record::short_code::short_code;
use ran::{Office, Ran};
use sampled::{Chain, carcass, json_lines, number, office, read, received};
use serde_json::Value as Json;

fn two_deer(name: &str) -> Office {
    let mut chain = Chain::new();
    chain.deer(1);
    chain.deer(2);
    office(name, &chain)
}

fn list(office: &Office, more: &[&str]) -> Vec<Json> {
    json_lines(office, &[&["lab", "list", "--json"], more].concat())
}

/// State of a test of a sample on the list of everything.
fn state(office: &Office, sample: &str, test: &str) -> String {
    let all = list(office, &["--all"]);
    let line = all.iter().find(|line| line["number"] == sample && line["test"] == test).unwrap();
    line["state"].as_str().unwrap().to_owned()
}

fn sheet(office: &Office, text: &str, more: &[&str]) -> Ran {
    let file = office.put("sheet.csv", text.as_bytes());
    let mut args = vec!["lab", "read", &file, "--by", "OFF"];
    args.extend(more);
    office.run(&args)
}

#[test]
fn the_list_says_what_lies_where_and_goes_where() {
    let office = two_deer("send-list");
    let all = list(&office, &[]);
    // Jaw, femur and swab to the one, the head part to the other for two tests: five lines a deer.
    assert_eq!(all.len(), 10, "{all:#?}");
    let jaw = all.iter().find(|line| line["number"] == number(1, 1).as_str()).unwrap();
    assert_eq!(
        (&jaw["laboratory"], &jaw["test"], &jaw["state"]),
        (&"ROOT".into(), &"cementum".into(), &"not_sent".into())
    );
    assert_eq!((&jaw["holder"], &jaw["kept"]), (&"K7".into(), &"paper_dry".into()));
    let label = jaw["label"].to_string();
    for wanted in [short_code(carcass(1)), number(1, 1), "2027-02-14".into(), "K7".into(), "Root Laboratory".into()] {
        assert!(label.contains(&wanted), "{wanted}: {label}");
    }
    assert!(jaw["custody"].to_string().contains("K7") && jaw["gaps"].to_string().contains("not_sealed"), "{jaw}");
    assert_eq!(list(&office, &["--lab", "VETLAB"]).len(), 4);
    let text = office.run(&["lab", "list"]);
    assert!(text.out.contains("ROOT: Root Laboratory (invented)") && text.out.contains("packing: Dry"), "{}", text.out);
}

#[test]
fn what_was_sent_is_custody_signed_by_the_office() {
    let office = two_deer("send-noted");
    let (jaw, swab, head) = (number(1, 1), number(1, 4), number(1, 3));
    for (args, words) in [
        (&["lab", "send", "NOWHERE", jaw.as_str(), "--by", "OFF"][..], "no laboratory `NOWHERE`"),
        (&["lab", "send", "ROOT", &jaw, "XX-1", "--by", "OFF"], "no sample has the number `XX-1`"),
        (&["lab", "send", "ROOT", &head, "--by", "OFF"], "ROOT tests nothing on sample"),
        (&["lab", "send", "ROOT", &jaw, "--by", "OFF", "--test", "cwd"], "has no test `cwd`"),
        (&["lab", "send", "ROOT", &jaw, &jaw, "--by", "OFF"], "is named twice"),
    ] {
        let ran = office.run(args);
        assert!(ran.code == 1 && ran.err.contains(words) && ran.err.contains("nothing was noted"), "{args:?}: {ran:?}");
    }
    assert_eq!(received(&office).len(), 1, "nothing was written");
    // Typed small and without the hyphen, as people do.
    let typed = jaw.to_lowercase().replace('-', " ");
    let more = ["--by", "OFF", "--place", "Post office", "--seal", "S9", "--condition", "dry"];
    let mut args = vec!["lab", "send", "ROOT", &typed, &swab];
    args.extend(more);
    let sent = office.run(&args);
    assert_eq!(sent.code, 0, "{sent:?}");
    assert_eq!((state(&office, &jaw, "cementum"), state(&office, &swab, "swab-dna")), ("sent".into(), "sent".into()));
    assert_eq!(state(&office, &number(2, 1), "cementum"), "not_sent");
    let again = office.run(&args);
    assert!(again.code == 1 && again.err.contains("sent there before"), "{again:?}");
    // The crew's custody goes on: who has it now, and that nobody noted how it came from K7 to the office.
    let jaw = list(&office, &[]).into_iter().find(|line| line["number"] == jaw.as_str()).unwrap();
    assert_eq!(jaw["holder"], "ROOT");
    let custody = jaw["custody"].to_string();
    assert!(custody.contains("OFF > ROOT") && custody.contains("Post office, S9, dry"), "{custody}");
    assert!(jaw["gaps"].to_string().contains("not_the_holder"), "{jaw}");
}

/// A chain of custody names each who had the thing, and a receipt closes it (common practice, no source).
#[test]
fn what_arrived_is_received_and_a_slip_is_taken_back() {
    let mut chain = Chain::new();
    chain.deer(1);
    chain.hand_over(&number(1, 3), "K7", "VETLAB");
    let office = office("received", &chain);
    let (jaw, head) = (number(1, 1), number(1, 3));
    let line = |sample: &str, test: &str| {
        let all = list(&office, &["--all"]);
        all.into_iter().find(|line| line["number"] == sample && line["test"] == test).unwrap()
    };
    assert!(line(&jaw, "cementum")["gaps"].to_string().contains("not_received"));
    for (args, words) in [
        (&["lab", "receive", "XX-1", "--by", "OFF"][..], "no sample has the number `XX-1`"),
        (&["lab", "receive", &jaw, "--by", "OFF", "--at", "NOWHERE"], "no laboratory `NOWHERE`"),
        (&["lab", "back", &jaw, "--by", "OFF"], "is not the office's own"),
        (&["lab", "back", &head, "--by", "OFF"], "is not the office's own"),
    ] {
        let ran = office.run(args);
        assert!(ran.code == 1 && ran.err.contains(words) && ran.err.contains("nothing was noted"), "{args:?}: {ran:?}");
    }
    assert_eq!(office.run(&["lab", "receive", &jaw, "--by", "OFF", "--seal-whole", "--seal-broken"]).code, 2);
    assert_eq!(received(&office).len(), 1, "nothing was written");

    let receive = ["lab", "receive", &jaw, "--by", "OFF", "--from", "K7", "--place", "Office", "--condition", "dry"];
    let ran = office.run(&[&receive[..], &["--seal-broken"]].concat());
    assert_eq!(ran.code, 0, "{ran:?}");
    let after = line(&jaw, "cementum");
    let gaps = after["gaps"].to_string();
    assert!(after["holder"] == "OFF" && after["state"] == "not_sent", "{after}");
    assert!(
        !gaps.contains("not_received") && gaps.contains("seal_broken") && !gaps.contains("not_the_holder"),
        "{gaps}"
    );
    let again = office.run(&receive);
    assert!(again.code == 1 && again.err.contains("received there before"), "{again:?}");

    // Sent by mistake, then taken back: it lies here again, and both stay in the journal.
    assert_eq!(office.run(&["lab", "send", "ROOT", &jaw, "--by", "OFF"]).code, 0);
    assert_eq!(line(&jaw, "cementum")["state"], "sent");
    assert_eq!(office.run(&["lab", "back", &jaw, "--by", "OFF"]).code, 0);
    let back = line(&jaw, "cementum");
    assert!(back["state"] == "not_sent" && back["holder"] == "OFF", "{back}");
    // One step a time: now the receipt is the last.
    assert_eq!(office.run(&["lab", "back", &jaw, "--by", "OFF"]).code, 0);
    assert!(line(&jaw, "cementum")["gaps"].to_string().contains("not_received"));

    // Where a result came back it was there.
    assert_eq!(office.run(&["lab", "send", "ROOT", &jaw, "--by", "OFF"]).code, 0);
    assert_eq!(sheet(&office, &format!("sample,test,years\n{jaw},cementum,4\n"), &[]).code, 0);
    let refused = office.run(&["lab", "back", &jaw, "--by", "OFF"]);
    assert!(
        refused.code == 1 && refused.err.contains("a result came back") && refused.err.contains("next:"),
        "{refused:?}"
    );

    // Of another sample of the same animal at the same laboratory nothing did.
    let femur = number(1, 2);
    assert_eq!(office.run(&["lab", "send", "ROOT", &femur, "--by", "OFF"]).code, 0);
    let back = office.run(&["lab", "back", &femur, "--by", "OFF"]);
    assert_eq!(back.code, 0, "{back:?}");

    // At a laboratory, which need not be the one that it was handed to.
    assert_eq!(office.run(&["lab", "receive", &head, "--by", "OFF", "--at", "VETLAB"]).code, 0);
    let there = line(&head, "cwd");
    assert!(there["holder"] == "VETLAB" && there["state"] == "sent", "{there}");
    assert!(!there["gaps"].to_string().contains("not_received"), "{there}");
}

#[test]
fn a_laboratory_that_is_not_on_the_card_is_told() {
    let office = two_deer("no-such-laboratory");
    let ran = office.run(&["lab", "list", "--lab", "NOPE"]);
    assert!(ran.code == 1 && ran.err.contains("names no laboratory `NOPE`") && ran.err.contains("next:"), "{ran:?}");
    assert!(!ran.err.contains("nothing was noted"), "{ran:?}");
}

#[test]
fn a_sheet_is_entered_by_sample_number_and_read_into_the_readings() {
    let office = two_deer("sheet-entered");
    assert_eq!(office.run(&["lab", "send", "ROOT", &number(1, 1), "--by", "OFF"]).code, 0);
    let (jaw, femur, head, swab) = (number(1, 1), number(1, 2), number(1, 3), number(1, 4));
    // As a spreadsheet saves it: a mark of UTF-8 at the front, semicolons, CR LF, an empty line.
    let text = format!(
        "\u{feff}Sample;Test;Result;Reported;Years;Grade;Percent;From\r\n\r\n\
         {jaw};cementum;;2027-02-18;8;A;;\r\n\
         {femur};marrow;;2027-02-18;;;37,4;\r\n;;;;;;;\r\n\
         {head};cwd;Not detected;2027-02-18;;;;\r\n\
         {swab};swab-dna;coyote;2027-02-18;;;;clot wound\r\n"
    );
    let check = sheet(&office, &text, &["--check"]);
    assert!(check.code == 0 && check.out.contains("this was a check") && received(&office).len() == 2, "{check:?}");
    let ran = sheet(&office, &text, &[]);
    assert_eq!(ran.code, 0, "{ran:?}");
    // The file's own lines, as an editor counts them; figures with unit and scale.
    for said in [
        format!("line 3: {jaw} of {}, cementum: 8 years", short_code(carcass(1))),
        format!("line 4: {femur} of {}, marrow: 37.4 % dry weight;", short_code(carcass(1))),
        format!("line 6: {head} of {}, cwd: not detected;", short_code(carcass(1))),
        format!("line 7: {swab} of {}, swab-dna: coyote;", short_code(carcass(1))),
    ] {
        assert!(ran.out.lines().any(|line| line.starts_with(&said)), "{said}: {}", ran.out);
    }
    // Only the jaw was noted as sent.
    assert_eq!(ran.out.matches("never noted as sent").count(), 3, "{}", ran.out);
    assert_eq!(received(&office).len(), 3);
    let readings = read(&office);
    let said = readings[0]["said"].to_string();
    assert!(said.contains("most likely 8 years") && said.contains("From rings of cementum"), "{said}");
    // 37.4 of dry weight is 30.4 of fat: Neiland 1970, fat = dry weight - 7 (condition-and-winter.md 2).
    assert!(said.contains("37.4") && said.contains("30"), "{said}");
    assert!(said.contains("DNA (Root Laboratory (invented))") && said.contains("coyote"), "{said}");
    assert_eq!(state(&office, &head, "cwd"), "answered");
    assert_eq!(state(&office, &head, "tb"), "not_sent", "one test's answer is no other's");
    assert!(list(&office, &[]).iter().all(|line| line["number"] != head.as_str() || line["test"] != "cwd"));
    let again = sheet(&office, &text, &[]);
    assert!(again.code == 0 && again.out.contains("nothing new"), "{again:?}");
    assert_eq!(again.out.matches("entered before, the same").count(), 4);
    assert_eq!(received(&office).len(), 3, "nothing is entered twice");
}

#[test]
fn every_line_that_does_not_fit_is_named_and_nothing_is_entered() {
    let mut chain = Chain::new();
    (1..=4).for_each(|n| chain.deer(n));
    let office = office("sheet-mismatch", &chain);
    let (jaw, femur, head, swab) = (number(1, 1), number(1, 2), number(1, 3), number(1, 4));
    let mut wrong = jaw.clone();
    let last = wrong.pop().unwrap();
    wrong.push(if last == 'A' { 'B' } else { 'A' });
    let other = short_code(carcass(2));
    let lines = [
        ("QR-1,cementum,,,,5,,,", "no sample has the number `QR-1`"),
        (&format!("{wrong},cementum,,,,5,,,"), "was typed wrong"),
        (&format!("{jaw},cementum,{other},,,5,,,"), "is of carcass"),
        (&format!("{jaw},dentine,,,,5,,,"), "names no test `dentine`"),
        (&format!("{femur},cementum,,,,5,,,"), "is not done on sample"),
        (&format!("{},cementum,,,,33,,,", number(2, 1)), "`33` in column `years` is not a whole number from 0 to 22"),
        (&format!("{femur},marrow,,,,,,370,"), "is not a percentage from 0 to 100"),
        (&format!("{},marrow,,,,,,37.45,", number(2, 2)), "with at most one decimal"),
        (&format!("{head},cwd,,maybe,,,,,"), "`maybe` in column `result` is not one of positive, suspect"),
        (&format!("{head},tb,,positive,,5,,,"), "test `tb` has no use for it"),
        (&format!("{swab},swab-dna,,wolf,,,,,"), "column `from` is empty"),
        (&format!("{},swab-dna,,fox,,,,,elsewhere", number(2, 4)), "`fox` in column `result` is not one of coyote"),
        (&format!("{},cwd,,positive,2027-02-13,,,,", number(2, 3)), "before the sample was taken"),
        (&format!("{},tb,,positive,2099-01-01,,,,", number(2, 3)), "still to come"),
        (&format!("{head},cwd,,positive,,,,,"), "it repeats line 10"),
        // A word that belongs to another kind of test is no figure's companion.
        (
            &format!("{},cementum,,not suitable,,4,,,", number(3, 1)),
            "`not suitable` in column `result` is not one of unsuitable, pending",
        ),
        (
            &format!("{},marrow,,positive,,,,37,", number(4, 2)),
            "`positive` in column `result` is not one of unsuitable, pending",
        ),
    ];
    let mut text = "sample,test,carcass,result,reported,years,grade,percent,from\n".to_owned();
    text.extend(lines.iter().map(|(line, _)| format!("{line}\n")));
    // The last is good by itself.
    text.extend([number(3, 2).as_str(), ",marrow,,unsuitable,,,,,\n"]);
    let ran = sheet(&office, &text, &[]);
    assert_eq!(ran.code, 1, "{ran:?}");
    for (at, (line, words)) in (2..).zip(&lines) {
        let named = ran.err.lines().find(|said| said.contains(&format!("line {at}: "))).unwrap_or_default();
        assert!(named.contains(words), "{line}: {named}");
    }
    assert!(ran.err.contains("nothing was entered") && ran.err.contains("--without"), "{}", ran.err);
    assert_eq!(received(&office).len(), 1);
}

#[test]
fn a_line_left_out_by_its_number_lets_the_others_in() {
    let office = two_deer("sheet-without");
    let text = format!("sample,test,years\n{},cementum,5\nQR-1,cementum,4\n", number(1, 1));
    assert_eq!(sheet(&office, &text, &[]).code, 1);
    // A line that is not there is a slip of the hand: the one that was meant would go in.
    let slip = sheet(&office, &text, &["--without", "3", "--without", "13"]);
    assert!(slip.code == 1 && slip.err.contains("no line 13") && slip.err.contains("next:"), "{slip:?}");
    assert_eq!(received(&office).len(), 1);
    let ran = sheet(&office, &text, &["--without", "3"]);
    assert!(ran.code == 0 && ran.out.contains("line 3: QR-1, cementum: 4 (left out)"), "{ran:?}");
    assert_eq!(state(&office, &number(1, 1), "cementum"), "answered");
}

#[test]
fn no_sheet_is_said_so() {
    let office = two_deer("sheet-none");
    for (text, words) in [
        ("sample,years\nA,5\n", "no column `test`"),
        ("sample,test,colour\nA,b,c\n", "a column `colour`, which is none of"),
        ("sample,test,sample\nA,b,c\n", "`sample` stands twice"),
        ("sample,test\n", "holds no result"),
        ("sample,test\nA,b,c\n", "line 2"),
    ] {
        let ran = sheet(&office, text, &[]);
        assert!(ran.code == 1 && ran.err.contains(words), "{text}: {ran:?}");
    }
}

/// As a spreadsheet saves it, with an empty line: the number is the file's line, whatever the reader of CSV counts.
#[test]
fn the_line_that_is_left_out_is_the_files_own() {
    let office = two_deer("sheet-crlf");
    let (head, other) = (number(1, 3), number(2, 3));
    let text =
        format!("sample,test,result\r\n\r\n{head},cwd,positive\r\nQR-1,cwd,positive\r\n{other},cwd,positive\r\n");
    let ran = sheet(&office, &text, &[]);
    assert!(ran.code == 1 && ran.err.contains("line 4: no sample has the number `QR-1`"), "{ran:?}");
    assert_eq!(sheet(&office, &text, &["--without", "4"]).code, 0);
    for sample in [head, other] {
        assert_eq!(state(&office, &sample, "cwd"), "answered");
    }
    // A quoted line's end is one of the file's as well; a short line is named by its place.
    let text = "sample,test,result\r\n\"QR\r\n2\",cwd,positive\r\nQR-1,cwd\r\n";
    let ran = sheet(&office, text, &[]);
    assert!(ran.code == 1 && ran.err.contains("line 4: it has 2 cells, the header has 3"), "{ran:?}");
}

/// What could not be tested is not tested: it waits for another sample.
#[test]
fn an_unsuitable_sample_stays_on_the_list() {
    let office = two_deer("sheet-unsuitable");
    let (head, swab) = (number(1, 3), number(1, 4));
    // Of a swab that gave nothing nobody need say from where it came.
    let text = format!("sample,test,result\n{head},cwd,unsuitable\n{swab},swab-dna,unsuitable\n");
    let ran = sheet(&office, &text, &[]);
    assert_eq!(ran.code, 0, "{ran:?}");
    for (sample, test) in [(&head, "cwd"), (&swab, "swab-dna")] {
        assert_eq!(state(&office, sample, test), "unsuitable");
        let left = list(&office, &[]);
        assert!(left.iter().any(|line| line["number"] == sample.as_str() && line["test"] == test), "{left:#?}");
    }
    assert!(office.run(&["lab", "list"]).out.contains("cwd: unsuitable: nothing is known; send another sample"));
}

/// A crew that brought a sample to the laboratory itself wrote no tests: it was sent for all that is done on it.
#[test]
fn what_a_crew_brought_to_the_laboratory_is_sent() {
    let mut chain = Chain::new();
    chain.deer(1);
    chain.hand_over(&number(1, 3), "K7", "VETLAB");
    let office = office("send-by-crew", &chain);
    for test in ["cwd", "tb"] {
        assert_eq!(state(&office, &number(1, 3), test), "sent");
    }
    assert!(list(&office, &["--all"]).iter().all(|line| line["test"] != "worms"), "not done on a head part");
    let read = sheet(&office, &format!("sample,test,result\n{},cwd,suspect\n", number(1, 3)), &[]);
    assert!(read.code == 0 && !read.out.contains("never noted as sent"), "{read:?}");
}

/// What a laboratory typed may steer no terminal and begin no line.
#[test]
fn what_a_sheet_holds_stays_on_its_line() {
    let office = two_deer("sheet-control");
    let text = format!("sample,test,result\n\"{}\",cwd,\"may\u{1b}[2Jbe\nline 9: good\"\n", number(1, 3));
    let ran = sheet(&office, &text, &[]);
    assert!(ran.code == 1 && ran.err.contains("may\\u001b[2Jbe\\u000aline 9: good"), "{ran:?}");
    assert!(!ran.err.contains('\u{1b}') && !ran.err.lines().any(|line| line.starts_with("line 9")), "{ran:?}");
}

/// Pending gives way to any result and a suspect to its confirmation; all else that differs is a mismatch until a
/// person says that it corrects.
#[test]
fn a_later_sheet_takes_the_place_of_pending_and_suspect_and_of_nothing_else() {
    let office = two_deer("sheet-later");
    let head = number(1, 3);
    let say = |result: &str, more: &[&str]| sheet(&office, &format!("sample,test,result\n{head},cwd,{result}\n"), more);
    assert_eq!(say("pending", &[]).code, 0);
    assert_eq!(state(&office, &head, "cwd"), "pending");
    let suspect = say("suspect", &[]);
    assert!(suspect.code == 0 && suspect.out.contains("in place of pending"), "{suspect:?}");
    for less in ["pending", "unsuitable"] {
        let ran = say(less, &[]);
        assert!(ran.code == 1 && ran.err.contains("`suspect` was entered before by OFF"), "{ran:?}");
    }
    let positive = say("positive", &[]);
    assert!(positive.code == 0 && positive.out.contains("in place of suspect"), "{positive:?}");
    let back = say("not detected", &[]);
    assert!(back.code == 1 && back.err.contains("says `not detected`"), "{back:?}");
    assert!(back.code == 1 && back.err.contains("`positive` was entered before") && back.err.contains("--correct"));
    assert_eq!(say("not detected", &["--correct"]).code, 0);
    // One examination holds it all, and one result stands.
    let office_files = received(&office).len();
    assert_eq!(office_files, 5);
    assert_eq!(state(&office, &head, "cwd"), "answered");
}

#[test]
fn a_card_without_laboratories_is_told() {
    let mut chain = Chain::new();
    chain.deer(1);
    let mut card: Json = serde_json::from_str(include_str!("../demo/card.json")).unwrap();
    card.as_object_mut().unwrap().remove("laboratories");
    let office = sampled::office_with("sheet-no-lab", &chain, &card.to_string());
    let ran = office.run(&["lab", "list"]);
    assert!(ran.code == 1 && ran.err.contains("names a laboratory") && ran.err.contains("office card"), "{ran:?}");
}

/// The same rule at `office lab CARCASS --sample`: the house's own, no outside source.
#[test]
fn a_result_of_another_carcasss_sample_is_refused_with_what_to_do() {
    let mut chain = Chain::new();
    chain.deer(1);
    chain.deer(2);
    let office = office("lab-whose-sample", &chain);
    let [first, other] = [1, 2].map(|n| short_code(carcass(n)));
    let before = received(&office).len();
    let of_other = [number(2, 1), number(2, 1).to_lowercase(), number(2, 4)];
    for (option, sample) in [("--sample", &of_other[0]), ("--sample", &of_other[1]), ("--dna-sample", &of_other[2])] {
        let result: &[&str] = if option == "--sample" {
            &["--years", "6", "--grade", "A", "--lab", "Root Lab (invented)"]
        } else {
            &["--dna", "wolf", "--dna-from", "clot_wound", "--dna-lab", "Root Lab (invented)"]
        };
        let ran = office.run(&[&["lab", &first, "--by", "OFF", option, sample], result].concat());
        assert_eq!(ran.code, 1, "{ran:?}");
        let whose = format!("sample `{sample}` was taken from carcass {other}, not from {first}");
        assert!(ran.err.contains(&whose) && ran.err.contains("look at the label"), "{}", ran.err);
        assert_eq!(received(&office).len(), before, "nothing was written");
    }
    let enter =
        |sample: &str| office.run(&["lab", &first, "--by", "OFF", "--years", "6", "--another", "--sample", sample]);
    let own = enter(&number(1, 1));
    assert!(own.code == 0 && !own.err.contains("no sample of this archive"), "{own:?}");
    // One that the form never had may be anybody's: entered, and said so.
    let unknown = enter("T-17");
    assert!(
        unknown.code == 0 && unknown.err.contains("no sample of this archive has the number `T-17`"),
        "{unknown:?}"
    );
}
