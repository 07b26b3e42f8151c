//! What the cause reading starts from: the card's area, season and winter, shown with the reading.

use super::cause_ids as id;
use super::shape::{Statement, Val};
use super::{Given, GivenCard};
use crate::card::{Card, CauseSettings, WinterWord};
use crate::record::{Carcass, Moment};
use crate::science::age::DeathWindow;
use crate::science::cause::{AREAS, Modifiers, PerCause, Table, Winter, prior};
use time::{Date, Duration, Month};

/// Days after a deer season on which hidden wounds are twice as likely. Expert judgement.
const AFTER_SEASON_DAYS: i64 = 30;

/// What it starts from.
pub(super) struct Start {
    pub(super) prior: PerCause,
    /// The card names the area.
    pub(super) area_chosen: bool,
    /// The card says that wolves are about, and the area's shares have none.
    pub(super) wolf_missing: bool,
    area: String,
    winter: WinterWord,
}

impl Start {
    pub(super) fn statement(&self) -> Statement {
        let area = id::area(&self.area).map_or_else(|| Val::Text(self.area.clone()), Val::Message);
        let winter = match self.winter {
            WinterWord::Mild => "mild",
            WinterWord::Usual => "usual",
            WinterWord::Severe => "severe",
        };
        Statement::plain(id::STARTED_FROM).with("area", area).with("winter", Val::Message(id::winter(winter)))
    }
}

/// The card, where it was in force when it had to be.
pub(super) fn held_card<'g>(given: &Given<'g>, carcass: &Carcass) -> Option<GivenCard<'g>> {
    let last = || {
        let standing = carcass.examinations.values().flat_map(|e| e.sheet.answers()).flat_map(|(_, _, all)| all);
        standing.map(|s| s.at).filter(|at| *at != Moment::EPOCH).max_by_key(|at| at.unix_seconds())
    };
    given.card.filter(|card| card.at.or_else(last).is_none_or(|at| card.card.holds_at(at)))
}

/// The start. Without a card that names an area: with wolf where the card says that wolves are about, else
/// without.
pub(super) fn start(card: Option<&Card>, table: &Table, days: Option<DeathWindow>) -> Start {
    let settings = card.and_then(|card| card.cause.as_ref());
    let about = |animal: &str| card.is_some_and(|card| card.flags.predators.iter().any(|p| p == animal));
    let [without, with_wolf, _] = AREAS;
    let guessed = if about("wolf") { with_wolf } else { without };
    let area = settings.map_or(guessed, |s| s.area.as_str());
    let set = table.prior(area).or_else(|| table.priors.first().map(|set| &set.shares)).copied();
    let set = set.unwrap_or([1.0 / 12.0; 12]);
    let winter = settings.map(|s| s.winter).unwrap_or_default();
    let modifiers = Modifiers {
        cougar: about("cougar"),
        winter: match winter {
            WinterWord::Mild => Winter::Mild,
            WinterWord::Usual => Winter::Usual,
            WinterWord::Severe => Winter::Severe,
        },
        bears_denned: settings.is_some_and(|s| s.bears_denned),
        feed_site: settings.and_then(|s| s.feed_site),
        after_season: settings.zip(days).is_some_and(|(s, days)| after_season(s, days)),
        found_from_road: false,
        age: None,
    };
    let [_, wolf, ..] = set;
    Start {
        prior: prior(&set, modifiers).unwrap_or(set),
        area_chosen: settings.is_some(),
        wolf_missing: about("wolf") && wolf <= 0.0,
        area: area.to_owned(),
        winter,
    }
}

/// Whether some day of the window lies at most so many days after the season's end.
fn after_season(settings: &CauseSettings, days: DeathWindow) -> bool {
    let end = settings.season_ended.and_then(|at| {
        let (year, month, day) = at.date();
        Date::from_calendar_date(year, Month::try_from(month).ok()?, day).ok()
    });
    end.is_some_and(|end| {
        let last = end.checked_add(Duration::days(AFTER_SEASON_DAYS)).unwrap_or(end);
        days.from <= last && days.to >= end
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::science::cause::Cause;
    use time::macros::date;

    /// `cause-and-time-of-death.md` 4: shot twice as likely within 30 days after a deer season, so twice the odds
    /// against a vehicle, which no season moves.
    #[test]
    fn shot_is_twice_as_likely_for_thirty_days_after_the_season() {
        let mut card = Card::from_json(include_str!("../../demo/card.json")).unwrap();
        card.cause.as_mut().unwrap().season_ended = Some(Moment::parse("2026-12-12T17:00:00-05:00").unwrap());
        let table = Table::built_in();
        let odds = |days: Option<(Date, Date)>| {
            let prior = start(Some(&card), &table, days.map(|(from, to)| DeathWindow { from, to })).prior;
            assert!((prior.iter().sum::<f64>() - 1.0).abs() < 1e-12, "shares of a whole");
            Cause::Shot.of(&prior) / Cause::Vehicle.of(&prior)
        };
        let usual = odds(None);
        let twice = |from, to| {
            let ratio = odds(Some((from, to))) / usual;
            assert!((ratio - 1.0).abs() < 1e-9 || (ratio - 2.0).abs() < 1e-9, "{ratio}");
            ratio > 1.5
        };
        // The last day of the season, each day of the 30 after it, and a window that reaches into them, on either end.
        assert!(twice(date!(2026 - 12 - 12), date!(2026 - 12 - 12)));
        assert!(twice(date!(2026 - 12 - 20), date!(2026 - 12 - 22)));
        assert!(twice(date!(2027 - 01 - 11), date!(2027 - 01 - 20)));
        assert!(twice(date!(2026 - 12 - 01), date!(2026 - 12 - 13)));
        assert!(twice(date!(2026 - 11 - 01), date!(2027 - 03 - 01)));
        assert!(!twice(date!(2027 - 01 - 12), date!(2027 - 01 - 20)));
        assert!(!twice(date!(2026 - 12 - 01), date!(2026 - 12 - 11)));
    }
}
