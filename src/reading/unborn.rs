//! Unborn young: age, conception, birth that would have been, and how far their sex can be told.

use super::age::latitude_deg;
use super::condition;
use super::lens::{Answers, Ask, Lens, digest_of, ids_of};
use super::local::Local;
use super::message_ids as id;
use super::scope::Scope;
use super::shape::{Basis, Estimate, Outcome, Reading, Sharpen, Statement, Val};
use super::split::{self, Done};
use super::window;
use crate::record::{Answer, Carcass, Site};
use crate::science::age::birth::{BIRTH_DATES, SOUTHERN_LIMIT_DEG};
use crate::science::unborn::rut::outside_rut;
use crate::science::unborn::sexing::{Observer, Sexing, sexing_at};
use crate::science::unborn::{DaySpan, UnbornReading, UnbornRefusal, read_length, read_unborn, sources};

/// Coverage of the ranges.
const COVERAGE: f64 = 0.9;
/// Standard deviations to either end of it.
const REACH: f64 = 1.6448536269514722;
/// Most young that are asked about.
const MOST: u16 = 5;
/// Below this length a knob of the womb's lining is easily taken for a fetus, mm. Ours.
const SMALL_MM: f64 = 40.0;

/// The young as recorded.
struct Found {
    /// Mean length of each that was measured, with its number.
    lengths: Vec<(u16, f64)>,
    /// Sex seen of each, with its number.
    sexes: Vec<(u16, &'static str)>,
    counted: Option<i64>,
    there: Option<bool>,
}

fn find(lens: &Lens) -> Found {
    let (mut lengths, mut sexes) = (Vec::new(), Vec::new());
    for n in 1..=MOST {
        let site = Site::item(n);
        let all = lens.numbers("fetus_length_mm", site);
        if !all.is_empty() {
            lengths.push((n, all.iter().map(|mm| *mm as f64).sum::<f64>() / all.len() as f64));
        }
        match lens.choice("fetus_sex", site) {
            Some("female") => sexes.push((n, id::SEX_FEMALE)),
            Some("male") => sexes.push((n, id::SEX_MALE)),
            _ => {}
        }
    }
    let there = match lens.result("fetus", Site::NONE) {
        Some(Answer::NotSeen) => Some(false),
        Some(_) => Some(true),
        None => None,
    };
    Found { lengths, sexes, counted: lens.number("fetuses_count", Site::NONE), there }
}

/// Every question that the young hang on beside their lengths, of which every reading is kept.
fn asks() -> Vec<Ask> {
    let whole = ["species", "fetus", "fetuses_count", "death_known_at"].map(|finding| (finding, Site::NONE));
    whole.into_iter().chain((1..=MOST).map(|n| ("fetus_sex", Site::item(n)))).collect()
}

/// The reading.
pub(super) fn reading<'a>(carcass: &'a Carcass, answers: &Answers<'a>, local: &Local) -> Reading {
    split::over(answers, &asks(), |lens, _| one(carcass, lens, local))
}

fn one<'a>(carcass: &'a Carcass, lens: Lens<'_, 'a>, local: &Local) -> Done<'a> {
    let scope = Scope::of(carcass, &lens);
    let found = find(&lens);
    let mut reading = empty();
    let mut marrow_used = None;
    if found.lengths.is_empty() {
        without_length(&found, &mut reading);
    } else {
        let (low_reserve, used) = condition::reserve_low(carcass);
        marrow_used = Some(used);
        let mm: Vec<f64> = found.lengths.iter().map(|(_, mm)| *mm).collect();
        match window::window(carcass, &lens) {
            None => reading.statements.push(Statement::plain(id::UNBORN_NO_DATES)),
            Some(dates) => match read_unborn(&mm, dates.days, low_reserve) {
                Ok(read) => {
                    told(&found, &read, &mut reading);
                    against_rut(&lens, &read, local, &mut reading);
                    if !dates.known {
                        reading.cautions.push(Statement::plain(id::AGE_WINDOW_ASSUMED));
                        reading.sources.push(Basis::from(&window::SOURCE));
                    }
                }
                Err(refusal) => refused(&found, refusal, &mut reading),
            },
        }
        reading.outcome = if reading.estimates.is_empty() { Outcome::Refused } else { Outcome::Read };
    }
    let mut used = lens.into_used();
    used.extend(marrow_used.into_iter().flatten());
    reading.rests_on = ids_of(&used);
    reading.entries_digest = digest_of(&used);
    scope.guarded(used, reading)
}

fn empty() -> Reading {
    Reading {
        method: "unborn.forehead_rump".to_owned(),
        title: id::UNBORN_TITLE.to_owned(),
        outcome: Outcome::NoEvidence,
        estimates: Vec::new(),
        statements: Vec::new(),
        cautions: Vec::new(),
        sharpen: Vec::new(),
        variants: Vec::new(),
        rests_on: Vec::new(),
        entries_digest: digest_of(&super::lens::Used::new()),
        sources: Vec::new(),
    }
}

