//! What Darwin Core takes of a carcass beside the tables: the event, who recorded it, and its facts.

use std::collections::BTreeSet;

use super::Tables;
use super::carcasses::{cause, life_stage, sex};
use super::dwc::urn;
use super::examinations::{arrived, span};
use super::findings::{parts, unit};
use super::gathered::From;
use super::readings::sources;
use super::table::Cell;
use crate::guide::PROTOCOL;
use crate::office::season::LANGUAGE;
use crate::office::season::rows::Row;
use crate::reading::{Outcome, Reading};
use crate::record::{Answer, Digest, Examination, Moment, PlaceSource, Site, Standing, Value, links};
use crate::words::say;

/// Terms of the core, in the order of its columns.
pub(super) const OCCURRENCE: [&str; 30] = [
    "occurrenceID",
    "basisOfRecord",
    "datasetName",
    "institutionCode",
    "informationWithheld",
    "dataGeneralizations",
    "recordedBy",
    "individualCount",
    "sex",
    "lifeStage",
    "reproductiveCondition",
    "vitality",
    "occurrenceStatus",
    "associatedMedia",
    "occurrenceRemarks",
    "causeOfDeath",
    "eventID",
    "eventDate",
    "samplingProtocol",
    "samplingEffort",
    "decimalLatitude",
    "decimalLongitude",
    "geodeticDatum",
    "coordinateUncertaintyInMeters",
    "georeferenceProtocol",
    "identificationRemarks",
    "scientificName",
    "kingdom",
    "taxonRank",
    "vernacularName",
];

/// Terms of the extension, after the occurrence's id.
pub(super) const FACTS: [&str; 9] = [
    "measurementID",
    "measurementType",
    "measurementValue",
    "measurementAccuracy",
    "measurementUnit",
    "measurementDeterminedBy",
    "measurementDeterminedDate",
    "measurementMethod",
    "measurementRemarks",
];

/// A measured or judged fact.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Fact {
    pub(super) id: String,
    pub(super) kind: String,
    pub(super) value: String,
    pub(super) accuracy: String,
    pub(super) unit: String,
    pub(super) by: String,
    pub(super) at: String,
    pub(super) method: String,
    pub(super) remarks: String,
}

/// What a carcass gives beside its row.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct More {
    event: String,
    date: String,
    recorded_by: String,
    life_stage: String,
    sex: String,
    cause: String,
    pregnant: String,
    media: String,
    effort: String,
    protocol: String,
    pub(super) facts: Vec<Fact>,
}

/// An id that a fact keeps from one export to the next: a UUID of version 8 over what names it.
fn id_of(name: &str) -> String {
    let digest = Digest::of(&[b"marrowbook fact", name.as_bytes()]);
    let mut bytes = [0_u8; 16];
    for (slot, byte) in bytes.iter_mut().zip(digest.0) {
        *slot = byte;
    }
    urn(&uuid::Builder::from_custom_bytes(bytes).into_uuid().to_string())
}

/// What one carcass gives.
pub(super) fn more(from: &From, row: &Row) -> More {
    let exams: Vec<&Examination> = row.carcass.examinations.values().collect();
    let field = exams.iter().find(|exam| exam.kind.as_deref() != Some("bench")).or(exams.first());
    let fetus = match row.carcass.question("fetus", Site::NONE).settled() {
        Some(Answer::Seen { .. }) => "pregnant",
        // No more than that: an early one is not seen.
        Some(Answer::NotSeen) => "no fetus found",
        _ => "",
    };
    More {
        event: field.map(|exam| urn(&exam.id.to_string())).unwrap_or_default(),
        date: field.and_then(|exam| date(exam)).map(|at| at.to_string()).unwrap_or_default(),
        recorded_by: recorded_by(from, &exams),
        life_stage: life_stage(row).unwrap_or_default().to_owned(),
        sex: sex(row).unwrap_or_default().to_owned(),
        // With the word that says how sure: a bare cause would be read as a finding.
        cause: cause_in_words(row).unwrap_or_default(),
        pregnant: fetus.to_owned(),
        media: media(&exams),
        effort: field.map(|exam| effort(from, exam)).unwrap_or_default(),
        protocol: row.place.as_ref().map(|place| protocol(place.source).to_owned()).unwrap_or_default(),
        facts: facts(from, row, &exams),
    }
}

/// The sentence on the cause, where it names one.
fn cause_in_words(row: &Row) -> Option<String> {
    cause(row).1?;
    Some(row.view.readings.cause.as_ref()?.statements.first()?.say(LANGUAGE))
}

/// When it was examined: as the answers say, else by the phone's clock.
fn date(exam: &Examination) -> Option<Moment> {
    arrived(exam).or_else(|| span(exam).map(|(first, _)| first))
}

