//! Age from the findings at the jaw.

use super::jaw::{self, Notes};
use super::lens::{Answers, Lens, Picks, Used, digest_of, ids_of};
use super::local::Local;
use super::local_calipers::OwnCalipers;
use super::local_ids;
use super::message_ids as id;
use super::scope;
use super::sex::SexFound;
use super::shape::{Basis, Estimate, Outcome, Reading, Share, Sharpen, Statement, Val, Variant};
use super::still_open;
use super::window::{self, Window};
use crate::record::{Answer, Bone, Carcass, Digest, Side, Site, Tooth, Value};
use crate::science::age::birth::nominal_months;
use crate::science::age::{
    AgeEstimate, AgeOutcome, AgeRefusal, Gain, Item, KeyReading, KeyRefusal, MonthsInterval, Sex, estimate, summary,
};
use crate::science::calipers::CaliperAge;
use crate::science::calipers::dentine_width::DentineAge;

/// Probability covered by the months interval.
const MONTHS_COVERAGE: f64 = 0.9;

/// The reading, and the probability of a fawn for the methods that need it.
pub(super) struct AgeRead {
    pub(super) reading: Reading,
    /// `None` where there is no estimate, or only a look from afar.
    pub(super) p_fawn: Option<f64>,
    /// Probability of a buck, where a sign of sex was joined with the age.
    pub(super) p_male: Option<f64>,
    /// Mean age, years.
    pub(super) years: Option<f64>,
    /// Probability of 0, 1, ... 8, 9-and-more birthdays; absent where only a look from afar speaks.
    pub(super) classes: Option<[f64; 10]>,
}

/// The age as a cause of death takes it in: never from a starting point that the office chose.
pub(super) fn read_for_cause(carcass: &Carcass, answers: &Answers, local: &Local) -> AgeRead {
    read(carcass, answers, &local.for_cause().unwrap_or(*local))
}

/// How well each class and sex fits what was seen, without the prior: for a season, where the prior enters once.
/// Where answers differ every way counts the same. `None` unless every way has an estimate.
pub(super) fn likelihood(carcass: &Carcass, answers: &Answers, local: &Local) -> Option<[[f64; 2]; 10]> {
    let ways = Lens::new(answers, Picks::new()).ways(&jaw::asks()).0;
    let run = |picks: Picks| run(carcass, &Lens::new(answers, picks.clone()), picks, local);
    let runs: Vec<Way> = ways.into_iter().map(run).collect();
    let all = estimates(&runs);
    if all.is_empty() || all.len() != runs.len() {
        return None;
    }
    let mut sum = [[0.0; 2]; 10];
    for estimate in all {
        let [female, male] = [Sex::Female, Sex::Male].map(|sex| estimate.settings.prior.shares(sex));
        let mut rows = [[0.0; 2]; 10];
        for ((slot, joint), (f, m)) in rows.iter_mut().zip(estimate.joint).zip(female.into_iter().zip(male)) {
            let [as_female, as_male] = joint;
            let over = |p: f64, prior: f64| if prior > 0.0 { p / prior } else { 0.0 };
            *slot = [over(as_female, f), over(as_male, m)];
        }
        let whole: f64 = rows.iter().flatten().sum();
        for (slot, row) in sum.iter_mut().flatten().zip(rows.iter().flatten()) {
            *slot += row / whole;
        }
    }
    sum.iter().flatten().all(|l| l.is_finite()).then_some(sum)
}

/// One way of settling answers that differ.
struct Way {
    picks: Picks,
    outcome: Result<AgeOutcome, AgeRefusal>,
    notes: Notes,
    window: Option<Window>,
    calipers: OwnCalipers,
    known: Vec<Statement>,
}

