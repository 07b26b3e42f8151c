//! Photos that were deleted.

use crate::record::finding::{FindingDef as F, Shape, Sites};

/// The trace of a photo that was deleted on the phone: its number in the list, its digest and its length stay.
pub const PHOTO_DELETED: &str = "photo_deleted";

pub(super) const FINDINGS: &[F] = &[F::exam(PHOTO_DELETED, Shape::Photo).at(Sites::Item).repeated()];
