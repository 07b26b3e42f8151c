//! What the form asks of the phone while a visit lasts: position, and a screen that stays on.

use leptos::prelude::*;

use super::form::Form;
use super::platform::position::NoFix;
use super::platform::{position, storage, wake_lock};

/// A position older than this gives way to a newer one, however exact it was.
const STALE_MS: u64 = 60_000;

impl Form {
    /// Begin to look for the position. The first one may take minutes under an open sky, so it begins
    /// long before it is asked for.
    pub(crate) fn start_position(self) {
        if self.watch.try_with_value(Option::is_some) != Some(false) {
            return;
        }
        let heard = position::watch(move |found| match found {
            Ok(fix) => {
                self.position.try_update(|held| {
                    let keep = matches!(held, Some(Ok(old)) if fix.unix_ms < old.unix_ms.saturating_add(STALE_MS)
                        && old.place.accuracy_m_95.is_some_and(|m| fix.place.accuracy_m_95.is_none_or(|n| n > m)));
                    if !keep {
                        *held = Some(Ok(fix));
                    }
                });
            }
            Err(reason) => {
                self.position.try_update(|held| {
                    if !matches!(held, Some(Ok(_))) {
                        *held = Some(Err(reason));
                    }
                });
            }
        });
        match heard {
            Ok(watch) => {
                self.watch.try_set_value(Some(watch));
            }
            Err(reason) => {
                self.position.try_set(Some(Err(NoFix::Platform(reason))));
            }
        }
    }

    /// Look for it no longer. What was found is forgotten: at the next carcass it would be the place of this one.
    pub(crate) fn end_position(self) {
        if self.watch.try_with_value(Option::is_some) == Some(true) {
            self.watch.try_set_value(None);
            self.position.try_set(None);
        }
    }

    /// Keep the screen on during a visit, where the phone can.
    pub(crate) fn stay_awake(self) {
        if self.awake_asked.try_get_value() != Some(false) {
            return;
        }
        self.awake_asked.try_set_value(true);
        leptos::task::spawn_local(async move {
            match wake_lock::keep_awake().await {
                Ok(awake) => {
                    self.awake.try_set_value(Some(awake));
                }
                // Asked again at the next question: the battery may have been low.
                Err(_) => {
                    self.awake_asked.try_set_value(false);
                }
            }
        });
    }

    /// Let the screen go dark again.
    pub(crate) fn let_sleep(self) {
        self.awake.try_set_value(None);
        self.awake_asked.try_set_value(false);
    }

    /// Ask the browser to keep the records when the phone runs short, and note what it says.
    pub(crate) fn ask_to_persist(self) {
        leptos::task::spawn_local(async move {
            self.persisted.try_set(Some(storage::persist().await.unwrap_or_default()));
        });
    }

    /// What the browser has promised already.
    pub(crate) fn look_if_persisted(self) {
        leptos::task::spawn_local(async move {
            // A browser that has nothing to say of it has promised nothing.
            self.persisted.try_set(Some(storage::persisted().await.unwrap_or_default()));
        });
    }
}
