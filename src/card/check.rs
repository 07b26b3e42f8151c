//! Reading a card's text, and what every card must have. A card is refused whole: half a card would
//! leave a crew guessing which half.

use std::collections::BTreeSet;

use super::check_figures::{self, FigureFlaw};
use super::{CallFor, Card, TableFlaw};
use crate::record::{JsonError, find, read_strict};

/// What keeps a card from being used.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub enum CardFlaw {
    /// Of a form that this version does not know.
    #[error("the card is of form {0}, which this version does not know: update the form")]
    Form(u32),
    /// Ends before it begins.
    #[error("the card ends before it begins")]
    Dates,
    /// No name of the office.
    #[error("the card does not name its office")]
    NoOffice,
    /// Nobody to call for something that must not wait.
    #[error("the card names nobody to call for `{}`", .0.code())]
    NoCall(CallFor),
    /// A contact without a name or a number.
    #[error("the card's entry for `{}` has no name or no number", .0.code())]
    EmptyCall(CallFor),
    /// A permit without a text or a number.
    #[error("permit {0} on the card has no text or no number")]
    EmptyPermit(usize),
    /// One code for two people.
    #[error("two people on the card share the code `{0}`")]
    DoublePerson(String),
    /// A person without a name.
    #[error("the person `{0}` on the card has no name")]
    NoName(String),
    /// Not an animal of the track finding.
    #[error("`{0}` is not an animal that the form knows as a predator")]
    UnknownPredator(String),
    /// A figure of the reserve's own that cannot be meant.
    #[error("the card's {0}")]
    Figure(#[from] FigureFlaw),
    /// The evidence table that the card carries cannot be used.
    #[error("on the card: {0}")]
    Table(#[from] TableFlaw),
    /// No area of that name in the table.
    #[error("`{0}` is not an area of the evidence table; it has {1}")]
    UnknownArea(String, String),
    /// A limit that cannot be meant.
    #[error("the card's {name} is {value}, outside {min} to {max}")]
    Limit {
        /// Which limit.
        name: &'static str,
        /// What the card says.
        value: i64,
        /// Least that can be meant.
        min: i64,
        /// Most that can be meant.
        max: i64,
    },
}

/// Why a card's text is not taken.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub enum CardError {
    /// Not strict JSON, an unknown or repeated member, a wrong type, a missing part.
    #[error("the card cannot be read: {0}")]
    Json(#[from] JsonError),
    /// Read, but not usable.
    #[error("{0}")]
    Flaw(#[from] CardFlaw),
}

impl Card {
    /// Read a card's JSON strictly and check it.
    ///
    /// # Errors
    /// Where the text is not strict JSON of a card, or the card has a flaw.
    pub fn from_json(text: &str) -> Result<Self, CardError> {
        let card: Self = read_strict(text)?;
        card.check()?;
        Ok(card)
    }

    /// Check what every card must have.
    ///
    /// # Errors
    /// The first flaw found.
    pub fn check(&self) -> Result<(), CardFlaw> {
        self.flaws().into_iter().next().map_or(Ok(()), Err)
    }

    /// All flaws, for whoever writes the card; of its figures and of its evidence table the first each.
    pub fn flaws(&self) -> Vec<CardFlaw> {
        let mut out = Vec::new();
        if self.form != 1 {
            out.push(CardFlaw::Form(self.form));
        }
        if self.valid_to.unix_seconds() <= self.valid_from.unix_seconds() {
            out.push(CardFlaw::Dates);
        }
        if is_blank(&self.office) {
            out.push(CardFlaw::NoOffice);
        }
        self.check_calls(&mut out);
        self.check_people(&mut out);
        out.extend(self.cause.as_ref().and_then(|cause| cause.check().err()));
        self.check_limits(&mut out);
        out.extend(check_figures::check(&self.figures).err().map(CardFlaw::Figure));
        out
    }

    fn check_calls(&self, out: &mut Vec<CardFlaw>) {
        for needed in [CallFor::Lead, CallFor::Officer, CallFor::Emergency] {
            if self.call(needed).is_none() {
                out.push(CardFlaw::NoCall(needed));
            }
        }
        for call in &self.calls {
            if is_blank(&call.name) || is_blank(&call.number) {
                out.push(CardFlaw::EmptyCall(call.call_for));
            }
        }
        for (index, permit) in self.permits.iter().enumerate() {
            if is_blank(&permit.what) || is_blank(&permit.number) {
                out.push(CardFlaw::EmptyPermit(index + 1));
            }
        }
    }

    fn check_people(&self, out: &mut Vec<CardFlaw>) {
        let mut codes = BTreeSet::new();
        for person in &self.people {
            if !codes.insert(&person.code) {
                out.push(CardFlaw::DoublePerson(person.code.to_string()));
            }
            if is_blank(&person.name) {
                out.push(CardFlaw::NoName(person.code.to_string()));
            }
        }
        let known = find("tracks_by").map(crate::record::FindingDef::options).unwrap_or_default();
        for predator in &self.flags.predators {
            if !known.contains(&predator.as_str()) {
                out.push(CardFlaw::UnknownPredator(predator.clone()));
            }
        }
    }

    fn check_limits(&self, out: &mut Vec<CardFlaw>) {
        let l = &self.limits;
        let all = [
            ("min_crew_count", l.min_crew_count.map(i64::from), 1, 30),
            ("wind_chill_stop_c", l.wind_chill_stop_c.map(i64::from), -70, 10),
            ("check_in_min", l.check_in_min.map(i64::from), 1, 1_440),
            ("reserve_min", l.reserve_min.map(i64::from), 0, 1_440),
            ("walk_out_percent", l.walk_out_percent.map(i64::from), 50, 500),
        ];
        for (name, value, min, max) in all {
            if let Some(value) = value.filter(|v| !(min..=max).contains(v)) {
                out.push(CardFlaw::Limit { name, value, min, max });
            }
        }
    }
}

fn is_blank(text: &str) -> bool {
    text.trim().is_empty()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::card::{CardState, card_state};
    use crate::record::Moment;

    /// The least that a card may hold. No figure here is of the trade.
    const LEAST: &str = r#"{"form":1,"serial":1,"office":"X","valid_from":"2026-10-01T00:00:00-05:00",
        "valid_to":"2027-06-30T23:59:59-04:00","calls":[{"call_for":"lead","name":"L","number":"1"},
        {"call_for":"officer","name":"O","number":"2"},{"call_for":"emergency","name":"E","number":"3"}],
        "people":[{"code":"A1","name":"A"}]}"#;

    fn changed(from: &str, to: &str) -> Result<Card, CardError> {
        assert!(LEAST.contains(from), "{from}");
        Card::from_json(&LEAST.replacen(from, to, 1))
    }

    #[test]
    fn the_least_card_lets_nobody_do_anything() {
        let card = Card::from_json(LEAST).unwrap();
        let person = &card.people[0];
        assert!(!person.may_touch && !person.may_open && !person.may_reopen_stops && !person.may_take_jaw);
    }

    #[test]
    fn each_flaw_is_told_by_name() {
        let flaw = |result: Result<Card, CardError>| match result.unwrap_err() {
            CardError::Flaw(flaw) => flaw,
            CardError::Json(e) => panic!("{e}"),
        };
        assert_eq!(flaw(changed("\"form\":1", "\"form\":2")), CardFlaw::Form(2));
        assert_eq!(flaw(changed("2027-06-30", "2026-06-30")), CardFlaw::Dates);
        assert_eq!(flaw(changed("\"X\"", "\"  \"")), CardFlaw::NoOffice);
        assert_eq!(flaw(changed("\"lead\"", "\"vet\"")), CardFlaw::NoCall(CallFor::Lead));
        assert_eq!(flaw(changed("\"2\"", "\"\"")), CardFlaw::EmptyCall(CallFor::Officer));
        assert_eq!(
            flaw(changed("[{\"code\"", "[{\"code\":\"A1\",\"name\":\"B\"},{\"code\"")),
            CardFlaw::DoublePerson("A1".to_owned())
        );
        assert_eq!(flaw(changed("\"name\":\"A\"", "\"name\":\"\"")), CardFlaw::NoName("A1".to_owned()));
        assert_eq!(
            flaw(changed("{\"form\"", "{\"flags\":{\"predators\":[\"tiger\"]},\"form\"")),
            CardFlaw::UnknownPredator("tiger".to_owned())
        );
        assert_eq!(
            flaw(changed("{\"form\"", "{\"limits\":{\"walk_out_percent\":5},\"form\"")),
            CardFlaw::Limit { name: "walk_out_percent", value: 5, min: 50, max: 500 }
        );
        assert_eq!(
            flaw(changed("{\"form\"", "{\"permits\":[{\"what\":\"w\",\"number\":\"\"}],\"form\"")),
            CardFlaw::EmptyPermit(1)
        );
    }

    #[test]
    fn all_flaws_are_told_at_once_and_the_first_is_the_one_refused() {
        let mut card = Card::from_json(LEAST).unwrap();
        card.office.clear();
        card.limits.reserve_min = Some(2_000);
        card.calls.retain(|call| call.call_for != CallFor::Officer);
        let told = card.flaws();
        assert_eq!(told[..2], [CardFlaw::NoOffice, CardFlaw::NoCall(CallFor::Officer)]);
        assert!(matches!(told[2..], [CardFlaw::Limit { name: "reserve_min", .. }]), "{told:?}");
        assert_eq!(card.check(), Err(CardFlaw::NoOffice));
    }

    #[test]
    fn the_text_is_read_strictly() {
        for (from, to) in [
            ("{\"form\"", "{\"motto\":\"\",\"form\""),
            ("{\"form\"", "{\"serial\":2,\"form\""),
            ("\"serial\":1", "\"serial\":1.5"),
            ("\"code\":\"A1\"", "\"code\":\"not a code\""),
        ] {
            assert!(matches!(changed(from, to), Err(CardError::Json(_))), "{to}");
        }
    }

    #[test]
    fn the_dates_hold_to_the_second() {
        let card = Card::from_json(LEAST).unwrap();
        let at = |text| card_state(Some(&card), Moment::parse(text).unwrap());
        assert_eq!(at("2026-09-30T23:59:59-05:00"), CardState::NotYet);
        assert_eq!(at("2026-10-01T00:00:00-05:00"), CardState::InForce);
        assert_eq!(at("2027-06-30T23:59:59-04:00"), CardState::InForce);
        assert_eq!(at("2027-07-01T00:00:00-04:00"), CardState::Expired);
        assert_eq!(card_state(None, card.valid_from), CardState::None);
    }
}
