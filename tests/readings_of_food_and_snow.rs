//! Readings of the rumen and of snow, through the whole record. Rows named are those of the reference's
//! check values (condition-and-winter.md, section 9); the rest are rules of the methods.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::indexing_slicing, clippy::panic, clippy::float_cmp)]

use marrowbook::office::diet::diet;
use marrowbook::office::findings_table::FindingsTable;
use marrowbook::reading::{self, Given, Outcome, Reading, Readings, rumen_samples};
use marrowbook::record::{Fold, fold};
use marrowbook::words::Language;
use serde_json::{Value, json};

fn folded(carcasses: &Value) -> Fold {
    let table = json!({"format": "marrowbook-findings-1", "carcasses": carcasses}).to_string();
    let tabled = FindingsTable::read(table.as_bytes()).unwrap().journal().unwrap();
    assert_eq!(tabled.set_aside, []);
    fold(&tabled.journal)
}

/// Occasions, each of a kind with its rows; the first says the species.
fn deer(name: &str, day: &str, occasions: &[(&str, Vec<Value>)]) -> Value {
    let exams: Vec<Value> = occasions
        .iter()
        .enumerate()
        .map(|(n, (kind, rows))| {
            let mut all = vec![json!({"finding": "species", "value": "white_tailed_deer"})];
            all.extend(rows.clone());
            json!({"kind": kind, "at": format!("{day}T1{n}:00:00-06:00"), "findings": all})
        })
        .collect();
    json!({"name": name, "examinations": exams})
}

fn read_all(occasions: &[(&str, Vec<Value>)]) -> Readings {
    let folded = folded(&json!([deer("deer", "2026-02-20", occasions)]));
    reading::all(folded.carcasses.values().next().unwrap(), &Given::default())
}

fn snow(rows: Vec<Value>) -> Reading {
    read_all(&[("field", rows)]).snow.unwrap()
}

fn rumen(rows: Vec<Value>) -> Reading {
    read_all(&[("bench", rows)]).diet.unwrap()
}

fn value(finding: &str, value: impl Into<Value>) -> Value {
    json!({"finding": finding, "value": value.into()})
}

fn item(finding: &str, n: u16, value: impl Into<Value>) -> Value {
    json!({"finding": finding, "item": n, "value": value.into()})
}

/// Frames of ten that hold these points.
fn frames(points: &[(&str, usize)]) -> Vec<Value> {
    let all: Vec<&str> = points.iter().flat_map(|(code, n)| std::iter::repeat_n(*code, *n)).collect();
    let rows = all.chunks(10).zip(1..).map(|(frame, n)| item("rumen_points", n, frame.join(" ")));
    rows.chain([value("rumen_method", "point_count"), value("rumen_point_count", "counted")]).collect()
}

fn says(reading: &Reading, id: &str) -> bool {
    reading.statements.iter().chain(&reading.cautions).any(|s| s.id == id)
}

fn words(reading: &Reading) -> String {
    reading.statements.iter().map(|s| s.say(Language::English)).collect::<Vec<_>>().join("\n")
}

/// Row 18 and row 57 as one rumen: 44, 55, 43, 32, 67, 78 points.
#[test]
fn a_count_of_points() {
    let counted = [("white_cedar", 44), ("hemlock", 55), ("spruce", 43), ("alder", 32), ("own_1", 67), ("corn", 78)];
    let mut rows = frames(&counted);
    rows.push(item("rumen_own_plant", 1, "old man's beard"));
    let r = rumen(rows);
    assert_eq!(r.outcome, Outcome::Read);
    let said = words(&r);
    assert!(said.starts_with("By 319 points: Corn, 24 %, old man's beard, 21 %"), "{said}");
    // Goodman .0946838 to .1966413, Quesenberry and Hurst .0857665 to .2143830.
    assert!(said.contains("White cedar: 44 points, 14 % (9 to 20; by Quesenberry and Hurst 9 to 21)"), "{said}");
    assert!(said.contains("Corn: 78 points, 24 % (19 to 31; by Quesenberry and Hurst 17 to 33)"), "{said}");
    let poor = r.estimates.iter().find(|e| e.unit == "reading.diet.unit.poor").unwrap();
    assert!((poor.best.unwrap() - 100.0 * 75.0 / 319.0).abs() < 1e-9 && poor.coverage == Some(0.95));
    assert!(says(&r, "reading.diet.caution.one_rumen") && says(&r, "reading.diet.caution.poor_range"));
    assert!(says(&r, "reading.diet.caution.tiers"), "whose region the tiers are of is said");
    assert!(!says(&r, "reading.diet.caution.few_points") && !says(&r, "reading.diet.caution.not_ended"));
    assert!(r.sources.iter().any(|s| s.id == "browse-latin" && s.mark == "memory"), "marks travel");
    let shares: f64 = r.estimates[0].shares.iter().map(|s| s.probability).sum();
    assert!((shares - 1.0).abs() < 1e-12);
}

