//! A CSV as winter logs, one a place. What is wrong is named by its line; good lines are kept.

use std::collections::BTreeMap;

use time::Date;

use super::cells::{Cell, DateCell, DateOrder, calendar, date, number, order_of};
use super::columns::{Column, Columns, NoColumns, columns};
use super::note::Note;
use super::text::{NoTable, Rows, rows};
use super::units::{Proposed, SnowUnit, TemperatureUnit, propose_snow, propose_temperature};
use crate::science::winter::log::{DayLog, Gauge, Log, ReadAt, Said, days_of};
use crate::science::winter::measure::{Depth, Temperature};
use crate::words::Arg;

/// A file whose columns are known and whose units wait for a person's word.
#[derive(Clone, Debug, PartialEq)]
pub struct Draft {
    rows: Rows,
    columns: Columns,
    /// What the temperatures seem to be in; `None` where it has to be told.
    pub temperature: Option<Proposed<TemperatureUnit>>,
    /// What the depths seem to be in; `None` where it has to be told.
    pub snow: Option<Proposed<SnowUnit>>,
    /// The order of day and month; `None` where it has to be told.
    pub dates: Option<DateOrder>,
    /// Whether there is a column of temperatures, of depths, of sinking depths.
    pub has: Has,
}

/// What kinds of columns a file has.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
#[allow(missing_docs)]
pub struct Has {
    pub temperature: bool,
    pub snow: bool,
    pub sink: bool,
}

/// Why a file is no log.
#[derive(Clone, Debug, PartialEq)]
pub enum NoLog {
    /// It is no table of text.
    Table(NoTable),
    /// Its headers name no log.
    Columns(NoColumns),
    /// Units in one file that cannot be told by one word.
    Mixed(Note),
}

impl NoLog {
    /// Why, as a sentence.
    pub fn say(&self, language: crate::words::Language) -> String {
        match self {
            Self::Table(error) => error.to_string(),
            Self::Columns(error) => error.note().say(language),
            Self::Mixed(note) => note.say(language),
        }
    }
}

/// What a person confirmed.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Confirmed {
    /// Unit of the temperatures.
    pub temperature: Option<TemperatureUnit>,
    /// Unit of the depths.
    pub snow: Option<SnowUnit>,
    /// Order of day and month.
    pub dates: Option<DateOrder>,
    /// The place, where the file has no column for it.
    pub place: String,
    /// The sinking gauge.
    pub gauge: Option<Gauge>,
    /// When the readings are taken.
    pub read_at: Option<ReadAt>,
}

/// What still has to be told.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[allow(missing_docs)]
pub enum Open {
    Temperature,
    Snow,
    Dates,
}

/// The logs of a file.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Table {
    /// One a place, in order of the places' names.
    pub logs: Vec<Log>,
    /// What is to be said, in order of the lines; about the whole file first.
    pub notes: Vec<Note>,
    /// Lines of which anything was kept.
    pub kept: usize,
    /// Lines of which nothing was kept.
    pub dropped: usize,
}

impl Draft {
    /// Look at a file.
    ///
    /// # Errors
    /// Why it is no log.
    pub fn read(bytes: &[u8]) -> Result<Self, NoLog> {
        let rows = rows(bytes).map_err(NoLog::Table)?;
        let columns = columns(&rows.header).map_err(NoLog::Columns)?;
        let header_temperature = one_unit(&columns.temperatures)
            .map_err(|()| NoLog::Mixed(Note::look(None, "winter.csv.mixed_temperature", Vec::new())))?;
        let header_snow = one_unit(&columns.snow)
            .map_err(|()| NoLog::Mixed(Note::look(None, "winter.csv.mixed_snow", Vec::new())))?;
        let numbers = |wanted: fn(Column) -> bool| -> Vec<i64> {
            let places: Vec<usize> = columns.of.iter().filter(|(c, _)| wanted(*c)).map(|(_, place)| *place).collect();
            let cells = rows.rows.iter().flat_map(|(_, row)| places.iter().filter_map(|place| row.get(*place)));
            cells
                .filter_map(|cell| match number(cell) {
                    Cell::Number(n, None) => Some(n),
                    _ => None,
                })
                .collect()
        };
        let temperature = propose_temperature(header_temperature, &numbers(Column::is_temperature));
        let snow = propose_snow(header_snow, &numbers(Column::is_snow));
        let has = |wanted: fn(Column) -> bool| columns.of.iter().any(|(c, _)| wanted(*c));
        let has = Has {
            temperature: has(Column::is_temperature),
            snow: has(Column::is_snow),
            sink: columns.place(Column::Sink).is_some(),
        };
        let dates = match columns.place(Column::Date) {
            Some(place) => {
                let cells: Vec<DateCell> = rows.rows.iter().filter_map(|(_, row)| date(row.get(place)?)).collect();
                order_of(&cells)
            }
            None => Some(DateOrder::MonthFirst),
        };
        Ok(Self { rows, columns, temperature, snow, dates, has })
    }

