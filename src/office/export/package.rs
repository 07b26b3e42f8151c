//! CSV tables and the `datapackage.json` beside them (Frictionless Data Package and Table Schema, version 2).

use serde_json::{Value as Json, json};

use super::table::{Cell, Column, Kind, Table};
use super::{Asked, ExportError, File, Tables};
use crate::office::archive::hex;
use crate::office::season::csv::{Cell as CsvCell, Csv};
use crate::record::Digest;

/// Folder of the CSV tables.
const FOLDER: &str = "csv";

/// What has to be known of every cell of words.
const ABOUT_CSV: &str = "Empty cells are not known: never zero, never no. Words that a spreadsheet would take for a formula \
                         have an apostrophe before them.";

/// Where the CSV of a table lies.
pub(super) fn name(table: &Table) -> String {
    format!("{FOLDER}/{}.csv", table.name)
}

/// The names of a table's columns, as the CSV begins.
pub(super) fn head(table: &Table) -> Result<Vec<u8>, ExportError> {
    let head = table.columns.iter().map(|column| column.name.to_owned()).collect();
    text(Csv { head, rows: Vec::new() }.write())
}

/// Rows of a table as they stand in the CSV.
pub(super) fn rows(table: &Table) -> Result<Vec<u8>, ExportError> {
    let rows = table.rows.iter().map(|row| row.iter().map(cell).collect()).collect();
    text(Csv { head: Vec::new(), rows }.write_rows())
}

fn text(written: Result<Vec<u8>, csv::Error>) -> Result<Vec<u8>, ExportError> {
    written.map_err(|error| ExportError::Text(error.to_string()))
}

/// The package's description: the tables, each with length and digest of its CSV.
pub(super) fn description(tables: &Tables, written: &[(u64, Digest)]) -> Result<File, ExportError> {
    let resources: Vec<Json> =
        tables.all().into_iter().zip(written).map(|(table, csv)| resource(table, *csv)).collect();
    let package = describe(tables, &resources);
    let text = serde_json::to_string_pretty(&package).map_err(|error| ExportError::Text(error.to_string()))? + "\n";
    Ok((format!("{FOLDER}/datapackage.json"), text.into_bytes()))
}

fn describe(tables: &Tables, resources: &[Json]) -> Json {
    let Asked { names, .. } = tables.asked;
    let (places, persons) = (tables.asked.of_places(), tables.asked.of_persons());
    json!({
        "$schema": "https://datapackage.org/profiles/2.0/datapackage.json",
        "name": "carcasses",
        "title": tables.office.as_deref().map_or_else(|| "Carcasses".to_owned(), |office| format!("Carcasses, {office}")),
        "description": format!("{places} {persons} {ABOUT_CSV}"),
        "place_grid_m": tables.asked.places.grid_m(),
        "names_left_out": !names,
        "resources": resources,
    })
}

fn cell(cell: &Cell) -> CsvCell {
    match cell {
        Cell::Text(text) => text.into(),
        Cell::Integer(n) => (*n).into(),
        Cell::Number(x) => (*x).into(),
        Cell::Flag(yes) => CsvCell::Text(yes.to_string()),
        Cell::Empty => CsvCell::Empty,
    }
}

fn field(column: &Column) -> Json {
    let (kind, format) = match column.kind {
        Kind::Text => ("string", "default"),
        Kind::Integer => ("integer", "default"),
        Kind::Number => ("number", "default"),
        Kind::Flag => ("boolean", "default"),
        Kind::Day => ("date", "default"),
        Kind::Moment => ("datetime", "default"),
    };
    let mut field = json!({ "name": column.name, "type": kind, "format": format, "description": column.about });
    if let Some(member) = field.as_object_mut().filter(|_| column.always) {
        member.insert("constraints".to_owned(), json!({ "required": true }));
    }
    field
}

fn resource(table: &Table, (bytes, digest): (u64, Digest)) -> Json {
    let mut schema = json!({
        "$schema": "https://datapackage.org/profiles/2.0/tableschema.json",
        "fields": table.columns.iter().map(field).collect::<Vec<_>>(),
        "primaryKey": table.key,
        "missingValues": [""],
    });
    if let Some(member) = schema.as_object_mut().filter(|_| table.of_carcass) {
        let of_carcass = json!([{
            "fields": ["carcass_id"],
            "reference": { "resource": "carcasses", "fields": ["carcass_id"] },
        }]);
        member.insert("foreignKeys".to_owned(), of_carcass);
    }
    json!({
        "name": table.name.replace('_', "-"),
        "title": table.name.replace('_', " "),
        "description": table.about,
        "path": format!("{}.csv", table.name),
        "type": "table",
        "format": "csv",
        "mediatype": "text/csv",
        "encoding": "utf-8",
        "bytes": bytes,
        "hash": format!("sha256:{}", hex(digest)),
        "schema": schema,
    })
}
