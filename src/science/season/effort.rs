//! Lines walked, how the finds spread between them, and the range of a density.

use super::transect::Fit;
use crate::science::special::normal_quantile;

/// One walked line.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Line {
    /// Length, metres.
    pub length_m: f64,
    /// Carcasses found within the strip.
    pub found: u32,
}

/// Carcasses on an area.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Density {
    /// Carcasses on a square kilometre.
    pub per_km2: f64,
    /// 95 % range, log-normal; `None` with one line: how finds spread between lines cannot be told then.
    pub range: Option<[f64; 2]>,
    /// Coefficient of variation of finds a metre; `None` with one line.
    pub encounter_cv: Option<f64>,
    /// All lines, metres.
    pub length_m: f64,
}

/// Coefficient of variation of finds a metre over lines: `K / (L^2 (K-1)) sum l^2 (n/l - N/L)^2` over `(N/L)^2`.
/// `None` with fewer than two lines, without finds, or with a length that is none.
pub fn encounter_cv(lines: &[Line]) -> Option<f64> {
    let count = lines.len() as f64;
    let length: f64 = lines.iter().map(|line| line.length_m).sum();
    let found: f64 = lines.iter().map(|line| f64::from(line.found)).sum();
    if lines.len() < 2 || found <= 0.0 || lines.iter().any(|line| !(line.length_m > 0.0 && line.length_m.is_finite())) {
        return None;
    }
    let rate = found / length;
    let of = |line: &Line| {
        let off = f64::from(line.found) - rate * line.length_m;
        off * off
    };
    let variance = count / (length * length * (count - 1.0)) * lines.iter().map(of).sum::<f64>();
    Some(variance.sqrt() / rate)
}

/// Density: `n / (2 L mu)`, with a log-normal range from the spread between lines and that of the share seen.
/// `None` without a length.
pub fn density(fit: &Fit, lines: &[Line], coverage: f64) -> Option<Density> {
    let length_m: f64 = lines.iter().map(|line| line.length_m).sum();
    if !(length_m > 0.0 && length_m.is_finite()) {
        return None;
    }
    let per_km2 = fit.n as f64 / (2.0 * length_m * fit.mu_m) * 1e6;
    let encounter_cv = encounter_cv(lines);
    let range = encounter_cv.and_then(|cv| {
        let z = normal_quantile(f64::midpoint(1.0, coverage))?;
        let whole = cv * cv + fit.seen_cv * fit.seen_cv;
        let factor = libm::exp(z * libm::log1p(whole).sqrt());
        Some([per_km2 / factor, per_km2 * factor])
    });
    Some(Density { per_km2, range, encounter_cv, length_m })
}
