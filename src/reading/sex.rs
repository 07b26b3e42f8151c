//! Sex from the signs recorded.

use super::lens::{Answers, Ask, Lens, Picks, digest_of, ids_of};
use super::local::Local;
use super::measures::SIDES;
use super::scope::Scope;
use super::shape::{Basis, Estimate, Outcome, Reading, Share, Sharpen, Statement, Val};
use super::split::{self, Done};
use super::{local_ids, message_ids as id, size};
use crate::record::{Carcass, Site};
use crate::science::age::Sex;
use crate::science::marrow::AgeGroup;
use crate::science::sex::{SOURCES, SexAnswer, SexReading, SexSign, firmest, read_sex};
use crate::science::size::norms::male_odds_of_size;

/// Signs of sex seen hands off, and those felt with gloves on.
const EVIDENCE: [&str; 2] = ["sex_evidence", "sex_evidence_handled"];

/// What the signs say before the age is known, and the sex that a person called.
pub(super) struct SexFound {
    signs: Vec<SexSign>,
    called: Option<Sex>,
}

fn sign_of(code: &str) -> Option<SexSign> {
    Some(match code {
        "scrotum_or_penis" => SexSign::ScrotumOrPenis,
        "udder_or_vulva" => SexSign::UdderOrVulva,
        "antlers" => SexSign::Antlers,
        "pedicles_or_knobs" => SexSign::Pedicles,
        "no_pedicles" => SexSign::NoPedicles,
        "suckled_nipples" => SexSign::SuckledNipples,
        _ => return None,
    })
}

impl SexFound {
    pub(super) fn of(lens: &Lens) -> Self {
        let mut signs: Vec<SexSign> = EVIDENCE
            .into_iter()
            .flat_map(|finding| lens.choices(finding, Site::NONE).unwrap_or_default())
            .filter_map(sign_of)
            .collect();
        let counted = lens.number("fetuses_count", Site::NONE).is_some_and(|n| n > 0);
        if counted || lens.choice("fetus", Site::NONE) == Some("there") {
            signs.push(SexSign::Fetus);
        }
        if SIDES.iter().any(|site| !lens.numbers("antler_beam_mm", *site).is_empty()) {
            signs.push(SexSign::Antlers);
        }
        match lens.choice("pelvis_knobs", Site::NONE) {
            Some("knobs_there") => signs.push(SexSign::PelvisKnobs),
            Some("knobs_absent") => signs.push(SexSign::NoPelvisKnobs),
            _ => {}
        }
        let called = match lens.choice("sex_called", Site::NONE) {
            Some("female") => Some(Sex::Female),
            Some("male") => Some(Sex::Male),
            _ => None,
        };
        Self { signs, called }
    }

    fn read(&self, p_fawn: f64, size_odds: Option<f64>) -> Option<SexReading> {
        read_sex(&self.signs, p_fawn, size_odds)
    }

    /// The sex to start the age from: a certain sign, else the sex called.
    pub(super) fn for_age(&self) -> Option<Sex> {
        match self.read(0.5, None) {
            Some(reading) if reading.both => None,
            Some(reading) => reading.certain.or(self.called),
            None => self.called,
        }
    }

    /// The sign that goes into the age with its odds, where no sex is known: a smooth brow says more in a
    /// grown deer than in a fawn, so sex and age are found together.
    pub(super) fn line_for_age(&self) -> Option<SexSign> {
        if self.for_age().is_some() { None } else { firmest(&self.signs).filter(|sign| !sign.is_certain()) }
    }
}

fn name(sex: Sex) -> &'static str {
    match sex {
        Sex::Female => id::SEX_FEMALE,
        Sex::Male => id::SEX_MALE,
    }
}

/// The sex to start from, where every way of settling the signs comes to the same.
pub(super) fn agreed(answers: &Answers) -> Option<Sex> {
    let (ways, _) = Lens::new(answers, Picks::new()).ways(&ASKS);
    let mut each = ways.into_iter().map(|picks| SexFound::of(&Lens::new(answers, picks)).for_age());
    let first = each.next()??;
    each.all(|other| other == Some(first)).then_some(first)
}

/// Every question that the sex hangs on.
const ASKS: [Ask; 7] = [
    ("species", Site::NONE),
    (EVIDENCE[0], Site::NONE),
    (EVIDENCE[1], Site::NONE),
    ("fetus", Site::NONE),
    ("fetuses_count", Site::NONE),
    ("pelvis_knobs", Site::NONE),
    ("sex_called", Site::NONE),
];

/// What the age method found beside the age.
#[derive(Clone, Copy)]
pub(super) struct FromAge {
    /// Probability of a fawn, where the age is known.
    pub(super) p_fawn: Option<f64>,
    /// Probability of a buck, where a sign and the age were joined.
    pub(super) p_male: Option<f64>,
}