/// A plant of a newer phone is kept, counted, and said to be unknown.
#[test]
fn a_plant_of_a_newer_form_is_kept() {
    let r = rumen(frames(&[("white_cedar", 60), ("sweet_gale", 40)]));
    assert!(says(&r, "reading.diet.caution.unknown"));
    assert!(words(&r).contains("sweet gale: 40 points, 40 %"), "{}", words(&r));
}

#[test]
fn few_points_and_no_end_are_said() {
    let mut rows = frames(&[("white_cedar", 12), ("alder", 3)]);
    rows.pop();
    let r = rumen(rows);
    assert!(says(&r, "reading.diet.caution.few_points") && says(&r, "reading.diet.caution.not_ended"));
    assert!(says(&r, "reading.diet.caution.tiny"));
    assert_eq!(r.sharpen[0].look.id, "reading.diet.look.more");
}

/// Two people who count the same rows are two counts of one rumen; one person's two answers on one row are
/// no points at all.
#[test]
fn two_counts_stand_apart() {
    let by = |who: &str, text: &str| json!({"finding": "rumen_points", "item": 1, "value": text, "observer": who});
    let r = rumen(vec![by("A1", "spruce spruce pine"), by("B2", "pine pine pine spruce")]);
    assert!(says(&r, "reading.diet.caution.apart"));
    assert!(words(&r).contains("By 3 points") && words(&r).contains("By 4 points"), "{}", words(&r));
    let r = rumen(vec![by("A1", "spruce spruce pine"), by("A1", "pine"), item("rumen_points", 2, "alder")]);
    assert!(says(&r, "reading.diet.caution.left_out") && words(&r).starts_with("By 1 points: Alder"), "{}", words(&r));
}

/// Row 17, one deer: 900 and 100 ml.
#[test]
fn volumes_and_percentages() {
    let r =
        rumen(vec![item("rumen_plant_ml", 3, 900), item("rumen_plant_ml", 1, 100), value("rumen_sorting", "sorted")]);
    assert!(words(&r).starts_with("By volume, 1000 ml in all: Balsam fir, 90 %, White cedar, 10 %"), "{}", words(&r));
    assert!(says(&r, "reading.diet.caution.no_range") && r.estimates.iter().all(|e| e.low.is_none()));
    let r = rumen(vec![item("rumen_plant_percent", 3, 60), item("rumen_plant_percent", 1, 55)]);
    assert_eq!(r.outcome, Outcome::Refused);
    assert!(words(&r).contains("The percentages come to 115, more than 100"), "{}", words(&r));
    let r = rumen(vec![item("rumen_plant_percent", 3, 60), item("rumen_plant_percent", 1, 20)]);
    assert!(words(&r).contains("20 % of the whole were given no name"), "{}", words(&r));
    let r = rumen(vec![item("rumen_plant_ml", 3, 0)]);
    assert!(says(&r, "reading.diet.refused.all_zero") && r.outcome == Outcome::Refused);
}

/// Section 5.1: fill is a raw note. It makes no reading and moves no other.
#[test]
fn fill_proves_nothing() {
    let marrow = || {
        let femur = |finding: &str, code: &str| json!({"finding": finding, "bone": "femur", "value": code});
        vec![femur("marrow_consistency", "gelatinous_wet"), femur("marrow_frozen", "never_frozen")]
    };
    let of = |fill: Option<&str>| {
        let mut rows = marrow();
        rows.extend(fill.map(|fill| value("rumen_fill", fill)));
        read_all(&[("field", rows)])
    };
    let (none, full, empty) = (of(None), of(Some("full")), of(Some("empty")));
    for with in [&full, &empty] {
        assert_eq!(with.condition.statements, none.condition.statements);
        assert_eq!(with.condition.estimates, none.condition.estimates);
        let diet = with.diet.as_ref().unwrap();
        assert_eq!(diet.outcome, Outcome::NoEvidence);
        assert!(diet.estimates.is_empty() && says(diet, "reading.diet.fill"));
    }
    assert!(!says(none.diet.as_ref().unwrap(), "reading.diet.fill"));
}

