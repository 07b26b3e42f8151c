//! Parquet: each table in one file a season, in folders `season=...` as engines that read such folders expect. The season
//! stands in the folder's name and not in the file.

use std::collections::BTreeMap;
use std::collections::btree_map::Entry;
use std::io::Write;
use std::sync::Arc;

use ::parquet::basic::{Compression, ConvertedType, LogicalType, Repetition, Type as Physical};
use ::parquet::data_type::{BoolType, ByteArray, ByteArrayType, DoubleType, Int32Type, Int64Type};
use ::parquet::file::metadata::KeyValue;
use ::parquet::file::properties::WriterProperties;
use ::parquet::file::writer::{SerializedFileWriter, SerializedRowGroupWriter};
use ::parquet::schema::types::Type;

use super::table::{Cell, Column, Kind, Table};
use super::{ExportError, Out, Tables};

/// Rows of one group.
const GROUP: usize = 100_000;
/// Bytes of all rows that are in no group yet.
const MOST_HELD: usize = 32 << 20;
/// The folder of what has no season, as those engines name it.
const NO_SEASON: &str = "__HIVE_DEFAULT_PARTITION__";
/// 1970-01-01 as a Julian day.
const EPOCH: i32 = 2_440_588;

/// Rows that are not in a group yet, one table and season.
struct Open {
    writer: SerializedFileWriter<Box<dyn Write + Send>>,
    columns: &'static [Column],
    rows: Vec<Vec<Cell>>,
    bytes: usize,
}

/// All files of an export, in the making.
pub(super) struct Files {
    about: String,
    open: BTreeMap<(&'static str, String), Open>,
    bytes: usize,
}

impl Files {
    /// None yet.
    pub(super) fn begin(tables: &Tables) -> Self {
        let about = format!("{} {}", tables.asked.of_places(), tables.asked.of_persons());
        Self { about, open: BTreeMap::new(), bytes: 0 }
    }

    /// Takes the rows of one carcass, outing or report. Groups are closed by what came before, never by how many were
    /// worked on at a time.
    pub(super) fn take(&mut self, tables: [Table; 5], out: &mut dyn Out) -> Result<(), ExportError> {
        for mut table in tables {
            for mut row in std::mem::take(&mut table.rows) {
                let cells = row.split_off(1);
                let season = row.first().and_then(Cell::text).unwrap_or(NO_SEASON).to_owned();
                self.row(&table, season, cells, out)?;
            }
        }
        Ok(())
    }

    fn row(&mut self, table: &Table, season: String, cells: Vec<Cell>, out: &mut dyn Out) -> Result<(), ExportError> {
        let bytes = cells.iter().map(|cell| size_of::<Cell>() + cell.text().map_or(0, str::len)).sum::<usize>();
        let open = match self.open.entry((table.name, season)) {
            Entry::Occupied(open) => open.into_mut(),
            Entry::Vacant(place) => {
                let path = format!("parquet/{}/season={}/part-0.parquet", table.name, place.key().1);
                let writer = begin(table, &self.about, out.file(&path).map_err(ExportError::Out)?)?;
                place.insert(Open { writer, columns: table.columns, rows: Vec::new(), bytes: 0 })
            }
        };
        open.rows.push(cells);
        open.bytes += bytes;
        self.bytes += bytes;
        if open.rows.len() >= GROUP {
            self.bytes -= open.bytes;
            open.close()?;
        } else if self.bytes >= MOST_HELD {
            // The fullest of all: many seasons at a time are many groups at a time.
            let fullest = self.open.iter_mut().max_by_key(|(_, open)| open.bytes);
            if let Some((_, open)) = fullest {
                self.bytes -= open.bytes;
                open.close()?;
            }
        }
        Ok(())
    }

