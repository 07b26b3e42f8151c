//! Other phones' bundles on this phone: found again after a restart, added, dropped once they have arrived.

use leptos::prelude::*;

use crate::keep::received::{Added, Received};
use crate::words::Arg;

use super::desk::Desk;
use super::form::Form;
use super::form_photo::NotKept;
use super::session::{Carried, Envelope};

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

    /// What was taken before. Where the store does not answer nothing may be added or dropped, for it would take the
    /// place of what is there.
    async fn received_now(self) -> Result<Vec<Carried>, String> {
        if let Some(held) = self.received.try_get_untracked().flatten() {
            return Ok(held);
        }
        let read = self.desk.try_with_value(Desk::received);
        let Some(read) = read.filter(|_| self.ready.get_untracked()) else {
            return Err(self.not_kept(self.say("frames.loading")));
        };
        let found = match read.await {
            Ok(found) => found,
            Err(why) => return Err(self.why_not_kept(why)),
        };
        if let Some(name) = found.set_aside {
            self.tell(self.say_with("frames.aside", &[("name", Arg::Text(name))]));
        }
        let held = found.value.unwrap_or_default();
        self.received.try_update(|now| {
            now.get_or_insert_with(|| held.all().iter().map(|text| Carried::read(text)).collect());
        });
        Ok(self.received.try_get_untracked().flatten().unwrap_or_default())
    }

    fn not_kept(self, reason: String) -> String {
        self.say_with("frames.not_kept", &[("reason", Arg::Text(reason))])
    }

    fn why_not_kept(self, why: NotKept) -> String {
        match why {
            NotKept::Full => self.say("frames.full"),
            NotKept::Other(reason) => self.not_kept(reason),
        }
    }

    /// Keep another phone's bundle as it is; `then` is told in words how that went, once it is known: `Err` where it
    /// is not on this phone.
    pub(crate) fn keep_received(
        self,
        envelope: Envelope,
        text: String,
        then: impl FnOnce(Result<String, String>) + 'static,
    ) {
        if self.with(|s| s.device) == Some(envelope.signer) {
            return then(Ok(self.say("frames.own")));
        }
        self.change_received("frames.came", then, move |held| {
            let same = |other: &Carried| {
                other.read.as_ref().is_ok_and(|read| read.signer == envelope.signer && read.head == envelope.head)
            };
            if held.iter().any(same) {
                return Added::Known;
            }
            let mut all = Received::of(held.iter().map(|one| one.text.clone()));
            let added = all.add(&text);
            if added == Added::New {
                held.push(Carried { read: Ok(envelope), text });
            }
            added
        });
    }

    /// Drop one that has arrived.
    pub(crate) fn drop_received(self, text: String) {
        let told = move |told: Result<String, String>| self.tell(told.unwrap_or_else(|why| why));
        self.change_received("frames.deleted", told, move |held| {
            held.retain(|one| one.text != text);
            Added::New
        });
    }

    /// Change what is carried: on disk first, on the screen after.
    fn change_received(
        self,
        done: &'static str,
        then: impl FnOnce(Result<String, String>) + 'static,
        change: impl FnOnce(&mut Vec<Carried>) -> Added + 'static,
    ) {
        if self.read_only().is_some() {
            return then(Err(self.say("frames.only_shows")));
        }
        leptos::task::spawn_local(async move {
            let mut held = match self.received_now().await {
                Ok(held) => held,
                Err(why) => return then(Err(why)),
            };
            match change(&mut held) {
                Added::Known => return then(Ok(self.say("frames.known"))),
                Added::Full => return then(Err(self.say("frames.full"))),
                Added::New => {}
            }
            let texts = Received::of(held.iter().map(|one| one.text.clone()));
            let Some(put) = self.desk.try_with_value(|desk| desk.keep_received(texts)) else { return };
            then(match put.await {
                Ok(()) => {
                    self.received.try_set(Some(held));
                    Ok(self.say(done))
                }
                Err(why) => Err(self.why_not_kept(why)),
            });
        });
    }
}