const fn protocol(source: PlaceSource) -> &'static str {
    match source {
        PlaceSource::Device => "device GNSS, W3C Geolocation accuracy, 95 %",
        PlaceSource::Typed => "typed from map",
    }
}

/// Everybody who looked, where names are let out: by the name on the card, else by the code.
fn recorded_by(from: &From, exams: &[&Examination]) -> String {
    if !from.asked.names {
        return String::new();
    }
    let all = exams.iter().flat_map(|exam| exam.sheet.answers()).flat_map(|(_, _, all)| all);
    let people: BTreeSet<_> = all.map(|standing| &standing.observer).collect();
    let name = |person| from.name(person).unwrap_or_else(|| person.as_str().to_owned());
    people.into_iter().map(name).collect::<Vec<_>>().join(" | ")
}

/// Photos by their digests: the files go with the bundles.
fn media(exams: &[&Examination]) -> String {
    let all = exams.iter().flat_map(|exam| exam.sheet.answers()).flat_map(|(_, _, all)| all);
    let photos = all.filter_map(|standing| match &standing.answer {
        Answer::Seen { value: Value::Photo(photo) } => Some(format!("sha256:{}", photo.sha256)),
        _ => None,
    });
    photos.collect::<BTreeSet<_>>().into_iter().collect::<Vec<_>>().join(" | ")
}

/// Lines and their strip, where the outing was a search along lines.
fn effort(from: &From, exam: &Examination) -> String {
    let Answer::Seen { value: Value::Ref(outing) } = exam.sheet.answer(links::OUTING) else { return String::new() };
    let Some(sheet) = from.folded.outings.get(&outing) else { return String::new() };
    match (sheet.choice("outing_kind").as_deref(), sheet.choice("search_route").as_deref()) {
        (Some("response"), _) => "visit to a carcass that was reported".to_owned(),
        (Some("search"), Some("lines")) => {
            let lengths = crate::office::season::density::lengths(sheet);
            let strip = sheet.number("search_strip_m").map(|m| format!(", {m} m to each side")).unwrap_or_default();
            format!("search along {} lines, {} m{strip}", lengths.len(), lengths.iter().sum::<i64>())
        }
        (Some("search"), Some("trails")) => "search along trails".to_owned(),
        _ => String::new(),
    }
}

fn facts(from: &From, row: &Row, exams: &[&Examination]) -> Vec<Fact> {
    let mut all = Vec::new();
    for exam in exams {
        for (finding, site, standing) in exam.sheet.answers() {
            all.extend(standing.iter().map(|one| answered(from, finding.as_str(), site, one)));
        }
    }
    let carcass = row.carcass.id.to_string();
    for reading in row.view.readings.each() {
        all.extend(estimated(&carcass, &row.view.readings.science, reading));
    }
    if let Some(days) = row.days {
        let assumed = if days.first_is_assumed { "nothing that was seen or told bounds it: assumed" } else { "" };
        for (kind, day, remarks) in [("death.earliest_day", days.from, assumed), ("death.latest_day", days.to, "")] {
            all.push(Fact {
                id: id_of(&format!("{carcass} {kind}")),
                kind: kind.to_owned(),
                value: day.to_string(),
                method: format!("Marrowbook methods {}, death window", row.view.readings.science),
                remarks: remarks.to_owned(),
                ..Fact::default()
            });
        }
    }
    if let (Some(word), of) = cause(row) {
        all.push(Fact {
            id: id_of(&format!("{carcass} cause word")),
            kind: "cause_of_death.strength".to_owned(),
            value: word.to_owned(),
            method: format!("Marrowbook methods {}, cause.of_death", row.view.readings.science),
            remarks: of.unwrap_or_default().to_owned(),
            ..Fact::default()
        });
    }
    all
}

/// A finding with its place, such as `dentine.left.m1`.
fn kind(finding: &str, site: Site) -> String {
    let parts = [
        Some(finding.to_owned()),
        site.side.map(|side| side.code().to_owned()),
        site.tooth.map(|tooth| tooth.name().to_ascii_lowercase()),
        site.bone.map(|bone| bone.code().to_owned()),
        site.item.map(|item| item.to_string()),
    ];
    parts.into_iter().flatten().collect::<Vec<_>>().join(".")
}

