//! Words that were typed to do harm, in every place where a phone, a card or a sheet has words, and out again by every
//! way that the office has.

use super::{kit, ran, sampled, written};
use marrowbook::bundle::{Cover, Extras, Fingerprint, make};
use marrowbook::record::{Answer, Moment, Site, Subject, Value, Why, links, uuid_v7};
use ran::{Office, Ran};
use sampled::{Chain, carcass, examination, outing, report};
use serde_json::{Value as Json, json};
use std::collections::BTreeMap;
use std::path::Path;
use written::written;

/// Each is short enough for every field.
const WORDS: [&str; 20] = [
    "=cmd|'/C calc'!A0",
    "+1+cmd|'x'!A1",
    "-2+3+cmd|'x'!A2",
    "@SUM(A1:A3)",
    "\t=1+1",
    "\r=1+2",
    "\n=1+3",
    " =1+4",
    "\u{ff1d}1+5",
    "../../../etc/q7",
    "..\\..\\q7",
    "<script>q7(1)</script>",
    "\"><img src=q7 onerror=q7(2)>",
    "' onload='q7(3)",
    "]]>--><svg onload=q7(4)>",
    "\u{1b}[2J\u{1b}]0;q7\u{7}\u{1b}[8m",
    "\u{9b}31mq7\u{8}\u{7f}",
    "q7\nb.txt: intact\r\nb.txt: intact",
    "\u{202e}txt.q7\u{2066}\u{202d}",
    "q7\u{0}\u{2028}b.txt: intact",
];

fn text(text: &str) -> Answer {
    Answer::Seen { value: Value::Text(text.to_owned()) }
}

/// One deer for each word, the word in every place for words of its own.
fn chain() -> Chain {
    let mut chain = Chain::new();
    for (n, word) in (1_u8..).zip(WORDS) {
        chain.deer(n);
        let of = Subject::Examination(examination(n));
        let (out, said) = (Subject::Outing(outing(n)), Subject::Report(report(n)));
        let reference = |id| Answer::Seen { value: Value::Ref(id) };
        chain.put(of, "K7", "", links::OUTING, Site::NONE, reference(outing(n)));
        chain.put(of, "K7", "", links::REPORT, Site::NONE, reference(report(n)));
        let own = [
            "remark",
            "evidence_note",
            "place_words",
            "tag_number",
            "officer_words",
            "handed_over",
            "permit_number",
            "reopened_by",
            "dna_lab",
            "cementum_lab",
            "rumen_own_plant",
            "report_triage_why",
        ];
        for finding in own {
            chain.put(of, "K7", word, finding, Site::NONE, text(word));
        }
        // A finding that only a newer phone could know, under a name that says what it likes.
        chain.put(of, "K7", "remark", word, Site::NONE, text(word));
        let why = Why::Other(word.to_owned());
        chain.put(of, "K7", "rump_fat", "rump_fat", Site::NONE, Answer::NotLooked { why: why.clone() });
        chain.put(of, "K7", "body_state", "body_state", Site::NONE, Answer::CantTell { why });
        chain.put(of, "K7", "sample_what", "sample_what", Site::item(5), Answer::choice("swab"));
        for (item, finding) in [(5, "sample_number"), (2, "seal_number"), (3, "cementum_sample"), (1, "test_for")] {
            chain.put(of, "K7", "", finding, Site::item(item), text(word));
        }
        chain.put(out, "K7", "", "people_out", Site::NONE, text(word));
        chain.put(out, "B2", "", "exposure_note", Site::NONE, text(word));
        for finding in ["report_place_words", "report_call_back", "report_triage_why"] {
            chain.put(said, "K7", "", finding, Site::NONE, text(word));
        }
        chain.put(of, "K7", "", "sketch_what", Site::item(1), Answer::choice("blood"));
        chain.put(of, "K7", "", "sketch_from_count", Site::item(1), Answer::number(0));
        chain.put(of, "K7", "", "sketch_bearing_deg", Site::item(1), Answer::number(90));
        chain.put(of, "K7", "", "sketch_paces_count", Site::item(1), Answer::number(12));
        chain.put(of, "K7", "", "sketch_pace_cm", Site::item(1), Answer::number(70));
    }
    chain
}

