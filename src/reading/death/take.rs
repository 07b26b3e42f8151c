//! From one visit's findings to bounds on the instant of death.

use super::layers;
use super::log::LogData;
use crate::reading::lens::{Answers, Lens, Picks, Used};
use crate::record::{Answer, Moment, Site, Value};
use crate::science::death::cooling::{self, Air};
use crate::science::death::decay;
use crate::science::death::early::{self, Early, Eyes, Stiffness};
use crate::science::death::freezing::{self, Part};
use crate::science::death::snow::Fall;
use crate::science::death::weather::Weather;
use crate::science::death::{Bound, Found, HOUR_S, Instant, Looked, Rule, Silent};

/// What was felt or seen at the body was so within this long of the arrival, h. Ours.
const VISIT_H: i64 = 2;
/// Wind that speeds cooling: over 5 m/s, in km/h.
const WINDY_ABOVE_KM_H: i64 = 18;

/// One visit: its answers and those of its outing and report.
pub(super) struct Visit<'a> {
    pub(super) exam: Answers<'a>,
    pub(super) outing: Answers<'a>,
    pub(super) report: Answers<'a>,
    /// The earliest entry, by the phone's clock.
    pub(super) clock: Option<Moment>,
}

/// What a visit says.
#[allow(clippy::struct_excessive_bools)] // notes for cautions, one each
pub(super) struct Taken<'a> {
    pub(super) found: Found,
    pub(super) arrived: Option<Moment>,
    pub(super) by_clock: bool,
    /// Flesh is left, as far as anybody said.
    pub(super) flesh: bool,
    /// The air was taken as steady for a bound from cooling.
    pub(super) steady_air: bool,
    /// Layers that the crew counted were dated by a log.
    pub(super) layers_of_log: bool,
    pub(super) falls: Vec<Fall>,
    pub(super) seen: Vec<(Rule, Instant)>,
    pub(super) used: Used<'a>,
}

/// The moment found.
pub(super) fn moment(lens: &Lens, finding: &'static str, site: Site) -> Option<Moment> {
    match lens.result(finding, site)? {
        Answer::Seen { value: Value::Instant(at) } => Some(*at),
        _ => None,
    }
}

pub(super) fn there(lens: &Lens, sign: &'static str) -> Option<bool> {
    Some(matches!(lens.result(sign, Site::NONE)?, Answer::Seen { .. }))
}

pub(super) fn is(lens: &Lens, finding: &'static str, options: &[&str]) -> bool {
    lens.choice(finding, Site::NONE).is_some_and(|code| options.contains(&code))
}

fn degrees(lens: &Lens, finding: &'static str) -> Option<f64> {
    lens.number(finding, Site::NONE).map(|tenths| tenths as f64 / 10.0)
}

fn earliest(lens: &Lens) -> Option<Moment> {
    let all = lens.all("arrived_at", Site::NONE).iter();
    let moments = all.filter_map(|answer| match answer {
        Answer::Seen { value: Value::Instant(at) } => Some(*at),
        _ => None,
    });
    moments.min_by_key(|at| at.unix_seconds())
}

/// Everything that one visit bounds, splits settled as told.
pub(super) fn take<'a>(visit: &Visit<'a>, picks: Picks, log: &LogData, season_start: Instant) -> Taken<'a> {
    let lens = Lens::new(&visit.exam, picks);
    let outing = Lens::new(&visit.outing, Picks::new());
    let report = Lens::new(&visit.report, Picks::new());
    let answered = earliest(&lens);
    let arrived = answered.or(visit.clock);
    let flesh = !is(&lens, "body_state", &["bones_and_hair"]);
    let mut taken = Taken {
        found: Found::default(),
        arrived,
        by_clock: answered.is_none() && arrived.is_some(),
        flesh,
        steady_air: false,
        layers_of_log: false,
        falls: Vec::new(),
        seen: Vec::new(),
        used: Used::new(),
    };
    if let Some(arrived) = arrived {
        let at = arrived.unix_seconds();
        taken.found.bounds.push(Bound::high(Rule::Found, at, !taken.by_clock));
        let at_body = At { lens: &lens, outing: &outing, log, look: at, season_start };
        at_body.everything(&mut taken);
    }
    known_times(&lens, &report, &mut taken);
    lens.also_used(outing);
    lens.also_used(report);
    taken.used = lens.into_used();
    taken
}

/// What people, cameras and collars saw.
fn known_times(lens: &Lens, report: &Lens, taken: &mut Taken) {
    let at = |finding| moment(lens, finding, Site::NONE).map(Moment::unix_seconds);
    let bounds = &mut taken.found.bounds;
    for (finding, rule) in [("place_clear_at", Rule::PlaceClear), ("seen_alive_at", Rule::SeenAlive)] {
        if let Some(at) = at(finding) {
            bounds.push(Bound::low(rule, at, true));
            taken.seen.push((rule, at));
        }
    }
    if let Some(at) = at("death_known_at") {
        bounds.push(Bound { rule: Rule::SeenToDie, low: Some(at), high: Some(at), hard: true });
    }
    if let Some(at) = at("collar_switched_at") {
        let waited_min = lens.number("collar_delay_min", Site::NONE).unwrap_or(0);
        bounds.push(Bound::high(Rule::CollarSwitched, at - waited_min * 60, false));
    }
    if let Some(at) = moment(report, "report_clear_at", Site::NONE).map(Moment::unix_seconds) {
        bounds.push(Bound::low(Rule::PlaceClear, at, true));
        taken.seen.push((Rule::PlaceClear, at));
    }
    let Some(at) = moment(report, "report_seen_at", Site::NONE).map(Moment::unix_seconds) else { return };
    if is(report, "report_state", &["dead"]) {
        bounds.push(Bound::high(Rule::Found, at, true));
        taken.seen.push((Rule::Found, at));
    } else if is(report, "report_state", &["alive"]) {
        // Whether it was the same deer nobody can be sure of.
        bounds.push(Bound::low(Rule::SeenAlive, at, false));
        taken.seen.push((Rule::SeenAlive, at));
    }
}

