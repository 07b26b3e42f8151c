//! Message ids of the cause reading. None starts with `reading.`: those never speak of a cause.

use crate::record::find;
use crate::science::cause::{Cause, skeleton};

/// Title of the reading.
pub const TITLE: &str = "cause.title";
/// "Nothing was seen that speaks of the cause."
pub const NO_EVIDENCE: &str = "cause.no_evidence";
/// "{rank}. {cause}: {figure} in 100 ({low} to {high})"
pub const RANKED: &str = "cause.ranked";
/// "Predator, species uncertain", as the name of its share
pub const SPECIES_UNCERTAIN: &str = "cause.species_uncertain";
/// "Predator, species uncertain: {figure} in 100"
pub const UNCERTAIN_LINE: &str = "cause.species_uncertain_line";
/// "A predator of any kind: {figure} in 100"
pub const ANY_PREDATOR: &str = "cause.any_predator";
/// "For {cause}: {seen}"
pub const FOR: &str = "cause.for";
/// "Against {cause}: {seen}"
pub const AGAINST: &str = "cause.against";
/// "Fed on: {by}"
pub const FED_ON: &str = "cause.fed_on";
/// "Fed on, by what is not known"
pub const FED_ON_UNKNOWN: &str = "cause.fed_on_unknown";
/// "DNA ({lab}) from a wound that bled: {animal}"
pub const DNA: &str = "cause.dna";
/// "DNA ({lab}), {place}: {animal}. It may be from who ate"
pub const DNA_FED: &str = "cause.dna_fed";
/// "DNA ({lab}), {place}: no predator found"
pub const DNA_NONE: &str = "cause.dna_none";
/// "{how} ({by}): killed by {animal}"
pub const RECORD: &str = "cause.record";
/// "{how} ({by}): killed by {animal}. Word alone"
pub const RECORD_WITNESS: &str = "cause.record_witness";
/// "source not named"
pub const BY_NOBODY: &str = "cause.by_nobody";
/// "Low reserve besides: {seen}"
pub const CONTRIBUTING: &str = "cause.contributing";
/// "Started from {area} ..., winter {winter}"
pub const STARTED_FROM: &str = "cause.started_from";
/// "Evidence table: {name}, digest {digest}"
pub const TABLE: &str = "cause.table";
/// "In 100"
pub const UNIT: &str = "cause.unit";

/// Cautions.
pub mod caution {
    #![allow(missing_docs)]
    pub const EXPERT: &str = "cause.caution.expert";
    pub const DETECTION: &str = "cause.caution.detection";
    pub const NO_FIT: &str = "cause.caution.no_fit";
    pub const SPLIT: &str = "cause.caution.split";
    pub const NO_AREA: &str = "cause.caution.no_area";
    pub const WOLF_NOT_IN_AREA: &str = "cause.caution.wolf_not_in_area";
    pub const FEEDING: &str = "cause.caution.feeding";
    pub const FEW_PAIRS: &str = "cause.caution.few_pairs";
    pub const HANDLED: &str = "cause.caution.handled";
    pub const DISEASE_BY_EYE: &str = "cause.caution.disease_by_eye";
    pub const SNOW_LATER: &str = "cause.caution.snow_later";
    pub const PEOPLE: &str = "cause.caution.people";
    pub const CAUGHT: &str = "cause.caution.caught";
    pub const DNA_NO_CLOT: &str = "cause.caution.dna_no_clot";
    pub const RECORDS_DIFFER: &str = "cause.caution.records_differ";
    pub const RECORD_DIFFERS: &str = "cause.caution.record_differs";
    pub const RECORD_UNWEIGHED: &str = "cause.caution.record_unweighed";
}

/// Words, by `science::cause::Label::code`.
const LABELS: [&str; 9] = [
    "killed",
    "probably_killed",
    "possibly_killed",
    "probably_died",
    "possibly_died",
    "scavenged_only",
    "people",
    "people_likely",
    "not_determined",
];

/// A word's message.
pub fn label(code: &str) -> String {
    format!("cause.label.{code}")
}

/// A cause's name.
pub fn cause(cause: Cause) -> String {
    format!("cause.name.{}", cause.code())
}

/// An area's name; one of an office's own table is printed as it is written.
pub fn area(code: &str) -> Option<String> {
    crate::science::cause::AREAS.contains(&code).then(|| format!("cause.area.{code}"))
}

/// A winter's name.
pub fn winter(code: &str) -> String {
    format!("cause.winter.{code}")
}

/// What to look at for a row.
pub fn look(number: u8) -> String {
    let code = skeleton().iter().find(|row| row.number == number).map_or("", |row| row.code);
    format!("cause.look.{code}")
}

