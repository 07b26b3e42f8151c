//! `office season`: from an archive folder to tables, plots and a signed manifest. All carcasses are invented.
#![cfg(feature = "cli")]
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, clippy::indexing_slicing)]
#![allow(clippy::case_sensitive_file_extension_comparisons)] // names that the program itself gives

#[path = "office/kit.rs"]
mod kit;
#[path = "office/ran.rs"]
mod ran;
#[path = "office/season_folder.rs"]
mod season_folder;

use std::collections::BTreeMap;
use std::fs;
use std::path::Path;

use marrowbook::office::errand::{Came, Errand, What, answered};
use marrowbook::office::files::HeldFiles;
use marrowbook::office::hand::Hand;
use marrowbook::office::season::Asked;
use marrowbook::office::season::written::manifest_file;
use marrowbook::record::short_code::short_code;
use ran::Ran;
use season_folder::{Archive, Deer, PASSPHRASE, carcass};
use serde_json::Value as Json;

/// Name and bytes of every file of a folder.
fn written(folder: &Path) -> BTreeMap<String, Vec<u8>> {
    fs::read_dir(folder)
        .unwrap()
        .map(|entry| entry.unwrap().path())
        .map(|path| (path.file_name().unwrap().to_str().unwrap().to_owned(), fs::read(path).unwrap()))
        .collect()
}

fn deer(from: u8, to: u8) -> Vec<Deer> {
    (from..to).map(Deer::of).collect()
}

fn json(ran: &Ran) -> Json {
    serde_json::from_str(&ran.out).unwrap_or_else(|error| panic!("{error}: {ran:?}"))
}

#[test]
fn a_season_is_written_signed_and_rerun_to_the_byte() {
    let archive = Archive::new("season-rerun");
    archive.keep("north.txt", &season_folder::bundle(&kit::phone(), "north", &deer(1, 9), &[]));
    archive.winter_log("gate.csv");
    let out = archive.out("a");
    let ran = archive.run(&["season", archive.folder(), "--out", &out]);
    assert_eq!(ran.code, 0, "{ran:?}");
    assert!(ran.out.contains("2026-27: 8 carcasses found, 8 counted"), "{ran:?}");
    let first = written(Path::new(&out));
    let wanted =
        ["ages.csv", "ages.svg", "causes.csv", "causes.svg", "manifest.txt", "map.csv", "season.json", "weeks.svg"];
    for name in wanted {
        assert!(first.contains_key(name), "{name} of {:?}", first.keys());
    }
    // Again, and with the files under other names and in another order.
    for (n, path) in archive.received().into_iter().enumerate() {
        let other = path.with_file_name(format!("{}-{n}.txt", ["zz", "aa"][n % 2]));
        fs::rename(path, other).unwrap();
    }
    let again = archive.out("b");
    assert_eq!(archive.run(&["season", archive.folder(), "--out", &again]).code, 0);
    assert_eq!(written(Path::new(&again)), first);
    // What comes in later does not move a run from the manifest.
    archive.keep("later.txt", &season_folder::bundle(&kit::lost_phone(), "south", &deer(9, 12), &[]));
    let from_manifest = archive.out("c");
    let manifest = format!("{out}/manifest.txt");
    let ran = archive.run(&["season", archive.folder(), "--out", &from_manifest, "--again", &manifest]);
    assert_eq!(ran.code, 0, "{ran:?}");
    assert!(ran.err.contains("every byte came out as the manifest says"), "{ran:?}");
    assert_eq!(written(Path::new(&from_manifest)), first);
    // A manifest that somebody else made, or of which a file is gone, is refused.
    let changed = fs::read_to_string(&manifest).unwrap().replacen("eyJ", "eyK", 1);
    let other = archive.put("changed.txt", changed.as_bytes());
    let ran = archive.run(&["season", archive.folder(), "--out", &again, "--again", &other]);
    assert_eq!(ran.code, 1, "{ran:?}");
    assert!(ran.err.contains("no season manifest") && ran.err.contains("next:"), "{ran:?}");
    fs::remove_file(&archive.received()[0]).unwrap();
    fs::remove_file(&archive.received()[0]).unwrap();
    let ran = archive.run(&["season", archive.folder(), "--out", &again, "--again", &manifest]);
    assert!(ran.code == 1 && ran.err.contains("not in the archive"), "{ran:?}");
}

