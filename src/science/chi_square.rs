//! The chi-square distribution.
//!
//! Regularised incomplete gamma function by its series and its continued fraction: NIST Digital Library
//! of Mathematical Functions 8.7.1 and 8.9.2. Checked against SciPy (`tests/reference/diet.csv`).

use super::special::bisect;

/// Steps after which series and fraction have long converged for the sizes that occur here.
const STEPS: u32 = 2_000;

/// Probability that a chi-square variable with `degrees` of freedom is at most `x`. `None` unless both are
/// positive numbers (`x` may be zero).
pub fn chi_square_cdf(x: f64, degrees: u32) -> Option<f64> {
    if degrees == 0 || !(x >= 0.0 && x.is_finite()) {
        return None;
    }
    let a = f64::from(degrees) / 2.0;
    let x = x / 2.0;
    if x <= 0.0 {
        return Some(0.0);
    }
    let front = libm::exp(a * libm::log(x) - x - libm::lgamma(a));
    Some(if x < a + 1.0 { front * series(a, x) } else { 1.0 - front * fraction(a, x) })
}

/// The `x` with [`chi_square_cdf`]`(x, degrees) == p`. `None` unless `0 < p < 1` and `degrees` is positive.
pub fn chi_square_quantile(p: f64, degrees: u32) -> Option<f64> {
    if degrees == 0 || !(p > 0.0 && p < 1.0) {
        return None;
    }
    let below = |x: f64| chi_square_cdf(x, degrees).is_some_and(|v| v < p);
    let mut high = f64::from(degrees);
    while below(high) {
        high *= 2.0;
    }
    Some(bisect(0.0, high, below))
}

fn series(a: f64, x: f64) -> f64 {
    let (mut term, mut sum) = (1.0 / a, 1.0 / a);
    for step in 1..=STEPS {
        term *= x / (a + f64::from(step));
        sum += term;
        if term < sum * 1e-17 {
            break;
        }
    }
    sum
}

/// Lentz's evaluation of the continued fraction.
#[allow(clippy::many_single_char_names)] // the names are those of the formula
fn fraction(a: f64, x: f64) -> f64 {
    const TINY: f64 = 1e-300;
    let guard = |v: f64| if v.abs() < TINY { TINY } else { v };
    let mut b = x + 1.0 - a;
    let mut c = 1.0 / TINY;
    let mut d = 1.0 / guard(b);
    let mut h = d;
    for step in 1..=STEPS {
        let n = f64::from(step);
        let an = -n * (n - a);
        b += 2.0;
        d = 1.0 / guard(an * d + b);
        c = guard(b + an / c);
        h *= c * d;
        if (c * d - 1.0).abs() < 1e-16 {
            break;
        }
    }
    h
}
