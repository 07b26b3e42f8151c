//! What every part shares in which somebody signs: who it is, whether the key is open, and how it went.

use leptos::prelude::*;

use super::desk::{Desk, tell, tell_with};
use super::fields::{Takes, typed};
use crate::card::Card;
use crate::record::PersonCode;

/// What was said last: whether it was done, and in words.
pub(super) type Said = RwSignal<Option<(bool, String)>>;

/// Says so where the office's key is not open.
pub(super) fn no_key(desk: Desk, words: &'static str) -> impl Fn() -> AnyView + Send + 'static {
    move || {
        let shut = desk.key.get().is_none();
        shut.then(|| view! { <p class="alert" data-no-key="">{tell(words)}</p> }).into_any()
    }
}

/// Asks for the code of who signs, and says so where the card does not name it: nothing is signed less for that.
pub(super) fn by_field(desk: Desk, name: &'static str, person: RwSignal<String>) -> AnyView {
    let named = Memo::new(move |_| {
        let of = |card: &Card| card.people.iter().map(|person| person.code.clone()).collect::<Vec<_>>();
        desk.hand.with(|hand| hand.cards().0.newest().map(of))
    });
    let not_named = move || {
        let code = PersonCode::new(person.get().trim()).ok()?;
        let is_strange = named.with(|named| named.as_ref().is_some_and(|all| !all.contains(&code)));
        let args = [("code", code.to_string().into())];
        is_strange.then(|| view! { <p data-not-named="">{tell_with("decide.by.not_named", &args)}</p> })
    };
    view! {
        {typed(person, name, tell("decide.by"), Takes::words(12))}
        <div role="status">{not_named}</div>
    }
    .into_any()
}

/// The line of how it went.
pub(super) fn said_line(said: Said) -> impl Fn() -> AnyView + Send + 'static {
    move || {
        let line = |(good, words): (bool, String)| {
            let class = if good { "report-line" } else { "alert" };
            view! { <p class=class data-good=good.to_string()>{words}</p> }
        };
        said.get().map(line).into_any()
    }
}
