//! The form's state for as long as the page lives, and the acts that screens call.
//!
//! All signals are made once, by the root, and never disposed: a late tap or a slow position fix
//! finds them there.

use std::collections::{BTreeMap, BTreeSet};
use std::sync::Arc;

use leptos::prelude::*;
use uuid::Uuid;

use crate::card::Units;
use crate::guide::{Ask, Draft, Input};
use crate::keep::{Promise, Saving};
use crate::record::{Body, DeviceId, Digest, Journal, PersonCode, Shown, Site, Why};
use crate::words::{Arg, Language};

use super::desk::Desk;
use super::drawings::jaw_focus::JawFocus;
use super::edge::{Phone, steady_ms};
use super::photo_slot::Slot;
use super::platform::position::{Fix, NoFix, Watch};
use super::platform::wake_lock::Awake;
use super::reasons;
use super::screen::Screen;
use super::session::{Here, Now, ReceivedCard, Session, Source};
use super::settings::Settings;
use super::shell::Shell;
use super::wording;

/// For this long after a new question has appeared a tap is the rest of the tap before.
const BOUNCE_MS: u64 = 250;

/// How the last answers stand on disk.
#[derive(Clone, Debug, Default, PartialEq)]
pub(crate) struct Saves {
    /// What was last given, in words.
    pub(crate) what: String,
    /// Screens gone to since then.
    pub(crate) screens_since: u8,
    /// Calls whose end is not known yet.
    pub(crate) writing: usize,
    /// Why the last try failed and what is promised all the same.
    pub(crate) failed: Option<(String, Promise)>,
}

