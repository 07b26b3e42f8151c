//! A plain JSON table of findings, so that anyone can put a case through the science without a phone.
//!
//! Values stand as a person would write them: options by their codes, numbers in the finding's own
//! unit, places in degrees. Each row becomes an answer like one that a phone records, under the same
//! checks; a row that cannot be true is set aside by itself and named.

use crate::record::{
    Act, Answer, Body, ENTRY_SCHEMA, EXAMINATION_KIND, FindingDef, Flaw, Head, Journal, JsonError, Key, Moment,
    PersonCode, Place, PlaceSource, Salt, Scope, Shape, Side, Site, Subject, Tooth, Value, Versions, Why, find, links,
    validate,
};
use crate::record::{Bone, DeviceId, Digest};
use serde::{Deserialize, Serialize};
use uuid::Uuid;

/// What the member `format` must say.
pub const FORMAT: &str = "marrowbook-findings-1";

/// A table of findings.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "cli", derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
pub struct FindingsTable {
    /// `marrowbook-findings-1`.
    #[cfg_attr(feature = "cli", schemars(extend("const" = FORMAT)))]
    pub format: String,
    /// One case each.
    pub carcasses: Vec<TableCarcass>,
}

/// One carcass.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "cli", derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
pub struct TableCarcass {
    /// Any name; different for each carcass of the table. It comes back with the readings.
    pub name: String,
    /// Each occasion on which it was examined.
    pub examinations: Vec<TableExamination>,
}

/// One occasion.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "cli", derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
pub struct TableExamination {
    /// In the field (the default) or on the bench.
    #[serde(default)]
    pub kind: TableKind,
    /// When, local time with offset.
    pub at: Moment,
    /// Who looked, where a row does not say: a code of 1 to 12 letters or digits [default: table].
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub observer: Option<PersonCode>,
    /// What was answered. Findings of the outing or the report may stand here too.
    pub findings: Vec<TableRow>,
}

/// The kind of occasion.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(feature = "cli", derive(schemars::JsonSchema))]
#[serde(rename_all = "snake_case")]
pub enum TableKind {
    /// Where it lay.
    #[default]
    Field,
    /// Later, indoors.
    Bench,
}

/// Which of the five answers a row is.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(feature = "cli", derive(schemars::JsonSchema))]
#[serde(rename_all = "snake_case")]
pub enum TableState {
    /// Looked, and found the value (the default).
    #[default]
    Seen,
    /// Looked properly; it is not there.
    NotSeen,
    /// Looked, and could not decide.
    CantTell,
    /// Did not look.
    NotLooked,
    /// The part that would show it is gone.
    PartGone,
}

/// One answer.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "cli", derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
pub struct TableRow {
    /// The finding's code.
    pub finding: String,
    /// Side of the animal, where the finding has one.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub side: Option<Side>,
    /// Lower tooth, where the finding has one.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub tooth: Option<Tooth>,
    /// Bone, where the finding has one.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub bone: Option<Bone>,
    /// Which one of several, from 1, where the finding is numbered.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub item: Option<u16>,
    /// Who looked.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub observer: Option<PersonCode>,
    /// Which of the five answers.
    #[serde(default)]
    pub state: TableState,
    /// What was found; only with the state `seen`.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub value: Option<TableValue>,
    /// Why there is no value, for `cant_tell`, `not_looked` and `part_gone`: a code such as `frozen`,
    /// or your own words.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub why: Option<String>,
}

/// A value as a person would write it.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "cli", derive(schemars::JsonSchema))]
#[serde(untagged)]
pub enum TableValue {
    /// An option's code, words, or a local time with offset.
    Text(String),
    /// A number in the finding's own unit, with no more decimals than the finding keeps.
    Number(serde_json::Number),
    /// Several options' codes.
    List(Vec<String>),
    /// A place.
    Place(TablePlace),
}

/// A place, WGS 84.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "cli", derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
pub struct TablePlace {
    /// Degrees, north positive.
    pub lat_deg: serde_json::Number,
    /// Degrees, east positive.
    pub lon_deg: serde_json::Number,
    /// Radius in metres within which it lies with 95 % confidence.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub accuracy_m_95: Option<u32>,
}

