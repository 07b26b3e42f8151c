//! The office's signing key in a file, wrapped by a passphrase.
//!
//! Argon2id (RFC 9106) makes a key of the passphrase, ChaCha20-Poly1305 (RFC 8439) seals the 32-byte
//! seed under it, bound to the public half. A stolen file is worth as much as its passphrase is hard
//! to guess; a lost passphrase cannot be got back, and a new key means new cards for every phone.

use crate::bundle::{DeviceKey, PublicKey, base64url};
use argon2::{Algorithm, Argon2, Params, Version};
use chacha20poly1305::aead::{Aead, KeyInit, Payload};
use chacha20poly1305::{ChaCha20Poly1305, Key, Nonce};
use serde::{Deserialize, Serialize};

/// The version of the file's form.
const FORMAT: u32 = 1;

/// The fewest characters of a passphrase: four or five words.
const PASSPHRASE_CHARS: usize = 15;

/// How hard guessing is made: the second recommended choice of RFC 9106 section 4 (64 MiB, three
/// passes, four lanes). About a third of a second on an office machine.
const WORK: Work = Work { memory_kib: 64 * 1024, passes: 3, lanes: 4 };

/// The most work that a file may ask for, so that a forged one cannot stall the office.
const MOST_WORK: Work = Work { memory_kib: 1024 * 1024, passes: 16, lanes: 16 };

/// The office's key file.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct KeyFile {
    /// Version of this form: 1.
    format: u32,
    /// The public half, in base64url.
    public: String,
    /// What makes a key of the passphrase: `argon2id`, version 19.
    kdf: String,
    /// How much work that is.
    work: Work,
    /// 16 random bytes, in base64url.
    salt: String,
    /// What seals the seed: `chacha20-poly1305`.
    cipher: String,
    /// 12 random bytes, in base64url.
    nonce: String,
    /// The sealed seed, in base64url.
    sealed: String,
}

/// The work of making a key of a passphrase.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct Work {
    memory_kib: u32,
    passes: u32,
    lanes: u32,
}

/// The random bytes that a new key file takes, from the system's random source.
#[derive(Clone, Copy, Debug)]
pub struct Randomness {
    /// The key's seed.
    pub seed: [u8; 32],
    /// The passphrase's salt.
    pub salt: [u8; 16],
    /// The seal's nonce.
    pub nonce: [u8; 12],
}

/// Why a key file was not made or opened.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub enum KeyFileError {
    /// Too short a passphrase.
    #[error("a passphrase has at least {PASSPHRASE_CHARS} characters; four or five unrelated words are good")]
    ShortPassphrase,
    /// The passphrase does not open it, or the file was changed.
    #[error("the passphrase does not open the office key, or the file was changed")]
    WrongPassphrase,
    /// Not a key file.
    #[error("the office key cannot be read: {0}")]
    Form(String),
    /// A later form.
    #[error("the office key is of form {0}; this program reads up to form {FORMAT}")]
    Newer(u32),
}

impl KeyFile {
    /// Makes a new key and wraps it.
    ///
    /// # Errors
    /// The passphrase is too short.
    pub fn make(passphrase: &str, random: Randomness) -> Result<Self, KeyFileError> {
        Self::make_with(passphrase, random, WORK)
    }

    /// Whether a passphrase may wrap a key: to be asked before it is typed twice.
    ///
    /// # Errors
    /// It is too short.
    pub fn fits(passphrase: &str) -> Result<(), KeyFileError> {
        if passphrase.chars().count() < PASSPHRASE_CHARS { Err(KeyFileError::ShortPassphrase) } else { Ok(()) }
    }