pub(super) fn read(carcass: &Carcass, answers: &Answers, local: &Local) -> AgeRead {
    let first = Lens::new(answers, Picks::new());
    let (ways, whole) = first.ways(&jaw::asks());
    let mut used = Used::new();
    let runs: Vec<Way> = ways
        .into_iter()
        .map(|picks| {
            let lens = Lens::new(answers, picks.clone());
            let way = run(carcass, &lens, picks, local);
            used.extend(lens.into_used());
            way
        })
        .collect();
    let known = all_told(&runs);
    let mean = |of: fn(&AgeEstimate) -> f64| {
        known.as_ref().map(|all| all.iter().map(|e| of(e)).sum::<f64>() / all.len() as f64)
    };
    let p_fawn = mean(|e| e.broad.fawn);
    let signs = known.as_ref().is_some_and(|all| all.iter().all(|e| e.basis.sex_line));
    let p_male = mean(|e| e.joint.iter().map(|[_, male]| male).sum()).filter(|_| signs);
    let past_birthday = runs.iter().find_map(|way| way.window.as_ref()).map(|w| nominal_months(0, w.days.to) / 12.0);
    let years = mean(|e| e.mean_birthdays).zip(past_birthday).map(|(birthdays, part)| birthdays + part);
    let mut reading = put_together(&runs, local);
    let mut teeth = Used::new();
    still_open::of_teeth(carcass, &mut reading.sharpen, &mut teeth);
    if reading.outcome == Outcome::Read {
        used.extend(teeth);
    }
    reading.rests_on = ids_of(&used);
    reading.entries_digest = digest_of(&used);
    if runs.len() > 1 {
        let count = i64::try_from(runs.len()).unwrap_or(i64::MAX);
        reading.cautions.insert(0, Statement::plain(id::SPLIT).with("count", Val::Count(count)));
        if !whole {
            reading.cautions.insert(1, Statement::plain(id::SPLIT_CUT));
        }
        reading.variants = runs.iter().map(|way| variant(&first, way)).collect();
    }
    let classes = known.as_ref().map(|all| mean_classes(all));
    AgeRead { reading, p_fawn, p_male, years, classes }
}

fn run(carcass: &Carcass, lens: &Lens, picks: Picks, local: &Local) -> Way {
    let window = window::window(carcass, lens);
    let sex = SexFound::of(lens);
    let days = window.as_ref().map(|w| w.days);
    let calipers = local.calipers(lens);
    let (mut evidence, notes) = jaw::evidence(lens, days, &sex, latitude_deg(lens));
    evidence.more.local_age = calipers.for_age();
    evidence.more.size_z = local.size_z(lens, sex.for_age());
    let known = known(lens);
    Way { picks, outcome: estimate(&evidence, &local.settings()), notes, window, calipers, known }
}

/// What is known of the age from elsewhere. It does not touch the estimate: teeth are read without it, so
/// that readers can be held against it.
fn known(lens: &Lens) -> Vec<Statement> {
    let mut said = Vec::new();
    if let Some(years) = lens.number("known_age_years_count", Site::NONE) {
        let how = lens.choice("known_age_how", Site::NONE).map_or("other_record".to_owned(), str::to_owned);
        let how = Val::message(&format!("option.known_age_how.{how}"));
        said.push(Statement::plain(local_ids::AGE_KNOWN).with("years", Val::Count(years)).with("how", how));
    }
    if let Some(Answer::Seen { value: Value::Text(lab) }) = lens.result("cementum_lab", Site::NONE)
        && let Some(tooth) = lens.choice("cementum_tooth", Site::NONE)
    {
        let tooth = Val::message(&format!("option.cementum_tooth.{tooth}"));
        said.push(Statement::plain(local_ids::AGE_RINGS_FROM).with("lab", Val::Text(lab.clone())).with("tooth", tooth));
    }
    said
}

pub(super) fn latitude_deg(lens: &Lens) -> Option<f64> {
    match lens.result("place", Site::NONE)? {
        Answer::Seen { value: Value::Place(place) } => Some(place.lat_e7 as f64 / 1e7),
        _ => None,
    }
}

fn estimates(runs: &[Way]) -> Vec<&AgeEstimate> {
    runs.iter()
        .filter_map(|way| match &way.outcome {
            Ok(AgeOutcome::Estimate(estimate)) => Some(&**estimate),
            _ => None,
        })
        .collect()
}

/// The estimates, where every way has one and none is a look from afar.
fn all_told(runs: &[Way]) -> Option<Vec<&AgeEstimate>> {
    let all = estimates(runs);
    let every = !all.is_empty() && all.len() == runs.len() && !all.iter().any(|e| quick_only(e));
    every.then_some(all)
}

