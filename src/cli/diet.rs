//! `office diet`: what the deer of each month had eaten, pooled over deer.

use super::config::Diet;
use super::error::CliError;
use super::exit::Exit;
use super::gather;
use super::streams::Streams;
use crate::office::diet::{DietReport, FoodLine, MonthDiet, diet};
use crate::words::{Language, raw};

/// Reads every file and prints the months; the worst file decides the exit code.
pub(super) fn run(config: &Diet, streams: &mut Streams<'_>) -> Result<Exit, CliError> {
    let (carcasses, exit) = gather::carcasses(&config.archive, &config.files, streams)?;
    let report = diet(carcasses.iter().map(|(_, carcass)| carcass));
    if config.json {
        streams.line(&serde_json::to_string(&report).map_err(|error| CliError::Output(error.into()))?)?;
    } else {
        print(&report, streams)?;
    }
    for one in &report.left_out {
        let named = carcasses.iter().find(|(_, carcass)| carcass.id == one.carcass);
        let name = named.and_then(|(name, _)| name.clone()).unwrap_or_else(|| one.carcass.to_string());
        streams.note(&format!("{name} is left out: {}", one.reason));
    }
    Ok(exit)
}

fn print(report: &DietReport, streams: &mut Streams<'_>) -> Result<(), CliError> {
    if report.months.is_empty() {
        streams.line("No rumen was counted or sorted in these files.")?;
    }
    for month in &report.months {
        head(month, streams)?;
        for line in month.foods.iter().chain(&month.tiers) {
            streams.line(&row(line))?;
        }
        for note in &month.notes {
            streams.line(&format!("  {note}"))?;
        }
    }
    Ok(())
}

fn head(month: &MonthDiet, streams: &mut Streams<'_>) -> Result<(), CliError> {
    let [points, ml, percent] = month.by;
    streams.line(&format!(
        "{}: {} deer ({points} by points, {ml} by ml, {percent} by percent); {} more found that month without shares",
        month.month, month.deer, month.without_shares
    ))?;
    streams.line(&format!(
        "  {:<34} {:>22} {:>22} {:>24}",
        "food", "aggregate percent", "aggregate volume", "deer that had it"
    ))
}

fn row(line: &FoodLine) -> String {
    let ends =
        |ends: Option<[f64; 2]>| ends.map_or_else(String::new, |[low, high]| format!(" ({low:.1} to {high:.1})"));
    let percent = format!("{:.1}{}", line.aggregate_percent, ends(line.percent_low_high));
    let volume = line
        .aggregate_volume
        .map_or_else(|| "not measured".to_owned(), |volume| format!("{volume:.1}{}", ends(line.volume_low_high)));
    let with = format!("{}, {:.0} %{}", line.deer_with, line.frequency_percent, ends(line.frequency_low_high));
    format!("  {:<34} {percent:>22} {volume:>22} {with:>24}", name(&line.food))
}

/// The trade name of a plant; a tier or a plant not known here by its code.
fn name(code: &str) -> String {
    if let Some(words) = code.strip_prefix("own:") {
        return format!("{words} (a crew's own)");
    }
    raw(Language::English, &format!("plant.{code}")).map_or_else(|| code.replace('_', " "), str::to_owned)
}
