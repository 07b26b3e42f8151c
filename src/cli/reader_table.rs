//! A reader's record as text: counts, how often right, and the rows of the table that follows.

use super::error::CliError;
use super::streams::Streams;
use crate::office::readers::ReaderLine;
use crate::science::reader_record::Right;

const CALLS: [&str; 11] = ["fawn", "1.5", "2.5", "3.5", "4.5", "5.5", "6.5", "7.5", "8.5", "9.5", "10.5+"];
const TRUE_CLASSES: [&str; 10] = ["0", "1", "2", "3", "4", "5", "6", "7", "8", "9+"];
const BROAD: [&str; 5] = ["fawn", "yearling", "2", "3 to 5", "6 and over"];

fn right(right: &Right) -> String {
    let percent = |share: f64| (share * 100.0).round();
    let (share, low, high) = (percent(right.share()), percent(right.low), percent(right.high));
    format!("{} of {}: {share} in 100 ({low} to {high}, Wilson 95 in 100)", right.right, right.of)
}

fn row(name: &str, cells: &[String]) -> String {
    let cells: Vec<String> = cells.iter().map(|cell| format!(" {cell:>6}")).collect();
    format!("  {name:>5} {}", cells.join(""))
}

/// Ends of a share, in 100.
fn ends(low: f64, high: f64) -> String {
    format!("{:.0}-{:.0}", low * 100.0, high * 100.0)
}

/// Prints one reader.
pub(super) fn print(line: &ReaderLine, streams: &mut Streams<'_>) -> Result<(), CliError> {
    let who = line.reader.as_ref().map_or("all readers together".to_owned(), |code| format!("reader {code}"));
    streams.line(&format!("{who}: {} calls of known age, {} by rings", line.known_count, line.by_rings_count))?;
    let direct = &line.direct;
    if line.known_count > 0 {
        streams.line("  calls on jaws of known age; rows are completed birthdays, columns the class called;")?;
        streams.line("  below each row what the share may be, in 100 (Wilson 95 in 100)")?;
        streams.line(&row("", &CALLS.map(str::to_owned)))?;
        for ((name, counts), intervals) in TRUE_CLASSES.iter().zip(&direct.calls).zip(&line.intervals) {
            if let Some(intervals) = intervals {
                streams.line(&row(name, &counts.map(|n| if n == 0 { ".".to_owned() } else { n.to_string() })))?;
                let intervals: Vec<String> = intervals.iter().map(|[low, high]| ends(*low, *high)).collect();
                streams.line(&row("", &intervals))?;
            }
        }
        for (what, share) in [("the very class", &direct.exact), ("within a year", &direct.within_one)] {
            if let Some(share) = share {
                streams.line(&format!("  {what}: {}", right(share)))?;
            }
        }
        for (name, share) in BROAD.iter().zip(&direct.broad) {
            if let Some(share) = share {
                streams.line(&format!("  in the broad class {name}: {}", right(share)))?;
            }
        }
        if let Some(bias) = direct.bias_years {
            streams.line(&format!("  grown deer on average {bias:+.1} years off (below zero: too young)"))?;
        }
    }
    streams.line("  table with rings and the published readers (20 readings a row) behind it, in 100;")?;
    streams.line("  below each row the middle 95 in 100")?;
    streams.line(&row("", &CALLS.map(str::to_owned)))?;
    for (name, learned) in TRUE_CLASSES.iter().zip(&line.learned.rows) {
        if learned.readings > 0.0 {
            streams.line(&row(name, &learned.cells.map(|cell| format!("{:.0}", cell.mean * 100.0))))?;
            streams.line(&row("", &learned.cells.map(|cell| ends(cell.low, cell.high))))?;
        }
    }
    Ok(())
}
