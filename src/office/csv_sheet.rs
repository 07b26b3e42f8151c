//! A CSV with a line of column names, as spreadsheets save it, with the line of each row as an editor counts it.

use std::collections::BTreeMap;

/// Why a file is no such sheet.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
#[allow(missing_docs)]
pub enum NoCsv {
    #[error("line {line}: it is not in UTF-8; save the sheet as `CSV UTF-8`")]
    NotUtf8 { line: u64 },
    #[error("line {line}: it has {cells} cells, the header has {columns}")]
    Cells { line: u64, cells: usize, columns: usize },
    #[error("it has no column `{0}`")]
    NoColumn(&'static str),
    #[error("the column `{0}` stands twice")]
    TwoColumns(String),
    #[error("it has more than {MOST_MB} MB or {MOST_COLUMNS} columns; hand in a part of its lines at a time")]
    TooLarge,
    #[error("line {line}: the code `{code}` stands on line {first} too")]
    CodeTwice { line: u64, code: String, first: u64 },
}

/// The most of one sheet, in MB: some 40,000 lines. A reader of CSV takes thirty times the room of a file of commas.
const MOST_MB: usize = 4;

/// The most columns. Each name is held against all others.
const MOST_COLUMNS: usize = 400;

/// A sheet.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct CsvSheet {
    /// The column names, in small letters.
    pub head: Vec<String>,
    /// Each row with its line, the file's first being 1; blanks round the values are taken away, empty rows passed
    /// over. A row has as many cells as the header.
    pub rows: Vec<(u64, Vec<String>)>,
}

impl CsvSheet {
    /// Reads a file: a mark of UTF-8 at its front, and semicolons or tabs for commas, are no matter.
    ///
    /// # Errors
    /// See [`NoCsv`].
    pub fn read(bytes: &[u8]) -> Result<Self, NoCsv> {
        if bytes.len() > MOST_MB << 20 {
            return Err(NoCsv::TooLarge);
        }
        let bytes = bytes.strip_prefix("\u{feff}".as_bytes()).unwrap_or(bytes);
        let mut lines = Lines::new(bytes);
        let text = std::str::from_utf8(bytes).map_err(|error| NoCsv::NotUtf8 {
            line: lines.at(u64::try_from(error.valid_up_to()).unwrap_or_default()),
        })?;
        let head = text.lines().find(|line| !line.trim().is_empty()).unwrap_or_default();
        let mut reader = csv::ReaderBuilder::new()
            .has_headers(false)
            .flexible(true)
            .trim(csv::Trim::All)
            .delimiter(u8::try_from(delimiter(head)).unwrap_or(b','))
            .from_reader(bytes);
        let mut out = Self::default();
        let mut record = csv::StringRecord::new();
        // The text is valid and in memory: reading it on cannot fail but at its end.
        while matches!(reader.read_record(&mut record), Ok(true)) {
            let line = lines.of_row(&record);
            if record.iter().all(str::is_empty) {
                continue;
            }
            if record.len() > MOST_COLUMNS {
                return Err(NoCsv::TooLarge);
            }
            if out.head.is_empty() {
                out.head = record.iter().map(str::to_lowercase).collect();
                let twice = out
                    .head
                    .iter()
                    .enumerate()
                    .find(|(at, one)| out.head.iter().take(*at).any(|before| before == *one));
                if let Some((_, column)) = twice {
                    return Err(NoCsv::TwoColumns(column.clone()));
                }
                continue;
            }
            if record.len() != out.head.len() {
                return Err(NoCsv::Cells { line, cells: record.len(), columns: out.head.len() });
            }
            out.rows.push((line, record.iter().map(str::to_owned).collect()));
        }
        Ok(out)
    }

    /// Numbers of people by their codes: a sheet with the columns `code` and `number`.
    ///
    /// # Errors
    /// See [`NoCsv`].
    pub fn numbers(bytes: &[u8]) -> Result<BTreeMap<String, String>, NoCsv> {
        let sheet = Self::read(bytes)?;
        let (code, number) = (sheet.column("code")?, sheet.column("number")?);
        let mut out = BTreeMap::new();
        let mut lines: BTreeMap<&str, u64> = BTreeMap::new();
        for (line, cells) in &sheet.rows {
            let (Some(code), Some(number)) = (cells.get(code), cells.get(number)) else { continue };
            if let Some(first) = lines.insert(code, *line) {
                return Err(NoCsv::CodeTwice { line: *line, code: code.clone(), first });
            }
            out.insert(code.clone(), number.clone());
        }
        Ok(out)
    }

