//! Single cells: numbers with either decimal mark, missing values, dates.

use time::{Date, Month};

use super::units::{SnowUnit, TemperatureUnit};

/// What a number's cell says.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Cell {
    /// Nothing was read.
    Missing,
    /// Snow too thin to measure.
    Trace,
    /// A number in thousandths, and the unit that the cell itself names.
    Number(i64, Option<Named>),
    /// None of these.
    Bad,
}

/// A unit named inside a cell.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[allow(missing_docs)]
pub enum Named {
    Celsius,
    Fahrenheit,
    Centimetres,
    Millimetres,
    Inches,
}

impl Named {
    /// True where a cell in this unit may stand in a column of that one.
    pub const fn is_temperature(self, unit: TemperatureUnit) -> bool {
        match self {
            Self::Celsius => matches!(unit, TemperatureUnit::Celsius | TemperatureUnit::CelsiusFromFahrenheit),
            Self::Fahrenheit => matches!(unit, TemperatureUnit::Fahrenheit),
            _ => false,
        }
    }

    /// True where a cell in this unit may stand in a column of that one.
    pub const fn is_snow(self, unit: SnowUnit) -> bool {
        match self {
            Self::Centimetres => matches!(unit, SnowUnit::Centimetres),
            Self::Millimetres => matches!(unit, SnowUnit::Millimetres | SnowUnit::MillimetresFromInches),
            Self::Inches => matches!(unit, SnowUnit::Inches),
            _ => false,
        }
    }
}

/// `none` is not among them: of snow it may mean zero.
const MISSING: [&str; 10] = ["", "m", "na", "n/a", "nan", "null", "-", "--", ".", "missing"];
/// Numbers that weather services write for `missing`; no winter has them.
const MISSING_NUMBERS: [i64; 6] = [-9_999_000, 9_999_000, -99_990_000, -999_000, 999_900, -999_900];

/// A number's cell.
pub fn number(text: &str) -> Cell {
    let text = text.trim().replace(['\u{2212}', '\u{2013}'], "-").to_lowercase();
    if MISSING.contains(&text.as_str()) {
        return Cell::Missing;
    }
    if text == "t" || text == "tr" || text == "trace" {
        return Cell::Trace;
    }
    let end = text.find(|c: char| !(c.is_ascii_digit() || matches!(c, '-' | '+' | '.' | ','))).unwrap_or(text.len());
    let (digits, rest) = text.split_at(end);
    let named = match rest.trim().trim_start_matches('\u{b0}').trim() {
        "" => None,
        "c" => Some(Named::Celsius),
        "f" => Some(Named::Fahrenheit),
        "cm" => Some(Named::Centimetres),
        "mm" => Some(Named::Millimetres),
        "in" | "inches" | "\"" => Some(Named::Inches),
        _ => return Cell::Bad,
    };
    match thousandths(digits) {
        Some(n) if named.is_none() && MISSING_NUMBERS.contains(&n) => Cell::Missing,
        Some(n) => Cell::Number(n, named),
        None => Cell::Bad,
    }
}

/// A decimal number with a point or a comma, in thousandths; digits beyond are dropped only where they
/// are zeros.
fn thousandths(text: &str) -> Option<i64> {
    let (negative, digits) = match text.strip_prefix('-') {
        Some(rest) => (true, rest),
        None => (false, text.strip_prefix('+').unwrap_or(text)),
    };
    let (whole, fraction) = digits.split_once(['.', ',']).unwrap_or((digits, ""));
    let plain = |part: &str| part.bytes().all(|b| b.is_ascii_digit());
    if (whole.is_empty() && fraction.is_empty()) || !plain(whole) || !plain(fraction) || whole.len() > 6 {
        return None;
    }
    let whole: i64 = if whole.is_empty() { 0 } else { whole.parse().ok()? };
    let fraction = fraction.trim_end_matches('0');
    let part: i64 = if fraction.is_empty() { 0 } else { format!("{fraction:0<3}").parse().ok()? };
    (fraction.len() <= 3).then(|| if negative { -(whole * 1_000 + part) } else { whole * 1_000 + part })
}

/// In which order day and month stand where slashes part them.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum DateOrder {
    /// 2/14/2027
    MonthFirst,
    /// 14/2/2027
    DayFirst,
}

/// A date as written: parts, and whether the year came first.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum DateCell {
    /// Year, month, day: no doubt.
    Plain(Date),
    /// Two numbers before the year, parted by slashes or hyphens.
    Slashed(u8, u8, i32),
}

/// A date's cell; what follows a space or a `T` (the hour) is left aside. `None` for what is no date.
pub fn date(text: &str) -> Option<DateCell> {
    let text = text.trim().split([' ', 'T']).next()?;
    if text.len() == 8 && text.bytes().all(|b| b.is_ascii_digit()) {
        return ymd(text.get(..4)?, text.get(4..6)?, text.get(6..)?).map(DateCell::Plain);
    }
    let mark = text.chars().find(|c| !c.is_ascii_digit())?;
    let parts: Vec<&str> = text.split(mark).collect();
    let &[first, second, third] = parts.as_slice() else { return None };
    match (first.len(), third.len(), mark) {
        (4, 1..=2, '-' | '/' | '.') => ymd(first, second, third).map(DateCell::Plain),
        // Points part day, month, year wherever they are used.
        (1..=2, 4, '.') => ymd(third, second, first).map(DateCell::Plain),
        (1..=2, 4, '/' | '-') => {
            Some(DateCell::Slashed(first.parse().ok()?, second.parse().ok()?, third.parse().ok()?))
        }
        _ => None,
    }
}

/// A date from three texts of digits.
pub fn ymd(year: &str, month: &str, day: &str) -> Option<Date> {
    calendar(year.parse().ok()?, month.parse().ok()?, day.parse().ok()?)
}

/// A date of a year in which somebody can have logged snow.
pub fn calendar(year: i32, month: u8, day: u8) -> Option<Date> {
    let date = Date::from_calendar_date(year, Month::try_from(month).ok()?, day).ok()?;
    (1800..=2199).contains(&year).then_some(date)
}

impl DateCell {
    /// The date, given the order.
    pub fn settle(self, order: DateOrder) -> Option<Date> {
        match (self, order) {
            (Self::Plain(date), _) => Some(date),
            (Self::Slashed(month, day, year), DateOrder::MonthFirst)
            | (Self::Slashed(day, month, year), DateOrder::DayFirst) => calendar(year, month, day),
        }
    }
}

/// The order that all slashed dates of a file agree on; `None` where both are possible or they disagree.
pub fn order_of(all: &[DateCell]) -> Option<DateOrder> {
    let slashed = || all.iter().filter(|cell| matches!(cell, DateCell::Slashed(..)));
    let fits = |order| slashed().all(|cell| cell.settle(order).is_some());
    match (fits(DateOrder::MonthFirst), fits(DateOrder::DayFirst)) {
        (true, false) => Some(DateOrder::MonthFirst),
        (false, true) => Some(DateOrder::DayFirst),
        (true, true) if slashed().next().is_none() => Some(DateOrder::MonthFirst),
        _ => None,
    }
}
