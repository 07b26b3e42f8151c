//! `office sketch`: what a crew paced out, on the map and on paper. The scene is invented; where it lies on the globe
//! is checked against geographiclib (tests/reference/scene.csv), the form against RFC 7946.
#![cfg(feature = "cli")]
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, clippy::indexing_slicing)]
// Numbers of a table of whole degrees and counts; digits as written.
#![allow(clippy::cast_possible_truncation, clippy::cast_sign_loss, clippy::float_cmp)]

#[path = "office/ran.rs"]
mod ran;

use marrowbook::science::place::{Point, between};
use ran::{Office, folder};
use serde_json::{Value, json};
use std::fs;

fn mark(n: u16, what: &str, from: u16, bearing: i64, far: &Value) -> Vec<Value> {
    let mut rows = vec![
        json!({"finding": "sketch_what", "item": n, "value": what}),
        json!({"finding": "sketch_from_count", "item": n, "value": from}),
        json!({"finding": "sketch_bearing_deg", "item": n, "value": bearing}),
    ];
    if let Some(paces) = far.as_i64() {
        rows.push(json!({"finding": "sketch_paces_count", "item": n, "value": paces}));
        rows.push(json!({"finding": "sketch_pace_cm", "item": n, "value": 70}));
    } else {
        rows.push(json!({"finding": "sketch_distance_m", "item": n, "value": far}));
    }
    rows
}

fn table(rows: Vec<Value>) -> Vec<u8> {
    let mut all = vec![json!({"finding": "species", "value": "white_tailed_deer"})];
    all.extend(rows);
    let exam = json!({"at": "2027-02-14T10:00:00-05:00", "observer": "K7", "findings": all});
    json!({"format": "marrowbook-findings-1", "carcasses": [{"name": "doe by the brook", "examinations": [exam]}]})
        .to_string()
        .into_bytes()
}

fn files(office: &Office) -> (Value, String) {
    let read =
        |ending: &str| fs::read_to_string(office.folder.join(format!("sketch-doe-by-the-brook.{ending}"))).unwrap();
    (serde_json::from_str(&read("geojson")).unwrap(), read("svg"))
}

fn out(office: &Office) -> String {
    office.folder.to_str().unwrap().to_owned()
}

#[test]
fn chains_of_paces_come_to_where_geographiclib_puts_them() {
    let mut checked = 0;
    for line in include_str!("reference/scene.csv").lines().filter(|l| !l.starts_with('#')) {
        let n: Vec<f64> = line.split(',').map(|word| word.parse().unwrap()).collect();
        let legs = n[3] as usize;
        let mut rows = vec![
            json!({"finding": "place", "value": {"lat_deg": n[0], "lon_deg": n[1], "accuracy_m_95": 8}}),
            json!({"finding": "sketch_north", "value": "compass_needle"}),
        ];
        for leg in 0..legs {
            let number = u16::try_from(leg + 1).unwrap();
            rows.extend(mark(number, "blood", number - 1, n[4 + 2 * leg] as i64, &json!(n[5 + 2 * leg])));
        }
        let office = Office::new(folder("sketch-chains"));
        let file = office.put("table.json", &table(rows));
        let ran = office.run(&["sketch", "--out", &out(&office), "--declination", &n[2].to_string(), &file]);
        assert_eq!((ran.code, ran.err.as_str()), (0, ""), "{ran:?}");
        let (map, _) = files(&office);
        let end = map["features"].as_array().unwrap().last().unwrap();
        let [lon, lat] = [0, 1].map(|i| end["geometry"]["coordinates"][i].as_f64().unwrap());
        let [end_lat, end_lon] = [n[4 + 2 * legs], n[5 + 2 * legs]];
        let at = |lat_deg, lon_deg| Point { lat_deg, lon_deg };
        // Degrees are written to 1e-7, 1.1 cm; the plane is good to 2 cm over this.
        let off_m = between(at(lat, lon), at(end_lat, end_lon)).distance_m;
        assert!(off_m < 0.03, "{off_m} m off: {line}");
        let metres = &end["local_metres"]["coordinates"];
        assert!((metres[0].as_f64().unwrap() - n[6 + 2 * legs]).abs() < 0.006, "{line}");
        assert!((metres[1].as_f64().unwrap() - n[7 + 2 * legs]).abs() < 0.006, "{line}");
        checked += 1;
    }
    assert_eq!(checked, 40);
}