    /// What is proposed, taken as a person's word.
    pub fn as_proposed(&self) -> Confirmed {
        Confirmed {
            temperature: self.temperature.map(|p| p.unit),
            snow: self.snow.map(|p| p.unit),
            dates: self.dates,
            ..Confirmed::default()
        }
    }

    /// What a person still has to say.
    pub fn open(&self, told: &Confirmed) -> Vec<Open> {
        let mut open = Vec::new();
        if self.has.temperature && told.temperature.is_none() {
            open.push(Open::Temperature);
        }
        if self.has.snow && told.snow.is_none() {
            open.push(Open::Snow);
        }
        if told.dates.or(self.dates).is_none() {
            open.push(Open::Dates);
        }
        open
    }

    /// The logs, in the units that a person confirmed. What was not told is not read.
    pub fn table(&self, told: &Confirmed) -> Table {
        let mut reader = Reader { draft: self, told, out: Table::default(), places: BTreeMap::new() };
        reader.out.notes.clone_from(&self.rows.notes);
        reader.out.notes.extend(self.against(told));
        if !self.columns.idle.is_empty() {
            let idle = vec![("columns", Arg::Text(self.columns.idle.join(", ")))];
            reader.out.notes.push(Note::look(None, "winter.csv.idle", idle));
        }
        for (line, row) in &self.rows.rows {
            if reader.row(*line, row) {
                reader.out.kept += 1;
            } else {
                reader.out.dropped += 1;
            }
        }
        reader.finish()
    }
}

impl Draft {
    /// A unit that was told although the file itself says another: the person's word stands, and the file's
    /// is said beside it. One word for several files of different units would go unseen otherwise.
    fn against(&self, told: &Confirmed) -> Vec<Note> {
        let note = |id, said: &'static str, found: &'static str| {
            Note::look(None, id, vec![("told", Arg::Text(said.to_owned())), ("found", Arg::Text(found.to_owned()))])
        };
        let mut out = Vec::new();
        if let (Some(told), Some(found)) = (told.temperature, self.temperature.map(|p| p.unit))
            && told != found
        {
            out.push(note("winter.csv.told_temperature", told.name(), found.name()));
        }
        if let (Some(told), Some(found)) = (told.snow, self.snow.map(|p| p.unit))
            && told != found
        {
            out.push(note("winter.csv.told_snow", told.name(), found.name()));
        }
        out
    }
}

/// The one unit that headers name; an error where they name two.
fn one_unit<U: Copy + PartialEq>(named: &[(Column, U)]) -> Result<Option<U>, ()> {
    let first = named.first().map(|(_, unit)| *unit);
    if named.iter().any(|(_, unit)| Some(*unit) != first) { Err(()) } else { Ok(first) }
}

/// One place's days with the line that each was first read on.
#[derive(Default)]
struct Place {
    days: BTreeMap<Date, (u64, DayLog)>,
}

struct Reader<'a> {
    draft: &'a Draft,
    told: &'a Confirmed,
    out: Table,
    places: BTreeMap<String, Place>,
}