/// A row that was set aside.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct SetAside {
    /// The carcass's name.
    pub carcass: String,
    /// Which examination of it, from 1.
    pub examination: usize,
    /// Which row of that, from 1.
    pub row: usize,
    /// Why, as a lower-case clause.
    pub reason: String,
}

impl std::fmt::Display for SetAside {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        write!(f, "examination {}, row {}: {}", self.examination, self.row, self.reason)
    }
}

/// A table as a journal.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Tabled {
    /// The answers as entries.
    pub journal: Journal,
    /// Each carcass's name and id, in the table's order.
    pub carcasses: Vec<(String, Uuid)>,
    /// Rows that were set aside.
    pub set_aside: Vec<SetAside>,
}

/// Why a text is no table, as a lower-case clause.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub enum TableError {
    /// Not strict JSON of the table's form.
    #[error("this is no findings table: {0}")]
    Form(String),
    /// Another or a later form.
    #[error("the table's form is \"{0}\"; this program reads \"{FORMAT}\"")]
    OtherForm(String),
    /// Two carcasses of one name.
    #[error("two carcasses are called \"{0}\"; give each its own name")]
    NameTwice(String),
}

impl FindingsTable {
    /// Reads a table from JSON text.
    ///
    /// # Errors
    /// See [`TableError`].
    pub fn read(bytes: &[u8]) -> Result<Self, TableError> {
        #[derive(Deserialize)]
        struct Form {
            format: String,
        }
        let no_table = |error: &dyn ToString| TableError::Form(error.to_string());
        crate::bundle::strict::read(bytes).map_err(|error| no_table(&error))?;
        let Form { format } = serde_json::from_slice(bytes).map_err(|error| no_table(&error))?;
        if format != FORMAT {
            return Err(TableError::OtherForm(format));
        }
        let table: Self = serde_json::from_slice(bytes).map_err(|error| no_table(&error))?;
        let mut names = std::collections::BTreeSet::new();
        match table.carcasses.iter().find(|carcass| !names.insert(carcass.name.as_str())) {
            Some(twice) => Err(TableError::NameTwice(twice.name.clone())),
            None => Ok(table),
        }
    }

    /// Turns the rows into entries. The same table always gives the same ids.
    ///
    /// # Errors
    /// Only where an entry could not be written.
    pub fn journal(&self) -> Result<Tabled, JsonError> {
        let mut scribe = Scribe::new();
        for carcass in &self.carcasses {
            let id = made_id(&["carcass", &carcass.name]);
            scribe.out.carcasses.push((carcass.name.clone(), id));
            for (place, examination) in (1..).zip(&carcass.examinations) {
                scribe.examination(carcass, id, place, examination)?;
            }
        }
        Ok(scribe.out)
    }
}

/// An id made from names, so that a table folds the same each time (RFC 9562 version 8).
fn made_id(names: &[&str]) -> Uuid {
    let digest = Digest::of(&[serde_json::json!(["findings table", names]).to_string().as_bytes()]);
    let bytes = std::array::from_fn(|at| digest.0.get(at).copied().unwrap_or_default());
    uuid::Builder::from_custom_bytes(bytes).into_uuid()
}

struct Scribe {
    head: Head,
    out: Tabled,
}

impl Scribe {
    fn new() -> Self {
        Self { head: Head::start(DeviceId(Digest::of(&[b"findings table"]))), out: Tabled::default() }
    }

