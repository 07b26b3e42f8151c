//! Other phones' signed bundles that this phone carries to the office: verbatim, few, bounded, apart from its own
//! journal.

use serde::{Deserialize, Serialize};

/// The name under which they are kept.
pub const NAME: &str = "received";
/// Bundles carried at a time: with this phone's own and a photo they still go in one share sheet.
pub const MOST: usize = 8;
/// Bytes of all of them together. They lie in one row of the store, written whole or not at all.
pub const MOST_BYTES: usize = 4_000_000;

/// The bundles, each as it was signed, the first taken first.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub struct Received(Vec<String>);

/// What became of one more.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Added {
    /// It stands at the end.
    New,
    /// The very same text is here: nothing changed.
    Known,
    /// There is no room: nothing changed.
    Full,
}

impl Received {
    /// These, in this order.
    pub fn of(all: impl Iterator<Item = String>) -> Self {
        Self(all.collect())
    }

    /// All of them.
    pub fn all(&self) -> &[String] {
        &self.0
    }

    /// Take one more.
    pub fn add(&mut self, text: &str) -> Added {
        if self.0.iter().any(|held| held == text) {
            return Added::Known;
        }
        let bytes: usize = self.0.iter().map(String::len).sum();
        if self.0.len() >= MOST || bytes + text.len() > MOST_BYTES {
            return Added::Full;
        }
        self.0.push(text.to_owned());
        Added::New
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn kept_as_they_came_and_bounded() {
        let mut held = Received::default();
        for n in 0..MOST {
            assert_eq!(held.add(&format!("bundle {n}")), Added::New);
        }
        assert_eq!(held.add("bundle 3"), Added::Known);
        assert_eq!(held.add("one more"), Added::Full);
        let mut held = Received::of(held.all().iter().filter(|one| *one != "bundle 3").cloned());
        assert_eq!(held.add(&"x".repeat(MOST_BYTES)), Added::Full);
        assert_eq!(held.add("one more"), Added::New);
        let text = serde_json::to_string(&held).unwrap();
        assert_eq!(serde_json::from_str::<Received>(&text).unwrap(), held);
        assert_eq!(held.all().len(), MOST);
        assert_eq!(held.all()[3], "bundle 4");
    }
}
