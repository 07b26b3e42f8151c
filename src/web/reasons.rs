//! Why something was refused, in the language of the screens.

use crate::keep::StoreError;
use crate::words::{Language, say};

/// What went wrong with the store proper; the browser's own words stand behind it.
pub(crate) fn store(language: Language, error: &StoreError) -> String {
    let (id, detail) = match error {
        StoreError::Refused(detail) => ("reason.store_refused", detail.as_str()),
        StoreError::Full => ("reason.store_full", ""),
        StoreError::Lost(detail) => ("reason.store_lost", detail.as_str()),
        StoreError::Taken => ("reason.store_taken", ""),
        StoreError::Failed(detail) => ("reason.store_failed", detail.as_str()),
    };
    let said = say(language, id, &[]);
    if detail.is_empty() { said } else { language.named(&said, detail) }
}

/// Why this page may not write.
#[cfg(target_arch = "wasm32")]
pub(crate) fn read_only(language: Language, why: &crate::keep::browser::ReadOnly) -> String {
    use crate::keep::browser::{NoLock, ReadOnly};
    let id = match why {
        ReadOnly::NoLock(NoLock::Elsewhere) => "reason.elsewhere",
        ReadOnly::NoLock(NoLock::Unavailable(_)) => "reason.no_lock",
        other => return other.to_string(),
    };
    say(language, id, &[])
}
