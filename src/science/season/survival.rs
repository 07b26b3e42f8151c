//! Survival from ages at death: Chapman and Robson's estimator, on draws of age.
//!
//! It is an index of the carcasses found and not the herd's survival: it takes survival as the same at every age,
//! the herd as stationary and dead deer of every age as equally likely to be found. Deer break this: hazard is high in
//! fawns and again in the old (DelGiudice and others 2002). Fawns are left out, and where the ages do not fit a
//! constant survival there is no figure.

use crate::science::chi_square::chi_square_cdf;
use crate::science::special::normal_quantile;

/// Fewest grown deer. Ours.
pub const FEWEST: u32 = 30;
/// Below this probability of so poor a fit the ages of one draw do not fit. Ours.
pub const POOR_FIT: f64 = 0.01;
/// Share of draws that may fit poorly. Ours.
pub const MOST_POOR: f64 = 0.5;
/// Least expected count of a cell of the fit. Common practice, no source.
const LEAST_EXPECTED: f64 = 5.0;

/// The estimate of one list of ages.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct ChapmanRobson {
    /// Animals.
    pub n: u32,
    /// Sum of coded ages; the youngest age is coded 0.
    pub total: u32,
    /// Yearly survival, 0 to 1.
    pub survival: f64,
    /// Its standard error.
    pub survival_se: f64,
}

impl ChapmanRobson {
    /// Instantaneous mortality a year, `-ln S`.
    pub fn mortality(&self) -> f64 {
        -libm::log(self.survival)
    }

    /// The same, corrected for bias.
    pub fn mortality_corrected(&self) -> f64 {
        let (n, t) = (f64::from(self.n), f64::from(self.total));
        self.mortality() - (n - 1.0) * (n - 2.0) / (n * (t + 1.0) * (n + t - 1.0))
    }

    /// Standard error of the corrected mortality.
    pub fn mortality_se(&self) -> f64 {
        let z = self.mortality_corrected();
        (1.0 - libm::exp(-z)) / (f64::from(self.n) * libm::exp(-z)).sqrt()
    }
}

/// Why there is no survival.
#[derive(Clone, Copy, Debug, PartialEq, thiserror::Error)]
pub enum NoSurvival {
    /// Too few.
    #[error("{0} grown deer of known age are too few: {FEWEST} are asked for")]
    TooFew(u32),
    /// All of one age, so that nothing falls off.
    #[error("the grown deer are all of one age")]
    OneAge,
    /// A survival that is the same at every age does not fit.
    #[error("the ages do not fit one survival for all ages: {:.0} of 100 draws fit poorly", .0 * 100.0)]
    PoorFit(f64),
    /// The youngest age holds other numbers than the rest foretell.
    #[error("the youngest age is not fully represented: {:.0} of 100 draws say so", .0 * 100.0)]
    YoungestDoesNotFit(f64),
}

/// Counts by coded age, youngest first. With `pooled` the last count is of that age and all above.
///
/// Without pooling: `S = T/(n+T-1)`, `SE = sqrt(S (S - (T-1)/(n+T-2)))` (Chapman and Robson 1960, as printed in
/// Miranda and Bettoli 2007). With animals in a pooled class: `S = T/(T+n-m)`, the maximum of the likelihood of
/// lifetimes cut off there, and `SE = (1-S) sqrt(S / (n (1-S^r)))` from its curvature (derived; checked against
/// SciPy).
///
/// # Errors
/// [`NoSurvival::TooFew`] under two animals, [`NoSurvival::OneAge`].
pub fn chapman_robson(counts: &[u32], pooled: bool) -> Result<ChapmanRobson, NoSurvival> {
    let n: u32 = counts.iter().sum();
    let total: u32 = counts.iter().zip(0..).map(|(count, age): (&u32, u32)| count * age).sum();
    if n < 2 {
        return Err(NoSurvival::TooFew(n));
    }
    let open = if pooled { counts.last().copied().unwrap_or(0) } else { 0 };
    if total == 0 || open == n {
        return Err(NoSurvival::OneAge);
    }
    let (all, sum) = (f64::from(n), f64::from(total));
    if open == 0 {
        let survival = sum / (all + sum - 1.0);
        let survival_se = (survival * (survival - (sum - 1.0) / (all + sum - 2.0))).max(0.0).sqrt();
        return Ok(ChapmanRobson { n, total, survival, survival_se });
    }
    let oldest = counts.len().saturating_sub(1) as f64;
    let survival = sum / (sum + all - f64::from(open));
    let survival_se = (1.0 - survival) * (survival / (all * (1.0 - libm::pow(survival, oldest)))).sqrt();
    Ok(ChapmanRobson { n, total, survival, survival_se })
}

