//! Daily logs at the desk: kept in the archive with what a person confirmed of them, and read from there.

use super::Hand;
use crate::office::winter::join::{FromFile, join};
use crate::office::winter::kept::{Kept, KeptError, Sheet};
use crate::office::winter::table::{Confirmed, Draft};
use crate::record::Moment;
use crate::science::winter::log::Log;
use crate::words::Language;

impl Hand {
    /// Puts a daily log into the archive as it came, with its units, place and gauge as confirmed.
    ///
    /// # Errors
    /// As [`crate::office::archive::Archive::keep_winter`].
    pub fn keep_winter(
        &mut self,
        (file, bytes): (&str, &[u8]),
        confirmed: &Confirmed,
        correct: bool,
        now: Moment,
    ) -> Result<Kept, KeptError> {
        self.archive().keep_winter(bytes, &Sheet::of(file, confirmed, now), correct)
    }

    /// The daily logs of the archive's files, one a place; those of phones lie in bundles.
    ///
    /// # Errors
    /// One of them cannot be read.
    pub fn daily_logs(&self) -> Result<Vec<Log>, KeptError> {
        let mut all = Vec::new();
        for one in self.archive().winter_logs()? {
            let bad = |reason: String| KeptError::Bad { path: one.path.clone(), reason };
            let draft = Draft::read(&one.bytes).map_err(|error| bad(error.say(Language::English)))?;
            let logs = draft.table(&one.confirmed).logs.into_iter();
            all.extend(logs.map(|log| FromFile { file: one.sheet.file.clone(), log }));
        }
        Ok(join(all).0)
    }
}
