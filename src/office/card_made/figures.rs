//! Figures that come onto a card from a file: the evidence table, the readers' record.

use serde_json::Value;

use super::draft::{Draft, ours, payload};
use crate::bundle::Kind;
use crate::card::{Card, EvidenceTable, ReaderTable};
use crate::reading::table_of;
use crate::record::{DeviceId, read_strict};

/// An evidence table as it came in a file. It holds: every row was checked.
#[derive(Clone, Debug, PartialEq)]
pub struct TableFile {
    /// The table.
    pub table: EvidenceTable,
    /// Who signed the file; `None` for plain JSON.
    pub signer: Option<DeviceId>,
}

/// Reads an evidence table, signed or as JSON.
///
/// # Errors
/// Why it cannot be used, as a clause; a row is named.
pub fn read_table(bytes: &[u8]) -> Result<TableFile, String> {
    let (json, signer) = payload(bytes, Kind::Table)?;
    let text = String::from_utf8(json).map_err(|error| error.to_string())?;
    let table = EvidenceTable::from_json(&text).map_err(|error| error.to_string())?;
    table_of(&table).map_err(|flaw| flaw.to_string())?;
    Ok(TableFile { table, signer })
}

impl Draft {
    /// Puts an evidence table from a file onto the card. One that another office signed is refused.
    ///
    /// # Errors
    /// Why it is not taken, as a clause.
    pub fn take_table(&mut self, bytes: &[u8], office: Option<DeviceId>) -> Result<(), String> {
        let file = read_table(bytes)?;
        ours(file.signer, office)?;
        let table = serde_json::to_value(&file.table).map_err(|error| error.to_string())?;
        self.put("/cause/table", table);
        Ok(())
    }

    /// Puts a readers' record onto the card: from a file that holds one, or from a card, signed or not, that
    /// carries one. A card that another office signed is refused.
    ///
    /// # Errors
    /// Why there is none, as a clause.
    pub fn take_reader_model(&mut self, bytes: &[u8], office: Option<DeviceId>) -> Result<(), String> {
        let (json, signer) = payload(bytes, Kind::Card)?;
        ours(signer, office)?;
        let text = String::from_utf8(json).map_err(|error| error.to_string())?;
        let model = match read_strict::<ReaderTable>(&text) {
            Ok(model) => model,
            Err(_) => Card::from_json(&text)
                .map_err(|error| error.to_string())?
                .figures
                .reader_model
                .ok_or("this card carries no readers' record")?,
        };
        let value: Value = serde_json::to_value(model).map_err(|error| error.to_string())?;
        self.put("/figures/reader_model", value);
        Ok(())
    }
}
