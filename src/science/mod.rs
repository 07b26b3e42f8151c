//! One file a method: numbers in, estimate out, every constant beside its source.
