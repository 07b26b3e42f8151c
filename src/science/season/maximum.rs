//! The shares that fit best: the one maximum of `sum w ln(sum share L) + sum pull ln share`.
//!
//! The function is concave in the shares, so there is one maximum. Steps are Newton's on the scale of each share;
//! where such a step does not climb, a step of expectation and maximisation does (Dempster, Laird and Rubin 1977,
//! J. R. Stat. Soc. B 39:1-38), which never descends.

/// Rounds at most. Newton's steps settle in about ten.
const ROUNDS: usize = 400;
/// The largest gap between a share and what its carcasses give it at which the search ends.
const SETTLED: f64 = 1e-11;
/// Climb, as a share of all weight, from which a Newton step is the last.
const CLOSE: f64 = 1e-13;
/// Least pull of a state that occurs: keeps its share above nothing.
const LEAST_PULL: f64 = 1e-9;
/// By how much one Newton step may change a share.
const STEP: (f64, f64) = (0.05, 20.0);

/// What carcasses say: one row of likelihoods a group, largest 1, `states` to a row, and the group's weight.
#[derive(Clone, Copy, Debug)]
pub struct Rows<'a> {
    /// Row after row.
    pub likelihood: &'a [f64],
    /// States to a row.
    pub states: usize,
    /// Weight of each row, in carcasses.
    pub weights: &'a [f64],
}

/// One look at a point.
struct Pass {
    value: f64,
    /// What each state is given: pull and its part of every row.
    given: Vec<f64>,
    /// Curvature on the scale of each share, row after row, up to the diagonal.
    curve: Vec<f64>,
}

fn pass(rows: &Rows, pulls: &[f64], share: &[f64]) -> Pass {
    let k = rows.states;
    let mut out = Pass { value: 0.0, given: pulls.to_vec(), curve: vec![0.0; k * k] };
    let mut part = vec![0.0; k];
    for (row, weight) in rows.likelihood.chunks_exact(k.max(1)).zip(rows.weights) {
        let mut sum = 0.0;
        for ((part, l), s) in part.iter_mut().zip(row).zip(share) {
            *part = l * s;
            sum += *part;
        }
        if sum <= 0.0 {
            continue;
        }
        out.value += weight * libm::log(sum);
        for (part, given) in part.iter_mut().zip(&mut out.given) {
            *part /= sum;
            *given += weight * *part;
        }
        // Below the diagonal only: the curvature is symmetric.
        for ((at, a), line) in part.iter().enumerate().zip(out.curve.chunks_exact_mut(k.max(1))) {
            if *a > 0.0 {
                let scaled = weight * a;
                for (slot, b) in line.iter_mut().zip(part.iter().take(at + 1)) {
                    *slot += scaled * b;
                }
            }
        }
    }
    for (pull, s) in pulls.iter().zip(share).filter(|(pull, _)| **pull > 0.0) {
        out.value += pull * libm::log(*s);
    }
    out
}

/// The shares, adding to one. `pulls` are the prior's carcasses by state; a state with a pull of 0 does not occur
/// and has a share of 0. All zero where nothing occurs.
pub fn shares(rows: &Rows, pulls: &[f64]) -> Vec<f64> {
    shares_from(rows, pulls, &[])
}

