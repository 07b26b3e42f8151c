//! Options of findings, sites, units and reasons.

pub(super) const TEXTS: &[(&str, &str)] = &[];
