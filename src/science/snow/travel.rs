//! The added cost of walking in snow.
//!
//! Parker, Robbins and Hanley 1984, mule deer and elk. The equation is from memory: no text that was read
//! prints it. It gives about double the cost at half the chest and five to six times at the chest, as is
//! commonly quoted. Costs level off past the chest (Dailey and Hobbs 1989), so it is never stretched.

use super::SnowRefusal;

/// Densities that were fitted, g/cm3.
pub const DENSITIES: (f64, f64) = (0.1, 0.4);

/// Percent that walking costs more than on bare ground, at so many percent of the chest's height and this
/// density of snow in g/cm3.
///
/// # Errors
/// Outside the fitted range.
pub fn added_percent(relative_percent: f64, density: f64) -> Result<f64, SnowRefusal> {
    if !(0.0..=100.0).contains(&relative_percent) {
        return Err(SnowRefusal::SinkingOutsideFit(relative_percent));
    }
    if !(DENSITIES.0..=DENSITIES.1).contains(&density) {
        return Err(SnowRefusal::DensityOutsideFit(density));
    }
    let c = density - 0.2;
    Ok((0.71 + 2.6 * c) * relative_percent * libm::exp((0.019 + 0.016 * c) * relative_percent))
}
