//! A table for other programs: columns with their types, rows of cells.

use serde_json::Value as Json;

/// Type of a column.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Kind {
    /// Words or a code.
    Text,
    /// A whole number.
    Integer,
    /// A number.
    Number,
    /// Yes or no.
    Flag,
    /// A local calendar day, ISO 8601.
    Day,
    /// A moment of local time with its offset, RFC 3339.
    Moment,
}

/// A column.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Column {
    /// Its name, with the unit where it has one.
    pub name: &'static str,
    /// Type.
    pub kind: Kind,
    /// What stands in it.
    pub about: &'static str,
    /// Whether every row has it.
    pub always: bool,
}

/// A cell.
#[derive(Clone, Debug, PartialEq)]
pub enum Cell {
    /// Words, a code, a day or a moment.
    Text(String),
    /// A whole number.
    Integer(i64),
    /// A number.
    Number(f64),
    /// Yes or no.
    Flag(bool),
    /// Not known. It is never zero and never no.
    Empty,
}

/// A table.
#[derive(Clone, Debug, PartialEq)]
pub struct Table {
    /// Name of its file, without ending.
    pub name: &'static str,
    /// What a row is.
    pub about: &'static str,
    /// Columns. The first is the season.
    pub columns: &'static [Column],
    /// Columns that name a row.
    pub key: &'static [&'static str],
    /// Whether `carcass_id` names a row of the table of carcasses.
    pub of_carcass: bool,
    /// Rows, each as long as the columns.
    pub rows: Vec<Vec<Cell>>,
}

/// A column that every row has.
pub(super) const fn always(name: &'static str, kind: Kind, about: &'static str) -> Column {
    Column { name, kind, about, always: true }
}

/// A column that may be empty.
pub(super) const fn may(name: &'static str, kind: Kind, about: &'static str) -> Column {
    Column { name, kind, about, always: false }
}

/// The season, of every table.
pub(super) const SEASON: Column = may(
    "season",
    Kind::Text,
    "Winter from 1 July to 30 June in which it was found, such as 2026-27; empty without a date",
);

macro_rules! from {
    ($($ty:ty => |$value:ident| $cell:expr;)+) => {$(
        impl From<$ty> for Cell {
            fn from($value: $ty) -> Self {
                $cell
            }
        }
    )+};
}

from! {
    &str => |text| Self::Text(text.to_owned());
    String => |text| Self::Text(text);
    i64 => |n| Self::Integer(n);
    u32 => |n| Self::Integer(n.into());
    u16 => |n| Self::Integer(n.into());
    usize => |n| i64::try_from(n).map_or(Self::Empty, Self::Integer);
    f64 => |x| if x.is_finite() { Self::Number(x) } else { Self::Empty };
    bool => |yes| Self::Flag(yes);
    crate::record::Moment => |at| Self::Text(at.to_string());
    time::Date => |day| Self::Text(day.to_string());
    uuid::Uuid => |id| Self::Text(id.to_string());
}

impl<T: Into<Self>> From<Option<T>> for Cell {
    fn from(value: Option<T>) -> Self {
        value.map_or(Self::Empty, Into::into)
    }
}

impl Cell {
    /// The cell as JSON.
    pub fn json(&self) -> Json {
        match self {
            Self::Text(text) => text.as_str().into(),
            Self::Integer(n) => (*n).into(),
            Self::Number(x) => serde_json::Number::from_f64(*x).map_or(Json::Null, Json::Number),
            Self::Flag(yes) => (*yes).into(),
            Self::Empty => Json::Null,
        }
    }

    /// The words in it.
    pub fn text(&self) -> Option<&str> {
        match self {
            Self::Text(text) => Some(text),
            _ => None,
        }
    }

    /// The number in it.
    pub fn number(&self) -> Option<f64> {
        match self {
            Self::Number(x) => Some(*x),
            Self::Integer(n) => Some(*n as f64),
            _ => None,
        }
    }
}

impl Table {
    /// The cell of a row under a column's name.
    pub fn cell<'a>(&self, row: &'a [Cell], name: &str) -> &'a Cell {
        let place = self.columns.iter().position(|column| column.name == name);
        place.and_then(|place| row.get(place)).unwrap_or(&Cell::Empty)
    }

    /// A row as a JSON object, without these columns. What is not known is `null`.
    pub fn object(&self, row: &[Cell], without: &[&str]) -> serde_json::Map<String, Json> {
        let named = self.columns.iter().zip(row).filter(|(column, _)| !without.contains(&column.name));
        named.map(|(column, cell)| (column.name.to_owned(), cell.json())).collect()
    }
}
