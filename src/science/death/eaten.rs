//! How fast it can have been eaten: a least time, never a most.

use super::{Bound, Found, Looked, Rule, Silent, shifted};

/// Who ate, with the most that one (of ravens: a flock) takes in a day, kg.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[allow(missing_docs)]
pub enum Eater {
    RavenFlock,
    Wolf,
    Coyote,
    Eagle,
    Bobcat,
}

impl Eater {
    /// Most kg a day. Ravens as inferred at kills of small packs; the others from memory.
    pub const fn kg_a_day(self) -> f64 {
        match self {
            Self::RavenFlock => 43.0,
            Self::Wolf => 10.0,
            Self::Coyote => 4.0,
            Self::Eagle => 1.0,
            Self::Bobcat => 2.0,
        }
    }
}

/// Least share of the live mass that can be eaten. From memory; a study took 0.885.
const LEAST_EATABLE: f64 = 0.70;
/// Least live mass of a fawn and of an older deer in winter, kg: low ends of what the cooling rates are for.
const LEAST_KG: [f64; 2] = [25.0, 50.0];

/// How much of what can be eaten is gone, at least.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Gone {
    /// More than half.
    Most,
    /// Bones and hair are left.
    All,
}

impl Gone {
    const fn share(self) -> f64 {
        match self {
            Self::Most => 0.5,
            Self::All => 0.9,
        }
    }
}

/// Least mass eaten, kg.
pub fn eaten_kg(gone: Gone, fawn: bool) -> f64 {
    let [of_fawn, older] = LEAST_KG;
    (if fawn { of_fawn } else { older }) * LEAST_EATABLE * gone.share()
}

/// Least days in which that many can have eaten so much; `None` where nobody ate.
pub fn least_days(eaten_kg: f64, eaters: &[(Eater, u16)]) -> Option<f64> {
    let a_day: f64 = eaters.iter().map(|(who, n)| who.kg_a_day() * f64::from(*n)).sum();
    (a_day > 0.0).then(|| eaten_kg / a_day)
}

/// The bound. `eaters` is `Err` where one of them, or their number, is not known.
pub fn bound(gone: Gone, fawn: bool, eaters: Result<&[(Eater, u16)], Silent>, look: Looked) -> Found {
    let mut found = Found::default();
    let days = eaters.and_then(|all| least_days(eaten_kg(gone, fawn), all).ok_or(Silent::NeedsCount));
    match days.map(|days| shifted(look.to, -24.0 * days)) {
        Ok(Some(at)) => found.bound(Bound::high(Rule::Eaten, at, false)),
        Ok(None) => {}
        Err(why) => found.silent(Rule::Eaten, why),
    }
    found
}
