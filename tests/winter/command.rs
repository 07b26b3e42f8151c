//! `office winter`: files in, indices and a plot out.

use std::path::Path;

use marrowbook::office::winter::plot::{Death, Style, plot};
use marrowbook::office::winter::report::{definition, name, refusal, text};
use marrowbook::science::winter::agency::INDICES;
use marrowbook::words::{Language, office_ids, raw, say_office};

use crate::days::{date, day, fahrenheit, gappy, inches};
use crate::ran::{Office, folder};

const LOG: &str = "date,tmin (F),snow depth (in)\n2027-01-05,-3,18\n2027-01-06,4,17.5\n2027-01-08,0,20\n";

#[test]
fn an_index_is_printed_with_its_definition_its_ends_and_its_source() {
    let office = Office::new(folder("winter-text"));
    let log = office.put("ridge.csv", LOG.as_bytes());
    let ran = office.run(&["winter", &log, "--temperature", "f", "--snow", "in", "--index", "vermont"]);
    assert_eq!(ran.code, 0, "{ran:?}");
    let out: Vec<&str> = ran.out.lines().collect();
    // 1 December to 8 January are 39 days; read: 3. Below 0 F: one; 18 in or more: two. Missing: 36 of each.
    assert_eq!(out[0], "ridge: Vermont, winter severity index: 3 to 75 points");
    assert!(out[1].contains("below 0 F (a day at exactly 0 F does not count)"));
    assert!(ran.out.contains("Cold days: 1 to 37 (3 read, 36 missing)"), "{}", ran.out);
    assert!(ran.out.contains("2026-12-01 to 2027-01-08, 39 days; 112 days to 2027-04-30 still to come"), "{}", ran.out);
    assert!(ran.out.contains("Source: Northern Woodlands") && ran.out.contains("never set figures of two agencies"));
    assert!(ran.err.contains("line 3: after this line 1 day is missing: 2027-01-07 to 2027-01-07"), "{}", ran.err);
}

#[test]
fn units_have_to_be_confirmed_by_a_flag_or_a_person() {
    let office = Office::new(folder("winter-units"));
    let log = office.put("ridge.csv", LOG.as_bytes());
    let ran = office.run(&["winter", &log]);
    assert_eq!(ran.code, 1, "{ran:?}");
    assert!(ran.err.contains("--temperature f (the header says so), --snow in (the header says so)"), "{}", ran.err);
    assert!(ran.err.contains("next: look at the file, and say its units"));
    assert_eq!(office.run_with(&["winter", &log], b"no\n", true).code, 1);
    let ran = office.run_with(&["winter", &log], b"yes\n", true);
    assert_eq!(ran.code, 0, "{ran:?}");
    assert!(ran.out.contains("Wisconsin") && ran.out.contains("Minnesota") && ran.out.contains("New York"));
    let bare = office.put("bare.csv", b"date,tmin\n2027-01-05,-3\n");
    let ran = office.run_with(&["winter", &bare], b"yes\n", true);
    assert_eq!(ran.code, 1, "nothing to say yes to");
    assert!(ran.err.contains("nothing in the file tells --temperature"), "{}", ran.err);
}

#[test]
fn as_json_one_index_a_line() {
    let office = Office::new(folder("winter-json"));
    let log = office.put("ridge.csv", LOG.as_bytes());
    let ran = office.run(&["winter", &log, "--temperature", "f", "--snow", "in", "--index", "wisconsin", "--json"]);
    let json = ran.json();
    assert_eq!((&json["index"], &json["low"], &json["high"]), (&"wisconsin".into(), &4.0.into(), &76.0.into()));
    assert_eq!(json["classes"][0]["low"], "mild");
    assert_eq!(json["classes"][0]["high"], "moderate");
    assert_eq!(json["parts"][0]["missing"], 36);
    assert_eq!(json["sources"][0]["mark"], "seen");
    let ran = office.run(&["winter", &log, "--temperature", "f", "--snow", "in", "--index", "maine", "--json"]);
    assert_eq!(ran.json()["refused"]["id"], "winter.refused.critical_values");
}

#[test]
fn what_was_asked_wrongly_is_said() {
    let office = Office::new(folder("winter-wrong"));
    let log = office.put("ridge.csv", LOG.as_bytes());
    let ran = office.run(&["winter", &log, "--index", "ontario"]);
    assert_eq!(ran.code, 2);
    assert!(
        ran.err.contains("`ontario` is none of wisconsin") && ran.err.contains("ontario_snow_depth"),
        "{}",
        ran.err
    );
    assert_eq!(office.run(&["winter", &log, "--temperature", "k"]).code, 2);
    assert_eq!(office.run(&["winter", &log, "--from", "5 January"]).code, 2);
    let picture = office.put("sheet.csv", b"PK\x03\x04\0\0");
    let ran = office.run(&["winter", &picture]);
    assert_eq!(ran.code, 1);
    assert!(ran.err.contains("export the sheet as CSV"), "{}", ran.err);
}

