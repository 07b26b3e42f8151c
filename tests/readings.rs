//! Readings from findings: what is said, what is refused, what differs and what travels.
//!
//! Laws of the design and rules of the methods; where a row has a source outside, it stands beside it.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::indexing_slicing, clippy::panic, clippy::float_cmp)]

use std::collections::BTreeSet;

use marrowbook::office::findings_table::{FindingsTable, Tabled};
use marrowbook::reading::{self, Given, Outcome, Reading, Readings, Statement, Val, cause_ids, message_ids};
use marrowbook::record::{Journal, fold};
use proptest::prelude::*;
use serde_json::{Value, json};

/// One carcass, each examination as (kind, rows); found on 20 February 2026.
fn tabled(examinations: &[(&str, Vec<Value>)]) -> Tabled {
    let all: Vec<Value> = examinations
        .iter()
        .map(|(kind, rows)| json!({"kind": kind, "at": "2026-02-20T12:00:00-06:00", "findings": rows}))
        .collect();
    let table =
        json!({"format": "marrowbook-findings-1", "carcasses": [{"name": "deer", "examinations": all}]}).to_string();
    FindingsTable::read(table.as_bytes()).unwrap().journal().unwrap()
}

fn read_all(examinations: &[(&str, Vec<Value>)]) -> Readings {
    let tabled = tabled(examinations);
    assert_eq!(tabled.set_aside, []);
    let folded = fold(&tabled.journal);
    reading::all(&folded.carcasses[&tabled.carcasses[0].1], &Given::default())
}

fn field(rows: Vec<Value>) -> Readings {
    let mut all = vec![json!({"finding": "species", "value": "white_tailed_deer"})];
    all.extend(rows);
    read_all(&[("field", all)])
}

fn tooth(finding: &str, tooth: &str, value: &str) -> Value {
    json!({"finding": finding, "side": "left", "tooth": tooth, "value": value})
}

fn side(finding: &str, value: impl Into<Value>) -> Value {
    json!({"finding": finding, "side": "left", "value": value.into()})
}

fn femur(finding: &str, value: impl Into<Value>) -> Value {
    json!({"finding": finding, "bone": "femur", "value": value.into()})
}

/// A whole row of permanent teeth, the molars' dentine as told.
fn adult_jaw(dentine: [&str; 3]) -> Vec<Value> {
    let mut rows = vec![side("third_tooth", "two_cusps_stained")];
    rows.extend(["p2", "p3", "p4", "m1", "m2", "m3"].map(|t| tooth("tooth_state", t, "in_wear")));
    rows.extend(["m1", "m2", "m3"].into_iter().zip(dentine).map(|(t, d)| tooth("dentine", t, d)));
    rows
}

fn fawn_jaw() -> Vec<Value> {
    vec![side("cheek_teeth_count", 5), side("third_tooth", "three_cusps")]
}

fn messages(reading: &Reading) -> BTreeSet<String> {
    fn walk(value: &Val, out: &mut BTreeSet<String>) {
        match value {
            Val::Message(id) => {
                out.insert(id.clone());
            }
            Val::List(all) => all.iter().for_each(|v| walk(v, out)),
            _ => {}
        }
    }
    let mut out = BTreeSet::from([reading.title.clone()]);
    let mut take = |statement: &Statement| {
        out.insert(statement.id.clone());
        statement.values.values().for_each(|v| walk(v, &mut out));
    };
    reading.statements.iter().chain(&reading.cautions).for_each(&mut take);
    reading.sharpen.iter().for_each(|s| take(&s.look));
    reading.variants.iter().for_each(|v| take(&v.headline));
    out.extend(reading.estimates.iter().map(|e| e.unit.clone()));
    out
}

fn says(reading: &Reading, id: &str) -> bool {
    messages(reading).contains(id)
}

fn best(reading: &Reading) -> f64 {
    reading.estimates[0].best.unwrap()
}

/// Indiana DNR; Mech and Frenzel 1971: worn milk premolars in February are a yearling's.
#[test]
fn the_winter_trap() {
    let r = field(vec![side("cheek_teeth_count", 6), side("third_tooth", "three_cusps")]).age;
    assert_eq!(r.outcome, Outcome::Read);
    assert_eq!(best(&r), 1.0);
    assert!(says(&r, "reading.age.key_class.yearling"));
    assert!(says(&r, "reading.age.caution.delayed_teeth"));
    let months = &r.estimates[1];
    assert!(months.low.unwrap() < 20.5 && months.high.unwrap() > 19.0, "{months:?}");
    assert_eq!(months.coverage, Some(0.9));
}

