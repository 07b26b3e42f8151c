//! English.

mod office;
mod options;
mod readings;
mod screens;
mod steps;
mod hazards;

/// All parts of the catalogue.
pub(super) const CATALOGUE: [&[(&str, &str)]; 6] =
    [steps::TEXTS, hazards::TEXTS, options::TEXTS, readings::TEXTS, screens::TEXTS, office::TEXTS];