    fn make_with(passphrase: &str, random: Randomness, work: Work) -> Result<Self, KeyFileError> {
        Self::fits(passphrase)?;
        let public = DeviceKey::from_seed(&random.seed).public().x();
        let cipher = ChaCha20Poly1305::new(&Key::from(stretch(passphrase, &random.salt, work)?));
        let payload = Payload { msg: &random.seed, aad: public.as_bytes() };
        let sealed = cipher
            .encrypt(&Nonce::from(random.nonce), payload)
            .map_err(|_| KeyFileError::Form("the key could not be sealed".to_owned()))?;
        Ok(Self {
            format: FORMAT,
            public,
            kdf: "argon2id".to_owned(),
            work,
            salt: base64url::encode(&random.salt),
            cipher: "chacha20-poly1305".to_owned(),
            nonce: base64url::encode(&random.nonce),
            sealed: base64url::encode(&sealed),
        })
    }

    /// Reads a key file from its text.
    ///
    /// # Errors
    /// Not a key file, or of a later form.
    pub fn read(text: &str) -> Result<Self, KeyFileError> {
        #[derive(Deserialize)]
        struct Form {
            format: u32,
        }
        let form = |error: crate::record::JsonError| KeyFileError::Form(error.reason);
        let Form { format } = crate::record::read_strict(text).map_err(form)?;
        if format > FORMAT {
            return Err(KeyFileError::Newer(format));
        }
        crate::record::read_strict(text).map_err(form)
    }

    /// The file's text.
    ///
    /// # Errors
    /// Never in practice: the file holds only text and small numbers.
    pub fn write(&self) -> Result<String, KeyFileError> {
        let text = serde_json::to_string_pretty(self).map_err(|error| KeyFileError::Form(error.to_string()))?;
        Ok(text + "\n")
    }

    /// The public half, which needs no passphrase. Nothing vouches for it until [`KeyFile::unlock`].
    ///
    /// # Errors
    /// It is damaged.
    pub fn public(&self) -> Result<PublicKey, KeyFileError> {
        let bytes = base64url::decode_array(&self.public).map_err(|error| damaged("public", &error))?;
        PublicKey::from_bytes(&bytes).map_err(|error| damaged("public", &error))
    }

    /// The key itself.
    ///
    /// # Errors
    /// The passphrase is wrong, or the file is damaged or asks for what is not done here.
    pub fn unlock(&self, passphrase: &str) -> Result<DeviceKey, KeyFileError> {
        if self.kdf != "argon2id" || self.cipher != "chacha20-poly1305" {
            return Err(KeyFileError::Form("it is wrapped in an unknown way".to_owned()));
        }
        let (work, most) = (self.work, MOST_WORK);
        if work.memory_kib > most.memory_kib || work.passes > most.passes || work.lanes > most.lanes {
            return Err(KeyFileError::Form("it asks for too much work".to_owned()));
        }
        let salt: [u8; 16] = base64url::decode_array(&self.salt).map_err(|error| damaged("salt", &error))?;
        let nonce: [u8; 12] = base64url::decode_array(&self.nonce).map_err(|error| damaged("nonce", &error))?;
        let sealed = base64url::decode(&self.sealed).map_err(|error| damaged("sealed", &error))?;
        let cipher = ChaCha20Poly1305::new(&Key::from(stretch(passphrase, &salt, work)?));
        let payload = Payload { msg: &sealed, aad: self.public.as_bytes() };
        let seed = cipher.decrypt(&Nonce::from(nonce), payload).map_err(|_| KeyFileError::WrongPassphrase)?;
        let seed: [u8; 32] = seed.try_into().map_err(|_| KeyFileError::WrongPassphrase)?;
        let key = DeviceKey::from_seed(&seed);
        if key.public().x() == self.public { Ok(key) } else { Err(KeyFileError::WrongPassphrase) }
    }
}

fn damaged(member: &str, error: &dyn std::fmt::Display) -> KeyFileError {
    KeyFileError::Form(format!("its member {member} {error}"))
}

