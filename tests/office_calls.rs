//! Whom to call after a result, and what answers are owed. The lines of an exposure are those of the reference's
//! exposure note (safety-and-field-use.md 4.7, its fields marked [design]); deer, people and results are invented.
#![cfg(feature = "cli")]
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, clippy::indexing_slicing)]

#[path = "office/kit.rs"]
mod kit;
#[path = "office/ran.rs"]
mod ran;
#[path = "office/sampled.rs"]
mod sampled;
#[path = "office/written.rs"]
mod written;

use marrowbook::record::short_code::short_code;
use marrowbook::record::{Answer, Moment, Site, Subject, Value, links};
use parquet::file::reader::{FileReader as _, SerializedFileReader};
use ran::Office;
use sampled::{Chain, carcass, examination, json_lines, number, office, outing, report};
use serde_json::Value as Json;
use written::written;

fn text(text: &str) -> Answer {
    Answer::Seen { value: Value::Text(text.to_owned()) }
}

/// Deer 1: K7 took the jaw with gloves on, B2 tore a glove and was cut, D4 only looked; a walker touched it and left
/// a number. Deer 2: the same samples, nobody but K7.
fn crew(name: &str) -> Office {
    let mut chain = Chain::new();
    chain.deer(1);
    let (of, out, said) =
        (Subject::Examination(examination(1)), Subject::Outing(outing(1)), Subject::Report(report(1)));
    let reference = |id| Answer::Seen { value: Value::Ref(id) };
    chain.put(of, "K7", "", links::OUTING, Site::NONE, reference(outing(1)));
    chain.put(of, "K7", "", links::REPORT, Site::NONE, reference(report(1)));
    chain.put(of, "K7", "", "confirm_h01", Site::NONE, Answer::choice("done"));
    chain.put(of, "B2", "femur_taken", "femur_taken", Site::NONE, Answer::choice("whole"));
    chain.put(of, "B2", "", "glove_torn", Site::NONE, Answer::choice("skin_cut"));
    // What only looks, what a rule wrote, and what nobody looked at, is no touching.
    chain.put(of, "D4", "snow_depth", "tracks_by", Site::NONE, Answer::NotSeen);
    chain.put(of, "D4", "ruled_out", "rump_fat", Site::NONE, Answer::NotSeen);
    let time = marrowbook::record::Why::Time;
    chain.put(of, "D4", "rump_fat", "rump_fat", Site::NONE, Answer::NotLooked { why: time });
    chain.put(of, "K7", "", "study_tag_or_collar", Site::NONE, Answer::choice("there"));
    chain.put(of, "K7", "", "tag_number", Site::NONE, text("C-118"));
    chain.put(of, "K7", "", "land_leave", Site::NONE, Answer::choice("private_with_leave"));
    chain.put(of, "K7", "", "examination_closed", Site::NONE, Answer::choice("complete"));
    chain.put(out, "B2", "hurt", "exposure_note", Site::NONE, text("cut left thumb on the saw"));
    chain.put(out, "K7", "", "people_out", Site::NONE, text("Ada, Tom, a cousin of Tom"));
    chain.put(said, "K7", "", "report_touched", Site::NONE, Answer::choice("touched"));
    chain.put(said, "K7", "", "report_call_back", Site::NONE, text("555 0123 (invented)"));
    let at = Moment::parse("2027-02-13T15:00:00-05:00").unwrap();
    chain.put(said, "K7", "", "report_seen_at", Site::NONE, Answer::Seen { value: Value::Instant(at) });
    chain.deer(2);
    office(name, &chain)
}

fn result(office: &Office, n: u8, test: &str, result: &str) {
    let item = if test == "worms" { 4 } else { 3 };
    let sheet =
        office.put("sheet.csv", format!("sample,test,result\n{},{test},{result}\n", number(n, item)).as_bytes());
    let ran = office.run(&["lab", "read", &sheet, "--by", "OFF"]);
    assert_eq!(ran.code, 0, "{ran:?}");
}

fn list(office: &Office, more: &[&str]) -> Vec<Json> {
    json_lines(office, &[&["calls", "list", "--json"], more].concat())
}