/// A tooth that was lost stood there: it is counted, and says nothing of how far the row had come. A premolar that is
/// being replaced makes a row of five a yearling's. Common practice, no source.
#[test]
fn a_tooth_that_was_lost_stood_there() {
    let jaw = |p2: &str| {
        let mut rows = adult_jaw(["wider", "narrower", "narrower"]);
        rows.retain(|row| row["tooth"] != "p2");
        rows.push(tooth("tooth_state", "p2", p2));
        field(rows).age
    };
    let whole = jaw("in_wear");
    for lost in ["lost_in_life", "lost_after_death"] {
        assert_eq!(jaw(lost).estimates, whole.estimates, "{lost}");
        assert!(says(&jaw(lost), "reading.age.key_class.adult"), "{lost}");
    }
    let changing =
        [("p2", "milk"), ("p3", "milk"), ("p4", "milk_shed"), ("m1", "in_wear"), ("m2", "in_wear"), ("m3", "part_up")];
    let changing = field(changing.map(|(t, state)| tooth("tooth_state", t, state)).to_vec()).age;
    assert!(says(&changing, "reading.age.key_class.yearling"), "{:?}", messages(&changing));
}

/// A worn milk tooth marked `in wear` and not described further is not taken for a permanent one.
#[test]
fn in_wear_alone_is_no_permanent_premolar() {
    let rows: Vec<Value> = ["p2", "p3", "p4", "m1", "m2", "m3"].map(|t| tooth("tooth_state", t, "in_wear")).to_vec();
    let r = field(rows).age;
    assert!(says(&r, "reading.age.key_why.needs_third_tooth"));
    let yearling = r.estimates[0].shares[1].probability;
    assert!(yearling > 0.05, "a yearling is not ruled out: {yearling}");
    let third = r.sharpen.iter().find(|s| s.finding == "third_tooth").unwrap();
    assert!(third.gain_bits.unwrap() > 0.2, "{third:?}");
}

#[test]
fn a_doe_of_two() {
    let r = field(adult_jaw(["narrower", "narrower", "narrower"])).age;
    assert_eq!(best(&r), 2.0);
    assert!(says(&r, "reading.age.key_class.adult"));
    assert!(says(&r, "reading.age.caution.wear_is_a_guess"));
    assert!(says(&r, "reading.age.caution.keep_jaw_and_incisors"));
    assert!(r.sources.iter().any(|s| s.mark == "design"), "marks travel");
    assert!(r.sources.iter().any(|s| s.mark == "seen"));
}

#[test]
fn nothing_looked_at_is_no_reading() {
    let not_looked = json!({"finding": "third_tooth", "side": "left", "state": "not_looked", "why": "frozen"});
    let r = field(vec![not_looked]);
    for reading in [&r.age, &r.condition, &r.sex] {
        assert_eq!(reading.outcome, Outcome::NoEvidence, "{}", reading.method);
        assert!(reading.estimates.is_empty());
        assert!(!reading.sharpen.is_empty());
    }
    let other = read_all(&[("field", vec![json!({"finding": "species", "value": "other_deer"})])]);
    assert_eq!(other.age.outcome, Outcome::Refused);
    assert!(says(&other.age, "reading.age.refused.not_white_tailed"));
}

/// Methods are for white-tailed deer: on another animal they refuse, whatever was seen.
#[test]
fn other_animals_are_refused() {
    let marrow = [femur("marrow_consistency", "gelatinous_wet"), femur("marrow_frozen", "never_frozen")];
    let of = |species: Option<&str>| {
        let told = species.map(|s| json!({"finding": "species", "value": s}));
        read_all(&[("field", told.into_iter().chain(marrow.clone()).collect())]).condition
    };
    for (species, why) in [(Some("other_deer"), "not_white_tailed"), (None, "species_unknown")] {
        let r = of(species);
        assert_eq!(r.outcome, Outcome::Refused);
        assert!(says(&r, &format!("reading.scope.{why}")) && r.estimates.is_empty());
        // A method that was not used is cited for nothing.
        assert!(r.sources.is_empty(), "{:?}", r.sources);
    }
    let read = of(Some("white_tailed_deer"));
    assert!(read.outcome == Outcome::Read && !read.sources.is_empty());
}