#[test]
fn the_plot_has_the_log_and_the_deaths_in_grey() {
    let office = Office::new(folder("winter-plot"));
    let log = office.put("ridge.csv", LOG.as_bytes());
    let bundle = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/kit/intact--as-made.txt");
    let svg = office.folder.join("winter.svg");
    let args = [
        "winter",
        &log,
        bundle.to_str().unwrap(),
        "--temperature",
        "f",
        "--snow",
        "in",
        "--svg",
        svg.to_str().unwrap(),
    ];
    let ran = office.run(&args);
    assert!([0, 3].contains(&ran.code), "{ran:?}");
    let drawn = std::fs::read_to_string(&svg).unwrap();
    assert!(drawn.starts_with("<svg ") && drawn.trim_end().ends_with("</svg>"));
    assert!(drawn.contains(">ridge</text>") && drawn.contains("Lowest temperature"));
}

#[test]
fn a_plot_is_grey_breaks_at_gaps_and_draws_each_death() {
    let days = (0..60).map(|n| (!(20..32).contains(&n)).then(|| day(fahrenheit(n % 20 - 10), inches(n / 2))));
    let log = gappy(date(2027, 1, 1), days);
    let death = |code: &str, from, to| Death { code: code.to_owned(), from, to, first_is_assumed: false };
    let deaths = [
        death("7K2M", date(2027, 1, 3), date(2027, 1, 20)),
        death("<9&Q>", date(2027, 2, 1), date(2027, 2, 1)),
        death("away", date(2026, 2, 1), date(2026, 2, 1)),
        Death { first_is_assumed: true, ..death("9W3P", date(2026, 12, 1), date(2027, 3, 1)) },
    ];
    let style = Style { us_units: true, language: Language::English };
    let drawn = plot(&[log], &deaths, date(2026, 12, 1), date(2027, 4, 30), style).unwrap();
    for colour in drawn.match_indices('#').map(|(at, _)| &drawn[at + 1..]) {
        let hex: String = colour.chars().take_while(char::is_ascii_hexdigit).collect();
        let parts: Vec<&str> = if hex.len() == 3 {
            vec![&hex[..1], &hex[1..2], &hex[2..]]
        } else {
            vec![&hex[..2], &hex[2..4], &hex[4..]]
        };
        assert!(parts.windows(2).all(|pair| pair[0] == pair[1]), "#{hex} is no grey");
    }
    let lines = drawn.matches("stroke-width=\"1.8\" stroke-linecap=\"round\"").count();
    assert_eq!(lines, 4, "depth and cold, each broken once");
    assert!(drawn.contains("7K2M: 2027-01-03 2027-01-20") && drawn.contains("&lt;9&amp;Q&gt;"));
    assert!(!drawn.contains("away"), "another winter's death");
    assert_eq!(drawn.matches("stroke-dasharray=\"4 2\"").count(), 1, "only the assumed start is hollow");
    assert_eq!(plot(&[], &[], date(2026, 12, 1), date(2027, 4, 30), style), None);
}