fn answered(from: &From, finding: &str, site: Site, one: &Standing) -> Fact {
    let (state, why, value) = parts(from, finding, &one.answer);
    let number = value.number.map(|x| x.to_string());
    let said = match state {
        "not_seen" => "notDetected".to_owned(),
        "cant_tell" => "cannotTell".to_owned(),
        "not_looked" => "notAssessed".to_owned(),
        "part_gone" => "partGone".to_owned(),
        _ if value.withheld => "withheld".to_owned(),
        _ => number.clone().or(value.text).unwrap_or_default(),
    };
    let by = from.name(&one.observer).unwrap_or_else(|| match from.code(&one.observer) {
        Cell::Text(code) => code,
        _ => String::new(),
    });
    Fact {
        id: id_of(&one.id.to_string()),
        kind: kind(finding, site),
        value: said,
        accuracy: String::new(),
        unit: number.and(unit(finding)).unwrap_or_default().to_owned(),
        by,
        at: one.at.to_string(),
        method: match &one.step {
            Some(step) => format!("Marrowbook protocol {PROTOCOL}, step {step}"),
            None => format!("Marrowbook protocol {PROTOCOL}"),
        },
        remarks: why.unwrap_or_default(),
    }
}

/// A reading's estimates as facts: best value, range as accuracy, method with version and sources.
fn estimated(carcass: &str, science: &str, reading: &Reading) -> Vec<Fact> {
    let method = format!("Marrowbook methods {science}, {}; {}", reading.method, sources(&reading.sources));
    let method = method.trim_end_matches([';', ' ']).to_owned();
    let headline = reading.statements.first().map(|said| said.say(LANGUAGE)).unwrap_or_default();
    let mut all = Vec::new();
    if reading.outcome == Outcome::Read {
        for (number, one) in (1..).zip(&reading.estimates) {
            let Some(best) = one.best else { continue };
            let range = one.low.zip(one.high).map(|(low, high)| {
                let coverage = one.coverage.map(|p| format!(", coverage {p:.4}")).unwrap_or_default();
                format!("{low} to {high}{coverage}")
            });
            all.push(Fact {
                id: id_of(&format!("{carcass} {} {number}", reading.method)),
                kind: format!("{}.{number}", reading.method),
                value: best.to_string(),
                accuracy: range.unwrap_or_default(),
                unit: say(LANGUAGE, &one.unit, &[]),
                method: method.clone(),
                remarks: headline.clone(),
                ..Fact::default()
            });
        }
    }
    if all.is_empty() {
        // What was refused was looked at, and why it says nothing is told.
        let (value, remarks) = match reading.outcome {
            Outcome::Read => (headline, String::new()),
            Outcome::Refused => ("refused".to_owned(), headline),
            Outcome::NoEvidence => ("notAssessed".to_owned(), String::new()),
        };
        all.push(Fact {
            id: id_of(&format!("{carcass} {}", reading.method)),
            kind: reading.method.clone(),
            value,
            method,
            remarks,
            ..Fact::default()
        });
    }
    all
}

/// Scientific name, rank and common name of a species code.
fn taxon(species: Option<&str>) -> [&'static str; 4] {
    match species {
        Some("white_tailed_deer") => ["Odocoileus virginianus", "species", "white-tailed deer", ""],
        Some("other_deer") => ["Cervidae", "family", "", "a deer of another kind"],
        Some("other_animal") => ["Animalia", "kingdom", "", "no deer"],
        _ => ["Animalia", "kingdom", "", "the species was not told, or those who looked differ"],
    }
}

/// The row of the core.
pub(super) fn occurrence(tables: &Tables, row: &[Cell], more: &More) -> Vec<String> {
    let carcasses = &tables.carcasses;
    let text = |name: &str| carcasses.cell(row, name).text().unwrap_or_default().to_owned();
    let number = |name: &str| carcasses.cell(row, name).number().map(|x| x.to_string()).unwrap_or_default();
    let placed = carcasses.cell(row, "latitude").number().is_some();
    let where_placed = |text: &str| if placed { text.to_owned() } else { String::new() };
    let [name, rank, common, remarks] = taxon(carcasses.cell(row, "species").text());
    let office = tables.office.clone().unwrap_or_default();
    let status = if tables.asked.older_status { "present" } else { "detected" };
    let grid = tables.asked.places.grid_m().map(|_| tables.asked.of_places());
    vec![
        urn(&text("carcass_id")),
        "HumanObservation".to_owned(),
        "Deer carcasses found on snow".to_owned(),
        office,
        tables.asked.of_persons(),
        grid.unwrap_or_default(),
        more.recorded_by.clone(),
        "1".to_owned(),
        more.sex.clone(),
        more.life_stage.clone(),
        more.pregnant.clone(),
        "dead".to_owned(),
        status.to_owned(),
        more.media.clone(),
        text("left_out_because"),
        more.cause.clone(),
        more.event.clone(),
        more.date.clone(),
        format!("Marrowbook protocol {PROTOCOL}"),
        more.effort.clone(),
        number("latitude"),
        number("longitude"),
        where_placed("EPSG:4326"),
        number("place_uncertainty_m"),
        more.protocol.clone(),
        remarks.to_owned(),
        name.to_owned(),
        "Animalia".to_owned(),
        rank.to_owned(),
        common.to_owned(),
    ]
}