fn names(all: &[Json]) -> Vec<&str> {
    let mut names: Vec<&str> = all.iter().map(|call| call["call"].as_str().unwrap()).collect();
    names.sort_unstable();
    names
}

#[test]
fn who_touched_what_with_which_gloves_is_called_after_a_suspect_result() {
    let office = crew("calls-suspect");
    let owed = format!("reporter:{}", short_code(report(1)));
    assert_eq!(names(&list(&office, &[])), ["collar", "landowner", owed.as_str()], "answers owed without any result");
    for quiet in ["pending", "not detected"] {
        result(&office, 1, "tb", quiet);
        assert_eq!(list(&office, &[]).len(), 3, "{quiet} calls nobody");
    }
    result(&office, 1, "cwd", "suspect");
    let numbers = office.put("numbers.csv", b"code,number\nB2,555 0145 (invented)\n");
    let all = list(&office, &["--numbers", &numbers]);
    let (others, walker) = (short_code(outing(1)), short_code(report(1)));
    let mut wanted = vec![
        "agency:cwd:suspect".to_owned(),
        "collar".to_owned(),
        "exposed:B2:cwd:suspect".to_owned(),
        "exposed:K7:cwd:suspect".to_owned(),
        format!("exposed:others-{others}:cwd:suspect"),
        format!("exposed:reporter-{walker}:cwd:suspect"),
        "health:cwd:suspect".to_owned(),
        "landowner".to_owned(),
        owed,
    ];
    wanted.sort();
    assert_eq!(names(&all), wanted, "D4 only looked, deer 2 has no result");
    let call = |name: &str| all.iter().find(|call| call["call"].as_str().unwrap().starts_with(name)).unwrap();
    let cut = call("exposed:B2");
    let why = cut["why"].to_string();
    assert_eq!((&cut["who"], &cut["number"]), (&"Tom Alder (invented) (B2)".into(), &"555 0145 (invented)".into()));
    assert!(why.contains("SUSPECT, not confirmed") && !why.contains("POSITIVE"), "{why}");
    assert!(why.contains("CUT OR SPLASH") && why.contains("cut left thumb on the saw"), "{why}");
    assert!(why.contains("they wrote nothing of gloves; ask") && why.contains("(cut or opened)"), "{why}");
    let gloved = call("exposed:K7")["why"].to_string();
    assert!(gloved.contains("gloves: gloves on") && gloved.contains("none written"), "{gloved}");
    assert!(gloved.contains(&number(1, 1)), "the samples in their hands: {gloved}");
    assert!(call("exposed:others")["who"].as_str().unwrap().contains("a cousin of Tom"));
    assert_eq!(call("exposed:reporter")["number"], "555 0123 (invented)");
    assert_eq!(call("health")["who"], "Public health nurse, invented");
    assert!(call("collar")["why"].to_string().contains("C-118"));
}

#[test]
fn a_call_made_is_a_signed_entry_and_a_confirmed_positive_calls_anew() {
    let office = crew("calls-done");
    result(&office, 1, "cwd", "suspect");
    let code = short_code(carcass(1));
    let before = list(&office, &[]).len();
    let done = |call: &str| office.run(&["calls", "done", &code, call, "--by", "OFF"]);
    assert_eq!(done("exposed:K7:cwd:suspect").code, 0);
    assert_eq!(done("collar").code, 0);
    let again = done("collar");
    assert!(again.code == 1 && again.err.contains("before"), "{again:?}");
    let none = done("exposed:D4:cwd:suspect");
    assert!(none.code == 1 && none.err.contains("no call") && none.err.contains("office calls list"), "{none:?}");
    assert_eq!(list(&office, &[]).len(), before - 2);
    let marked = list(&office, &["--all"]);
    assert_eq!(marked.len(), before);
    let k7 = marked.iter().find(|call| call["call"] == "exposed:K7:cwd:suspect").unwrap();
    assert_eq!(k7["done"]["by"], "OFF");
    // The mark is in the archive, under the office's signature like every other entry.
    let files = sampled::received(&office);
    let mut args = vec!["open"];
    args.extend(files.iter().map(String::as_str));
    assert_eq!(office.run(&args).code, 0);
    assert_eq!(office.run(&["calls", "undo", &code, "collar", "--by", "OFF"]).code, 0);
    assert!(names(&list(&office, &[])).contains(&"collar"));
    result(&office, 1, "cwd", "positive");
    let now = list(&office, &[]);
    assert!(
        names(&now).contains(&"exposed:K7:cwd:positive") && !names(&now).iter().any(|name| name.ends_with("suspect"))
    );
    let text = office.run(&["calls", "list"]).out;
    assert!(text.contains("POSITIVE") && text.contains("[ ]"), "{text}");
}