impl Reader<'_> {
    fn cell<'r>(&self, row: &'r [String], column: Column) -> Option<&'r str> {
        row.get(self.draft.columns.place(column)?).map(String::as_str)
    }

    fn lost(&mut self, line: u64, id: &'static str, args: Vec<(&'static str, Arg)>) {
        self.out.notes.push(Note::lost(line, id, args));
    }

    /// True where anything of the line was kept.
    fn row(&mut self, line: u64, row: &[String]) -> bool {
        let (found, wanted) = (row.len(), self.draft.rows.header.len());
        if found != wanted {
            let count = |n: usize| Arg::Count(i64::try_from(n).unwrap_or_default());
            self.lost(line, "winter.csv.cells", vec![("found", count(found)), ("wanted", count(wanted))]);
            return false;
        }
        let Some(date) = self.date(line, row) else { return false };
        let day = self.day(line, row);
        if day == DayLog::default() {
            return false;
        }
        let place = self.cell(row, Column::Place).filter(|p| !p.is_empty()).unwrap_or(&self.told.place).to_owned();
        let before = self.places.entry(place).or_default().days.entry(date).or_insert((line, DayLog::default()));
        if before.0 != line {
            let args = vec![("date", Arg::Text(date.to_string())), ("first", Arg::Text(before.0.to_string()))];
            let same = before.1 == day;
            let id = if same { "winter.csv.repeated" } else { "winter.csv.two_readings" };
            self.out.notes.push(Note::look(Some(line), id, args));
        }
        merge(&mut before.1, &day);
        true
    }

    fn date(&mut self, line: u64, row: &[String]) -> Option<Date> {
        let order = self.told.dates.or(self.draft.dates);
        let (found, text) = if let Some(text) = self.cell(row, Column::Date) {
            (date(text).zip(order).and_then(|(cell, order)| cell.settle(order)), text.to_owned())
        } else {
            let part = |column| self.cell(row, column).unwrap_or_default();
            let (year, month, day) = (part(Column::Year), part(Column::Month), part(Column::Day));
            let found = year.parse().ok().zip(month.parse().ok()).zip(day.parse().ok());
            (found.and_then(|((y, m), d)| calendar(y, m, d)), format!("{year} {month} {day}"))
        };
        if found.is_none() {
            self.lost(line, "winter.csv.bad_date", vec![("text", Arg::Text(text))]);
        }
        found
    }

    fn day(&mut self, line: u64, row: &[String]) -> DayLog {
        let mut day = DayLog {
            minimum: self.temperature(line, row, Column::Minimum),
            maximum: self.temperature(line, row, Column::Maximum),
            mean: self.temperature(line, row, Column::Mean),
            depth: self.snow(line, row, Column::Depth),
            new_snow: self.snow(line, row, Column::NewSnow),
            sink: self.snow(line, row, Column::Sink),
            crust: None,
        };
        if let (Some(min), Some(max)) = (day.minimum, day.maximum)
            && min.low > max.high
        {
            self.lost(line, "winter.csv.min_above_max", Vec::new());
            (day.minimum, day.maximum, day.mean) = (None, None, None);
        }
        day
    }

    /// The number of a cell in thousandths, with the unit that it names; `None` where there is none to
    /// use, which is said unless nothing was read.
    fn number(&mut self, line: u64, row: &[String], column: Column) -> Option<(i64, Option<super::cells::Named>)> {
        let text = self.cell(row, column)?;
        match number(text) {
            Cell::Missing => None,
            Cell::Trace if column.is_snow() => Some((0, None)),
            Cell::Number(n, named) => Some((n, named)),
            Cell::Bad | Cell::Trace => {
                let text = text.to_owned();
                self.say(line, "winter.csv.no_number", column, &text);
                None
            }
        }
    }

    fn say(&mut self, line: u64, id: &'static str, column: Column, text: &str) {
        let name = Arg::Text(crate::words::say_office(crate::words::Language::English, column.id(), &[]));
        self.lost(line, id, vec![("column", name), ("text", Arg::Text(text.to_owned()))]);
    }

    fn temperature(&mut self, line: u64, row: &[String], column: Column) -> Option<Said<Temperature>> {
        let unit = self.told.temperature?;
        let (n, named) = self.number(line, row, column)?;
        let text = self.cell(row, column).unwrap_or_default();
        if named.is_some_and(|named| !named.is_temperature(unit)) {
            self.say(line, "winter.csv.other_unit", column, text);
            return None;
        }
        let Some(read) = unit.read(n) else {
            self.say(line, "winter.csv.digits", column, text);
            return None;
        };
        // The coldest and hottest air that this continent has seen, with room.
        if !(-75.0..=55.0).contains(&read.celsius()) {
            self.say(line, "winter.csv.out_of_range", column, text);
            return None;
        }
        Some(Said::one(read))
    }

    fn snow(&mut self, line: u64, row: &[String], column: Column) -> Option<Said<Depth>> {
        let unit = self.told.snow?;
        let (n, named) = self.number(line, row, column)?;
        let text = self.cell(row, column).unwrap_or_default();
        if named.is_some_and(|named| !named.is_snow(unit)) {
            self.say(line, "winter.csv.other_unit", column, text);
            return None;
        }
        if n < 0 {
            self.say(line, "winter.csv.negative", column, text);
            return None;
        }
        let Some(read) = unit.read(n) else {
            self.say(line, "winter.csv.digits", column, text);
            return None;
        };
        let most = if column == Column::NewSnow { 300.0 } else { 1_000.0 };
        if read.cm() > most {
            self.say(line, "winter.csv.out_of_range", column, text);
            return None;
        }
        Some(Said::one(read))
    }

    fn finish(mut self) -> Table {
        for (place, found) in self.places {
            gaps(&place, &found, &mut self.out.notes);
            jumps(&found, &mut self.out.notes);
            self.out.logs.push(Log {
                place,
                read_at: self.told.read_at,
                gauge: self.told.gauge,
                days: found.days.into_iter().map(|(date, (_, day))| (date, day)).collect(),
            });
        }
        self.out.notes.sort_by_key(|note| note.line);
        self.out
    }
}

