//! What has been typed and not yet saved, kept at once in the browser's small store: a page that goes
//! away with half a sentence in it comes back with that half. It is no answer and leaves the phone by
//! no bundle.

/// The name under which both stores hold it.
pub(crate) const NAME: &str = "half-typed";

#[cfg(target_arch = "wasm32")]
mod store {
    use crate::keep::Quick as _;
    use crate::keep::browser_quick::LocalQuick;

    use super::NAME;

    fn quick() -> LocalQuick {
        LocalQuick::new("marrowbook.")
    }

    pub(crate) fn keep(of: &str, typed: &str) {
        // Where the small store is shut the page itself still holds it.
        let _ = if typed.is_empty() { quick().drop(NAME) } else { quick().put(NAME, &format!("{of}\n{typed}")) };
    }

    pub(crate) fn find(of: &str) -> Option<String> {
        let text = quick().get(NAME).ok().flatten()?;
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