    /// The place of a column.
    ///
    /// # Errors
    /// There is none of that name.
    pub fn column(&self, name: &'static str) -> Result<usize, NoCsv> {
        self.head.iter().position(|one| one == name).ok_or(NoCsv::NoColumn(name))
    }
}

/// What parts the cells of the header: the commonest of semicolon, tab and comma outside quotes, in
/// that order where they tie (a header in which a comma is part of a name has semicolons besides).
pub(super) fn delimiter(header: &str) -> char {
    let mut quoted = false;
    let mut counts = [(';', 0_usize), ('\t', 0), (',', 0)];
    for c in header.chars() {
        if c == '"' {
            quoted = !quoted;
        }
        for (mark, n) in &mut counts {
            *n += usize::from(c == *mark && !quoted);
        }
    }
    let most = counts.iter().map(|(_, n)| *n).max().unwrap_or_default();
    counts.iter().find(|(_, n)| *n == most && most > 0).map_or(',', |(mark, _)| *mark)
}

/// Lines of a text as an editor counts them, asked for at places that rise. The reader of CSV counts one too few where
/// a line ends in CR LF, and does not count empty lines.
#[derive(Clone, Debug)]
pub struct Lines<'a> {
    bytes: &'a [u8],
    at: usize,
    line: u64,
}

impl<'a> Lines<'a> {
    /// Before the first line.
    pub const fn new(bytes: &'a [u8]) -> Self {
        Self { bytes, at: 0, line: 1 }
    }

    /// The line on which a row begins.
    pub fn of_row(&mut self, record: &csv::StringRecord) -> u64 {
        self.at(record.position().map_or(0, csv::Position::byte))
    }

    /// The line of the first character at a place or behind it that ends no line.
    fn at(&mut self, byte: u64) -> u64 {
        let mut to = usize::try_from(byte).unwrap_or(usize::MAX).min(self.bytes.len());
        while matches!(self.bytes.get(to), Some(b'\r' | b'\n')) {
            to += 1;
        }
        let passed = self.bytes.get(self.at..to).unwrap_or_default();
        let next = passed.iter().skip(1).map(Some).chain([None]);
        let ends = passed.iter().zip(next).filter(|(one, next)| match one {
            b'\n' => true,
            b'\r' => *next != Some(&b'\n'),
            _ => false,
        });
        self.line += u64::try_from(ends.count()).unwrap_or_default();
        self.at = self.at.max(to);
        self.line
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Lines as `grep -n` (GNU grep 3.8) numbers them; CR alone as text editors of old Macintoshes had it.
    #[test]
    fn rows_have_the_lines_of_the_file() {
        let lines = |text: &str| -> Vec<u64> {
            CsvSheet::read(text.as_bytes()).unwrap().rows.into_iter().map(|(line, _)| line).collect()
        };
        assert_eq!(lines("a,b\n1,2\n\n3,4\n"), [2, 4]);
        assert_eq!(lines("a,b\r\n1,2\r\n\r\n,\r\n3,4"), [2, 5]);
        assert_eq!(lines("\u{feff}\r\n\r\na;b\r\n1;2\r\n\"x\r\ny\";4\r\n5;6\r\n"), [4, 5, 7]);
        assert_eq!(lines("a,b\r1,2\r\r3,4\r"), [2, 4]);
    }

    #[test]
    fn what_is_no_sheet_says_where() {
        let said = |bytes: &[u8]| CsvSheet::read(bytes).unwrap_err().to_string();
        assert_eq!(said(b"a,b\r\n1,2\r\n3\r\n"), "line 3: it has 1 cells, the header has 2");
        assert!(said(b"a,b\r\n1,\xb0\r\n").starts_with("line 2: it is not in UTF-8"));
        assert_eq!(said(b"a,B,b\n"), "the column `b` stands twice");
        assert_eq!(CsvSheet::read(b"a\n").unwrap().column("b"), Err(NoCsv::NoColumn("b")));
    }
}
