//! Other phones' bundles on this phone: found again after a restart, added, dropped once they have arrived.

use leptos::prelude::*;

use crate::keep::received::{Added, NAME, Received};
use crate::record::Digest;
use crate::words::Arg;

use super::form::Form;
use super::form_photo::NotKept;
use super::session::{Envelope, read_envelope};

impl Form {
    /// Find what was taken before, once the store is open. Call it where `ready` is followed.
    pub(crate) fn load_received(self) {
        if self.ready.get() && self.received.with_untracked(Option::is_none) {
            leptos::task::spawn_local(async move {
                if let Err(why) = self.received_now().await {
                    self.tell(why);
                }
            });
        }
    }

    /// What was taken before. What cannot be read is put aside under a name of its own; where the store itself does not
    /// answer nothing may be added, for it would take the place of what is there.
    async fn received_now(self) -> Result<Received, String> {
        if let Some(held) = self.received.try_get_untracked().flatten() {
            return Ok(held);
        }
        let not_kept = |reason: String| self.say_with("frames.not_kept", &[("reason", Arg::Text(reason))]);
        let read = self.desk.try_with_value(|desk| desk.text(NAME));
        let Some(read) = read.filter(|_| self.ready.get_untracked()) else {
            return Err(not_kept(self.say("frames.loading")));
        };
        let held = match read.await {
            Err(NotKept::Other(reason)) => return Err(not_kept(reason)),
            Err(NotKept::Full) => return Err(self.say("frames.full")),
            Ok(None) => Received::default(),
            Ok(Some(text)) => serde_json::from_str(&text).unwrap_or_else(|_| {
                let name = format!("{NAME}.unread.{}", Digest::of(&[text.as_bytes()]));
                self.tell(self.say_with("frames.aside", &[("name", Arg::Text(name.clone()))]));
                self.desk.try_with_value(|desk| desk.put_text(name, text));
                Received::default()
            }),
        };
        self.received.try_update(|now| {
            now.get_or_insert(held);
        });
        Ok(self.received.try_get_untracked().flatten().unwrap_or_default())
    }

    /// Keep another phone's bundle as it is; `then` is told in words how that went, once it is known.
    pub(crate) fn keep_received(self, envelope: Envelope, text: String, then: impl FnOnce(String) + 'static) {
        if self.read_only().is_some() {
            return then(self.say("frames.only_shows"));
        }
        if self.with(|s| s.device) == Some(envelope.signer) {
            return then(self.say("frames.own"));
        }
        leptos::task::spawn_local(async move {
            let mut held = match self.received_now().await {
                Ok(held) => held,
                Err(why) => return then(why),
            };
            let same = |other: &Envelope| other.signer == envelope.signer && other.head == envelope.head;
            if held.all().iter().any(|text| read_envelope(text).is_ok_and(|other| same(&other))) {
                return then(self.say("frames.known"));
            }
            match held.add(&text) {
                Added::Known => then(self.say("frames.known")),
                Added::Full => then(self.say("frames.full")),
                Added::New => self.put_received(held, "frames.came", then),
            }
        });
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
