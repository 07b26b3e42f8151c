//! Recomputing the readings of everything that was handed in, and comparing them with what the phone
//! saw. The office trusts no number that it can recompute.

use super::opening::{Judged, Outcome};
use crate::bundle::PhoneReading;
use crate::reading::{self, Given, Reading, Readings, winter_log};
use crate::record::{CustodyItem, EntryId, Fold, Journal, custody_list, fold};
use crate::words::Language;
use serde::Serialize;
use serde_json::Value;
use std::collections::BTreeMap;
use uuid::Uuid;

/// The most single differences that are listed for one reading.
const MOST_LISTED: usize = 20;

/// Entries of several bundles as one journal, with what the phones said beside them.
#[derive(Clone, Debug, Default)]
pub struct Gathered {
    /// The union of all entries.
    pub journal: Journal,
    /// Every phone's readings, with the bundle that they came in.
    pub phones: Vec<(Uuid, PhoneReading)>,
}

impl Gathered {
    /// Takes in a judged file and all that it carries. Only what is intact is taken, whoever signed it.
    pub fn take(&mut self, judged: &Judged) {
        let usable = matches!(judged.outcome(), Outcome::Intact | Outcome::UnknownDevice);
        if let Some(contents) = judged.contents.as_ref().filter(|_| usable) {
            for entry in &contents.entries {
                // Entries rebuilt from a bundle agree with their headers: adding them cannot fail.
                let _ = self.journal.add(entry.clone());
            }
            let bundle = contents.payload.bundle;
            self.phones.extend(contents.payload.readings.iter().map(|one| (bundle, one.clone())));
        }
        for carried in &judged.carried {
            self.take(carried);
        }
    }

    /// Folds the journal and recomputes every carcass, in order of their ids.
    pub fn recompute(&self) -> Recomputed {
        let folded = fold(&self.journal);
        let logs = winter_log::logs(&folded);
        let given = Given::default().with(&folded, &logs);
        let carcasses = folded
            .carcasses
            .values()
            .map(|carcass| {
                let readings = reading::all(carcass, &given);
                let of_this = self.phones.iter().filter(|(_, phone)| carcass.joined.contains(&phone.carcass));
                let phones = of_this.map(|(bundle, phone)| compare(*bundle, &phone.text, &readings)).collect();
                let custody = custody_list(&folded, carcass);
                CarcassLine { custody, phones, ..CarcassLine::of(readings) }
            })
            .collect();
        Recomputed { carcasses, forks: self.journal.forks(), folded }
    }
}

/// What came of recomputing.
#[derive(Clone, Debug)]
pub struct Recomputed {
    /// Each carcass.
    pub carcasses: Vec<CarcassLine>,
    /// Ids that two different entries claim.
    pub forks: Vec<EntryId>,
    /// The fold behind it.
    pub folded: Fold,
}

/// One carcass as it is printed.
#[derive(Clone, Debug, Serialize)]
pub struct CarcassLine {
    /// Its id.
    pub carcass: Uuid,
    /// Its name in a findings table.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub name: Option<String>,
    /// The readings, recomputed.
    pub readings: Readings,
    /// The same in words: every statement and caution, by method.
    pub said: BTreeMap<String, Vec<String>>,
    /// What was taken from it, and who had each thing from when.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub custody: Vec<CustodyItem>,
    /// How each phone's own readings compare.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub phones: Vec<Comparison>,
    /// Rows of a findings table that were set aside.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub set_aside: Vec<String>,
}

impl CarcassLine {
    /// The line of a carcass of which nothing but its readings is known.
    pub fn of(readings: Readings) -> Self {
        let said = readings
            .each()
            .into_iter()
            .map(|one| {
                let sentences = one.statements.iter().chain(&one.cautions).map(|said| said.say(Language::English));
                (one.method.clone(), sentences.collect())
            })
            .collect();
        Self {
            carcass: readings.carcass,
            name: None,
            readings,
            said,
            custody: Vec::new(),
            phones: Vec::new(),
            set_aside: Vec::new(),
        }
    }
}

/// One phone's readings of one carcass beside the recomputed ones.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Comparison {
    /// The bundle that they came in.
    pub bundle: Uuid,
    /// True where every reading is the same, to the last digit.
    pub agrees: bool,
    /// Each reading that is not.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub differs: Vec<Differs>,
}

/// One reading that differs.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Differs {
    /// The method, such as `age.lower_jaw`; `all` where the text could not be compared reading by
    /// reading.
    pub method: String,
    /// What explains it.
    pub because: Because,
    /// Where, by JSON pointer (RFC 6901) into the reading, with both values; at most 20.
    pub at: Vec<Difference>,
}

/// What explains a difference.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Because {
    /// The phone did not have the same answers: another crew's, a later visit, a decision.
    OtherEntries,
    /// The phone had another version of the methods.
    OtherScience,
    /// The phone had another local card in force, or none.
    OtherCard,
    /// Nothing explains it: same answers, same methods, same card.
    Unexplained,
    /// The phone's text is no reading of a form known here.
    UnknownForm,
}

/// One value that differs.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Difference {
    /// Where.
    pub pointer: String,
    /// The phone's value; absent where it has none.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub phone: Option<Value>,
    /// The recomputed value; absent where there is none.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub office: Option<Value>,
}

