//! Message ids of what the local card brings into a reading, of known ages, and of answers that differ.
//!
//! As in [`super::message_ids`], the comment holds the English meant.

use crate::card::{NormAge, NormSex};

macro_rules! ids {
    ($($(#[$meta:meta])* $name:ident = $id:literal;)+) => {
        $($(#[$meta])* pub const $name: &str = $id;)+
        /// All ids of this list.
        pub const ALL: &[&str] = &[$($id,)+];
    };
}

ids! {
    /// "The local card was out of date then: the reserve's own figures were not used."
    CARD_EXPIRED = "reading.card.expired";
    /// "The local card was not yet in force then: ..."
    CARD_NOT_YET = "reading.card.not_yet";
    /// "The local card has a flaw: ..."
    CARD_BAD = "reading.card.bad";
    /// "No entry has a time to judge the card by: ..."
    CARD_NO_DATE = "reading.card.no_date";

    /// "Calls weighed by the reserve's own readers: {known} of known age, {rings} by rings (version {version} of {date})"
    OWN_READERS = "reading.age.own_readers";
    /// "Births taken round {day} (month-day), spread {sd} days: {source}"
    OWN_BIRTHS = "reading.age.own_births";
    /// "That starting point is the office's choice ({why}). Never join this age with a cause of death."
    OWN_PRIOR = "reading.age.own_prior";
    /// "Crown of the {tooth}: {best} months if grown ({low} to {high}), by the office's constants"
    OWN_CROWN = "reading.age.own_crown";
    /// "Crown of the {tooth} gives no age: {why}"
    OWN_CROWN_NOT = "reading.age.own_crown_not";
    /// "Molar ratio: {best} months if grown ({low} to {high}), by the office's line"
    OWN_RATIO = "reading.age.own_ratio";
    /// "Molar ratio gives no age: {why}"
    OWN_RATIO_NOT = "reading.age.own_ratio_not";

    /// "Its age is known: {class} ({how}). The reading above was made without it."
    AGE_KNOWN = "reading.age.known";
    /// "Rings read by {lab} from {tooth}"
    AGE_RINGS_FROM = "reading.age.rings_from";

    /// "{what} {mm}: {z} spreads from the mean of {group} of the reserve ({mean}, spread {sd}, {n} deer)"
    SIZE_NORM = "reading.size.norm";
    /// "fawns"
    NORM_FAWN = "reading.size.norm.fawn";
    /// "doe fawns"
    NORM_FAWN_FEMALE = "reading.size.norm.fawn_female";
    /// "buck fawns"
    NORM_FAWN_MALE = "reading.size.norm.fawn_male";
    /// "yearlings"
    NORM_YEARLING = "reading.size.norm.yearling";
    /// "yearling does"
    NORM_YEARLING_FEMALE = "reading.size.norm.yearling_female";
    /// "yearling bucks"
    NORM_YEARLING_MALE = "reading.size.norm.yearling_male";
    /// "grown deer"
    NORM_GROWN = "reading.size.norm.grown";
    /// "grown does"
    NORM_GROWN_FEMALE = "reading.size.norm.grown_female";
    /// "grown bucks"
    NORM_GROWN_MALE = "reading.size.norm.grown_male";
    /// "By size alone, against grown deer of the reserve: {what} {mm}; three to one at most"
    SEX_BY_SIZE = "reading.sex.by_size";

    /// "Answers differ, so there is no one figure. Each way is shown below."
    SPLIT_APART = "reading.split.apart";
    /// "Answers differ ({count} ways were worked out); every way is shown."
    SPLIT_WAYS = "reading.split.ways";

    /// "No reading: the answers on the species differ. Settle which holds."
    SPECIES_DIFFER = "reading.scope.species_differ";
}

/// The message that names a group of deer.
pub const fn norm_group(age: NormAge, sex: Option<NormSex>) -> &'static str {
    match (age, sex) {
        (NormAge::Fawn, None) => NORM_FAWN,
        (NormAge::Fawn, Some(NormSex::Female)) => NORM_FAWN_FEMALE,
        (NormAge::Fawn, Some(NormSex::Male)) => NORM_FAWN_MALE,
        (NormAge::Yearling, None) => NORM_YEARLING,
        (NormAge::Yearling, Some(NormSex::Female)) => NORM_YEARLING_FEMALE,
        (NormAge::Yearling, Some(NormSex::Male)) => NORM_YEARLING_MALE,
        (NormAge::Grown, None) => NORM_GROWN,
        (NormAge::Grown, Some(NormSex::Female)) => NORM_GROWN_FEMALE,
        (NormAge::Grown, Some(NormSex::Male)) => NORM_GROWN_MALE,
    }
}
