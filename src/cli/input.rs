//! Reading the files named on the command line, never more of one than is needed to refuse it.

use super::error::CliError;
use super::streams::Streams;
use crate::bundle::received::read_limited;
use crate::bundle::{Limits, OpenError};
use std::fs::File;
use std::path::Path;

/// The bytes of a file (`-` is standard input), or that it is larger than any file of ours.
pub(super) fn read(path: &Path, streams: &mut Streams<'_>) -> Result<Result<Vec<u8>, OpenError>, CliError> {
    let limit = Limits::default().file_bytes;
    let read = if path == Path::new("-") {
        read_limited(&mut streams.input, None, limit)
    } else {
        File::open(path).and_then(|file| {
            let length = file.metadata().ok().filter(std::fs::Metadata::is_file).map(|about| about.len());
            read_limited(file, length, limit)
        })
    };
    read.map_err(|error| CliError::File { file: name(path), error })
}

/// What a file is called in messages.
pub(super) fn name(path: &Path) -> String {
    if path == Path::new("-") { "standard input".to_owned() } else { path.display().to_string() }
}
