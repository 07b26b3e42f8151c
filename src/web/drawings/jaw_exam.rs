//! One half of the lower jaw, tooth by tooth: the jaw as it is held, the row, and one question at a time.
//!
//! What is asked is the guide's; what is written comes in through `questions` once it is saved, and only
//! then does the next question appear.

use leptos::ev::MouseEvent;
use leptos::prelude::*;

use super::half_jaw;
use super::jaw_cell::{self, Place};
use super::jaw_focus::{JawFocus, Shown, ToothQuestion, offered, shown};
use super::jaw_row::{jaw_row, tooth_name};
use super::picture::{drawing, picture};
use crate::record::{Side, Site};
use crate::web::wording::capital;
use crate::words::{Arg, Language, raw, say};

/// Most values on one page of tiles.
const A_PAGE: usize = 4;

/// A question of the jaw by its key.
pub type JawKey = (&'static str, Site);

/// What the flow tells its owner.
#[derive(Clone, Copy)]
pub struct JawActs {
    /// This option was seen: to be written.
    pub answer: Callback<(JawKey, &'static str)>,
    /// No value for these questions: open the other four answers.
    pub no_answer: Callback<Vec<JawKey>>,
    /// The answer on this question is to be taken back.
    pub take_back: Callback<JawKey>,
    /// The row is done.
    pub done: Callback<()>,
    /// False where a tap is the bounce of the one before.
    pub is_meant: Callback<MouseEvent, bool>,
}

/// The flow over one half of the lower jaw: `questions` are the guide's for this half, in its order, with what
/// is written. `focus` is what was tapped last, kept by the owner, so that a screen drawn anew goes on at the
/// same tooth.
pub fn jaw_exam(
    side: Side,
    questions: Signal<Vec<ToothQuestion>>,
    focus: RwSignal<JawFocus>,
    acts: JawActs,
    language: Language,
) -> AnyView {
    let now = Memo::new(move |_| questions.with(|all| shown(all, focus.get())));
    let in_hand = Memo::new(move |_| {
        questions.with(|all| match now.get() {
            Shown::Question(n) => all.get(n).and_then(ToothQuestion::tooth),
            Shown::Written(tooth) => Some(tooth),
            Shown::Whole => None,
        })
    });
    let pick = Callback::new(move |(tooth, event): (_, MouseEvent)| {
        if acts.is_meant.run(event) {
            focus.set(JawFocus::Tooth(tooth));
        }
    });
    let flow = Flow { questions, focus, acts, language };
    view! {
        <div class="jaw" data-side=if side == Side::Left { "left" } else { "right" }>
            {held(side, in_hand, language)}
            {jaw_row(side, questions, in_hand.into(), pick, language)}
            {move || match now.get() {
                Shown::Question(n) => flow.question(n),
                Shown::Written(tooth) => flow.written(tooth),
                Shown::Whole => flow.whole(),
            }}
        </div>
    }
    .into_any()
}

/// The half jaw as it is held, and the words for it.
fn held(side: Side, in_hand: Memo<Option<crate::record::Tooth>>, language: Language) -> AnyView {
    let (half, as_held) = match side {
        Side::Left => ("jaw.left", "jaw.held_left"),
        Side::Right => ("jaw.right", "jaw.held_right"),
    };
    let shows = say(language, as_held, &[("half", say(language, half, &[]).into())]);
    let front = say(language, "jaw.front", &[]);
    let svg = move || half_jaw::svg(side, in_hand.get(), &front);
    view! { <span class="drawing half-jaw" role="img" aria-label=shows inner_html=svg></span> }.into_any()
}

#[derive(Clone, Copy)]
struct Flow {
    questions: Signal<Vec<ToothQuestion>>,
    focus: RwSignal<JawFocus>,
    acts: JawActs,
    language: Language,
}

impl Flow {
    fn say(self, id: &str, args: &[(&str, Arg)]) -> String {
        say(self.language, id, args)
    }

    fn on_tap(self, act: impl Fn() + 'static) -> impl Fn(MouseEvent) + 'static {
        move |event| {
            if self.acts.is_meant.run(event) {
                act();
            }
        }
    }

    fn asks(self, question: &ToothQuestion) -> String {
        let tooth = question.tooth().map(|t| capital(&tooth_name(self.language, t))).unwrap_or_default();
        let id = format!("jaw.ask.{}", question.finding);
        let id = if raw(self.language, &id).is_some() { id.as_str() } else { "jaw.ask.other" };
        self.say(id, &[("tooth", tooth.into()), ("finding", question.name.as_str().into())])
    }

    fn question(self, n: usize) -> AnyView {
        let Some(question) = self.questions.with(|all| all.get(n).cloned()) else { return ().into_any() };
        let key = (question.finding, question.site);
        let options = offered(&question);
        let pages = options.len().div_ceil(A_PAGE).max(1);
        let page = RwSignal::new(start_page(&question, &options));
        let heading = self.asks(&question);
        let written = question.given.as_ref().map(|(_, words)| {
            view! { <p class="jaw-written">{self.say("jaw.written", &[("answer", words.as_str().into())])}</p> }
        });
        let tiles = {
            let question = question.clone();
            move || {
                options
                    .iter()
                    .skip(page.get() * A_PAGE)
                    .take(A_PAGE)
                    .map(|(code, label)| self.tile(&question, code, label))
                    .collect_view()
            }
        };
        let more = (pages > 1).then(|| {
            let label = move || {
                let number = |n: usize| Arg::Text(n.to_string());
                self.say("jaw.more", &[("page", number(page.get() + 1)), ("pages", number(pages))])
            };
            let turn = self.on_tap(move || page.update(|p| *p = (*p + 1) % pages));
            view! { <button type="button" class="tile aside" data-tile="more" on:click=turn>{label}</button> }
        });
        let none = self.on_tap(move || self.acts.no_answer.run(vec![key]));
        view! {
            <div class="jaw-panel" data-finding=question.finding data-tooth=question.tooth().map(crate::record::Tooth::name)>
                <h2 class="jaw-ask" aria-live="polite">{heading}</h2>
                {written}
                <div class="pictures">{tiles}</div>
                <div class="jaw-asides">
                    {more}
                    <button type="button" class="tile aside" data-tile="no-answer" on:click=none>
                        {self.say("jaw.no_answer", &[])}
                    </button>
                </div>
                {self.none_of_the_jaw()}
            </div>
        }
        .into_any()
    }

    /// The whole half is missing, frozen in or not to be opened: one tap for all that is open.
    fn none_of_the_jaw(self) -> Option<AnyView> {
        let open = self
            .questions
            .with(|all| all.iter().filter(|q| !q.is_answered()).map(|q| (q.finding, q.site)).collect::<Vec<JawKey>>());
        let untouched = self.questions.with(|all| !all.iter().any(ToothQuestion::is_answered));
        (untouched && open.len() > 1).then(|| {
            let none = self.on_tap(move || self.acts.no_answer.run(open.clone()));
            view! {
                <button type="button" class="tile aside" data-tile="no-answer-jaw" on:click=none>
                    {self.say("jaw.no_answer_jaw", &[])}
                </button>
            }
            .into_any()
        })
    }

    fn tile(self, question: &ToothQuestion, code: &'static str, label: &str) -> AnyView {
        let key = (question.finding, question.site);
        let chosen = question.chosen() == Some(code);
        let tooth = question.tooth();
        let image = if question.finding == "tooth_state" {
            // The label says what stands there; the tooth is drawn as it would stand in the row.
            tooth.map(|t| {
                let place = Place::State { state: code.to_owned(), crest: None };
                let mirrored = question.site.side.is_some_and(half_jaw::front_lies_right);
                drawing(jaw_cell::svg(t, &place, mirrored), String::new())
            })
        } else {
            picture(self.language, question.finding, code)
        };
        let tap = self.on_tap(move || {
            if let Some(tooth) = tooth {
                self.focus.set(JawFocus::After(tooth));
            }
            self.acts.answer.run((key, code));
        });
        view! {
            <button
                type="button"
                class=if chosen { "tile pictured chosen" } else { "tile pictured" }
                data-tile=code
                aria-pressed=if chosen { "true" } else { "false" }
                on:click=tap
            >
                {image}
                <span class="label">{label.to_owned()}</span>
                <span class="tick" aria-hidden="true">{chosen.then_some("\u{2713}")}</span>
            </button>
        }
        .into_any()
    }

    fn written(self, tooth: crate::record::Tooth) -> AnyView {
        let name = capital(&tooth_name(self.language, tooth));
        let lines = self
            .questions
            .with(|all| all.iter().filter(|q| q.tooth() == Some(tooth)).map(|q| self.written_line(q)).collect_view());
        let next = self.on_tap(move || self.focus.set(JawFocus::Next));
        view! {
            <div class="jaw-panel" data-written=tooth.name()>
                <h2 class="jaw-ask" aria-live="polite">{self.say("jaw.check_tooth", &[("tooth", name.into())])}</h2>
                {lines}
                <button type="button" class="tile main" data-tile="next-tooth" on:click=next>
                    {self.say("jaw.next_tooth", &[])}
                </button>
            </div>
        }
        .into_any()
    }

    fn written_line(self, question: &ToothQuestion) -> AnyView {
        let key = (question.finding, question.site);
        let words = question.given.as_ref().map(|(_, words)| words.clone()).unwrap_or_default();
        let again = self.on_tap(move || self.focus.set(JawFocus::Again(key.0, key.1)));
        let back = self.on_tap(move || self.acts.take_back.run(key));
        let label = self.language.named(&question.name, &words);
        view! {
            <div class="jaw-line">
                <p>{label.clone()}</p>
                <button type="button" class="act" data-act="change" on:click=again>
                    {self.say("jaw.change", &[("question", question.name.as_str().into())])}
                </button>
                <button type="button" class="act" data-act="take-back" aria-label=self.language.named(&self.say("jaw.take_back", &[]), &label) on:click=back>
                    {self.say("jaw.take_back", &[])}
                </button>
            </div>
        }
        .into_any()
    }

    fn whole(self) -> AnyView {
        let done = self.on_tap(move || self.acts.done.run(()));
        let lines = self.questions.with(|all| {
            crate::record::Tooth::CHEEK
                .into_iter()
                .map(|tooth| {
                    let name = capital(&tooth_name(self.language, tooth));
                    let state = super::jaw_row::state_words(self.language, all, tooth);
                    view! { <li>{self.say("jaw.tooth", &[("tooth", name.into()), ("state", state.into())])}</li> }
                })
                .collect_view()
        });
        view! {
            <div class="jaw-panel" data-whole="">
                <h2 class="jaw-ask" aria-live="polite">{self.say("jaw.check", &[])}</h2>
                <ul class="jaw-list" aria-label=self.say("jaw.list", &[])>{lines}</ul>
                <button type="button" class="tile main" data-tile="next" on:click=done>
                    {self.say("jaw.next", &[])}
                </button>
            </div>
        }
        .into_any()
    }
}

/// The page on which the answer that stands is to be found.
fn start_page(question: &ToothQuestion, options: &[(&'static str, String)]) -> usize {
    let at = question.chosen().and_then(|code| options.iter().position(|(option, _)| *option == code));
    at.unwrap_or_default() / A_PAGE
}
