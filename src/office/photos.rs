//! Photos that bundles name, against those that have come in. A photo is known by the digest of its bytes and never
//! by its name: mail programs rename files.

use crate::bundle::Contents;
use crate::record::{Act, Answer, Digest, Entry, PHOTO_DELETED, Photo, Stored, Value};

use super::opening::Judged;

/// Every photo that a file names, with those that bundles carried inside it name.
pub fn named(judged: &Judged) -> Vec<&Photo> {
    let own = judged.contents.iter().flat_map(|contents| &contents.payload.photos);
    own.chain(judged.carried.iter().flat_map(named)).collect()
}

/// Photos that were deleted on the phone, as its entries say. The page tells it of every file after every change, so
/// it is found once, when the file is opened.
pub(super) fn deleted(contents: &Contents) -> Vec<Digest> {
    // Few entries speak of it: only those are read.
    let may = |entry: &&Entry| matches!(&entry.stored, Stored::Whole { text, .. } if text.contains(PHOTO_DELETED));
    let bodies = contents.entries.iter().filter(may).filter_map(|entry| entry.body().ok().flatten());
    bodies
        .filter_map(|body| match body.act {
            Act::Answer { key, answer: Answer::Seen { value: Value::Photo(photo) }, .. }
                if key.finding.as_str() == PHOTO_DELETED =>
            {
                Some(photo.sha256)
            }
            _ => None,
        })
        .collect()
}
