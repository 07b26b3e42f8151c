//! Photos: which are named, which have come, which are missing.

use std::collections::{BTreeMap, BTreeSet};
use std::sync::Arc;

use super::{Hand, Picked, What};
use crate::office::opening::Judged;
use crate::office::photos::named;
use crate::record::{Digest, Photo};

impl Hand {
    /// The file handed in that names a photo; the archive where an earlier one did.
    pub fn names(&self, digest: Digest) -> Option<&str> {
        let of_this = self.files.iter().find_map(|file| match &file.what {
            What::Judged(judged) => {
                named(judged).iter().any(|photo| photo.sha256 == digest).then_some(file.name.as_str())
            }
            _ => None,
        });
        of_this.or_else(|| self.named.contains(&digest).then_some("received/"))
    }

    /// Whether a photo that a bundle names is at hand.
    pub fn has(&self, photo: &Photo) -> bool {
        self.photos.contains_key(&photo.sha256)
            || self.files.iter().any(|file| matches!(file.what, What::Photo(digest) if digest == photo.sha256))
    }

    /// Photos that files of the archive name and that have not come, each with the label of the phone that named it.
    pub fn missing_photos(&self) -> BTreeMap<Digest, String> {
        let (mut out, mut gone) = (BTreeMap::new(), BTreeSet::new());
        self.received.values().for_each(|judged| told_of_photos(judged, &mut out, &mut gone));
        out.retain(|_, (photo, _)| !self.has(photo) && !gone.contains(&photo.sha256));
        out.into_iter().map(|(digest, (_, label))| (digest, label.to_owned())).collect()
    }

    /// The bytes of a photo of the archive: those that were signed, whatever the file is called.
    pub fn photo(&self, digest: Digest) -> Option<Arc<[u8]>> {
        self.held.get(&self.photos.get(&digest)?.to_string_lossy())
    }

    /// Photos as signed, and photos that nothing here vouches for.
    pub fn photos(&self) -> (usize, usize) {
        let is_named = |file: &&Picked| matches!(file.what, What::Photo(digest) if self.named.contains(&digest));
        let all = self.files.iter().filter(|file| matches!(file.what, What::Photo(_))).count();
        let good = self.files.iter().filter(is_named).count();
        (good, all - good)
    }
}

/// Photos that a file and all that it carries name, each with the label of the phone that did; and those of which it
/// says that they were deleted.
fn told_of_photos<'a>(
    judged: &'a Judged,
    named: &mut BTreeMap<Digest, (&'a Photo, &'a str)>,
    gone: &mut BTreeSet<Digest>,
) {
    if let Some(contents) = &judged.contents {
        let label = contents.payload.label.as_str();
        named.extend(contents.payload.photos.iter().map(|photo| (photo.sha256, (photo, label))));
    }
    gone.extend(&judged.deleted);
    judged.carried.iter().for_each(|inner| told_of_photos(inner, named, gone));
}