/// A look from afar is not dressed up as an age.
#[test]
fn a_look_from_afar_names_no_year() {
    let r = field(vec![json!({"finding": "quick_class", "value": "older"})]).age;
    assert_eq!(r.estimates[0].shares.len(), 2);
    assert_eq!(r.estimates[0].best, None);
    assert!(says(&r, "reading.age.caution.quick_class_only") && !says(&r, "reading.age.set"));
}

#[test]
fn contradictions_name_the_teeth() {
    let mut rows = adult_jaw(["narrower", "narrower", "smooth"]);
    rows[0] = side("third_tooth", "three_cusps");
    let r = field(rows).age;
    assert!(says(&r, "reading.age.contradiction.milk_beside_late_teeth"));
    assert!(says(&r, "reading.tooth.p4") && says(&r, "reading.tooth.m3"));
    assert_eq!(r.outcome, Outcome::Read, "the reading goes on");
}

/// A law of the design: two answers to one question are both kept, and neither is taken silently.
#[test]
fn a_method_for_one_species_is_refused_where_answers_on_the_species_differ() {
    let looks = || {
        vec![
            femur("marrow_consistency", "solid_waxy"),
            femur("bone_opened", "intact"),
            femur("marrow_frozen", "never_frozen"),
        ]
    };
    let of = |first: &str, second: &str| {
        let other = |code: &str| json!({"finding": "species", "value": code});
        let mut rows = looks();
        rows.push(other(first));
        read_all(&[("field", rows), ("bench", vec![other(second)])])
    };
    let alone = of("white_tailed_deer", "white_tailed_deer");
    assert_eq!(alone.condition.outcome, Outcome::Read);
    for differ in [of("white_tailed_deer", "other_animal"), of("other_animal", "white_tailed_deer")] {
        assert_eq!(differ.condition.outcome, Outcome::Refused);
        assert_eq!(differ.condition.statements[0].id, "reading.scope.species_differ");
        assert_eq!(differ.condition.sharpen[0].finding, "species");
    }
    // Both close it for the same reason: that is said.
    let other = of("other_animal", "other_animal").condition;
    assert_eq!(other.statements[0].id, "reading.scope.not_white_tailed");
}

/// Two observers, two answers: each is worked out, both are shown, the figure is their mean.
#[test]
fn answers_that_differ_are_both_shown() {
    let count = side("cheek_teeth_count", 6);
    let third =
        |code: &str, who: &str| json!({"finding": "third_tooth", "side": "left", "value": code, "observer": who});
    let both = field(vec![count.clone(), third("three_cusps", "A1"), third("two_cusps_stained", "B2")]).age;
    let one = field(vec![count.clone(), third("three_cusps", "A1")]).age;
    let two = field(vec![count, third("two_cusps_stained", "B2")]).age;
    assert_eq!(both.variants.len(), 2);
    assert!(says(&both, "reading.caution.split"));
    let shares = |r: &Reading| r.estimates[0].shares.iter().map(|s| s.probability).collect::<Vec<_>>();
    for ((mean, a), b) in shares(&both).into_iter().zip(shares(&one)).zip(shares(&two)) {
        assert!((mean - f64::midpoint(a, b)).abs() < 1e-12);
    }
    assert!(both.variants.iter().all(|v| v.taken.len() == 1 && v.taken[0].finding == "third_tooth"));
    let same = field(vec![third("three_cusps", "A1"), third("three_cusps", "B2")]).age;
    assert!(same.variants.is_empty(), "agreement is no split");
    // The same of one look at marrow.
    let marrow = |code: &str, who: &str| json!({"finding": "marrow_consistency", "bone": "femur", "value": code, "observer": who});
    let looks = |second: &str| {
        let seen = [("marrow_frozen", "never_frozen"), ("marrow_colour", "pink"), ("bone_opened", "intact")];
        let mut rows: Vec<Value> = seen.into_iter().map(|(finding, code)| femur(finding, code)).collect();
        rows.extend([marrow("gelatinous_wet", "A1"), marrow(second, "B2")]);
        field(rows).condition
    };
    let both = looks("solid_waxy");
    let heads: Vec<_> = both.variants.iter().map(|v| &v.headline).collect();
    assert!(matches!(heads[..], [one, two] if one != two), "{heads:?}");
    assert!(both.variants.iter().all(|v| v.taken.len() == 1 && v.taken[0].finding == "marrow_consistency"));
    assert!(looks("gelatinous_wet").variants.is_empty());
}

