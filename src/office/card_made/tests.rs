//! A card made field by field, as the form does it. The demo's card is the yardstick: it was written by hand as JSON.

use std::collections::BTreeSet;

use serde_json::Value;

use super::draft::Draft;
use super::fields::{self, CALLS, Kind, LABORATORIES, List, PEOPLE, PERMITS, TESTS};
use super::sign;
use crate::bundle::{DeviceKey, Kind as FileKind, open, seal};
use crate::card::Card;
use crate::reading::built_in;
use crate::record::{Day, Moment};

const DEMO: &str = include_str!("../../../demo/card.json");

/// Minutes east of UTC as the demo's card has them: its first day is written five hours west, its last four.
fn offset(day: Day) -> i32 {
    if Day::parse("2026-10-01").unwrap() == day { -300 } else { -240 }
}

fn text(value: &Value) -> String {
    match value {
        Value::Bool(true) => "yes".to_owned(),
        Value::Bool(false) => "no".to_owned(),
        Value::String(text) => text.clone(),
        other => other.to_string(),
    }
}

/// Types a row's columns, as far as they have a value.
fn put(draft: &mut Draft, at: &str, row: &Value, columns: &[(&str, Kind)]) {
    for (name, kind) in columns {
        if let Some(value) = row.get(name) {
            draft.set(&format!("{at}/{name}"), *kind, &text(value), &offset);
        }
    }
}

fn fill(draft: &mut Draft, demo: &Value) {
    for field in fields::all() {
        if let Some(value) = demo.pointer(field.at) {
            let typed = match field.kind {
                Kind::DayBegins | Kind::DayEnds => text(value)[..10].to_owned(),
                _ => text(value),
            };
            draft.set(field.at, field.kind, &typed, &offset);
        }
    }
    for list in [CALLS, PERMITS, PEOPLE] {
        for (n, row) in demo[list.member].as_array().unwrap().iter().enumerate() {
            draft.add_row(list);
            put(draft, &format!("/{}/{n}", list.member), row, list.columns);
        }
    }
    for (n, one) in demo["laboratories"].as_array().into_iter().flatten().enumerate() {
        let at = format!("/laboratories/{n}");
        draft.add_row(LABORATORIES);
        put(draft, &at, one, LABORATORIES.columns);
        for (m, test) in one["tests"].as_array().unwrap().iter().enumerate() {
            let at = format!("{at}/tests/{m}");
            draft.add_row_at(&format!("/laboratories/{n}/tests"), TESTS);
            put(draft, &at, test, TESTS);
            for code in test["samples"].as_array().unwrap() {
                draft.set_code(&format!("{at}/samples"), code.as_str().unwrap(), true);
            }
        }
    }
    for code in demo["flags"]["predators"].as_array().unwrap() {
        draft.set_code(fields::PREDATORS, code.as_str().unwrap(), true);
    }
}

fn demo() -> Value {
    serde_json::from_str(DEMO).unwrap()
}

fn from_demo() -> Draft {
    let demo = demo();
    let mut draft = Draft::empty(3);
    fill(&mut draft, &demo);
    draft
}

fn faults(draft: &Draft) -> Vec<(String, &'static str)> {
    draft.checked(None).err().unwrap_or_default().into_iter().map(|fault| (fault.at, fault.todo)).collect()
}

#[test]
fn the_demo_s_card_can_be_made_field_by_field() {
    let draft = from_demo();
    let demo = demo();
    assert_eq!(draft.json(), demo);
    assert_eq!(draft.checked(None).unwrap(), Card::from_json(&demo.to_string()).unwrap());
    let key = DeviceKey::from_seed(&[7; 32]);
    let signed = sign(&draft.json(), &key).unwrap();
    let opened = open(signed.as_bytes(), FileKind::Card).unwrap();
    assert_eq!(serde_json::from_slice::<Value>(&opened.payload).unwrap(), demo);
    assert_eq!(opened.signer.id(), key.public().id());
}

#[test]
fn an_empty_card_says_all_that_it_needs_and_is_not_signed() {
    let draft = Draft::empty(1);
    let told = faults(&draft);
    let at: Vec<&str> = told.iter().map(|(at, _)| at.as_str()).collect();
    assert_eq!(at, ["/valid_from", "/valid_to", "/office", "/calls", "/calls", "/calls"]);
    assert!(sign(&draft.json(), &DeviceKey::from_seed(&[7; 32])).is_err());
}

