//! One row a carcass.

use super::gathered::{From, season};
use super::table::{Cell, Column, Kind, SEASON, Table, always, may};
use crate::office::season::rows::{AgeGroup, Row};
use crate::reading::{Estimate, Outcome, message_ids as id};

const COLUMNS: &[Column] = &[
    SEASON,
    always("carcass_id", Kind::Text, "UUID; the smallest of those that the office joined"),
    always("short_code", Kind::Text, "Six letters, as the phone shows them"),
    may("found_on", Kind::Day, "Local day on which it was found"),
    may("crew", Kind::Text, "Crew that examined it first"),
    always("examinations_count", Kind::Integer, "Occasions on which it was looked at, on the bench too"),
    always("joined_count", Kind::Integer, "Ids under which it was reported, joined by the office"),
    may("species", Kind::Text, "white_tailed_deer, other_deer or other_animal, where all who looked agree"),
    always("counts", Kind::Flag, "Whether it counts in the season's figures"),
    may("left_out_because", Kind::Text, "Why not"),
    may("latitude", Kind::Number, "Degrees, WGS 84; see place_grid_m"),
    may("longitude", Kind::Number, "Degrees, WGS 84; see place_grid_m"),
    may("place_uncertainty_m", Kind::Integer, "Radius that holds the place, the blurring in it; empty where not known"),
    may("place_grid_m", Kind::Integer, "Side of the square whose middle stands for the place; empty where it is exact"),
    may("place_source", Kind::Text, "device or typed"),
    may("died_from", Kind::Day, "First day on which it can have died"),
    may("died_to", Kind::Day, "Last day on which it can have died"),
    may("died_from_is_assumed", Kind::Flag, "Nothing that was seen or told bounds the first day"),
    always("age_group", Kind::Text, "fawn, yearling or adult where at least 0.8 likely, else not_known"),
    may("age_birthdays", Kind::Number, "Completed birthdays, likeliest"),
    may("age_birthdays_low", Kind::Number, "Lower end of the range"),
    may("age_birthdays_high", Kind::Number, "Upper end of the range"),
    may("age_coverage", Kind::Number, "Probability that the range holds it, 0 to 1"),
    may("sex", Kind::Text, "female or male, where a certain sign or the crew's call says so; never guessed"),
    may("female_probability", Kind::Number, "0 to 1; empty where no sign speaks of it"),
    always("condition", Kind::Text, "Last part of the message that says it; not_looked, refused"),
    may(
        "cause_word",
        Kind::Text,
        "killed, probably_killed, possibly_killed, probably_died, possibly_died, scavenged_only, people, not_determined",
    ),
    may("cause", Kind::Text, "Cause that the word is about; empty where the word names none"),
];

/// The table. Places where nothing lay are not in it.
pub(super) fn table(from: &From) -> Table {
    let rows = from.rows.iter().filter(|row| !row.nothing_lay_there()).map(|row| line(from, row)).collect();
    let about = "One row a carcass, over all its examinations, with its readings as this program makes them";
    Table { name: "carcasses", about, columns: COLUMNS, key: &["carcass_id"], of_carcass: false, rows }
}

/// The sex, where it is certain or was called.
pub(super) fn sex(row: &Row) -> Option<&'static str> {
    match row.view.readings.sex.statements.first()?.id.as_str() {
        id::SEX_FEMALE => Some("female"),
        id::SEX_MALE => Some("male"),
        _ => None,
    }
}

/// The word on the cause and the cause that it names, as codes.
pub(super) fn cause<'a>(row: &'a Row) -> (Option<&'a str>, Option<&'a str>) {
    let read = row.view.readings.cause.as_ref().filter(|reading| reading.outcome == Outcome::Read);
    let Some(said) = read.and_then(|reading| reading.statements.first()) else { return (None, None) };
    let word = said.id.strip_prefix("cause.label.");
    let cause = match said.values.get("cause") {
        Some(crate::reading::Val::Message(id)) => id.strip_prefix("cause.name."),
        _ => None,
    };
    (word, cause)
}

fn line(from: &From, row: &Row) -> Vec<Cell> {
    let place = row.place.as_ref().map(|place| from.asked.places.given(place));
    let at = place.as_ref();
    let age = row.view.readings.age.estimates.first().filter(|e| e.unit == id::UNIT_BIRTHDAYS && row.view.aged);
    let age_of = |of: fn(&Estimate) -> Option<f64>| Cell::from(age.and_then(of));
    let female = row.view.readings.sex.estimates.first();
    let female = female.and_then(|e| e.shares.iter().find(|share| share.of == id::SEX_FEMALE));
    let (word, cause) = cause(row);
    let group = row.age_group();
    let source = at.map(|at| match at.source {
        crate::record::PlaceSource::Device => "device",
        crate::record::PlaceSource::Typed => "typed",
    });
    vec![
        season(row),
        row.carcass.id.into(),
        row.code.clone().into(),
        row.found.into(),
        from.crew(row),
        row.carcass.examinations.len().into(),
        row.carcass.joined.len().into(),
        row.carcass.choice("species").into(),
        row.counts().into(),
        row.view.closed.map(|why| crate::office::season::tell(why, &[])).into(),
        at.map(|at| at.latitude).into(),
        at.map(|at| at.longitude).into(),
        at.and_then(|at| at.uncertainty_m).into(),
        at.and(from.asked.places.grid_m()).into(),
        source.into(),
        row.days.map(|days| days.from).into(),
        row.days.map(|days| days.to).into(),
        row.days.map(|days| days.first_is_assumed).into(),
        group.code().into(),
        age_of(|e| e.best),
        age_of(|e| e.low),
        age_of(|e| e.high),
        age_of(|e| e.coverage),
        sex(row).into(),
        female.map(|share| share.probability).into(),
        row.condition().into(),
        word.into(),
        cause.into(),
    ]
}

/// The age group as Darwin Core's life stage.
pub(super) fn life_stage(row: &Row) -> Option<&'static str> {
    let group = row.age_group();
    (group != AgeGroup::NotKnown).then(|| group.code())
}