/// Read as a person reads it: against the marks at each panel's axis, every point has its day's reading.
#[test]
fn a_plot_is_read_back_as_what_was_logged() {
    let (cold, deep) = (|n: i64| n % 20 * 4 - 40, |n: i64| n / 2);
    let log = gappy(date(2027, 1, 1), (0..60).map(|n| Some(day(fahrenheit(cold(n)), inches(deep(n))))));
    let style = Style { us_units: true, language: Language::English };
    let drawn = plot(&[log], &[], date(2026, 12, 1), date(2027, 4, 30), style).unwrap();
    for month in ["2026-12", "2027-01", "2027-02", "2027-03", "2027-04"] {
        assert_eq!(drawn.matches(&format!(">{month}</text>")).count(), 1, "{month}");
    }
    // Marks of the snow's panel, then of the air's: a mark that is not above the one before begins the next.
    let mut panels: Vec<Vec<(f64, f64)>> = Vec::new();
    for text in drawn.split("<text ").filter(|text| text.contains("text-anchor=\"end\"")) {
        let Ok(mark) = text.split(['>', '<']).nth(1).unwrap().parse::<f64>() else { continue };
        let y: f64 = text.split("y=\"").nth(1).unwrap().split('"').next().unwrap().parse().unwrap();
        match panels.last_mut() {
            Some(panel) if panel.last().unwrap().0 < mark => panel.push((mark, y - 4.0)),
            _ => panels.push(vec![(mark, y - 4.0)]),
        }
    }
    // A number that stands alone is no axis: it names the line of thaw.
    panels.retain(|panel| panel.len() > 1);
    assert_eq!(panels.len(), 2, "{panels:?}");
    assert!(panels.iter().all(|panel| (3..=8).contains(&panel.len())), "about five marks: {panels:?}");
    let lines: Vec<&str> =
        drawn.split("<path d=\"").filter(|path| path.contains("stroke-width=\"1.8\" stroke-linecap")).collect();
    assert_eq!(lines.len(), 2);
    for ((panel, line), logged) in panels.iter().zip(lines).zip([&deep as &dyn Fn(i64) -> i64, &cold]) {
        let ((low, bottom), (high, top)) = (panel[0], *panel.last().unwrap());
        let points = line.split('"').next().unwrap().split(['M', 'L']).skip(1);
        let read: Vec<f64> = points
            .map(|point| point.split(' ').nth(1).unwrap().parse::<f64>().unwrap())
            .map(|y| low + (bottom - y) / (bottom - top) * (high - low))
            .collect();
        assert_eq!(read.len(), 60);
        for (n, read) in (0..).zip(read) {
            // A tenth of a unit of the drawing is what it is printed to.
            let step = 0.2 * (high - low) / (bottom - top);
            assert!((read - logged(n) as f64).abs() < step, "day {n}: {read}");
        }
    }
}

#[test]
fn every_text_of_the_winter_is_there_and_has_a_use() {
    for index in &INDICES {
        for text in [name(Language::English, index), definition(Language::English, index)] {
            assert!(!text.starts_with("winter."), "{text}");
        }
        for set in index.classes {
            assert!(!say_office(Language::English, &format!("winter.set.{}", set.id), &[]).starts_with("winter."));
            for class in set.classes {
                let id = format!("winter.class.{}", class.id);
                assert_ne!(say_office(Language::English, &id, &[]), id);
            }
        }
    }
    let mut source = String::new();
    for folder in ["src/office/winter", "src/cli", "src/web/office_page"] {
        for file in std::fs::read_dir(Path::new(env!("CARGO_MANIFEST_DIR")).join(folder)).unwrap() {
            source.push_str(&std::fs::read_to_string(file.unwrap().path()).unwrap_or_default());
        }
    }
    let made = [
        "winter.index.",
        "winter.class.",
        "winter.set.",
        "winter.part.",
        "winter.unit.",
        "winter.mark.",
        "winter.choice.",
    ];
    for id in office_ids().filter(|id| id.starts_with("winter.") && !made.iter().any(|m| id.starts_with(m))) {
        assert!(source.contains(&format!("\"{id}\"")), "{id} has no use");
        assert!(raw(Language::English, id).is_none(), "{id} is not carried by the phone");
    }
    let _ = (refusal, text);
}

/// The files of the archive's folder, with their bytes.
fn kept_files(office: &Office) -> Vec<(String, Vec<u8>)> {
    let Ok(listed) = std::fs::read_dir(office.folder.join("winter")) else { return Vec::new() };
    let read = |path: std::path::PathBuf| {
        (path.file_name().unwrap().to_string_lossy().into_owned(), std::fs::read(&path).unwrap())
    };
    let mut all: Vec<_> = listed.map(|entry| read(entry.unwrap().path())).collect();
    all.sort();
    all
}

const VERMONT: [&str; 2] = ["--index", "vermont"];

