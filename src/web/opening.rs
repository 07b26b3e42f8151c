//! Opening the records of this phone, and what the first screen says of it.

use super::form::Form;

#[cfg(target_arch = "wasm32")]
pub(crate) use wasm::{Early, early, go_on};

/// Open the records again, as another tab has left them.
pub(crate) fn begin(form: Form) {
    go_on(form, early());
}

#[cfg(not(target_arch = "wasm32"))]
pub(crate) struct Early;

#[cfg(not(target_arch = "wasm32"))]
pub(crate) fn early() -> Early {
    Early
}

#[cfg(not(target_arch = "wasm32"))]
pub(crate) fn go_on(form: Form, early: Early) {
    let _ = (form, early);
}

#[cfg(target_arch = "wasm32")]
mod wasm {
    use std::pin::Pin;
    use std::task::{Context, Waker};

    use futures_util::FutureExt as _;
    use futures_util::future::{LocalBoxFuture, MaybeDone, join3, maybe_done};

    use crate::bundle::key::DeviceKey;
    use crate::guide::PROTOCOL;
    use crate::keep::browser::{self, Opened, Place};
    use crate::keep::{Break, Report, Stamp};
    use crate::record::Versions;
    use crate::words::{Arg, Language};

    use super::super::desk::Desk;
    use super::super::edge::Phone;
    use super::super::form::Form;
    use super::super::half_typed;
    use super::super::photo_slot;
    use super::super::platform::clock;
    use super::super::reasons;
    use super::super::session::{Session, Source, read_card};
    use super::super::settings::{NAME, Settings};

    /// The first screen comes before the second copy is brought up to date.
    const TIDY_AFTER_MS: i32 = 2_000;

    /// Records on their way.
    pub(crate) type Early = Pin<Box<MaybeDone<LocalBoxFuture<'static, Opened>>>>;

    /// Ask for the records now; they come while other work is done, and [`go_on`] takes them.
    pub(crate) fn early() -> Early {
        let mut early = Box::pin(maybe_done(records().boxed_local()));
        // What it asks the browser is asked at the first poll. Whoever waits for it is woken by a later one.
        let _ = early.as_mut().poll(&mut Context::from_waker(Waker::noop()));
        early
    }

    /// Take the records and go on from them.
    pub(crate) fn go_on(form: Form, mut early: Early) {
        leptos::task::spawn_local(async move {
            early.as_mut().await;
            if let Some(opened) = early.as_mut().take_output() {
                take(form, opened).await;
            }
        });
    }

    async fn records() -> Opened {
        let stamp = || {
            let when = Phone.when();
            Stamp { at: when.at, zone: when.zone, versions: Versions { protocol: PROTOCOL, step: None, card: None } }
        };
        browser::open(&Place::default(), stamp, |seed| DeviceKey::from_seed(&seed.0).public().id()).await
    }

    async fn take(form: Form, opened: Opened) {
        let mut settings = Settings::default();
        let mut aside = Vec::new();
        let (found, half, slot) = join3(
            opened.desk.setting::<Settings>(NAME),
            opened.desk.setting(half_typed::NAME),
            opened.desk.setting_text(photo_slot::NAME),
        )
        .await;
        if let Ok(found) = found {
            aside.extend(found.set_aside);
            settings = found.value.unwrap_or_default();
        }
        // Before anything is said.
        let no_language = speak(form, settings.language.as_deref()).await.err();
        let mut lines = report(form, &opened.report);
        lines.extend(no_language);
        if let Ok(found) = half {
            aside.extend(found.set_aside);
            if let Some(half) = found.value {
                form.hold_half(half);
            }
        }
        lines.extend(aside.into_iter().map(|name| form.say_with("report.setting_aside", &[("name", Arg::Text(name))])));
        if let Some(why) = opened.desk.read_only() {
            lines.insert(
                0,
                form.say_with("report.read_only", &[("reason", Arg::Text(reasons::read_only(form.language(), why)))]),
            );
        }
        let mut session = Session::new(opened.journal, opened.device, opened.seed);
        if let Some(person) = settings.person.clone() {
            session.is_held_by(person);
        }
        match settings.card.as_deref().map(read_card) {
            Some(Ok(card)) => session.card = Some(card.held),
            Some(Err(why)) => {
                lines.push(form.say_with("card.refused", &[("reason", Arg::Text(form.say(why.message())))]));
            }
            None => {}
        }
        session.take_up_latest(&Phone.when());
        session.here.second_look = settings.second_look.as_ref().map(|(_, exam)| *exam);
        let slot = slot.ok().flatten();
        // A tab that only shows took no photo.
        let writes = opened.desk.read_only().is_none();
        let slot = if writes { Form::slot_of_before(&mut session, slot.as_deref()) } else { None };
        opened.desk.on_added(move || form.reread());
        let untouched = session.journal.is_empty();
        form.look_if_persisted();
        let desk = Desk::open(opened.desk);
        let to_tidy = desk.clone();
        form.opened(session, desk, settings, lines, slot);
        leptos::task::spawn_local(async move {
            clock::pause_ms(TIDY_AFTER_MS).await;
            to_tidy.tidy();
        });
        if super::super::address::is_demo() && untouched && form.read_only().is_none() {
            super::super::demo::play(form).await;
        }
    }

    /// The language that was chosen, where it is at hand; English else, and why.
    async fn speak(form: Form, chosen: Option<&str>) -> Result<(), String> {
        let language = chosen.and_then(Language::of_tag).unwrap_or_default();
        let ready = super::super::languages::ready(language).await;
        form.speak(if ready.is_ok() { language } else { Language::English });
        ready
    }

    /// What the start found, one sentence each; nothing where all is as it should be.
    fn report(form: Form, report: &Report) -> Vec<String> {
        let mut lines = Vec::new();
        let count = |n: usize| ("n", Arg::Count(i64::try_from(n).unwrap_or_default()));
        let reason = |text: String| ("reason", Arg::Text(text));
        if report.recovered > 0 {
            lines.push(form.say_with("report.recovered", &[count(report.recovered)]));
        }
        if report.spared > 0 {
            lines.push(form.say_with("report.spared", &[count(report.spared)]));
        }
        if !report.set_aside.is_empty() {
            lines.push(form.say_with("report.set_aside", &[count(report.set_aside.len())]));
        }
        if !report.forks.is_empty() {
            lines.push(form.say_with("report.forks", &[count(report.forks.len())]));
        }
        if let Some(Break::Gap { first }) = report.new_chain {
            lines.push(
                form.say_with("report.missing", &[("first", Arg::Count(i64::try_from(first).unwrap_or_default()))]),
            );
        } else if let Some(why) = &report.new_chain {
            lines.push(form.say_with("report.new_chain", &[reason(why.to_string())]));
        }
        if let Some(why) = &report.store_refused {
            lines.push(form.say_with("report.store_refused", &[reason(reasons::store(form.language(), why))]));
        }
        if let Some(why) = &report.quick_refused {
            lines.push(form.say_with("report.quick_refused", &[reason(why.to_string())]));
        }
        if let Some(why) = &report.not_written {
            lines.push(form.say_with("report.not_written", &[reason(reasons::store(form.language(), why))]));
        }
        lines
    }
}
