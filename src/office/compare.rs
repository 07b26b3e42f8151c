//! A phone's own readings beside the recomputed ones, and what explains a difference: other answers, another
//! version of the methods, another local card, another evidence table.

use super::cards::{Cards, as_on_a_phone};
use crate::reading::{self, Given, GivenCard, Reading, Readings};
use crate::record::{Carcass, Digest};
use serde::Serialize;
use serde_json::Value;
use std::borrow::Cow;
use std::cell::LazyCell;
use uuid::Uuid;

/// The most single differences that are listed for one reading.
const MOST_LISTED: usize = 20;

/// One phone's readings of one carcass beside the recomputed ones.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Comparison {
    /// The bundle that they came in.
    pub bundle: Uuid,
    /// True where every reading is the same, to the last digit.
    pub agrees: bool,
    /// The phone's local card, where it is not among the cards at hand.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub card_not_here: Option<Digest>,
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
    /// True where the phone's card moves this reading as well, whatever else does.
    #[serde(skip_serializing_if = "std::ops::Not::not")]
    pub card_moves: bool,
    /// Where, by JSON pointer (RFC 6901) into the reading, with both values; at most 20.
    pub at: Vec<Difference>,
}

/// What explains a difference.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Because {
    /// The phone did not have the same answers: another crew's, a later visit, a decision.
    OtherEntries,
    /// The phone had another version of the methods: worked out again with the phone's own card, it differs
    /// still.
    OtherScience,
    /// The phone had another local card in force, or none: with that card the office gets the phone's figures.
    OtherCard,
    /// The same, by the evidence table that its card carries alone.
    OtherTable,
    /// The phone had a card that is not at hand, so nothing can be said.
    CardNotHere,
    /// Nothing explains it: same answers, same methods, same card.
    Unexplained,
    /// The phone's text is no reading of a form known here.
    UnknownForm,
}

impl Because {
    /// The office's text that says it.
    pub const fn text(self) -> &'static str {
        match self {
            Self::OtherEntries => "desk.phone.other_entries",
            Self::OtherScience => "desk.phone.other_science",
            Self::OtherCard => "desk.phone.other_card",
            Self::OtherTable => "desk.phone.other_table",
            Self::CardNotHere => "desk.phone.card_not_here",
            Self::Unexplained => "desk.phone.unexplained",
            Self::UnknownForm => "desk.phone.unknown_form",
        }
    }
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

/// What is needed to work one carcass out again by another card.
pub(super) struct Again<'a> {
    pub(super) carcass: &'a Carcass,
    pub(super) cards: &'a Cards,
    /// As the office's own readings were made.
    pub(super) given: Given<'a>,
}

impl Again<'_> {
    /// As a phone with that card would read; `None` where the card is not at hand.
    fn by_card(&self, card: Option<Digest>) -> Option<Readings> {
        let card = match card {
            Some(digest) => Some((self.cards.find(digest)?, digest)),
            None => None,
        };
        Some(reading::all(self.carcass, &as_on_a_phone(self.given, card)))
    }

    /// By today's card with the phone's evidence table on it; `None` where both carry the same.
    fn by_table(&self, card: Option<Digest>) -> Option<Readings> {
        let phone = card.and_then(|digest| self.cards.find(digest)).and_then(|card| card.cause.as_ref());
        let today = self.given.card?;
        let mut own = today.card.clone();
        let cause = own.cause.as_mut()?;
        let table = phone.and_then(|cause| cause.table.clone());
        if table == cause.table {
            return None;
        }
        cause.table = table;
        let given = Given { card: Some(GivenCard { card: &own, ..today }), ..self.given };
        Some(reading::all(self.carcass, &given))
    }
}

/// Compares the phone's readings, as text, with the recomputed ones.
pub(super) fn compare(bundle: Uuid, phone: &str, office: &Readings, again: &Again) -> Comparison {
    let Ok(phone) = serde_json::from_str::<Readings>(phone) else {
        let differs = Differs::of("all", Because::UnknownForm, Vec::new());
        return Comparison { bundle, agrees: false, card_not_here: None, differs: vec![differs] };
    };
    // By method: a phone of another version may have a reading fewer or one more.
    let of_phone = phone.each();
    let pairs = office.each().into_iter().filter_map(|of_office| {
        let same = of_phone.iter().find(|one| one.method == of_office.method)?;
        Some((*same, of_office))
    });
    // Worked out again only where something differs.
    let by_card = LazyCell::new(|| again.by_card(phone.card));
    let by_table = LazyCell::new(|| again.by_table(phone.card));
    let differs: Vec<Differs> = pairs
        .filter_map(|(of_phone, of_office)| {
            let at = apart(of_phone, of_office)?;
            let told = |other: &Option<Readings>| {
                let other = other.as_ref()?;
                let same = other.each().into_iter().find(|one| one.method == of_office.method)?;
                Some((apart(of_phone, same).is_none(), apart(of_office, same).is_some()))
            };
            let (explains, moves) = told(&by_card).unwrap_or((false, false));
            let because = if of_phone.entries_digest != of_office.entries_digest {
                Because::OtherEntries
            } else if explains && told(&by_table).is_some_and(|(explains, _)| explains) {
                Because::OtherTable
            } else if explains {
                Because::OtherCard
            } else if phone.science != office.science {
                Because::OtherScience
            } else if by_card.is_none() {
                Because::CardNotHere
            } else {
                Because::Unexplained
            };
            Some(Differs { card_moves: moves, ..Differs::of(&of_office.method, because, at) })
        })
        .collect();
    let card_not_here = phone.card.filter(|digest| again.cards.find(*digest).is_none());
    Comparison { bundle, agrees: differs.is_empty(), card_not_here, differs }
}

