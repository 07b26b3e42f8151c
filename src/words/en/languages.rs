//! Choosing a language. The names of the languages stand in `Language::own_name`, each in its own tongue.

pub(super) const TEXTS: &[(&str, &str)] = &[
    ("language.head", "Language"),
    ("language.unchecked", "This translation still wants a native reader's check. In doubt the English holds."),
    (
        "language.missing",
        "{language} is not on this phone. The form stays as it is. Open it once with signal, then choose again.",
    ),
    (
        "language.other_version",
        "{language} on this phone is of another version. The form stays as it is. Open it again with signal.",
    ),
];
