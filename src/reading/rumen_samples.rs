//! What was counted or sorted of the rumen: one sample an occasion and a way of measuring.

use std::collections::{BTreeMap, BTreeSet};

use uuid::Uuid;

use super::lens::Used;
use crate::order::Gather as _;
use crate::record::{Answer, Carcass, Examination, PersonCode, Question, Site, Standing, Value};
use crate::science::diet::plants;
use crate::science::diet::points::Tally;

/// How a sample was measured.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum RumenMeasure {
    /// Points under pins.
    Points,
    /// Millilitres.
    Millilitres,
    /// Percent as judged.
    Percent,
}

impl RumenMeasure {
    const fn finding(self) -> &'static str {
        match self {
            Self::Points => "rumen_points",
            Self::Millilitres => "rumen_plant_ml",
            Self::Percent => "rumen_plant_percent",
        }
    }

    const fn done(self) -> &'static str {
        match self {
            Self::Points => "rumen_point_count",
            Self::Millilitres | Self::Percent => "rumen_sorting",
        }
    }
}

/// One count or sorting.
#[derive(Clone, Debug)]
pub struct RumenSample<'a> {
    /// The occasion.
    pub examination: Uuid,
    /// Whose, where two people measured on one occasion and differ.
    pub by: Option<PersonCode>,
    /// How.
    pub measure: RumenMeasure,
    /// Amounts by the plant's code: points, millilitres or percent.
    pub amounts: BTreeMap<String, f64>,
    /// Somebody said that it is all.
    pub ended: bool,
    /// Rows left out: they cannot be read, or one person gave two different answers.
    pub left_out: u32,
    pub(super) used: Used<'a>,
}

/// Every count and sorting of a carcass, in order of the occasions.
pub fn rumen_samples(carcass: &Carcass) -> Vec<RumenSample<'_>> {
    let ways = [RumenMeasure::Points, RumenMeasure::Millilitres, RumenMeasure::Percent];
    let of = |e| ways.into_iter().flat_map(move |measure| samples(carcass, e, measure));
    carcass.examinations.values().flat_map(of).collect()
}

fn samples<'a>(carcass: &'a Carcass, exam: &'a Examination, measure: RumenMeasure) -> Vec<RumenSample<'a>> {
    let rows: Vec<(Site, Question<'a>)> = exam
        .sheet
        .answers()
        .filter(|(code, site, _)| code.as_str() == measure.finding() && site.item.is_some())
        .map(|(code, site, _)| {
            let whole = carcass.question(code.as_str(), site);
            let decided = whole.standing.iter().any(|s| s.subject.is_none());
            (site, if decided { whole } else { exam.sheet.question(code.as_str(), site) })
        })
        .collect();
    let seen = |q: &Question| q.standing.iter().any(|s| s.answer.value().is_some());
    if !rows.iter().any(|(_, question)| seen(question)) {
        return Vec::new();
    }
    // Different answers of two people on one row are two counts of one rumen, not one.
    let split = rows.iter().any(|(_, question)| observers(question).len() > 1 && question.is_split());
    let people: Vec<Option<PersonCode>> = if split {
        let all: BTreeSet<PersonCode> = rows.iter().flat_map(|(_, question)| observers(question)).gather();
        all.into_iter().map(Some).collect()
    } else {
        vec![None]
    };
    people.into_iter().map(|by| sample(exam, measure, &rows, by)).collect()
}

fn observers(question: &Question) -> BTreeSet<PersonCode> {
    question.standing.iter().filter(|s| s.answer.is_informative()).map(|s| s.observer.clone()).gather()
}

fn sample<'a>(
    exam: &Examination,
    measure: RumenMeasure,
    rows: &[(Site, Question<'a>)],
    by: Option<PersonCode>,
) -> RumenSample<'a> {
    let ended = exam.sheet.is_seen(measure.done());
    let mut sample = RumenSample {
        examination: exam.id,
        measure,
        amounts: BTreeMap::new(),
        ended,
        left_out: 0,
        used: Used::new(),
        by,
    };
    for (site, question) in rows {
        let mine = |s: &&&'a Standing| sample.by.as_ref().is_none_or(|by| s.observer == *by);
        let standing: Vec<&'a Standing> = question.standing.iter().filter(mine).copied().collect();
        let values: BTreeSet<&Value> = standing.iter().filter_map(|s| s.answer.value()).gather();
        sample.used.extend(standing.iter().map(|s| (s.id, &s.answer)));
        let taken = match values.len() {
            0 => continue,
            1 => values.first().is_some_and(|value| add(&mut sample.amounts, measure, *site, value)),
            _ => false,
        };
        if !taken {
            sample.left_out += 1;
        }
    }
    sample
}

/// Adds one row; false where it cannot be read.
fn add(amounts: &mut BTreeMap<String, f64>, measure: RumenMeasure, site: Site, value: &Value) -> bool {
    match (measure, value) {
        (RumenMeasure::Points, Value::Text(text)) => {
            let mut row = Tally::default();
            let read = row.add(text).is_ok();
            for (code, n) in row.points {
                *amounts.entry(code).or_default() += f64::from(n);
            }
            read
        }
        (RumenMeasure::Millilitres | RumenMeasure::Percent, Value::Number(amount)) => {
            let number = site.item.unwrap_or(0);
            let code =
                plants::of_number(number).map_or_else(|| format!("plant_{number}"), |plant| plant.code.to_owned());
            *amounts.entry(code).or_default() += *amount as f64;
            true
        }
        _ => false,
    }
}

/// Names given to plants of one's own: code (`own_1` to `own_3`) and name, as typed. The code is a slot of
/// this one record: the same code in another record is another plant.
pub fn own_names(carcass: &Carcass) -> BTreeMap<String, String> {
    (1..=3)
        .filter_map(|n| match carcass.question("rumen_own_plant", Site::item(n)).results().first() {
            Some(Answer::Seen { value: Value::Text(name) }) => Some((format!("own_{n}"), name.clone())),
            _ => None,
        })
        .gather()
}
