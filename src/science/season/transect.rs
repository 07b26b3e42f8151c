//! Distances of carcasses to a walked line, half-normal: how many in 100 within the strip were seen.
//!
//! `g(x) = exp(-x^2 / 2 sigma^2)`: on the line itself all are seen. Snow can break that: a buried carcass is not
//! seen at any distance. Always truncated: the strip's half-width `w` has to be said, and the form without one is
//! not offered, because with distances cut off it comes out too dense (63.4 instead of 49.7 in the reference's
//! example).

use core::f64::consts::{FRAC_1_SQRT_2, FRAC_PI_2, PI, SQRT_2};

use crate::science::special::bisect;

/// Fewest carcasses for a density; under it there are counts only. Ours.
pub const FEWEST: usize = 20;
/// From so many on a fit is useful. Ours, after the reference.
pub const ENOUGH: usize = 60;

/// Which standard error of `ln sigma`.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum SeForm {
    /// One over the root of the observed information.
    Information,
    /// One over the root of the summed squared scores.
    Scores,
}

/// A fit.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Fit {
    /// Carcasses within the strip.
    pub n: usize,
    /// Half-width of the strip, metres.
    pub w_m: f64,
    /// Scale, metres; `None` where the strip form stands for it.
    pub sigma_m: Option<f64>,
    /// Effective half-width, metres.
    pub mu_m: f64,
    /// Share of the carcasses in the strip that were seen, 0 to 1.
    pub seen: f64,
    /// Its coefficient of variation, by the observed information; 0 for the strip form.
    pub seen_cv: f64,
    /// Akaike's criterion; `None` for the strip form and for grouped distances.
    pub aic: Option<f64>,
}

/// Why there is no fit.
#[derive(Clone, Copy, Debug, PartialEq, thiserror::Error)]
pub enum NoFit {
    /// Nobody said how far from the line was looked.
    #[error("nobody said how far to each side of the line was searched")]
    NoStrip,
    /// Too few.
    #[error("{0} carcasses with a distance are too few for a density: {FEWEST} are asked for")]
    TooFew(usize),
    /// A distance that is none.
    #[error("a distance is below zero or no number")]
    NoDistance,
}

fn density(x: f64) -> f64 {
    libm::exp(-x * x / 2.0) / (2.0 * PI).sqrt()
}

fn effective(sigma: f64, w: f64) -> f64 {
    sigma * FRAC_PI_2.sqrt() * libm::erf(w / sigma * FRAC_1_SQRT_2)
}

/// Mean square of distances under a scale.
fn mean_square(sigma: f64, w: f64) -> f64 {
    let a = w / sigma;
    sigma * sigma * (1.0 - 2.0 * a * density(a) / libm::erf(a * FRAC_1_SQRT_2))
}

/// The fit of distances in metres within a strip of half-width `w_m`; those beyond it are left out. Where the mean
/// square reaches a third of `w_m` squared nothing falls off with distance: the strip form, all seen.
///
/// # Errors
/// [`NoFit`]; how few are too few is [`enough`]'s.
pub fn half_normal(distances_m: &[f64], w_m: Option<f64>) -> Result<Fit, NoFit> {
    let w = w_m.filter(|w| *w > 0.0 && w.is_finite()).ok_or(NoFit::NoStrip)?;
    if distances_m.iter().any(|x| !(*x >= 0.0 && x.is_finite())) {
        return Err(NoFit::NoDistance);
    }
    let mut squares: Vec<f64> = distances_m.iter().filter(|x| **x <= w).map(|x| x * x).collect();
    // Sorted, so that the order of the carcasses moves no digit.
    squares.sort_by(f64::total_cmp);
    if squares.is_empty() {
        return Err(NoFit::TooFew(0));
    }
    Ok(fit_squares(squares.iter().sum(), squares.len(), w))
}

/// The same from the sum of the squared distances.
pub fn fit_squares(sum_m2: f64, n: usize, w: f64) -> Fit {
    let (number, mean) = (n as f64, sum_m2 / n as f64);
    if mean >= w * w / 3.0 {
        return Fit { n, w_m: w, sigma_m: None, mu_m: w, seen: 1.0, seen_cv: 0.0, aic: None };
    }
    // The mean square grows with the scale, from 0 to a third of the squared half-width.
    let (least, most) = (w * 1e-4, w * 1e4);
    let sigma = bisect(least, most, |sigma| mean_square(sigma, w) < mean);
    let mu = effective(sigma, w);
    // Slope of ln mu in ln sigma, and the observed information on ln sigma: at the maximum the first derivative is
    // zero, and the second of ln L is -n times that of the mean square over sigma squared.
    let a = w / sigma;
    let slope = 1.0 - a * libm::exp(-a * a / 2.0) * sigma / mu;
    let information = number * information_each(sigma, w);
    let aic = 2.0 + sum_m2 / (sigma * sigma) + 2.0 * number * libm::log(mu);
    Fit { n, w_m: w, sigma_m: Some(sigma), mu_m: mu, seen: mu / w, seen_cv: slope / information.sqrt(), aic: Some(aic) }
}

