//! The exponential function in single precision, short and without a branch in the middle.
//!
//! A phone needs it more than a million times for one carcass's ranges; `libm::expf` took half of that time.
//! Reduction and polynomial: `expf` of the Cephes library (Moshier 1989, from memory), tested against `libm`.

const LOG2_E: f32 = core::f32::consts::LOG2_E;
/// `ln 2` in two parts, the first short enough that its multiples are exact.
const LN_2: [f32; 2] = [355.0 / 512.0, -0.000_212_194_44];
const POLYNOMIAL: [f32; 6] = [1.987_569_1e-4, 1.398_199_9e-3, 8.333_452e-3, 4.166_579_6e-2, 1.666_666_5e-1, 0.5];

/// `e` to the power `x`, for `x` held within -80 and 80; off by less than 2e-7 of itself.
#[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss)] // within -116 and 116, with 127 added
pub(super) fn exp(x: f32) -> f32 {
    let x = x.clamp(-80.0, 80.0);
    let n = (x * LOG2_E + 0.5).floor();
    let r = x - n * LN_2[0] - n * LN_2[1];
    let y = POLYNOMIAL.iter().fold(0.0, |y, of| y * r + of) * r * r + r + 1.0;
    y * f32::from_bits(((n as i32 + 127) as u32) << 23)
}

#[cfg(test)]
mod tests {
    /// Against `libm`, over more than what log odds of a cell reach.
    #[test]
    #[allow(clippy::cast_possible_truncation)]
    fn it_is_libm_s_to_single_precision() {
        for step in -40_000_i32..=40_000 {
            let x = f64::from(step) / 500.0;
            let single = x as f32;
            let expected = libm::exp(f64::from(single));
            let off = (f64::from(super::exp(single)) - expected).abs() / expected;
            assert!(off < 2e-7, "{x}: off by {off}");
        }
        assert!(super::exp(-1e9) > 0.0 && super::exp(1e9).is_finite());
    }
}