/// What was decided, and how it is said.
fn statements(read: Option<SexReading>, called: Option<Sex>, by_size: Option<Statement>) -> Vec<Statement> {
    let Some(reading) = read else {
        return match called {
            Some(sex) => vec![Statement::plain(name(sex)), Statement::plain(id::SEX_CALLED)],
            None => vec![Statement::plain(id::SEX_UNKNOWN)],
        };
    };
    let leaning = if reading.male >= 0.5 { Sex::Male } else { Sex::Female };
    let share = reading.male.max(1.0 - reading.male);
    let with =
        |id: &str| Statement::plain(id).with("sex", Val::message(name(leaning))).with("percent", Val::percent(share));
    let headline = match reading.answer() {
        SexAnswer::Certain(sex) => Statement::plain(name(sex)),
        SexAnswer::Likely(_) => with(id::SEX_LIKELY),
        SexAnswer::Undetermined if reading.both => Statement::plain(id::SEX_UNDETERMINED_BOTH),
        SexAnswer::Undetermined => with(id::SEX_UNDETERMINED),
    };
    let mut list = vec![headline];
    if reading.line.is_none() {
        list.extend(by_size);
        return list;
    }
    list.extend(reading.line.map(|sign| Statement::plain(id::SEX_BY).with("sign", Val::message(id::sex_sign(sign)))));
    if reading.certain.is_none() && !reading.both {
        list.push(Statement::plain(id::SEX_ODDS).with("odds", Val::number(share / (1.0 - share), 0)));
    }
    list
}

/// What size says of a grown deer, by the reserve's own norms: odds of a buck, and how it is said.
fn by_size(lens: &Lens, age: FromAge, local: &Local) -> Option<(f64, Statement)> {
    let grown = age.p_fawn.and_then(AgeGroup::from_fawn_probability) == Some(AgeGroup::Adult);
    let (measure, mm, [doe, buck]) = local.sexes(lens).filter(|_| grown)?;
    let odds = male_odds_of_size(mm, &doe, &buck)?;
    let what = Val::message(size::measure_name(measure));
    Some((odds, Statement::plain(local_ids::SEX_BY_SIZE).with("what", what).with("mm", size::millimetres(mm, 0))))
}

/// The reading.
pub(super) fn reading(carcass: &Carcass, answers: &Answers, age: FromAge, local: &Local) -> Reading {
    split::over(answers, &ASKS, |lens, alone| one(carcass, lens, alone, age, local))
}

fn one<'a>(carcass: &Carcass, lens: Lens<'_, 'a>, alone: bool, age: FromAge, local: &Local) -> Done<'a> {
    let scope = Scope::of(carcass, &lens);
    let found = SexFound::of(&lens);
    let sized = if found.signs.is_empty() { by_size(&lens, age, local) } else { None };
    let mut read = found.read(age.p_fawn.unwrap_or(0.5), sized.as_ref().map(|(odds, _)| *odds));
    let own = local.norms_basis();
    // What was joined with the age was joined over all ways.
    if let (Some(reading), Some(p_male)) = (read.as_mut(), age.p_male.filter(|_| alone))
        && reading.certain.is_none()
        && !reading.both
    {
        reading.male = p_male;
    }
    let mut cautions = Vec::new();
    if read.is_some_and(|r| r.both) {
        cautions.push(Statement::plain(id::SEX_BOTH));
    }
    let looked: Vec<_> = EVIDENCE.into_iter().filter_map(|finding| lens.choices(finding, Site::NONE)).collect();
    if !looked.is_empty() && !looked.iter().any(|codes| codes.contains(&"antlers")) {
        cautions.push(Statement::plain(id::SEX_NO_ANTLERS));
    }
    let pelvis = |r: SexReading| matches!(r.line, Some(SexSign::PelvisKnobs | SexSign::NoPelvisKnobs));
    if read.is_some_and(pelvis) {
        cautions.push(Statement::plain(id::SEX_PELVIS));
    }
    if let (Some(called), Some(reading)) = (found.called, read) {
        let other = if called == Sex::Male { 1.0 - reading.male } else { reading.male };
        if other > 0.5 {
            cautions.push(Statement::plain(id::SEX_CALLED_OTHERWISE).with("sex", Val::message(name(called))));
        }
    }
    let male = read.map(|r| r.male);
    let shares = male.map_or_else(Vec::new, |male| {
        vec![
            Share { of: id::SEX_FEMALE.to_owned(), probability: 1.0 - male },
            Share { of: id::SEX_MALE.to_owned(), probability: male },
        ]
    });
    let estimate =
        Estimate { unit: id::UNIT_PROBABILITY.to_owned(), best: male, low: None, high: None, coverage: None, shares };
    let certain = read.is_some_and(|r| r.certain.is_some());
    let look = Sharpen {
        look: Statement::plain(id::LOOK_SEX),
        finding: "sex_evidence".to_owned(),
        site: Site::NONE,
        gain_bits: None,
    };
    let nothing = read.is_none() && found.called.is_none();
    let used = lens.into_used();
    let reading = Reading {
        method: "sex.ladder".to_owned(),
        title: id::SEX_TITLE.to_owned(),
        outcome: if nothing { Outcome::NoEvidence } else { Outcome::Read },
        estimates: if male.is_some() { vec![estimate] } else { Vec::new() },
        statements: statements(read, found.called, sized.as_ref().map(|(_, said)| said.clone())),
        cautions,
        sharpen: if certain { Vec::new() } else { vec![look] },
        variants: Vec::new(),
        rests_on: ids_of(&used),
        entries_digest: digest_of(&used),
        sources: if read.is_some() {
            SOURCES.iter().map(Basis::from).chain(own.into_iter().filter(|_| sized.is_some())).collect()
        } else {
            Vec::new()
        },
    };
    scope.guarded(used, reading)
}