/// Chi-square of the youngest age against what the rest foretell, one degree: `(S - (n - n0)/n)^2` over its
/// variance given the sum of ages (Chapman and Robson 1960; the variance derived again). Only without pooled ages.
pub fn youngest_chi_square(counts: &[u32], found: &ChapmanRobson) -> f64 {
    let (n, t) = (f64::from(found.n), f64::from(found.total));
    let youngest = f64::from(counts.first().copied().unwrap_or(0));
    let off = found.survival - (n - youngest) / n;
    let whole = n + t - 1.0;
    let variance = t * (t - 1.0) * (n - 1.0) / (n * whole * whole * (whole - 1.0));
    if variance > 0.0 { off * off / variance } else { 0.0 }
}

/// Chi-square of all ages against a constant survival, and its degrees of freedom: the oldest ages are put together
/// until five are expected. `None` where fewer than three cells are left.
pub fn fit(counts: &[u32], found: &ChapmanRobson) -> Option<(f64, u32)> {
    let n = f64::from(found.n);
    let mut cells: Vec<(f64, f64)> = Vec::new();
    let mut alive = n;
    for (at, count) in counts.iter().enumerate() {
        let last = at + 1 == counts.len();
        let expected = if last { alive } else { alive * (1.0 - found.survival) };
        alive -= expected;
        cells.push((f64::from(*count), expected));
    }
    while cells.last().is_some_and(|(_, expected)| *expected < LEAST_EXPECTED) {
        let Some((seen, expected)) = cells.pop() else { break };
        match cells.last_mut() {
            Some(below) => {
                below.0 += seen;
                below.1 += expected;
            }
            None => return None,
        }
    }
    let degrees = u32::try_from(cells.len()).ok()?.checked_sub(2).filter(|d| *d > 0)?;
    Some((cells.iter().map(|(seen, expected)| (seen - expected) * (seen - expected) / expected).sum(), degrees))
}

/// Survival over all draws of age.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct SurvivalIndex {
    /// Mean over the draws.
    pub survival: f64,
    /// 95 % range: within and between draws together.
    pub low: f64,
    /// Its upper end.
    pub high: f64,
    /// Mean number of grown deer in a draw.
    pub deer: f64,
    /// Chi-square over its degrees, mean of the draws; the variance is raised by it where it lies above one.
    pub inflation: f64,
    /// Share of draws whose ages fit poorly.
    pub poor: f64,
    /// The youngest age that counts, as completed birthdays.
    pub youngest: u32,
}

/// Chapman and Robson on draws of age, joined by Rubin's rules (Rubin 1987, from memory): the variance is the mean
/// variance within plus the variance between draws. Each draw has counts by completed birthdays from `youngest` on,
/// the last of that age and above.
///
/// # Errors
/// [`NoSurvival`]: few deer, one age, or ages to which a constant survival does not fit.
pub fn over_draws(draws: &[Vec<u32>], youngest: u32, coverage: f64) -> Result<SurvivalIndex, NoSurvival> {
    let number = draws.len() as f64;
    let deer = draws.iter().map(|counts| f64::from(counts.iter().sum::<u32>())).sum::<f64>() / number;
    #[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss)] // a mean of counts
    if draws.is_empty() || deer < f64::from(FEWEST) {
        return Err(NoSurvival::TooFew(deer as u32));
    }
    let (mut sum, mut squares, mut within, mut inflation) = (0.0, 0.0, 0.0, 0.0);
    let (mut poor, mut youngest_poor) = (0.0, 0.0);
    for counts in draws {
        let found = chapman_robson(counts, true)?;
        let misfit = fit(counts, &found);
        let ratio = misfit.map_or(1.0, |(chi, degrees)| chi / f64::from(degrees));
        let beyond = |chi: f64, degrees| chi_square_cdf(chi, degrees).is_some_and(|p| 1.0 - p < POOR_FIT);
        poor += f64::from(u8::from(misfit.is_some_and(|(chi, degrees)| beyond(chi, degrees))));
        // Counted out for pooled ages, too: what lies above the last age moves it little.
        youngest_poor += f64::from(u8::from(beyond(youngest_chi_square(counts, &found), 1)));
        sum += found.survival;
        squares += found.survival * found.survival;
        within += found.survival_se * found.survival_se * ratio.max(1.0);
        inflation += ratio;
    }
    let poor = poor / number;
    let youngest_poor = youngest_poor / number;
    if youngest_poor > MOST_POOR {
        return Err(NoSurvival::YoungestDoesNotFit(youngest_poor));
    }
    if poor > MOST_POOR {
        return Err(NoSurvival::PoorFit(poor));
    }
    let survival = sum / number;
    let between = (squares / number - survival * survival).max(0.0) * number / (number - 1.0).max(1.0);
    let se = (within / number + (1.0 + 1.0 / number) * between).sqrt();
    let z = normal_quantile(f64::midpoint(1.0, coverage)).unwrap_or(f64::NAN);
    Ok(SurvivalIndex {
        survival,
        low: (survival - z * se).max(0.0),
        high: (survival + z * se).min(1.0),
        deer,
        inflation: inflation / number,
        poor,
        youngest,
    })
}
