//! What keeps a draft from being signed, each with the place where it is mended.

use serde_json::{Value, json};

use super::draft::{Draft, field_at};
use super::fields::Kind;
use crate::card::{CallFor, Card, CardFlaw, LaboratoryFlaw};
use crate::reading::table_of;
use crate::record::PersonCode;

/// One fault.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Fault {
    /// Where it is mended: the pointer of a field, of a list's row, or of a list; empty for the card as a whole.
    pub at: String,
    /// What is wrong, as a clause.
    pub wrong: String,
    /// The id of the text that says what to do.
    pub todo: &'static str,
}

impl Fault {
    fn new(at: &str, wrong: impl ToString, todo: &'static str) -> Self {
        Self { at: at.to_owned(), wrong: wrong.to_string(), todo }
    }
}

impl Draft {
    /// Everything that keeps it from being signed; the card itself where nothing does. `newest` is the serial of the
    /// office's newest card: two cards of one number could not be told apart.
    ///
    /// # Errors
    /// The faults, in the order of the form as far as one is known.
    pub fn checked(&self, newest: Option<u64>) -> Result<Card, Vec<Fault>> {
        let mut faults: Vec<Fault> = self.typed().iter().map(|(at, typed)| not_a_value(at, typed)).collect();
        let value = self.patched(&mut faults);
        match serde_json::from_value::<Card>(value) {
            Err(error) => {
                faults.push(Fault::new("", error, "card.fix.form"));
                Err(faults)
            }
            Ok(card) => {
                for flaw in card.flaws() {
                    let (at, todo) = self.place(&flaw, &card);
                    faults.push(Fault::new(&at, flaw, todo));
                }
                // One that is missing, or no number, was told above.
                let serial =
                    self.at("/serial").and_then(Value::as_u64).filter(|_| !self.typed().contains_key("/serial"));
                if let (Some(serial), Some(newest)) = (serial, newest)
                    && serial <= newest
                {
                    let wrong = format!("the office's newest card is number {newest}");
                    faults.push(Fault::new("/serial", wrong, "card.fix.newer"));
                }
                let table = card.cause.as_ref().and_then(|cause| cause.table.as_ref());
                // A table with a flaw of its own was told above.
                if let Some(Err(flaw)) = table.filter(|table| table.check().is_ok()).map(|table| table_of(table)) {
                    faults.push(Fault::new("/cause/table", flaw, "card.fix.table"));
                }
                faults.extend(laboratories(self.at("/laboratories"), &card));
                if faults.is_empty() { Ok(card) } else { Err(faults) }
            }
        }
    }

    /// Whether its members are those of a card, whatever they say.
    pub(super) fn whole(&self) -> Result<(), String> {
        serde_json::from_value::<Card>(self.patched(&mut Vec::new())).map(drop).map_err(|error| error.to_string())
    }

    /// The JSON with what every card must have put in where it lacks, so that all else can be checked; what
    /// lacks is a fault.
    fn patched(&self, faults: &mut Vec<Fault>) -> Value {
        let mut value = self.json();
        let Some(card) = value.as_object_mut() else { return value };
        let needed = [
            ("form", json!(1), ""),
            ("serial", json!(1), "card.fix.serial"),
            ("office", json!(""), ""),
            ("valid_from", json!("0001-01-01T00:00:00+00:00"), "card.fix.day"),
            ("valid_to", json!("9999-12-31T23:59:59+00:00"), "card.fix.day"),
            ("calls", json!([]), ""),
            ("people", json!([]), ""),
        ];
        for (member, stand_in, todo) in needed {
            if !card.contains_key(member) {
                // What is there but no value was told before.
                let at = format!("/{member}");
                if !todo.is_empty() && !self.typed().contains_key(&at) {
                    faults.push(Fault::new(&at, "nothing is given", todo));
                }
                card.insert(member.to_owned(), stand_in);
            }
        }
        if let Some(Value::Array(people)) = card.get_mut("people") {
            for (row, person) in people.iter_mut().enumerate() {
                let code = person.get("code").and_then(Value::as_str).unwrap_or_default();
                if let Err(error) = PersonCode::new(code) {
                    faults.push(Fault::new(&format!("/people/{row}/code"), error, "card.fix.code"));
                    // A code that nobody else has, so that it is no double.
                    if let Some(person) = person.as_object_mut() {
                        person.insert("code".to_owned(), json!(format!("row-{row}")));
                    }
                }
            }
        }
        let no_area = |cause: &Value| cause.get("area").is_none();
        if card.get("cause").is_some_and(no_area) {
            faults.push(Fault::new("/cause/area", "nothing is given", "card.fix.area"));
            card.remove("cause");
        }
        value
    }