/// Observed information of one distance on `ln sigma`, at the maximum: `-(d/d ln sigma)` of the score
/// `x^2/sigma^2 - m(sigma)` with `m` the slope of `ln mu`.
fn information_each(sigma: f64, w: f64) -> f64 {
    let a = w / sigma;
    // m(a) = 1 - h(a), h = a exp(-a^2/2) / (sqrt(pi/2) erf(a/sqrt 2)); the score is x^2/sigma^2 - m.
    let h = a * libm::exp(-a * a / 2.0) / (FRAC_PI_2.sqrt() * libm::erf(a / SQRT_2));
    // d a / d ln sigma = -a; d h / d ln a = h (1 - a^2 - h). So d m / d ln sigma = h (1 - a^2 - h).
    let slope_of_m = h * (1.0 - a * a - h);
    2.0 * (1.0 - h) + slope_of_m
}

/// Standard error of `ln sigma`. The two forms differ with few carcasses, so each is named. `None` for the strip form.
pub fn ln_sigma_se(distances_m: &[f64], fit: &Fit, form: SeForm) -> Option<f64> {
    let sigma = fit.sigma_m?;
    let of = match form {
        SeForm::Information => fit.n as f64 * information_each(sigma, fit.w_m),
        SeForm::Scores => {
            let a = fit.w_m / sigma;
            let m = 1.0 - a * libm::exp(-a * a / 2.0) / (FRAC_PI_2.sqrt() * libm::erf(a / SQRT_2));
            let within = distances_m.iter().filter(|x| **x <= fit.w_m);
            within.map(|x| x * x / (sigma * sigma) - m).map(|score| score * score).sum()
        }
    };
    (of > 0.0).then(|| 1.0 / of.sqrt())
}

/// The fit of distances that were only put into bands: `cuts_m` from 0 to the half-width, one more than `counts`.
///
/// # Errors
/// [`NoFit`].
pub fn half_normal_in_bands(cuts_m: &[f64], counts: &[u32]) -> Result<Fit, NoFit> {
    let w = cuts_m.last().copied().filter(|w| *w > 0.0 && w.is_finite()).ok_or(NoFit::NoStrip)?;
    let rising = cuts_m.windows(2).all(|pair| matches!(pair, [a, b] if a < b));
    if !rising || cuts_m.len() != counts.len() + 1 || cuts_m.first().is_none_or(|first| first.abs() > 0.0) {
        return Err(NoFit::NoDistance);
    }
    let n: u32 = counts.iter().sum();
    if n == 0 {
        return Err(NoFit::TooFew(0));
    }
    let erf = |x: f64, sigma: f64| libm::erf(x / sigma * FRAC_1_SQRT_2);
    let slope = |x: f64, sigma: f64| {
        // d erf(x / (sigma sqrt 2)) / d ln sigma
        let u = x / sigma;
        -(2.0 / PI).sqrt() * u * libm::exp(-u * u / 2.0)
    };
    let score = |sigma: f64| {
        let whole = slope(w, sigma) / erf(w, sigma);
        let of = |(pair, count): (&[f64], &u32)| match pair {
            [a, b] => {
                let part = erf(*b, sigma) - erf(*a, sigma);
                f64::from(*count) * ((slope(*b, sigma) - slope(*a, sigma)) / part.max(1e-300) - whole)
            }
            _ => 0.0,
        };
        cuts_m.windows(2).zip(counts).map(of).sum::<f64>()
    };
    let (least, most) = (w * 1e-2, w * 1e3);
    let n = n as usize;
    if score(most) >= 0.0 {
        return Ok(Fit { n, w_m: w, sigma_m: None, mu_m: w, seen: 1.0, seen_cv: 0.0, aic: None });
    }
    let sigma = bisect(least, most, |sigma| score(sigma) > 0.0);
    let mu = effective(sigma, w);
    let step = 1e-4;
    let information = (score(sigma * libm::exp(-step)) - score(sigma * libm::exp(step))) / (2.0 * step);
    let a = w / sigma;
    let seen_cv = (1.0 - a * libm::exp(-a * a / 2.0) * sigma / mu) / information.sqrt();
    Ok(Fit { n, w_m: w, sigma_m: Some(sigma), mu_m: mu, seen: mu / w, seen_cv, aic: None })
}

/// Whether a fit rests on enough carcasses for a density.
///
/// # Errors
/// [`NoFit::TooFew`].
pub fn enough(fit: &Fit) -> Result<(), NoFit> {
    if fit.n < FEWEST { Err(NoFit::TooFew(fit.n)) } else { Ok(()) }
}
