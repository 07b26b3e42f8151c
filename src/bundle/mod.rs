//! Canonical form, keys, signed envelopes, opening and checking.
