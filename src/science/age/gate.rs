//! When the method is open, and the winter that it works in.

use serde::{Deserialize, Serialize};
use time::{Date, Month};

use super::Settings;
use super::birth::SOUTHERN_LIMIT_DEG;
use super::evidence::{AgeEvidence, DeathWindow, Species};

/// Why there is no estimate. The findings stay in the record.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize, thiserror::Error)]
#[serde(rename_all = "snake_case")]
pub enum AgeRefusal {
    /// The method is for white-tailed deer.
    #[error("the method is for white-tailed deer only")]
    NotWhiteTailed,
    /// Species not told.
    #[error("the species is not known")]
    SpeciesUnknown,
    /// No dates.
    #[error("no days are given between which the deer died")]
    NoDeathWindow,
    /// Last day before first.
    #[error("the last possible day of death lies before the first")]
    WindowReversed,
    /// The window covers two winters.
    #[error("the days of death span more than one winter")]
    TwoWinters,
    /// No day of the window in November to May.
    #[error("the method is for deer that died from November to May")]
    OutsideSeason,
    /// South of the range of the birth dates.
    #[error("the birth dates hold only north of 38 degrees")]
    TooFarSouth,
    /// Latitude, late share or birth dates not in range.
    #[error("a setting is out of range")]
    BadSetting,
}

/// The checks, and the window within November to May with whether it had to be cut.
pub(super) fn check(evidence: &AgeEvidence, settings: &Settings) -> Result<(DeathWindow, bool), AgeRefusal> {
    match evidence.species {
        Species::WhiteTailed => {}
        Species::Other => return Err(AgeRefusal::NotWhiteTailed),
        Species::Unknown => return Err(AgeRefusal::SpeciesUnknown),
    }
    if !(0.0..=1.0).contains(&settings.late_share) || !settings.births.is_sound() {
        return Err(AgeRefusal::BadSetting);
    }
    if let Some(latitude) = evidence.latitude_deg {
        if !(-90.0..=90.0).contains(&latitude) {
            return Err(AgeRefusal::BadSetting);
        }
        if latitude < SOUTHERN_LIMIT_DEG {
            return Err(AgeRefusal::TooFarSouth);
        }
    }
    let window = evidence.death.ok_or(AgeRefusal::NoDeathWindow)?;
    if window.to < window.from {
        return Err(AgeRefusal::WindowReversed);
    }
    within_winter(window)
}

fn within_winter(window: DeathWindow) -> Result<(DeathWindow, bool), AgeRefusal> {
    // The winter that the last day lies in, or the one before it.
    let autumn = matches!(window.to.month(), Month::November | Month::December);
    let spring_year = window.to.year() + i32::from(autumn);
    let date = |year, month, day| Date::from_calendar_date(year, month, day).map_err(|_| AgeRefusal::OutsideSeason);
    let start = date(spring_year - 1, Month::November, 1)?;
    let end = date(spring_year, Month::May, 31)?;
    let spring_before = date(spring_year - 1, Month::May, 31)?;
    if window.from <= spring_before {
        return Err(AgeRefusal::TwoWinters);
    }
    let cut = DeathWindow { from: window.from.max(start), to: window.to.min(end) };
    if cut.to < cut.from {
        return Err(AgeRefusal::OutsideSeason);
    }
    Ok((cut, cut != window))
}
