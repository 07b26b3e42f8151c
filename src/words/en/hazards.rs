//! Hazards: headline and what to do.

pub(super) const TEXTS: &[(&str, &str)] = &[];