fn without_length(found: &Found, reading: &mut Reading) {
    let any = found.there == Some(true) || found.counted.is_some_and(|n| n > 0) || !found.sexes.is_empty();
    if any {
        reading.statements.push(Statement::plain(id::UNBORN_NOT_MEASURED));
        reading.sharpen.push(Sharpen {
            look: Statement::plain(id::LOOK_FETUS_LENGTH),
            finding: "fetus_length_mm".to_owned(),
            site: Site::item(1),
            gain_bits: None,
        });
    } else if found.there == Some(false) {
        reading.statements.push(Statement::plain(id::UNBORN_NONE));
    } else {
        reading.statements.push(Statement::plain(id::UNBORN_NO_EVIDENCE));
    }
}

/// The refusal, naming the one that it is for.
fn refused(found: &Found, refusal: UnbornRefusal, reading: &mut Reading) {
    let which = found.lengths.iter().find(|(_, mm)| read_length(*mm) == Err(refusal)).copied();
    let mut said = Statement::plain(id::unborn_refusal(refusal));
    if let Some((n, mm)) = which {
        said = said.with("n", Val::Count(i64::from(n))).with("mm", Val::number(mm, 0));
    }
    reading.statements.push(said);
}

/// A conception outside the rut is told. Farther south the rut is not known here.
fn against_rut(lens: &Lens, read: &UnbornReading, local: &Local, reading: &mut Reading) {
    if latitude_deg(lens).is_some_and(|latitude| latitude < SOUTHERN_LIMIT_DEG) {
        return;
    }
    reading.sources.push(local.births_basis().unwrap_or_else(|| Basis::from(&BIRTH_DATES)));
    if let Some((from, to)) = outside_rut(read.conception, local.settings().births) {
        let day = |date: time::Date| Val::Text(date.to_string());
        reading.cautions.push(Statement::plain(id::UNBORN_OUTSIDE_RUT).with("from", day(from)).with("to", day(to)));
    }
}

fn dates(id: &str, span: DaySpan) -> Statement {
    Statement::plain(id)
        .with("best", Val::Text(span.best.to_string()))
        .with("low", Val::Text(span.low.to_string()))
        .with("high", Val::Text(span.high.to_string()))
}

fn told(found: &Found, read: &UnbornReading, reading: &mut Reading) {
    let reach = REACH * read.sd_days;
    reading.estimates.push(Estimate {
        unit: id::UNIT_DAYS.to_owned(),
        best: Some(read.age_days),
        low: Some(read.age_days - reach),
        high: Some(read.age_days + reach),
        coverage: Some(COVERAGE),
        shares: Vec::new(),
    });
    let measured = i64::try_from(found.lengths.len()).unwrap_or(i64::MAX);
    let number = found.counted.unwrap_or(measured).max(measured);
    reading.statements.push(
        Statement::plain(id::UNBORN_AGE)
            .with("count", Val::Count(number))
            .with("days", Val::number(read.age_days, 0))
            .with("low", Val::number(read.age_days - reach, 0))
            .with("high", Val::number(read.age_days + reach, 0)),
    );
    reading.statements.push(dates(id::UNBORN_CONCEIVED, read.conception));
    reading.statements.push(dates(id::UNBORN_BIRTH, read.birth));
    let mut refused_sex = false;
    for (n, sex) in &found.sexes {
        let age = found.lengths.iter().zip(&read.ages_days).find(|((m, _), _)| m == n).map(|(_, age)| *age);
        let of = |id: &str| Statement::plain(id).with("n", Val::Count(i64::from(*n)));
        match sexing_at(age.unwrap_or(read.age_days), Observer::default()) {
            Sexing::Right(percent) => {
                let said = of(id::UNBORN_SEX).with("sex", Val::message(sex));
                reading.statements.push(said.with("percent", Val::Count(i64::from(percent))));
            }
            Sexing::Unreliable => {
                refused_sex = true;
                reading.statements.push(of(id::UNBORN_SEX_REFUSED));
            }
        }
    }
    let small = found.lengths.iter().any(|(_, mm)| *mm < SMALL_MM);
    let differs = found.counted.is_some_and(|n| n != measured);
    let cautions = [
        (true, id::UNBORN_UNCONFIRMED),
        (read.may_be_earlier, id::UNBORN_THIN_DOE),
        (read.mates_differ, id::UNBORN_MATES_DIFFER),
        (differs, id::UNBORN_NOT_ALL_MEASURED),
        (small, id::UNBORN_SMALL),
        (refused_sex, id::UNBORN_SEX_LINE),
    ];
    reading.cautions = cautions.into_iter().filter(|(on, _)| *on).map(|(_, id)| Statement::plain(id)).collect();
    reading.sources = sources::SOURCES.iter().map(Basis::from).collect();
    if !found.sexes.is_empty() {
        reading.sources.extend(sources::SEXING.iter().map(Basis::from));
    }
}
