//! Photos: bytes kept under their own digest, so that a changed byte shows.

use crate::record::{Digest, Photo};

use super::store::{Store, StoreError};

/// What became of a photo that an entry names.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Kept {
    /// Here, and unchanged.
    Whole(Vec<u8>),
    /// Not on this phone (deleted, or never was).
    NotHere,
    /// Here, but its bytes are not those that the entry names.
    Altered(Vec<u8>),
}

/// The name under which a photo's bytes are kept and by which an entry names it.
pub fn name(bytes: &[u8], media: &str) -> Photo {
    Photo { sha256: Digest::of(&[bytes]), bytes: bytes.len() as u64, media: media.to_owned() }
}

/// Keep a photo. It is on disk when this returns, so that an entry may name it.
///
/// # Errors
/// Where the store is full, refused or lost.
pub async fn keep<S: Store>(store: &S, bytes: &[u8], media: &str) -> Result<Photo, StoreError> {
    let photo = name(bytes, media);
    let sha256 = photo.sha256;
    match store.put_photo(sha256, bytes).await {
        Err(StoreError::Lost(_)) => {
            store.reopen().await?;
            store.put_photo(sha256, bytes).await?;
        }
        other => other?,
    }
    Ok(photo)
}

/// The bytes of a photo, checked against its digest.
///
/// # Errors
/// Where the store is refused or lost.
pub async fn read<S: Store>(store: &S, photo: &Photo) -> Result<Kept, StoreError> {
    Ok(match store.photo(photo.sha256).await? {
        None => Kept::NotHere,
        Some(bytes) if Digest::of(&[&bytes]) == photo.sha256 => Kept::Whole(bytes),
        Some(bytes) => Kept::Altered(bytes),
    })
}
