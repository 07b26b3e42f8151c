//! Survival from ages at death, on draws of age.

use super::ages::STATES;
use super::kept::Kept;
use super::table::{SurvivalLine, SurvivalTable};
use super::{count, rounded, share, tell};
use crate::reading::for_season::CLASSES;
use crate::science::season::COVERAGE;
use crate::science::season::keyed::Stream;
use crate::science::season::mixture::Draws;
use crate::science::season::survival::{NoSurvival, over_draws};

/// Draws of age for one survival.
const AGE_DRAWS: usize = 200;
/// Tells these draws from all others.
const SEED: u64 = 0x6167_6573;

/// Counts by completed birthdays from `youngest` on, one list a draw. In each draw the season's shares are drawn, then
/// each carcass's age from what it says itself and those shares: the prior does not enter again.
fn ages(rows: &[&Kept], drawn: &Draws, youngest: usize) -> Vec<Vec<u32>> {
    let mut said: Vec<Vec<f64>> =
        rows.iter().filter(|row| row.aged).filter_map(|row| row.age_and_sex.map(|s| s.concat())).collect();
    // In an order of their own, so that that of the carcasses moves no digit.
    said.sort_by(|a, b| {
        a.iter().zip(b).map(|(a, b)| a.total_cmp(b)).find(|o| o.is_ne()).unwrap_or(core::cmp::Ordering::Equal)
    });
    let every = (drawn.shares.len() / AGE_DRAWS).max(1);
    let mut out = Vec::new();
    for (number, shares) in (0_u64..).zip(drawn.shares.iter().step_by(every)) {
        let mut counts = vec![0; CLASSES - youngest];
        for (group, carcass) in (0_u64..).zip(&said) {
            let weights: Vec<f64> = carcass.iter().zip(shares).map(|(l, s)| l * s).collect();
            let state = Stream::at(SEED, number, group).one_of(&weights);
            if let Some(slot) = (state.min(STATES - 1) / 2).checked_sub(youngest).and_then(|at| counts.get_mut(at)) {
                *slot += 1;
            }
        }
        out.push(counts);
    }
    out
}

/// The table.
pub fn table(rows: &[&Kept], drawn: Option<&Draws>, youngest: u32) -> SurvivalTable {
    let youngest_at = (youngest as usize).clamp(1, 4);
    let found = match drawn {
        Some(drawn) => over_draws(&ages(rows, drawn, youngest_at), youngest, COVERAGE),
        None => Err(NoSurvival::TooFew(0)),
    };
    let assumptions = ["label", "constant", "stationary", "equal", "pooled"];
    let args = [("youngest", count(youngest_at))];
    let mut out = SurvivalTable {
        index: None,
        refused: None,
        assumptions: assumptions.map(|id| tell(&format!("season.survival.{id}"), &args)).into(),
    };
    match found {
        Ok(index) => {
            out.index = Some(SurvivalLine {
                survival: share(index.survival),
                low: share(index.low),
                high: share(index.high),
                youngest,
                deer: rounded(index.deer, 1),
                inflation: rounded(index.inflation, 2),
                poor_draws: share(index.poor),
            });
        }
        Err(why) => out.refused = Some(tell("season.survival.refused", &[("why", why.to_string().into())])),
    }
    out
}
