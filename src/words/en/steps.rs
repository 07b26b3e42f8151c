//! Questions: what is asked, why, and how to look.

pub(super) const TEXTS: &[(&str, &str)] = &[];
