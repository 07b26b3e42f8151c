//! What was taken for the bench and waits there.

use leptos::prelude::*;

use crate::web::edge::Phone;
use crate::web::form::Form;
use crate::web::parts::{Look, plain_head, tile};
use crate::web::session::Session;
use crate::words::Arg;

pub(super) fn bench(form: Form) -> AnyView {
    let fold = form.with(|s| s.bodies.fold_all()).unwrap_or_default();
    let work = Session::bench_work(&fold);
    let none = work.is_empty().then(|| view! { <p>{form.say("bench.none")}</p> });
    let tiles = work.into_iter().map(|(carcass, code, open)| {
        let what = open.iter().map(|w| form.say(&format!("bench_work.{}", w.code()))).collect::<Vec<_>>().join("; ");
        let label = form.say_with("bench.begin", &[("code", Arg::Text(code.clone())), ("what", Arg::Text(what))]);
        tile(form, &format!("bench-{code}"), label, Look::Value, move || {
            form.begin(|session| session.look_again(carcass, "bench", &Phone));
        })
    });
    view! {
        <section class="ask">
            {plain_head(form.say("bench.head"))}
            <p class="how">{form.say("bench.how")}</p>
            {none}
        </section>
        <div class="tiles">{tiles.collect_view()}</div>
    }
    .into_any()
}