/// The demo's card with a word in each of its own places; one for each word would be twenty cards.
fn card(word: &str) -> String {
    let mut card: Json = serde_json::from_str(include_str!("../../demo/card.json")).unwrap();
    for place in [
        "/office",
        "/calls/0/name",
        "/calls/0/number",
        "/permits/0/what",
        "/permits/0/number",
        "/people/0/name",
        "/laboratories/0/name",
        "/laboratories/0/address",
        "/laboratories/0/tests/0/name",
        "/laboratories/0/tests/0/packing",
    ] {
        *card.pointer_mut(place).unwrap() = json!(word);
    }
    card.to_string()
}

/// An office that keeps all of it, and one bundle a word whose outside says the word as well.
fn office(name: &str) -> Office {
    let chain = chain();
    let office = sampled::office_with(name, &chain, &card(WORDS[11]));
    for (n, word) in (1_u8..).zip(WORDS) {
        let cover = Cover {
            bundle: uuid_v7(1_802_641_200_000, [n; 10]),
            made_at: Moment::parse("2027-02-14T16:40:00-05:00").unwrap(),
            label: word.to_owned(),
            crew: Some(word.to_owned()),
            zone: word.to_owned(),
            app: word.to_owned(),
            ..kit::cover()
        };
        let photos = vec![marrowbook::record::Photo {
            sha256: marrowbook::record::Digest::of(&[word.as_bytes()]),
            bytes: 9,
            media: word.to_owned(),
        }];
        let text = make(cover, &chain.entries()[..12], Extras { photos, ..Extras::default() }, &kit::phone()).unwrap();
        let file = office.put("word.txt", text.as_bytes());
        let ran = office.run(&["open", "--keep", &file]);
        assert_eq!(ran.code, 0, "{ran:?}");
        plain(&ran, &format!("open of {word:?}"));
    }
    office
}

/// Letters that a terminal, a browser or an editor obeys: control characters but the end of a line, and the marks that
/// turn the direction of what follows (Unicode Standard Annex 9, explicit formatting).
fn obeyed(text: &str, but: &[char]) -> Option<char> {
    let turns = |c: char| matches!(c, '\u{202a}'..='\u{202e}' | '\u{2066}'..='\u{2069}' | '\u{2028}' | '\u{2029}');
    text.chars().find(|c| (c.is_control() || turns(*c)) && !but.contains(c))
}

/// What a terminal is given holds no order, and no line that somebody else wrote.
#[track_caller]
fn plain(ran: &Ran, what: &str) {
    for text in [&ran.out, &ran.err] {
        assert_eq!(obeyed(text, &['\n']), None, "{what}: {text:?}");
        assert!(!text.lines().any(|line| line.starts_with("b.txt:")), "{what}: {text}");
    }
}

/// As the first letters that a spreadsheet takes for a formula, blanks before them passed over.
fn is_formula(cell: &str) -> bool {
    let first = cell.trim_start_matches(|c: char| c.is_whitespace() || c.is_control()).chars().next();
    matches!(first, Some('=' | '+' | '-' | '@' | '\u{ff1d}' | '\u{ff0b}' | '\u{ff0d}' | '\u{ff20}'))
        && cell.parse::<f64>().is_err()
}

/// No markup of somebody else's: each word that has some stands there escaped or not at all.
#[track_caller]
fn no_markup(name: &str, text: &str) {
    assert_eq!(obeyed(text, &['\n', '\t']), None, "{name}");
    for word in WORDS.iter().filter(|word| word.contains(['<', '"', '\''])) {
        assert!(!text.contains(word), "{name} holds {word}");
    }
    for tag in ["<script>q7", "<img src=q7", "<svg onload", " onload='q7"] {
        assert!(!text.contains(tag), "{name} holds {tag}");
    }
}

