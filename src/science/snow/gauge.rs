//! A weighted tube that sinks as a walking deer's foot does (Verme 1968 as described in NC-52, chapter 3):
//! 3 ft of copper tube, 1 1/8 in across, filled with lead to 3 lb.

/// Grams to a pound.
const G_PER_LB: f64 = 453.592_37;
/// Centimetres to an inch.
const CM_PER_IN: f64 = 2.54;

/// Area of the tube's end, cm2, from its outside diameter.
pub fn area_cm2(diameter_in: f64) -> f64 {
    let radius = diameter_in * CM_PER_IN / 2.0;
    core::f64::consts::PI * radius * radius
}

/// Load on the snow, g/cm2. `None` unless both are positive.
pub fn load_g_per_cm2(mass_lb: f64, diameter_in: f64) -> Option<f64> {
    (mass_lb > 0.0 && diameter_in > 0.0).then(|| mass_lb * G_PER_LB / area_cm2(diameter_in))
}