/// A frozen look in the field is refused and kept raw; thawed on the bench it is read, and nothing of
/// the field's is overwritten.
#[test]
fn frozen_in_the_field_thawed_on_the_bench() {
    let mut rows = vec![
        json!({"finding": "species", "value": "white_tailed_deer"}),
        json!({"finding": "marrow_consistency", "bone": "femur", "state": "cant_tell", "why": "frozen"}),
        femur("marrow_colour", "white"),
        femur("bone_opened", "intact"),
    ];
    let cold = read_all(&[("field", rows.clone())]).condition;
    assert_eq!(cold.outcome, Outcome::Refused);
    assert!(says(&cold, "reading.condition.why.frozen"));
    assert!(says(&cold, "reading.look.marrow_thawed"));
    rows.push(femur("marrow_frozen", "frozen"));
    let bench = vec![femur("marrow_frozen", "thawed_after_freezing"), femur("marrow_consistency", "gelatinous_wet")];
    let warm = read_all(&[("field", rows), ("bench", bench)]).condition;
    assert_eq!(warm.outcome, Outcome::Read);
    assert!(says(&warm, "reading.condition.class.m3"));
    assert!(says(&warm, "reading.condition.why.frozen"), "the field's look is still told");
    assert_ne!(warm.statements[0].id, "reading.condition.cannot_say", "and after the one that could be read");
    assert!(warm.variants.is_empty(), "two occasions are no contradiction");
}

/// A shaft open under a day has not dried (`condition-and-winter.md`, marrow by eye): no caution of drying, and it was
/// asked; over a day, or nobody knows how long, may have.
#[test]
fn how_long_the_bone_was_open_is_taken_up() {
    let look = |opened: Option<&str>| {
        let mut rows = vec![femur("marrow_consistency", "solid_waxy"), femur("marrow_colour", "white")];
        rows.push(femur("marrow_frozen", "never_frozen"));
        rows.extend(opened.map(|code| femur("bone_opened", code)));
        let read = field(rows).condition;
        ["opened_not_asked", "long_open"].map(|one| says(&read, &format!("reading.condition.caution.{one}")))
    };
    assert_eq!(look(None), [true, false]);
    assert_eq!(look(Some("intact")), [false, false]);
    assert_eq!(look(Some("open_under_a_day")), [false, false]);
    assert_eq!(look(Some("open_over_a_day")), [false, true]);
    assert_eq!(look(Some("open_unknown")), [false, true]);
}

/// Limits seen for sika deer: calves 45 %, does 25 %.
#[test]
fn weighed_marrow_by_age_group() {
    let weighed = [femur("marrow_wet_g", 10.0), femur("marrow_dry_g", 3.7), femur("marrow_frozen", "never_frozen")];
    let with = |jaw: Vec<Value>| field(jaw.into_iter().chain(weighed.clone()).collect()).condition;
    let (fawn, adult, unknown) = (with(fawn_jaw()), with(adult_jaw(["wider", "wider", "wider"])), with(vec![]));
    assert_eq!(fawn.estimates[0].best.map(|f| (f * 1e6).round()), Some(30e6));
    assert_eq!(fawn.estimates[1].best.map(|f| (f * 1e6).round()), Some(37e6));
    assert!(says(&fawn, "reading.condition.word.depleted") && says(&fawn, "reading.condition.group.fawn"));
    assert!(!says(&fawn, "reading.condition.group.adult"));
    assert!(says(&adult, "reading.condition.word.partly_used") && !says(&adult, "reading.condition.group.fawn"));
    assert!(says(&unknown, "reading.condition.group.fawn") && says(&unknown, "reading.condition.group.adult"));
    assert!(says(&unknown, "reading.condition.caution.both_groups"));
    // Whose limits they are is said (reference on condition, section 1.5).
    assert!(says(&fawn, "reading.condition.caution.sika_limits"));
}

#[test]
fn impossible_weights_are_said_and_kept() {
    let r = field(vec![femur("marrow_wet_g", 3.0), femur("marrow_dry_g", 4.0)]).condition;
    assert_eq!(r.outcome, Outcome::Refused);
    assert!(says(&r, "reading.condition.why.dry_above_wet"));
    assert_eq!(r.rests_on.len(), 2);
}