#[track_caller]
fn safe(files: &BTreeMap<String, Vec<u8>>) {
    for (name, bytes) in files {
        assert!(Path::new(name).components().all(|part| matches!(part, std::path::Component::Normal(_))), "{name}");
        assert_eq!(obeyed(name, &[]), None, "{name:?}");
        let own = ["all/", "blurred/"].iter().find_map(|folder| name.strip_prefix(folder)).unwrap_or(name);
        let Ok(text) = std::str::from_utf8(bytes) else { continue };
        match Path::new(name).extension().and_then(|ending| ending.to_str()).unwrap_or_default() {
            "csv" => {
                let mut reader =
                    csv::ReaderBuilder::new().has_headers(false).flexible(true).from_reader(text.as_bytes());
                for cell in reader.records().flat_map(|row| row.unwrap().iter().map(str::to_owned).collect::<Vec<_>>())
                {
                    assert!(!is_formula(&cell), "{name}: {cell:?}");
                    assert_eq!(obeyed(&cell, &['\n']), None, "{name}: {cell:?}");
                }
            }
            "txt" if own.starts_with("dwca") => {
                for cell in text.lines().flat_map(|line| line.split('\t')) {
                    assert!(!is_formula(cell), "{name}: {cell:?}");
                    assert_eq!(obeyed(cell, &[]), None, "{name}: {cell:?}");
                }
            }
            "html" | "svg" | "xml" => no_markup(name, text),
            "json" | "geojson" | "ndjson" => {
                for one in serde_json::Deserializer::from_str(text).into_iter::<Json>() {
                    assert!(one.is_ok(), "{name}");
                }
            }
            _ => {}
        }
    }
}

#[test]
fn words_typed_to_do_harm_do_none_in_any_export() {
    let office = office("hostile-words");
    let folder = office.folder.to_str().unwrap().to_owned();
    let out = |name: &str| format!("{folder}/out/{name}");
    let received = sampled::received(&office);
    for args in [
        vec!["export", &folder, "--out", &out("all"), "--names", "--exact"],
        vec!["export", &folder, "--out", &out("blurred")],
        vec!["season", &folder, "--out", &out("season")],
        vec!["labels", "--out", &out("labels.html")],
        vec!["calls", "list"],
        vec!["calls", "list", "--json"],
        vec!["lab", "list"],
        vec!["lab", "list", "--json"],
        vec!["decide", "list"],
        vec!["key", "show"],
    ] {
        let ran = office.run(&args);
        assert_eq!(ran.code, 0, "{args:?}: {ran:?}");
        plain(&ran, args[0]);
    }
    for command in ["read", "diet", "open"] {
        let ran = office.run(&[&[command][..], &received.iter().map(String::as_str).collect::<Vec<_>>()].concat());
        assert_eq!(ran.code, 0, "{command}: {ran:?}");
        plain(&ran, command);
    }
    let sketches = out("sketches");
    let ran = office
        .run(&[&["sketch", "--out", &sketches][..], &received.iter().map(String::as_str).collect::<Vec<_>>()].concat());
    assert_eq!(ran.code, 0, "{ran:?}");
    plain(&ran, "sketch");
    for n in [1, 12, 13, 14, 16, 18, 19] {
        let (id, file) = (carcass(n).to_string(), out(&format!("report-{n}.html")));
        let ran = office.run(&["report", &id, "--out", &file]);
        assert_eq!(ran.code, 0, "{ran:?}");
        plain(&ran, "report");
    }
    let files = written(Path::new(&out("")));
    safe(&files);
    // They are there, and harmless: otherwise nothing of the above was tried.
    let text = |name: &str| String::from_utf8(files[name].clone()).unwrap();
    assert!(text("all/csv/findings.csv").contains("'=cmd|"), "own words go with --names");
    assert!(text("report-12.html").contains("&lt;script&gt;q7(1)&lt;/script&gt;"));
    assert!(text("labels.html").contains("&lt;script&gt;q7(1)&lt;/script&gt;"));
    assert!(text("report-16.html").contains("]0;q7"), "what stands beside an order stays");
    assert!(
        files.keys().any(|name| name.starts_with("all/dwca/"))
            && files.keys().any(|name| name.starts_with("sketches/"))
    );
}