    fn examination(
        &mut self,
        carcass: &TableCarcass,
        id: Uuid,
        place: usize,
        examination: &TableExamination,
    ) -> Result<(), JsonError> {
        let number = place.to_string();
        let of = |what: &str| made_id(&[what, &carcass.name, &number]);
        let own = Subject::Examination(of("examination"));
        let (outing, report) = (of("outing"), of("report"));
        let observer = examination.observer.clone().unwrap_or_else(unnamed);
        let kind = match examination.kind {
            TableKind::Field => "field",
            TableKind::Bench => "bench",
        };
        let mut write = |subject: Subject, finding: &str, site: Site, observer: &PersonCode, answer: Answer| {
            self.head = append(
                &mut self.out.journal,
                self.head,
                Key { subject, finding: finding.into(), site, observer: observer.clone() },
                answer,
                examination.at,
            )?;
            Ok::<(), JsonError>(())
        };
        let link = |id: Uuid| Answer::Seen { value: Value::Ref(id) };
        write(own, links::CARCASS, Site::NONE, &observer, link(id))?;
        write(own, EXAMINATION_KIND, Site::NONE, &observer, Answer::choice(kind))?;
        let mut linked = [false; 2];
        for (number, row) in (1..).zip(&examination.findings) {
            match row.answer() {
                Ok((def, site, answer)) => {
                    let (subject, tie) = match def.scope {
                        Scope::Examination => (own, None),
                        Scope::Outing => (Subject::Outing(outing), Some((0, links::OUTING, outing))),
                        Scope::Report => (Subject::Report(report), Some((1, links::REPORT, report))),
                        Scope::WinterLog => (Subject::WinterLog(of("winter log")), None),
                    };
                    if let Some((which, finding, id)) = tie
                        && let Some(done) = linked.get_mut(which)
                        && !std::mem::replace(done, true)
                    {
                        write(own, finding, Site::NONE, &observer, link(id))?;
                    }
                    write(subject, def.code, site, row.observer.as_ref().unwrap_or(&observer), answer)?;
                }
                Err(reason) => self.out.set_aside.push(SetAside {
                    carcass: carcass.name.clone(),
                    examination: place,
                    row: number,
                    reason,
                }),
            }
        }
        Ok(())
    }
}

fn unnamed() -> PersonCode {
    PersonCode::new("table").unwrap_or_else(|_| PersonCode::unnamed())
}

fn append(journal: &mut Journal, head: Head, key: Key, answer: Answer, at: Moment) -> Result<Head, JsonError> {
    let body = Body {
        schema: ENTRY_SCHEMA,
        act: Act::Answer { key, answer, supersedes: Vec::new() },
        typed_by: unnamed(),
        at,
        zone: String::new(),
        since_start_ms: None,
        versions: Versions { protocol: 0, step: None, card: None },
    };
    // Nothing here is secret, and a table must fold the same each time: no random salt.
    let entry = head.next(&body, Salt([0; 16]))?;
    let head = Head::after(&entry);
    // An entry just made agrees with its header: adding it cannot fail.
    let _ = journal.add(entry);
    Ok(head)
}

impl TableRow {
    /// The row as an answer, checked against its finding; or why it is set aside.
    fn answer(&self) -> Result<(&'static FindingDef, Site, Answer), String> {
        let def =
            find(&self.finding).ok_or_else(|| Flaw::UnknownFinding { finding: self.finding.clone() }.to_string())?;
        let site = Site { side: self.side, tooth: self.tooth, bone: self.bone, item: self.item, ..Site::NONE };
        let answer = self.state_and_value(def)?;
        let subject = match def.scope {
            Scope::Outing => Subject::Outing(Uuid::nil()),
            Scope::Report => Subject::Report(Uuid::nil()),
            Scope::Examination => Subject::Examination(Uuid::nil()),
            // A table is of carcasses; a place's days come as a log of their own.
            Scope::WinterLog => return Err(Flaw::WrongSubject { finding: self.finding.clone() }.to_string()),
        };
        let key = Key { subject, finding: def.code.into(), site, observer: unnamed() };
        validate(&key, &answer).map_err(|flaw| flaw.to_string())?;
        Ok((def, site, answer))
    }

    fn state_and_value(&self, def: &FindingDef) -> Result<Answer, String> {
        let takes_why = matches!(self.state, TableState::CantTell | TableState::NotLooked | TableState::PartGone);
        if self.why.is_some() && !takes_why {
            return Err(format!("`{}` has a reason (why) that its state does not take", def.code));
        }
        let why = || self.why.as_deref().map_or(Why::NotGiven, why);
        match (self.state, &self.value) {
            (TableState::Seen, Some(value)) => Ok(Answer::Seen { value: read_value(def, value)? }),
            (TableState::Seen, None) if def.shape == Shape::Presence => Ok(Answer::choice("there")),
            (TableState::Seen, None) => Err(format!("`{}` says neither a value nor another state than seen", def.code)),
            (_, Some(_)) => Err(format!("`{}` has a value although it was not seen", def.code)),
            (TableState::NotSeen, None) => Ok(Answer::NotSeen),
            (TableState::CantTell, None) => Ok(Answer::CantTell { why: why() }),
            (TableState::NotLooked, None) => Ok(Answer::NotLooked { why: why() }),
            (TableState::PartGone, None) => Ok(Answer::PartGone { why: why() }),
        }
    }
}

