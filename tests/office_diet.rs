//! `office diet`: pooled over deer, in text and as JSON. All cases are invented.
#![cfg(feature = "cli")]
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, clippy::indexing_slicing)]

#[path = "office/ran.rs"]
mod ran;

use ran::{Office, folder};
use serde_json::{Value, json};

fn table(name: &str, deer: &[(&str, u32, u32)]) -> Vec<u8> {
    let carcasses: Vec<Value> = deer
        .iter()
        .map(|(n, fir, cedar)| {
            let rows = json!([
                {"finding": "species", "value": "white_tailed_deer"},
                {"finding": "rumen_plant_ml", "item": 3, "value": fir},
                {"finding": "rumen_plant_ml", "item": 1, "value": cedar},
                {"finding": "rumen_sorting", "value": "sorted"},
            ]);
            let exam = json!({"kind": "bench", "at": "2027-02-14T10:00:00-05:00", "findings": rows});
            json!({"name": format!("{name} {n}"), "examinations": [exam]})
        })
        .collect();
    json!({"format": "marrowbook-findings-1", "carcasses": carcasses}).to_string().into_bytes()
}

/// Reference, section 9, row 17: aggregate volume 86.4 %, aggregate percent 70.0 %; here out of two files.
#[test]
fn two_files_are_one_table() {
    let office = Office::new(folder("diet-two"));
    let a = office.put("a.json", &table("north", &[("a", 900, 100)]));
    let b = office.put("b.json", &table("south", &[("b", 50, 50)]));
    let ran = office.run(&["diet", "--json", &a, &b]);
    assert_eq!(ran.code, 0, "{ran:?}");
    let month = &ran.json()["months"][0];
    assert_eq!((month["month"].as_str(), month["deer"].as_u64()), (Some("2027-02"), Some(2)));
    let fir = &month["foods"][0];
    assert_eq!(fir["latin"], "Abies balsamea");
    assert!((fir["aggregate_volume"].as_f64().unwrap() - 86.36).abs() < 0.01);
    assert!((fir["aggregate_percent"].as_f64().unwrap() - 70.0).abs() < 1e-9);
    let text = office.run(&["diet", &a, &b]).out;
    assert!(text.contains("2027-02: 2 deer (0 by points, 2 by ml, 0 by percent)"), "{text}");
    assert!(text.contains("Balsam fir") && text.contains("70.0") && text.contains("86.4"), "{text}");
    assert!(text.contains("2 deer are too few for a range"), "{text}");
}

#[test]
fn the_same_files_give_the_same_digits_and_what_is_left_out_is_named() {
    let office = Office::new(folder("diet-same"));
    let deer = [("a", 9, 1), ("b", 1, 1), ("c", 3, 9), ("d", 0, 40), ("e", 7, 2), ("none", 0, 0)];
    let file = office.put("a.json", &table("deer", &deer));
    let ran = office.run(&["diet", &file]);
    assert_eq!(ran.out, office.run(&["diet", &file]).out);
    // Whose rumen gave no shares is said beside those that count.
    assert!(ran.out.contains("; 1 more found that month without shares"), "{}", ran.out);
    assert_eq!(office.run(&["diet", "--json", &file]).json()["months"][0]["without_shares"], 1);
    assert!(ran.out.contains("5 deer") && ran.out.contains(" to "), "{}", ran.out);
    assert!(ran.err.contains("deer none is left out: All volumes are zero"), "{}", ran.err);
}

