//! The agencies' class names, with the agency and the years in which they were in use.

use super::sources as s;
use crate::science::source::Source;

/// One class.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Class {
    /// Its name's id: `mild`, `moderate`, `severe`, `very_severe`, ...
    pub id: &'static str,
    /// Up to this value; infinite for the last.
    pub up_to: f64,
    /// Whether the limit itself belongs to the class.
    pub with_limit: bool,
    /// Where the limit comes from.
    pub source: &'static Source,
}

/// An agency's classes as they stood in some years.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct ClassSet {
    /// `wisconsin`, `minnesota_2020`, ...
    pub id: &'static str,
    /// In ascending order; the last has no upper limit.
    pub classes: &'static [Class],
}

impl ClassSet {
    /// The class of a value.
    pub fn of(&self, value: f64) -> Option<&'static Class> {
        self.classes.iter().find(|c| value < c.up_to || (c.with_limit && value <= c.up_to))
    }
}

const fn below(id: &'static str, up_to: f64, source: &'static Source) -> Class {
    Class { id, up_to, with_limit: false, source }
}

const fn through(id: &'static str, up_to: f64, source: &'static Source) -> Class {
    Class { id, up_to, with_limit: true, source }
}

const fn rest(id: &'static str, source: &'static Source) -> Class {
    Class { id, up_to: f64::INFINITY, with_limit: true, source }
}

/// Wisconsin DNR, as printed in 2014 and 2018: under 50, 50 to 79, 80 to 99, 100 and more.
pub static WISCONSIN: ClassSet = ClassSet {
    id: "wisconsin",
    classes: &[
        below("mild", 50.0, &s::WISCONSIN_CLASSES),
        below("moderate", 80.0, &s::WISCONSIN_CLASSES),
        below("severe", 100.0, &s::WISCONSIN_CLASSES),
        rest("very_severe", &s::WISCONSIN_CLASSES),
    ],
};

/// Minnesota DNR since 2020: to 50, 51 to 119, 120 and more.
pub static MINNESOTA_2020: ClassSet = ClassSet {
    id: "minnesota_2020",
    classes: &[
        through("mild", 50.0, &s::MINNESOTA_CLASSES),
        below("moderate", 120.0, &s::MINNESOTA_CLASSES),
        rest("severe", &s::MINNESOTA_CLASSES),
    ],
};

/// Minnesota DNR before 2020: under 100, over 180; what lies between had no name of its own.
pub static MINNESOTA_OLD: ClassSet = ClassSet {
    id: "minnesota_old",
    classes: &[
        below("mild", 100.0, &s::MINNESOTA_CLASSES),
        through("between", 180.0, &s::MINNESOTA_CLASSES),
        rest("severe", &s::MINNESOTA_CLASSES),
    ],
};

/// New York DEC, as printed in 2015: to 50, 51 to 80, 81 to 100, over 100.
pub static NEW_YORK: ClassSet = ClassSet {
    id: "new_york",
    classes: &[
        through("mild", 50.0, &s::NEW_YORK),
        through("moderate", 80.0, &s::NEW_YORK),
        through("severe", 100.0, &s::NEW_YORK),
        rest("very_severe", &s::NEW_YORK),
    ],
};

/// Ontario: under 590 as read; the two above from memory.
pub static ONTARIO: ClassSet = ClassSet {
    id: "ontario",
    classes: &[
        below("mild", 590.0, &s::ONTARIO_MILD),
        through("moderate", 760.0, &s::ONTARIO_CLASSES),
        rest("severe", &s::ONTARIO_CLASSES),
    ],
};

/// Quebec: 5,000 and more, where losses are expected. One source prints `over 5,000`, the other 100
/// days of 50 cm, that is 5,000: the limit is counted in.
pub static QUEBEC: ClassSet = ClassSet {
    id: "quebec",
    classes: &[below("no_class_named", 5_000.0, &s::QUEBEC), rest("losses_expected", &s::QUEBEC_DAYS)],
};