/// The page and the command line are one library: the same archive gives the same bytes at the desk, through the text
/// in which the page hands it to the thread beside it.
#[test]
fn the_desk_works_out_what_the_command_line_does() {
    let archive = Archive::new("season-desk");
    archive.keep("north.txt", &season_folder::bundle(&kit::phone(), "north", &deer(1, 9), &[]));
    archive.winter_log("gate.csv");
    let mut hand = Hand::default();
    hand.take_archive(HeldFiles::of_folder(Path::new(archive.folder())).unwrap().all()).unwrap();
    let work = |winter: Option<i32>| {
        let what = What::Season(Asked { winter, ..Asked::default() });
        let errand = Errand { what, keyring: hand.keyring.clone() }.told().unwrap();
        let (text, files) = Errand::run_told(&errand, hand.held().all());
        (answered(&text), files)
    };
    for (winter, name) in [(None, "a"), (Some(2025), "b")] {
        let (came, mut files) = work(winter);
        let Ok(Came::Season(shown)) = came else { panic!("{came:?}") };
        let out = archive.out(name);
        let more = winter.map(|winter| winter.to_string());
        let more: Vec<&str> = more.iter().flat_map(|winter| ["--winter", winter.as_str()]).collect();
        let ran = archive.run(&[&["season", archive.folder(), "--out", &out][..], &more].concat());
        assert!(ran.out.contains(&format!("{}: {} ", shown.winter, shown.found)), "{ran:?}");
        let key = hand.office_key().unwrap().unlock(PASSPHRASE).unwrap();
        let (name, bytes) = manifest_file(&shown.manifest, Some(&key)).unwrap();
        files.insert(name, bytes.into());
        let by_command = written(Path::new(&out));
        assert_eq!(files.keys().collect::<Vec<_>>(), by_command.keys().collect::<Vec<_>>());
        for (name, bytes) in &files {
            assert!(**bytes == *by_command[name], "{name} differs");
        }
    }
    hand = Hand::default();
    let work = |text: &str| answered(&Errand::run_told(text, hand.held().all()).0);
    let none = Errand { what: What::Season(Asked::default()), keyring: hand.keyring.clone() }.told().unwrap();
    assert!(work(&none).unwrap_err().contains("no carcass with a date"));
    assert!(!work("{}").unwrap_err().is_empty() && answered("").is_err());
}

/// Elements of a drawing of one name.
fn elements<'a>(svg: &'a str, name: &str) -> Vec<&'a str> {
    let begin = format!("{name} ");
    svg.split('<').filter(|one| one.starts_with(&begin)).collect()
}

fn attribute(element: &str, name: &str) -> f64 {
    let from = element.find(&format!(" {name}=\"")).unwrap_or_else(|| panic!("no {name}: {element}")) + name.len() + 3;
    element[from..].split('"').next().unwrap().parse().unwrap()
}

fn label(text: &str) -> &str {
    text.split('>').nth(1).unwrap()
}

/// On the map squares lie as far from each other as on the globe: great circles by the haversine formula, on the sphere of
/// the Earth's mean radius (from memory).
#[test]
fn squares_of_the_map_lie_as_they_lie_on_the_ground() {
    let archive = Archive::new("season-map");
    // The last one lies 60 km north of the first, at its very longitude.
    let mut all = deer(1, 9);
    all.push(Deer { metres_north: 60_000, ..Deer::of(40) });
    archive.keep("a.txt", &season_folder::bundle(&kit::phone(), "north", &all, &[]));
    let out = archive.out("a");
    assert_eq!(archive.run(&["season", archive.folder(), "--out", &out]).code, 0);
    let files = written(Path::new(&out));
    let season: Json = serde_json::from_slice(&files["season.json"]).unwrap();
    let map = String::from_utf8(files["map.svg"].clone()).unwrap();
    let squares: Vec<&str> = elements(&map, "rect").into_iter().filter(|one| one.contains("fill=\"rgb(")).collect();
    let cells = season["places"]["cells"].as_array().unwrap();
    assert!(squares.len() == cells.len() && cells.len() > 4);
    let side = attribute(squares[0], "width");
    let cell_km = season["places"]["cell_m"].as_f64().unwrap() / 1000.0;
    let drawn: Vec<(f64, f64)> = squares.iter().map(|one| (attribute(one, "x"), attribute(one, "y"))).collect();
    let place = |cell: &Json| ["latitude", "longitude"].map(|name| cell[name].as_f64().unwrap().to_radians());
    let mut farthest = 0.0_f64;
    for (one, a) in cells.iter().zip(&drawn) {
        for (other, b) in cells.iter().zip(&drawn) {
            let ([lat_a, lon_a], [lat_b, lon_b]) = (place(one), place(other));
            let half = |angle: f64| libm::sin(angle / 2.0) * libm::sin(angle / 2.0);
            let h = half(lat_b - lat_a) + libm::cos(lat_a) * libm::cos(lat_b) * half(lon_b - lon_a);
            let km = 2.0 * 6371.0088 * libm::asin(h.sqrt());
            let on_paper = (a.0 - b.0).hypot(a.1 - b.1) / side * cell_km;
            // Drawn to a tenth of a unit, and a plane is no sphere.
            assert!(
                (km - on_paper).abs() < 0.3 / side * cell_km + 0.01 * km,
                "{km} km, drawn as {on_paper}: {one} {other}"
            );
            farthest = farthest.max(km);
        }
    }
    assert!(farthest > 59.0, "{farthest}");
}