#[test]
fn look_and_weighing_that_disagree_are_both_reported() {
    let rows = vec![
        femur("marrow_consistency", "gelatinous_wet"),
        femur("marrow_frozen", "never_frozen"),
        femur("bone_opened", "intact"),
        femur("marrow_wet_g", 5.0),
        femur("marrow_dry_g", 4.5),
    ];
    let r = field(rows).condition;
    assert!(says(&r, "reading.condition.disagree"));
    assert!(says(&r, "reading.condition.class.m3") && says(&r, "reading.condition.weighed"));
}

#[test]
fn readings_travel_exactly() {
    let mut rows = adult_jaw(["wider", "wider", "narrower"]);
    rows.extend([femur("marrow_consistency", "gelatinous_opaque"), femur("marrow_frozen", "never_frozen")]);
    let r = field(rows);
    let text = serde_json::to_string(&r).unwrap();
    let back: Readings = serde_json::from_str(&text).unwrap();
    assert_eq!(back, r);
    assert_eq!(serde_json::to_string(&back).unwrap(), text);
    // A phone sends the cause along only once the examination is closed.
    let open = serde_json::to_string(&Readings { cause: None, left_signs: None, ..r }).unwrap();
    assert!(open.len() < 16_000, "{} bytes", open.len());
    assert!(text.len() < 22_000, "{} bytes", text.len());
}

/// The digest is over what the reading rests on: an unrelated answer leaves it, another answer moves it.
#[test]
fn the_digest_is_over_what_was_used() {
    let rows = adult_jaw(["wider", "wider", "narrower"]);
    let mut more = rows.clone();
    more.push(json!({"finding": "snow_depth_cm", "value": 40}));
    let other = adult_jaw(["wider", "wider", "wider"]);
    let (a, b, c) = (field(rows).age, field(more).age, field(other).age);
    assert_eq!((a.entries_digest, &a.rests_on), (b.entries_digest, &b.rests_on));
    assert_ne!(a.entries_digest, c.entries_digest);
    assert!(a.rests_on.len() > 9);
}

fn one_of(codes: &'static [&'static str]) -> impl Strategy<Value = &'static str> {
    prop::sample::select(codes)
}

