//! Weight lost against a reference weight, and days of reserve for teaching.

use time::Month;

use super::fat_ids as fid;
use super::lens::{Answers, Lens, Picks};
use super::message_ids as id;
use super::scope::Scope;
use super::shape::{Outcome, Reading, Statement, Val};
use super::told::Told;
use super::window;
use crate::record::{Carcass, Site};
use crate::science::age::DeathWindow;
use crate::science::marrow::{AgeGroup, Caution};
use crate::science::reserve::days::{Inputs, ReserveRefusal, reserve};
use crate::science::reserve::loss::{Body, Loss, LossRefusal, weight_loss};
use crate::science::reserve::{Range, sources};
use crate::science::size::dressed::live_from_dressed;

/// Every finding that is read here beside those of measures.
pub(super) const FINDINGS: &[&str] = &["reference_weight_of", "reference_low_kg", "reference_high_kg"];

/// Weights are kept in tenths of a kilogram, and a scale may be off by half of that.
const KG_PER_STEP: f64 = 0.1;
const HALF_STEP_KG: f64 = 0.05;

/// What the record has.
struct Found {
    whole: Option<Range>,
    /// Whole weight worked out from dressed.
    dressed: Option<Range>,
    /// `Err` where the ends are the wrong way round.
    reference: Option<Result<Range, LossRefusal>>,
    of: &'static str,
    herd: bool,
    body: Body,
}

impl Found {
    fn of(lens: &Lens) -> Self {
        let ends = |finding| {
            let all = lens.numbers(finding, Site::NONE);
            let (low, high) = (all.iter().min()?, all.iter().max()?);
            Some((*low as f64 * KG_PER_STEP, *high as f64 * KG_PER_STEP))
        };
        let from_dressed =
            |(low, high): (f64, f64)| Range::new(live_from_dressed(low)?.low_kg, live_from_dressed(high)?.high_kg);
        let kg = |finding| lens.number(finding, Site::NONE).map(|n| n as f64 * KG_PER_STEP);
        let (low, high) = (kg("reference_low_kg"), kg("reference_high_kg"));
        let (of, herd) = match lens.choice("reference_weight_of", Site::NONE) {
            Some("this_deer") => (fid::REFERENCE_OWN, false),
            Some("herd_mean") => (fid::REFERENCE_HERD, true),
            _ => (fid::REFERENCE_UNNAMED, false),
        };
        Self {
            whole: ends("whole_weight_kg").and_then(|(l, h)| Range::new(l - HALF_STEP_KG, h + HALF_STEP_KG)),
            dressed: ends("dressed_weight_kg").and_then(from_dressed),
            reference: low.or(high).zip(high.or(low)).map(|(l, h)| Range::new(l, h).ok_or(LossRefusal::NotAWeight)),
            of,
            herd,
            body: match lens.choice("body_state", Site::NONE) {
                Some("whole") => Body::Whole,
                Some(_) => Body::NotWhole,
                None => Body::NotTold,
            },
        }
    }

    fn loss(&self) -> Result<Loss, LossRefusal> {
        weight_loss(self.whole, self.reference.transpose()?, self.body)
    }

    /// The mass that days are worked out for: what the deer weighed in autumn, else what it weighs.
    fn mass(&self) -> Option<Range> {
        let weighed = self.whole.filter(|_| self.body == Body::Whole).or(self.dressed);
        weighed.map(|weighed| self.reference.and_then(Result::ok).unwrap_or(weighed))
    }
}

/// The reading.
pub(super) fn reading<'a>(carcass: &Carcass, answers: &Answers<'a>, scope: &Scope<'a>, p_fawn: Option<f64>) -> Reading {
    let lens = Lens::new(answers, Picks::new());
    let found = Found::of(&lens);
    let days = window::window(carcass, &lens).map(|w| w.days);
    let mut told = Told::default();
    let nothing = found.whole.is_none() && found.dressed.is_none() && found.reference.is_none();
    if nothing {
        told.say(Statement::plain(fid::RESERVE_NO_EVIDENCE));
        told.look(fid::LOOK_SCALES, "whole_weight_kg");
    } else {
        told.loss(&found);
        told.reserve(&found, days, p_fawn.and_then(AgeGroup::from_fawn_probability));
    }
    let used = lens.into_used();
    let outcome = match (nothing, told.estimates.is_empty()) {
        (true, _) => Outcome::NoEvidence,
        (false, true) => Outcome::Refused,
        (false, false) => Outcome::Read,
    };
    let reading = told.close("condition.reserve", fid::RESERVE_TITLE, outcome, &used);
    scope.guard(used, reading)
}