    /// Where a flaw is mended, and how.
    fn place(&self, flaw: &CardFlaw, card: &Card) -> (String, &'static str) {
        let row = |member: &str, n: Option<usize>, column: &str| match n {
            Some(n) => format!("/{member}/{n}/{column}"),
            None => format!("/{member}"),
        };
        match flaw {
            CardFlaw::Form(_) => (String::new(), "card.fix.form"),
            CardFlaw::Dates => ("/valid_to".to_owned(), "card.fix.dates"),
            CardFlaw::NoOffice => ("/office".to_owned(), "card.fix.office"),
            CardFlaw::NoCall(_) => ("/calls".to_owned(), "card.fix.no_call"),
            CardFlaw::EmptyCall(role) => (row("calls", empty_call(card, *role), "name"), "card.fix.empty_call"),
            CardFlaw::EmptyPermit(n) => (row("permits", n.checked_sub(1), "what"), "card.fix.permit"),
            CardFlaw::DoublePerson(code) => {
                let last = card.people.iter().rposition(|person| person.code.as_str() == code);
                (row("people", last, "code"), "card.fix.double")
            }
            CardFlaw::NoName(code) => {
                let named =
                    |person: &crate::card::Person| person.code.as_str() == code && person.name.trim().is_empty();
                (row("people", card.people.iter().position(named), "name"), "card.fix.no_name")
            }
            CardFlaw::UnknownPredator(_) => ("/flags/predators".to_owned(), "card.fix.predator"),
            CardFlaw::Figure(_) => ("/figures".to_owned(), "card.fix.figure"),
            CardFlaw::Table(_) => ("/cause/table".to_owned(), "card.fix.table"),
            CardFlaw::UnknownArea(..) => ("/cause/area".to_owned(), "card.fix.area"),
            CardFlaw::Limit { name, .. } => (format!("/limits/{name}"), "card.fix.limit"),
        }
    }
}

/// What is wrong with the laboratories, at the field where it is mended.
fn laboratories(written: Option<&Value>, card: &Card) -> Vec<Fault> {
    let rows = |value: Option<&Value>| value.and_then(Value::as_array).cloned().unwrap_or_default();
    let text = |row: &Value, name: &str| row.get(name).and_then(Value::as_str).unwrap_or_default().to_owned();
    let all = rows(written);
    let no_code = |(n, row): (usize, &Value)| {
        let error = PersonCode::new(&text(row, "code")).err()?;
        Some(Fault::new(&format!("/laboratories/{n}/code"), error, "card.fix.code"))
    };
    let codes: Vec<Fault> = all.iter().enumerate().filter_map(no_code).collect();
    let Some(flaw) = card.laboratories().err().filter(|_| codes.is_empty()) else { return codes };
    let laboratory = |code: &str| all.iter().rposition(|row| text(row, "code") == *code);
    let of_test = |code: &str| {
        let of = |(n, row): (usize, &Value)| {
            let m = rows(row.get("tests")).iter().rposition(|test| text(test, "code") == *code)?;
            Some(format!("{n}/tests/{m}"))
        };
        all.iter().enumerate().rev().find_map(of)
    };
    // A test bears a name as a laboratory does.
    let either = |code: &str| {
        let unnamed = |n: &usize| all.get(*n).is_some_and(|row| text(row, "name").trim().is_empty());
        laboratory(code).filter(unnamed).map(|n| n.to_string()).or_else(|| of_test(code))
    };
    let (row, column, todo) = match &flaw {
        LaboratoryFlaw::Form(_) => (None, "", "card.fix.laboratories"),
        LaboratoryFlaw::DoubleCode(code) => (laboratory(code).map(|n| n.to_string()), "code", "card.fix.lab_code"),
        LaboratoryFlaw::NoName(code) => (either(code), "name", "card.fix.lab_name"),
        LaboratoryFlaw::TestCode(code) => (of_test(code), "code", "card.fix.test_code"),
        LaboratoryFlaw::Sample { test: code, .. } => (of_test(code), "samples", "card.fix.laboratories"),
        LaboratoryFlaw::Disease(code) => (of_test(code), "disease", "card.fix.disease"),
    };
    let at = row.map_or_else(|| "/laboratories".to_owned(), |row| format!("/laboratories/{row}/{column}"));
    vec![Fault::new(&at, flaw, todo)]
}

fn empty_call(card: &Card, role: CallFor) -> Option<usize> {
    let is_empty = |call: &crate::card::Call| call.name.trim().is_empty() || call.number.trim().is_empty();
    card.calls.iter().position(|call| call.call_for == role && is_empty(call))
}

fn not_a_value(at: &str, typed: &str) -> Fault {
    let day = field_at(at).is_some_and(|field| matches!(field.kind, Kind::DayBegins | Kind::DayEnds));
    let (what, todo) = if day { ("day", "card.fix.day") } else { ("whole number", "card.fix.whole") };
    Fault::new(at, format!("`{typed}` is no {what}"), todo)
}