/// Whether only a look from afar speaks: next to nothing, so no class beyond fawn or older is named.
fn quick_only(estimate: &AgeEstimate) -> bool {
    estimate.basis.only_quick()
}

/// All but what it rests on.
fn put_together(runs: &[Way], local: &Local) -> Reading {
    let all = estimates(runs);
    let mut reading = Reading {
        method: "age.lower_jaw".to_owned(),
        title: title(&all).to_owned(),
        outcome: Outcome::Read,
        estimates: Vec::new(),
        statements: Vec::new(),
        cautions: Vec::new(),
        sharpen: Vec::new(),
        variants: Vec::new(),
        rests_on: Vec::new(),
        entries_digest: Digest::of(&[]),
        sources: Vec::new(),
    };
    reading.cautions.extend(local.caution());
    let Some(first) = all.first() else {
        without_estimate(runs, &mut reading);
        reading.statements.extend(of_ways(runs, |way| way.known.clone()));
        return reading;
    };
    let classes = mean_classes(&all);
    let from_afar = all.iter().all(|e| quick_only(e));
    reading.estimates =
        if from_afar { vec![fawn_or_older(&classes)] } else { figures(&classes, months(&all, &classes)) };
    reading.statements = statements(&all, &classes, runs);
    let (own, own_basis) = local.behind_age(all.iter().any(|e| e.basis.class_call));
    reading.statements.extend(of_ways(runs, |way| way.calipers.statements()));
    reading.statements.extend(own);
    reading.statements.extend(of_ways(runs, |way| way.known.clone()));
    reading.cautions.splice(0..0, cautions(&all, runs));
    reading.sharpen = first.sharpen.iter().filter(|g| g.bits > 0.0).map(sharpen).collect();
    reading.sources = first.sources.iter().map(|s| Basis::from(*s)).collect();
    let window_basis = Basis::from(&window::SOURCE);
    let assumed = runs.iter().filter_map(|way| way.window.as_ref()).any(|window| !window.known);
    let of_calipers = runs.iter().flat_map(|way| way.calipers.basis()).cloned();
    let sized = if all.iter().any(|e| e.basis.size) { local.norms_basis() } else { Vec::new() };
    let further = all.iter().flat_map(|e| &e.sources).map(|s| Basis::from(*s));
    let further = further.chain(assumed.then_some(window_basis)).chain(own_basis).chain(of_calipers).chain(sized);
    for source in further {
        if !reading.sources.contains(&source) {
            reading.sources.push(source);
        }
    }
    reading
}

/// Statements of all ways, each once.
fn of_ways(runs: &[Way], of: impl Fn(&Way) -> Vec<Statement>) -> Vec<Statement> {
    let mut list: Vec<Statement> = Vec::new();
    for said in runs.iter().flat_map(of) {
        if !list.contains(&said) {
            list.push(said);
        }
    }
    list
}

fn title(all: &[&AgeEstimate]) -> &'static str {
    let more = all
        .iter()
        .any(|e| e.basis.cementum || e.basis.growth_plate || e.basis.antler_beam || e.basis.size || e.basis.local_age);
    if more { id::AGE_TITLE_MORE } else { id::AGE_TITLE }
}

/// Nothing seen, or refused: the first way decides how it is said.
fn without_estimate(runs: &[Way], reading: &mut Reading) {
    match runs.first().map(|way| &way.outcome) {
        Some(Err(refusal)) => {
            reading.outcome = Outcome::Refused;
            reading.statements = vec![Statement::plain(id::age_refusal(*refusal))];
            if *refusal == AgeRefusal::SpeciesUnknown {
                reading.sharpen = vec![scope::look_at_species()];
            }
        }
        Some(Ok(AgeOutcome::NoEvidence { sharpen: open })) => {
            reading.outcome = Outcome::NoEvidence;
            reading.statements = vec![Statement::plain(id::AGE_NO_EVIDENCE)];
            reading.sharpen = open.iter().filter(|g| g.bits > 0.0).map(sharpen).collect();
        }
        _ => {}
    }
}