/// The handle that every screen holds. Copying it copies no data.
#[derive(Clone, Copy)]
pub(crate) struct Form {
    /// The language of the screens, at hand. Follow it where what is drawn outlives a change.
    pub(crate) spoken: RwSignal<Language>,
    session: StoredValue<Session>,
    pub(super) desk: StoredValue<Desk, LocalStorage>,
    /// True once the records of this phone are open.
    pub(crate) ready: RwSignal<bool>,
    /// What is on the screen.
    pub(crate) screen: RwSignal<Screen>,
    /// How things stand.
    pub(crate) now: RwSignal<Arc<Now>>,
    /// Grows with every entry and every step to another screen: what is drawn anew, and when.
    pub(crate) turn: RwSignal<u64>,
    /// How the last answers stand on disk.
    pub(crate) saves: RwSignal<Saves>,
    /// Something to be told that belongs to no question.
    pub(crate) notice: RwSignal<Option<String>>,
    /// What was told at the start and stays true: storage refused, another tab, set aside.
    pub(crate) opening: RwSignal<Vec<String>>,
    /// Whether the form works without signal, and whether a newer version waits.
    pub(crate) shell: RwSignal<Shell>,
    /// Settings of this phone.
    pub(crate) settings: RwSignal<Settings>,
    /// The page of tiles.
    pub(crate) page: RwSignal<usize>,
    /// What has been typed and not yet saved.
    pub(crate) typed: RwSignal<String>,
    /// What has been picked and not yet saved.
    pub(crate) picked: RwSignal<BTreeSet<&'static str>>,
    /// Days from today, where a moment is asked for.
    pub(crate) day: RwSignal<i32>,
    /// True while a moment other than now is typed.
    pub(crate) other_time: RwSignal<bool>,
    /// The reason picked for having no answer.
    pub(crate) reason: RwSignal<Option<Why>>,
    /// Which questions of an ask get no answer; empty for all of them.
    pub(crate) only: RwSignal<Vec<(&'static str, Site)>>,
    /// What was tapped last on the drawn jaw.
    pub(crate) jaw_focus: RwSignal<JawFocus>,
    /// Practice at home, once it was looked for.
    pub(crate) practice: RwSignal<Option<crate::guide::practice::Practice>>,
    /// What was taken from other phones, once it was looked for.
    pub(crate) received: RwSignal<Option<Vec<super::session::Carried>>>,
    /// The number of the photo that is being made smaller and kept.
    pub(crate) taking: RwSignal<Option<u16>>,
    /// Which photo the camera was opened for.
    pub(super) slot: StoredValue<Option<Slot>>,
    /// The best position so far, or why there is none.
    pub(crate) position: RwSignal<Option<Result<Fix, NoFix>>>,
    /// Whether the browser has promised to keep the records.
    pub(crate) persisted: RwSignal<Option<bool>>,
    pub(super) watch: StoredValue<Option<Watch>, LocalStorage>,
    pub(super) awake: StoredValue<Option<Awake>, LocalStorage>,
    pub(super) awake_asked: StoredValue<bool>,
    pub(super) input_of: StoredValue<String>,
    /// What was half given when the page went, as the store proper holds it: whose, and what.
    half: StoredValue<(String, String)>,
    shown_at: StoredValue<u64>,
    told: StoredValue<BTreeMap<(Option<Uuid>, &'static str), String>>,
}

impl Form {
    /// Made once, in the root.
    pub(crate) fn new(screen: Screen) -> Self {
        let session = Session::new(Journal::new(), DeviceId(Digest([0; 32])), None);
        let now = session.now(&Phone.when());
        Self {
            spoken: RwSignal::new(Language::English),
            session: StoredValue::new(session),
            desk: StoredValue::new_local(Desk::default()),
            ready: RwSignal::new(false),
            screen: RwSignal::new(screen),
            now: RwSignal::new(Arc::new(now)),
            turn: RwSignal::new(0),
            saves: RwSignal::new(Saves::default()),
            notice: RwSignal::new(None),
            opening: RwSignal::new(Vec::new()),
            shell: RwSignal::new(Shell::default()),
            settings: RwSignal::new(Settings::default()),
            page: RwSignal::new(0),
            typed: RwSignal::new(String::new()),
            picked: RwSignal::new(BTreeSet::new()),
            day: RwSignal::new(0),
            other_time: RwSignal::new(false),
            reason: RwSignal::new(None),
            only: RwSignal::new(Vec::new()),
            jaw_focus: RwSignal::new(JawFocus::Next),
            practice: RwSignal::new(None),
            received: RwSignal::new(None),
            taking: RwSignal::new(None),
            slot: StoredValue::new(None),
            position: RwSignal::new(None),
            persisted: RwSignal::new(None),
            watch: StoredValue::new_local(None),
            awake: StoredValue::new_local(None),
            awake_asked: StoredValue::new(false),
            input_of: StoredValue::new(String::new()),
            half: StoredValue::new((String::new(), String::new())),
            shown_at: StoredValue::new(0),
            told: StoredValue::new(BTreeMap::new()),
        }
    }

    /// The language of the screens.
    pub(crate) fn language(self) -> Language {
        self.spoken.try_get_untracked().unwrap_or_default()
    }

    /// The units in which readings are shown and most numbers are typed: the phone's own setting, else the card's.
    pub(crate) fn shown(self) -> Shown {
        let of_card = || self.with(|s| s.card.as_ref().is_some_and(|held| held.card.units == Units::Us));
        let us = self.settings.with_untracked(|s| s.us_units).or_else(of_card);
        if us == Some(true) { Shown::Us } else { Shown::Metric }
    }

    /// A message without values.
    pub(crate) fn say(self, id: &str) -> String {
        crate::words::say(self.language(), id, &[])
    }

    /// A message with values.
    pub(crate) fn say_with(self, id: &str, args: &[(&str, Arg)]) -> String {
        crate::words::say(self.language(), id, args)
    }

    /// Read the session.
    pub(crate) fn with<T>(self, read: impl FnOnce(&Session) -> T) -> Option<T> {
        self.session.try_with_value(read)
    }

    /// How things stand, without following changes.
    pub(crate) fn now_once(self) -> Option<Arc<Now>> {
        self.now.try_get_untracked()
    }

    /// Go to a screen.
    pub(crate) fn go(self, screen: Screen) {
        super::address::set(&screen);
        // The camera came back without a picture, and the person goes on.
        if self.taking.try_get_untracked().flatten().is_none() {
            self.forget_slot();
        }
        self.notice.try_update(|n| *n = None);
        self.on_screen(screen);
    }

    fn on_screen(self, screen: Screen) {
        self.saves.try_update(|s| s.screens_since = s.screens_since.saturating_add(1));
        self.screen.try_update(|s| *s = screen);
        self.redraw();
    }

    /// Take up what the address says, after the browser's own Back.
    pub(crate) fn follow_address(self, screen: Screen) {
        if self.screen.try_get_untracked().as_ref() != Some(&screen) {
            self.on_screen(screen);
        }
    }

    pub(crate) fn redraw(self) {
        self.turn.try_update(|t| *t += 1);
        self.bounce_from_now();
    }

    /// From now on taps may be the rest of the one before.
    pub(crate) fn bounce_from_now(self) {
        self.shown_at.try_set_value(steady_ms());
    }

    /// Back: the answer given before this one, or the screen that this one came from.
    pub(crate) fn back(self) {
        let Some(now) = self.now_once() else { return };
        let here = self.screen.try_get_untracked().unwrap_or(Screen::Start);
        // On a later page of signs, Back is the way to a tick on the page before.
        let page = self.page.try_get_untracked().unwrap_or_default();
        if let Screen::Visit(named) = &here
            && page > 0
            && matches!(now.ask(named.as_deref()), Some(Ask::Step { .. }))
        {
            self.page.try_set(page - 1);
            return;
        }
        let open = now.here.examination.is_some() && !now.is_closed();
        let to = match here {
            Screen::NoAnswer(ask) => Screen::Visit(Some(ask)),
            Screen::Show(_) => Screen::HandOver,
            Screen::Labels => Screen::Custody,
            Screen::Reading(id, _) => Screen::Readings(id),
            Screen::Visit(named) => {
                let from = now.ask(named.as_deref());
                let before = self.with(|session| session.before(&now, from.as_ref())).flatten();
                before.map_or(Screen::Start, |name| Screen::Visit(Some(name)))
            }
            Screen::Hurt | Screen::LeaveNow | Screen::Steps | Screen::Stops | Screen::Photos(_) | Screen::Sketch
                if open =>
            {
                Screen::Visit(None)
            }
            Screen::Journal(_) | Screen::Readings(_) if open => Screen::Steps,
            _ => Screen::Start,
        };
        self.go(to);
    }

    /// Advice that is told at this ask: what fires now and was not told at an earlier one.
    pub(crate) fn told_at(self, now: &Now, ask: &Ask) -> Vec<&'static str> {
        let name = ask.name();
        let fired: Vec<&'static str> = now.situation.advice().map(|f| f.hazard.id).collect();
        let mut here = Vec::new();
        self.told.try_update_value(|told| {
            for id in fired {
                let at = told.entry((now.here.examination, id)).or_insert_with(|| name.clone());
                if *at == name {
                    here.push(id);
                }
            }
        });
        here
    }

    /// False where this tap is the bounce of the one before. Keys do not bounce.
    pub(crate) fn is_meant(self, event: &leptos::ev::MouseEvent) -> bool {
        let shown = self.shown_at.try_get_value().unwrap_or_default();
        event.detail() == 0 || steady_ms().saturating_sub(shown) >= BOUNCE_MS
    }

    /// Read the clock again: due back, daylight and the card's dates depend on it.
    pub(crate) fn tick(self) {
        let now = self.with(|session| session.now(&Phone.when()));
        if let Some(now) = now {
            self.now.try_update(|n| *n = Arc::new(now));
        }
    }

    /// The records are open: go on where the visit stood.
    pub(crate) fn opened(
        self,
        session: Session,
        desk: Desk,
        settings: Settings,
        lines: Vec<String>,
        slot: Option<Slot>,
    ) {
        let in_visit = session.here.examination.is_some();
        self.session.try_update_value(|s| *s = session);
        self.desk.try_update_value(|d| *d = desk);
        self.settings.try_set(settings);
        self.opening.try_set(lines);
        self.tick();
        self.ready.try_set(true);
        self.sweep_photos();
        if let Some(slot) = slot {
            return self.back_from_camera(slot);
        }
        let named = self.screen.try_get_untracked().unwrap_or(Screen::Start);
        match named {
            // A hurry is never held up, and a look at papers is not a step of the visit.
            Screen::Hurt
            | Screen::About
            | Screen::Settings
            | Screen::HandOver
            | Screen::Practice
            | Screen::Custody
            | Screen::Show(_)
            | Screen::Take
            | Screen::Labels => {
                self.redraw();
            }
            _ if in_visit => self.go(Screen::Resume),
            Screen::Journal(_)
            | Screen::Photos(_)
            | Screen::Readings(_)
            | Screen::Reading(..)
            | Screen::Bench
            | Screen::Winter
            | Screen::WinterLog(_)
            | Screen::WinterDay(..)
            | Screen::WinterRead(..) => self.redraw(),
            _ => self.go(Screen::Start),
        }
    }

    /// Another tab has written: show what it wrote.
    pub(crate) fn reread(self) {
        // The tab that writes knows its own entries; only one that shows has something to learn.
        if self.read_only().is_some() {
            super::opening::begin(self);
        }
    }

    /// Why this page may not write; `None` where it may.
    pub(crate) fn read_only(self) -> Option<String> {
        self.desk.try_with_value(Desk::read_only).flatten()
    }

    /// What can be promised about the next answer.
    pub(crate) fn promise(self) -> Promise {
        self.desk.try_with_value(Desk::promise).unwrap_or(Promise::MemoryOnly)
    }

    /// Answer, and go on to what comes next. False where nothing was written; the reason is shown.
    pub(crate) fn answer(self, drafts: &[Draft]) -> bool {
        let what = wording::drafts(self.language(), drafts);
        let done = self.write_drafts(drafts, what);
        if done {
            self.end_input();
            self.go(Screen::Visit(None));
        }
        done
    }

    /// Answer without leaving the screen: the drawn jaw goes on by itself.
    pub(crate) fn answer_in_place(self, drafts: &[Draft]) {
        if self.write_drafts(drafts, wording::drafts(self.language(), drafts)) {
            self.bounce_from_now();
        }
    }

    /// Write answers without leaving the screen.
    pub(crate) fn write_drafts(self, drafts: &[Draft], what: String) -> bool {
        let Some(now) = self.now_once() else { return false };
        match self.with(|session| session.answer(&now.fold, drafts, &Phone.when())) {
            Some(Ok(bodies)) => self.write(bodies, what),
            Some(Err(flaw)) => {
                let text = wording::flaw(self.language(), self.shown(), &flaw);
                self.notice.try_update(|n| *n = Some(text));
                false
            }
            None => false,
        }
    }

    /// Write answers of a winter log without leaving the screen.
    pub(crate) fn write_log(self, log: Uuid, drafts: &[Draft], what: String) -> bool {
        match self.with(|session| session.answer_log(log, drafts, &Phone.when())) {
            Some(Ok(bodies)) => {
                let done = self.write(bodies, what);
                self.redraw();
                done
            }
            Some(Err(flaw)) => {
                let text = wording::flaw(self.language(), self.shown(), &flaw);
                self.notice.try_update(|n| *n = Some(text));
                false
            }
            None => false,
        }
    }

    /// Take back this person's reading of a day.
    pub(crate) fn take_back_log(self, log: Uuid, finding: &str, site: Site) {
        let body = self.with(|session| session.take_back_log(log, finding, site, &Phone.when())).flatten();
        match body {
            Some(body) => {
                if self.write(vec![body], self.say("saved.taken_back")) {
                    self.redraw();
                }
            }
            None => self.tell(self.say("log.not_yours")),
        }
    }

    /// Take back this person's answer to an ask, and ask it again.
    pub(crate) fn take_back(self, ask: &Ask) {
        let Some(now) = self.now_once() else { return };
        if self.take_back_questions(&ask.to_take_back(&now.view())) {
            self.end_input();
            self.go(Screen::Visit(Some(ask.name())));
        }
    }

    /// Take back this person's answers to some questions without leaving the screen.
    pub(crate) fn take_back_questions(self, questions: &[(&'static str, Site)]) -> bool {
        let Some(now) = self.now_once() else { return false };
        let body = self.with(|session| session.take_back(&now, questions, &Phone.when())).flatten();
        body.is_some_and(|body| self.write(vec![body], self.say("saved.taken_back")))
    }

    /// What a sweep said of its signs is taken back before it is answered in another way: they are asked again.
    pub(crate) fn undo_sweep(self, ask: &Ask) {
        let Some(now) = self.now_once() else { return };
        let is_sweep = matches!(ask, Ask::Step { step, .. } if matches!(step.input, Input::Sweep { .. }));
        if is_sweep && ask.is_answered(&now.view()) {
            self.take_back_questions(&ask.to_take_back(&now.view()));
        }
    }

    /// Leave at once: the reason, and `not looked` for the rest.
    pub(crate) fn leave_now(self, reason: &str, why: &Why) {
        self.give_back();
        let Some(now) = self.now_once() else { return };
        let drafts = Session::leave_now(&now, reason, why);
        if self.write_drafts(&drafts, self.say("saved.leaving")) {
            self.go(Screen::Visit(None));
        }
    }

    /// Close the examination in hand.
    pub(crate) fn close(self) {
        self.give_back();
        let Some(now) = self.now_once() else { return };
        if self.write_drafts(&[Session::close(&now)], self.say("saved.closed"))
            && let Some(id) = now.here.examination
        {
            self.go(Screen::Readings(id));
        }
    }

    /// Begin something: an outing, another carcass, another look.
    pub(crate) fn begin(self, act: impl FnOnce(&mut Session) -> Result<Vec<Body>, crate::record::Flaw>) {
        let before = self.with(|session| session.here.clone());
        let mut bodies = Ok(Vec::new());
        self.session.try_update_value(|session| bodies = act(session));
        let done = match bodies {
            Ok(bodies) => self.write(bodies, self.say("saved.begun")),
            Err(flaw) => {
                let text = wording::flaw(self.language(), self.shown(), &flaw);
                self.notice.try_update(|n| *n = Some(text));
                false
            }
        };
        if done {
            self.ask_to_persist();
            self.go(Screen::Visit(None));
        } else if let Some(before) = before {
            self.set_here(before);
        }
    }

    /// Go back to an examination that was begun before.
    pub(crate) fn take_up(self, examination: Uuid, screen: Screen) {
        self.session.try_update_value(|session| session.take_up(examination));
        self.tick();
        self.go(screen);
    }

    /// Take up a report, or lay the one in hand aside. An examination in hand is laid aside with it: it stays
    /// on the first screen.
    pub(crate) fn take_up_report(self, report: Option<Uuid>, screen: Screen) {
        self.session.try_update_value(|session| session.take_up_report(report));
        self.tick();
        self.go(screen);
    }

    /// Begin to type in a sheet of paper.
    pub(crate) fn take_up_paper(self) {
        self.session.try_update_value(Session::take_up_paper);
        self.tick();
        self.go(Screen::Who);
    }

    /// Set what is in hand.
    pub(crate) fn set_here(self, here: Here) {
        self.session.try_update_value(|session| session.here = here);
        self.tick();
    }

    /// Change the settings, and keep them.
    pub(crate) fn set_settings(self, flip: impl FnOnce(&mut Settings)) {
        self.settings.try_update(flip);
        if let Some(settings) = self.settings.try_get_untracked() {
            super::languages::note("light", if settings.dusk { "dusk" } else { "day" });
            self.desk.try_with_value(|desk| desk.put_settings(settings));
        }
    }

    /// What was half given on this question when the page went.
    pub(super) fn half_held(self, of: &str) -> Option<String> {
        self.half.try_get_value().filter(|(whose, _)| whose == of).map(|(_, typed)| typed)
    }

    /// What the store proper held when the page was opened.
    pub(super) fn hold_half(self, half: (String, String)) {
        self.half.try_set_value(half);
    }

    /// Keep what is half given, in the store proper.
    pub(super) fn keep_half(self, of: String, typed: String) {
        self.half.try_set_value((of.clone(), typed.clone()));
        self.desk.try_with_value(|desk| desk.put_half((of, typed)));
    }

    /// Who holds the phone from now on. A second person's look is over with it.
    pub(crate) fn set_person(self, code: PersonCode) {
        self.hold(code, None);
    }

    /// Whom the phone goes back to, while a second person looks at what is in hand without knowing what was said.
    pub(crate) fn second_look(self) -> Option<PersonCode> {
        let exam = self.now_once()?.here.looked_at_again()?;
        let kept = self.settings.with_untracked(|s| s.second_look.clone());
        kept.filter(|(_, of)| *of == exam).map(|(first, _)| first)
    }

    /// The phone goes back to the first: what leaving or closing writes rests on everything that was said.
    fn give_back(self) -> bool {
        let first = self.second_look();
        if let Some(first) = first.clone() {
            self.set_person(first);
        }
        first.is_some()
    }

    /// A second person takes the phone, and nothing of what others called is shown until it goes back.
    pub(crate) fn look_second(self, code: PersonCode) {
        let Some(now) = self.now_once() else { return };
        self.end_input();
        self.hush();
        // The line of what was saved last would tell.
        self.saves.try_update(|s| s.what.clear());
        self.hold(code, now.here.examination.map(|exam| (now.here.person.clone(), exam)));
        self.redraw();
    }

    /// The phone goes back to the first person; both see both answers.
    pub(crate) fn end_second_look(self) {
        if self.give_back() {
            // From the list after an answer as from the list opened by hand.
            self.go(Screen::Pair);
            self.redraw();
        }
    }

    fn hold(self, code: PersonCode, second_look: Option<(PersonCode, Uuid)>) {
        self.session.try_update_value(|session| {
            session.here.second_look = second_look.as_ref().map(|(_, exam)| *exam);
            session.is_held_by(code.clone());
        });
        self.set_settings(|s| (s.person, s.second_look) = (Some(code), second_look));
        self.tick();
    }

    /// Hold a card from now on; its signer is our office.
    pub(crate) fn hold_card(self, card: ReceivedCard) {
        self.set_settings(|s| {
            s.office = Some(card.signer);
            s.card = Some(card.text.clone());
        });
        self.session.try_update_value(|session| session.card = Some(card.held));
        self.tick();
        self.end_input();
        self.go(Screen::Start);
    }

    /// Put bodies into the queue, with all that follows from them. The tick waits for the disk.
    pub(crate) fn write(self, bodies: Vec<Body>, what: String) -> bool {
        self.write_then(bodies, what, || {})
    }

    /// The same; `then` is called once all of it is on disk, and not where it could not be saved.
    pub(crate) fn write_then(self, bodies: Vec<Body>, what: String, then: impl FnOnce() + 'static) -> bool {
        let mut saving = Vec::new();
        if let Err(reason) = self.append(bodies, &mut saving) {
            let text = self.say_with("notice.not_written", &[("reason", Arg::Text(reason))]);
            self.notice.try_set(Some(text));
            return false;
        }
        // An answer may settle others, and those yet others; the tables make no rings, and if they
        // did, a few rounds are enough to stop.
        for _ in 0..6 {
            self.tick();
            let Some(now) = self.now_once() else { break };
            let more = self.with(|session| session.settle(&now, &Phone.when())).unwrap_or_default();
            if more.is_empty() || self.append(more, &mut saving).is_err() {
                break;
            }
        }
        self.await_tick(what, saving, Box::new(then));
        true
    }

    fn append(self, bodies: Vec<Body>, saving: &mut Vec<Saving>) -> Result<(), String> {
        let taken = self.desk.try_with_value(|desk| desk.append(bodies)).unwrap_or_else(|| Err(String::new()))?;
        saving.extend(taken.saving);
        self.session.try_update_value(|session| session.take(taken.entries));
        Ok(())
    }

    fn await_tick(self, what: String, saving: Vec<Saving>, then: Box<dyn FnOnce()>) {
        self.saves.try_update(|s| {
            (s.what, s.screens_since) = (what, 0);
            s.writing += 1;
        });
        leptos::task::spawn_local(async move {
            let mut failed = None;
            for one in saving {
                failed = one.await.err().or(failed);
            }
            if failed.is_none() {
                then();
                // Felt where the eye is on the deer. A phone without it loses nothing.
                let _ = super::platform::haptic::tick();
            }
            self.saves.try_update(|s| {
                s.writing = s.writing.saturating_sub(1);
                s.failed = failed.map(|unsaved| (reasons::store(self.language(), &unsaved.reason), unsaved.promise));
            });
        });
    }
}
