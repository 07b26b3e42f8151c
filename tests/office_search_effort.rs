//! From a crew's taps on a search to the season's density: the guide asks, the phone signs, the office reads.
//!
//! The figure is checked against the reference's formula for a strip in which nothing is missed, D = n / (2 L w)
//! (condition and winter, section 8.4: the uniform case of the half-normal, refused where mean(x^2) >= w^2 / 3).
#![cfg(feature = "cli")]
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, clippy::indexing_slicing)]
#![allow(dead_code)] // the walking hand can do more than this test asks of it

#[path = "guide_walks/answering.rs"]
mod answering;
#[path = "office/kit.rs"]
mod kit;
#[path = "office/ran.rs"]
mod ran;
#[path = "office/season_folder.rs"]
mod season_folder;
#[path = "guide_walks/visit.rs"]
mod visit;

use answering::Script;
use marrowbook::bundle::{Extras, make};
use marrowbook::guide::{ExamKind, Phase};
use marrowbook::record::{Answer, Site, Value, links, uuid_v7};
use season_folder::Archive;
use serde_json::Value as Json;
use uuid::Uuid;
use visit::{OUTING, Visit};

/// Lines of 2000, 1500 and 3000 m; carcasses lie at every tenth of the strip of 50 m, two a step.
const SCRIPT: &str =
    "outing_kind=search search_route=lines search_strip_m=50 search_lines_count=3 species=white_tailed_deer";

fn hand() -> Script {
    [(1, "2000"), (2, "1500"), (3, "3000")]
        .into_iter()
        .fold(Script::new(SCRIPT), |script, (line, m)| script.at("search_line_m", Site::item(line), m))
}

fn begin(visit: &mut Visit, n: u8) {
    let seen = |id| Answer::Seen { value: Value::Ref(id) };
    visit.say(links::CARCASS, Site::NONE, seen(uuid_v7(1_802_618_640_000, [n; 10])));
    visit.say(links::OUTING, Site::NONE, seen(OUTING));
}

/// Walks until the body is to be looked at, then leaves.
fn one_carcass(visit: &mut Visit, hand: &mut Script) -> Vec<String> {
    let mut asked = Vec::new();
    while visit.situation().next.is_some_and(|ask| ask.phase() < Phase::HandsOff) {
        asked.push(visit.step(hand).unwrap().name());
    }
    asked
}

/// The phone's bundle after 20 finds, with what is said of the lines at the end.
fn searched(walked: &str) -> String {
    let key = kit::phone();
    let mut visit = Visit::on(key.public().id(), 1);
    let mut first = Vec::new();
    for n in 1..=20_u8 {
        if n > 1 {
            visit.next_exam(u128::from(n), ExamKind::Field);
        }
        begin(&mut visit, n);
        let line = u16::from(n - 1) % 3 + 1;
        let tenths = (i64::from(n - 1) / 2 * 2 + 1) * 25;
        let mut hand = hand().at("found_from_line_count", Site::NONE, &line.to_string()).at(
            "from_line_m",
            Site::item(line),
            &tenths.to_string(),
        );
        let asked = one_carcass(&mut visit, &mut hand);
        if n == 1 {
            first = asked;
        } else {
            let effort: Vec<&String> =
                asked.iter().filter(|name| name.contains("line") || name.contains("search")).collect();
            assert_eq!(effort, ["found_from_line", &format!("from_line.{line}")], "two questions a carcass");
        }
    }
    for name in ["outing_kind", "search_route", "search_strip", "search_lines", "search_line.1", "search_line.3"] {
        assert!(first.iter().any(|asked| asked == name), "{name}: {first:?}");
    }
    visit.say("search_walked", Site::NONE, Answer::choice(walked));
    if walked == "not_all" {
        for (line, m) in [(1, 2000), (2, 0)] {
            visit.say("search_walked_m", Site::item(line), Answer::number(m));
        }
    }
    let entries: Vec<_> = visit.journal.entries().cloned().collect();
    make(kit::cover(), &entries, Extras::default(), &key).unwrap()
}

fn density(name: &str, bundle: &str) -> Json {
    let archive = Archive::new(name);
    archive.keep("crew.txt", bundle);
    let ran = archive.run(&["season", "--out", &archive.out("a"), "--json"]);
    assert_eq!(ran.code, 0, "{ran:?}");
    serde_json::from_str::<Json>(&ran.out).unwrap()["density"].clone()
}

#[test]
fn what_a_crew_taps_on_a_search_makes_the_density() {
    let found = density("search-effort", &searched("all_to_the_end"));
    let estimate = &found["estimate"];
    assert_eq!((estimate["lines"].as_u64(), estimate["carcasses"].as_u64()), (Some(3), Some(20)), "{found}");
    assert_eq!((estimate["length_km"].as_f64(), estimate["strip_m"].as_f64()), (Some(6.5), Some(50.0)), "{found}");
    // Spread evenly over the strip, nothing falls off with distance: n / (2 L w) = 20 / (2 * 6.5 km * 0.05 km).
    let by_hand = 20.0 / (2.0 * 6.5 * 0.05);
    let seen = estimate["seen"].as_f64().unwrap();
    let per_km2 = estimate["per_km2"].as_f64().unwrap();
    assert!((per_km2 * seen - by_hand).abs() < 0.01, "{per_km2} {seen} {by_hand}");
    assert!(!found["notes"].to_string().contains("count as planned"), "{found}");
}

/// Line 2 was not begun, of line 3 nobody says how much was walked: only line 1 and what was seen from it are left.
#[test]
fn lines_cut_short_take_their_finds_with_them() {
    let found = density("search-cut", &searched("not_all"));
    assert!(found["estimate"].is_null(), "{found}");
    assert!(found["refused"].as_str().unwrap().contains("7 carcasses with a distance from 1 line"), "{found}");
}

/// An outing that is no search is asked one question, and none at all where a report sent the crew.
#[test]
fn an_outing_that_is_no_search_is_asked_nothing_more() {
    let asked_of = |report: Option<Uuid>| {
        let mut visit = Visit::field(1);
        visit.report = report;
        let asked = visit.walk(&mut Script::new("outing_kind=response"));
        let kind = visit.answer("outing_kind", Site::NONE);
        (
            asked
                .into_iter()
                .filter(|name| {
                    ["search", "outing_kind", "from_line", "found_from"].iter().any(|part| name.starts_with(part))
                })
                .collect::<Vec<_>>(),
            kind,
        )
    };
    let response = Answer::choice("response");
    assert_eq!(asked_of(None), (vec!["outing_kind".to_owned()], response.clone()));
    assert_eq!(asked_of(Some(Uuid::from_u128(40))), (Vec::new(), response));
}
