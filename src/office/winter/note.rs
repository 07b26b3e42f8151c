//! What is said about a line of a log, or about the whole file.

use crate::words::{Arg, Language, say_office};

/// One thing said.
#[derive(Clone, Debug, PartialEq)]
pub struct Note {
    /// The line of the file, from 1; absent where it is about the whole file.
    pub line: Option<u64>,
    /// Message id.
    pub id: &'static str,
    /// Values for the message.
    pub args: Vec<(&'static str, Arg)>,
    /// Whether something on that line was not used.
    pub lost: bool,
}

impl Note {
    /// Something on a line that could not be used.
    pub fn lost(line: u64, id: &'static str, args: Vec<(&'static str, Arg)>) -> Self {
        Self { line: Some(line), id, args, lost: true }
    }

    /// Something to look at; nothing was dropped.
    pub fn look(line: Option<u64>, id: &'static str, args: Vec<(&'static str, Arg)>) -> Self {
        Self { line, id, args, lost: false }
    }

    /// In words: `line 12: ...`.
    pub fn say(&self, language: Language) -> String {
        let text = say_office(language, self.id, &self.args);
        match self.line {
            Some(line) => say_office(
                language,
                "winter.on_line",
                &[("line", Arg::Text(line.to_string())), ("what", Arg::Text(text))],
            ),
            None => text,
        }
    }
}
