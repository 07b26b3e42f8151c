//! What is fed with hostile bytes, and what must hold whatever they are. Nothing may panic, hang or grow; each target adds
//! what it can know about a good outcome.

mod bundle;
mod card;
mod coordinates;
mod csv;
mod frames;
mod journal;

/// Bears one input, or panics.
pub(crate) type Target = fn(&[u8]);

/// All targets by name. The inputs kept for each lie in `tests/corpus/NAME`.
pub(crate) const ALL: [(&str, Target); 6] = [
    ("bundle", bundle::run),
    ("card", card::run),
    ("coordinates", coordinates::run),
    ("csv", csv::run),
    ("frames", frames::run),
    ("journal", journal::run),
];

/// The target of that name.
#[allow(dead_code)] // not by every program that takes this in
pub(crate) fn by_name(name: &str) -> Option<Target> {
    ALL.into_iter().find(|(one, _)| *one == name).map(|(_, run)| run)
}