fn scene() -> Vec<Value> {
    let mut rows = vec![json!({"finding": "sketch_head_deg", "value": 90})];
    rows.extend(mark(1, "drag", 0, 180, &json!(10)));
    rows.extend(mark(2, "blood", 1, 180, &json!(2.5)));
    rows.extend(mark(3, "bed", 0, 45, &json!(20)));
    rows
}

#[test]
fn without_a_position_the_features_have_no_geometry_and_say_where_they_lie_from_the_body() {
    let office = Office::new(folder("sketch-local"));
    let file = office.put("table.json", &table(scene()));
    let ran = office.run(&["sketch", "--out", &out(&office), &file]);
    assert_eq!(ran.code, 0, "{ran:?}");
    assert!(ran.err.contains("no position of the body") && ran.err.contains("not turned to true north"), "{}", ran.err);
    let (map, svg) = files(&office);
    // RFC 7946, 3.2: an unlocated feature has a geometry of null.
    assert!(map["features"].as_array().unwrap().iter().all(|f| f["geometry"].is_null() && f["type"] == "Feature"));
    let drag = &map["features"][1];
    assert_eq!(drag["local_metres"], json!({"type": "LineString", "coordinates": [[0.0, 0.0], [0.0, -7.0]]}));
    assert_eq!(drag["properties"]["paces"], 10);
    assert_eq!(drag["properties"]["pace_cm"], 70);
    assert_eq!(drag["properties"]["drawn_by"], "K7");
    assert_eq!(map["features"][2]["local_metres"]["coordinates"], json!([0.0, -9.5]));
    assert!(map["marrowbook_sketch"]["declination_deg"].is_null());
    assert_eq!(map["marrowbook_sketch"]["sketches"][0]["head_deg"], 90);
    // To scale on paper: 20 paces of 0.7 m north-east are 9.9 m east and 9.9 m north; the drawing spans 9.5 m down to
    // 9.9 m up.
    let at = |n: &str| -> (f64, f64) {
        let text = &svg[svg.find(&format!(">{n}</text>")).map(|end| svg[..end].rfind("<text").unwrap()).unwrap()..];
        let number = |name: &str| {
            let from = text.find(&format!("{name}=\"")).unwrap() + name.len() + 2;
            text[from..].split('"').next().unwrap().parse::<f64>().unwrap()
        };
        (number(" x"), number(" y"))
    };
    let ((x1, y1), (x2, y2), (x3, y3)) = (at("1"), at("2"), at("3"));
    let units_a_metre = (y2 - y1) / 2.5;
    assert!((x1 - x2).abs() < 1.0);
    // Whole units of the drawing are printed: 2.5 m are 106 of them.
    assert!(((x3 - x1) / units_a_metre - 9.9).abs() < 0.2, "{x3} {x1} {units_a_metre}");
    assert!(((y1 - y3) / units_a_metre - 16.9).abs() < 0.3, "{y1} {y3} {units_a_metre}");
    assert!(svg.contains("rotate(90)") && svg.contains("\u{a0}m</text>") && svg.contains(">N</text>"));
    assert!(!svg.contains("style="), "no style of its own: the page's policy would stop it");
}

#[test]
fn a_needle_is_turned_and_a_map_is_not() {
    let east_of = |north: &str, declination: &str| {
        let mut rows = vec![
            json!({"finding": "place", "value": {"lat_deg": 47.95, "lon_deg": -91.45}}),
            json!({"finding": "sketch_north", "value": north}),
        ];
        rows.extend(mark(1, "blood", 0, 0, &json!(100.0)));
        let office = Office::new(folder("sketch-north"));
        let file = office.put("table.json", &table(rows));
        let ran = office.run(&["sketch", "--out", &out(&office), "--declination", declination, &file]);
        assert_eq!(ran.code, 0, "{ran:?}");
        let at = files(&office).0["features"][1]["geometry"]["coordinates"].clone();
        (at[0].as_f64().unwrap() + 91.45 + 1e-9).mul_add(1e7, 0.0).trunc()
    };
    // East of true north positive: a needle that points 10 degrees east leads east of the meridian.
    assert!(east_of("compass_needle", "10") > 1_000.0 && east_of("compass_needle", "-10") < -1_000.0);
    // Due north by the map stays on the meridian, to the last digit written.
    assert_eq!(east_of("true_north", "10"), 0.0);
    let office = Office::new(folder("sketch-bad"));
    let file = office.put("table.json", &table(scene()));
    for bad in ["200", "east"] {
        assert_eq!(office.run(&["sketch", "--declination", bad, &file]).code, 2);
    }
    let none = office.put("none.json", &table(Vec::new()));
    assert!(office.run(&["sketch", &none]).err.contains("no scene sketch"));
}

