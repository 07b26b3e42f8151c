//! A card while it is being written: its JSON, and beside it what was typed and is no value yet.
//!
//! The JSON is the draft. A field changes its own member and nothing else, so whatever the form has no field for
//! is signed as it came.

use serde_json::{Map, Value};
use std::collections::BTreeMap;

use super::fields::{self, Field, Kind, LABORATORIES, List, WITHOUT_FIELD};
use crate::bundle::{Kind as FileKind, open, strict};
use crate::record::{Day, DeviceId, Moment};

/// A card in the making.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Draft {
    card: Map<String, Value>,
    typed: BTreeMap<String, String>,
}

impl Draft {
    /// An empty card with that serial number.
    pub fn empty(serial: u64) -> Self {
        let mut draft = Self::default();
        draft.put("/form", Value::from(1));
        draft.put("/serial", Value::from(serial));
        draft
    }

    /// From a card's file, signed or as JSON. Its serial becomes one higher, and at least `serial`.
    ///
    /// # Errors
    /// Why it is no card, as a clause; another office than `office` signed it. A card with flaws is taken: they are
    /// told beside their fields.
    pub fn from_file(bytes: &[u8], serial: u64, office: Option<DeviceId>) -> Result<Self, String> {
        let (json, signer) = payload(bytes, FileKind::Card)?;
        ours(signer, office)?;
        let value: Value = strict::read_as(&json).map_err(|error| error.to_string())?;
        let Value::Object(card) = value else { return Err("it is no JSON object".to_owned()) };
        let mut draft = Self { card, typed: BTreeMap::new() };
        draft.whole().map_err(|reason| format!("it is no local card: {reason}"))?;
        let before = draft.card.get("serial").and_then(Value::as_u64).unwrap_or_default();
        draft.put("/serial", Value::from(before.saturating_add(1).max(serial)));
        if !draft.card.contains_key("form") {
            draft.put("/form", Value::from(1));
        }
        Ok(draft)
    }

    /// Raises the serial number to this one, where it is lower or there is none; whether it was.
    pub fn number_at_least(&mut self, serial: u64) -> bool {
        let lower = self.at("/serial").and_then(Value::as_u64).is_none_or(|now| now < serial);
        if lower {
            self.typed.remove("/serial");
            self.put("/serial", Value::from(serial));
        }
        lower
    }

    /// The card's JSON as it stands.
    pub fn json(&self) -> Value {
        Value::Object(self.card.clone())
    }

    /// What stands at a pointer, or was typed there and is no value yet.
    pub(super) fn typed(&self) -> &BTreeMap<String, String> {
        &self.typed
    }

    pub(super) fn at(&self, pointer: &str) -> Option<&Value> {
        let (first, below) = parted(pointer)?;
        self.card.get(first)?.pointer(below)
    }

    /// A field's text, as its input shows it: a day as `2026-10-01`, a flag as `yes` or nothing.
    pub fn text(&self, pointer: &str, kind: Kind) -> String {
        if let Some(typed) = self.typed.get(pointer) {
            return typed.clone();
        }
        match (self.at(pointer), kind) {
            (Some(Value::Bool(true)), _) => "yes".to_owned(),
            (Some(Value::Bool(false)), Kind::Maybe) => "no".to_owned(),
            (Some(Value::String(text)), Kind::DayBegins | Kind::DayEnds) => text.chars().take(10).collect(),
            (Some(Value::String(text)), _) => text.clone(),
            (Some(Value::Number(number)), _) => number.to_string(),
            _ => String::new(),
        }
    }

