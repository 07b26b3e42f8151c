//! Other phones' bundles on this phone: found again after a restart, added, dropped once they have arrived.

use leptos::prelude::*;

use crate::keep::received::{Added, NAME, Received};
use crate::record::Digest;
use crate::words::Arg;

use super::form::Form;
use super::form_photo::NotKept;
use super::session::{Envelope, read_envelope};

impl Form {
    /// Find what was taken before, once. What cannot be read is put aside under a name of its own.
    pub(crate) fn load_received(self) {
        if self.received.with_untracked(Option::is_some) || !self.ready.get_untracked() {
            return;
        }
        let Some(read) = self.desk.try_with_value(|desk| desk.text(NAME)) else { return };
        leptos::task::spawn_local(async move {
            let held = match read.await {
                None => Received::default(),
                Some(text) => serde_json::from_str(&text).unwrap_or_else(|_| {
                    let name = format!("{NAME}.unread.{}", Digest::of(&[text.as_bytes()]));
                    self.tell(self.say_with("frames.aside", &[("name", Arg::Text(name.clone()))]));
                    self.desk.try_with_value(|desk| desk.put_text(name, text));
                    Received::default()
                }),
            };
            self.received.try_update(|now| {
                now.get_or_insert(held);
            });
        });
    }

    /// Keep another phone's bundle as it is; `then` is told in words how that went, once it is known.
    pub(crate) fn keep_received(self, envelope: &Envelope, text: &str, then: impl FnOnce(String) + 'static) {
        if self.read_only().is_some() {
            return then(self.say("frames.only_shows"));
        }
        if self.with(|s| s.device) == Some(envelope.signer) {
            return then(self.say("frames.own"));
        }
        let mut held = self.received.try_get_untracked().flatten().unwrap_or_default();
        let same = |other: &Envelope| other.signer == envelope.signer && other.head == envelope.head;
        if held.all().iter().any(|text| read_envelope(text).is_ok_and(|other| same(&other))) {
            return then(self.say("frames.known"));
        }
        match held.add(text) {
            Added::Known => then(self.say("frames.known")),
            Added::Full => then(self.say("frames.full")),
            Added::New => self.put_received(held, "frames.came", then),
        }
    }

    /// Drop one that has arrived.
    pub(crate) fn drop_received(self, text: &str) {
        let mut held = self.received.try_get_untracked().flatten().unwrap_or_default();
        held.drop_one(text);
        self.put_received(held, "frames.deleted", move |told| self.tell(told));
    }

    /// On disk first, on the screen after.
    fn put_received(self, held: Received, done: &'static str, then: impl FnOnce(String) + 'static) {
        let text = serde_json::to_string(&held).unwrap_or_default();
        let Some(put) = self.desk.try_with_value(|desk| desk.keep_text(NAME, text)) else { return };
        leptos::task::spawn_local(async move {
            let told = match put.await {
                Ok(()) => {
                    self.received.try_set(Some(held));
                    self.say(done)
                }
                Err(NotKept::Full) => self.say("frames.full"),
                Err(NotKept::Other(reason)) => self.say_with("frames.not_kept", &[("reason", Arg::Text(reason))]),
            };
            then(told);
        });
    }
}