/// What is said of weight and reserve.
impl Told {
    fn loss(&mut self, found: &Found) {
        let loss = match found.loss() {
            Ok(loss) => loss,
            Err(why) => {
                self.say(Statement::plain(fid::RESERVE_LOSS_REFUSED).with("why", Val::message(fid::loss_refusal(why))));
                match why {
                    LossRefusal::NoWeight => self.look(fid::LOOK_SCALES, "whole_weight_kg"),
                    LossRefusal::NoReference | LossRefusal::NotAWeight => {
                        self.look(fid::LOOK_REFERENCE, "reference_low_kg");
                    }
                    LossRefusal::NotWhole | LossRefusal::BodyNotTold => {}
                }
                return;
            }
        };
        let percent = |share: f64| Val::number(share * 100.0, 0);
        let band = |b| Val::message(fid::loss_band(b));
        let said = if loss.band_low == loss.band_high {
            Statement::plain(fid::RESERVE_LOSS).with("band", band(loss.band_low))
        } else {
            Statement::plain(fid::RESERVE_LOSS_SPAN).with("from", band(loss.band_low)).with("to", band(loss.band_high))
        };
        let said =
            said.with("best", percent(loss.best)).with("low", percent(loss.low)).with("high", percent(loss.high));
        self.say(said.with("of", Val::message(found.of)));
        let hundred = |share: f64| Some(share * 100.0);
        self.figure(fid::UNIT_LOSS, hundred(loss.best), hundred(loss.low), hundred(loss.high));
        self.caution(id::condition_caution(Caution::NotCause));
        self.caution(fid::RESERVE_SNOW);
        if found.herd {
            self.caution(fid::RESERVE_HERD);
        }
        self.rest_on(&sources::LOSS);
    }

    fn reserve(&mut self, found: &Found, days: Option<DeathWindow>, group: Option<AgeGroup>) {
        let after_april =
            |date: time::Date| (Month::May as u8..=Month::September as u8).contains(&(date.month() as u8));
        let refused = if days.is_some_and(|w| after_april(w.from)) {
            Err(ReserveRefusal::AfterApril)
        } else {
            found.mass().ok_or(ReserveRefusal::NoWeight)
        };
        let mass = match refused {
            Ok(mass) => mass,
            Err(why) => {
                let why = Val::message(fid::reserve_refusal(why));
                return self.say(Statement::plain(fid::RESERVE_REFUSED).with("why", why));
            }
        };
        let groups = group.map_or_else(|| vec![AgeGroup::Adult, AgeGroup::Fawn], |group| vec![group]);
        for group in groups {
            self.of_group(group, mass);
        }
        self.caution(fid::RESERVE_TEACHING);
        self.caution(fid::RESERVE_LEAVES_OUT);
        if days.is_some_and(|w| after_april(w.to)) {
            self.caution(fid::RESERVE_SPRING);
        }
        if found.whole.is_none() && found.reference.is_none() {
            self.caution(fid::RESERVE_DRESSED);
        }
        self.rest_on(&sources::RESERVE);
    }

    fn of_group(&mut self, group: AgeGroup, mass: Range) {
        let inputs = Inputs::published(group, mass);
        let (Ok(eating), Ok(fasting)) = (reserve(&inputs), reserve(&inputs.fasting())) else {
            let why = Val::message(fid::reserve_refusal(ReserveRefusal::NotTrue));
            return self.say(Statement::plain(fid::RESERVE_REFUSED).with("why", why));
        };
        let whole = |value: f64| Val::number(value, 0);
        let need = Statement::plain(fid::RESERVE_NEED).with("group", Val::message(id::group(group)));
        let need = need.with("from", Val::number(mass.low, 1)).with("to", Val::number(mass.high, 1));
        self.say(need.with("low", whole(eating.need_kcal.low)).with("high", whole(eating.need_kcal.high)));
        if let (Some(low), Some(best), Some(high)) = (eating.low_days, eating.best_days, eating.high_days) {
            // For fawns the range is told and no middle: the rate spans a factor of two.
            let said = match group {
                AgeGroup::Adult => Statement::plain(fid::RESERVE_DAYS).with("best", whole(best)),
                AgeGroup::Fawn => Statement::plain(fid::RESERVE_DAYS_RANGE),
            };
            let said = said.with("fat_low", Val::number(inputs.fat_share.low * 100.0, 1));
            let said = said.with("fat_high", Val::number(inputs.fat_share.high * 100.0, 1));
            self.say(said.with("low", whole(low)).with("high", whole(high)));
            self.figure(id::UNIT_DAYS, (group == AgeGroup::Adult).then_some(best), Some(low), Some(high));
        }
        if let (Some(low), Some(high)) = (fasting.low_days, fasting.high_days) {
            self.say(Statement::plain(fid::RESERVE_FASTING).with("low", whole(low)).with("high", whole(high)));
        }
        self.say(Statement::plain(match group {
            AgeGroup::Adult => fid::RESERVE_TAKEN_DOE,
            AgeGroup::Fawn => fid::RESERVE_TAKEN_FAWN,
        }));
    }
}