/// Read as a person reads them: against the marks that stand at the axis, each bar and mark has its table's figure.
/// Drawings are printed to a tenth of a unit.
fn plots_show_their_tables(files: &BTreeMap<String, Vec<u8>>, season: &Json) {
    let svg = |name: &str| String::from_utf8(files[name].clone()).unwrap();
    for name in ["ages.svg", "causes.svg", "map.svg", "weeks.svg"] {
        let svg = svg(name);
        assert!(svg.contains("2026-27"), "{name} names its winter");
        let mut drawn = elements(&svg, "text");
        drawn.extend(elements(&svg, "rect").into_iter().filter(|one| one.starts_with("rect x=")));
        assert!(
            drawn.into_iter().map(|one| attribute(one, "x")).all(|x| (0.0..=960.0).contains(&x)),
            "{name} is on its page"
        );
    }
    // Deaths by week: the upper plot's highest mark and its lowest, nought, give the scale.
    let weeks = svg("weeks.svg");
    let bars: Vec<&str> = elements(&weeks, "rect").into_iter().filter(|bar| bar.ends_with("fill=\"#888\"/>")).collect();
    let table = season["weeks"]["weeks"].as_array().unwrap();
    assert_eq!(bars.len(), table.len());
    let texts = elements(&weeks, "text");
    let marks: Vec<(f64, f64)> = texts
        .iter()
        .filter(|text| text.contains("text-anchor=\"end\"") && attribute(text, "y") < 310.0)
        .map(|text| (attribute(text, "y"), label(text).parse().unwrap()))
        .collect();
    let ((bottom, nought), (top, most)) = (marks[0], *marks.last().unwrap());
    assert!(nought == 0.0 && most >= 1.0 && top < bottom, "{marks:?}");
    let middle = |bar: &str| attribute(bar, "x") + attribute(bar, "width") / 2.0;
    let step = (middle(bars[bars.len() - 1]) - middle(bars[0])) / (bars.len() - 1) as f64;
    for (at, (bar, week)) in bars.iter().zip(table).enumerate() {
        let deaths = attribute(bar, "height") / (bottom - top) * most;
        assert!((deaths - week["deaths"].as_f64().unwrap()).abs() < 0.01 * most, "{bar} {week}");
        assert!((middle(bar) - middle(bars[0]) - step * at as f64).abs() < 0.3 && step > 10.0, "{bar}");
    }
    let monday = &table[0]["monday"].as_str().unwrap()[5..];
    let named = texts.iter().find(|text| label(text) == monday).unwrap_or_else(|| panic!("{monday}: {texts:?}"));
    assert!((attribute(named, "x") - middle(bars[0])).abs() < 0.3);
    // Causes: a filled square at each share, a hollow one at what was before, each on the line of its name.
    let causes = svg("causes.svg");
    let texts = elements(&causes, "text");
    let at = |text: &str| attribute(texts.iter().find(|one| label(one) == text).unwrap(), "x");
    let (x0, x100) = (at("0"), at("100"));
    let rects = elements(&causes, "rect");
    let squares = |look: &str| rects.iter().filter(|one| one.contains(look)).copied().collect::<Vec<_>>();
    let (filled, hollow) = (squares("width=\"10.0\" height=\"10.0\""), squares("width=\"8.0\" height=\"8.0\""));
    let shares = season["causes"]["shares"].as_array().unwrap();
    assert_eq!((filled.len(), hollow.len()), (shares.len(), shares.len()));
    for ((line, filled), hollow) in shares.iter().zip(filled).zip(hollow) {
        for (square, figure) in [(filled, "share"), (hollow, "prior")] {
            let read = (middle(square) - x0) / (x100 - x0);
            assert!((read - line[figure].as_f64().unwrap()).abs() < 0.002, "{figure}: {read} {line}");
        }
        let name = texts.iter().find(|one| label(one) == line["name"].as_str().unwrap()).unwrap();
        let (line_y, filled_y, hollow_y) = (attribute(name, "y"), attribute(filled, "y"), attribute(hollow, "y"));
        assert!(filled_y < line_y && line_y < filled_y + 17.0 && hollow_y > filled_y && hollow_y < line_y + 12.0);
    }
}

