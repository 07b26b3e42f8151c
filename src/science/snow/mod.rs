//! Snow at the carcass: how far a deer sank, against its own chest.
//!
//! Depth alone predicts sinking poorly, so sinking is what is asked and what decides; depth is set beside
//! the figures that agencies print, each with its place. Snow that hindered is no cause of death.
//!
//! | file | holds |
//! |---|---|
//! | [`chest`] | measured or taken by age, and the depth that impedes |
//! | [`sinking`] | relative sinking depth, classes, printed depths |
//! | [`travel`] | the cost of walking, from memory |
//! | [`gauge`] | a weighted tube that sinks as a deer's foot does |
//! | [`sources`] | what all of it rests on |

pub mod chest;
pub mod gauge;
pub mod sinking;
pub mod sources;
#[cfg(test)]
mod tests;
pub mod travel;

/// Why a measure of snow cannot be used.
#[derive(Clone, Copy, Debug, PartialEq, thiserror::Error)]
pub enum SnowRefusal {
    /// Below zero or no number.
    #[error("{0} is no depth")]
    NotADepth(f64),
    /// Deer do not sink deeper than the snow lies.
    #[error("a sinking depth of {sinking_cm} cm is more than the {depth_cm} cm of snow")]
    DeeperThanSnow {
        /// How deep it was said to sink.
        sinking_cm: f64,
        /// How deep the snow was said to lie.
        depth_cm: f64,
    },
    /// No chest is so high.
    #[error("{0} cm is no height of a chest")]
    NotAChest(f64),
    /// Past the chest: costs level off there and nobody fitted them.
    #[error("{0} % of the chest's height lies outside the 0 to 100 % that were fitted")]
    SinkingOutsideFit(f64),
    /// Outside the densities fitted.
    #[error("a density of {0} g/cm3 lies outside the 0.1 to 0.4 that were fitted")]
    DensityOutsideFit(f64),
}

/// Snow crust, as it was tried.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Crust {
    /// None.
    None,
    /// It breaks under a deer.
    BreaksUnderDeer,
    /// It holds a predator and not a deer: the dangerous state.
    HoldsPredatorOnly,
    /// It holds a deer.
    HoldsDeer,
}

/// A depth that can be true.
pub(crate) fn depth(cm: f64) -> Result<f64, SnowRefusal> {
    if cm >= 0.0 && cm.is_finite() { Ok(cm) } else { Err(SnowRefusal::NotADepth(cm)) }
}
