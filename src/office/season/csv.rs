//! One table as CSV (RFC 4180): UTF-8, lines ended by CR LF.
//!
//! Words that a spreadsheet would take for a formula (first letter, blanks passed over, `=`, `+`, `-`, `@` or their wide
//! forms) are written with an apostrophe before them; orders to a terminal become blanks. Numbers are the program's own and
//! stay as they are: `-0.12` is a number.

use crate::office::plain::{on_paper, steers};

/// A cell.
#[derive(Clone, Debug, PartialEq)]
pub enum Cell {
    /// Words.
    Text(String),
    /// A number, printed already.
    Number(String),
    /// Nothing: not known. It is never zero.
    Empty,
}

impl From<&str> for Cell {
    fn from(text: &str) -> Self {
        Self::Text(text.to_owned())
    }
}

impl From<&String> for Cell {
    fn from(text: &String) -> Self {
        Self::Text(text.clone())
    }
}

impl From<f64> for Cell {
    fn from(number: f64) -> Self {
        if number.is_finite() { Self::Number(number.to_string()) } else { Self::Empty }
    }
}

impl From<u32> for Cell {
    fn from(number: u32) -> Self {
        Self::Number(number.to_string())
    }
}

impl From<usize> for Cell {
    fn from(number: usize) -> Self {
        Self::Number(number.to_string())
    }
}

impl From<i64> for Cell {
    fn from(number: i64) -> Self {
        Self::Number(number.to_string())
    }
}

impl<T: Into<Self>> From<Option<T>> for Cell {
    fn from(value: Option<T>) -> Self {
        value.map_or(Self::Empty, Into::into)
    }
}

/// A table.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Csv {
    /// The columns' names.
    pub head: Vec<String>,
    /// The rows.
    pub rows: Vec<Vec<Cell>>,
}

/// Whether a spreadsheet would take it for a formula.
pub fn is_formula(text: &str) -> bool {
    let words = text.trim_start_matches(|c: char| c.is_whitespace() || steers(c));
    words.starts_with(['=', '+', '-', '@', '\u{ff1d}', '\u{ff0b}', '\u{ff0d}', '\u{ff20}'])
}

fn written(cell: &Cell) -> String {
    match cell {
        Cell::Text(text) if is_formula(text) => format!("'{}", on_paper(text)),
        Cell::Text(text) => on_paper(text),
        Cell::Number(text) => text.clone(),
        Cell::Empty => String::new(),
    }
}

impl Csv {
    /// With these columns and no row yet.
    pub fn new<const N: usize>(head: [&str; N]) -> Self {
        Self { head: head.map(str::to_owned).into(), rows: Vec::new() }
    }

    /// Adds a row.
    pub fn row<const N: usize>(&mut self, cells: [Cell; N]) {
        self.rows.push(cells.into());
    }

    /// The text of the file.
    ///
    /// # Errors
    /// Never in practice: it is written into memory.
    pub fn write(&self) -> Result<Vec<u8>, csv::Error> {
        self.text(true)
    }

    /// The text of its rows, without the columns' names.
    ///
    /// # Errors
    /// Never in practice: it is written into memory.
    pub fn write_rows(&self) -> Result<Vec<u8>, csv::Error> {
        self.text(false)
    }

    fn text(&self, with_head: bool) -> Result<Vec<u8>, csv::Error> {
        let mut writer =
            csv::WriterBuilder::new().flexible(true).terminator(csv::Terminator::CRLF).from_writer(Vec::new());
        if with_head {
            writer.write_record(&self.head)?;
        }
        for row in &self.rows {
            writer.write_record(row.iter().map(written))?;
        }
        writer.into_inner().map_err(|error| csv::Error::from(std::io::Error::other(error.to_string())))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// The first letters are those of OWASP's page on CSV injection (from memory).
    #[test]
    fn no_cell_is_a_formula() {
        let mut table = Csv::new(["a", "b"]);
        for text in ["=1+1", "+1", "-2+3", "@SUM(A1)", "\t=1", "\r=1", "plain", "a=b", "say \"x\", y"] {
            table.row([text.into(), (-0.5).into()]);
        }
        table.row([Cell::Empty, f64::NAN.into()]);
        let text = String::from_utf8(table.write().unwrap()).unwrap();
        let mut reader = csv::Reader::from_reader(text.as_bytes());
        let rows: Vec<Vec<String>> =
            reader.records().map(|row| row.unwrap().iter().map(str::to_owned).collect()).collect();
        assert_eq!(rows.len(), 10);
        for row in &rows {
            assert!(!is_formula(&row[0]), "{row:?}");
        }
        assert_eq!((rows[0][0].as_str(), rows[0][1].as_str()), ("'=1+1", "-0.5"));
        assert_eq!((rows[6][0].as_str(), rows[7][0].as_str(), rows[8][0].as_str()), ("plain", "a=b", "say \"x\", y"));
        assert_eq!((rows[9][0].as_str(), rows[9][1].as_str()), ("", ""));
        assert!(text.ends_with("\r\n"));
    }
}
