//! `office export`: what is let out, what is not, and the same bytes again. All carcasses are invented.
//!
//! That other programs read the forms is checked in `tests/python/test_export.py`.
#![cfg(feature = "cli")]
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, clippy::indexing_slicing)]

#[path = "office/kit.rs"]
mod kit;
#[path = "office/ran.rs"]
mod ran;
#[path = "office/season_folder.rs"]
mod season_folder;
#[path = "office/written.rs"]
mod written;

use std::collections::BTreeMap;
use std::fs;
use std::io::{Cursor, Read as _};
use std::path::Path;

use marrowbook::office::errand::{Came, EXPORT, Errand, What, answered};
use marrowbook::office::export::{Asked, Written};
use marrowbook::office::files::HeldFiles;
use marrowbook::office::hand::Hand;
use season_folder::{Archive, Deer};
use serde_json::Value as Json;
use written::written;

fn archive(name: &str) -> (Archive, Vec<Deer>) {
    let archive = Archive::new(name);
    let mut all: Vec<Deer> = (1..7).map(Deer::of).collect();
    all[1].species = "other_deer";
    archive.keep("north.txt", &season_folder::bundle(&kit::phone(), "zz Kim and Bo", &all[..3], &[]));
    archive.keep("south.txt", &season_folder::bundle(&kit::lost_phone(), "=HYPERLINK(1)", &all[3..], &[]));
    archive.keep("full.txt", &kit::full());
    (archive, all)
}

fn export(archive: &Archive, name: &str, more: &[&str]) -> BTreeMap<String, Vec<u8>> {
    let out = archive.out(name);
    let ran = archive.run(&[&["export", archive.folder(), "--out", &out][..], more].concat());
    assert!(matches!(ran.code, 0 | 3), "{ran:?}");
    written(Path::new(&out))
}

fn text(files: &BTreeMap<String, Vec<u8>>, name: &str) -> String {
    String::from_utf8(files[name].clone()).unwrap()
}

/// The words of the kit's note on evidence, and those that are never let out.
const OWN_WORDS: &str = "Ca\u{f1}on";

fn holds(files: &BTreeMap<String, Vec<u8>>, what: &str) -> Vec<String> {
    let held = |bytes: &[u8]| bytes.windows(what.len()).any(|part| part == what.as_bytes());
    files.iter().filter(|(_, bytes)| held(bytes)).map(|(name, _)| name.clone()).collect()
}

#[test]
fn every_form_is_there_and_comes_out_the_same_again() {
    let (archive, _) = archive("export-again");
    let first = export(&archive, "a", &[]);
    for name in [
        "carcasses.geojson",
        "carcasses.ndjson",
        "csv/carcasses.csv",
        "csv/datapackage.json",
        "csv/examinations.csv",
        "csv/findings.csv",
        "csv/reading_shares.csv",
        "csv/readings.csv",
        "dwca/measurementorfact.txt",
        "dwca/meta.xml",
        "dwca/occurrence.txt",
        "parquet/carcasses/season=2026-27/part-0.parquet",
        "parquet/findings/season=2026-27/part-0.parquet",
    ] {
        assert!(first.contains_key(name), "{name} of {:?}", first.keys());
    }
    // Under other names and in another order the files of the archive give the same bytes.
    for (n, path) in archive.received().into_iter().enumerate() {
        fs::rename(&path, path.with_file_name(format!("{}-{n}.txt", ["zz", "aa"][n % 2]))).unwrap();
    }
    assert_eq!(export(&archive, "b", &[]), first);
    // Parts of two exports are not mixed.
    let ran = archive.run(&["export", "--out", &archive.out("a")]);
    assert_eq!(ran.code, 1, "{ran:?}");
    assert!(ran.err.contains("not empty") && ran.err.contains("next:"), "{ran:?}");
    assert_eq!(archive.run(&["export", "--out", &archive.out("c"), "--cell", "20"]).code, 2);
    assert_eq!(archive.run(&["export", "--out", &archive.out("c"), "--cell", "500", "--exact"]).code, 2);
}

/// An export as the page has it made by the thread beside it.
fn at_the_desk(hand: &Hand, asked: Asked) -> Result<(Vec<u8>, Written), String> {
    let errand = Errand { what: What::Export(asked), keyring: hand.keyring.clone() }.told().unwrap();
    let (text, files) = Errand::run_told(&errand, hand.held().all());
    match answered(&text)? {
        Came::Export(written) => Ok((files[EXPORT].to_vec(), written)),
        other @ Came::Season(_) => panic!("{other:?}"),
    }
}

fn unzipped(bytes: &[u8]) -> BTreeMap<String, Vec<u8>> {
    let mut zip = zip::ZipArchive::new(Cursor::new(bytes)).unwrap();
    (0..zip.len())
        .map(|n| {
            let mut file = zip.by_index(n).unwrap();
            let mut bytes = Vec::new();
            file.read_to_end(&mut bytes).unwrap();
            (file.name().unwrap().into_owned(), bytes)
        })
        .collect()
}

