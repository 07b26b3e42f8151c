//! The local card and the evidence table: types and validation.