/// A reason by its code; anything else is taken as the person's own words.
fn why(text: &str) -> Why {
    serde_json::from_value(serde_json::Value::String(text.to_owned())).unwrap_or_else(|_| Why::Other(text.to_owned()))
}

fn read_value(def: &FindingDef, value: &TableValue) -> Result<Value, String> {
    let wrong = || Flaw::WrongShape { finding: def.code.to_owned() }.to_string();
    match (def.shape, value) {
        (Shape::Presence | Shape::Choice(_), TableValue::Text(code)) => Ok(Value::Choice(code.clone())),
        (Shape::Choices(_), TableValue::List(codes)) => Ok(Value::choices(codes.iter().cloned())),
        (Shape::Text(_) | Shape::Plants(_), TableValue::Text(text)) => Ok(Value::Text(text.clone())),
        (Shape::Instant, TableValue::Text(text)) => {
            Moment::parse(text).map(Value::Instant).map_err(|error| error.to_string())
        }
        (Shape::Number { decimals, .. }, TableValue::Number(number)) => {
            scaled(number, decimals).map(Value::Number).map_err(|reason| format!("`{}`: {reason}", def.code))
        }
        (Shape::Place, TableValue::Place(place)) => Ok(Value::Place(Place {
            lat_e7: scaled(&place.lat_deg, 7)?,
            lon_e7: scaled(&place.lon_deg, 7)?,
            accuracy_m_95: place.accuracy_m_95,
            source: PlaceSource::Typed,
        })),
        _ => Err(wrong()),
    }
}

