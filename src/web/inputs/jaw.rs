//! The lower jaw: the drawn row with teeth to tap, one question of one tooth at a time.

use leptos::prelude::*;

use crate::guide::{Ask, Draft};
use crate::record::{Answer, FindingDef, Side, Site, find};
use crate::web::drawings::jaw_exam::{JawActs, jaw_exam};
use crate::web::drawings::jaw_focus::ToothQuestion;
use crate::web::form::Form;
use crate::web::screen::Screen;
use crate::web::session::Now;
use crate::web::wording;

use super::Question;

pub(super) fn jaw(q: &Question) -> AnyView {
    let (form, ask, step) = (q.form, q.ask, q.step.id);
    let name = ask.name();
    let questions = Signal::derive(move || form.now.with(|now| questions(form, now, ask)));
    let acts = JawActs {
        answer: Callback::new(move |((finding, site), code): ((&'static str, Site), &'static str)| {
            let draft = Draft { finding, site, answer: Answer::choice(code), step };
            form.answer_in_place(&[draft]);
        }),
        no_answer: Callback::new(move |only| {
            form.only.try_set(only);
            form.go(Screen::NoAnswer(name.clone()));
        }),
        take_back: Callback::new(move |question| {
            form.take_back_questions(&[question]);
        }),
        done: Callback::new(move |()| form.go(Screen::Visit(None))),
        is_meant: Callback::new(move |event| form.is_meant(&event)),
    };
    let side = q.site.side.unwrap_or(Side::Left);
    jaw_exam(side, questions, form.jaw_focus, acts, form.language())
}

/// The guide's questions of this half, with what stands on them.
fn questions(form: Form, now: &Now, ask: Ask) -> Vec<ToothQuestion> {
    let view = now.view();
    let language = form.language();
    let one = |(finding, site): (&'static str, Site)| {
        let options = find(finding).map(FindingDef::options).unwrap_or_default();
        let given = view.is_answered(finding, site).then(|| view.question(finding, site).answer());
        ToothQuestion {
            finding,
            site,
            name: wording::finding(language, finding),
            options: options.iter().map(|code| (*code, wording::option(language, finding, code))).collect(),
            given: given.map(|answer| {
                let words = wording::answer(language, finding, &answer);
                (answer, words)
            }),
        }
    };
    ask.questions(&view).into_iter().map(one).collect()
}
