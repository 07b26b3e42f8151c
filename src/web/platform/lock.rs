//! The lock among the tabs of one browser. It lives in `keep`, whose queue must not be without it.

pub use crate::keep::browser_lock::{Lock, NoLock, take, wait};