/// A decimal number as a scaled integer, digit by digit: no rounding, no detour through a double.
fn scaled(number: &serde_json::Number, decimals: u8) -> Result<i64, String> {
    let text = number.to_string();
    let (whole, fraction) = text.split_once('.').unwrap_or((&text, ""));
    let fraction = fraction.trim_end_matches('0');
    let missing = usize::from(decimals).checked_sub(fraction.len());
    match missing.map(|missing| format!("{whole}{fraction}{}", "0".repeat(missing)).parse()) {
        None => Err(format!("{text} has more than {decimals} decimal places")),
        Some(Ok(scaled)) => Ok(scaled),
        Some(Err(_)) => Err(format!("{text} is not a plain decimal number")),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::record::fold;
    use proptest::prelude::*;

    fn table(rows: &str) -> Tabled {
        let text = format!(
            r#"{{"format":"marrowbook-findings-1","carcasses":[{{"name":"doe 1","examinations":[
                {{"at":"2027-02-14T10:00:00-05:00","findings":[{rows}]}}]}}]}}"#
        );
        FindingsTable::read(text.as_bytes()).unwrap().journal().unwrap()
    }

    fn reasons(rows: &str) -> Vec<String> {
        table(rows).set_aside.into_iter().map(|row| row.reason).collect()
    }

    #[test]
    fn rows_become_answers_of_a_carcass() {
        let tabled = table(
            r#"{"finding":"marrow_consistency","bone":"femur","value":"solid_waxy"},
               {"finding":"marrow_wet_g","bone":"femur","value":5.1},
               {"finding":"tracks_by","value":["wolf","deer"]},
               {"finding":"blood_on_snow","state":"not_seen"},
               {"finding":"drag_marks"},
               {"finding":"hair_scattered","state":"cant_tell","why":"buried"},
               {"finding":"cached_over","state":"not_looked","why":"the dog came back"},
               {"finding":"air_temperature_c","value":-15},
               {"finding":"report_state","value":"dead"}"#,
        );
        assert_eq!(tabled.set_aside, []);
        let folded = fold(&tabled.journal);
        let carcass = &folded.carcasses[&tabled.carcasses[0].1];
        let says = |finding: &str, site: Site| carcass.question(finding, site).answer();
        assert_eq!(says("marrow_consistency", Site::bone(Bone::Femur)), Answer::choice("solid_waxy"));
        assert_eq!(says("marrow_wet_g", Site::bone(Bone::Femur)), Answer::number(510));
        assert_eq!(says("tracks_by", Site::NONE), Answer::Seen { value: Value::choices(["deer", "wolf"]) });
        assert_eq!(says("blood_on_snow", Site::NONE), Answer::NotSeen);
        assert_eq!(says("drag_marks", Site::NONE), Answer::choice("there"));
        assert_eq!(says("hair_scattered", Site::NONE), Answer::CantTell { why: Why::Buried });
        assert_eq!(says("cached_over", Site::NONE), Answer::NotLooked { why: Why::Other("the dog came back".into()) });
        assert_eq!(folded.outings.values().next().unwrap().number("air_temperature_c"), Some(-15));
        assert_eq!(folded.reports.values().next().unwrap().choice("report_state").as_deref(), Some("dead"));
        assert_eq!(carcass.choice("examination_kind").as_deref(), Some("field"));
    }

    #[test]
    fn a_row_that_cannot_be_is_named_and_the_rest_stands() {
        let tabled = table(
            r#"{"finding":"diastema_mm","value":71},{"finding":"diastema_mm","value":710},{"finding":"drag_marks"}"#,
        );
        let [set_aside] = &tabled.set_aside[..] else { panic!("{:?}", tabled.set_aside) };
        assert_eq!((set_aside.carcass.as_str(), set_aside.examination, set_aside.row), ("doe 1", 1, 2));
        assert!(set_aside.reason.contains("710"), "{}", set_aside.reason);
        assert_eq!(fold(&tabled.journal).carcasses.len(), 1);
        for (row, words) in [
            (r#"{"finding":"horn_mm","value":1}"#, "not a finding"),
            (r#"{"finding":"marrow_wet_g","bone":"femur","value":5.123}"#, "more than 2 decimal places"),
            (r#"{"finding":"marrow_wet_g","bone":"femur","value":1e-9}"#, "not a plain decimal"),
            (r#"{"finding":"marrow_wet_g","value":5}"#, "place"),
            (r#"{"finding":"species","value":"moose_or_so"}"#, "not an option"),
            (r#"{"finding":"diastema_mm","value":"71"}"#, "form of value"),
            (r#"{"finding":"diastema_mm"}"#, "neither a value"),
            (r#"{"finding":"drag_marks","state":"not_seen","value":"there"}"#, "although it was not seen"),
            (r#"{"finding":"drag_marks","why":"dark"}"#, "reason"),
            (r#"{"finding":"drag_marks","state":"not_seen","why":"dark"}"#, "reason"),
            (r#"{"finding":"diastema_mm","value":71,"why":"dark"}"#, "reason"),
        ] {
            let reasons = reasons(row);
            assert!(reasons.len() == 1 && reasons[0].contains(words), "{row}: {reasons:?}");
        }
    }

    #[test]
    fn what_is_no_table_is_named() {
        let read = |text: &str| FindingsTable::read(text.as_bytes()).unwrap_err();
        assert!(matches!(read("[]"), TableError::Form(_)));
        assert!(matches!(
            read(r#"{"format":"marrowbook-findings-1","format":"x","carcasses":[]}"#),
            TableError::Form(_)
        ));
        assert_eq!(
            read(r#"{"format":"marrowbook-findings-2"}"#),
            TableError::OtherForm("marrowbook-findings-2".into())
        );
        let twice = r#"{"format":"marrowbook-findings-1","carcasses":[{"name":"a","examinations":[]},{"name":"a","examinations":[]}]}"#;
        assert_eq!(read(twice), TableError::NameTwice("a".into()));
        assert!(matches!(read(&twice.replace("name", "nmae")), TableError::Form(_)));
    }

    #[test]
    fn the_same_table_gives_the_same_ids() {
        let rows = r#"{"finding":"drag_marks"}"#;
        assert_eq!(table(rows), table(rows));
    }

    proptest! {
        #[test]
        fn scaling_keeps_every_digit(scaled_value in -9_000_000_000_i64..9_000_000_000, decimals in 0_u8..4) {
            let size = 10_i64.pow(decimals.into());
            let sign = if scaled_value < 0 { "-" } else { "" };
            let (whole, rest) = (scaled_value.abs() / size, scaled_value.abs() % size);
            let text = if decimals == 0 { format!("{sign}{whole}") } else { format!("{sign}{whole}.{rest:0width$}", width = decimals.into()) };
            let number: serde_json::Number = serde_json::from_str(&text).unwrap();
            prop_assert_eq!(scaled(&number, decimals).unwrap(), scaled_value);
        }
    }
}