/// The same, begun from shares that lie near: it ends sooner.
pub fn shares_from(rows: &Rows, pulls: &[f64], near: &[f64]) -> Vec<f64> {
    let pulls: Vec<f64> = pulls.iter().map(|p| if *p > 0.0 { p.max(LEAST_PULL) } else { 0.0 }).collect();
    let occurring = pulls.iter().filter(|p| **p > 0.0).count();
    if occurring == 0 {
        return vec![0.0; rows.states];
    }
    let total: f64 = rows.weights.iter().sum::<f64>() + pulls.iter().sum::<f64>();
    let even = 1.0 / occurring as f64;
    // Halfway to even shares, so that no state begins at nothing.
    let begin = |at: usize| near.get(at).map_or(even, |near| f64::midpoint(*near, even));
    let mut share: Vec<f64> = pulls.iter().enumerate().map(|(at, p)| if *p > 0.0 { begin(at) } else { 0.0 }).collect();
    let sum: f64 = share.iter().sum();
    for share in &mut share {
        *share /= sum;
    }
    let mut here = pass(rows, &pulls, &share);
    for _ in 0..ROUNDS {
        let by_turns: Vec<f64> = here.given.iter().map(|given| given / total).collect();
        let gap = by_turns.iter().zip(&share).map(|(a, b)| (a - b).abs()).fold(0.0, f64::max);
        if gap < SETTLED {
            break;
        }
        if let Some((next, climb)) = newton(&here, &pulls, &share, total) {
            // So near the top the value cannot tell two points apart any more; the step itself is exact to twice its
            // digits.
            if climb < CLOSE * total {
                share = next;
                break;
            }
            let there = pass(rows, &pulls, &next);
            if there.value > here.value {
                (share, here) = (next, there);
                continue;
            }
        }
        share = by_turns;
        here = pass(rows, &pulls, &share);
    }
    let sum: f64 = share.iter().sum();
    share.iter().map(|s| s / sum).collect()
}

/// Newton's step on the scale of each share, held and brought back to a sum of one, and by how much the value would
/// climb by it, twice. `None` where the curvature does not invert.
fn newton(here: &Pass, pulls: &[f64], share: &[f64], total: f64) -> Option<(Vec<f64>, f64)> {
    let k = share.len();
    let mut curve = here.curve.clone();
    for (at, pull) in pulls.iter().enumerate() {
        // A state that does not occur stands apart and does not move.
        *curve.get_mut(at * k + at)? += if *pull > 0.0 { pull + 1e-13 * total } else { 1.0 };
    }
    let gap: Vec<f64> = here.given.iter().zip(share).map(|(given, s)| given - total * s).collect();
    let step = solved(curve, gap.clone())?;
    let climb = gap.iter().zip(&step).map(|(gap, u)| gap * u).sum();
    let next: Vec<f64> = share.iter().zip(&step).map(|(s, u)| s * (1.0 + u).clamp(STEP.0, STEP.1)).collect();
    let sum: f64 = next.iter().sum();
    (sum > 0.0 && sum.is_finite()).then(|| (next.iter().map(|s| s / sum).collect(), climb))
}

/// The `x` with `A x = b` for a symmetric positive `A`, given up to its diagonal, by Cholesky's factors. `None` where
/// it has none.
fn solved(mut a: Vec<f64>, mut b: Vec<f64>) -> Option<Vec<f64>> {
    let k = b.len();
    for row in 0..k {
        let (above, here) = a.split_at_mut(row * k);
        for column in 0..=row {
            let own = here.get(..column)?;
            let other = if column < row { above.get(column * k..column * k + column)? } else { own };
            let dot: f64 = own.iter().zip(other).map(|(x, y)| x * y).sum();
            let left = here.get(column)? - dot;
            let value = if row == column {
                (left > 0.0).then(|| left.sqrt())?
            } else {
                left / above.get(column * k + column)?
            };
            *here.get_mut(column)? = value;
        }
    }
    for row in 0..k {
        let line = a.get(row * k..row * k + row)?;
        let dot: f64 = line.iter().zip(&b).map(|(l, x)| l * x).sum();
        let slot = b.get_mut(row)?;
        *slot = (*slot - dot) / a.get(row * k + row)?;
    }
    for row in (0..k).rev() {
        let below = a.get(row..)?.iter().step_by(k).skip(row + 1);
        let dot: f64 = below.zip(b.iter().skip(row + 1)).map(|(l, x)| l * x).sum();
        let slot = b.get_mut(row)?;
        *slot = (*slot - dot) / a.get(row * k + row)?;
    }
    Some(b)
}
