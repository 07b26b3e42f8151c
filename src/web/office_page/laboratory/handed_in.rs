//! Samples that the office has received, and steps of a sample that it takes back.

use std::sync::Arc;

use leptos::prelude::*;

use super::{Bench, Found};
use crate::guide::answer_words;
use crate::office::receipt::{Receipt, Unreceived};
use crate::office::send_out::{Line, State};
use crate::web::office_page::desk::{count, tell, tell_with};
use crate::web::office_page::fields::{Takes, see, typed};
use crate::web::office_page::rows::drawn;
use crate::words::Language;

/// How the seals of what arrived can be: the value of the choice, and its words.
const SEALS: [(&str, &str); 3] = [
    ("", "laboratory.page.seals.not_looked"),
    ("whole", "laboratory.page.seals.whole"),
    ("broken", "laboratory.page.seals.broken"),
];

impl Bench {
    /// What nobody has received, and the button that notes it.
    pub(super) fn handed_in(self, found: &Arc<Found>) -> AnyView {
        let n = found.listed.unreceived.len();
        if n == 0 {
            return view! { <p data-unreceived="0">{tell("laboratory.page.received.none")}</p> }.into_any();
        }
        let all = Arc::clone(found);
        let places: Vec<usize> = (0..n).collect();
        let rows = drawn(places, self.shown[3], move |at| {
            all.listed.unreceived.get(*at).map(|one| self.waits(one)).into_any()
        });
        let [place, condition, seals] = self.receipt;
        let text =
            |held: RwSignal<String>, name: &'static str, label: &str| typed(held, name, tell(label), Takes::words(200));
        let options = SEALS.map(|(value, words)| view! { <option value=value>{tell(words)}</option> });
        let found = Arc::clone(found);
        let label = move || {
            tell_with("laboratory.page.receive", &[("n", count(self.received.with(std::collections::BTreeSet::len)))])
        };
        view! {
            <section data-unreceived=n>
                <h3>{tell_with("laboratory.page.received", &[("n", count(n))])}</h3>
                <p>{tell("laboratory.page.received.what")}</p>
                {text(place, "receipt-place", "laboratory.page.received.place")}
                {text(condition, "receipt-condition", "laboratory.page.received.condition")}
                <label class="field">
                    {tell("laboratory.page.seals")}
                    <select data-field="receipt-seals" prop:value=move || seals.get()
                        on:change=move |event| seals.set(event_target_value(&event))>{options.collect_view()}</select>
                </label>
                <ul class="rows">{rows}</ul>
                <button type="button" class="act" data-act="receive" on:click=move |_| self.receive(&found)>{label}</button>
            </section>
        }
        .into_any()
    }

    fn waits(self, one: &Unreceived) -> AnyView {
        let what = answer_words::option(Language::English, "sample_what", &one.what);
        let (number, carcass) = (one.number.clone(), one.carcass);
        let args = [
            ("number", one.number.as_str().into()),
            ("what", what.into()),
            ("code", one.code.as_str().into()),
            ("who", one.holder.as_str().into()),
        ];
        let is_ticked = {
            let number = number.clone();
            move || self.received.with(|all| all.contains(&number))
        };
        let tick = move |event| {
            let on = event_target_checked(&event);
            self.received.update(|all| {
                if on {
                    all.insert(number.clone())
                } else {
                    all.remove(&number)
                };
            });
        };
        view! {
            <li data-unreceived-sample=one.number.clone()>
                <label class="field">
                    <input type="checkbox" data-received=one.number.clone() prop:checked=is_ticked on:change=tick/>
                    " " {tell_with("laboratory.page.received.line", &args)}
                </label>
                {see(self.desk, carcass, &one.code)}
            </li>
        }
        .into_any()
    }

    fn receive(self, found: &Arc<Found>) {
        let numbers: Vec<String> = self.received.with_untracked(|all| all.iter().cloned().collect());
        if numbers.is_empty() {
            return self.said.set(Some((false, tell("laboratory.page.none_received"))));
        }
        let [place, condition, seals] = self.receipt.map(|one| one.get_untracked().trim().to_owned());
        let key = self.desk.key_now();
        let went = self.act("laboratory.page.received.noted", |by| {
            let seal_intact = match seals.as_str() {
                "whole" => Some(true),
                "broken" => Some(false),
                _ => None,
            };
            let (to, seal) = (by.person.clone(), String::new());
            let receipt = Receipt { numbers: &numbers, to, from: None, place, seal, seal_intact, condition };
            self.change(|hand| hand.note_receipt((&found.figures, &found.listed), &receipt, key.as_deref(), by))
        });
        if went {
            self.received.set(std::collections::BTreeSet::new());
        }
    }

    /// The button that takes the office's last step of a sample back.
    pub(super) fn back(self, line: &Line, found: &Arc<Found>) -> Option<AnyView> {
        if !found.listed.can_take_back(line) {
            return None;
        }
        let words = if line.state == State::Sent { "laboratory.page.not_sent" } else { "laboratory.page.not_received" };
        let (numbers, found) = ([line.number.clone()], Arc::clone(found));
        let back = move |_| {
            let key = self.desk.key_now();
            self.act("laboratory.page.taken_back", |by| {
                self.change(|hand| hand.take_back((&found.figures, &found.listed), &numbers, key.as_deref(), by))
            });
        };
        Some(
            view! { <button type="button" class="act" data-act="back" on:click=back>{tell(words)}</button> }.into_any(),
        )
    }
}