/// Any answers at the jaw and the marrow, by two observers, in field and bench.
fn any_rows() -> impl Strategy<Value = Vec<Value>> {
    let tooth_codes = &["not_there", "in_gum", "part_up", "up_unworn", "in_wear", "milk", "milk_loose", "lost_in_life"];
    let row = prop_oneof![
        (one_of(&["p1", "p2", "p3", "p4", "m1", "m2", "m3"]), one_of(tooth_codes), one_of(&["left", "right"]))
            .prop_map(|(t, v, s)| json!({"finding": "tooth_state", "side": s, "tooth": t, "value": v})),
        (one_of(&["p4", "m1", "m2", "m3"]), one_of(&["none", "narrower", "wider", "smooth"]))
            .prop_map(|(t, v)| tooth("dentine", t, v)),
        (0..9_u8).prop_map(|n| side("cheek_teeth_count", n)),
        one_of(&["three_cusps", "loose_or_gone", "two_cusps_below_row", "two_cusps_white", "two_cusps_stained"])
            .prop_map(|v| side("third_tooth", v)),
        one_of(&["all_milk", "first_pair_changing", "all_permanent"])
            .prop_map(|v| json!({"finding": "front_teeth", "value": v})),
        one_of(&["y2", "y5", "y10"]).prop_map(|v| json!({"finding": "wear_class_called", "value": v})),
        (
            one_of(&["femur", "metatarsus", "mandible"]),
            one_of(&["solid_waxy", "gelatinous_opaque", "gelatinous_wet", "watery"])
        )
            .prop_map(|(b, v)| json!({"finding": "marrow_consistency", "bone": b, "value": v})),
        one_of(&["frozen", "thawed_after_freezing", "never_frozen"]).prop_map(|v| femur("marrow_frozen", v)),
        one_of(&["intact", "open_over_a_day"]).prop_map(|v| femur("bone_opened", v)),
        (0..900_u32).prop_map(|g| femur("marrow_wet_g", f64::from(g) / 100.0)),
        (0..900_u32).prop_map(|g| femur("marrow_dry_g", f64::from(g) / 100.0)),
        (0..=1000_u32).prop_map(|p| femur("marrow_lab_percent", f64::from(p) / 10.0)),
        one_of(&["dry_weight", "fat_extracted", "not_said"]).prop_map(|v| femur("marrow_lab_scale", v)),
        (
            one_of(&["brisket_fat", "gut_fat", "kidney_fat", "heart_fat", "pericardial_fat"]),
            one_of(&["heavy", "moderate", "slight", "none"])
        )
            .prop_map(|(f, v)| json!({"finding": f, "value": v})),
        one_of(&["thick", "moderate", "thin", "none"]).prop_map(|v| json!({"finding": "rump_fat", "value": v})),
        one_of(&["gut", "kidneys", "heart"]).prop_map(|v| json!({"finding": "fat_watery", "value": [v]})),
        (one_of(&["kidney_g", "kidney_fat_whole_g", "kidney_fat_cut_g"]), 50..3000_u32)
            .prop_map(|(f, g)| side(f, f64::from(g) / 10.0)),
        (one_of(&["whole_weight_kg", "reference_low_kg", "reference_high_kg"]), 10..2500_u32)
            .prop_map(|(f, g)| json!({"finding": f, "value": f64::from(g) / 10.0})),
        one_of(&["whole", "part_eaten"]).prop_map(|v| json!({"finding": "body_state", "value": v})),
    ];
    let told = (row, one_of(&["A1", "B2"])).prop_map(|(mut row, who)| {
        row["observer"] = json!(who);
        row
    });
    prop::collection::vec(told, 0..14)
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(150))]

    /// Whatever was answered: a distribution, ids that are on the list, no cause, and exact travel.
    #[test]
    fn any_answers(field_rows in any_rows(), bench_rows in any_rows()) {
        let mut rows = vec![json!({"finding": "species", "value": "white_tailed_deer"})];
        rows.extend(field_rows);
        let tabled = tabled(&[("field", rows), ("bench", bench_rows)]);
        let readings = reading::all(&fold(&tabled.journal).carcasses[&tabled.carcasses[0].1], &Given::default());
        let listed: BTreeSet<&str> = message_ids::ALL.iter().flat_map(|part| part.iter().copied()).collect();
        let of_cause = cause_ids::all();
        for reading in readings.each() {
            let says_cause = reading.method.starts_with("cause.");
            for id in messages(reading) {
                let known = if says_cause { of_cause.contains(&id) } else { listed.contains(id.as_str()) };
                prop_assert!(known || (says_cause && listed.contains(id.as_str())), "{} is not on the list", id);
                prop_assert!(says_cause || !["killed", "starv", "cause_of"].iter().any(|word| id.contains(word)), "{}", id);
            }
            for estimate in reading.estimates.iter().filter(|e| !e.shares.is_empty()) {
                let total: f64 = estimate.shares.iter().map(|s| s.probability).sum();
                prop_assert!((total - 1.0).abs() < 1e-9);
            }
            // These give a word, and a figure only where something was weighed or bounds a death from below.
            let words = ["sex.ladder", "condition.combined", "condition.fat", "death.window"];
            let in_words = words.contains(&reading.method.as_str());
            prop_assert_eq!(reading.outcome == Outcome::Read, !reading.estimates.is_empty() || in_words && reading.outcome == Outcome::Read);
        }
        let text = serde_json::to_string(&readings).unwrap();
        prop_assert_eq!(serde_json::from_str::<Readings>(&text).unwrap(), readings);
    }

    /// The order in which entries reach the journal does not matter.
    #[test]
    fn order_of_evidence_does_not_matter(rows in any_rows()) {
        let mut all = vec![json!({"finding": "species", "value": "white_tailed_deer"})];
        all.extend(rows);
        let tabled = tabled(&[("field", all)]);
        let mut backward = Journal::new();
        let entries: Vec<_> = tabled.journal.entries().cloned().collect();
        for entry in entries.into_iter().rev() {
            backward.add(entry).unwrap();
        }
        let id = tabled.carcasses[0].1;
        let read = |journal: &Journal| reading::all(&fold(journal).carcasses[&id], &Given::default());
        prop_assert_eq!(read(&tabled.journal), read(&backward));
    }
}