#[test]
fn every_count_says_what_was_not_looked_at() {
    let archive = Archive::new("season-counts");
    let mut all = deer(1, 9);
    all[0].bare = true;
    all[1].species = "other_deer";
    archive.keep("north.txt", &season_folder::bundle(&kit::phone(), "north", &all, &[]));
    let season = json(&archive.run(&["season", "--out", &archive.out("a"), "--json"]));
    assert_eq!(season["carcasses"]["found"], 8);
    assert_eq!(season["carcasses"]["counted"], 7, "{}", season["carcasses"]);
    assert_eq!(season["carcasses"]["left_out"][0]["carcasses"], 1);
    let ages = &season["ages"];
    assert_eq!((ages["aged"].as_u64(), ages["not_aged"].as_u64()), (Some(6), Some(1)), "{ages}");
    let of = |finding: &str| -> Json {
        let lines = season["findings"].as_array().unwrap();
        lines.iter().find(|line| line["finding"] == finding).unwrap().clone()
    };
    let blood = of("blood_on_snow");
    let sum: u64 = ["seen", "not_seen", "differ", "cant_tell", "not_looked", "part_gone"]
        .iter()
        .map(|state| blood[*state].as_u64().unwrap())
        .sum();
    assert_eq!(sum, 7, "{blood}");
    assert!(blood["not_looked"].as_u64().unwrap() >= 1, "{blood}");
    assert_eq!(of("fetus")["share"], Json::Null, "nobody looked: no share");
    let condition = season["condition"].as_array().unwrap();
    assert_eq!(condition.iter().map(|line| line["carcasses"].as_u64().unwrap()).sum::<u64>(), 7);
    // Deaths by week: each spread once, none lost.
    let weeks = season["weeks"]["weeks"].as_array().unwrap();
    let deaths: f64 = weeks.iter().map(|week| week["deaths"].as_f64().unwrap()).sum();
    let (spread, apart) = (season["weeks"]["spread"].as_f64().unwrap(), season["weeks"]["apart"].as_f64().unwrap());
    assert!(spread > 3.0 && (deaths - spread).abs() < 0.01, "{deaths} {spread}");
    assert!((spread + apart + season["weeks"]["no_window"].as_f64().unwrap() - 7.0).abs() < 1e-9);
    // Shares of causes add to one, and prior and data stand apart.
    let shares = season["causes"]["shares"].as_array().unwrap();
    let sum: f64 =
        shares.iter().filter(|line| line["what"] != "any_predator").map(|line| line["share"].as_f64().unwrap()).sum();
    assert!((sum - 1.0).abs() < 0.001, "{sum}");
    assert!(shares.iter().all(|line| line["prior"].is_number() && line["data_alone"].is_number()));
    plots_show_their_tables(&written(Path::new(&archive.out("a"))), &season);
    // Few deer: no survival; no search: no density. Both say why.
    assert!(season["survival"]["refused"].as_str().unwrap().contains("too few"), "{}", season["survival"]);
    assert!(season["density"]["refused"].as_str().unwrap().contains("search on lines"), "{}", season["density"]);
}

