//! One way of answering a file. Each gets the ask and writes drafts; none holds a rule.

mod choice;
mod choices;
mod instant;
mod jaw;
mod number;
mod panel;
mod photo;
mod photos;
mod place;
mod plants;
mod points;
mod read_do;
mod sample_label;
mod sweep;
mod text;
mod volumes;

use leptos::prelude::*;

use crate::guide::{Ask, Draft, Input, Step};
use crate::record::{Answer, Site, Why};

use super::form::Form;
use super::parts::{Look, tile};
use super::screen::Screen;
use super::session::Now;
use super::wording;

pub(crate) use choice::more_tile;
pub(crate) use number::{display, pad};
pub(crate) use text::area;

/// What an input gets: the form, how things stood when the question was drawn, and the question.
pub(crate) struct Question<'a> {
    pub(crate) form: Form,
    pub(crate) now: &'a Now,
    pub(crate) ask: Ask,
    pub(crate) step: &'static Step,
    pub(crate) site: Site,
}

impl Question<'_> {
    /// The answer that stands on the ask's one finding; `None` where nobody answered yet.
    pub(crate) fn given(&self, finding: &str) -> Option<Answer> {
        let question = self.now.view().question(finding, self.site);
        question.is_answered().then(|| question.answer())
    }

    /// The answer that it was looked for and is not there, or was not done, where the step allows it.
    pub(crate) fn none(&self, finding: &'static str) -> Option<NoneOf> {
        self.ask.may_be_absent(&self.now.view()).then(|| NoneOf {
            label: wording::ask_part(self.form.language(), &self.ask, "none")
                .unwrap_or_else(|| self.form.say("state.not_seen")),
            draft: Draft { finding, site: self.site, answer: Answer::NotSeen, step: self.step.id },
        })
    }

    /// The tile that every question ends with.
    pub(crate) fn no_answer(&self) -> AnyView {
        no_answer(self.form, self.ask.name())
    }
}

/// `Not there`, `No`, `Not with us`: in the step's words, ready to be written.
#[derive(Clone)]
pub(crate) struct NoneOf {
    label: String,
    draft: Draft,
}

impl NoneOf {
    /// Its tile.
    pub(crate) fn tile(self, form: Form) -> AnyView {
        let Self { label, draft } = self;
        tile(form, "none", label, Look::Value, move || {
            form.answer(std::slice::from_ref(&draft));
        })
    }
}

/// The tile that leads to the four other answers.
fn no_answer(form: Form, name: String) -> AnyView {
    tile(form, "no-answer", form.say("tile.no_answer"), Look::Aside, move || form.go(Screen::NoAnswer(name.clone())))
}

/// Handing over has a screen of its own, which writes the answer.
fn hand_over_tile(question: &Question) -> AnyView {
    let form = question.form;
    let go = tile(form, "hand-over", form.say("start.hand_over_now"), Look::Main, move || form.go(Screen::HandOver));
    view! { <div class="tiles">{go} {question.no_answer()}</div> }.into_any()
}

/// The sketch has a screen of its own, which writes the answer.
fn sketch_tile(question: &Question) -> AnyView {
    let form = question.form;
    let ask = question.ask;
    let go = tile(form, "sketch", form.say("sketch.open"), Look::Main, move || form.go(Screen::Sketch));
    let without = tile(form, "done", form.say("sketch.go_on"), Look::Value, move || {
        if let Some(now) = form.now_once() {
            form.answer(&ask.fill(&now.view(), &Answer::NotLooked { why: Why::NotGiven }));
        }
    });
    view! { <div class="tiles">{go} {without} {question.no_answer()}</div> }.into_any()
}

/// The way of answering that the step asks for.
pub(crate) fn input(question: &Question) -> AnyView {
    match question.step.input {
        Input::Choice(finding) => choice::choice(question, finding),
        Input::Choices(finding) => choices::choices(question, finding),
        Input::Panel(signs) => panel::panel(question, signs),
        Input::Sweep { steps, .. } => sweep::sweep(question, steps),
        Input::Number(finding) => number::number(question, finding),
        Input::Text("sample_number") => sample_label::sample_label(question),
        Input::Text("handed_over") => hand_over_tile(question),
        Input::ReadDo("sketch_drawn") => sketch_tile(question),
        Input::Text(finding) => text::text(question, finding),
        Input::Instant(finding) => instant::instant(question, finding),
        Input::Place(finding) => place::place(question, finding),
        Input::ReadDo(finding) => read_do::read_do(question, finding),
        Input::Photo(finding) => photo::photo(question, finding),
        Input::Photos { items, .. } => photos::photos(question, items),
        Input::Jaw => jaw::jaw(question),
        Input::Points { points, done } => points::points(question, points, done),
        Input::Volumes { amounts, done } => volumes::volumes(question, amounts, done),
    }
}
