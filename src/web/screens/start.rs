//! Where everything begins: what is open, what waits, what the phone promises.

use leptos::prelude::*;

use crate::keep::Promise;
use crate::web::form::Form;
use crate::web::parts::{Look, act, opening_report, plain_head, tile};
use crate::web::screen::Screen;
use crate::web::session::{OpenCarcass, Session, Source as _};
use crate::web::wording;
use crate::words::Arg;

/// Closed examinations listed here; the rest is in the office.
const LAST_CLOSED: usize = 6;

pub(super) fn start(form: Form) -> AnyView {
    form.let_sleep();
    form.end_position();
    let fold = form.with(|s| s.bodies.fold_all()).unwrap_or_default();
    let all = Session::examinations(&fold);
    let bench = Session::bench_work(&fold).len();
    let (open, closed): (Vec<OpenCarcass>, Vec<OpenCarcass>) = all.into_iter().partition(|e| !e.closed);
    let on_outing = form.now_once().is_some_and(|now| now.here.outing.is_some());
    // One act stands out: the latest carcass, or the first outing.
    let look = |n: usize| if n == 0 { Look::Main } else { Look::Value };
    let outing = if on_outing { Look::Aside } else { look(open.len()) };
    let carry_on = open.iter().enumerate().map(|(n, e)| carry_on(form, e, look(n))).collect_view();
    let another = on_outing.then(|| {
        tile(form, "new-carcass", form.say("start.new_carcass"), Look::Value, move || {
            form.begin(|session| session.new_carcass(&crate::web::edge::Phone));
        })
    });
    let count = |n: usize| ("n", Arg::Count(i64::try_from(n).unwrap_or_default()));
    let bench = (bench > 0).then(|| {
        tile(form, "bench", form.say_with("start.bench", &[count(bench)]), Look::Value, move || form.go(Screen::Bench))
    });
    let report = tile(form, "report", form.say("start.report"), Look::Aside, move || {
        form.take_up_report(Some(crate::web::edge::Phone.id()), Screen::Visit(None));
    });
    let waiting = form.with(|s| s.handed().waiting).unwrap_or_default();
    let hand_over = (waiting > 0 || !closed.is_empty()).then(|| {
        let label = form.say_with("start.hand_over", &[count(waiting)]);
        tile(form, "hand-over", label, Look::Value, move || form.go(Screen::HandOver))
    });
    let languages = form.settings.with_untracked(|s| s.language.is_none()).then(|| crate::web::languages::tiles(form));
    view! {
        <section class="ask">
            {plain_head(form.say("start.head"))}
            {languages}
            {opening_report(form)}
        </section>
        <div class="tiles">
            {carry_on}
            {another}
            {tile(form, "outing", form.say("start.outing"), outing, move || form.take_up_report(None, Screen::Who))}
            {report}
            {bench}
            {hand_over}
        </div>
        {super::start_notes::notes(form)}
        {super::report::waiting(form)}
        {done_list(form, &closed)}
        <nav class="more-ways" aria-label=form.say("start.more")>
            {act(form, "join", form.say("start.join"), move || form.go(Screen::Join))}
            {act(form, "take", form.say("frames.take"), move || form.go(Screen::Take))}
            {act(form, "practice", form.say("start.practice"), move || form.go(Screen::Practice))}
            {act(form, "paper", form.say("start.paper"), move || form.take_up_paper())}
            {act(form, "winter", form.say("start.winter"), move || form.go(Screen::Winter))}
            {act(form, "settings", form.say("start.settings"), move || form.go(Screen::Settings))}
            {act(form, "about", form.say("start.about"), move || form.go(Screen::About))}
        </nav>
    }
    .into_any()
}

/// What can be promised about the next answer.
pub(super) const fn promise(promise: Promise) -> &'static str {
    match promise {
        Promise::MemoryOnly => "promise.memory_only",
        Promise::CrashedTabOnly => "promise.crashed_tab_only",
        Promise::CrashAndPowerLoss => "promise.full",
    }
}

fn named(form: Form, exam: &OpenCarcass) -> Vec<(&'static str, Arg)> {
    let kind = form.say(if exam.kind == "bench" { "exam.bench" } else { "exam.field" });
    let at = exam.last_at.map(wording::date_and_time).unwrap_or_default();
    vec![
        ("code", Arg::Text(exam.code.clone())),
        ("kind", Arg::Text(kind)),
        ("at", Arg::Text(at)),
        ("n", Arg::Count(i64::try_from(exam.answers).unwrap_or_default())),
    ]
}

fn carry_on(form: Form, exam: &OpenCarcass, look: Look) -> AnyView {
    let id = exam.examination;
    let label = form.say_with("start.carry_on", &named(form, exam));
    tile(form, &format!("carry-on-{}", exam.code), label, look, move || form.take_up(id, Screen::Resume))
}

fn done_list(form: Form, closed: &[OpenCarcass]) -> AnyView {
    if closed.is_empty() {
        return ().into_any();
    }
    let rows = closed.iter().take(LAST_CLOSED).map(|exam| {
        let (id, args) = (exam.examination, named(form, exam));
        view! {
            <li>
                <p>{form.say_with("start.closed_row", &args)}</p>
                {act(form, &format!("readings-{}", exam.code), form.say("start.row_readings"), move || {
                    form.take_up(id, Screen::Readings(id));
                })}
                {act(form, &format!("journal-{}", exam.code), form.say("start.row_journal"), move || {
                    form.take_up(id, Screen::Journal(id));
                })}
            </li>
        }
    });
    view! {
        <section class="done">
            <h2>{form.say("start.closed")}</h2>
            <ul class="rows">{rows.collect_view()}</ul>
        </section>
    }
    .into_any()
}