/// Section 5.2: grain at least half, and sour, and marrow not spent; only once every occasion is closed.
#[test]
fn much_grain_goes_to_the_laboratory() {
    let femur = |code: &str| {
        vec![
            json!({"finding": "marrow_consistency", "bone": "femur", "value": code}),
            json!({"finding": "marrow_frozen", "bone": "femur", "value": "never_frozen"}),
            json!({"finding": "bone_opened", "bone": "femur", "value": "intact"}),
        ]
    };
    let of = |corn: usize, smell: &str, marrow: &str, closed: bool| {
        let mut rows = frames(&[("corn", corn), ("white_cedar", 100 - corn)]);
        rows.push(value("rumen_smell", smell));
        rows.extend(femur(marrow));
        rows.extend(closed.then(|| value("examination_closed", "complete")));
        says(&rumen(rows), "reading.diet.grain")
    };
    assert!(of(50, "sour", "solid_waxy", true));
    assert!(!of(49, "sour", "solid_waxy", true));
    assert!(!of(50, "normal", "solid_waxy", true));
    assert!(!of(50, "sour", "gelatinous_wet", true));
    assert!(!of(50, "sour", "solid_waxy", false), "nothing steers the eye before the record is closed");
}

/// Sections 5.5 and 5.6.
#[test]
fn notes_on_plants() {
    let r = rumen(frames(&[("mountain_laurel", 40), ("hobblebush", 40), ("mountain_maple", 20)]));
    assert!(says(&r, "reading.diet.poison.laurel"));
    assert!(words(&r).contains("Hobblebush, as food for deer: energy digested 54 %"), "{}", words(&r));
    assert!(words(&r).contains("Rated otherwise in Wisconsin pens than in New York's list: Mountain maple"));
    assert!(!says(&rumen(frames(&[("white_cedar", 100)])), "reading.diet.poison.laurel"));
}

/// Row 22 with a measured chest: sinking 25, chest 50, 50 %; row 20: + 91.8 % at 0.2 g/cm3; row 23: 35 cm.
#[test]
fn snow_with_a_measured_chest() {
    let r = snow(vec![value("sinking_depth_cm", 25), value("snow_depth_cm", 60), value("chest_height_cm", 50.0)]);
    assert_eq!(r.outcome, Outcome::Read);
    let said = words(&r);
    assert!(said.starts_with("A deer sank 25 cm: 50 % of its chest\n"), "{said}");
    assert!(said.contains("With this chest snow from 35 cm on impedes seriously"), "{said}");
    assert!(said.contains("92 % at 0.2 [equation from memory]"), "{said}");
    let cost = r.estimates.iter().find(|e| e.unit == "reading.snow.unit.cost").unwrap();
    assert!((cost.best.unwrap() - 91.8).abs() < 0.05);
    // The reference's row 21 gives 186.6 at 0.4, the densest that was fitted.
    assert!((cost.high.unwrap() - 186.6).abs() < 0.05);
    assert!(r.sources.iter().any(|s| s.id == "parker-1984-equation" && s.mark == "memory"));
    assert!(says(&r, "reading.snow.caution.not_cause") && !says(&r, "reading.snow.caution.chest_by_age"));
    assert!(says(&r, "reading.snow.printed.ontario_restricted"));
}

/// Section 6.2: nobody measured and nobody knows the age: both chests, 51 and 56 cm, 50.8 to 61.0.
#[test]
fn snow_with_a_chest_taken_by_age() {
    let r = snow(vec![value("sinking_depth_cm", 40)]);
    assert!(says(&r, "reading.snow.caution.chest_by_age"));
    assert!(words(&r).contains("That is 78 % of the chest in a fawn (66 to 79)"), "{}", words(&r));
    assert!(words(&r).contains("That is 71 % of the chest in an older deer (66 to 79)"), "{}", words(&r));
    assert!(words(&r).contains("By how far it sank: within the 25 to 40 cm where walking gets costly fast, or"));
    assert_eq!(r.sharpen[0].finding, "chest_height_cm");
}

/// Row 64 and section 6.1: past the chest no cost is given; deep snow that bears gives no class by depth.
#[test]
fn past_the_chest_nothing_is_stretched() {
    let r = snow(vec![value("sinking_depth_cm", 107), value("snow_depth_cm", 116), value("chest_height_cm", 56.0)]);
    assert!(says(&r, "reading.snow.cost_not") && !says(&r, "reading.snow.cost"));
    assert!(words(&r).contains("ploughing with the chest"));
    let r = snow(vec![value("sinking_depth_cm", 18), value("snow_depth_cm", 85), value("chest_height_cm", 56.0)]);
    assert!(words(&r).contains("less than 25 cm, before walking gets costly"), "{}", words(&r));
    assert!(says(&r, "reading.snow.caution.depth"));
}

#[test]
fn sinking_deeper_than_the_snow_is_refused_and_kept() {
    let r = snow(vec![value("sinking_depth_cm", 50), value("snow_depth_cm", 40)]);
    assert_eq!(r.outcome, Outcome::Refused);
    assert!(words(&r).contains("Sinking 50 cm is more than the 40 cm of snow"), "{}", words(&r));
    assert!(r.estimates.is_empty() && r.rests_on.len() == 2);
}

