//! Reports of dead deer: those that wait for a crew, and one that was just taken.

use leptos::prelude::*;
use uuid::Uuid;

use crate::web::form::Form;
use crate::web::parts::{Look, act, plain_head, tile};
use crate::web::screen::Screen;
use crate::web::session::{Session, WaitingReport};
use crate::web::wording;
use crate::words::Arg;

/// Reports shown at once; the office has them all.
const SHOWN: usize = 6;

/// Those that no crew has gone to, for the first screen.
pub(super) fn waiting(form: Form) -> AnyView {
    let waiting = form.with(Session::waiting_reports).unwrap_or_default();
    if waiting.is_empty() {
        return ().into_any();
    }
    let rows = waiting.into_iter().take(SHOWN).map(|report| row(form, report)).collect_view();
    view! {
        <section class="done">
            <h2>{form.say("reports.waiting")}</h2>
            <ul class="rows">{rows}</ul>
        </section>
    }
    .into_any()
}

fn row(form: Form, report: WaitingReport) -> AnyView {
    let (id, code) = (report.id, report.code);
    let at = report.at.map(wording::date_and_time).unwrap_or_default();
    let done = report.triage.map_or_else(
        || form.say("reports.undecided"),
        |triage| wording::option(form.language(), "report_triage", &triage),
    );
    let words = [
        ("code", Arg::Text(code.clone())),
        ("place", Arg::Text(report.place)),
        ("at", Arg::Text(at)),
        ("done", Arg::Text(done)),
    ];
    view! {
        <li>
            <p>{form.say_with("reports.row", &words)}</p>
            {act(form, &format!("report-{code}"), form.say("reports.take_up"), move || form.take_up_report(Some(id), Screen::Visit(None)))}
            {act(form, &format!("go-to-{code}"), form.say("reports.go_out"), move || form.take_up_report(Some(id), Screen::Who))}
        </li>
    }
    .into_any()
}

/// Everything about a report has been said.
pub(super) fn taken(form: Form, id: Uuid) -> AnyView {
    let sends = form.now_once().is_some_and(|now| now.view().chose("report_triage", "send_crew"));
    let go_out =
        tile(form, "go-out", form.say("reports.go_out"), if sends { Look::Main } else { Look::Value }, move || {
            form.take_up_report(Some(id), Screen::Who);
        });
    view! {
        <section class="ask" data-ask="none">
            {plain_head(form.say("reports.taken"))}
            <p>{form.say("reports.taken.how")}</p>
        </section>
        <div class="tiles">
            {go_out}
            {tile(form, "start", form.say("visit.to_start"), if sends { Look::Value } else { Look::Main }, move || {
                form.take_up_report(None, Screen::Start);
            })}
            {tile(form, "steps", form.say("visit.look_over"), Look::Aside, move || form.go(Screen::Steps))}
        </div>
    }
    .into_any()
}
