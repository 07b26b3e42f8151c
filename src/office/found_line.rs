//! When and where a carcass was found, in one line: by this people look for it in a list.

use crate::guide::answer_words;
use crate::reading::found_on;
use crate::record::{Answer, Carcass, Site, Value};
use crate::words::{Language, say_office};

/// The day on which it was found and its place, in degrees or in the crew's words; empty where neither is there.
pub fn found_line(carcass: &Carcass) -> String {
    let day = found_on(carcass).map(|day| day.to_string());
    let said = |finding: &str| {
        let standing = carcass.question(finding, Site::NONE).standing;
        standing.iter().find_map(|one| match &one.answer {
            Answer::Seen { value: Value::Place(at) } => Some(answer_words::place(at)),
            Answer::Seen { value: Value::Text(words) } => Some(words.clone()),
            _ => None,
        })
    };
    let place = said("place").or_else(|| said("place_words"));
    let (id, args) = match (day, place) {
        (Some(day), Some(place)) => ("desk.found_at", vec![("day", day.into()), ("place", place.into())]),
        (Some(day), None) => ("desk.found_on", vec![("day", day.into())]),
        (None, Some(place)) => ("desk.found_place", vec![("place", place.into())]),
        (None, None) => return String::new(),
    };
    say_office(Language::English, id, &args)
}
