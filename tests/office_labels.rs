//! `office labels`: a page of labels, each with its code. The codes are read back by our own reader here and by zxing
//! and OpenCV in tests/python/test_frames.py. The deer is invented; the six lines are those of the reference
//! (`cause-and-time-of-death.md` 6.4), with how the thing is kept.
#![cfg(feature = "cli")]
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, clippy::indexing_slicing)]

#[path = "office/kit.rs"]
mod kit;
#[path = "office/ran.rs"]
mod ran;
#[path = "office/season_folder.rs"]
mod season_folder;

use std::fs;

use marrowbook::frames::read::codes;
use ran::{Office, folder};
use season_folder::{Archive, Deer};
use serde_json::json;

/// A table of one deer of which a jaw and two more things were taken; of the last one nobody wrote a label.
fn table() -> Vec<u8> {
    let row = |finding: &str, item: Option<u16>, value: &str| match item {
        Some(item) => json!({"finding": finding, "item": item, "value": value}),
        None => json!({"finding": finding, "value": value}),
    };
    let rows = [
        row("species", None, "white_tailed_deer"),
        row("sex_called", None, "female"),
        row("jaw_taken", None, "whole_jaw"),
        row("sample_number", Some(1), "ABC <14>"),
        row("sample_kept", Some(1), "paper_dry"),
        json!({"finding": "other_samples_count", "value": 2}),
        row("sample_what", Some(3), "rumen"),
        row("sample_number", Some(3), "QR-27-3"),
        row("sample_kept", Some(3), "bag_frozen"),
    ];
    let exam = json!({"at": "2027-02-14T10:00:00-05:00", "observer": "K7", "findings": rows});
    json!({"format": "marrowbook-findings-1", "carcasses": [{"name": "doe by the brook", "examinations": [exam]}]})
        .to_string()
        .into_bytes()
}

/// What the code of a label holds, from its drawing.
fn code_of(label: &str) -> String {
    const SCALE: usize = 4;
    let side: usize = label.split("viewBox=\"0 0 ").nth(1).unwrap().split(' ').next().unwrap().parse().unwrap();
    let mut luma = vec![255; side * SCALE * side * SCALE];
    for run in label.split("<path d=\"").nth(1).unwrap().split('"').next().unwrap().split('M').skip(1) {
        let numbers: Vec<usize> = run.split(|c: char| !c.is_ascii_digit()).filter_map(|n| n.parse().ok()).collect();
        let [x, y, width, ..] = numbers[..] else { panic!("{run}") };
        for row in y * SCALE..(y + 1) * SCALE {
            luma[row * side * SCALE + x * SCALE..][..width * SCALE].fill(0);
        }
    }
    let found = codes(side * SCALE, side * SCALE, &luma);
    assert_eq!(found.len(), 1);
    String::from_utf8(found[0].clone()).unwrap()
}

#[test]
fn every_sample_has_a_label_with_its_lines_and_the_same_as_a_code() {
    let office = Office::new(folder("labels"));
    let file = office.put("deer.json", &table());
    let out = office.put("labels.html", b"");
    let ran = office.run(&["labels", &file, "--out", &out]);
    assert_eq!(ran.code, 0, "{}", ran.err);
    assert!(ran.out.starts_with("3 labels written"), "{}", ran.out);
    let page = fs::read_to_string(&out).unwrap();
    assert!(page.contains("size: A4 portrait") && !page.contains("<script") && !page.contains("label."), "{page}");
    let labels: Vec<&str> = page.split("<section").skip(1).collect();
    let [jaw, rumen, bare] = labels[..] else { panic!("{page}") };
    assert!(jaw.contains("<h2>ABC &lt;14&gt;</h2>"), "what was typed is never markup: {jaw}");
    let case = code_of(jaw).lines().nth(1).unwrap().to_owned();
    assert!(case.starts_with("Carcass: ") && case.len() == "Carcass: ".len() + 6, "{case}");
    let jaw_text = format!(
        "ABC <14>\n{case}\nAnimal: White-tailed deer, Female\nWhat: Jaw\nKept: Paper, dry\nDate: 2027-02-14\nTaken by: K7"
    );
    assert_eq!(code_of(jaw), jaw_text);
    assert!(code_of(rumen).starts_with("QR-27-3\n") && code_of(rumen).contains("What: Rumen\nKept: Bag, frozen"));
    // Nothing was said of it but that it was taken: the form's number, lines to be filled in, and a warning.
    assert!(bare.contains("No label was written") && bare.matches("by-hand").count() >= 3, "{bare}");
    assert!(!jaw.contains("No label was written") && !jaw.contains("by-hand"), "{jaw}");
    for line in jaw_text.lines().skip(2) {
        let (name, value) = line.split_once(": ").unwrap();
        assert!(jaw.contains(&format!("<p>{name}: <b>{value}</b></p>")), "{line}");
    }
    let letter = office.run(&["labels", &file, "--out", &out, "--letter"]);
    assert_eq!(letter.code, 0, "{}", letter.err);
    assert!(fs::read_to_string(&out).unwrap().contains("size: letter portrait"));
}

#[test]
fn without_files_the_archive_is_taken_and_a_carcass_can_be_picked() {
    let archive = Archive::new("labels-archive");
    let deer = [1, 2].map(|n| Deer { jaw_taken: true, ..Deer::of(n) });
    archive.keep("north.txt", &season_folder::bundle(&kit::phone(), "north", &deer, &[]));
    let out = archive.put("labels.html", b"");
    let ran = archive.run(&["labels", "--out", &out]);
    assert_eq!(ran.code, 0, "{}", ran.err);
    let taken = fs::read_to_string(&out).unwrap().matches("<section").count();
    let id = season_folder::carcass(2).to_string();
    let one = archive.run(&["labels", "--carcass", &id, "--out", &out]);
    assert_eq!(one.code, 0, "{}", one.err);
    let picked = fs::read_to_string(&out).unwrap().matches("<section").count();
    assert_eq!((taken, picked), (2, 1));
    let none = archive.run(&["labels", "--carcass", "ZZZZZZ", "--out", &out]);
    assert!(none.code == 1 && none.err.contains("ZZZZZZ"), "{}", none.err);
}

#[test]
fn where_nothing_was_taken_it_says_so_and_writes_nothing() {
    let office = Office::new(folder("labels-none"));
    let exam = json!({"at": "2027-02-14T10:00:00-05:00", "observer": "K7", "findings": [{"finding": "species", "value": "white_tailed_deer"}]});
    let bare = json!({"format": "marrowbook-findings-1", "carcasses": [{"name": "a", "examinations": [exam]}]});
    let file = office.put("deer.json", bare.to_string().as_bytes());
    let out = office.folder.join("labels.html");
    let ran = office.run(&["labels", &file, "--out", out.to_str().unwrap()]);
    assert_eq!(ran.code, 0);
    assert!(ran.err.contains("no label to print") && !out.exists(), "{}", ran.err);
}
