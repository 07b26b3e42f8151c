//! Calls that were made for a result which no longer stands: who was told then is told of it.

use super::calls::{Call, From, Hit, call, called, loud, on_card, tested};
use super::calls_made::{CORRECTED, done_for_some, has_mark, marked};
use super::exposure::Whom;
use super::homes::homes;
use super::lab_results::{Entered, TestState};
use crate::card::CallFor;
use crate::record::{Carcass, PersonCode};

/// Marked calls of a carcass that its list has no more. What was done is kept; where the result behind it is another
/// now, the same people are owed a call that says so.
pub(super) fn corrected<'w>(
    from: &From,
    carcass: &Carcass,
    (results, hits): (&[Entered], &[Hit]),
    exposed: impl Iterator<Item = &'w Whom>,
    listed: &[Call],
) -> Vec<Call> {
    let mut names = marked(carcass);
    names.retain(|name| !name.starts_with(CORRECTED) && !listed.iter().any(|call| call.call == *name));
    if names.is_empty() {
        return Vec::new();
    }
    let exposed: Vec<(String, String, String)> = exposed.map(|whom| called(from, whom)).collect();
    let mut out = Vec::new();
    for name in names {
        let Some(of) = Of::read(&name) else { continue };
        let (who, number) = of.called(from, &exposed);
        let stands = hits.iter().any(|hit| {
            let positive = hit.state == TestState::Positive && tested_is(&hit.name(), of.test);
            hit.name() == of.ends || of.state == TestState::Suspect && positive
        });
        let homes = homes(carcass, carcass.examinations.values().filter(|one| has_mark(one, &name)).map(|one| &one.id));
        let made = done_for_some(&[carcass], &name);
        let opposite = format!("{CORRECTED}{name}");
        let told = done_for_some(&[carcass], &opposite);
        if stands {
            // The result stands, or a suspect was confirmed: no slip. What was done is kept.
            if made.is_some() {
                let why = vec![format!("called for {}; that call is owed no more", loud(of.state))];
                out.push(Call { done: made, homes, ..call(carcass, name, who, number, why) });
            }
            continue;
        }
        if made.is_none() && told.is_none() {
            continue;
        }
        let now: Vec<&str> = results
            .iter()
            .filter(|result| tested(result) == of.test)
            .filter_map(|result| result.state().map(loud))
            .collect();
        let now = if now.is_empty() { "no result stands".to_owned() } else { now.join("; ") };
        let why = vec![format!("result corrected: tell them. They were called for {}; now: {now}", loud(of.state))];
        out.push(Call { done: told, homes, ..call(carcass, opposite, who, number, why) });
    }
    out
}

fn tested_is(ends: &str, test: &str) -> bool {
    ends.rsplit_once(':').is_some_and(|(of, _)| of == test)
}

/// What the name of a call after a result says.
struct Of<'a> {
    /// `exposed`, `dog`, `agency` or `health`.
    kind: &'a str,
    /// Of `exposed` and `dog`: whom.
    whom: &'a str,
    test: &'a str,
    state: TestState,
    /// Test and state.
    ends: &'a str,
}

impl<'a> Of<'a> {
    fn read(name: &'a str) -> Option<Self> {
        let (kind, rest) = name.split_once(':')?;
        let (whom, ends) = match kind {
            "exposed" | "dog" => rest.split_once(':')?,
            "agency" | "health" => ("", rest),
            _ => return None,
        };
        let (test, state) = ends.rsplit_once(':')?;
        let state = TestState::ALL.into_iter().find(|one| one.code() == state)?;
        Some(Self { kind, whom, test, state, ends })
    }

    /// Who that is, and where they are reached.
    fn called(&self, from: &From, exposed: &[(String, String, String)]) -> (String, String) {
        match self.kind {
            "agency" => return on_card(from, CallFor::Vet),
            "health" => return on_card(from, CallFor::Health),
            _ => {}
        }
        if let Some((_, who, number)) = exposed.iter().find(|(name, _, _)| name == self.whom) {
            return (who.clone(), number.clone());
        }
        match PersonCode::new(self.whom) {
            Ok(code) => {
                let (_, who, number) = called(from, &Whom::Person(code.to_string()));
                (who, number)
            }
            Err(_) => (self.whom.to_owned(), String::new()),
        }
    }
}