    /// Ends every file; how many there are.
    pub(super) fn end(self) -> Result<usize, ExportError> {
        let count = self.open.len();
        for mut open in self.open.into_values() {
            open.close()?;
            // What is closed has been handed to its file; what the file still holds it writes when it is flushed.
            open.writer.into_inner()?.flush().map_err(ExportError::Out)?;
        }
        Ok(count)
    }
}

impl Open {
    /// Writes what waits as one group.
    fn close(&mut self) -> Result<(), ExportError> {
        let rows = std::mem::take(&mut self.rows);
        self.bytes = 0;
        if rows.is_empty() {
            return Ok(());
        }
        let mut group = self.writer.next_row_group()?;
        for (place, column) in self.columns.iter().skip(1).enumerate() {
            write(&mut group, column, &rows, place)?;
        }
        group.close()?;
        Ok(())
    }
}

fn schema(table: &Table) -> Result<Type, ExportError> {
    let field = |column: &Column| {
        let (physical, logical) = match column.kind {
            Kind::Text | Kind::Moment => (Physical::BYTE_ARRAY, Some(LogicalType::String)),
            Kind::Integer => (Physical::INT64, None),
            Kind::Number => (Physical::DOUBLE, None),
            Kind::Flag => (Physical::BOOLEAN, None),
            Kind::Day => (Physical::INT32, Some(LogicalType::Date)),
        };
        let repetition = if column.always { Repetition::REQUIRED } else { Repetition::OPTIONAL };
        let built = Type::primitive_type_builder(column.name, physical)
            .with_repetition(repetition)
            .with_logical_type(logical)
            .with_converted_type(ConvertedType::NONE)
            .build();
        built.map(Arc::new)
    };
    let fields = columns(table).iter().map(field).collect::<Result<Vec<_>, _>>()?;
    Ok(Type::group_type_builder(table.name).with_fields(fields).build()?)
}

/// All but the season.
fn columns(table: &Table) -> &[Column] {
    table.columns.get(1..).unwrap_or_default()
}

fn begin(
    table: &Table,
    about: &str,
    file: Box<dyn Write + Send>,
) -> Result<SerializedFileWriter<Box<dyn Write + Send>>, ExportError> {
    let keep = |key: &str, value: &str| KeyValue::new(key.to_owned(), value.to_owned());
    let properties = WriterProperties::builder()
        .set_created_by("marrowbook".to_owned())
        .set_compression(Compression::SNAPPY)
        .set_key_value_metadata(Some(vec![keep("about", table.about), keep("places_and_persons", about)]))
        .build();
    Ok(SerializedFileWriter::new(file, Arc::new(schema(table)?), Arc::new(properties))?)
}

fn write(
    group: &mut SerializedRowGroupWriter<'_, Box<dyn Write + Send>>,
    column: &Column,
    rows: &[Vec<Cell>],
    place: usize,
) -> Result<(), ExportError> {
    let cells: Vec<&Cell> = rows.iter().map(|row| row.get(place).unwrap_or(&Cell::Empty)).collect();
    let here = |cell: &&Cell| **cell != Cell::Empty;
    let levels: Vec<i16> = cells.iter().map(|cell| i16::from(here(cell))).collect();
    let levels = if column.always { None } else { Some(levels.as_slice()) };
    let known = cells.into_iter().filter(here);
    let Some(mut writer) = group.next_column()? else { return Ok(()) };
    match column.kind {
        Kind::Text | Kind::Moment => {
            let values: Vec<ByteArray> = known.map(|cell| ByteArray::from(cell.text().unwrap_or_default())).collect();
            writer.typed::<ByteArrayType>().write_batch(&values, levels, None)?;
        }
        Kind::Integer => {
            let of = |cell: &Cell| if let Cell::Integer(n) = cell { *n } else { 0 };
            writer.typed::<Int64Type>().write_batch(&known.map(of).collect::<Vec<_>>(), levels, None)?;
        }
        Kind::Number => {
            let of = |cell: &Cell| cell.number().unwrap_or(f64::NAN);
            writer.typed::<DoubleType>().write_batch(&known.map(of).collect::<Vec<_>>(), levels, None)?;
        }
        Kind::Flag => {
            let values: Vec<bool> = known.map(|cell| *cell == Cell::Flag(true)).collect();
            writer.typed::<BoolType>().write_batch(&values, levels, None)?;
        }
        Kind::Day => {
            let values: Vec<i32> = known.map(|cell| day(cell.text().unwrap_or_default())).collect();
            writer.typed::<Int32Type>().write_batch(&values, levels, None)?;
        }
    }
    writer.close()?;
    Ok(())
}

/// Days since 1970-01-01.
fn day(text: &str) -> i32 {
    let form = time::macros::format_description!("[year]-[month]-[day]");
    time::Date::parse(text, &form).map_or(0, |day| day.to_julian_day() - EPOCH)
}
