//! Who holds the phone: picked from the card, or typed as a code.

use leptos::prelude::*;

use crate::record::PersonCode;
use crate::web::edge::Phone;
use crate::web::form::Form;
use crate::web::parts::{Look, code_field, main_tile, pages, plain_head, tile};
use crate::web::screen::Screen;
use crate::web::session::Now;
use crate::words::Arg;

use super::super::inputs::more_tile;

pub(super) fn who(form: Form) -> AnyView {
    let Some(now) = form.now_once() else { return ().into_any() };
    let known = form.settings.try_get_untracked().and_then(|s| s.person).map(|p| p.as_str().to_owned());
    form.begin_field("who", known.unwrap_or_default());
    let in_visit = now.here.examination.is_some() && !now.is_closed();
    let from_card = people_tiles(form, of_card(&now), move |code| take(form, code, in_visit));
    let label = move || {
        let typed = form.typed.get();
        let id = match (typed.trim().is_empty(), in_visit) {
            (true, _) => "who.type_first",
            (_, true) => "who.take",
            _ => "who.go_out",
        };
        form.say_with(id, &[("code", Arg::Text(typed.trim().to_owned()))])
    };
    view! {
        <section class="ask">
            {plain_head(form.say("who.head"))}
            <p class="how">{form.say("who.how")}</p>
            {now.here.from_paper.then(|| view! { <p class="how">{form.say("who.from_paper")}</p> })}
        </section>
        <div class="tiles">
            {from_card}
            {code_field(form, "who.code", "who", 12)}
            {main_tile(form, "go", label, move || {
                match PersonCode::new(form.typed.try_get_untracked().unwrap_or_default().trim()) {
                    Ok(code) => take(form, code, in_visit),
                    Err(_) => form.tell(form.say("who.not_a_code")),
                }
            })}
        </div>
    }
    .into_any()
}

/// People whom the card names.
pub(super) fn of_card(now: &Now) -> Vec<(PersonCode, String)> {
    now.card.iter().flat_map(|c| c.people.iter()).map(|p| (p.code.clone(), p.name.clone())).collect()
}

/// People of the card to pick from, a page at a time.
pub(super) fn people_tiles(
    form: Form,
    people: Vec<(PersonCode, String)>,
    act: impl Fn(PersonCode) + Copy + Send + 'static,
) -> AnyView {
    let shown = move || {
        let (shown, page, count) = pages(&people, form.page.get());
        let tiles = shown.into_iter().map(|(code, name)| {
            let label = format!("{code}  {name}");
            tile(form, &format!("person-{code}"), label, Look::Value, move || act(code.clone()))
        });
        view! { {tiles.collect_view()} {(count > 1).then(|| more_tile(form, page, count))} }
    };
    view! { {shown} }.into_any()
}

/// Somebody else takes the phone over, or a day out begins.
fn take(form: Form, code: PersonCode, in_visit: bool) {
    form.end_input();
    form.set_person(code);
    if in_visit {
        form.go(Screen::Visit(None));
    } else {
        form.begin(|session| session.start_outing(&Phone));
    }
}