/// Compares the phone's readings, as text, with the recomputed ones.
fn compare(bundle: Uuid, phone: &str, office: &Readings) -> Comparison {
    let Ok(phone) = serde_json::from_str::<Readings>(phone) else {
        let differs = Differs { method: "all".to_owned(), because: Because::UnknownForm, at: Vec::new() };
        return Comparison { bundle, agrees: false, differs: vec![differs] };
    };
    // By method: a phone of another version may have a reading fewer or one more.
    let of_phone = phone.each();
    let pairs = office.each().into_iter().filter_map(|of_office| {
        let same = of_phone.iter().find(|one| one.method == of_office.method)?;
        Some((*same, of_office))
    });
    let differs: Vec<Differs> =
        pairs.filter_map(|(of_phone, of_office)| differs(&phone, of_phone, office, of_office)).collect();
    Comparison { bundle, agrees: differs.is_empty(), differs }
}

fn differs(phone: &Readings, of_phone: &Reading, office: &Readings, of_office: &Reading) -> Option<Differs> {
    let (Ok(left), Ok(right)) = (serde_json::to_value(of_phone), serde_json::to_value(of_office)) else {
        return Some(Differs { method: of_office.method.clone(), because: Because::UnknownForm, at: Vec::new() });
    };
    let mut at = Vec::new();
    walk(String::new(), Some(&left), Some(&right), &mut at);
    if at.is_empty() {
        return None;
    }
    let because = if of_phone.entries_digest != of_office.entries_digest {
        Because::OtherEntries
    } else if phone.science != office.science {
        Because::OtherScience
    } else if phone.card != office.card {
        Because::OtherCard
    } else {
        Because::Unexplained
    };
    Some(Differs { method: of_office.method.clone(), because, at })
}

/// Collects the places at which two values differ, deepest first named.
fn walk(pointer: String, phone: Option<&Value>, office: Option<&Value>, out: &mut Vec<Difference>) {
    if phone == office || out.len() >= MOST_LISTED {
        return;
    }
    match (phone, office) {
        (Some(Value::Object(left)), Some(Value::Object(right))) => {
            let only_right = right.keys().filter(|name| !left.contains_key(*name));
            for name in left.keys().chain(only_right) {
                let escaped = name.replace('~', "~0").replace('/', "~1");
                walk(format!("{pointer}/{escaped}"), left.get(name), right.get(name), out);
            }
        }
        (Some(Value::Array(left)), Some(Value::Array(right))) => {
            for place in 0..left.len().max(right.len()) {
                walk(format!("{pointer}/{place}"), left.get(place), right.get(place), out);
            }
        }
        _ => out.push(Difference { pointer, phone: phone.cloned(), office: office.cloned() }),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::office::findings_table::FindingsTable;

    fn readings(rows: &str) -> Readings {
        let text = format!(
            r#"{{"format":"marrowbook-findings-1","carcasses":[{{"name":"x","examinations":[
                {{"at":"2027-02-14T10:00:00-05:00","findings":[{{"finding":"species","value":"white_tailed_deer"}}{rows}]}}]}}]}}"#
        );
        let tabled = FindingsTable::read(text.as_bytes()).unwrap().journal().unwrap();
        assert_eq!(tabled.set_aside, []);
        let folded = fold(&tabled.journal);
        reading::all(folded.carcasses.values().next().unwrap(), &Given::default())
    }

    const JAW: &str = r#",{"finding":"third_tooth","side":"left","value":"two_cusps_stained"},
        {"finding":"dentine","side":"left","tooth":"m1","value":"wider"}"#;

    fn compared(phone: &Readings, office: &Readings) -> Comparison {
        compare(Uuid::nil(), &serde_json::to_string(phone).unwrap(), office)
    }

    #[test]
    fn the_same_readings_agree_after_a_round_trip_through_text() {
        let office = readings(JAW);
        assert_eq!(compared(&office, &office), Comparison { bundle: Uuid::nil(), agrees: true, differs: Vec::new() });
    }

    #[test]
    fn a_difference_names_its_place_and_its_reason() {
        let office = readings(JAW);
        let mut phone = office.clone();
        phone.age.cautions.push(crate::reading::Statement::plain("made.up"));
        let [differs] = &compared(&phone, &office).differs[..] else { panic!() };
        assert_eq!((differs.method.as_str(), differs.because), (office.age.method.as_str(), Because::Unexplained));
        assert_eq!(differs.at[0].pointer, format!("/cautions/{}", office.age.cautions.len()));
        assert_eq!(differs.at[0].office, None);

        phone.science = "0".into();
        assert_eq!(compared(&phone, &office).differs[0].because, Because::OtherScience);
        phone.age.entries_digest = crate::record::Digest::of(&[b"other"]);
        assert_eq!(compared(&phone, &office).differs[0].because, Because::OtherEntries);
    }

    #[test]
    fn one_digit_is_a_difference() {
        let office = readings(JAW);
        let text = serde_json::to_string(&office).unwrap();
        let share = serde_json::to_string(&office.age.estimates[0].shares[0].probability).unwrap();
        let (start, last) = share.split_at(share.len() - 1);
        let other = if last == "1" { "2" } else { "1" };
        let changed = text.replacen(&share, &format!("{start}{other}"), 1);
        assert_ne!(changed, text);
        let comparison = compare(Uuid::nil(), &changed, &office);
        assert_eq!(comparison.differs[0].because, Because::Unexplained);
        assert!(comparison.differs[0].at[0].pointer.ends_with("/probability"), "{comparison:?}");
    }

    #[test]
    fn text_of_another_form_is_said_to_be_so() {
        let comparison = compare(Uuid::nil(), "{\"age\":4}", &readings(""));
        assert_eq!(comparison.differs[0].because, Because::UnknownForm);
    }
}