fn mean_classes(all: &[&AgeEstimate]) -> [f64; 10] {
    let mut classes = [0.0; 10];
    for estimate in all {
        for (slot, p) in classes.iter_mut().zip(estimate.classes) {
            *slot += p / all.len() as f64;
        }
    }
    classes
}

/// The widest months over the ways whose best class is the best of all.
fn months(all: &[&AgeEstimate], classes: &[f64; 10]) -> Option<MonthsInterval> {
    let (best, _) = summary::best(classes);
    let of_best = all.iter().filter(|e| e.best_class == best).filter_map(|e| e.months);
    of_best.reduce(|a, b| MonthsInterval { low: a.low.min(b.low), middle: a.middle, high: a.high.max(b.high) })
}

fn figures(classes: &[f64; 10], months: Option<MonthsInterval>) -> Vec<Estimate> {
    let (best, _) = summary::best(classes);
    let set = summary::likely_set(classes);
    let shares = (0_u8..).zip(classes).map(|(c, p)| Share { of: id::class(c).to_owned(), probability: *p });
    let mut all = vec![Estimate {
        unit: id::UNIT_BIRTHDAYS.to_owned(),
        best: Some(f64::from(best)),
        low: set.classes.first().map(|c| f64::from(*c)),
        high: set.classes.last().map(|c| f64::from(*c)),
        coverage: Some(set.probability),
        shares: shares.collect(),
    }];
    all.extend(months.map(|m| Estimate {
        unit: id::UNIT_MONTHS.to_owned(),
        best: Some(m.middle),
        low: Some(m.low),
        high: Some(m.high),
        coverage: Some(MONTHS_COVERAGE),
        shares: Vec::new(),
    }));
    all
}

fn headline(classes: &[f64; 10]) -> Statement {
    let (best, p) = summary::best(classes);
    let class = Val::message(id::class(best));
    if best < 9 && p >= summary::SINGLE_YEAR_FROM {
        return Statement::plain(id::AGE_SINGLE).with("class", class).with("percent", Val::percent(p));
    }
    let set = summary::likely_set(classes);
    let names = set.classes.iter().map(|c| Val::message(id::class(*c))).collect();
    Statement::plain(id::AGE_SET)
        .with("classes", Val::List(names))
        .with("class", class)
        .with("percent", Val::percent(set.probability))
}

fn quick(classes: &[f64; 10]) -> Statement {
    let fawn = summary::broad(classes).fawn;
    Statement::plain(id::AGE_QUICK).with("fawn", Val::percent(fawn)).with("older", Val::percent(1.0 - fawn))
}

fn fawn_or_older(classes: &[f64; 10]) -> Estimate {
    let fawn = summary::broad(classes).fawn;
    let shares = [(id::class(0), fawn), (id::AGE_OLDER, 1.0 - fawn)];
    Estimate {
        unit: id::UNIT_BIRTHDAYS.to_owned(),
        best: None,
        low: None,
        high: None,
        coverage: None,
        shares: shares.map(|(of, probability)| Share { of: of.to_owned(), probability }).to_vec(),
    }
}

fn statements(all: &[&AgeEstimate], classes: &[f64; 10], runs: &[Way]) -> Vec<Statement> {
    if all.iter().all(|e| quick_only(e)) {
        let mut list = vec![quick(classes), Statement::plain(id::AGE_WIDE)];
        list.extend(further(all, runs).into_iter().filter(|s| s.id != id::AGE_WIDE));
        return list;
    }
    let broad = summary::broad(classes);
    let mut list = vec![
        headline(classes),
        Statement::plain(id::AGE_BROAD)
            .with("fawn", Val::percent(broad.fawn))
            .with("yearling", Val::percent(broad.yearling))
            .with("two", Val::percent(broad.two))
            .with("three_to_five", Val::percent(broad.three_to_five))
            .with("six_and_over", Val::percent(broad.six_and_over)),
    ];
    let (best, _) = summary::best(classes);
    list.extend(months(all, classes).map(|m| {
        Statement::plain(id::AGE_MONTHS)
            .with("class", Val::message(id::class(best)))
            .with("low", Val::number(m.low, 1))
            .with("middle", Val::number(m.middle, 1))
            .with("high", Val::number(m.high, 1))
    }));
    list.extend(further(all, runs));
    list
}

