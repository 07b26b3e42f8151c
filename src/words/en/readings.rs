//! Readings, cautions, methods and what would sharpen them.

pub(super) const TEXTS: &[(&str, &str)] = &[];
