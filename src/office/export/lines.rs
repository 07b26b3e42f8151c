//! Newline-delimited JSON: one carcass a line, with its examinations, answers and readings inside.

use std::collections::BTreeMap;

use serde_json::{Map, Value as Json, json};

use super::table::{Cell, Table};
use super::{ExportError, Tables};

/// What the member `format` says.
pub const FORMAT: &str = "marrowbook-carcass-1";

/// Rows of a table by the carcass that they are of.
fn by_carcass(table: &Table) -> BTreeMap<&str, Vec<&Vec<Cell>>> {
    let mut out: BTreeMap<&str, Vec<&Vec<Cell>>> = BTreeMap::new();
    for row in &table.rows {
        if let Some(id) = table.cell(row, "carcass_id").text() {
            out.entry(id).or_default().push(row);
        }
    }
    out
}

fn objects(table: &Table, rows: Option<&Vec<&Vec<Cell>>>) -> Json {
    let known = |row: &&Vec<Cell>| -> Map<String, Json> {
        let mut object = table.object(row, &["season", "carcass_id"]);
        object.retain(|_, value| !value.is_null());
        object
    };
    rows.into_iter().flatten().map(known).map(Json::Object).collect::<Vec<_>>().into()
}

/// Name of the file.
pub(super) const NAME: &str = "carcasses.ndjson";

/// The lines of these carcasses.
pub(super) fn lines(tables: &Tables) -> Result<Vec<u8>, ExportError> {
    let parts = [
        ("examinations", &tables.examinations),
        ("findings", &tables.findings),
        ("readings", &tables.readings),
        ("reading_shares", &tables.shares),
    ];
    let parts = parts.map(|(name, table)| (name, table, by_carcass(table)));
    let mut text = Vec::new();
    for row in &tables.carcasses.rows {
        let mut line = tables.carcasses.object(row, &[]);
        line.insert("format".to_owned(), FORMAT.into());
        line.insert("about".to_owned(), json!([tables.asked.of_places(), tables.asked.of_persons()]));
        let id = tables.carcasses.cell(row, "carcass_id").text().unwrap_or_default();
        for (name, table, rows) in &parts {
            line.insert((*name).to_owned(), objects(table, rows.get(id)));
        }
        serde_json::to_writer(&mut text, &line).map_err(|error| ExportError::Text(error.to_string()))?;
        text.push(b'\n');
    }
    Ok(text)
}