#[test]
fn a_mark_that_hangs_on_nothing_is_left_out_and_said() {
    let office = Office::new(folder("sketch-hangs"));
    let mut rows = scene();
    rows.extend(mark(5, "scat", 4, 0, &json!(3)));
    let file = office.put("table.json", &table(rows));
    let ran = office.run(&["sketch", "--out", &out(&office), &file]);
    assert!(ran.err.contains("hangs on one that was taken back"), "{}", ran.err);
    assert_eq!(files(&office).0["features"].as_array().unwrap().len(), 4);
}

/// The drawing of one mark, 20 paces of 0.7 m east of the body.
fn drawn(what: &str) -> String {
    let office = Office::new(folder(&format!("sketch-one-{what}")));
    let file = office.put("table.json", &table(mark(1, what, 0, 90, &json!(20))));
    assert_eq!(office.run(&["sketch", "--out", &out(&office), &file]).code, 0);
    files(&office).1
}

/// The text between two others.
fn between_texts<'a>(text: &'a str, before: &str, after: &str) -> &'a str {
    let from = text.find(before).unwrap_or_else(|| panic!("no {before} in {text}")) + before.len();
    text[from..].split(after).next().unwrap()
}

/// The leg: its length in the drawing's units and how broad it is drawn.
fn leg(svg: &str) -> (f64, f64) {
    let of = |path: &&str| path.split('"').next().unwrap().contains('L');
    let path = svg.split("<path d=\"M").skip(1).find(of).unwrap();
    let ends: Vec<f64> =
        path.split('"').next().unwrap().split(['L', ' ']).map(|number| number.parse().unwrap()).collect();
    let broad = between_texts(path, "stroke-width=\"", "\"").parse().unwrap();
    ((ends[2] - ends[0]).hypot(ends[3] - ends[1]), broad)
}

/// What is drawn is as long as what was paced: the bar by what it says, the body by half a trunk of 0.6 m (the drawing's
/// own). The bar takes some of the page and not all of it. Lines are drawn to the unit, so half a unit more or less.
#[test]
fn bar_and_body_are_drawn_to_the_scale_of_the_marks() {
    let svg = drawn("blood");
    let scale = leg(&svg).0 / (20.0 * 0.7);
    let bar: f64 = between_texts(&svg, "<path d=\"M30 950v20h", "v").parse().unwrap();
    let metres: f64 =
        between_texts(&svg[svg.find("v20h").unwrap()..], "stroke=\"none\">", "\u{a0}m</text>").parse().unwrap();
    assert!((bar / metres - scale).abs() < 1.5 / 14.0, "{bar} for {metres} m, {scale} a metre");
    assert!((100.0..=300.0).contains(&bar), "{bar}");
    let trunk: f64 = between_texts(&svg, " ry=\"", "\"").parse().unwrap();
    assert!((trunk - 0.6 * scale).abs() < 0.6, "{trunk}, {scale} a metre");
}

/// Where the leg itself is what was seen, it is drawn broad; where a point was paced to, the leg is a hair and the point
/// has a symbol that no other kind has. Rules of the house.
#[test]
fn every_kind_of_mark_is_told_from_the_others() {
    // Behind the leg, the only path whose line is given by its ends.
    let symbol = |svg: &str| {
        let leg = svg.split("<path d=\"M").skip(1).find(|path| path.split('"').next().unwrap().contains('L')).unwrap();
        let behind = &svg[svg.find(leg).unwrap()..];
        between_texts(behind, "<g transform", "</g>").split_once('>').unwrap().1.to_owned()
    };
    let lines = ["drag", "tracks", "trail_to_body"].map(drawn);
    let points = ["blood", "body_part", "hair", "bed", "scat", "landmark"].map(drawn);
    assert!(lines.iter().all(|svg| leg(svg).1 >= 8.0) && points.iter().all(|svg| leg(svg).1 <= 2.0));
    let mut symbols: Vec<String> = points.iter().chain([&lines[0]]).map(|svg| symbol(svg)).collect();
    symbols.sort();
    symbols.dedup();
    assert_eq!(symbols.len(), 7, "six kinds of point, and the dot at the end of a line");
}
