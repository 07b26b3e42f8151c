//! What of a local card has a field in the form: where it lies in the card's JSON (RFC 6901 pointers) and of what
//! kind it is. What is not listed here is carried over as it stands.

use crate::card::CallFor;

/// Of what kind a field is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Kind {
    /// One line of text that must stand on the card.
    Line,
    /// Words that may be left out.
    Words,
    /// A whole number; left out where nothing is typed.
    Whole,
    /// The first moment of a day.
    DayBegins,
    /// The last moment of a day.
    DayEnds,
    /// On or off; off is left out.
    Flag,
    /// Yes, no, or left out where nobody knows.
    Maybe,
    /// One of these codes; left out where none is chosen.
    Choice(&'static [&'static str]),
}

/// Yes and no, as a [`Kind::Maybe`] writes them.
pub const YES_NO: [&str; 2] = ["yes", "no"];

/// A field that stands on the card once.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Field {
    /// Its pointer.
    pub at: &'static str,
    /// Its kind.
    pub kind: Kind,
}

const fn field(at: &'static str, kind: Kind) -> Field {
    Field { at, kind }
}

/// Fields, in the order of the form, by part.
pub const OFFICE: &[Field] = &[
    field("/office", Kind::Line),
    field("/serial", Kind::Whole),
    field("/valid_from", Kind::DayBegins),
    field("/valid_to", Kind::DayEnds),
    field("/units", Kind::Choice(&["metric", "us"])),
];
/// Diseases about.
pub const DISEASES: &[Field] = &[
    field("/flags/anthrax_history", Kind::Flag),
    field("/flags/cwd_zone", Kind::Flag),
    field("/flags/tuberculosis_zone", Kind::Flag),
    field("/flags/rabies_notice", Kind::Flag),
    field("/flags/bird_flu_notice", Kind::Flag),
];
/// Rules of going out.
pub const LIMITS: &[Field] = &[
    field("/limits/min_crew_count", Kind::Whole),
    field("/limits/check_in_min", Kind::Whole),
    field("/limits/reserve_min", Kind::Whole),
    field("/limits/wind_chill_stop_c", Kind::Whole),
    field("/limits/walk_out_percent", Kind::Whole),
];
/// What the reading of the cause of death starts from.
pub const CAUSE: &[Field] = &[
    field("/cause/area", Kind::Words),
    field("/cause/winter", Kind::Choice(&["mild", "usual", "severe"])),
    field("/cause/bears_denned", Kind::Flag),
    field("/cause/feed_site", Kind::Maybe),
    field("/cause/season_ended", Kind::DayEnds),
];
/// Words of the office's own.
pub const WORDS: &[Field] = &[field("/trail_words", Kind::Words), field("/disposal", Kind::Words)];

/// All fields that stand once.
pub fn all() -> impl Iterator<Item = &'static Field> {
    [OFFICE, DISEASES, LIMITS, CAUSE, WORDS].into_iter().flatten()
}

/// A list on the card, a row for each.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct List {
    /// Its member.
    pub member: &'static str,
    /// What a row holds.
    pub columns: &'static [(&'static str, Kind)],
}

/// Whom to call for what.
pub const CALLS: List = List {
    member: "calls",
    columns: &[("call_for", Kind::Choice(&ROLES)), ("name", Kind::Line), ("number", Kind::Line)],
};
/// Permits.
pub const PERMITS: List = List { member: "permits", columns: &[("what", Kind::Line), ("number", Kind::Line)] };
/// People, and what each may do: touch, open, take.
pub const PEOPLE: List = List {
    member: "people",
    columns: &[
        ("code", Kind::Line),
        ("name", Kind::Line),
        ("may_touch", Kind::Flag),
        ("may_open", Kind::Flag),
        ("may_take_jaw", Kind::Flag),
        ("may_take_femur", Kind::Flag),
        ("may_take_head_parts", Kind::Flag),
        ("may_reopen_stops", Kind::Flag),
    ],
};

/// Laboratories; below each stand its tests.
pub const LABORATORIES: List =
    List { member: "laboratories", columns: &[("code", Kind::Line), ("name", Kind::Line), ("address", Kind::Words)] };
/// What a test of a laboratory holds, besides the samples that it is done on.
pub const TESTS: &[(&str, Kind)] = &[
    ("code", Kind::Line),
    ("name", Kind::Line),
    ("kind", Kind::Choice(&["cementum_age", "marrow_dry_weight", "marrow_fat", "disease", "dna"])),
    ("packing", Kind::Words),
    ("disease", Kind::Words),
    ("call_people", Kind::Maybe),
];

/// The animals about; a list of codes without rows.
pub const PREDATORS: &str = "/flags/predators";

const ROLES: [&str; 9] = {
    let mut codes = [""; 9];
    let mut n = 0;
    while n < 9 {
        #[allow(clippy::indexing_slicing)] // while the program is compiled
        {
            codes[n] = CallFor::ALL[n].code();
        }
        n += 1;
    }
    codes
};

/// Members of the card's figures, and of what the cause starts from, that have no field.
pub const WITHOUT_FIELD: [&str; 9] = [
    "/figures/reader_model",
    "/figures/birth_dates",
    "/figures/age_prior",
    "/figures/norms",
    "/figures/crown_heights",
    "/figures/molar_ratio",
    "/figures/formulas_from_memory",
    "/figures/browse",
    "/cause/table",
];
