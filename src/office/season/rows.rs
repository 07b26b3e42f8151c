//! One row a carcass: what each part of the season takes of it.

use std::collections::BTreeMap;

use time::Date;

use crate::reading::for_season::{ForSeason, for_season};
use crate::reading::{DaysOfDeath, Given, Outcome, days_of_death, found_on};
use crate::record::short_code::short_code;
use crate::record::{Answer, Carcass, DeviceId, Examination, Fold, Place, Question, Site, Value, links};
use crate::science::age::DeathWindow;
use crate::science::winter::index::winter_of;

/// From this probability a carcass's age group is taken as known. Ours; the one that the cause takes.
pub const AGE_KNOWN: f64 = 0.8;

/// One carcass.
#[derive(Debug)]
pub struct Row<'a> {
    /// The carcass.
    pub carcass: &'a Carcass,
    /// Its short code.
    pub code: String,
    /// The year in which the winter begins in which it was found; `None` where nothing has a date.
    pub winter: Option<i32>,
    /// The day on which it was found.
    pub found: Option<Date>,
    /// Days on which it can have died.
    pub days: Option<DaysOfDeath>,
    /// The crew that examined it first; `None` where its device names none.
    pub crew: Option<String>,
    /// Where it lay, by its most exact place.
    pub place: Option<Place>,
    /// Readings, and what the mixtures take.
    pub view: ForSeason,
}

/// Age groups of tables.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
#[allow(missing_docs)]
pub enum AgeGroup {
    Fawn,
    Yearling,
    Adult,
    NotKnown,
}

impl AgeGroup {
    /// All.
    pub const ALL: [Self; 4] = [Self::Fawn, Self::Yearling, Self::Adult, Self::NotKnown];

    /// Stable name.
    pub const fn code(self) -> &'static str {
        match self {
            Self::Fawn => "fawn",
            Self::Yearling => "yearling",
            Self::Adult => "adult",
            Self::NotKnown => "not_known",
        }
    }
}

/// All carcasses of a fold, in the order of their ids.
pub fn rows<'a>(folded: &'a Fold, given: &Given<'a>, crews: &BTreeMap<DeviceId, String>) -> Vec<Row<'a>> {
    folded.carcasses.values().map(|carcass| row(carcass, given, crews)).collect()
}

/// One carcass's row.
pub fn row<'a>(carcass: &'a Carcass, given: &Given<'a>, crews: &BTreeMap<DeviceId, String>) -> Row<'a> {
    let found = found_on(carcass);
    Row {
        carcass,
        code: short_code(carcass.id),
        winter: found.map(winter_of),
        found,
        days: days_of_death(carcass, given),
        crew: crew(carcass, crews),
        place: place(carcass),
        view: for_season(carcass, given),
    }
}

/// The crew of the device that first named the carcass, by the order of the examinations' ids, which hold their time.
fn crew(carcass: &Carcass, crews: &BTreeMap<DeviceId, String>) -> Option<String> {
    let mut named = carcass.examinations.values().flat_map(|e| e.sheet.question(links::CARCASS, Site::NONE).standing);
    named.find_map(|standing| crews.get(&standing.id.device)).cloned()
}

/// Where it lay, by its most exact place.
pub fn place(carcass: &Carcass) -> Option<Place> {
    most_exact(&carcass.question("place", Site::NONE))
}

/// As [`Row::nothing_lay_there`].
pub fn nothing_lay_there(carcass: &Carcass) -> bool {
    const NOTHING: [&str; 3] = ["not_found", "removed", "alive_or_injured"];
    let says = |exam: &Examination| {
        exam.sheet.choice("report_outcome").is_some_and(|outcome| NOTHING.contains(&outcome.as_str()))
    };
    !carcass.examinations.is_empty() && carcass.examinations.values().all(says)
}

/// The place with the smallest radius; one without a radius comes last.
pub fn most_exact(question: &Question) -> Option<Place> {
    let places = question.results().into_iter().filter_map(|answer| match answer {
        Answer::Seen { value: Value::Place(place) } => Some(place),
        _ => None,
    });
    places.min_by_key(|place| (place.accuracy_m_95.unwrap_or(u32::MAX), (*place).clone())).cloned()
}

impl Row<'_> {
    /// Whether it is a white-tailed deer that died in the months of the methods: it counts in the figures.
    pub fn counts(&self) -> bool {
        self.view.closed.is_none()
    }

    /// Whether somebody said of every visit that no dead animal lay there: a place was visited, no carcass was found.
    pub fn nothing_lay_there(&self) -> bool {
        nothing_lay_there(self.carcass)
    }

    /// The window of its death, where it has one.
    pub fn window(&self) -> Option<DeathWindow> {
        self.days.map(|days| DeathWindow { from: days.from, to: days.to })
    }

    /// Probability of each class of completed birthdays, where something beyond a look from afar speaks of it.
    pub fn classes(&self) -> Option<Vec<f64>> {
        let birthdays = self.view.readings.age.estimates.first().filter(|_| self.view.aged)?;
        Some(birthdays.shares.iter().map(|share| share.probability).collect())
    }

    /// Its age group, where that is known well enough.
    pub fn age_group(&self) -> AgeGroup {
        let Some(classes) = self.classes() else { return AgeGroup::NotKnown };
        let fawn = classes.first().copied().unwrap_or(0.0);
        let yearling = classes.get(1).copied().unwrap_or(0.0);
        let groups = [(AgeGroup::Fawn, fawn), (AgeGroup::Yearling, yearling), (AgeGroup::Adult, 1.0 - fawn - yearling)];
        groups.into_iter().find(|(_, p)| *p >= AGE_KNOWN).map_or(AgeGroup::NotKnown, |(group, _)| group)
    }

    /// The word on its condition: the last part of the message that says it. `not_looked` where nothing was looked at,
    /// `refused` where the method is closed.
    pub fn condition(&self) -> &str {
        let Some(reading) = &self.view.readings.combined else { return "not_looked" };
        match reading.outcome {
            Outcome::NoEvidence => "not_looked",
            Outcome::Refused => "refused",
            Outcome::Read => {
                let said = reading.statements.first().map_or("", |said| said.id.as_str());
                said.rsplit('.').next().unwrap_or_default()
            }
        }
    }
}
