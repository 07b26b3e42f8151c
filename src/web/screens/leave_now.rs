//! The crew leaves at once: one reason, and everything open is written as not looked at.

use leptos::prelude::*;

use crate::record::Why;
use crate::web::form::Form;
use crate::web::parts::{Look, pages, plain_head, tile};
use crate::web::screen::Screen;
use crate::web::wording;

use super::super::inputs::more_tile;

/// The outing's reason and what it says of each question left open.
fn reasons() -> [(&'static str, Why); 6] {
    [
        ("unsafe_here", Why::Unsafe),
        ("cold", Why::Cold),
        ("time", Why::Time),
        ("weather", Why::Unsafe),
        ("person_unwell", Why::Unsafe),
        ("other", Why::NotGiven),
    ]
}

pub(super) fn leave_now(form: Form) -> AnyView {
    form.begin_field("leave-now", String::new());
    let shown = move || {
        let (shown, page, count) = pages(&reasons(), form.page.get());
        let tiles = shown.into_iter().map(|(code, why)| {
            let label = wording::option(form.language(), "left_early", code);
            tile(form, code, label, Look::Value, move || form.leave_now(code, &why))
        });
        view! { {tiles.collect_view()} {(count > 1).then(|| more_tile(form, page, count))} }
    };
    view! {
        <section class="ask">
            {plain_head(form.say("leave_now.head"))}
            <p class="how">{form.say("leave_now.how")}</p>
        </section>
        <div class="tiles">
            {shown}
            {tile(form, "stay", form.say("leave_now.stay"), Look::Aside, move || form.go(Screen::Visit(None)))}
        </div>
    }
    .into_any()
}
