//! Every string a person reads, by message id, one catalogue a language.