/// The card decides for which disease people are called; one that it does not name is taken as such.
#[test]
fn the_card_decides_which_disease_calls_people() {
    let office = crew("calls-card");
    let mut card: Json = serde_json::from_str(include_str!("../demo/card.json")).unwrap();
    card["serial"] = 8.into();
    card["laboratories"][1]["tests"][0]["call_people"] = false.into();
    let quiet = office.put("quiet.json", card.to_string().as_bytes());
    result(&office, 2, "cwd", "positive");
    assert!(names(&list(&office, &[])).contains(&"exposed:K7:cwd:positive"));
    // Deer 1, of which only answers are owed, comes before deer 2 by its id and is listed after it.
    let mut codes: Vec<String> =
        list(&office, &[]).iter().map(|call| call["code"].as_str().unwrap().to_owned()).collect();
    codes.dedup();
    assert_eq!(codes, [2, 1].map(|n| short_code(carcass(n))));
    assert!(carcass(1) < carcass(2));
    assert_eq!(office.run(&["card", &quiet]).code, 0);
    let all = list(&office, &[]);
    let calls = names(&all);
    assert!(
        calls.contains(&"agency:cwd:positive") && !calls.iter().any(|name| name.starts_with("exposed")),
        "{calls:?}"
    );
    assert!(!calls.contains(&"health:cwd:positive"));
    card["serial"] = 9.into();
    card["laboratories"][1]["tests"].as_array_mut().unwrap().remove(0);
    let other = office.put("other.json", card.to_string().as_bytes());
    assert_eq!(office.run(&["card", &other]).code, 0);
    let all = list(&office, &[]);
    let call = all.iter().find(|call| call["call"] == "exposed:K7:cwd:positive").unwrap();
    assert!(call["why"].to_string().contains("does not name this test"), "{call}");
}

fn parquet_rows(path: &std::path::Path) -> String {
    let file = SerializedFileReader::new(std::fs::File::open(path).unwrap()).unwrap();
    file.get_row_iter(None).unwrap().map(|row| row.unwrap().to_string()).collect()
}

fn plain(name: &str, bytes: Vec<u8>) -> String {
    String::from_utf8(bytes).unwrap_or_else(|_| panic!("{name} is no text: it has to be unpacked to be searched"))
}

/// Numbers, notes and marks stand on the list alone.
#[test]
fn nothing_private_goes_into_an_export() {
    let office = crew("calls-private");
    result(&office, 1, "cwd", "positive");
    let marked = office.run(&["calls", "done", &short_code(carcass(1)), "exposed:K7:cwd:positive", "--by", "OFF"]);
    assert_eq!(marked.code, 0, "{marked:?}");
    let out = office.folder.join("export");
    let ran = office.run(&["export", "--out", out.to_str().unwrap(), "--names"]);
    assert_eq!(ran.code, 0, "{ran:?}");
    let mut of_results = Vec::new();
    for (name, bytes) in written(&out) {
        // What is packed shows no word in its bytes.
        let text = if name.ends_with(".parquet") { parquet_rows(&out.join(&name)) } else { plain(&name, bytes) };
        for private in ["555 0123", "cut left thumb", "exposed:K7"] {
            assert!(!text.contains(private), "{name}: {private}");
        }
        if text.contains("test_result") {
            of_results.push(name);
        }
    }
    assert!(of_results.iter().any(|name| name.starts_with("parquet/findings")), "its rows are read: {of_results:?}");
    assert!(of_results.len() > 1, "the result itself is exported");
}
