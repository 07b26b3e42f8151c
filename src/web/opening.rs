//! Opening the records of this phone, and what the first screen says of it.

use super::form::Form;

#[cfg(target_arch = "wasm32")]
pub(crate) fn begin(form: Form) {
    leptos::task::spawn_local(wasm::open(form));
}

#[cfg(not(target_arch = "wasm32"))]
pub(crate) fn begin(form: Form) {
    let _ = form;
}

#[cfg(target_arch = "wasm32")]
mod wasm {
    use crate::bundle::key::DeviceKey;
    use crate::guide::PROTOCOL;
    use crate::keep::browser::{self, Place};
    use crate::keep::{Break, Report, Stamp};
    use crate::record::Versions;
    use crate::words::{Arg, Language};

    use super::super::desk::Desk;
    use super::super::edge::Phone;
    use super::super::form::Form;
    use super::super::half_typed;
    use super::super::photo_slot;
    use super::super::reasons;
    use super::super::session::{Session, Source, read_card};
    use super::super::settings::{NAME, Settings};

    pub(super) async fn open(form: Form) {
        let when = Phone.when();
        let versions = Versions { protocol: PROTOCOL, step: None, card: None };
        let stamp = Stamp { at: when.at, zone: when.zone, versions };
        let opened = browser::open(&Place::default(), stamp, |seed| DeviceKey::from_seed(&seed.0).public().id()).await;
        let mut settings = Settings::default();
        let mut aside = Vec::new();
        if let Ok(found) = opened.desk.setting::<Settings>(NAME).await {
            aside.extend(found.set_aside);
            settings = found.value.unwrap_or_default();
        }
        // Before anything is said.
        let no_language = speak(form, settings.language.as_deref()).await.err();
        let mut lines = report(form, &opened.report);
        lines.extend(no_language);
        if let Ok(found) = opened.desk.setting(half_typed::NAME).await {
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
        let slot = opened.desk.setting_text(photo_slot::NAME).await.ok().flatten();
        // A tab that only shows took no photo.
        let writes = opened.desk.read_only().is_none();
        let slot = if writes { Form::slot_of_before(&mut session, slot.as_deref()) } else { None };
        opened.desk.on_added(move || form.reread());
        let untouched = session.journal.is_empty();
        form.look_if_persisted();
        form.opened(session, Desk::open(opened.desk), settings, lines, slot);
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