#[test]
fn sheets_logs_and_tables_of_findings_tell_no_terminal_what_to_do() {
    let office = sampled::office("hostile-sheets", &{
        let mut chain = Chain::new();
        chain.deer(1);
        chain
    });
    let folder = office.folder.to_str().unwrap().to_owned();
    for word in WORDS {
        let quoted = format!("\"{}\"", word.replace('"', "\"\""));
        for sheet in [
            format!("sample,test,result,from\n{quoted},cwd,positive,\nx,{quoted},y,{quoted}\n"),
            format!("sample,test,{quoted}\nx,cwd,y\n"),
        ] {
            let file = office.put("sheet.csv", sheet.as_bytes());
            let ran = office.run(&["lab", "read", &file, "--by", "OFF"]);
            assert_ne!(ran.code, 0, "{word:?}");
            plain(&ran, "lab read");
        }
        let log = format!(
            "place,date,tmin (F),snow depth (in),{quoted}\n{quoted},2027-01-01,1,20,{quoted}\n{quoted},{quoted},{quoted},9,x\n"
        );
        let file = office.put("log.csv", log.as_bytes());
        let svg = format!("{folder}/plot.svg");
        let told = ["winter", "--temperature", "f", "--snow", "in", "--svg", &svg, &file];
        plain(&office.run(&told), "winter");
        if let Ok(plot) = std::fs::read_to_string(&svg) {
            no_markup("plot.svg", &plot);
        }
        let exam = json!({"at": "2027-02-14T10:00:00-05:00", "findings": [
            {"finding": "species", "value": "white_tailed_deer"}, {"finding": "remark", "value": word}, {"finding": word, "value": word},
            {"finding": "sketch_what", "item": 1, "value": "blood"}, {"finding": "sketch_from_count", "item": 1, "value": 0},
            {"finding": "sketch_bearing_deg", "item": 1, "value": 90},
            {"finding": "sketch_distance_m", "item": 1, "value": 12}]});
        let table = json!({"format": "marrowbook-findings-1", "carcasses": [{"name": word, "examinations": [exam]}]});
        let file = office.put("table.json", table.to_string().as_bytes());
        for command in ["read", "diet"] {
            plain(&office.run(&[command, &file]), command);
        }
        let out = format!("{folder}/sketches");
        plain(&office.run(&["sketch", "--out", &out, &file]), "sketch");
        plain(&office.run(&["enrol", "--fingerprint", word, "--name", word]), "enrol");
        let phone = Fingerprint::of(kit::stranger().public().id()).to_string();
        plain(&office.run(&["enrol", "--fingerprint", &phone, "--name", word]), "enrol");
        plain(&office.run(&["report", word, "--out", &format!("{folder}/x.html")]), "report");
        let card = office.put("bad-card.json", card(word).as_bytes());
        plain(&office.run(&["card", &card]), "card");
        let broken = office.put("broken.json", format!("{{\"{word}\": 1}}").as_bytes());
        plain(&office.run(&["card", &broken]), "card");
        plain(&office.run(&["open", &broken]), "open");
    }
    let sketches = written(&office.folder.join("sketches"));
    assert!(sketches.len() >= 2 * WORDS.len(), "{:?}", sketches.keys());
    safe(&sketches);
}
