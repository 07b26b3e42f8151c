//! Word between the tabs of one browser. It lives in `keep`, which tells of entries added.

pub use crate::keep::browser_channel::Channel;
