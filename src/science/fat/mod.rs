//! Fat other than marrow: looked at by class, weighed round the kidneys, dried from the hollow of the jaw.
//!
//! The looks and the weights are what is stored; classes and indices are worked out anew. Formulas that are
//! recalled and not confirmed have files of their own and take part in nothing: whoever prints them prints
//! their mark.
//!
//! | file | holds |
//! |---|---|
//! | [`look`] | how much fat is seen at each depot, in the order in which they empty |
//! | [`kidney`] | kidney fat index and mass, by two trimmings that do not mix |
//! | [`cavity`] | fat in the hollow of the lower jaw, both sides |
//! | [`recalled`] | a score, an index and a thickness rule, all from memory |
//! | [`sources`] | what all of it rests on |

pub mod cavity;
pub mod kidney;
pub mod look;
pub mod recalled;
pub mod sources;

#[cfg(test)]
mod tests;
