//! The samples that are worth taking here, as the guide's table says.

use leptos::prelude::*;

use crate::guide::{SampleVerdict, samples_worth_taking};
use crate::web::form::Form;
use crate::web::parts::act;
use crate::web::screen::Screen;
use crate::web::session::Now;
use crate::words::Arg;

pub(super) fn worth(form: Form, now: &Now) -> AnyView {
    let all = samples_worth_taking(&now.view());
    if all.is_empty() {
        return view! { <p>{form.say("samples.none")}</p> }.into_any();
    }
    // What the crew may take stands first, else in the order in which things spoil.
    let (take, leave): (Vec<_>, Vec<_>) = all.into_iter().partition(|(_, verdict)| *verdict == SampleVerdict::Take);
    let rows = take.into_iter().chain(leave).map(|(row, verdict)| {
        let part = |name: &str| form.say(&format!("samples.{}.{name}", row.id));
        let told = form.say(&format!("samples.verdict.{}", verdict.code()));
        let keep = (verdict == SampleVerdict::Take).then(|| view! { <br />{part("keep")} });
        let what_for = form.say_with("samples.what_for", &[("what", Arg::Text(part("for")))]);
        view! { <li data-sample=row.id data-verdict=verdict.code()><strong>{told}</strong>{form.language().colon()}{part("take")}{keep}<br />{what_for}</li> }
    });
    view! {
        <section class="phase" data-samples="">
            <ul>{rows.collect_view()}</ul>
            <p>{form.say("samples.read")}</p>
            {act(form, "labels", form.say("label.all"), move || form.go(Screen::Labels))}
        </section>
    }
    .into_any()
}