/// A slot for a plant of one's own says nothing of the same slot in another record.
#[test]
fn plants_of_their_own_are_pooled_by_the_name_given() {
    let office = Office::new(folder("diet-own"));
    let deer = |name: &str, rows: Value| {
        let mut all = vec![json!({"finding": "species", "value": "white_tailed_deer"})];
        all.extend(rows.as_array().unwrap().iter().cloned());
        all.push(json!({"finding": "rumen_sorting", "value": "sorted"}));
        json!({"name": name, "examinations": [{"kind": "bench", "at": "2027-02-14T10:00:00-05:00", "findings": all}]})
    };
    let own = |item: u32, ml: u32| json!({"finding": "rumen_plant_ml", "item": item, "value": ml});
    let name = |item: u32, text: &str| json!({"finding": "rumen_own_plant", "item": item, "value": text});
    let carcasses = [
        deer("a", json!([own(901, 60), own(3, 40), name(1, "Old man's beard")])),
        deer("b", json!([own(901, 60), own(902, 40), name(1, "abies  Balsamea"), name(2, "old man's  BEARD")])),
        deer("c", json!([own(901, 100)])),
    ];
    let table = json!({"format": "marrowbook-findings-1", "carcasses": carcasses}).to_string();
    let file = office.put("a.json", table.as_bytes());
    let ran = office.run(&["diet", "--json", &file]);
    let foods = ran.json()["months"][0]["foods"].clone();
    let of = |code: &str| {
        let line = foods.as_array().unwrap().iter().find(|line| line["food"] == code);
        line.unwrap_or_else(|| panic!("{code}: {foods}"))["aggregate_percent"].as_f64().unwrap()
    };
    let close = |got: f64, expected: f64| assert!((got - expected).abs() < 1e-9, "{got} {expected} {foods}");
    close(of("own:old man's beard"), 100.0 / 3.0);
    close(of("balsam_fir"), 100.0 / 3.0);
    close(of("own_unnamed"), 100.0 / 3.0);
    assert!(office.run(&["diet", &file]).out.contains("old man's beard (a crew's own)"));
}

/// Two counts of one rumen are one deer with their mean, each count as much as the other (rule of the house): 90 and 50
/// of a hundred are 70, though one count has ten times the volume; and it is said.
#[test]
fn a_rumen_counted_twice_is_one_deer_and_it_is_said() {
    let office = Office::new(folder("diet-twice"));
    let exam = |day: u32, fir: u32, cedar: u32| {
        let rows = json!([
            {"finding": "species", "value": "white_tailed_deer"},
            {"finding": "rumen_plant_ml", "item": 3, "value": fir},
            {"finding": "rumen_plant_ml", "item": 1, "value": cedar},
            {"finding": "rumen_sorting", "value": "sorted"},
        ]);
        json!({"kind": "bench", "at": format!("2027-02-{day}T10:00:00-05:00"), "findings": rows})
    };
    let said = |name: &str, exams: Value| {
        let table = json!({"format": "marrowbook-findings-1", "carcasses": [{"name": name, "examinations": exams}]});
        let file = office.put("a.json", table.to_string().as_bytes());
        let month = office.run(&["diet", "--json", &file]).json()["months"][0].clone();
        assert_eq!(month["deer"], 1);
        (month["foods"][0]["aggregate_percent"].as_f64().unwrap(), office.run(&["diet", &file]).out)
    };
    let (percent, text) = said("twice", json!([exam(14, 900, 100), exam(15, 50, 50)]));
    assert!((percent - 70.0).abs() < 1e-9, "{percent}");
    assert!(text.contains("with more than one count: their mean is used"), "{text}");
    let (percent, text) = said("once", json!([exam(14, 900, 100)]));
    assert!((percent - 90.0).abs() < 1e-9, "{percent}");
    assert!(!text.contains("more than one count"), "{text}");
}

#[test]
fn nothing_counted_and_no_file() {
    let office = Office::new(folder("diet-none"));
    let file = office.put("a.json", include_bytes!("office/findings-example.json"));
    let ran = office.run(&["diet", &file]);
    assert!(ran.out.contains("No rumen was counted or sorted"), "{ran:?}");
    assert!(ran.err.contains("is left out: Its rumen was not counted or sorted."), "{}", ran.err);
    assert_eq!(office.run(&["diet", "missing.json"]).code, 1);
}