/// Days that no line is of, between the first and the last.
fn gaps(place: &str, found: &Place, notes: &mut Vec<Note>) {
    let mut before: Option<(Date, u64)> = None;
    for (date, (line, _)) in &found.days {
        if let Some((last, after)) = before {
            let missing = days_of(last, *date).count().saturating_sub(2);
            if let (Some(first), Some(end), true) = (last.next_day(), date.previous_day(), missing > 0) {
                let args = vec![
                    ("first", Arg::Text(first.to_string())),
                    ("last", Arg::Text(end.to_string())),
                    ("n", Arg::Count(i64::try_from(missing).unwrap_or_default())),
                    ("place", Arg::Text(place.to_owned())),
                ];
                notes.push(Note::look(Some(after), "winter.csv.gap", args));
            }
        }
        before = Some((*date, *line));
    }
}

/// A depth that changes from one day to the next as inches and centimetres would, 2.54-fold or its
/// inverse, and by much: the unit may have changed.
fn jumps(found: &Place, notes: &mut Vec<Note>) {
    let mut before: Option<(Date, f64)> = None;
    for (date, (line, day)) in &found.days {
        let Some(depth) = day.depth.map(|d| d.low.cm()) else { continue };
        if let Some((last, was)) = before
            && last.next_day() == Some(*date)
            && (depth - was).abs() >= 15.0
        {
            let ratio = if depth > was { depth / was } else { was / depth };
            if (2.3..=2.8).contains(&ratio) {
                let cm = |x: f64| Arg::Text(format!("{x:.1}"));
                notes.push(Note::look(Some(*line), "winter.csv.jump", vec![("from", cm(was)), ("to", cm(depth))]));
            }
        }
        before = Some((*date, depth));
    }
}

/// Two readings of a day: both are kept, as ends.
fn merge(into: &mut DayLog, other: &DayLog) {
    fn both<T: Copy + Ord>(a: Option<Said<T>>, b: Option<Said<T>>) -> Option<Said<T>> {
        Said::of([a, b].into_iter().flatten().flat_map(|said| [said.low, said.high]))
    }
    into.minimum = both(into.minimum, other.minimum);
    into.maximum = both(into.maximum, other.maximum);
    into.mean = both(into.mean, other.mean);
    into.depth = both(into.depth, other.depth);
    into.new_snow = both(into.new_snow, other.new_snow);
    into.sink = both(into.sink, other.sink);
    into.crust = into.crust.or(other.crust);
}
