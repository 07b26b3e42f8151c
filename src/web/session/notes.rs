//! What the record already settles: written without asking.

use crate::record::Body;

use super::{Now, Session, When};

impl Session {
    /// Bodies that follow from what stands; empty once all is settled.
    ///
    /// A note that cannot be written is left out: it must never stand in the way of an answer.
    pub(crate) fn settle(&self, now: &Now, when: &When) -> Vec<Body> {
        // What is only hidden from a second person is not open.
        if now.here.looked_at_again().is_some() {
            return Vec::new();
        }
        let noted = |d| self.answer(&now.fold, std::slice::from_ref(d), when).ok();
        now.situation.to_write.iter().filter_map(noted).flatten().collect()
    }
}