    /// Takes what was typed into a field. `offset` gives the minutes east of UTC that the office's clock shows
    /// on a day.
    pub fn set(&mut self, pointer: &str, kind: Kind, typed: &str, offset: &dyn Fn(Day) -> i32) {
        self.typed.remove(pointer);
        // A day that was not changed keeps its hour as it was signed.
        if typed == self.text(pointer, kind) {
            return;
        }
        let trimmed = typed.trim();
        let value = match kind {
            Kind::Line => Some(Value::from(trimmed)),
            _ if trimmed.is_empty() => None,
            Kind::Words | Kind::Choice(_) => Some(Value::from(trimmed)),
            Kind::Flag => (trimmed == "yes").then_some(Value::Bool(true)),
            Kind::Maybe => Some(Value::Bool(trimmed == "yes")),
            Kind::Whole => match trimmed.replace('\u{2212}', "-").parse::<i64>() {
                Ok(number) => Some(Value::from(number)),
                Err(_) => return drop(self.typed.insert(pointer.to_owned(), typed.to_owned())),
            },
            Kind::DayBegins | Kind::DayEnds => match moment(trimmed, kind, offset) {
                Some(moment) => Some(Value::from(moment)),
                None => return drop(self.typed.insert(pointer.to_owned(), typed.to_owned())),
            },
        };
        match value {
            Some(value) => self.put(pointer, value),
            None => self.remove(pointer),
        }
    }

    /// How many rows a list has.
    pub fn rows(&self, list: List) -> usize {
        self.rows_at(&format!("/{}", list.member))
    }

    /// How many rows the list at a pointer has.
    pub fn rows_at(&self, pointer: &str) -> usize {
        self.at(pointer).and_then(Value::as_array).map_or(0, Vec::len)
    }

    /// Adds an empty row.
    pub fn add_row(&mut self, list: List) {
        let at = format!("/{}", list.member);
        self.add_row_at(&at, list.columns);
        if list == LABORATORIES {
            // A laboratory without tests is one all the same.
            self.put(&format!("{at}/{}/tests", self.rows(list).saturating_sub(1)), Value::Array(Vec::new()));
        }
    }

    /// Adds an empty row to the list at a pointer.
    pub fn add_row_at(&mut self, pointer: &str, columns: &[(&str, Kind)]) {
        let row = columns.iter().filter_map(|(name, kind)| match kind {
            Kind::Choice(codes) => Some(((*name).to_owned(), Value::from(*codes.first()?))),
            Kind::Line => Some(((*name).to_owned(), Value::from(""))),
            _ => None,
        });
        let mut rows = self.at(pointer).and_then(Value::as_array).cloned().unwrap_or_default();
        rows.push(Value::Object(row.collect()));
        self.put(pointer, Value::Array(rows));
    }

    /// Takes a row away.
    pub fn remove_row(&mut self, list: List, row: usize) {
        self.remove_row_at(&format!("/{}", list.member), row);
        if list == LABORATORIES && self.rows(list) == 0 {
            self.card.remove(list.member);
        }
    }

    /// Takes a row of the list at a pointer away, with what was typed into lists' fields and is no value yet: it belongs
    /// to rows that have other numbers now.
    pub fn remove_row_at(&mut self, pointer: &str, row: usize) {
        let mut rows = self.at(pointer).and_then(Value::as_array).cloned().unwrap_or_default();
        if row < rows.len() {
            rows.remove(row);
            self.typed.retain(|at, _| !at.starts_with(&format!("{pointer}/")));
            self.put(pointer, Value::Array(rows));
        }
    }

    /// Whether a code stands in the list of codes at a pointer.
    pub fn has_code(&self, pointer: &str, code: &str) -> bool {
        self.at(pointer).and_then(Value::as_array).is_some_and(|all| all.iter().any(|one| one == code))
    }

    /// Puts a code into the list of codes at a pointer, or takes it out; an empty list is left out.
    pub fn set_code(&mut self, pointer: &str, code: &str, stands: bool) {
        let mut all = self.at(pointer).and_then(Value::as_array).cloned().unwrap_or_default();
        all.retain(|one| one != code);
        if stands {
            all.push(Value::from(code));
        }
        if all.is_empty() { self.remove(pointer) } else { self.put(pointer, Value::Array(all)) }
    }