#[test]
fn no_place_is_given_finer_than_the_cell_and_no_cell_is_a_formula() {
    let archive = Archive::new("season-places");
    let mut all = deer(1, 13);
    all[0].bare = true;
    archive.keep("north.txt", &season_folder::bundle(&kit::phone(), "=HYPERLINK(1)", &all[..6], &[]));
    archive.keep("south.txt", &season_folder::bundle(&kit::lost_phone(), "south", &all[6..], &[]));
    let out = archive.out("a");
    let ran = archive.run(&["season", "--out", &out, "--cell", "5000"]);
    assert_eq!(ran.code, 0, "{ran:?}");
    let files = written(Path::new(&out));
    let exact: Vec<String> = all.iter().map(|deer| format!("{:.4}", deer.place_deg().0)).collect();
    for (name, bytes) in &files {
        let text = String::from_utf8_lossy(bytes);
        for latitude in &exact {
            assert!(!text.contains(latitude.as_str()), "{name} holds {latitude}");
        }
        if name.ends_with(".csv") {
            let mut reader = csv::ReaderBuilder::new().flexible(true).from_reader(&bytes[..]);
            for cell in reader.records().flat_map(|row| row.unwrap().iter().map(str::to_owned).collect::<Vec<_>>()) {
                let formula = cell.starts_with(['=', '+', '@', '\t', '\r'])
                    || (cell.starts_with('-') && cell.parse::<f64>().is_err());
                assert!(!formula, "{name}: {cell}");
            }
        }
    }
    let comparisons = String::from_utf8_lossy(&files["comparisons.csv"]);
    assert!(comparisons.contains("'=HYPERLINK(1)") && comparisons.contains("south"), "{comparisons}");
    // Of the first crew's six, one was not looked at; blood was there at every third, marks of a chase at every fourth.
    let season: Json = serde_json::from_slice(&files["season.json"]).unwrap();
    let crews = &season["comparisons"][0];
    assert_eq!(crews["carcasses"], serde_json::json!([6, 6]), "{crews}");
    for (finding, first, second) in [("blood_on_snow", [2, 5], [2, 6]), ("chase_or_struggle_marks", [1, 5], [2, 6])] {
        let line = crews["findings"].as_array().unwrap().iter().find(|line| line["finding"] == finding).unwrap();
        assert_eq!(line["first"], serde_json::json!(first), "{line}");
        assert_eq!(line["second"], serde_json::json!(second), "{line}");
        assert_eq!(line["no_result"], serde_json::json!([1, 0]), "{line}");
        let share = |[seen, of]: [i32; 2]| f64::from(seen) / f64::from(of);
        assert!((line["difference"].as_f64().unwrap() - (share(first) - share(second))).abs() < 1e-3, "{line}");
        // Fisher's two sides of tables as small as these hold every other table (R: fisher.test, 1).
        assert!((line["fisher_p"].as_f64().unwrap() - 1.0).abs() < 1e-9, "{line}");
    }
    assert!(archive.run(&["season", "--out", &out, "--cell", "10"]).code == 2);
}

#[test]
fn what_is_not_intact_or_not_known_counts_in_no_figure_and_is_named() {
    let archive = Archive::new("season-strangers");
    archive.keep("north.txt", &season_folder::bundle(&kit::phone(), "north", &deer(1, 6), &[]));
    archive.keep("stranger.txt", &season_folder::bundle(&kit::stranger(), "who", &deer(6, 9), &[]));
    let ran = archive.run(&["season", "--out", &archive.out("a"), "--json"]);
    assert_eq!(ran.code, 3, "{ran:?}");
    let season = json(&ran);
    assert_eq!(season["carcasses"]["found"], 5);
    assert!(season["not_used"][0]["reason"].as_str().unwrap().contains("not enrolled"), "{}", season["not_used"]);
    // By the name that it has in the archive, so that somebody finds it.
    let strange =
        archive.received().into_iter().filter(|path| ran.err.contains(&*path.file_name().unwrap().to_string_lossy()));
    assert_eq!(strange.count(), 1, "{}", ran.err);
    fs::write(archive.received()[0].with_file_name("cut.txt"), b"{\"payload\":\"").unwrap();
    let ran = archive.run(&["season", "--out", &archive.out("a"), "--json"]);
    assert_eq!((ran.code, json(&ran)["carcasses"]["found"].as_u64()), (4, Some(5)), "{ran:?}");
    assert!(ran.err.contains("counts in no figure: damaged"), "{}", ran.err);
}

#[test]
fn a_winter_in_which_nothing_was_found_is_told() {
    let archive = Archive::new("season-other-winter");
    archive.keep("north.txt", &season_folder::bundle(&kit::phone(), "north", &deer(1, 6), &[]));
    let ran = archive.run(&["season", "--out", &archive.out("a"), "--winter", "1999"]);
    assert!(ran.err.contains("no carcass of the winter of 1999-00"), "{ran:?}");
    assert!(!archive.run(&["season", "--out", &archive.out("b")]).err.contains("no carcass"), "one is there");
    let ran = archive.run(&["export", "--out", &archive.out("c"), "--winter", "1999"]);
    assert!(ran.code == 1 && ran.err.contains("in the winter of 1999-00") && ran.err.contains("--winter"), "{ran:?}");
}