/// What was seen, by row and state from 0.
pub fn seen(number: u8, state: u8) -> String {
    let row = skeleton().iter().find(|row| row.number == number);
    let code = row.and_then(|row| row.states.get(usize::from(state))).map_or("", |state| state.code);
    format!("cause.seen.{}.{code}", row.map_or("", |row| row.code))
}

/// Who fed, by the codes of the track finding; birds besides. A deer does not, and `not named` is nobody.
fn feeders() -> impl Iterator<Item = &'static str> {
    let tracks = find("tracks_by").map_or(&[][..], |def| def.options());
    tracks.iter().copied().filter(|code| !matches!(*code, "deer" | "not_named")).chain(["birds"])
}

/// One who fed; `None` for what does not eat deer.
pub fn feeder(code: &str) -> Option<String> {
    feeders().any(|one| one == code).then(|| format!("cause.fed.{code}"))
}

/// What records of the kill and a tagged deer's catching have said.
pub const OF_RECORDS: [&str; 10] = [
    DNA,
    DNA_FED,
    DNA_NONE,
    RECORD,
    RECORD_WITNESS,
    caution::CAUGHT,
    caution::DNA_NO_CLOT,
    caution::RECORDS_DIFFER,
    caution::RECORD_DIFFERS,
    caution::RECORD_UNWEIGHED,
];

/// Every id.
pub fn all() -> Vec<String> {
    let plain = [
        TITLE,
        NO_EVIDENCE,
        RANKED,
        SPECIES_UNCERTAIN,
        UNCERTAIN_LINE,
        ANY_PREDATOR,
        FOR,
        AGAINST,
        FED_ON,
        FED_ON_UNKNOWN,
        CONTRIBUTING,
        STARTED_FROM,
        TABLE,
        UNIT,
        caution::EXPERT,
        caution::DETECTION,
        caution::NO_FIT,
        caution::SPLIT,
        caution::NO_AREA,
        caution::WOLF_NOT_IN_AREA,
        caution::FEEDING,
        caution::FEW_PAIRS,
        caution::HANDLED,
        caution::DISEASE_BY_EYE,
        caution::SNOW_LATER,
        caution::PEOPLE,
        BY_NOBODY,
    ];
    let mut ids: Vec<String> = plain.map(str::to_owned).into();
    ids.extend(OF_RECORDS.map(str::to_owned));
    ids.extend(LABELS.map(label));
    ids.extend(Cause::ALL.map(cause));
    ids.extend(crate::science::cause::AREAS.iter().filter_map(|code| area(code)));
    ids.extend(["mild", "usual", "severe"].map(winter));
    ids.extend(feeders().filter_map(feeder));
    ids.extend(measures::ALL.map(str::to_owned));
    ids.extend(crate::science::predators::Animal::ALL.map(|animal| measures::animal(animal.code())));
    for row in skeleton() {
        ids.push(look(row.number));
        ids.extend((0_u8..).zip(row.states).map(|(state, _)| seen(row.number, state)));
    }
    ids
}

/// Who left the signs.
pub mod measures {
    #![allow(missing_docs)]
    pub const TITLE: &str = "cause.measures.title";
    pub const NONE: &str = "cause.measures.none";
    pub const UPPER: &str = "cause.measure.upper";
    pub const LOWER: &str = "cause.measure.lower";
    pub const WIDTH: &str = "cause.measure.width";
    pub const LENGTH: &str = "cause.measure.length";
    pub const STRIDE: &str = "cause.measure.stride";
    pub const TOES: &str = "cause.measure.toes";
    pub const SCAT: &str = "cause.measure.scat";
    pub const TOLD: &str = "cause.measures.told";
    pub const OPEN: &str = "cause.measures.open";
    pub const NO_PREDATOR: &str = "cause.measures.no_predator";
    pub const SCAT_WOLF: &str = "cause.measures.scat_wolf";
    pub const SCAT_COYOTE: &str = "cause.measures.scat_coyote";
    pub const SCAT_OPEN: &str = "cause.measures.scat_open";
    pub const EAGLE: &str = "cause.measures.eagle";
    pub const TALONS_OPEN: &str = "cause.measures.talons_open";
    pub const ALIVE: &str = "cause.measures.caution.alive";
    pub const FEW_PAIRS: &str = "cause.measures.caution.few_pairs";
    pub const MELTED: &str = "cause.measures.caution.melted";

    pub(super) const ALL: [&str; 20] = [
        TITLE,
        NONE,
        UPPER,
        LOWER,
        WIDTH,
        LENGTH,
        STRIDE,
        TOES,
        SCAT,
        TOLD,
        OPEN,
        NO_PREDATOR,
        SCAT_WOLF,
        SCAT_COYOTE,
        SCAT_OPEN,
        EAGLE,
        TALONS_OPEN,
        ALIVE,
        FEW_PAIRS,
        MELTED,
    ];

    /// An animal's name.
    pub fn animal(code: &str) -> String {
        format!("cause.animal.{code}")
    }
}
