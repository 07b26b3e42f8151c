//! Canonical form, keys, signed envelopes, opening and checking.
//!
//! A signed file is one line of ASCII: a flattened JWS (RFC 7515) whose protected header names the
//! kind of file and the key that signed it. What is verified is always the text as received, and
//! what is read afterwards comes from those same verified bytes; nothing is re-serialised in order
//! to be checked.
//!
//! What the signature tells: the file was not changed since the phone (or the office) made it, and
//! two phones were not mixed up. It does not tell that what was typed is true, and it does not hide
//! anything: whoever has the file can read it.

pub mod base64url;
pub mod canonical;
pub mod contents;
pub mod deflate;
pub mod envelope;
pub mod fingerprint;
mod fingerprint_words;
pub mod jwk;
pub mod key;
pub mod kind;
pub mod making;
pub mod open_error;
pub mod opening;
pub mod payload;
pub mod qr;
pub mod received;
pub mod strict;
#[cfg(test)]
mod vectors;

pub use contents::{Contents, ContentsError, Fault, Reading};
pub use envelope::{SealError, seal};
pub use fingerprint::Fingerprint;
pub use key::{DeviceKey, PublicKey};
pub use kind::Kind;
pub use making::{Cover, Extras, MakeError, make};
pub use open_error::{OpenError, Step};
pub use opening::{Checked, Limits, Opened, Opening, open};
pub use payload::{FourVersions, Payload, PhoneReading};
