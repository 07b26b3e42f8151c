//! What the browser's errors mean here.

use wasm_bindgen::{JsCast, JsValue};

use super::{QuickError, StoreError};

/// An error's name (such as `QuotaExceededError`) and its message.
pub fn name_and_message(error: &JsValue) -> (String, String) {
    if let Some(fault) = error.dyn_ref::<web_sys::DomException>() {
        return (fault.name(), fault.message());
    }
    if let Some(fault) = error.dyn_ref::<js_sys::Error>() {
        return (fault.name().into(), fault.message().into());
    }
    (String::new(), error.as_string().unwrap_or_else(|| "no reason given".to_owned()))
}

/// An error of the record store. Names as in the standard Indexed Database API 3.0; the names for a
/// lost connection besides `AbortError` are what engines throw in practice (from memory).
pub(super) fn store_error(error: &JsValue) -> StoreError {
    let (name, message) = name_and_message(error);
    let told = if name.is_empty() { message } else { format!("{name}: {message}") };
    match name.as_str() {
        "QuotaExceededError" => StoreError::Full,
        "ConstraintError" => StoreError::Taken,
        "AbortError" | "InvalidStateError" | "TransactionInactiveError" | "UnknownError" => StoreError::Lost(told),
        "NotAllowedError" | "NotSupportedError" | "SecurityError" | "VersionError" => StoreError::Refused(told),
        _ => StoreError::Failed(told),
    }
}

/// An error of crate `idb`, which wraps the browser's.
pub(super) fn idb_error(error: idb::Error) -> StoreError {
    use idb::Error as E;
    match error {
        E::DomException(fault) => store_error(&fault),
        E::IndexedDbNotFound(_) => StoreError::Refused("this browser has no record store".to_owned()),
        E::AddFailed(fault)
        | E::DeleteFailed(fault)
        | E::GetAllFailed(fault)
        | E::GetAllKeysFailed(fault)
        | E::GetFailed(fault)
        | E::IndexedDbOpenFailed(fault)
        | E::ObjectStoreNotFound(fault)
        | E::RequestErrorNotFound(fault)
        | E::RequestResultNotFound(fault)
        | E::TransactionOpenFailed(fault)
        | E::UpdateFailed(fault) => store_error(&fault),
        other => StoreError::Failed(other.to_string()),
    }
}

/// An error of the small store.
pub(super) fn quick_error(error: &JsValue) -> QuickError {
    let (name, message) = name_and_message(error);
    quick_error_named(&name, &message)
}

/// The same from name and message.
pub(super) fn quick_error_named(name: &str, message: &str) -> QuickError {
    // The second name is that of older Firefox (from memory).
    match name {
        "QuotaExceededError" | "NS_ERROR_DOM_QUOTA_REACHED" => QuickError::Full,
        _ => QuickError::Refused(format!("{name}: {message}")),
    }
}
