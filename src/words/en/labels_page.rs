//! Labels of samples, for paper.

pub(super) const TEXTS: &[(&str, &str)] = &[
    ("labels.title", "Labels of samples"),
    ("labels.not_written", "No label was written at the carcass: check that this is the thing."),
    ("labels.code", "The label as a code"),
    ("labels.none", "nothing was taken in these files: there is no label to print"),
    ("labels.written", "{n} {n?label|labels} written: {file}. Open it in a browser and print it without scaling."),
];
