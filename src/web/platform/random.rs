//! Random bytes from the browser's own source.

use uuid::Uuid;

use super::{PlatformError, clock};
use crate::record::uuid_v7;

/// Fill with random bytes fit for keys.
///
/// # Errors
/// Where the browser gives none.
pub fn fill(bytes: &mut [u8]) -> Result<(), PlatformError> {
    getrandom::fill(bytes).map_err(|e| PlatformError::Failed(format!("no random bytes: {e}")))
}

/// A new id for a carcass, an examination, an outing or a report.
///
/// # Errors
/// Where the browser gives no random bytes.
pub fn new_id() -> Result<Uuid, PlatformError> {
    let mut random = [0; 10];
    fill(&mut random)?;
    Ok(uuid_v7(clock::unix_ms(), random))
}
