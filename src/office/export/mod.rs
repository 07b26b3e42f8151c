//! Exports in open forms: the archive for other programs. Nothing but bundles ever comes back in.
//!
//! Every form is made from the same tables, so that what is left out of one is left out of all: exact places unless
//! asked for, names of persons and what was typed in a person's own words unless asked for, notes on exposure and who
//! may be called back about a report never. A pure function of the archive and of what was asked.
//!
//! | file | holds |
//! |---|---|
//! | [`asked`] | what was asked for, and the places that it gives |
//! | [`table`] | columns, cells, rows |
//! | [`gathered`] | carcasses folded and read |
//! | [`written`] | all forms, carcass after carcass |
//! | [`carcasses`], [`examinations`], [`findings`], [`readings`] | one table each |
//! | [`withheld`] | what of an answer is let out |
//! | [`package`] | CSV and its `datapackage.json` |
//! | [`geojson`], [`lines`] | one feature, one line a carcass |
//! | [`dwc`], [`dwc_rows`] | Darwin Core archive |
//! | [`held`] | all but Parquet in memory, for the page |
//! | `parquet` | Parquet by season; only on the command line |

pub mod asked;
pub mod carcasses;
pub mod dwc;
pub mod dwc_rows;
pub mod examinations;
pub mod findings;
pub mod gathered;
pub mod geojson;
pub mod held;
pub mod lines;
pub mod package;
#[cfg(feature = "cli")]
pub mod parquet;
pub mod readings;
pub mod table;
pub mod withheld;
pub mod written;

pub use asked::Asked;
pub use gathered::Tables;
pub use written::{Written, write};

use std::io::{self, Write};

use super::streamed::StreamError;

/// Name and bytes of one file; folders apart by `/`.
pub type File = (String, Vec<u8>);

/// Where an export goes.
pub trait Out {
    /// A new file of that name, to be written from its beginning. What was written is there once it is flushed.
    ///
    /// # Errors
    /// It cannot be made.
    fn file(&mut self, name: &str) -> io::Result<Box<dyn Write + Send>>;
}

/// Why a file could not be made.
#[derive(Debug, thiserror::Error)]
pub enum ExportError {
    /// The archive could not be read.
    #[error("{0}")]
    Stream(#[from] StreamError),
    /// There is nothing to export.
    #[error("no carcass is in the files of enrolled devices")]
    Nothing,
    /// A file could not be written.
    #[error("{0}")]
    Out(io::Error),
    /// A form that is text.
    #[error("{0}")]
    Text(String),
    /// Parquet.
    #[cfg(feature = "cli")]
    #[error("{0}")]
    Parquet(#[from] ::parquet::errors::ParquetError),
}