/// What is said after the figures, each once.
fn further(all: &[&AgeEstimate], runs: &[Way]) -> Vec<Statement> {
    let mut list: Vec<Statement> = Vec::new();
    let mut add = |statement: Statement| {
        if !list.contains(&statement) {
            list.push(statement);
        }
    };
    for estimate in all {
        add(key(&estimate.key));
        let [left, right] = estimate.pivots;
        let differ = left.is_some() && right.is_some() && left != right;
        for (birthdays, of_side) in [(left, id::AGE_PIVOT_LEFT), (right, id::AGE_PIVOT_RIGHT)] {
            let said = if differ { of_side } else { id::AGE_PIVOT };
            if let Some(birthdays) = birthdays {
                add(Statement::plain(said).with("class", Val::message(id::class(birthdays))));
            }
        }
        if let Some([left, right]) = estimate.sides_apart {
            let class = |birthdays| Val::message(id::class(birthdays));
            add(Statement::plain(id::AGE_SIDES).with("left", class(left)).with("right", class(right)));
        }
        for statement in beside_the_teeth(estimate) {
            add(statement);
        }
        for found in &estimate.contradictions {
            let teeth = found.teeth.iter().map(|t| Val::message(id::tooth(*t))).collect();
            add(Statement::plain(id::contradiction(found.kind)).with("teeth", Val::List(teeth)));
        }
        if estimate.wide {
            add(Statement::plain(id::AGE_WIDE));
        }
        if estimate.basis.class_call {
            let reader = Val::message(id::reader(&estimate.settings.reader));
            add(Statement::plain(id::AGE_READER).with("reader", reader));
        }
        add(Statement::plain(id::AGE_SETTINGS)
            .with("prior", Val::message(id::prior(estimate.settings.prior)))
            .with("late", Val::percent(estimate.settings.late_share)));
    }
    if let Some(Window { days, .. }) = runs.iter().find_map(|way| way.window.as_ref()) {
        add(Statement::plain(id::AGE_WINDOW)
            .with("from", Val::Text(days.from.to_string()))
            .with("to", Val::Text(days.to.to_string())));
    }
    list
}

/// What rings and calipers say, and how far rings lie from the rest.
fn beside_the_teeth(estimate: &AgeEstimate) -> Vec<Statement> {
    let mut list = Vec::new();
    if let Some(lab) = estimate.lab {
        let apart = lab.others_less_lab;
        let said = if apart <= 0.0 { id::AGE_RINGS_OLDER } else { id::AGE_RINGS_YOUNGER };
        list.push(
            Statement::plain(said)
                .with("class", Val::message(id::class(lab.lab.years.min(9))))
                .with("years", Val::number(apart.abs(), 1))
                .with("mean", Val::number(lab.others_mean, 1))
                .with("percent", Val::percent(lab.others_give_it)),
        );
    } else if estimate.basis.cementum {
        list.push(Statement::plain(id::AGE_RINGS_ALONE));
    }
    match estimate.measures.tooth_row {
        Some(Ok(row)) => list.push(ends(id::AGE_TOOTH_ROW, row.months())),
        Some(Err(why)) => {
            list.push(Statement::plain(id::AGE_TOOTH_ROW_NOT).with("why", Val::message(id::caliper_refusal(why))));
        }
        None => {}
    }
    match estimate.measures.dentine_width {
        Some(Ok(DentineAge::Years(age))) => list.push(ends(id::AGE_DENTINE_WIDTH, age)),
        Some(Ok(DentineAge::TwoAndAHalfOrLess)) => list.push(Statement::plain(id::AGE_DENTINE_WIDTH_LEAST)),
        Some(Err(why)) => {
            list.push(Statement::plain(id::AGE_DENTINE_WIDTH_NOT).with("why", Val::message(id::caliper_refusal(why))));
        }
        None => {}
    }
    list
}

fn ends(id: &str, age: CaliperAge) -> Statement {
    Statement::plain(id)
        .with("best", Val::number(age.best, 1))
        .with("low", Val::number(age.low, 1))
        .with("high", Val::number(age.high, 1))
}