#[test]
fn a_log_is_kept_byte_for_byte_with_its_units_and_read_again() {
    let office = Office::new(folder("winter-kept"));
    assert_eq!(office.run(&["winter"]).code, 1, "nothing is kept yet");
    let log = office.put("ridge.csv", LOG.as_bytes());
    let ran = office.run(&["winter", "--keep", &log, "--temperature", "f", "--snow", "in", VERMONT[0], VERMONT[1]]);
    assert_eq!(ran.code, 0, "{ran:?}");
    let files = kept_files(&office);
    assert_eq!((files.len(), &files[1].1[..]), (2, LOG.as_bytes()), "{files:?}");
    let ends = [files[0].0.split_once('.'), files[1].0.split_once('.')].map(|parts| parts.unwrap().1);
    assert_eq!(ends, ["1.json", "csv"]);
    let sheet: serde_json::Value = serde_json::from_slice(&files[0].1).unwrap();
    assert_eq!((&sheet["temperature"], &sheet["snow"], &sheet["place"]), (&"f".into(), &"in".into(), &"ridge".into()));
    // Read from the archive alone: no unit is asked for, the figure is that of the file.
    let again = office.run(&["winter", VERMONT[0], VERMONT[1]]);
    assert_eq!((again.code, &again.out), (0, &ran.out), "{again:?}");
    // The same bytes under another name are no news, and their units need not be told.
    let copy = office.put("copy of ridge.csv", LOG.as_bytes());
    let ran = office.run(&["winter", "--keep", &copy, VERMONT[0], VERMONT[1]]);
    assert!(ran.code == 0 && ran.err.contains("lies in the archive already"), "{ran:?}");
    assert_eq!(ran.out, again.out);
    assert_eq!(kept_files(&office), files);
    // Other units for the same bytes: refused, until it is called a correction. Then both words are kept.
    let wrong = office.run(&["winter", "--keep", &log, "--temperature", "c"]);
    assert!(wrong.code == 1 && wrong.err.contains("with --temperature f --snow in"), "{wrong:?}");
    assert_eq!(kept_files(&office), files);
    let right = office.run(&["winter", "--keep", "--correct", &log, "--temperature", "c", VERMONT[0], VERMONT[1]]);
    assert!(right.code == 0 && right.out != again.out, "{right:?}");
    assert_eq!(kept_files(&office).len(), 3);
    assert_eq!(office.run(&["winter", VERMONT[0], VERMONT[1]]).out, right.out);
}

#[test]
fn files_of_one_place_are_joined_and_days_that_disagree_are_named() {
    let office = Office::new(folder("winter-joined"));
    let early = office.put("january.csv", LOG.as_bytes());
    let late = "date,tmin (F),snow depth (in)\n2027-01-07,-9,19\n2027-01-08,0,21\n";
    let late = office.put("february.csv", late.as_bytes());
    let keep = |file: &str| {
        let ran =
            office.run(&["winter", "--keep", file, "--place", "Ridge", "--temperature", "f", "--snow", "in", "--json"]);
        assert_eq!(ran.code, 0, "{ran:?}");
        ran
    };
    assert!(!keep(&early).err.contains("disagree"));
    let ran = keep(&late);
    assert!(
        ran.err.contains("Ridge, 2027-01-08: february.csv and january.csv disagree")
            || ran.err.contains("Ridge, 2027-01-08: january.csv and february.csv disagree"),
        "{}",
        ran.err
    );
    assert_eq!(ran.err.matches("disagree").count(), 1, "the gap of 7 January is filled, nothing else differs");
    let ran = office.run(&["winter", VERMONT[0], VERMONT[1]]);
    let head = ran.out.lines().next().unwrap();
    // 39 days from 1 December, read 4: below 0 F two, 18 in or more three of four; 35 missing of each.
    assert_eq!(head, "Ridge: Vermont, winter severity index: 5 to 75 points", "{}", ran.out);
    assert!(ran.out.contains("Cold days: 2 to 37 (4 read, 35 missing)"), "{}", ran.out);
}

#[test]
fn a_kept_log_that_was_changed_or_has_no_units_is_never_passed_over() {
    let office = Office::new(folder("winter-changed"));
    let log = office.put("ridge.csv", LOG.as_bytes());
    assert_eq!(office.run(&["winter", "--keep", &log, "--temperature", "f", "--snow", "in"]).code, 0);
    let winter = office.folder.join("winter");
    let (sheet, csv) = (kept_files(&office)[0].clone(), kept_files(&office)[1].clone());
    std::fs::write(winter.join(&csv.0), "date,tmin\n2027-01-05,1\n").unwrap();
    let ran = office.run(&["winter"]);
    assert!(ran.code == 1 && ran.err.contains("was changed since it was kept"), "{ran:?}");
    std::fs::write(winter.join(&csv.0), &csv.1).unwrap();
    std::fs::remove_file(winter.join(&sheet.0)).unwrap();
    let ran = office.run(&["winter"]);
    assert!(ran.code == 1 && ran.err.contains("nothing says in which units"), "{ran:?}");
    // Kept once more, it has its units again.
    assert_eq!(office.run(&["winter", "--keep", &log, "--temperature", "f", "--snow", "in"]).code, 0);
    assert_eq!(office.run(&["winter"]).code, 0);
}