#[test]
fn each_fault_stands_at_its_field() {
    type Change<'a> = &'a dyn Fn(&mut Draft);
    let cases: [(Change<'_>, &str, &str); 12] = [
        (&|d| d.set("/serial", Kind::Whole, "three", &offset), "/serial", "card.fix.whole"),
        (&|d| d.set("/serial", Kind::Whole, "", &offset), "/serial", "card.fix.serial"),
        (&|d| d.set("/valid_to", Kind::DayEnds, "2026-02-30", &offset), "/valid_to", "card.fix.day"),
        (&|d| d.set("/valid_to", Kind::DayEnds, "2026-09-30", &offset), "/valid_to", "card.fix.dates"),
        (&|d| d.set("/office", Kind::Line, "  ", &offset), "/office", "card.fix.office"),
        (&|d| d.set("/limits/reserve_min", Kind::Whole, "5000", &offset), "/limits/reserve_min", "card.fix.limit"),
        (&|d| d.set("/cause/area", Kind::Words, "", &offset), "", ""),
        (&|d| d.set("/people/1/code", Kind::Line, "K 7", &offset), "/people/1/code", "card.fix.code"),
        (&|d| d.set("/people/1/code", Kind::Line, "K7", &offset), "/people/1/code", "card.fix.double"),
        (&|d| d.set("/people/2/name", Kind::Line, "", &offset), "/people/2/name", "card.fix.no_name"),
        (&|d| d.set("/calls/3/number", Kind::Line, "", &offset), "/calls/3/name", "card.fix.empty_call"),
        (&|d| d.set("/permits/0/number", Kind::Line, "", &offset), "/permits/0/what", "card.fix.permit"),
    ];
    for (change, at, todo) in cases {
        let mut draft = from_demo();
        change(&mut draft);
        let wanted: Vec<_> = if todo.is_empty() { vec![] } else { vec![(at.to_owned(), todo)] };
        assert_eq!(faults(&draft), wanted);
    }
    let mut draft = from_demo();
    draft.set("/cause/area", Kind::Words, "", &offset);
    draft.set("/cause/bears_denned", Kind::Flag, "yes", &offset);
    assert_eq!(faults(&draft), [("/cause/area".to_owned(), "card.fix.area")]);
    let mut draft = from_demo();
    draft.remove_row(CALLS, 0);
    assert_eq!(faults(&draft), [("/calls".to_owned(), "card.fix.no_call")]);
}

/// Every id that a fault names in its code, and no text of that kind beside them.
#[test]
fn every_fault_says_what_to_do() {
    let code = include_str!("faults.rs");
    let named: BTreeSet<&str> = code.split('"').filter(|part| part.starts_with("card.fix.")).collect();
    let texts: BTreeSet<&str> =
        include_str!("../../words/en/card_made.rs").split('"').filter(|part| part.starts_with("card.fix.")).collect();
    assert!(named.len() > 15 && named == texts, "{:?}", named.symmetric_difference(&texts).collect::<Vec<_>>());
    for id in named {
        assert_ne!(crate::words::say_office(crate::words::Language::English, id, &[]), id);
    }
}

/// Pointers of all members that the card's schema has, down to those that are lists or values.
fn members(schema: &Value, at: &str, root: &Value, out: &mut BTreeSet<String>) {
    let resolved = |one: &Value| -> Value {
        let one = one["anyOf"].as_array().and_then(|ways| ways.iter().find(|way| way["type"] != "null")).unwrap_or(one);
        one["$ref"].as_str().and_then(|path| root.pointer(path.trim_start_matches('#'))).unwrap_or(one).clone()
    };
    for (name, member) in resolved(schema)["properties"].as_object().into_iter().flatten() {
        let (at, inner) = (format!("{at}/{name}"), resolved(member));
        let whole = fields::WITHOUT_FIELD.contains(&at.as_str());
        if !whole && inner["properties"].is_object() {
            members(&inner, &at, root, out);
        } else {
            out.insert(at);
        }
    }
}

/// The schema is written from the card's type: a member that is new has a field, or is named as carried over.
#[test]
fn every_member_of_a_card_has_a_field_or_is_named_as_carried() {
    let schema: Value = serde_json::from_str(include_str!("../../../tests/schema/marrowbook-card-1.json")).unwrap();
    let mut there = BTreeSet::new();
    members(&schema, "", &schema, &mut there);
    let lists = [CALLS, LABORATORIES, PEOPLE, PERMITS].map(|list| format!("/{}", list.member));
    let fields = fields::all().map(|field| field.at.to_owned());
    let carried = fields::WITHOUT_FIELD.map(str::to_owned);
    let others = [fields::PREDATORS.to_owned(), "/form".to_owned()];
    let known: BTreeSet<String> = fields.chain(lists).chain(carried).chain(others).collect();
    assert_eq!(there, known);
    for list in [CALLS, PEOPLE, PERMITS] {
        let item = &schema["properties"][list.member]["items"]["$ref"].as_str().unwrap().trim_start_matches('#');
        let there: BTreeSet<&str> =
            schema.pointer(item).unwrap()["properties"].as_object().unwrap().keys().map(String::as_str).collect();
        assert_eq!(there, list.columns.iter().map(|(name, _)| *name).collect(), "{}", list.member);
    }
    let defined = |name: &str| -> BTreeSet<String> {
        schema["$defs"][name]["properties"].as_object().unwrap().keys().cloned().collect()
    };
    let columns = |all: &[(&str, Kind)], more: &str| -> BTreeSet<String> {
        all.iter().map(|(name, _)| (*name).to_owned()).chain([more.to_owned()]).collect()
    };
    assert_eq!(defined("Laboratory"), columns(LABORATORIES.columns, "tests"));
    assert_eq!(defined("Test"), columns(TESTS, "samples"));
    let kinds =
        schema["$defs"]["TestKind"]["oneOf"].as_array().unwrap().iter().map(|one| one["const"].as_str().unwrap());
    let Some((_, Kind::Choice(offered))) = TESTS.iter().find(|(name, _)| *name == "kind") else { panic!("no kind") };
    assert_eq!(kinds.collect::<BTreeSet<_>>(), offered.iter().copied().collect());
}

#[test]
fn what_has_no_field_is_carried_over_and_listed() {
    let mut json: Value = serde_json::from_str(DEMO).unwrap();
    json["figures"] = serde_json::json!({
        "browse": [{ "item": "white_cedar", "tier": "preferred", "region": "invented", "source": "invented" }]
    });
    json["cause"]["table"] = serde_json::to_value(built_in()).unwrap();
    json["cause"]["area"] = "northeast".into();
    let text = json.to_string();
    let card = Card::from_json(&text).unwrap();
    let key = DeviceKey::from_seed(&[7; 32]);
    let signed = seal(FileKind::Card, &crate::bundle::canonical::to_vec(&json).unwrap(), &key).unwrap();
    for file in [text.as_bytes(), signed.as_bytes()] {
        let mut draft = Draft::from_file(file, 1, Some(key.public().id())).unwrap();
        assert_eq!(draft.text("/serial", Kind::Whole), "4", "one higher than the card's");
        assert_eq!(draft.carried(), ["/figures/browse", "/cause/table"]);
        draft.set("/disposal", Kind::Words, "Leave it.", &offset);
        let made = draft.checked(None).unwrap();
        assert_eq!((made.figures, made.cause), (card.figures.clone(), card.cause.clone()));
        assert_eq!(made.valid_to, Moment::parse("2029-06-30T23:59:59-04:00").unwrap());
        draft.leave_out("/cause/table");
        assert_eq!(draft.carried(), ["/figures/browse"]);
        assert_eq!(draft.checked(None).unwrap().laboratories(), card.laboratories());
    }
    assert_eq!(Draft::from_file(text.as_bytes(), 9, None).unwrap().text("/serial", Kind::Whole), "9");
}

#[test]
fn what_is_no_card_is_refused_with_its_reason() {
    let refused = |text: &str| Draft::from_file(text.as_bytes(), 1, None).unwrap_err();
    assert!(refused("[]").contains("no JSON object"));
    assert!(refused("{\"form\":1,\"form\":1}").contains("form"), "a member twice");
    assert!(refused(&DEMO.replacen("\"office\"", "\"motto\": \"x\", \"office\"", 1)).contains("motto"));
    let bundle = seal(FileKind::Table, b"{}", &DeviceKey::from_seed(&[7; 32])).unwrap();
    assert!(Draft::from_file(bundle.as_bytes(), 1, None).is_err(), "another kind of file");
}

#[test]
fn another_office_s_signed_table_is_refused_and_plain_json_is_taken() {
    let json = serde_json::to_value(built_in()).unwrap();
    let (ours, theirs) = (DeviceKey::from_seed(&[7; 32]), DeviceKey::from_seed(&[8; 32]));
    let payload = crate::bundle::canonical::to_vec(&json).unwrap();
    let signed = |key: &DeviceKey| seal(FileKind::Table, &payload, key).unwrap();
    let mut draft = from_demo();
    let office = Some(ours.public().id());
    assert!(draft.take_table(signed(&theirs).as_bytes(), office).is_err());
    assert!(draft.take_table(signed(&ours).replace("payload", "payroll").as_bytes(), office).is_err());
    draft.take_table(signed(&ours).as_bytes(), office).unwrap();
    let with = draft.checked(None).unwrap();
    assert_eq!(with.cause.unwrap().table.map(|table| *table), Some(built_in()));
    draft.take_table(json.to_string().as_bytes(), office).unwrap();
    assert!(draft.take_table(b"{\"form\":1}", office).is_err());
}

#[test]
fn another_office_s_signed_card_is_no_draft_and_lends_no_readers_record() {
    let (ours, theirs) = (DeviceKey::from_seed(&[7; 32]), DeviceKey::from_seed(&[8; 32]));
    let json: Value = serde_json::from_str(DEMO).unwrap();
    let signed = |key: &DeviceKey| sign(&json, key).unwrap();
    let office = Some(ours.public().id());
    assert!(Draft::from_file(signed(&theirs).as_bytes(), 1, office).unwrap_err().contains("another key"));
    assert!(Draft::from_file(signed(&ours).as_bytes(), 1, None).unwrap_err().contains("no office key"));
    assert!(Draft::from_file(signed(&ours).as_bytes(), 1, office).is_ok());
    let refused = |key: &DeviceKey| from_demo().take_reader_model(signed(key).as_bytes(), office).unwrap_err();
    assert!(refused(&theirs).contains("another key"));
    assert!(refused(&ours).contains("no readers' record"), "opened, and this card carries none");
}

#[test]
fn a_card_has_a_higher_number_than_the_office_s_newest() {
    let draft = from_demo();
    let at = |newest| draft.checked(newest).err().unwrap_or_default();
    assert_eq!(at(Some(2)), []);
    for newest in [3, 4] {
        let told: Vec<_> = at(Some(newest)).into_iter().map(|fault| (fault.at, fault.todo)).collect();
        assert_eq!(told, [("/serial".to_owned(), "card.fix.newer")]);
    }
}

#[test]
fn rows_are_taken_away_and_the_rest_keeps_its_place() {
    let mut draft = from_demo();
    draft.remove_row(PEOPLE, 0);
    assert_eq!(draft.rows(PEOPLE), 2);
    assert_eq!(draft.text("/people/0/code", Kind::Line), "B2");
    draft.remove_row(List { member: "people", columns: PEOPLE.columns }, 9);
    assert_eq!(draft.rows(PEOPLE), 2);
}

/// A rule of the house: what is wrong is told at the field where it is mended.
#[test]
fn a_flaw_of_a_laboratory_stands_at_its_field() {
    let of = |change: &dyn Fn(&mut Draft)| {
        let mut draft = from_demo();
        change(&mut draft);
        faults(&draft)
    };
    let typed = |at: &'static str, kind: Kind, text: &'static str| of(&|draft| draft.set(at, kind, text, &offset));
    let at = |at: &str, todo: &'static str| vec![(format!("/laboratories/{at}"), todo)];
    assert_eq!(of(&|_| {}), []);
    assert_eq!(typed("/laboratories/1/code", Kind::Line, ""), at("1/code", "card.fix.code"));
    assert_eq!(typed("/laboratories/1/code", Kind::Line, "ROOT"), at("1/code", "card.fix.lab_code"));
    assert_eq!(typed("/laboratories/0/name", Kind::Line, " "), at("0/name", "card.fix.lab_name"));
    assert_eq!(typed("/laboratories/0/tests/1/name", Kind::Line, ""), at("0/tests/1/name", "card.fix.lab_name"));
    assert_eq!(typed("/laboratories/1/tests/0/code", Kind::Line, "marrow"), at("1/tests/0/code", "card.fix.test_code"));
    assert_eq!(
        typed("/laboratories/0/tests/0/disease", Kind::Words, "rot"),
        at("0/tests/0/disease", "card.fix.disease")
    );
    assert_eq!(
        typed("/laboratories/1/tests/1/call_people", Kind::Maybe, ""),
        at("1/tests/1/disease", "card.fix.disease")
    );
    let tail = of(&|draft| draft.set_code("/laboratories/0/tests/2/samples", "tail", true));
    assert_eq!(tail, at("0/tests/2/samples", "card.fix.laboratories"));
    // Rows come and go; the card stays one, and without a laboratory it has none.
    let mut draft = from_demo();
    draft.remove_row_at("/laboratories/1/tests", 0);
    assert_eq!(draft.checked(None).unwrap().laboratories().unwrap()[1].tests[0].code, "tb");
    draft.remove_row(LABORATORIES, 0);
    assert_eq!(draft.checked(None).unwrap().laboratories().unwrap()[0].code.as_str(), "VETLAB");
    draft.remove_row(LABORATORIES, 0);
    assert!(draft.json().get("laboratories").is_none());
    draft.add_row(LABORATORIES);
    assert_eq!(faults(&draft), at("0/code", "card.fix.code"));
}
