//! Screens, buttons and messages of the form.

pub(super) const TEXTS: &[(&str, &str)] = &[];
