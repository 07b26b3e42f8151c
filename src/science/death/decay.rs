//! Decay against degree days above 0 C: no date from it in winter, only wide soft bounds.

use super::weather::{DayTemp, Weather};
use super::{Bound, Found, Looked, Rule, Silent};

/// An unfrozen body that is still fresh has had at most so many degree days.
const FRESH_AT_MOST: f64 = 150.0;
/// Green or bloated belly, hair that slips, bones bare without gnawing: at least so many.
const BLOATED: f64 = 15.0;
const HAIR_SLIPS: f64 = 40.0;
const BONES_BARE: f64 = 400.0;
/// Flies lay on a day above this after death, C.
const FLIES_ABOVE_C: f64 = 10.0;

/// What decay shows; `false` is no evidence.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
#[allow(clippy::struct_excessive_bools)] // one sign each
pub struct Decay {
    /// Fresh, without smell.
    pub fresh: bool,
    /// Belly green or bloated.
    pub bloated: bool,
    /// Hair slips.
    pub hair_slips: bool,
    /// Eggs or maggots of flies.
    pub flies: bool,
    /// Bones and ligaments only.
    pub bones_only: bool,
    /// Something gnawed at it.
    pub gnawed: bool,
    /// It is frozen, or can have been.
    pub frozen: bool,
}

/// Bounds from decay.
pub fn bounds(seen: Decay, weather: &Weather, look: Looked) -> Found {
    let mut found = Found::default();
    let mut put = |rule: Rule, said: Result<Bound, Silent>| match said {
        Ok(bound) => found.bound(bound),
        Err(why) => found.silent(rule, why),
    };
    if seen.fresh {
        let said = if seen.frozen {
            Err(Silent::WasFrozen)
        } else {
            weather.back_to(look.from, FRESH_AT_MOST, DayTemp::least_thaw)
        };
        put(Rule::Fresh, said.map(|at| Bound::low(Rule::Fresh, at, false)));
    }
    for (rule, on, sum) in [(Rule::Bloated, seen.bloated, BLOATED), (Rule::HairSlips, seen.hair_slips, HAIR_SLIPS)] {
        if on {
            put(rule, weather.back_to(look.to, sum, DayTemp::most_thaw).map(|at| Bound::high(rule, at, false)));
        }
    }
    if seen.flies {
        let said = if weather.is_empty() {
            Err(Silent::NoLog)
        } else {
            weather.last_reaching(look.to, FLIES_ABOVE_C).ok_or(Silent::NeverWarm)
        };
        put(Rule::Flies, said.map(|at| Bound::high(Rule::Flies, at, false)));
    }
    if seen.bones_only {
        let said =
            if seen.gnawed { Err(Silent::Gnawed) } else { weather.back_to(look.to, BONES_BARE, DayTemp::most_thaw) };
        put(Rule::BonesUngnawed, said.map(|at| Bound::high(Rule::BonesUngnawed, at, false)));
    }
    found
}
