//! The days on which each deer can have died, as its reading of the time of death has them.

use super::plot::Death;
use crate::reading::{Given, days_of_death, winter_log};
use crate::record::Fold;
use crate::record::short_code::short_code;

/// One of each carcass whose death has a window, and how many have none. Given are the outings, reports
/// and logs of the bundles only, as for the readings themselves: both then name the same days.
pub fn deaths(folded: &Fold) -> (Vec<Death>, usize) {
    let logs = winter_log::logs(folded);
    let given = Given::default().with(folded, &logs);
    let dated: Vec<Death> = folded
        .carcasses
        .values()
        .filter_map(|carcass| {
            let days = days_of_death(carcass, &given)?;
            let code = short_code(carcass.id);
            Some(Death { code, from: days.from, to: days.to, first_is_assumed: days.first_is_assumed })
        })
        .collect();
    let undated = folded.carcasses.len() - dated.len();
    (dated, undated)
}
