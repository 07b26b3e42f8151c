//! Keyring, archive, merge, season.
