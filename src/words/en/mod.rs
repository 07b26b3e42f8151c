//! English.

mod office;
mod options;
mod readings;
mod screens;
mod steps;
mod hazard_sources;
mod hazards;
mod safety;

/// All parts of the catalogue.
pub(super) const CATALOGUE: [&[(&str, &str)]; 8] = [
    steps::TEXTS,
    hazards::TEXTS,
    hazard_sources::TEXTS,
    safety::TEXTS,
    options::TEXTS,
    readings::TEXTS,
    screens::TEXTS,
    office::TEXTS,
];
