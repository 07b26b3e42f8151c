//! The half-given answer: pages, keys, picks. It lives in the form and not in the screen, so that a
//! redraw or a look at another screen loses nothing.

use leptos::prelude::*;

use crate::guide::{Ask, Input};
use crate::order::Gather as _;
use crate::record::{Answer, Value};

use super::drawings::jaw_focus::JawFocus;
use super::form::Form;
use super::half_typed;
use super::session::Now;
use super::wording;

/// Digits before and after the point are never more than this.
const MOST_KEYS: usize = 12;

impl Form {
    /// Begin on a question: where it is the one begun on before, what was typed stays.
    pub(crate) fn begin_input(self, now: &Now, ask: &Ask) {
        let name = format!("{:?} {}", now.here.examination, ask.name());
        if self.input_of.try_get_value().as_ref() == Some(&name) {
            return;
        }
        self.input_of.try_set_value(name);
        self.page.try_set(0);
        self.day.try_set(0);
        self.other_time.try_set(false);
        self.reason.try_set(None);
        self.only.try_set(Vec::new());
        self.jaw_focus.try_set(JawFocus::Next);
        let (typed, picked) = given_before(now, ask);
        self.typed.try_set(self.half_given(&self.input_name()).unwrap_or(typed));
        self.picked.try_set(picked);
    }

    /// Begin on something that is no question of the guide.
    pub(crate) fn begin_field(self, name: &str, text: String) {
        if self.input_of.try_get_value().as_deref() != Some(name) {
            self.input_of.try_set_value(name.to_owned());
            self.page.try_set(0);
            self.typed.try_set(self.half_given(name).unwrap_or(text));
        }
    }

    /// What was half given on this question before the page went: the longer of what the two stores hold.
    fn half_given(self, name: &str) -> Option<String> {
        [half_typed::find(name), self.half_held(name)].into_iter().flatten().max_by_key(String::len)
    }

    /// Forget what was half given: it has been saved.
    pub(crate) fn end_input(self) {
        half_typed::keep(&self.input_name(), "");
        self.input_of.try_set_value(String::new());
    }

    /// The next page of tiles; after the last the first.
    pub(crate) fn turn_page(self) {
        self.page.try_update(|p| *p += 1);
        self.bounce_from_now();
    }

    /// Pick or unpick.
    pub(crate) fn pick(self, code: &'static str) {
        self.picked.try_update(|picked| {
            if !picked.remove(code) {
                picked.insert(code);
            }
        });
    }

    /// Type a moment other than now.
    pub(crate) fn type_other_time(self) {
        self.other_time.try_set(true);
        self.bounce_from_now();
    }

    /// A key of the pad.
    pub(crate) fn press(self, key: &str) {
        self.typed.try_update(|typed| match key {
            "rub" => {
                typed.pop();
            }
            "minus" => match typed.strip_prefix('\u{2212}') {
                Some(rest) => *typed = rest.to_owned(),
                None => typed.insert(0, '\u{2212}'),
            },
            "point" if typed.contains('.') => {}
            "point" => typed.push('.'),
            digit if typed.chars().count() < MOST_KEYS => typed.push_str(digit),
            _ => {}
        });
        self.keep_half_typed();
    }

    /// Text as typed on the phone's keyboard.
    pub(crate) fn type_in(self, text: String) {
        self.typed.try_set(text);
        self.keep_half_typed();
    }

    /// A row of points in hand, under its number: at once in the small store, and in the store proper too,
    /// which outlives a kill.
    pub(crate) fn keep_row(self, number: u16, row: &[String]) {
        let kept = if row.is_empty() { String::new() } else { format!("{number} {}", row.join(" ")) };
        self.type_in(kept.clone());
        self.keep_half(self.input_name(), kept);
    }

    fn keep_half_typed(self) {
        half_typed::keep(&self.input_name(), &self.typed.try_get_untracked().unwrap_or_default());
    }

    fn input_name(self) -> String {
        self.input_of.try_get_value().unwrap_or_default()
    }

    /// Another day.
    pub(crate) fn shift_day(self, by: i32) {
        self.day.try_update(|day| *day += by);
    }

    /// Tell something that belongs to no question.
    pub(crate) fn tell(self, text: String) {
        self.notice.try_set(Some(text));
    }

    /// Nothing to tell any more.
    pub(crate) fn hush(self) {
        self.notice.try_set(None);
    }
}

/// What was answered before, as the input shows it for a correction.
fn given_before(now: &Now, ask: &Ask) -> (String, std::collections::BTreeSet<&'static str>) {
    let view = now.view();
    let nothing = (String::new(), std::collections::BTreeSet::new());
    let Ask::Step { step, site } = ask else { return nothing };
    if let Input::Panel(signs) = step.input {
        let seen = |sign: &&&'static str| view.question(sign, *site).answer() == Answer::choice("there");
        return (String::new(), signs.iter().filter(seen).copied().gather());
    }
    let Some(finding) = wording::only_finding(&step.input) else { return nothing };
    match view.question(finding, *site).answer() {
        Answer::Seen { value: Value::Choices(all) } => {
            let options = crate::record::find(finding).map(crate::record::FindingDef::options).unwrap_or_default();
            (String::new(), options.iter().filter(|o| all.iter().any(|c| c == *o)).copied().gather())
        }
        Answer::Seen { value: Value::Text(text) } => (text, std::collections::BTreeSet::new()),
        _ => nothing,
    }
}