#[test]
fn signs_of_sex_felt_with_gloves_count_as_much_as_those_seen_and_only_once() {
    let said = |rows: Vec<Value>| field(rows).sex.estimates.first().and_then(|e| e.best).unwrap();
    let seen = json!({"finding": "sex_evidence", "value": ["no_pedicles"]});
    let felt = json!({"finding": "sex_evidence_handled", "value": ["no_pedicles"]});
    let alone = said(vec![seen.clone()]);
    assert_eq!(said(vec![felt.clone()]), alone);
    assert_eq!(said(vec![seen, felt]), alone);
    // A direct sign is certain (reference ladder, first line) wherever it was found.
    let scrotum = json!({"finding": "sex_evidence_handled", "value": ["scrotum_or_penis"]});
    assert_eq!(field(vec![scrotum]).sex.statements[0].id, message_ids::SEX_MALE);
}

/// Rules of the house: a look is proposed only where it can still be done.
#[test]
fn no_look_is_proposed_at_a_jaw_that_is_not_there() {
    let teeth = |readings: &Readings| -> Vec<Statement> {
        let off = ["growth_plate", "species"];
        readings.age.sharpen.iter().filter(|s| !off.contains(&s.finding.as_str())).map(|s| s.look.clone()).collect()
    };
    let value = |finding: &str, value: &str| json!({"finding": finding, "value": value});
    let gone = json!({"finding": "jaw_in_view", "state": "part_gone", "why": "scavenged"});
    let quick = || value("quick_class", "older");
    let open = field(vec![quick()]);
    assert!(!teeth(&open).is_empty(), "nobody has said where the jaw is");
    for row in [
        gone.clone(),
        value("jaw_in_view", "neither"),
        json!({"finding": "parts_eaten", "value": ["head"]}),
        value("head_or_antlers_missing_only", "there"),
    ] {
        let none = field(vec![quick(), row.clone()]);
        assert_eq!(teeth(&none), [], "{row}");
        assert!(none.age.sharpen.iter().any(|s| s.finding == "growth_plate"), "the leg may be there: {row}");
        assert_eq!(none.sharpen().iter().filter(|s| s.finding == "tooth_state").count(), 0);
    }
    // Taken for the bench: the same looks, there. On the bench it is in view, and said as such.
    let taken = vec![quick(), value("jaw_in_view", "neither"), value("jaw_taken", "right_half")];
    let all = field(taken.clone());
    assert!(!teeth(&all).is_empty() && teeth(&all).iter().all(|look| look.id == "reading.look.on_bench"));
    assert!(all.age.sharpen.iter().filter_map(|s| s.site.side).all(|s| s == marrowbook::record::Side::Right));
    let said = teeth(&all)[0].say(marrowbook::words::Language::English);
    assert!(said.starts_with("On the bench: "), "{said}");
    let mut first = vec![value("species", "white_tailed_deer")];
    first.extend(taken);
    let later = read_all(&[("field", first), ("bench", vec![value("jaw_in_view", "right")])]);
    assert!(!teeth(&later).is_empty() && teeth(&later).iter().all(|look| look.id != "reading.look.on_bench"));
    let front = field(vec![quick(), value("jaw_in_view", "neither"), value("jaw_taken", "front_teeth_only")]);
    assert!(front.age.sharpen.iter().any(|s| s.finding == "front_teeth"));
    assert!(front.age.sharpen.iter().all(|s| ["growth_plate", "front_teeth"].contains(&s.finding.as_str())));
}

#[test]
fn no_look_is_proposed_at_a_part_that_is_gone_or_on_another_species() {
    let gone = |finding: &str, side: &str| json!({"finding": finding, "side": side, "tooth": "m3", "state": "part_gone", "why": "removed"});
    let dentine = |readings: &Readings| {
        let m3 = |s: &&reading::Sharpen| s.finding == "dentine" && s.site.tooth == Some(marrowbook::record::Tooth::M3);
        readings.age.sharpen.iter().find(m3).and_then(|s| s.site.side)
    };
    let jaw = || adult_jaw(["narrower", "narrower", "narrower"]).into_iter().filter(|r| r["tooth"] != "m3");
    assert_eq!(dentine(&field(jaw().collect())), Some(marrowbook::record::Side::Left));
    assert_eq!(
        dentine(&field(jaw().chain([gone("dentine", "left")]).collect())),
        Some(marrowbook::record::Side::Right)
    );
    let both = jaw().chain([gone("dentine", "left"), gone("dentine", "right")]);
    assert_eq!(dentine(&field(both.collect())), None);
    let other = read_all(&[("field", vec![json!({"finding": "species", "value": "other_deer"})])]);
    for reading in other.each() {
        assert!(reading.sharpen.is_empty(), "{}: {:?}", reading.method, reading.sharpen);
    }
}
