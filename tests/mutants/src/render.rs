//! The text with its switches.

use crate::Placed;
use std::ops::Range;

/// One change of the text. Ranges lie within each other or apart: they are those of a parsed tree.
pub enum Edit {
    /// An expression, and for each mutant what stands in its place.
    Choose { range: Range<usize>, others: Vec<(u32, String)> },
    /// Something that is put in for a mutant.
    Insert { at: usize, id: u32, text: String },
    /// Stays as it is; an error in it may be these mutants' doing.
    Around { range: Range<usize>, ids: Vec<u32> },
    /// Something that goes for all of them.
    Drop { range: Range<usize> },
}

impl Edit {
    fn range(&self) -> Range<usize> {
        match self {
            Self::Choose { range, .. } | Self::Around { range, .. } | Self::Drop { range } => range.clone(),
            Self::Insert { at, .. } => *at..*at,
        }
    }
}

/// Whether the mutant is the one that is switched on.
pub fn on(id: u32) -> String {
    format!("crate::mutant::is({id})")
}

pub fn written(text: &str, edits: &[Edit], file: &str, placed: &mut Placed) -> String {
    let mut order: Vec<&Edit> = edits.iter().collect();
    // The outer one first; of two with one range the one that was found first.
    order.sort_by_key(|edit| (edit.range().start, usize::MAX - edit.range().end));
    let mut writer = Writer { text, file, placed, out: String::new(), order, next: 0 };
    writer.part(0..text.len());
    writer.out
}

struct Writer<'a> {
    text: &'a str,
    file: &'a str,
    placed: &'a mut Placed,
    out: String,
    order: Vec<&'a Edit>,
    next: usize,
}

impl Writer<'_> {
    fn part(&mut self, range: Range<usize>) {
        let mut at = range.start;
        while let Some(edit) = self.order.get(self.next).copied() {
            let inner = edit.range();
            if inner.start >= range.end {
                break;
            }
            self.next += 1;
            self.out.push_str(&self.text[at..inner.start]);
            self.edit(edit);
            at = inner.end;
        }
        self.out.push_str(&self.text[at..range.end]);
    }

    fn edit(&mut self, edit: &Edit) {
        match edit {
            Edit::Drop { .. } => {}
            Edit::Insert { id, text, .. } => self.mark(*id, text),
            Edit::Around { range, ids } => {
                let from = self.out.len();
                self.part(range.clone());
                self.place(ids.iter().copied(), from);
            }
            Edit::Choose { range, others } => {
                let from = self.out.len();
                self.out.push('(');
                for (id, other) in others {
                    self.out.push_str(&format!("if {} {{ ", on(*id)));
                    self.mark(*id, &format!("({other})"));
                    self.out.push_str(" } else ");
                }
                self.out.push_str("{ (");
                self.part(range.clone());
                self.out.push_str(") })");
                // Errors that name no branch are laid to all of them: narrower places are looked at first.
                self.place(others.iter().map(|(id, _)| *id), from);
            }
        }
    }

    fn mark(&mut self, id: u32, text: &str) {
        let from = self.out.len();
        self.out.push_str(text);
        self.place([id], from);
    }

    /// From there to the end of what is written.
    fn place(&mut self, ids: impl IntoIterator<Item = u32>, from: usize) {
        for id in ids {
            self.placed.at.entry(id).or_default().push((self.file.to_owned(), from, self.out.len()));
        }
    }
}
