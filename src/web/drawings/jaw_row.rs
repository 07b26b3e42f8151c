//! The row of six cheek teeth, each a place to tap.

use leptos::ev::{KeyboardEvent, MouseEvent};
use leptos::prelude::*;
use wasm_bindgen::JsCast;

use super::half_jaw::front_lies_right;
use super::jaw_cell::{Place, svg};
use super::jaw_focus::ToothQuestion;
use crate::record::{Side, Tooth};
use crate::words::{Arg, Language, say};

/// The name of a cheek tooth, both the crew's and the zoological one.
pub fn tooth_name(language: Language, tooth: Tooth) -> String {
    format!("{} {}", crew_name(language, tooth), tooth.name())
}

fn crew_name(language: Language, tooth: Tooth) -> String {
    say(language, &format!("jaw.tooth.{}", tooth.name().to_ascii_lowercase()), &[])
}

/// How a tooth is drawn, from what is written about it.
pub fn place(questions: &[ToothQuestion], tooth: Tooth) -> Place {
    let of = |finding: &str| questions.iter().find(|q| q.finding == finding && q.tooth() == Some(tooth));
    match of("tooth_state") {
        Some(state) if state.is_answered() => match state.chosen() {
            Some(code) => Place::State {
                state: code.to_owned(),
                crest: of("crest").and_then(ToothQuestion::chosen).map(str::to_owned),
            },
            None => Place::Without,
        },
        _ => Place::Open,
    }
}

/// What is written about a tooth, in words.
pub fn state_words(language: Language, questions: &[ToothQuestion], tooth: Tooth) -> String {
    let of_tooth = || questions.iter().filter(move |q| q.tooth() == Some(tooth));
    let written: Vec<&str> = of_tooth().filter_map(|q| q.given.as_ref().map(|(_, words)| words.as_str())).collect();
    if written.is_empty() {
        return say(language, "jaw.state.open", &[]);
    }
    let state = written.join(", ");
    if of_tooth().all(ToothQuestion::is_answered) {
        state
    } else {
        say(language, "jaw.state.more", &[("state", Arg::Text(state))])
    }
}

/// The six cheek teeth of one side as they stand, front and back where they lie when the tongue side is
/// looked at. `in_hand` is the tooth that is asked about; `on_pick` hears taps.
pub fn jaw_row(
    side: Side,
    questions: Signal<Vec<ToothQuestion>>,
    in_hand: Signal<Option<Tooth>>,
    on_pick: Callback<(Tooth, MouseEvent)>,
    language: Language,
) -> AnyView {
    let front_right = front_lies_right(side);
    let half = say(language, if side == Side::Left { "jaw.left" } else { "jaw.right" }, &[]);
    let (premolars, molars) = Tooth::CHEEK.split_at(3);
    let mut groups = [premolars.to_vec(), molars.to_vec()];
    if front_right {
        // On the screen as in the hand: the last molar to the left.
        groups.reverse();
        for group in &mut groups {
            group.reverse();
        }
    }
    let button = move |tooth: Tooth| {
        let is_in_hand = Memo::new(move |_| in_hand.get() == Some(tooth));
        let number = Tooth::CHEEK.iter().position(|t| *t == tooth).map_or(0, |n| n + 1);
        // What is to be read on the button stands first in its name, for those who steer by voice.
        let label = move || {
            let state = questions.with(|all| state_words(language, all, tooth));
            let args = [
                ("n", Arg::Text(number.to_string())),
                ("code", tooth.name().into()),
                ("tooth", crew_name(language, tooth).into()),
                ("state", state.into()),
            ];
            say(language, "jaw.tooth_button", &args)
        };
        let picture = move || questions.with(|all| svg(tooth, &place(all, tooth), front_right));
        view! {
            <button
                type="button"
                class="tooth"
                data-tooth=tooth.name()
                aria-label=label
                aria-current=move || is_in_hand.get().then_some("true")
                on:click=move |event| on_pick.run((tooth, event))
            >
                <span class="tooth-name" aria-hidden="true">
                    <b>{number}</b>
                    " "
                    <span>{tooth.name()}</span>
                </span>
                <span class="drawing" aria-hidden="true" inner_html=picture></span>
            </button>
        }
    };
    let rows = groups
        .into_iter()
        .map(|group| view! { <span class="teeth-group">{group.into_iter().map(button).collect_view()}</span> })
        .collect_view();
    view! {
        <div
            class="teeth"
            role="group"
            aria-label=say(language, "jaw.row", &[("half", half.into())])
            on:keydown=move |event| step_with_keys(&event)
        >
            {rows}
        </div>
    }
    .into_any()
}

/// Arrow keys move along the row as it lies on the screen; Home and End to its ends.
fn step_with_keys(event: &KeyboardEvent) {
    let Some(row) = event.current_target().and_then(|t| t.dyn_into::<web_sys::Element>().ok()) else { return };
    let Ok(all) = row.query_selector_all("button.tooth") else { return };
    let teeth: Vec<web_sys::HtmlElement> =
        (0..all.length()).filter_map(|n| all.item(n)?.dyn_into::<web_sys::HtmlElement>().ok()).collect();
    let here = event
        .target()
        .and_then(|t| t.dyn_into::<web_sys::Element>().ok())
        .and_then(|target| teeth.iter().position(|tooth| **tooth == target));
    let Some(here) = here else { return };
    let last = teeth.len().saturating_sub(1);
    let to = match event.key().as_str() {
        "ArrowLeft" => here.saturating_sub(1),
        "ArrowRight" => (here + 1).min(last),
        "Home" => 0,
        "End" => last,
        _ => return,
    };
    event.prevent_default();
    if let Some(tooth) = teeth.get(to) {
        // A tooth that cannot take the focus leaves it where it is; nothing is lost.
        let _ = tooth.focus();
    }
}
