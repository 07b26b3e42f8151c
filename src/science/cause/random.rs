//! Random numbers found from their place: draw, row, state, cause.
//!
//! No state runs along, so the order of answering does not matter, all carcasses share one drawn table,
//! and phone and office draw the same. Mixing: the finaliser of SplitMix64 (Steele, Lea and Flood 2014,
//! OOPSLA, 453-472); normal variables: Box and Muller 1958, Ann. Math. Stat. 29:610-611.

/// Odd constant of SplitMix64: 2^64 over the golden ratio.
const GAMMA: u64 = 0x9E37_79B9_7F4A_7C15;
const SEED: u64 = 1971;
/// 2^-53.
const STEP: f64 = 1.0 / 9_007_199_254_740_992.0;

const fn mix(mut z: u64) -> u64 {
    z = (z ^ (z >> 30)).wrapping_mul(0xBF58_476D_1CE4_E5B9);
    z = (z ^ (z >> 27)).wrapping_mul(0x94D0_49BB_1331_11EB);
    z ^ (z >> 31)
}

/// The two raw words of a place.
pub(super) fn words(draw: u64, row: u8, state: u8, cause: u8) -> (u64, u64) {
    let key = ((draw.wrapping_mul(32).wrapping_add(u64::from(row))).wrapping_mul(16).wrapping_add(u64::from(state)))
        .wrapping_mul(16)
        .wrapping_add(u64::from(cause));
    let at = key.wrapping_mul(2);
    let word = |n: u64| SEED.wrapping_add(at.wrapping_add(n).wrapping_mul(GAMMA));
    (mix(word(1)), mix(word(2)))
}

/// A standard normal variable of a place. Row and state 0 are the prior's.
///
/// In single precision: about 1e-7 in a number that the table's own ranges place to within tenths. A phone
/// draws more than a million of them for one carcass.
#[allow(clippy::cast_precision_loss, clippy::cast_possible_truncation)] // 53 bits fit; 24 are enough
pub fn normal(draw: u64, row: u8, state: u8, cause: u8) -> f32 {
    let (a, b) = words(draw, row, state, cause);
    let u = ((a >> 11) + 1) as f64 * STEP;
    let v = (b >> 11) as f64 * STEP;
    // A square root is rounded the same everywhere; a phone has an instruction for it, `libm` a long loop.
    (-2.0 * libm::logf(u as f32)).sqrt() * libm::cosf((core::f64::consts::TAU * v) as f32)
}