#[test]
fn nothing_to_make_a_season_of() {
    let archive = Archive::new("season-none");
    let ran = archive.run(&["season", "--out", &archive.out("a")]);
    assert_eq!(ran.code, 1, "{ran:?}");
    assert!(ran.err.contains("no carcass with a date") && ran.err.contains("office open --keep"), "{}", ran.err);
}

/// Two reports of one deer are ranked and stay two; joined by a decision of the office they are one.
#[test]
fn doubles_are_listed_and_an_alias_joins_them() {
    let archive = Archive::new("season-doubles");
    let mut all = deer(1, 9);
    let mut twin = Deer::of(1);
    twin.n = 40;
    twin.metres_north = 9;
    all.push(twin);
    archive.keep("north.txt", &season_folder::bundle(&kit::phone(), "north", &all, &[]));
    let season = json(&archive.run(&["season", "--out", &archive.out("a"), "--json"]));
    let pair = &season["doubles"]["pairs"][0];
    let codes = [short_code(carcass(1)), short_code(carcass(40))];
    assert!(codes.contains(&pair["first"].as_str().unwrap().to_owned()), "{pair}");
    assert!(codes.contains(&pair["second"].as_str().unwrap().to_owned()), "{pair}");
    assert!(pair["probability"].as_f64().unwrap() > 0.5, "{pair}");
    assert_eq!((season["carcasses"]["found"].as_u64(), season["carcasses"]["joined"].as_u64()), (Some(9), Some(0)));
    // A crew's phone joins nothing, whatever it writes.
    let alias = [[carcass(1), carcass(40)]];
    archive.keep("phone.txt", &season_folder::bundle(&kit::lost_phone(), "office", &[], &alias));
    let season = json(&archive.run(&["season", "--out", &archive.out("a"), "--json"]));
    assert_eq!((season["carcasses"]["found"].as_u64(), season["carcasses"]["joined"].as_u64()), (Some(9), Some(0)));
    assert_eq!(archive.run(&["decide", "same", &codes[0], &codes[1], "--by", "K7"]).code, 0);
    let season = json(&archive.run(&["season", "--out", &archive.out("a"), "--json"]));
    assert_eq!((season["carcasses"]["found"].as_u64(), season["carcasses"]["joined"].as_u64()), (Some(8), Some(1)));
    let pairs = season["doubles"]["pairs"].as_array().unwrap();
    assert!(!pairs.iter().any(|pair| codes.iter().all(|code| pair.to_string().contains(code.as_str()))), "{pairs:?}");
}

/// A density from searches on lines; refused from trails and from responses.
#[test]
fn density_needs_searches_on_lines() {
    let on = |name: &str, kind: &'static str, route: &'static str| {
        let archive = Archive::new(name);
        let mut all = deer(1, 27);
        for (deer, line) in all.iter_mut().zip((1..=4).cycle()) {
            deer.line = Some((line, i64::from(deer.n) * 13 % 200));
        }
        // One lay beyond the strip of 20 m: it is told of, and counts in no figure.
        all[25].line = Some((2, 250));
        let searched = season_folder::Outing { kind, route, strip_m: Some(20), lines_m: vec![2000, 3500, 1500, 4000] };
        archive.keep("north.txt", &season_folder::bundle_with(&kit::phone(), "north", &all, &[], Some(&searched)));
        json(&archive.run(&["season", "--out", &archive.out("a"), "--json"]))["density"].clone()
    };
    let found = on("season-lines", "search", "lines");
    let estimate = &found["estimate"];
    assert_eq!((estimate["lines"].as_u64(), estimate["carcasses"].as_u64()), (Some(4), Some(25)), "{found}");
    assert_eq!(estimate["beyond"], 1, "{found}");
    assert!(estimate["range"][0].as_f64().unwrap() < estimate["per_km2"].as_f64().unwrap(), "{found}");
    assert!(found["notes"].to_string().contains("25 carcasses are few"), "{found}");
    let trails = on("season-trails", "search", "trails");
    assert!(
        trails["estimate"].is_null() && trails["refused"].as_str().unwrap().contains("followed trails"),
        "{trails}"
    );
    let response = on("season-response", "response", "lines");
    assert!(response["estimate"].is_null() && response["outings"][2] == 1, "{response}");
}