    /// Members that are on the card and have no field: they are signed as they came.
    pub fn carried(&self) -> Vec<&'static str> {
        WITHOUT_FIELD.into_iter().filter(|pointer| self.at(pointer).is_some()).collect()
    }

    /// Leaves out a member that has no field.
    pub fn leave_out(&mut self, pointer: &str) {
        self.remove(pointer);
    }

    pub(super) fn put(&mut self, pointer: &str, value: Value) {
        let mut parts = pointer.split('/').skip(1);
        let Some(first) = parts.next() else { return };
        let mut place = self.card.entry(first.to_owned()).or_insert(Value::Null);
        for part in parts {
            if let Value::Array(items) = place {
                match part.parse::<usize>().ok().and_then(|n| items.get_mut(n)) {
                    Some(item) => place = item,
                    None => return,
                }
                continue;
            }
            if !place.is_object() {
                *place = Value::Object(Map::new());
            }
            match place {
                Value::Object(members) => place = members.entry(part.to_owned()).or_insert(Value::Null),
                _ => return,
            }
        }
        *place = value;
    }

    fn remove(&mut self, pointer: &str) {
        let Some((parent, name)) = pointer.rsplit_once('/') else { return };
        let Some((first, below)) = parted(parent) else { return drop(self.card.remove(name)) };
        if let Some(Value::Object(members)) = self.card.get_mut(first).and_then(|top| top.pointer_mut(below)) {
            members.remove(name);
        }
        // An object that the form has emptied says nothing; a row stays a row.
        if self.card.get(first).and_then(Value::as_object).is_some_and(Map::is_empty) {
            self.card.remove(first);
        }
    }
}

/// A pointer as its member of the card and what lies below that: `/cause/area` is `cause`, `/area`.
fn parted(pointer: &str) -> Option<(&str, &str)> {
    let path = pointer.strip_prefix('/')?;
    Some(path.split_at(path.find('/').unwrap_or(path.len())))
}

/// The JSON of a file, with who signed it where it is signed.
pub(super) fn payload(bytes: &[u8], kind: FileKind) -> Result<(Vec<u8>, Option<DeviceId>), String> {
    if bytes.windows(9).any(|part| part == b"\"payload\"") {
        let opened = open(bytes, kind).map_err(|error| error.to_string())?;
        Ok((opened.payload, Some(opened.signer.id())))
    } else {
        Ok((bytes.to_vec(), None))
    }
}

/// Refuses what another office signed: its figures are that office's to answer for. As JSON they become this office's
/// own by its signature on the card.
pub(super) fn ours(signer: Option<DeviceId>, office: Option<DeviceId>) -> Result<(), String> {
    match (signer, office) {
        (Some(_), None) => {
            Err("it is signed, and this archive has no office key to hold it against; make or load the \
                                office key first"
                .to_owned())
        }
        (Some(signer), Some(office)) if signer != office => Err("another key than this office's signed it".to_owned()),
        _ => Ok(()),
    }
}

/// The first second of a day by the office's clock, `offset` minutes east of UTC; `None` where no such day is typed.
pub fn day_begins(typed: &str, offset: &dyn Fn(Day) -> i32) -> Option<Moment> {
    Moment::parse(&moment(typed, Kind::DayBegins, offset)?).ok()
}

/// The first or last second of a day, as the card writes it.
fn moment(typed: &str, kind: Kind, offset: &dyn Fn(Day) -> i32) -> Option<String> {
    let day = Day::parse(typed).ok()?;
    let minutes = offset(day);
    let (sign, minutes) = if minutes < 0 { ('-', -minutes) } else { ('+', minutes) };
    let clock = if kind == Kind::DayEnds { "23:59:59" } else { "00:00:00" };
    let text = format!("{typed}T{clock}{sign}{:02}:{:02}", minutes / 60, minutes % 60);
    Moment::parse(&text).ok().map(|_| text)
}

/// The field at a pointer, where it has one.
pub(super) fn field_at(pointer: &str) -> Option<&'static Field> {
    fields::all().find(|field| field.at == pointer)
}