/// The look at the body.
pub(super) struct At<'v, 'l, 'a> {
    pub(super) lens: &'v Lens<'l, 'a>,
    outing: &'v Lens<'l, 'a>,
    log: &'v LogData,
    pub(super) look: Instant,
    season_start: Instant,
}

impl At<'_, '_, '_> {
    fn everything(&self, taken: &mut Taken) {
        let lens = self.lens;
        let look = Looked { from: self.look, to: self.look + VISIT_H * HOUR_S };
        let probed = moment(lens, "probed_at", Site::NONE).map_or(look, |at| Looked::at(at.unix_seconds()));
        let weather = Weather::up_to(&self.log.days, self.look);
        let found = &mut taken.found;
        layers::take(lens, self.outing, self.log, self.look, found, &mut taken.falls, &mut taken.layers_of_log);
        let air_c = self.air_c();
        found.add(early::bounds(&self.early(air_c, &weather), probed));
        if let Some(now_c) = air_c {
            let air = Air { now_c, days: weather.days() };
            taken.steady_air |= self.cooling(&air, probed, found) && weather.is_empty();
        } else if ["thigh_c", "belly_c", "nose_c"].iter().any(|f| lens.number(f, Site::NONE).is_some()) {
            found.silent.push((Rule::ThighCooling, Silent::NeedsAir));
        }
        self.freezing(&weather, look, found);
        self.eaten(look, found);
        found.add(decay::bounds(self.decay(), &weather, look));
        self.bones(look, found);
    }

    fn air_c(&self) -> Option<f64> {
        degrees(self.lens, "air_now_c").or_else(|| {
            let all = self.outing.numbers("air_temperature_c", Site::NONE);
            (!all.is_empty()).then(|| all.iter().sum::<i64>() as f64 / all.len() as f64)
        })
    }

    pub(super) fn frozen(&self) -> Option<bool> {
        self.lens.choice("body_frozen", Site::NONE).map(|how| how != "not_frozen")
    }

    pub(super) fn fawn(&self) -> bool {
        is(self.lens, "quick_class", &["fawn"])
    }

    fn opened(&self) -> bool {
        is(self.lens, "body_state", &["part_eaten", "mostly_eaten"])
    }

    fn early(&self, air_c: Option<f64>, weather: &Weather) -> Early {
        let lens = self.lens;
        let frozen = self.frozen();
        let by_log = weather.covers(self.season_start).then(|| weather.any_frost(self.season_start));
        Early {
            twitch: there(lens, "muscle_twitch"),
            stiffness: match lens.choice("stiffness", Site::NONE) {
                Some("limp") => Some(Stiffness::Limp),
                Some("jaw_only") => Some(Stiffness::JawOnly),
                Some("all_over") => Some(Stiffness::AllOver),
                _ => None,
            },
            eyes: match lens.choice("eyes", Site::NONE) {
                Some("clear_and_round") => Some(Eyes::ClearAndRound),
                Some("sunken_or_cloudy") => Some(Eyes::SunkenOrCloudy),
                Some("eyes_gone") => Some(Eyes::Gone),
                _ => None,
            },
            blood_liquid: lens.choice("blood_state", Site::NONE).map(|how| how == "liquid_or_smears"),
            warm: there(lens, "body_warm"),
            thigh_c: degrees(lens, "thigh_c"),
            air_c,
            frozen,
            ever_frozen: if frozen == Some(true) { Some(true) } else { by_log },
        }
    }

    /// Whether any temperature was taken.
    fn cooling(&self, air: &Air, look: Looked, found: &mut Found) -> bool {
        let windy = self.outing.numbers("wind_km_h", Site::NONE).iter().any(|wind| *wind > WINDY_ABOVE_KM_H);
        let body = cooling::Body {
            fawn: self.fawn(),
            buried: is(self.lens, "body_buried", &["mostly_buried"]),
            wet_or_windy: windy,
            opened: self.opened(),
            chased: there(self.lens, "chase_or_struggle_marks") == Some(true),
        };
        let sites =
            [("thigh_c", cooling::Site::Thigh), ("belly_c", cooling::Site::Belly), ("nose_c", cooling::Site::Nose)];
        let mut any = false;
        for (finding, site) in sites {
            if let Some(t_c) = degrees(self.lens, finding) {
                found.add(cooling::bound(site, t_c, body, air, look));
                any = true;
            }
        }
        any
    }

    fn freezing(&self, weather: &Weather, look: Looked, found: &mut Found) {
        const PRESSED: [(&str, Part); 4] = [
            ("leg_frozen_hard", Part::LowerLeg),
            ("neck_frozen_hard", Part::Neck),
            ("thigh_frozen_hard", Part::Thigh),
            ("trunk_frozen_hard", Part::Trunk),
        ];
        let snow_over = is(self.lens, "snow_over_body", &["part_covered", "covered"]);
        for (finding, part) in PRESSED {
            if let Some(frozen) = there(self.lens, finding) {
                found.add(freezing::bound(part, frozen, self.opened(), snow_over, weather, look));
            }
        }
    }
}
