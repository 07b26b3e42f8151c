//! Thin: everything is in the library.
fn main() {}