impl Differs {
    fn of(method: &str, because: Because, at: Vec<Difference>) -> Self {
        Self { method: method.to_owned(), because, card_moves: false, at }
    }
}

/// Where two readings differ; `None` where nowhere. A source that a phone only named is the one of that name
/// and mark here.
fn apart(left: &Reading, right: &Reading) -> Option<Vec<Difference>> {
    let mut left = Cow::Borrowed(left);
    if left.sources.iter().any(|source| source.cite.is_empty()) {
        for source in left.to_mut().sources.iter_mut().filter(|source| source.cite.is_empty()) {
            if let Some(known) = right.sources.iter().find(|one| one.id == source.id) {
                source.cite = known.cite.clone();
            }
        }
    }
    if *left == *right {
        return None;
    }
    let mut at = Vec::new();
    // A reading that cannot be written differs as a whole.
    let written = |reading: &Reading| serde_json::to_value(reading).ok();
    walk(String::new(), written(&left).as_ref(), written(right).as_ref(), &mut at);
    (!at.is_empty()).then_some(at)
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
    use crate::record::fold;
    use crate::words::{self, Language};

    fn carcass(rows: &str) -> Carcass {
        let text = format!(
            r#"{{"format":"marrowbook-findings-1","carcasses":[{{"name":"x","examinations":[
                {{"at":"2027-02-14T10:00:00-05:00","findings":[{{"finding":"species","value":"white_tailed_deer"}}{rows}]}}]}}]}}"#
        );
        let tabled = FindingsTable::read(text.as_bytes()).unwrap().journal().unwrap();
        assert_eq!(tabled.set_aside, []);
        let folded = fold(&tabled.journal);
        folded.carcasses.values().next().unwrap().clone()
    }

    fn readings(rows: &str) -> Readings {
        reading::all(&carcass(rows), &Given::default())
    }

    fn compare_without_cards(phone: &str, office: &Readings) -> Comparison {
        let (carcass, cards) = (carcass(JAW), Cards::default());
        compare(Uuid::nil(), phone, office, &Again { carcass: &carcass, cards: &cards, given: Given::default() })
    }

    const JAW: &str = r#",{"finding":"third_tooth","side":"left","value":"two_cusps_stained"},
        {"finding":"dentine","side":"left","tooth":"m1","value":"wider"}"#;

    fn compared(phone: &Readings, office: &Readings) -> Comparison {
        compare_without_cards(&serde_json::to_string(phone).unwrap(), office)
    }

    #[test]
    fn the_same_readings_agree_after_a_round_trip_through_text() {
        let office = readings(JAW);
        assert_eq!(
            compared(&office, &office),
            Comparison { bundle: Uuid::nil(), agrees: true, card_not_here: None, differs: Vec::new() }
        );
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
        let comparison = compare_without_cards(&changed, &office);
        assert_eq!(comparison.differs[0].because, Because::Unexplained);
        assert!(comparison.differs[0].at[0].pointer.ends_with("/probability"), "{comparison:?}");
    }

    #[test]
    fn text_of_another_form_is_said_to_be_so() {
        let comparison = compare_without_cards("{\"age\":4}", &readings(""));
        assert_eq!(comparison.differs[0].because, Because::UnknownForm);
    }

    // Rule of the house: a phone's figure that differs is told with a reason that reads as a sentence, and no two alike.
    #[test]
    fn every_reason_has_a_text_of_its_own() {
        let all = [
            Because::OtherEntries,
            Because::OtherScience,
            Because::OtherCard,
            Because::OtherTable,
            Because::CardNotHere,
            Because::Unexplained,
            Because::UnknownForm,
        ];
        let texts = all.map(|one| words::say_office(Language::English, one.text(), &[]));
        assert!(texts.iter().all(|text| text.ends_with('.')), "{texts:?}");
        assert_eq!(texts.iter().collect::<std::collections::BTreeSet<_>>().len(), all.len(), "{texts:?}");
    }
}
