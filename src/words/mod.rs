//! Every string that a person reads, by message id; one catalogue a language.
//!
//! A message may hold `{name}` (put in as given) and `{name?one|many}` (the form that the number
//! `name` asks for in this language). Ids are dotted: `step.snow_depth.ask`.

#[cfg(not(target_arch = "wasm32"))]
mod checked;
mod en;
mod form;
mod joined;
mod language;
mod loaded;

#[cfg(not(target_arch = "wasm32"))]
mod translated;
#[cfg(test)]
mod translated_tests;

use std::sync::OnceLock;

pub use form::{Arg, fill};
pub use language::Language;
pub use loaded::{NotTaken, is_at_hand, take};
#[cfg(not(target_arch = "wasm32"))]
pub use translated::{carried, part_texts};

/// The text of a message, unfilled; `None` where the catalogue has no such id. English where the language's texts are
/// not at hand.
pub fn raw(language: Language, id: &str) -> Option<&'static str> {
    static ENGLISH: OnceLock<loaded::Texts> = OnceLock::new();
    let catalogue = loaded::texts(language).unwrap_or_else(|| ENGLISH.get_or_init(|| joined::sorted(en::JOINED)));
    let at = catalogue.binary_search_by(|(known, _)| (*known).cmp(id)).ok()?;
    catalogue.get(at).map(|(_, text)| *text)
}

/// The text of a message with its values put in. An id without a text shows as itself, so that a
/// gap is seen rather than an empty line; tests see to it that none is left.
pub fn say(language: Language, id: &str, args: &[(&str, Arg)]) -> String {
    raw(language, id).map_or_else(|| id.to_owned(), |text| fill(language, text, args))
}

/// The text of a message that only the office shows, with its values put in. Kept apart, so that a
/// phone does not carry it; what is not there is looked for in the common catalogue.
/// English stands in where a language has none.
pub fn say_office(language: Language, id: &str, args: &[(&str, Arg)]) -> String {
    let own = en::OFFICE.iter().flat_map(|part| part.iter()).find(|(own, _)| *own == id);
    own.map_or_else(|| say(language, id, args), |(_, text)| fill(language, text, args))
}

/// Whether the office's own catalogue has a text.
pub fn office_has(id: &str) -> bool {
    office_ids().any(|own| own == id)
}

/// All ids of the office's own catalogue.
pub fn office_ids() -> impl Iterator<Item = &'static str> {
    en::OFFICE.iter().flat_map(|part| part.iter().map(|(id, _)| *id))
}

/// All ids of the catalogue, for tests that compare it with the tables.
pub fn ids() -> impl Iterator<Item = &'static str> {
    en::CATALOGUE.iter().flat_map(|part| part.iter().map(|(id, _)| *id))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn no_id_stands_twice() {
        let mut seen = std::collections::BTreeSet::new();
        for id in ids().chain(office_ids()) {
            assert!(seen.insert(id), "{id} stands twice");
        }
    }
}