#[test]
fn crust_and_the_other_animal() {
    let r = snow(vec![
        value("sinking_depth_cm", 45),
        value("sinking_predator_cm", 5),
        value("snow_crust", "holds_predator_only"),
        value("chest_height_cm", 39.0),
    ]);
    assert!(words(&r).contains("The hunting animal sank 5 cm, 40 cm less than the deer"), "{}", words(&r));
    assert!(says(&r, "reading.snow.crust.holds_other") && says(&r, "reading.snow.caution.chest_recheck"));
}

/// A later visit finds other snow: the first is the carcass's own.
#[test]
fn the_first_visit_counts() {
    let both =
        read_all(&[("field", vec![value("sinking_depth_cm", 30)]), ("field", vec![value("sinking_depth_cm", 60)])]);
    let r = both.snow.unwrap();
    assert!(
        words(&r).starts_with("A deer sank 30 cm") && says(&r, "reading.snow.caution.more_visits"),
        "{}",
        words(&r)
    );
}

#[test]
fn nothing_measured_is_no_reading_and_other_animals_are_refused() {
    let none = read_all(&[("field", vec![])]);
    assert_eq!(none.snow.unwrap().outcome, Outcome::NoEvidence);
    assert_eq!(none.diet.unwrap().outcome, Outcome::NoEvidence);
    let mut other = deer("moose", "2026-02-20", &[("field", vec![value("sinking_depth_cm", 30)])]);
    other["examinations"][0]["findings"][0] = value("species", "other_deer");
    let folded = folded(&json!([other]));
    let r = reading::all(folded.carcasses.values().next().unwrap(), &Given::default()).snow.unwrap();
    assert!(r.outcome == Outcome::Refused && r.estimates.is_empty());
}

/// Row 17 over two deer, and months that are not pooled.
#[test]
fn pooled_over_deer() {
    let sorted = |a: u32, b: u32| vec![item("rumen_plant_ml", 3, a), item("rumen_plant_ml", 1, b)];
    let folded = folded(&json!([
        deer("a", "2026-02-20", &[("bench", sorted(900, 100))]),
        deer("b", "2026-02-21", &[("bench", sorted(50, 50))]),
        deer("c", "2026-03-02", &[("bench", frames(&[("spruce", 100)]))]),
        deer("d", "2026-03-02", &[("field", vec![])]),
        deer(
            "e",
            "2026-03-03",
            &[("bench", vec![item("rumen_plant_percent", 3, 99), item("rumen_plant_percent", 1, 9)])]
        ),
    ]));
    let report = diet(folded.carcasses.values());
    let [february, march] = &report.months[..] else { panic!("{report:?}") };
    assert_eq!((february.month.as_str(), february.deer, february.by), ("2026-02", 2, [0, 2, 0]));
    let fir = &february.foods[0];
    assert_eq!(fir.food, "balsam_fir");
    assert!((fir.aggregate_volume.unwrap() - 86.36).abs() < 0.01 && (fir.aggregate_percent - 70.0).abs() < 1e-9);
    assert_eq!(fir.percent_low_high, None, "two deer give no range");
    assert_eq!((march.deer, march.foods[0].aggregate_volume), (1, None));
    let poor = march.tiers.iter().find(|t| t.food == "poor").unwrap();
    assert!((poor.aggregate_percent - 100.0).abs() < 1e-9);
    assert_eq!(report.left_out.len(), 2);
    assert!(report.left_out.iter().any(|one| one.reason.contains("more than 100")), "{:?}", report.left_out);
}

/// A hundred times the points leave the herd's range as it is: it is deer that are drawn again.
#[test]
fn points_do_not_narrow_the_herd() {
    let month = |times: usize| {
        let all: Vec<Value> = [1, 9, 4, 6, 2, 8]
            .iter()
            .map(|n| {
                let counted = frames(&[("spruce", n * times), ("pine", (10 - n) * times)]);
                deer(&format!("deer {n}"), "2026-02-20", &[("bench", counted)])
            })
            .collect();
        diet(folded(&json!(all)).carcasses.values()).months[0].foods[0].percent_low_high.unwrap()
    };
    let (few, many) = (month(1), month(20));
    assert!((few[0] - many[0]).abs() < 1e-9 && (few[1] - many[1]).abs() < 1e-9 && few[1] - few[0] > 30.0);
}

/// 400 points are 40 entries.
#[test]
fn four_hundred_points_are_forty_entries() {
    let rows = frames(&[("spruce", 100), ("pine", 100), ("alder", 200)]);
    let folded = folded(&json!([deer("deer", "2026-02-20", &[("bench", rows)])]));
    let carcass = folded.carcasses.values().next().unwrap();
    assert_eq!(carcass.sites("rumen_points").len(), 40);
    let samples = rumen_samples(carcass);
    assert_eq!((samples.len(), samples[0].amounts["alder"]), (1, 200.0));
}
