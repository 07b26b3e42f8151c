//! A file as it came by mail or cable, with the harmless marks of the way taken off.
//!
//! A signed file of ours is one line of ASCII, so a byte order mark, white space around it and line
//! breaks inside it can only have come from outside. They are taken off before reading, and it is
//! said that they were; nothing else is repaired.

use super::open_error::OpenError;
use std::borrow::Cow;
use std::io::{self, Read};

/// A mark of the way that was taken off.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Repair {
    /// A UTF-8 byte order mark at the start.
    ByteOrderMark,
    /// White space before the first or after the last character.
    OuterSpace,
    /// Line breaks inside the text.
    LineBreaks,
}

/// The text to read, and what was taken off the file to get it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Received<'a> {
    /// Plain ASCII without line breaks.
    pub text: Cow<'a, str>,
    /// What was taken off; a single line break at the end is not counted.
    pub repairs: Vec<Repair>,
}

/// Takes the marks of the way off.
///
/// # Errors
/// Too large, empty, or not plain text.
pub fn receive(bytes: &[u8], limit: usize) -> Result<Received<'_>, OpenError> {
    if bytes.len() > limit {
        return Err(OpenError::TooLarge { limit });
    }
    if bytes.starts_with(b"\xff\xfe") || bytes.starts_with(b"\xfe\xff") {
        return Err(OpenError::TwoByteText);
    }
    let mut repairs = Vec::new();
    let unmarked = bytes.strip_prefix(b"\xef\xbb\xbf");
    if unmarked.is_some() {
        repairs.push(Repair::ByteOrderMark);
    }
    let all = unmarked.unwrap_or(bytes);
    let offset = bytes.len() - all.len();
    if let Some(at) = all.iter().position(|byte| !byte.is_ascii()) {
        return Err(OpenError::NotText { at: at + offset });
    }
    let text = str::from_utf8(all).map_err(|error| OpenError::NotText { at: error.valid_up_to() + offset })?;
    let trimmed = text.trim_ascii();
    if trimmed.is_empty() {
        return Err(OpenError::Empty);
    }
    let end = text.strip_prefix(trimmed);
    if !matches!(end, Some("" | "\n" | "\r\n")) {
        repairs.push(Repair::OuterSpace);
    }
    let broken = |c: char| c == '\r' || c == '\n';
    if !trimmed.contains(broken) {
        return Ok(Received { text: Cow::Borrowed(trimmed), repairs });
    }
    repairs.push(Repair::LineBreaks);
    Ok(Received { text: Cow::Owned(trimmed.replace(broken, "")), repairs })
}

/// Reads a file or stream, but never more than one byte beyond the limit.
///
/// `declared` is the length that the file system states, where it does: a file that is too large is
/// then refused without reading it.
///
/// # Errors
/// The outer error is the reading itself, the inner one [`OpenError::TooLarge`].
pub fn read_limited(source: impl Read, declared: Option<u64>, limit: usize) -> io::Result<Result<Vec<u8>, OpenError>> {
    let most = u64::try_from(limit).unwrap_or(u64::MAX);
    if declared.is_some_and(|length| length > most) {
        return Ok(Err(OpenError::TooLarge { limit }));
    }
    let mut bytes = Vec::new();
    source.take(most.saturating_add(1)).read_to_end(&mut bytes)?;
    if bytes.len() > limit { Ok(Err(OpenError::TooLarge { limit })) } else { Ok(Ok(bytes)) }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn case(bytes: &[u8], text: &str, repairs: &[Repair]) {
        let received = receive(bytes, 100).unwrap();
        assert_eq!((received.text.as_ref(), received.repairs.as_slice()), (text, repairs));
    }

    #[test]
    fn marks_of_the_way_come_off_and_are_named() {
        case(b"{}", "{}", &[]);
        case(b"{}\n", "{}", &[]);
        case(b"{}\r\n", "{}", &[]);
        case(b"\xef\xbb\xbf{}", "{}", &[Repair::ByteOrderMark]);
        case(b"  {}", "{}", &[Repair::OuterSpace]);
        case(b"{}\n\n", "{}", &[Repair::OuterSpace]);
        case(b"{\"a\":\"b\r\nc\"}", "{\"a\":\"bc\"}", &[Repair::LineBreaks]);
        case(b"\xef\xbb\xbf\n{\r\n}\n", "{}", &[Repair::ByteOrderMark, Repair::OuterSpace, Repair::LineBreaks]);
    }

    #[test]
    fn what_is_no_text_is_refused() {
        assert_eq!(receive(b"", 100), Err(OpenError::Empty));
        assert_eq!(receive(b" \r\n", 100), Err(OpenError::Empty));
        assert_eq!(receive("{\"ä\"}".as_bytes(), 100), Err(OpenError::NotText { at: 2 }));
        assert_eq!(receive(b"\xff\xfe{\0", 100), Err(OpenError::TwoByteText));
        assert_eq!(receive(b"12345", 4), Err(OpenError::TooLarge { limit: 4 }));
    }

    /// A source that must not be read further than it was told.
    struct Endless {
        given: usize,
    }

    impl Read for Endless {
        fn read(&mut self, buffer: &mut [u8]) -> io::Result<usize> {
            self.given += buffer.len();
            buffer.fill(b' ');
            Ok(buffer.len())
        }
    }

    #[test]
    fn reading_stops_at_the_limit() {
        let mut source = Endless { given: 0 };
        let read = read_limited(&mut source, None, 1000).unwrap();
        assert_eq!(read, Err(OpenError::TooLarge { limit: 1000 }));
        assert!(source.given <= 1001, "{}", source.given);

        let mut source = Endless { given: 0 };
        assert!(read_limited(&mut source, Some(1001), 1000).unwrap().is_err());
        assert_eq!(source.given, 0);

        assert_eq!(read_limited(&b"{}"[..], Some(2), 2).unwrap(), Ok(b"{}".to_vec()));
    }
}
