//! Everything that the command line says of an archive.

use std::collections::BTreeMap;
use std::fmt::Write as _;
use std::fs;
use std::path::Path;

use marrowbook::office::keyring::Keyring;
use marrowbook::office::opening::judge;
use marrowbook::reading::{self, Given, short};
use marrowbook::record::{Journal, fold};
use marrowbook::words::Language;
use serde_json::Value as Json;

use crate::ran::Office;
use crate::written::written;

/// So many carcasses get their report.
const REPORTS: usize = 2;

/// Output of every command that only looks, by name, and every file that one writes.
pub(crate) fn all(office: &Office, out: &Path) -> BTreeMap<String, Vec<u8>> {
    let told = out.join("told");
    fs::create_dir_all(&told).unwrap();
    fs::create_dir_all(out.join("read")).unwrap();
    let place = |name: &str| out.join(name).to_str().unwrap().to_owned();
    let run = |name: &str, args: &[&str]| {
        let ran = office.run(args);
        // Folders of this machine are no part of it.
        let plain =
            |text: &str| text.replace(out.to_str().unwrap(), "OUT").replace(office.folder.to_str().unwrap(), "ARCHIVE");
        let words = format!("exit {}\n{}\n{}", ran.code, plain(&ran.err), plain(&ran.out));
        fs::write(told.join(format!("{name}.txt")), words).unwrap();
        ran
    };

    let received = office.folder.join("received");
    let files: Vec<String> =
        written(&received).into_keys().map(|name| received.join(name).to_str().unwrap().to_owned()).collect();
    let with = |head: &[&'static str]| -> Vec<String> {
        head.iter().map(|one| (*one).to_owned()).chain(files.iter().cloned()).collect()
    };
    let run_on = |name: &str, args: Vec<String>| run(name, &args.iter().map(String::as_str).collect::<Vec<_>>());
    let reading = run_on("read", with(&["read"])).out;
    run_on("open", with(&["open", "--json"]));
    run_on("diet", with(&["diet", "--json"]));
    let sketch = ["--out".to_owned(), place("sketch"), "--declination".to_owned(), "-3.5".to_owned()];
    run_on("sketch", [with(&["sketch"]), sketch.to_vec()].concat());
    for (name, args) in [
        ("phones", &["phones", "--json"][..]),
        ("lab-list", &["lab", "list", "--all"]),
        ("lab-list-json", &["lab", "list", "--all", "--json"]),
        ("calls", &["calls", "list"]),
        ("decide", &["decide", "list"]),
        ("reader", &["reader"]),
        ("reader-json", &["reader", "--json"]),
        ("labels", &["labels", "--out", &place("labels.html")]),
        ("labels-letter", &["labels", "--letter", "--out", &place("labels-letter.html")]),
        ("paper", &["paper", &place("paper.html")]),
        ("paper-letter", &["paper", "--letter", &place("paper-letter.html")]),
        ("winter", &["winter", "--json", "--us-units", "--svg", &place("winter.svg")]),
        ("season", &["season", "--json", "--out", &place("season")]),
        ("export", &["export", "--exact", "--names", "--out", &place("export")]),
        (
            "export-blurred",
            &["export", "--cell", "5000", "--present", "--winter", "2026", "--out", &place("export-blurred")],
        ),
    ] {
        run(name, args);
    }
    for (n, line) in reading.lines().enumerate() {
        let carcass: Json = serde_json::from_str(line).unwrap();
        if n < REPORTS {
            let code = carcass["carcass"].as_str().unwrap();
            run(&format!("report-{n:02}"), &["report", code, "--out", &place(&format!("report-{n:02}.html"))]);
        }
        // By itself, so that it is seen which moved.
        fs::write(out.join(format!("read/{n:02}.json")), line).unwrap();
    }
    on_phones(office, &out.join("phone"));
    written(out)
}

/// What a phone without a card says of the same answers, in short and in every language.
fn on_phones(office: &Office, out: &Path) {
    fs::create_dir_all(out).unwrap();
    let mut journal = Journal::new();
    for bytes in written(&office.folder.join("received")).into_values() {
        for entry in judge(&bytes, &Keyring::default()).contents.iter().flat_map(|contents| &contents.entries) {
            journal.add(entry.clone()).unwrap();
        }
    }
    for (n, carcass) in fold(&journal).carcasses.values().enumerate() {
        let given = Given::default();
        let readings = reading::all(carcass, &given);
        let mut told = String::new();
        for one in readings.each() {
            writeln!(told, "{:?}", short(one)).unwrap();
            for said in one.statements.iter().chain(&one.cautions) {
                for language in [Language::English, Language::French, Language::Spanish] {
                    writeln!(told, "{}", said.say(language)).unwrap();
                }
            }
        }
        let so_far = reading::so_far(carcass, &given);
        writeln!(told, "{:?}\n{:?}\n{:?}", readings.sharpen(), so_far.rows, so_far.age).unwrap();
        writeln!(told, "{:?}", reading::timeline(carcass, &given)).unwrap();
        writeln!(told, "{}", readings.to_hand_over().unwrap()).unwrap();
        fs::write(out.join(format!("{n:02}.txt")), told).unwrap();
    }
}
