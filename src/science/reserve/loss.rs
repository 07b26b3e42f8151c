//! Weight lost: what the deer weighed in autumn less what it weighs, as a share of the first.

use serde::Serialize;

use super::Range;

/// Shares at which a loss gets another word, ours: below 0.15 ordinary (10 to 15 % is normal even in well-fed
/// deer), to 0.25 stressed, to 0.30 near the limit, and from there at or past the usual limit (25 to 30 % can
/// be survived).
pub const BANDS: [f64; 3] = [0.15, 0.25, 0.30];

/// The word for a loss.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum LossBand {
    /// It weighed more than the reference.
    Gained,
    /// As well-fed deer lose.
    Ordinary,
    /// More than that.
    Stressed,
    /// Near the limit.
    NearLimit,
    /// At or past the usual limit.
    AtLimit,
}

/// The word for a share lost.
pub fn band(share: f64) -> LossBand {
    let [ordinary, stressed, near] = BANDS;
    if share < 0.0 {
        LossBand::Gained
    } else if share < ordinary {
        LossBand::Ordinary
    } else if share < stressed {
        LossBand::Stressed
    } else if share < near {
        LossBand::NearLimit
    } else {
        LossBand::AtLimit
    }
}

/// A loss with its ends, shares of the reference weight.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct Loss {
    /// Of the middles of both weights.
    pub best: f64,
    /// Least.
    pub low: f64,
    /// Most.
    pub high: f64,
    /// Word of the least.
    pub band_low: LossBand,
    /// Word of the most.
    pub band_high: LossBand,
}

/// How much of the body was on the scales.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Body {
    /// All of it.
    Whole,
    /// Some was eaten or taken: no weight can be put right for that.
    NotWhole,
    /// Nobody said.
    NotTold,
}

/// Why there is no loss. The weights stay in the record.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, thiserror::Error)]
#[serde(rename_all = "snake_case")]
pub enum LossRefusal {
    /// The carcass was not weighed.
    #[error("the carcass was not weighed")]
    NoWeight,
    /// No reference weight was given.
    #[error("no reference weight was given")]
    NoReference,
    /// A weight is not above zero, no number, or the reference's ends are the wrong way round.
    #[error("a weight is not above zero, or the ends of the reference are the wrong way round")]
    NotAWeight,
    /// Not all of the body was weighed.
    #[error("not all of the body was weighed")]
    NotWhole,
    /// Nobody said whether the body was whole.
    #[error("nobody said whether the body was whole")]
    BodyNotTold,
}

/// Weight lost. `carcass` and `reference` are kg; either may be missing.
///
/// # Errors
/// A missing weight, one that cannot be true, or a body that was not whole.
pub fn weight_loss(carcass: Option<Range>, reference: Option<Range>, body: Body) -> Result<Loss, LossRefusal> {
    let carcass = carcass.ok_or(LossRefusal::NoWeight)?;
    let reference = reference.ok_or(LossRefusal::NoReference)?;
    match body {
        Body::Whole => {}
        Body::NotWhole => return Err(LossRefusal::NotWhole),
        Body::NotTold => return Err(LossRefusal::BodyNotTold),
    }
    let is_true = |r: Range| r.low > 0.0 && r.high.is_finite() && r.low <= r.high;
    if !(is_true(carcass) && is_true(reference)) {
        return Err(LossRefusal::NotAWeight);
    }
    let share = |autumn: f64, now: f64| (autumn - now) / autumn;
    let (low, high) = (share(reference.low, carcass.high), share(reference.high, carcass.low));
    Ok(Loss {
        best: share(reference.middle(), carcass.middle()),
        low,
        high,
        band_low: band(low),
        band_high: band(high),
    })
}
