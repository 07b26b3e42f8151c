//! Shares by volume: millilitres displaced, or percent as somebody judged them.

/// Percentages may miss 100 by this much through rounding. Ours.
const ROUNDING: f64 = 1.0;

/// Why volumes give no shares.
#[derive(Clone, Copy, Debug, PartialEq, thiserror::Error)]
pub enum NoVolumes {
    /// Nothing was sorted.
    #[error("no volume was written down")]
    Nothing,
    /// Below zero, or no number.
    #[error("{0} is no volume")]
    NotAVolume(f64),
    /// All volumes are zero.
    #[error("all volumes are zero")]
    AllZero,
    /// One percentage, or all together, pass 100.
    #[error("the percentages come to {0}, more than 100")]
    Over100(f64),
}

/// Each volume as a share of all, 0 to 1.
///
/// # Errors
/// [`NoVolumes`].
pub fn shares(ml: &[f64]) -> Result<Vec<f64>, NoVolumes> {
    if ml.is_empty() {
        return Err(NoVolumes::Nothing);
    }
    if let Some(bad) = ml.iter().find(|v| !(**v >= 0.0 && v.is_finite())) {
        return Err(NoVolumes::NotAVolume(*bad));
    }
    let all: f64 = ml.iter().sum();
    if all <= 0.0 {
        return Err(NoVolumes::AllZero);
    }
    Ok(ml.iter().map(|v| v / all).collect())
}

/// Percentages as shares of all that was named, and the share of the whole that nobody named, 0 to 1.
///
/// # Errors
/// [`NoVolumes`].
pub fn percent_shares(percent: &[f64]) -> Result<(Vec<f64>, f64), NoVolumes> {
    let shares = shares(percent)?;
    let all: f64 = percent.iter().sum();
    if all > 100.0 + ROUNDING {
        return Err(NoVolumes::Over100(all));
    }
    Ok((shares, (1.0 - all / 100.0).max(0.0)))
}
