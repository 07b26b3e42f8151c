//! A table of the season as a person reads it: with a name, what it says, heads in words and shares in 100. The files keep
//! their own columns.

use serde::{Deserialize, Serialize};

use super::csv::{Cell, Csv};
use super::tables::SHARE_COLUMNS;
use super::tell;
use crate::words::office_has;

/// A table in words.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Told {
    /// Its name.
    pub name: String,
    /// What it says.
    pub what: String,
    /// Heads.
    pub head: Vec<String>,
    /// Cells, row by row.
    pub rows: Vec<Vec<String>>,
    /// Rows that are not told: the file has them.
    pub left: usize,
}

/// Columns beside those of [`SHARE_COLUMNS`] that hold a share from 0 to 1, or a difference of two.
const SHARES: [&str; 3] = ["low_share", "difference", "probability"];

/// Tables of which those columns hold shares.
const OF_SHARES: [&str; 7] = ["ages", "called", "causes", "comparisons", "condition", "doubles", "findings"];

/// Columns of codes beside which the same stands in words.
const CODES: [&str; 3] = ["what", "called", "finding"];

/// At most `most` rows of the table of that file, in words.
pub fn told(file: &str, csv: &Csv, most: usize) -> Told {
    let table = file.rsplit_once('.').map_or(file, |(stem, _)| stem);
    let has_name = csv.head.iter().any(|head| head == "name");
    let wanted: Vec<usize> = (0..csv.head.len())
        .filter(|at| csv.head.get(*at).is_some_and(|head| !has_name || !CODES.contains(&head.as_str())))
        .collect();
    let is_share = |head: &str| OF_SHARES.contains(&table) && (SHARES.contains(&head) || SHARE_COLUMNS.contains(&head));
    let head = |at: &usize| {
        let code = csv.head.get(*at).map(String::as_str).unwrap_or_default();
        let words = column(table, code);
        if is_share(code) { tell("season.column.in_100", &[("what", words.into())]) } else { words }
    };
    let cell = |row: &[Cell], at: usize| match (row.get(at), csv.head.get(at)) {
        (Some(Cell::Text(text)), _) => word(text),
        (Some(Cell::Number(number)), Some(head)) if is_share(head) => in_100(number),
        (Some(Cell::Number(number)), _) => number.clone(),
        (Some(Cell::Empty) | None, _) => String::new(),
    };
    Told {
        name: tell(&format!("season.table.{table}"), &[]),
        what: tell(&format!("season.table.{table}.what"), &[]),
        head: wanted.iter().map(head).collect(),
        rows: csv.rows.iter().take(most).map(|row| wanted.iter().map(|at| cell(row, *at)).collect()).collect(),
        left: csv.rows.len().saturating_sub(most),
    }
}

/// A column's head: the table's own words for it, then those of every table. Those of weeks end with the log's place.
fn column(table: &str, code: &str) -> String {
    let ids = [format!("season.column.{table}.{code}"), format!("season.column.{code}")];
    if let Some(id) = ids.iter().find(|id| office_has(id)) {
        return tell(id, &[]);
    }
    let of_log = ["snow_cm", "days_read", "lowest_c"].into_iter().find(|head| code.starts_with(head));
    match of_log.and_then(|head| Some((head, code.strip_prefix(head)?.trim_start_matches('_')))) {
        Some((head, place)) => tell(&format!("season.column.{head}"), &[("place", place.replace('_', " ").into())]),
        None => code.replace('_', " "),
    }
}

/// A code in words, where it is one.
fn word(text: &str) -> String {
    let known = [format!("season.word.{text}"), format!("season.age.{text}")];
    if let Some(id) = known.iter().find(|id| office_has(id)) {
        return tell(id, &[]);
    }
    // Of comparisons: a finding, or a cause.
    let common = [format!("finding.{text}"), format!("cause.name.{text}")].into_iter();
    common
        .map(|id| (tell(&id, &[]), id))
        .find(|(said, id)| said != id)
        .map_or_else(|| text.to_owned(), |(said, _)| said)
}

/// A share in 100, with no more digits than it carries.
fn in_100(number: &str) -> String {
    match number.parse::<f64>().map(|share| 100.0 * share) {
        Ok(n) if n != 0.0 && n.abs() < 1.0 => format!("{n:.1}"),
        Ok(n) => format!("{n:.0}"),
        Err(_) => number.to_owned(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::office::season::gather::{Files, Folder, Used};
    use crate::office::season::table::{NotUsed, Season};
    use crate::office::season::tables;
    use crate::record::Digest;

    fn empty() -> Season {
        of_files(Files::default())
    }

    fn of_files(files: Files) -> Season {
        let gathered = crate::office::season::gather::Gathered { files, ..Default::default() };
        let asked = crate::office::season::Asked { winter: Some(2026), ..Default::default() };
        crate::office::season::build::season(&gathered, &asked).unwrap()
    }

    #[test]
    fn every_table_has_a_name_and_every_column_words() {
        for (file, csv) in tables::all(&empty()) {
            let told = told(file, &csv, 10);
            for text in [&told.name, &told.what].into_iter().chain(&told.head) {
                assert!(!text.contains("season.") && !text.is_empty(), "{file}: {text}");
            }
            for code in csv.head.iter().filter(|code| !CODES.contains(&code.as_str())) {
                let id = [
                    format!("season.column.{code}"),
                    format!("season.column.{}.{code}", file.trim_end_matches(".csv")),
                ];
                assert!(id.iter().any(|id| office_has(id)), "{file}: {code} has no words");
            }
        }
    }

    #[test]
    fn shares_are_told_in_100_and_codes_in_words() {
        let mut csv = Csv::new(["what", "name", "share", "low_95", "prior"]);
        csv.row(["fawn".into(), "fawns".into(), 0.3897.into(), 0.0.into(), 0.0042.into()]);
        let of_ages = told("ages.csv", &csv, 1);
        assert_eq!(of_ages.rows, [["fawns", "39", "0", "0.4"]]);
        assert!(of_ages.head[1].contains("in 100"), "{:?}", of_ages.head);
        let mut csv = Csv::new(["what", "value"]);
        csv.row(["per_km2".into(), 0.42.into()]);
        csv.row(["low_95".into(), 0.1.into()]);
        let of_lines = told("density.csv", &csv, 1);
        assert_eq!((of_lines.rows[0][1].as_str(), of_lines.left), ("0.42", 1), "no share");
        let mut csv = Csv::new(["kind", "first", "second", "what", "difference"]);
        csv.row(["crew".into(), "One".into(), "all others".into(), "fawn".into(), (-0.25).into()]);
        assert_eq!(
            told("comparisons.csv", &csv, 1).rows[0],
            ["a crew and all others", "One", "all others", "fawns", "-25"]
        );
    }

    #[test]
    fn files_that_count_in_no_figure_are_counted_by_why() {
        let file = |n: u8, why: &str| NotUsed::new(Used { folder: Folder::Received, sha256: Digest([n; 32]) }, why);
        let not_used = vec![file(1, "damaged"), file(2, "not enrolled"), file(3, "damaged")];
        assert_eq!(not_used[0].path(), format!("received/{}.txt", "01".repeat(32)));
        let season = of_files(Files { not_used, ..Files::default() });
        assert_eq!(season.not_used_by_reason().into_iter().collect::<Vec<_>>(), [("damaged", 2), ("not enrolled", 1)]);
    }
}
