//! The vocabulary: units, answers, findings, entries, the journal and its hash chain, the fold.
