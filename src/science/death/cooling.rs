//! Newton's cooling, solved backwards through the air's temperature.
//!
//! `dT/dt = -k (T - Ta)`. The rates are wide because no test on haired deer was found: the earliest
//! bound takes the fastest rate and the lowest start, the latest the slowest and the highest.

use super::weather::DayTemp;
use super::{Found, HOUR_S, Instant, Looked, Rule, Silent, Span};

/// Body temperature at death, C: lowest, middle, highest.
pub const START_C: [f64; 3] = [37.5, 39.0, 41.0];
/// After a chase the highest is this much higher, C. From memory.
pub const CHASE_C: f64 = 2.0;
/// Nearer than this to the air, C, only a least time is left.
pub const NEAR_AIR_C: f64 = 4.0;
/// The start is slower than Newton's law has it: this is added to the latest bound, h.
pub const PLATEAU_H: f64 = 2.0;
/// Nose and ear speak of the first hours only, h.
pub const NOSE_WITHIN_H: f64 = 4.0;

/// Where the probe was.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Site {
    /// Deep in the thigh, 8 to 10 cm, hide intact.
    Thigh,
    /// Rumen or deep belly, unopened.
    Belly,
    /// Root of nose or ear.
    Nose,
}

impl Site {
    /// Rate of cooling, per hour: low, middle, high, of an adult of 50 to 80 kg.
    pub const fn rates(self) -> [f64; 3] {
        match self {
            Self::Thigh => [0.03, 0.05, 0.10],
            Self::Belly => [0.015, 0.03, 0.045],
            Self::Nose => [0.2, 0.5, 1.0],
        }
    }

    /// The rule.
    pub const fn rule(self) -> Rule {
        match self {
            Self::Thigh => Rule::ThighCooling,
            Self::Belly => Rule::BellyCooling,
            Self::Nose => Rule::NoseCooling,
        }
    }
}

/// What makes a body cool faster or slower. Nothing told changes nothing.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
#[allow(clippy::struct_excessive_bools)] // each is one line of the table of factors
pub struct Body {
    /// A fawn of 25 to 35 kg.
    pub fawn: bool,
    /// Buried in snow.
    pub buried: bool,
    /// Wet coat, or wind over 5 m/s.
    pub wet_or_windy: bool,
    /// Opened or skinned.
    pub opened: bool,
    /// It was chased.
    pub chased: bool,
}

impl Body {
    /// By what the rates are multiplied.
    pub fn factor(self) -> f64 {
        let factors = [(self.fawn, 1.6), (self.buried, 0.6), (self.wet_or_windy, 1.5), (self.opened, 2.0)];
        factors.into_iter().filter(|(on, _)| *on).map(|(_, factor)| factor).product()
    }
}

/// The air since death.
#[derive(Clone, Copy, Debug)]
pub struct Air<'a> {
    /// At the look, C.
    pub now_c: f64,
    /// The days before, the oldest first; without them the air is taken as it is now.
    pub days: &'a [DayTemp],
}

impl Air<'_> {
    /// Pieces of steady air backwards from a look: hours long, C. The last one has no end where no
    /// log bounds it.
    fn pieces(&self, look: Instant) -> impl Iterator<Item = (f64, f64)> + '_ {
        // The day of the look is as measured then.
        let before = self.days.iter().rev().filter(move |day| day.start < look).skip(1);
        let today = self.days.iter().rev().find(|day| day.start < look);
        let long = today.map_or(f64::INFINITY, |day| (look - day.start) as f64 / HOUR_S as f64);
        std::iter::once((long, self.now_c)).chain(before.map(|day| (24.0, day.middle_c())))
    }

    /// Hours back to the instant at which a body that is `t_c` warm now was `start_c` warm.
    ///
    /// # Errors
    /// [`Silent::ColderThanAir`] where on the way back the air is not colder, [`Silent::LogTooShort`]
    /// where the log ends before.
    pub fn hours_back(&self, look: Instant, t_c: f64, start_c: f64, k: f64) -> Result<f64, Silent> {
        let (mut t, mut hours) = (t_c, 0.0);
        if t >= start_c {
            return Ok(0.0);
        }
        for (long, air) in self.pieces(look) {
            if t <= air || start_c <= air {
                return Err(Silent::ColderThanAir);
            }
            let needed = cooled_for(t, start_c, air, k);
            if needed <= long {
                return Ok(hours + needed);
            }
            hours += long;
            t = air + (t - air) * libm::exp(k * long);
        }
        Err(Silent::LogTooShort)
    }
}

/// Hours in which a body cools from `start_c` to `t_c` in steady air, at rate `k` per hour.
pub fn cooled_for(t_c: f64, start_c: f64, air_c: f64, k: f64) -> f64 {
    libm::log((start_c - air_c) / (t_c - air_c)) / k
}

/// The rate, per hour, at which a body cooled from `start_c` to `t_c` in so many hours of steady air.
pub fn rate(t_c: f64, start_c: f64, air_c: f64, hours: f64) -> f64 {
    libm::log((start_c - air_c) / (t_c - air_c)) / hours
}

/// The bound from one temperature, taken at `look`.
pub fn bound(site: Site, t_c: f64, body: Body, air: &Air, look: Looked) -> Found {
    let mut found = Found::default();
    match hours(site, t_c, body, air, look.from) {
        Ok(span) => found.bound(look.before(site.rule(), span)),
        Err(why) => found.silent(site.rule(), why),
    }
    found
}

/// Hours since death from one temperature.
///
/// # Errors
/// The reason, where the temperature tells nothing.
pub fn hours(site: Site, t_c: f64, body: Body, air: &Air, look: Instant) -> Result<Span, Silent> {
    let [start_low, _, start_high] = START_C;
    let start_high = start_high + if body.chased { CHASE_C } else { 0.0 };
    let [slow, middle, fast] = site.rates().map(|k| k * body.factor());
    if t_c > start_high {
        return Err(Silent::TooWarm);
    }
    if t_c <= 0.0 {
        return Err(Silent::FrozenThere);
    }
    if t_c - air.now_c < NEAR_AIR_C {
        return least(site, start_low, air.now_c, fast);
    }
    if site == Site::Nose && air.hours_back(look, t_c, START_C[1], middle).is_ok_and(|h| h > NOSE_WITHIN_H) {
        return Err(Silent::NoseTooLate);
    }
    let earliest_h = air.hours_back(look, t_c, start_low, fast)?;
    match air.hours_back(look, t_c, start_high, slow) {
        Ok(latest) => Ok(Span { earliest_h, latest_h: Some(latest + PLATEAU_H) }),
        // The log ends before the slowest body: only the least time is known.
        Err(_) => Ok(Span { earliest_h, latest_h: None }),
    }
}

/// As cold as the air, nearly: at least as long as the fastest body takes to come so near.
fn least(site: Site, start_low: f64, air_c: f64, fast: f64) -> Result<Span, Silent> {
    if site == Site::Nose {
        return Err(Silent::NoseTooLate);
    }
    if start_low - air_c <= NEAR_AIR_C {
        return Err(Silent::ColderThanAir);
    }
    let earliest_h = cooled_for(air_c + NEAR_AIR_C, start_low, air_c, fast);
    Ok(Span { earliest_h, latest_h: None })
}
