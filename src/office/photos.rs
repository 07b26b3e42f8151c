//! Photos that bundles name, against those that have come in. A photo is known by the digest of its bytes and never
//! by its name: mail programs rename files.

use crate::record::{Act, Answer, Digest, PHOTO_DELETED, Photo, Value};

use super::opening::Judged;

/// Every photo that a file names, with those that bundles carried inside it name.
pub fn named(judged: &Judged) -> Vec<&Photo> {
    let own = judged.contents.iter().flat_map(|contents| &contents.payload.photos);
    own.chain(judged.carried.iter().flat_map(named)).collect()
}

/// Photos that were deleted on the phone, as its entries say.
pub fn deleted(judged: &Judged) -> Vec<Digest> {
    let entries = judged.contents.iter().flat_map(|contents| &contents.entries);
    let bodies = entries.filter_map(|entry| entry.body().ok().flatten());
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
