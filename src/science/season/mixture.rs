//! Shares of causes, or of ages and sexes, over a season: a mixture over what each carcass says by itself.
//!
//! Adding up the carcasses' posteriors would be wrong: each holds the prior again, and where little was seen the
//! sum gives the prior back. Here every carcass enters by its likelihood alone and the prior enters once, as so
//! many carcasses' worth of Dirichlet counts. In each draw the evidence table is drawn anew, the same for all
//! carcasses; every carcass is weighed anew by an exponential weight and the prior's counts by gamma weights
//! (Rubin 1981, Ann. Stat. 9:130-134; Newton and Raftery 1994, J. R. Stat. Soc. B 56:3-48: both from memory), and
//! the shares that fit best are taken. Where every carcass tells its state these are exact draws of the Dirichlet
//! posterior, where none does they are exact draws of the prior; between the two they hold to first order.

use super::COVERAGE;
use super::keyed::{Stream, ends};
use super::maximum::{Rows, shares, shares_from};

/// Draws of a season.
pub const DRAWS: usize = 500;
/// What the prior is worth, in carcasses whose state is known. Ours.
pub const PRIOR_CARCASSES: f64 = 6.0;
/// What an even prior is worth where the data are shown alone, in carcasses. Ours.
pub const EVEN_CARCASSES: f64 = 1.0;
/// The group that stands for the prior's weights.
const OF_PRIOR: u64 = u64::MAX;

/// Where likelihoods and priors of each draw come from.
pub trait Said {
    /// States told apart.
    fn states(&self) -> usize;
    /// Carcasses that say the same, group by group, in an order that does not hang on who found them first.
    fn counts(&self) -> &[u32];
    /// Fills one row a group with likelihoods under this drawing of the table, the largest of each row 1.
    fn likelihood(&self, draw: usize, rows: &mut Vec<f64>);
    /// The same with the table's middle figures.
    fn middle(&self, rows: &mut Vec<f64>);
    /// The prior's shares under this drawing, adding to one; 0 for a state that does not occur.
    fn prior(&self, draw: usize) -> Vec<f64>;
}

/// The draws of one group of carcasses. Two groups' draws of one number belong together: they share the table.
#[derive(Clone, Debug, PartialEq)]
pub struct Draws {
    /// Shares by draw.
    pub shares: Vec<Vec<f64>>,
    /// The prior's shares by draw.
    pub prior: Vec<Vec<f64>>,
    /// What fits best with an even prior worth [`EVEN_CARCASSES`] and the table's middle figures.
    pub data_alone: Vec<f64>,
    /// Carcasses.
    pub carcasses: u32,
}

/// One state, or several together.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Line {
    /// Mean of the draws, 0 to 1.
    pub share: f64,
    /// 95 % range.
    pub low: f64,
    /// Its upper end.
    pub high: f64,
    /// The prior by itself: mean of its draws.
    pub prior: f64,
    /// 95 % range of the prior.
    pub prior_low: f64,
    /// Its upper end.
    pub prior_high: f64,
    /// The data by themselves.
    pub data_alone: f64,
    /// How far the data carry the figure: by how much they took off the prior's variance, 0 to 1.
    pub data_carry: f64,
}

/// Draws the shares. `seed` tells groups of carcasses apart that are compared.
pub fn draw(said: &impl Said, seed: u64) -> Draws {
    let (states, counts) = (said.states(), said.counts());
    let mut out = Draws {
        shares: Vec::with_capacity(DRAWS),
        prior: Vec::with_capacity(DRAWS),
        data_alone: Vec::new(),
        carcasses: counts.iter().sum(),
    };
    let mut rows = Vec::new();
    said.middle(&mut rows);
    let occurs: Vec<bool> = said.prior(0).iter().map(|share| *share > 0.0).collect();
    let even = EVEN_CARCASSES / occurs.iter().filter(|o| **o).count().max(1) as f64;
    let pulls: Vec<f64> = occurs.iter().map(|occurs| if *occurs { even } else { 0.0 }).collect();
    let whole: Vec<f64> = counts.iter().map(|n| f64::from(*n)).collect();
    out.data_alone = shares(&Rows { likelihood: &rows, states, weights: &whole }, &pulls);
    let mut weights = vec![0.0; counts.len()];
    for draw in 0..DRAWS {
        said.likelihood(draw, &mut rows);
        let number = draw as u64;
        for ((weight, count), group) in weights.iter_mut().zip(counts).zip(0..) {
            *weight = Stream::at(seed, number, group).gamma(f64::from(*count));
        }
        let mut of_prior = Stream::at(seed, number, OF_PRIOR);
        let pulls: Vec<f64> = said
            .prior(draw)
            .into_iter()
            .map(|share| if share > 0.0 { of_prior.gamma(PRIOR_CARCASSES * share).max(1e-9) } else { 0.0 })
            .collect();
        let sum: f64 = pulls.iter().sum();
        let of_draw = Rows { likelihood: &rows, states, weights: &weights };
        out.shares.push(shares_from(&of_draw, &pulls, &out.data_alone));
        out.prior.push(pulls.iter().map(|pull| pull / sum).collect());
    }
    out
}

