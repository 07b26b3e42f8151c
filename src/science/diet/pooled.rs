//! Diet of several deer: aggregate volume, aggregate percentage and frequency, each with an interval by
//! drawing whole deer again.
//!
//! Martin, Gensch and Brown 1946 (definitions from memory). Every draw is keyed by its number, so that the
//! same deer give the same digits on every machine and in every order of work. Deer of different months
//! are never pooled: that is the caller's to see to, who knows the dates.

use crate::science::special::{ShareInterval, wilson};

/// Draws.
pub const DRAWS: u32 = 4_000;
/// Fewest deer for an interval: of fewer, drawing again says too little. Ours.
pub const FEWEST_DEER: usize = 5;
/// Deer under which the interval is likely too narrow. Ours.
pub const FEW_DEER: usize = 10;
/// Coverage of the intervals.
pub const COVERAGE: f64 = 0.95;
/// What the draws begin from; any number does, and it never changes.
const SEED: u64 = 0x6d61_7272_6f77_0001;

/// One food over all deer.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct PooledItem {
    /// Mean of each deer's share: every deer counts once. 0 to 1.
    pub aggregate_percent: f64,
    /// Its interval; `None` with fewer than [`FEWEST_DEER`] deer.
    pub percent_interval: Option<ShareInterval>,
    /// Share of all volume together: big rumens dominate. 0 to 1.
    pub aggregate_volume: f64,
    /// Its interval.
    pub volume_interval: Option<ShareInterval>,
    /// Deer that had it.
    pub deer_with: u32,
    /// Wilson's interval of that share of deer.
    pub frequency: Option<ShareInterval>,
}

/// Why deer cannot be pooled.
#[derive(Clone, Copy, Debug, PartialEq, Eq, thiserror::Error)]
pub enum NoPool {
    /// No deer.
    #[error("there is no deer to pool")]
    NoDeer,
    /// A deer without any amount.
    #[error("deer {0} has no amount of anything")]
    EmptyDeer(usize),
    /// An amount below zero or no number.
    #[error("deer {0} has an amount that is none")]
    NotAnAmount(usize),
    /// Rows of different lengths.
    #[error("deer {0} has another number of foods than the first")]
    Ragged(usize),
}

/// Pools deer. `deer[j][i]` is the amount of food `i` in deer `j`, in one unit for all.
///
/// # Errors
/// [`NoPool`]; deer are numbered from 1.
pub fn pool(deer: &[Vec<f64>]) -> Result<Vec<PooledItem>, NoPool> {
    let foods = deer.first().ok_or(NoPool::NoDeer)?.len();
    for (row, n) in deer.iter().zip(1..) {
        if row.len() != foods {
            return Err(NoPool::Ragged(n));
        }
        if row.iter().any(|v| !(*v >= 0.0 && v.is_finite())) {
            return Err(NoPool::NotAnAmount(n));
        }
        if row.iter().sum::<f64>() <= 0.0 {
            return Err(NoPool::EmptyDeer(n));
        }
    }
    let all: Vec<usize> = (0..deer.len()).collect();
    let draws: Vec<Vec<usize>> =
        if deer.len() < FEWEST_DEER { Vec::new() } else { (0..DRAWS).map(|draw| drawn(draw, deer.len())).collect() };
    let item = |food: usize| {
        let with = deer.iter().filter(|row| row.get(food).is_some_and(|v| *v > 0.0)).count();
        let with = u32::try_from(with).unwrap_or(u32::MAX);
        let over = |of: fn(&[Vec<f64>], &[usize], usize) -> f64| {
            let mut values: Vec<f64> = draws.iter().map(|draw| of(deer, draw, food)).collect();
            values.sort_by(f64::total_cmp);
            interval(&values)
        };
        PooledItem {
            aggregate_percent: percent(deer, &all, food),
            percent_interval: over(percent),
            aggregate_volume: volume(deer, &all, food),
            volume_interval: over(volume),
            deer_with: with,
            frequency: wilson(with, u32::try_from(deer.len()).unwrap_or(u32::MAX), COVERAGE),
        }
    };
    Ok((0..foods).map(item).collect())
}

fn amount(deer: &[Vec<f64>], which: usize, food: usize) -> (f64, f64) {
    deer.get(which).map_or((0.0, 0.0), |row| (row.get(food).copied().unwrap_or(0.0), row.iter().sum()))
}

fn percent(deer: &[Vec<f64>], draw: &[usize], food: usize) -> f64 {
    let share = |which: &usize| {
        let (of_food, all) = amount(deer, *which, food);
        of_food / all
    };
    draw.iter().map(share).sum::<f64>() / draw.len() as f64
}

fn volume(deer: &[Vec<f64>], draw: &[usize], food: usize) -> f64 {
    let (of_food, all) =
        draw.iter().map(|which| amount(deer, *which, food)).fold((0.0, 0.0), |(a, b), (c, d)| (a + c, b + d));
    of_food / all
}

/// Which deer a draw takes, with repeats.
fn drawn(draw: u32, deer: usize) -> Vec<usize> {
    let all = deer as u64;
    (0..all)
        .map(|slot| {
            let key = SEED ^ (u64::from(draw) << 32) ^ slot;
            // The high half of the product lies below the number of deer.
            usize::try_from((u128::from(mixed(key)) * u128::from(all)) >> 64).unwrap_or(0)
        })
        .collect()
}

/// Steele, Lea and Flood 2014, the finisher of SplitMix64, twice: neighbouring keys give unrelated numbers.
fn mixed(key: u64) -> u64 {
    let once = |mut z: u64| {
        z = z.wrapping_add(0x9e37_79b9_7f4a_7c15);
        z = (z ^ (z >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
        z = (z ^ (z >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
        z ^ (z >> 31)
    };
    once(once(key))
}

/// Ends that leave the same share of sorted draws outside on both sides, between neighbours in a straight
/// line (Hyndman and Fan 1996, type 7).
fn interval(sorted: &[f64]) -> Option<ShareInterval> {
    let tail = (1.0 - COVERAGE) / 2.0;
    let at = |p: f64| {
        let place = p * (sorted.len().checked_sub(1)? as f64);
        let low = place.floor();
        #[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss)] // a place within the list
        let (a, b) = (sorted.get(low as usize)?, sorted.get(place.ceil() as usize)?);
        Some(a + (b - a) * (place - low))
    };
    Some(ShareInterval { low: at(tail)?, high: at(1.0 - tail)? })
}
