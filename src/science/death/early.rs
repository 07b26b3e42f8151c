//! The first hours, of a body that is not frozen: twitch, stiffness, eyes, blood, warmth.

use super::cooling::NEAR_AIR_C;
use super::{Found, Looked, Rule, Silent, Span};

/// Deep thigh above this with a limp body: before stiffness, C.
const LIMP_WARM_ABOVE_C: f64 = 30.0;
/// Deep thigh above this: stiffness is not frost, C.
const NOT_FROST_ABOVE_C: f64 = 5.0;
/// Below this air, blood on snow freezes within two hours, C.
const BLOOD_FREEZES_BELOW_C: f64 = -5.0;

/// Stiffness as felt at jaw and legs.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[allow(missing_docs)]
pub enum Stiffness {
    Limp,
    JawOnly,
    AllOver,
}

/// Eyes as seen.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[allow(missing_docs)]
pub enum Eyes {
    ClearAndRound,
    SunkenOrCloudy,
    Gone,
}

/// What was seen; `None` is no evidence.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Early {
    /// Muscle twitches when tapped.
    pub twitch: Option<bool>,
    /// Stiffness.
    pub stiffness: Option<Stiffness>,
    /// Eyes.
    pub eyes: Option<Eyes>,
    /// Blood on snow is liquid or smears red.
    pub blood_liquid: Option<bool>,
    /// The body steams or is warm under the foreleg.
    pub warm: Option<bool>,
    /// Deep in the thigh, C.
    pub thigh_c: Option<f64>,
    /// Air, C.
    pub air_c: Option<f64>,
    /// Some or all of it is frozen.
    pub frozen: Option<bool>,
    /// Whether it can ever have been frozen; `None` where the log does not tell.
    pub ever_frozen: Option<bool>,
}

const fn span(earliest_h: f64, latest_h: Option<f64>) -> Span {
    Span { earliest_h, latest_h }
}

/// Bounds from the first hours.
pub fn bounds(seen: &Early, look: Looked) -> Found {
    let mut found = Found::default();
    let mut put = |rule: Rule, said: Result<Span, Silent>| match said {
        Ok(span) => found.bound(look.before(rule, span)),
        Err(why) => found.silent(rule, why),
    };
    if seen.twitch == Some(true) {
        put(Rule::Twitch, Ok(span(0.0, Some(4.0))));
    }
    if let Some(stiffness) = seen.stiffness {
        let (rule, said) = stiff(stiffness, seen);
        put(rule, said);
    }
    match seen.eyes {
        Some(Eyes::ClearAndRound) => put(Rule::EyesClear, clear_eyes(seen)),
        Some(Eyes::SunkenOrCloudy) => put(Rule::EyesSunken, Ok(span(6.0, None))),
        Some(Eyes::Gone) => put(Rule::EyesSunken, Err(Silent::Pecked)),
        None => {}
    }
    if seen.blood_liquid == Some(true) {
        let said = match seen.air_c {
            None => Err(Silent::NeedsAir),
            Some(air) if air < BLOOD_FREEZES_BELOW_C => Ok(span(0.0, Some(2.0))),
            Some(_) => Err(Silent::TooMildForBlood),
        };
        put(Rule::BloodLiquid, said);
    }
    if seen.warm == Some(true) {
        put(Rule::BodyWarm, Ok(span(0.0, Some(24.0))));
    }
    found
}

fn stiff(stiffness: Stiffness, seen: &Early) -> (Rule, Result<Span, Silent>) {
    let frozen = seen.frozen == Some(true) || seen.thigh_c.is_some_and(|t| t < 0.0);
    match stiffness {
        Stiffness::JawOnly if frozen => (Rule::JawStiff, Err(Silent::FrozenStiff)),
        Stiffness::JawOnly => (Rule::JawStiff, Ok(span(1.0, Some(12.0)))),
        Stiffness::AllOver if frozen => (Rule::AllStiff, Err(Silent::FrozenStiff)),
        Stiffness::AllOver => match seen.thigh_c {
            Some(t) if t > NOT_FROST_ABOVE_C => (Rule::AllStiff, Ok(span(3.0, Some(72.0)))),
            Some(_) => (Rule::AllStiff, Err(Silent::FrozenStiff)),
            None => (Rule::AllStiff, Err(Silent::NeedsThigh)),
        },
        Stiffness::Limp => limp(seen),
    }
}

/// Limp is before stiffness or after it: the thigh's warmth tells which.
fn limp(seen: &Early) -> (Rule, Result<Span, Silent>) {
    let Some(thigh) = seen.thigh_c else { return (Rule::LimpWarm, Err(Silent::LimpUndecided)) };
    if thigh > LIMP_WARM_ABOVE_C {
        return (Rule::LimpWarm, Ok(span(0.0, Some(6.0))));
    }
    let Some(air) = seen.air_c else { return (Rule::StiffnessGone, Err(Silent::NeedsAir)) };
    if thigh - air >= NEAR_AIR_C || air <= 0.0 {
        return (Rule::StiffnessGone, Err(Silent::LimpUndecided));
    }
    match seen.ever_frozen {
        Some(false) => (Rule::StiffnessGone, Ok(span(24.0, None))),
        Some(true) => (Rule::StiffnessGone, Err(Silent::WasFrozen)),
        None => (Rule::StiffnessGone, Err(Silent::NoLog)),
    }
}

fn clear_eyes(seen: &Early) -> Result<Span, Silent> {
    if seen.frozen == Some(true) {
        return Err(Silent::FrozenStiff);
    }
    match seen.air_c {
        None => Err(Silent::NeedsAir),
        Some(air) if air <= 0.0 => Err(Silent::ColdEyes),
        Some(_) => Ok(span(0.0, Some(12.0))),
    }
}
