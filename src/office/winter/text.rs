//! From bytes to rows of cells: byte-order marks, older encodings, commas, semicolons and tabs.

use super::note::Note;
use crate::office::csv_sheet::{Lines, delimiter};
use crate::words::Arg;

/// A cell may not be longer than this; a file of something else is seen early.
const LONGEST_CELL: usize = 200;

/// Most lines of one file.
pub const MOST_ROWS: usize = 200_000;

/// Most cells of a line. A station's own file has up to some 150 columns; what lies behind is a file of something else.
const MOST_CELLS: usize = 400;

/// Most of one file, in MB. A reader of CSV takes ten times the room of a file of commas.
const MOST_MB: usize = 24;

/// The rows of a file.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Rows {
    /// The header's cells.
    pub header: Vec<String>,
    /// Each row with its line, counted as an editor counts.
    pub rows: Vec<(u64, Vec<String>)>,
    /// What parts the cells.
    pub delimiter: char,
    /// What was seen on the way.
    pub notes: Vec<Note>,
}

/// Why a file is no table at all.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub enum NoTable {
    /// UTF-16, as a spreadsheet's `Unicode text` is.
    #[error("the file is in UTF-16; save it as `CSV UTF-8` and open that")]
    Utf16,
    /// A spreadsheet's own file or another kind that is no text.
    #[error("the file is no text; export the sheet as CSV and open that")]
    NotText,
    /// Nothing in it.
    #[error("the file has no lines")]
    Empty,
    /// Too long.
    #[error("the file has more than {MOST_ROWS} lines or {MOST_MB} MB; cut it into winters")]
    TooLong,
}

/// Split a file into rows. The first line that is not blank is the header.
///
/// # Errors
/// Why it is no table.
pub fn rows(bytes: &[u8]) -> Result<Rows, NoTable> {
    let mut out = Rows::default();
    if bytes.starts_with(b"\xff\xfe") || bytes.starts_with(b"\xfe\xff") {
        return Err(NoTable::Utf16);
    }
    if bytes.contains(&0) {
        return Err(NoTable::NotText);
    }
    if bytes.len() > MOST_MB << 20 {
        return Err(NoTable::TooLong);
    }
    let bytes = match bytes.strip_prefix(b"\xef\xbb\xbf") {
        Some(rest) => {
            out.notes.push(Note::look(None, "winter.csv.mark", Vec::new()));
            rest
        }
        None => bytes,
    };
    let text = if let Ok(text) = std::str::from_utf8(bytes) {
        text.to_owned()
    } else {
        // An older program's degree sign: each byte is the letter of that number (ISO 8859-1).
        out.notes.push(Note::look(None, "winter.csv.latin", Vec::new()));
        bytes.iter().map(|byte| char::from(*byte)).collect()
    };
    out.delimiter = delimiter(text.lines().find(|line| !line.trim().is_empty()).ok_or(NoTable::Empty)?);
    let mut reader = csv::ReaderBuilder::new()
        .has_headers(false)
        .flexible(true)
        .delimiter(u8::try_from(out.delimiter).unwrap_or(b','))
        .from_reader(text.as_bytes());
    let mut record = csv::StringRecord::new();
    let mut lines = Lines::new(text.as_bytes());
    // The text is valid and in memory: reading it on cannot fail but at its end.
    while matches!(reader.read_record(&mut record), Ok(true)) {
        let line = lines.of_row(&record);
        let cells: Vec<String> =
            record.iter().take(MOST_CELLS).map(|cell| cell.trim().chars().take(LONGEST_CELL).collect()).collect();
        let is_long = |(cell, kept): (&str, &String)| cell.trim().len() > kept.len();
        let longer = record.iter().zip(&cells).filter(|pair| is_long(*pair)).count();
        for (id, n) in
            [("winter.csv.cut_cells", record.len().saturating_sub(MOST_CELLS)), ("winter.csv.cut_text", longer)]
        {
            // Once for each: a file of something else says it on every line.
            if n > 0 && !out.notes.iter().any(|note| note.id == id) {
                let n = Arg::Count(i64::try_from(n).unwrap_or(i64::MAX));
                out.notes.push(Note::look(Some(line), id, vec![("n", n)]));
            }
        }
        if cells.iter().all(String::is_empty) {
            continue;
        }
        if out.header.is_empty() {
            out.header = cells;
        } else {
            out.rows.push((line, cells));
        }
        if out.rows.len() > MOST_ROWS {
            return Err(NoTable::TooLong);
        }
    }
    if out.header.is_empty() { Err(NoTable::Empty) } else { Ok(out) }
}

#[cfg(test)]
mod tests {
    use super::rows;

    /// A rule of the house: what is not read is said.
    #[test]
    fn what_is_cut_is_said_with_its_line_and_once() {
        let long = "x".repeat(201);
        let wide = vec!["1"; 402].join(",");
        let text = format!("date,snow_depth_cm,remark\n2027-01-01,12,{long}\n2027-01-02,13,{long}\n{wide}\n");
        let read = rows(text.as_bytes()).unwrap();
        let notes: Vec<(&str, Option<u64>)> = read.notes.iter().map(|note| (note.id, note.line)).collect();
        assert_eq!(notes, [("winter.csv.cut_text", Some(2)), ("winter.csv.cut_cells", Some(4))]);
        assert_eq!(read.rows[0].1[2], "x".repeat(200));
        assert!(rows(b"date,snow_depth_cm\n2027-01-01, 12 \n").unwrap().notes.is_empty(), "blanks are no loss");
    }
}
