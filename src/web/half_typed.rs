//! What has been typed and not yet saved, kept at once in the browser's small store: a page that goes
//! away with half a sentence in it comes back with that half. It is no answer and leaves the phone by
//! no bundle.

/// The name under which both stores hold it.
pub(crate) const NAME: &str = "half-typed";
/// The exposure note: a question answered in between must not push half a note out.
pub(crate) const NOTE: &str = "exposure";

#[cfg(target_arch = "wasm32")]
mod store {
    use crate::keep::Quick as _;
    use crate::keep::browser_quick::LocalQuick;

    use super::{NAME, NOTE};

    /// Whose place it has: one for all questions, of which one at a time is open, and one for the note.
    fn slot(of: &str) -> String {
        if of == NOTE { format!("{NAME}.{NOTE}") } else { NAME.to_owned() }
    }

    fn quick() -> LocalQuick {
        LocalQuick::new("marrowbook.")
    }

    pub(crate) fn keep(of: &str, typed: &str) {
        // Where the small store is shut the page itself still holds it.
        let slot = slot(of);
        let _ = if typed.is_empty() { quick().drop(&slot) } else { quick().put(&slot, &format!("{of}\n{typed}")) };
    }

    pub(crate) fn find(of: &str) -> Option<String> {
        let text = quick().get(&slot(of)).ok().flatten()?;
        let (whose, typed) = text.split_once('\n')?;
        (whose == of).then(|| typed.to_owned())
    }
}

#[cfg(not(target_arch = "wasm32"))]
mod store {
    pub(crate) fn keep(_of: &str, _typed: &str) {}

    pub(crate) fn find(_of: &str) -> Option<String> {
        None
    }
}

pub(crate) use store::{find, keep};