fn sum_of(shares: &[f64], states: &[usize]) -> f64 {
    states.iter().filter_map(|state| shares.get(*state)).sum()
}

fn mean(draws: &[f64]) -> f64 {
    draws.iter().sum::<f64>() / draws.len() as f64
}

fn variance(draws: &[f64]) -> f64 {
    let middle = mean(draws);
    draws.iter().map(|x| (x - middle) * (x - middle)).sum::<f64>() / draws.len() as f64
}

impl Draws {
    /// The figures of one state, or of several together.
    pub fn line(&self, states: &[usize]) -> Line {
        let mut own: Vec<f64> = self.shares.iter().map(|shares| sum_of(shares, states)).collect();
        let mut prior: Vec<f64> = self.prior.iter().map(|shares| sum_of(shares, states)).collect();
        let before = variance(&prior);
        let data_carry = if before > 0.0 { (1.0 - variance(&own) / before).clamp(0.0, 1.0) } else { 0.0 };
        let (share, of_prior) = (mean(&own), mean(&prior));
        let [low, high] = ends(&mut own, COVERAGE).unwrap_or([0.0, 1.0]);
        let [prior_low, prior_high] = ends(&mut prior, COVERAGE).unwrap_or([0.0, 1.0]);
        let data_alone = sum_of(&self.data_alone, states);
        Line { share, low, high, prior: of_prior, prior_low, prior_high, data_alone, data_carry }
    }

    /// Mean of the draws by state, adding to one.
    pub fn means(&self) -> Vec<f64> {
        let mut sums = vec![0.0; self.data_alone.len()];
        for shares in &self.shares {
            for (sum, share) in sums.iter_mut().zip(shares) {
                *sum += share;
            }
        }
        sums.iter().map(|sum| sum / self.shares.len() as f64).collect()
    }

    /// This group's share less another's, with its range: inferred traits are compared by draws, not by counts.
    pub fn less(&self, other: &Self, states: &[usize]) -> Option<[f64; 3]> {
        let pairs = self.shares.iter().zip(&other.shares);
        let mut apart: Vec<f64> = pairs.map(|(a, b)| sum_of(a, states) - sum_of(b, states)).collect();
        let middle = mean(&apart);
        let [low, high] = ends(&mut apart, COVERAGE)?;
        Some([middle, low, high])
    }
}

/// What carcasses say where no drawn table stands behind it: the same likelihoods in every draw.
#[derive(Clone, Debug, PartialEq)]
pub struct Fixed {
    states: usize,
    counts: Vec<u32>,
    rows: Vec<f64>,
    prior: Vec<f64>,
}

impl Fixed {
    /// From one row of likelihoods a carcass; rows that are alike are joined and put in an order of their own, so
    /// that the order of the carcasses is lost. Rows of another length than the prior, and rows with nothing above
    /// zero, are left out.
    pub fn new(prior: &[f64], carcasses: &[Vec<f64>]) -> Self {
        let mut all: Vec<Vec<f64>> = Vec::with_capacity(carcasses.len());
        for row in carcasses {
            let top = row.iter().copied().fold(0.0, f64::max);
            if row.len() == prior.len() && top > 0.0 && top.is_finite() {
                all.push(row.iter().map(|l| l / top).collect());
            }
        }
        all.sort_by(|a, b| {
            a.iter().zip(b).map(|(a, b)| a.total_cmp(b)).find(|o| o.is_ne()).unwrap_or(core::cmp::Ordering::Equal)
        });
        let mut out = Self { states: prior.len(), counts: Vec::new(), rows: Vec::new(), prior: prior.to_vec() };
        for same in all.chunk_by(|a, b| a == b) {
            out.counts.push(u32::try_from(same.len()).unwrap_or(u32::MAX));
            out.rows.extend(same.iter().take(1).flatten());
        }
        out
    }
}

impl Said for Fixed {
    fn states(&self) -> usize {
        self.states
    }

    fn counts(&self) -> &[u32] {
        &self.counts
    }

    fn likelihood(&self, _: usize, rows: &mut Vec<f64>) {
        self.middle(rows);
    }

    fn middle(&self, rows: &mut Vec<f64>) {
        rows.clone_from(&self.rows);
    }

    fn prior(&self, _: usize) -> Vec<f64> {
        self.prior.clone()
    }
}