/// The page and the command line are one library: the same archive gives the same bytes at the desk.
#[test]
fn the_desk_exports_what_the_command_line_does() {
    let (archive, _) = archive("export-desk");
    let mut hand = Hand::default();
    hand.take_archive(HeldFiles::of_folder(Path::new(archive.folder())).unwrap().all()).unwrap();
    for (n, (asked, args)) in [
        (Asked::typed("", Some("2000")).unwrap(), &[][..]),
        (Asked { names: true, ..Asked::typed("2026", None).unwrap() }, &["--winter", "2026", "--exact", "--names"]),
    ]
    .into_iter()
    .enumerate()
    {
        let (zip, written) = at_the_desk(&hand, asked).unwrap();
        let at_the_desk = unzipped(&zip);
        let by_command = export(&archive, &format!("out-{n}"), args);
        assert_eq!(at_the_desk.keys().collect::<Vec<_>>(), by_command.keys().collect::<Vec<_>>());
        for (name, bytes) in &at_the_desk {
            assert!(*bytes == by_command[name], "{name} differs");
        }
        assert!(written.carcasses > 0 && written.files == by_command.len(), "{written:?}");
    }
    let then = Asked::typed("1999", Some("2000")).unwrap();
    assert!(at_the_desk(&hand, then).unwrap_err().contains("no carcass"), "nothing was found then");
}

#[test]
fn what_was_typed_for_an_export_is_told_where_it_asks_for_nothing() {
    for (winter, cell, words) in [
        ("winter", Some("2000"), "`winter` is no year"),
        ("26", Some("2000"), "`26` is no year"),
        ("+202", Some("2000"), "is no year"),
        ("", Some("2 km"), "`2 km` is no length"),
        ("", Some(""), "is no length"),
        ("", Some("99"), "squares of 99 m are too fine"),
    ] {
        let told = Asked::typed(winter, cell).unwrap_err().to_string();
        assert!(told.contains(words), "{winter} {cell:?}: {told}");
    }
    let asked = Asked::typed(" 2026 ", Some(" 100 ")).unwrap();
    assert_eq!((asked.winter, asked.places.grid_m()), (Some(2026), Some(100)));
}

#[test]
fn places_are_blurred_in_every_form_and_every_form_says_so() {
    let (archive, all) = archive("export-places");
    let blurred = export(&archive, "a", &["--cell", "5000"]);
    let exact = export(&archive, "b", &["--exact"]);
    for deer in &all {
        let (latitude, longitude) = deer.place_deg();
        for degrees in [latitude, longitude] {
            let shown = format!("{degrees:.3}");
            assert_eq!(holds(&blurred, &shown), Vec::<String>::new(), "{shown}");
        }
        let places = holds(&exact, &format!("{latitude}"));
        for name in ["carcasses.geojson", "carcasses.ndjson", "csv/carcasses.csv", "csv/findings.csv"] {
            assert!(places.iter().any(|place| place == name), "{name} of {places:?}");
        }
    }
    let said = holds(&blurred, "the square of 5000 m in which it lies");
    for name in ["carcasses.geojson", "carcasses.ndjson", "csv/datapackage.json", "dwca/occurrence.txt"] {
        assert!(said.iter().any(|place| place == name), "{name} of {said:?}");
    }
    assert!(said.iter().filter(|name| name.ends_with(".parquet")).count() >= 5, "{said:?}");
    let said = holds(&exact, "as they were recorded, not blurred");
    assert!(said.len() >= 8, "{said:?}");
    // The blurring is in the radius: half the diagonal of the square at least.
    let geo: Json = serde_json::from_str(&text(&blurred, "carcasses.geojson")).unwrap();
    for feature in geo["features"].as_array().unwrap() {
        let radius = &feature["properties"]["place_uncertainty_m"];
        if !feature["geometry"].is_null() && !radius.is_null() {
            assert!(radius.as_f64().unwrap() > 5000.0 / f64::sqrt(2.0), "{feature}");
        }
    }
}

#[test]
fn names_and_own_words_go_only_where_asked_for() {
    let (archive, _) = archive("export-names");
    let without = export(&archive, "a", &[]);
    let with = export(&archive, "b", &["--names"]);
    for secret in ["K7", "Kim and Bo", "HYPERLINK", OWN_WORDS] {
        assert_eq!(holds(&without, secret), Vec::<String>::new(), "{secret}");
        assert!(holds(&with, secret).len() >= 3, "{secret}: {:?}", holds(&with, secret));
    }
    let findings = text(&without, "csv/findings.csv");
    let mut reader = csv::Reader::from_reader(findings.as_bytes());
    let head: Vec<String> = reader.headers().unwrap().iter().map(str::to_owned).collect();
    let at = |name: &str| head.iter().position(|column| column == name).unwrap();
    let rows: Vec<csv::StringRecord> = reader.records().map(Result::unwrap).collect();
    let note = rows.iter().find(|row| &row[at("finding")] == "evidence_note").unwrap();
    assert_eq!((&note[at("state")], &note[at("withheld")], &note[at("value")]), ("seen", "true", ""));
    // All five answers stay apart.
    let frozen =
        rows.iter().find(|row| &row[at("finding")] == "marrow_consistency" && &row[at("state")] == "cant_tell");
    assert_eq!(&frozen.unwrap()[at("why")], "frozen");
    assert!(rows.iter().any(|row| &row[at("finding")] == "blood_on_snow" && &row[at("state")] == "not_seen"));
    let facts = text(&without, "dwca/measurementorfact.txt");
    assert!(
        facts.contains("\tmarrow_consistency.femur\tcannotTell\t") && facts.contains("\tblood_on_snow\tnotDetected\t")
    );
    // A crew's name that is a formula is one no longer.
    let crews = text(&with, "csv/carcasses.csv");
    assert!(crews.contains(",'=HYPERLINK(1),") && !crews.contains(",=HYPERLINK"), "{crews}");
}

#[test]
fn nothing_to_export_says_what_to_do() {
    let archive = Archive::new("export-none");
    let ran = archive.run(&["export", "--out", &archive.out("a")]);
    assert_eq!(ran.code, 1, "{ran:?}");
    assert!(ran.err.contains("no carcass") && ran.err.contains("office open --keep"), "{}", ran.err);
}