fn key(key: &Result<KeyReading, KeyRefusal>) -> Statement {
    match key {
        Ok(reading) => Statement::plain(id::AGE_KEY).with("class", Val::message(id::key_class(reading.class))),
        Err(why) => Statement::plain(id::AGE_KEY_SILENT).with("why", Val::message(id::key_refusal(*why))),
    }
}

fn cautions(all: &[&AgeEstimate], runs: &[Way]) -> Vec<Statement> {
    let mut ids: Vec<&'static str> = Vec::new();
    let by_science = all.iter().flat_map(|e| &e.cautions).map(|c| id::age_caution(*c));
    let by_mapping = runs.iter().flat_map(|way| {
        let by_clock = way.window.as_ref().is_some_and(|w| w.by_clock);
        [
            (way.notes.third_tooth_differs, id::AGE_THIRD_TOOTH_DIFFERS),
            (way.notes.milk_molar, id::AGE_MILK_MOLAR),
            (way.notes.too_many_rings, id::AGE_TOO_MANY_RINGS),
            (by_clock, id::AGE_FOUND_BY_CLOCK),
            (way.window.as_ref().is_some_and(|w| !w.known), id::AGE_WINDOW_ASSUMED),
        ]
        .into_iter()
        .filter_map(|(applies, id)| applies.then_some(id))
    });
    for caution in by_science.chain(by_mapping) {
        if !ids.contains(&caution) {
            ids.push(caution);
        }
    }
    ids.into_iter().map(Statement::plain).collect()
}

fn variant(lens: &Lens, way: &Way) -> Variant {
    let (headline, estimates) = match &way.outcome {
        Ok(AgeOutcome::Estimate(e)) if quick_only(e) => (quick(&e.classes), vec![fawn_or_older(&e.classes)]),
        Ok(AgeOutcome::Estimate(e)) => (headline(&e.classes), figures(&e.classes, e.months)),
        Ok(AgeOutcome::NoEvidence { .. }) => (Statement::plain(id::AGE_NO_EVIDENCE), Vec::new()),
        Err(refusal) => (Statement::plain(id::age_refusal(*refusal)), Vec::new()),
    };
    Variant { taken: lens.taken(&way.picks), headline, estimates }
}

/// An open look as a question of the record; the left side stands for either.
fn sharpen(gain: &Gain) -> Sharpen {
    let (finding, site) = question_of(gain.item);
    Sharpen {
        look: Statement::plain(id::look(gain.item)),
        finding: finding.to_owned(),
        site,
        gain_bits: Some(gain.bits),
    }
}

fn question_of(item: Item) -> (&'static str, Site) {
    let at = |tooth| Site::tooth(Side::Left, tooth);
    let left = Site::side(Side::Left);
    match item {
        Item::CheekTeeth => ("cheek_teeth_count", left),
        Item::P4State => ("third_tooth", left),
        Item::M1State => ("tooth_state", at(Tooth::M1)),
        Item::M2State => ("tooth_state", at(Tooth::M2)),
        Item::M3State => ("tooth_state", at(Tooth::M3)),
        Item::I1State | Item::OtherFront => ("front_teeth", Site::NONE),
        Item::P4Dentine => ("dentine", at(Tooth::P4)),
        Item::M1Dentine => ("dentine", at(Tooth::M1)),
        Item::M2Dentine => ("dentine", at(Tooth::M2)),
        Item::M3Dentine => ("dentine", at(Tooth::M3)),
        Item::M1Crest => ("crest", at(Tooth::M1)),
        Item::M2Crest => ("crest", at(Tooth::M2)),
        Item::M3Crest => ("crest", at(Tooth::M3)),
        Item::M3Posterior => ("third_molar_back_cusp", left),
        Item::M1Infundibulum => ("infundibulum", at(Tooth::M1)),
        Item::M2Infundibulum => ("infundibulum", at(Tooth::M2)),
        Item::M3Infundibulum => ("infundibulum", at(Tooth::M3)),
        Item::PremolarWear => ("premolar_wear", left),
        Item::CannonPlate => ("growth_plate", Site::bone(Bone::Metatarsus)),
    }
}
