//! Lines and columns to bytes, both ways of counting that come in here: the list's columns from 1, the parser's from 0.

use crate::Place;
use proc_macro2::Span;
use std::ops::Range;

/// Where each line of a text begins.
pub struct Lines<'a> {
    text: &'a str,
    starts: Vec<usize>,
}

impl<'a> Lines<'a> {
    pub fn of(text: &'a str) -> Self {
        let ends = text.match_indices('\n').map(|(at, _)| at + 1);
        Self { text, starts: std::iter::once(0).chain(ends).collect() }
    }

    fn byte(&self, line: usize, characters: usize) -> usize {
        let start = self.starts[line - 1];
        let rest = &self.text[start..];
        start + rest.char_indices().nth(characters).map_or(rest.len(), |(at, _)| at)
    }

    pub fn listed(&self, place: Place) -> Range<usize> {
        self.byte(place.start.line, place.start.column - 1)..self.byte(place.end.line, place.end.column - 1)
    }

    pub fn parsed(&self, span: Span) -> Range<usize> {
        let (start, end) = (span.start(), span.end());
        self.byte(start.line, start.column)..self.byte(end.line, end.column)
    }
}
