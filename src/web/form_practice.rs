//! Practice on this phone: a setting of its own beside the journal, never in it.

use leptos::prelude::*;

use super::edge::Phone;
use super::form::Form;
use super::session::Source;
use crate::guide::practice::Practice;
use crate::record::Digest;
use crate::science::age::ClassCall;
use crate::words::Arg;

/// The name under which it is kept.
const NAME: &str = "practice";

impl Form {
    /// Whose practice it is: the code of whoever holds the phone, empty where nobody is named.
    pub(crate) fn practice_reader(self) -> String {
        self.settings.with_untracked(|s| s.person.as_ref().map(|p| p.as_str().to_owned())).unwrap_or_default()
    }

    /// Take up earlier practice, once. What cannot be read is set aside under a name of its own.
    pub(crate) fn load_practice(self) {
        if self.practice.with_untracked(Option::is_some) || !self.ready.get_untracked() {
            return;
        }
        let Some(read) = self.desk.try_with_value(|desk| desk.text(NAME)) else { return };
        leptos::task::spawn_local(async move {
            let stored = read.await;
            let practice = match stored.as_deref().map(Practice::from_stored) {
                Some(Ok(practice)) => practice,
                Some(Err(reason)) => {
                    self.set_aside(stored.unwrap_or_default());
                    self.tell(self.say_with("practice.set_aside", &[("reason", Arg::Text(reason.to_string()))]));
                    Practice::new(seed())
                }
                None => Practice::new(seed()),
            };
            if self.read_only().is_some() {
                self.tell(self.say("practice.not_kept"));
            }
            self.keep_practice(&practice);
            self.practice.try_set(Some(practice));
        });
    }

    fn set_aside(self, text: String) {
        let digest = Digest::of(&[text.as_bytes()]).to_string();
        let name = format!("{NAME}.set_aside.{digest}");
        self.desk.try_with_value(|desk| desk.put_text(name, text));
    }

    /// Change the practice of whoever holds the phone, and keep it.
    pub(crate) fn practise(self, change: impl FnOnce(&mut Practice, &str)) {
        let reader = self.practice_reader();
        self.practice.try_update(|held| {
            if let Some(practice) = held {
                change(practice, &reader);
                self.keep_practice(practice);
            }
        });
        self.bounce_from_now();
    }

    /// A class called on the jaw in hand; the page begins anew with what is said to it.
    pub(crate) fn call_age(self, call: ClassCall) {
        self.practise(|practice, reader| practice.called(reader, call));
        self.go(super::screen::Screen::Practice);
    }

    /// Another jaw.
    pub(crate) fn next_jaw(self) {
        self.practise(|practice, _| practice.next(seed()));
        self.go(super::screen::Screen::Practice);
    }

    fn keep_practice(self, practice: &Practice) {
        if self.read_only().is_none() {
            self.desk.try_with_value(|desk| desk.put_text(NAME.to_owned(), practice.to_stored()));
        }
    }
}

fn seed() -> u32 {
    u32::from_le_bytes(Phone.random())
}
