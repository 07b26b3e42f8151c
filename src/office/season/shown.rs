//! A season as the page shows it: sentences, plots, tables in words.

use std::collections::BTreeSet;

use serde::{Deserialize, Serialize};

use super::csv::Csv;
use super::manifest::Manifest;
use super::table::Season;
use super::told::{Told, told};
use super::{count, plots, tables, tell};

/// The most rows of a table that are told; the file has them all.
const ROWS: usize = 200;

/// What is shown of a season.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Shown {
    /// The winter, such as 2026-27.
    pub winter: String,
    /// Carcasses that were found in it.
    pub found: usize,
    /// Those of them that count.
    pub counted: usize,
    /// What has to be said beside the figures, a sentence each.
    pub lines: Vec<String>,
    /// Plots.
    pub plots: Vec<Plot>,
    /// Tables that no plot shows, without those that have no row.
    pub tables: Vec<Told>,
    /// Of this run, not signed yet.
    pub manifest: Manifest,
}

/// One plot.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Plot {
    /// Its file's name without the ending.
    pub name: String,
    /// The drawing, which is ours and escaped.
    pub svg: String,
    /// The same as a table.
    pub table: Option<Told>,
}

impl Shown {
    /// Of a season and the manifest of its run.
    pub fn of(season: &Season, manifest: Manifest) -> Self {
        let all = tables::all(season);
        let plots = plots::all(season);
        let of_plots: BTreeSet<&str> = plots.iter().map(|(file, _)| stem(file)).collect();
        let table = |(file, csv): &(&str, Csv)| told(file, csv, ROWS);
        let others = all.iter().filter(|(file, csv)| !of_plots.contains(stem(file)) && !csv.rows.is_empty());
        let tables = others.map(table).collect();
        let plot = |(file, svg): (&str, String)| Plot {
            name: stem(file).to_owned(),
            svg,
            table: all.iter().find(|(other, _)| stem(other) == stem(file)).map(table),
        };
        Self {
            winter: season.winter.clone(),
            found: season.carcasses.found,
            counted: season.carcasses.counted,
            lines: lines(season),
            plots: plots.into_iter().map(plot).collect(),
            tables,
            manifest,
        }
    }
}

fn stem(file: &str) -> &str {
    file.rsplit_once('.').map_or(file, |(stem, _)| stem)
}

/// What counts in no figure and why, then what has to be said beside every figure.
fn lines(season: &Season) -> Vec<String> {
    let carcasses = &season.carcasses;
    let mut lines: Vec<String> = Vec::new();
    for left in &carcasses.left_out {
        let codes = left.codes.join(", ");
        let args = [("n", count(left.carcasses)), ("why", left.why.as_str().into()), ("codes", codes.into())];
        lines.push(tell("desk.season.left_out", &args));
    }
    for (n, id) in [(carcasses.undated, "desk.season.undated"), (carcasses.no_carcass, "desk.season.no_carcass")] {
        if n > 0 {
            lines.push(tell(id, &[("n", count(n))]));
        }
    }
    for (reason, n) in season.not_used_by_reason() {
        lines.push(tell("desk.season.not_used", &[("n", count(n)), ("reason", reason.into())]));
    }
    lines.extend(season.cautions.iter().cloned());
    lines
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::office::keyring::Keyring;
    use crate::office::season::gather::{Files, Folder, Gathered, Used};
    use crate::office::season::table::NotUsed;
    use crate::office::season::{Asked, build, written};
    use crate::record::Digest;

    #[test]
    fn each_table_is_told_once_beside_its_plot_or_below_and_none_without_a_row() {
        let used = Used { folder: Folder::Received, sha256: Digest([1; 32]) };
        let not_used = vec![NotUsed::new(used, "damaged")];
        let gathered = Gathered { files: Files { not_used, ..Files::default() }, ..Gathered::default() };
        let asked = Asked { winter: Some(2026), ..Asked::default() };
        let season = build::season(&gathered, &asked).unwrap();
        let (_, manifest) = written::unsigned(&gathered.files, &Keyring::default(), asked, &season).unwrap();
        let shown = Shown::of(&season, manifest);
        assert!(shown.lines.iter().any(|line| line.contains("damaged")), "{:?}", shown.lines);
        let told = shown.plots.iter().filter_map(|plot| plot.table.as_ref()).chain(&shown.tables);
        let names: Vec<&str> = told.map(|one| one.name.as_str()).collect();
        let with_rows: Vec<&str> =
            tables::all(&season).iter().filter(|(_, csv)| !csv.rows.is_empty()).map(|(file, _)| *file).collect();
        let of_plots = shown.plots.len();
        assert_eq!(of_plots, 4);
        assert_eq!(names.iter().collect::<BTreeSet<_>>().len(), names.len(), "{names:?}");
        assert!(shown.tables.iter().all(|one| !one.rows.is_empty()));
        let without_plot = with_rows.iter().filter(|file| !shown.plots.iter().any(|plot| plot.name == stem(file)));
        assert_eq!(shown.tables.len(), without_plot.count());
    }
}
