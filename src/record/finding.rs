//! What can be asked: one definition a finding.

use super::Unit;

/// Of what a finding is asked.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[allow(missing_docs)]
pub enum Scope {
    Outing,
    Report,
    Examination,
    WinterLog,
}

/// Whether a second answer by the same observer replaces the first.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Keeping {
    /// A correction supersedes.
    Single,
    /// Every reading is kept.
    Repeated,
}

/// The form of a finding's value.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Shape {
    /// It is there; the only value is the option `there`.
    Presence,
    /// One option.
    Choice(&'static [&'static str]),
    /// One or more options.
    Choices(&'static [&'static str]),
    /// A number: stored integer = value times ten to the power `decimals`; limits are stored integers.
    Number {
        /// Unit of the value.
        unit: Unit,
        /// Decimal places kept.
        decimals: u8,
        /// Smallest stored integer that can be true.
        min: i64,
        /// Largest stored integer that can be true.
        max: i64,
    },
    /// Words, at most so many characters.
    Text(usize),
    /// Codes of plants apart by one blank, as tapped, from one to so many. Kept as text: a code that is not
    /// known here is kept as it stands.
    Plants(usize),
    /// A moment.
    Instant,
    /// A place.
    Place,
    /// A photo.
    Photo,
    /// Another subject or carcass.
    Ref,
}

/// Which parts of a site a finding uses.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Sites {
    /// None.
    None,
    /// Side, optional.
    Side,
    /// Side and one of the lower teeth.
    Tooth,
    /// Bone, side optional.
    Bone,
    /// Item number.
    Item,
    /// Calendar day.
    Day,
}

/// The definition of a finding.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct FindingDef {
    /// Code: lower case, with the unit where it has one.
    pub code: &'static str,
    /// Of what it is asked.
    pub scope: Scope,
    /// Single or repeated.
    pub keeping: Keeping,
    /// Form of its value.
    pub shape: Shape,
    /// Where it may be found.
    pub sites: Sites,
    /// Said of a visit or of a sample and not of the animal: two may say different things and both be right.
    pub of_occasion: bool,
}

impl FindingDef {
    /// A single finding of an examination without a place.
    pub(crate) const fn exam(code: &'static str, shape: Shape) -> Self {
        Self {
            code,
            scope: Scope::Examination,
            keeping: Keeping::Single,
            shape,
            sites: Sites::None,
            of_occasion: false,
        }
    }
    /// A single finding of an outing.
    pub(crate) const fn outing(code: &'static str, shape: Shape) -> Self {
        Self { scope: Scope::Outing, ..Self::exam(code, shape) }
    }
    /// A single finding of a report.
    pub(crate) const fn report(code: &'static str, shape: Shape) -> Self {
        Self { scope: Scope::Report, ..Self::exam(code, shape) }
    }
    /// A single finding of a winter log.
    pub(crate) const fn winter(code: &'static str, shape: Shape) -> Self {
        Self { scope: Scope::WinterLog, ..Self::exam(code, shape) }
    }
    /// It is there or not.
    pub(crate) const fn sign(code: &'static str) -> Self {
        Self::exam(code, Shape::Presence)
    }
    /// At these places.
    pub(crate) const fn at(self, sites: Sites) -> Self {
        Self { sites, ..self }
    }
    /// Every reading is kept.
    pub(crate) const fn repeated(self) -> Self {
        Self { keeping: Keeping::Repeated, ..self }
    }
    /// Said of its visit or sample alone.
    pub(crate) const fn of_occasion(self) -> Self {
        Self { of_occasion: true, ..self }
    }
    /// The options of a choice; empty for other shapes.
    pub const fn options(&self) -> &'static [&'static str] {
        match self.shape {
            Shape::Choice(all) | Shape::Choices(all) => all,
            Shape::Presence => &["there"],
            _ => &[],
        }
    }
}

/// A number with its limits, in stored integers.
pub(crate) const fn number(unit: Unit, decimals: u8, min: i64, max: i64) -> Shape {
    Shape::Number { unit, decimals, min, max }
}