fn stretch(passphrase: &str, salt: &[u8; 16], work: Work) -> Result<[u8; 32], KeyFileError> {
    let odd = |error: argon2::Error| KeyFileError::Form(format!("its work cannot be done: {error}"));
    let params = Params::new(work.memory_kib, work.passes, work.lanes, Some(32)).map_err(odd)?;
    let mut key = [0; 32];
    let argon2 = Argon2::new(Algorithm::Argon2id, Version::V0x13, params);
    argon2.hash_password_into(passphrase.as_bytes(), salt, &mut key).map_err(odd)?;
    Ok(key)
}

#[cfg(test)]
mod tests {
    use super::*;

    const LITTLE: Work = Work { memory_kib: 64, passes: 1, lanes: 1 };
    const PASSPHRASE: &str = "acorn basin cedar dolphin";

    fn file() -> KeyFile {
        let random = Randomness { seed: [1; 32], salt: [2; 16], nonce: [3; 12] };
        KeyFile::make_with(PASSPHRASE, random, LITTLE).unwrap()
    }

    #[test]
    fn the_right_passphrase_opens_and_no_other() {
        let text = file().write().unwrap();
        let file = KeyFile::read(&text).unwrap();
        let key = file.unlock(PASSPHRASE).unwrap();
        assert_eq!(key.seed(), [1; 32]);
        assert_eq!(file.public().unwrap(), key.public());
        for wrong in ["", "acorn basin cedar dolphin ", "Acorn basin cedar dolphin"] {
            assert_eq!(file.unlock(wrong).unwrap_err(), KeyFileError::WrongPassphrase);
        }
        assert!(!text.contains(&base64url::encode(&[1; 32])));
    }

    #[test]
    fn a_changed_file_does_not_open() {
        let text = file().write().unwrap();
        let other = DeviceKey::from_seed(&[9; 32]).public().x();
        for (from, to) in [
            (file().public.clone(), other),
            ("\"passes\": 1".to_owned(), "\"passes\": 2".to_owned()),
            (base64url::encode(&[2; 16]), base64url::encode(&[4; 16])),
            (base64url::encode(&[3; 12]), base64url::encode(&[4; 12])),
        ] {
            assert!(text.contains(&from), "{from}");
            let changed = KeyFile::read(&text.replace(&from, &to)).unwrap();
            assert_eq!(changed.unlock(PASSPHRASE).unwrap_err(), KeyFileError::WrongPassphrase, "{from}");
        }
        for (from, to) in [
            ("argon2id", "argon2i"),
            ("\"memory_kib\": 64", "\"memory_kib\": 2000000"),
            ("\"memory_kib\": 64", "\"memory_kib\": 0"),
        ] {
            let changed = KeyFile::read(&text.replace(from, to)).unwrap();
            assert!(matches!(changed.unlock(PASSPHRASE), Err(KeyFileError::Form(_))), "{to}");
        }
        assert!(matches!(KeyFile::read(&text.replace("format\": 1", "format\": 2")), Err(KeyFileError::Newer(2))));
        assert!(matches!(KeyFile::read("{}"), Err(KeyFileError::Form(_))));
    }

    #[test]
    fn a_short_passphrase_is_refused() {
        let random = Randomness { seed: [1; 32], salt: [2; 16], nonce: [3; 12] };
        assert_eq!(KeyFile::make_with("fourteen chars", random, LITTLE), Err(KeyFileError::ShortPassphrase));
    }

    // Computed outside with Python cryptography 50.0.2:
    // Argon2id(salt=b"\x02" * 16, length=32, iterations=1, lanes=1, memory_cost=64).derive(b"acorn basin cedar dolphin")
    // and ChaCha20Poly1305(key).encrypt(b"\x03" * 12, b"\x01" * 32, public.encode()).
    #[test]
    fn another_library_seals_the_same_bytes() {
        assert_eq!(file().sealed, SEALED_BY_PYTHON);
    }

    const SEALED_BY_PYTHON: &str = "n00UgdUlhwIEhQyArPKJdYnw7Qshd4oSmK6GC8jIu6l_Yue_daSIIrCh5kHqF77U";
}
