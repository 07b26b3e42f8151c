//! Parquet: each table in one file a season, in folders `season=...` as engines that read such folders expect. The season
//! stands in the folder's name and not in the file.

use std::collections::BTreeMap;
use std::sync::Arc;

use ::parquet::basic::{Compression, ConvertedType, LogicalType, Repetition, Type as Physical};
use ::parquet::data_type::{BoolType, ByteArray, ByteArrayType, DoubleType, Int32Type, Int64Type};
use ::parquet::file::metadata::KeyValue;
use ::parquet::file::properties::WriterProperties;
use ::parquet::file::writer::{SerializedFileWriter, SerializedRowGroupWriter};
use ::parquet::schema::types::Type;

use super::table::{Cell, Column, Kind, Table};
use super::{ExportError, File, Tables};

/// Rows of one group.
const GROUP: usize = 100_000;
/// The folder of what has no season, as those engines name it.
const NO_SEASON: &str = "__HIVE_DEFAULT_PARTITION__";
/// 1970-01-01 as a Julian day.
const EPOCH: i32 = 2_440_588;

/// One file a table and season.
///
/// # Errors
/// A file cannot be written; never in practice.
pub fn files(tables: &Tables) -> Result<Vec<File>, ExportError> {
    let about = format!("{} {}", tables.asked.of_places(), tables.asked.of_persons());
    let mut files = Vec::new();
    for table in tables.all() {
        let mut seasons: BTreeMap<&str, Vec<&[Cell]>> = BTreeMap::new();
        for row in &table.rows {
            let season = row.first().and_then(Cell::text).unwrap_or(NO_SEASON);
            seasons.entry(season).or_default().push(row.get(1..).unwrap_or_default());
        }
        for (season, rows) in seasons {
            let path = format!("parquet/{}/season={season}/part-0.parquet", table.name);
            files.push((path, file(table, &rows, &about)?));
        }
    }
    Ok(files)
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

fn file(table: &Table, rows: &[&[Cell]], about: &str) -> Result<Vec<u8>, ExportError> {
    let keep = |key: &str, value: &str| KeyValue::new(key.to_owned(), value.to_owned());
    let properties = WriterProperties::builder()
        .set_created_by("marrowbook".to_owned())
        .set_compression(Compression::SNAPPY)
        .set_key_value_metadata(Some(vec![keep("about", table.about), keep("places_and_persons", about)]))
        .build();
    let mut writer = SerializedFileWriter::new(Vec::new(), Arc::new(schema(table)?), Arc::new(properties))?;
    for part in rows.chunks(GROUP) {
        let mut group = writer.next_row_group()?;
        for (place, column) in columns(table).iter().enumerate() {
            write(&mut group, column, part, place)?;
        }
        group.close()?;
    }
    Ok(writer.into_inner()?)
}

fn write(
    group: &mut SerializedRowGroupWriter<'_, Vec<u8>>,
    column: &Column,
    rows: &[&[Cell]],
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
