//! Cause of death, weighed. Shown on a phone only once the examination is closed; the office always sees it.

use std::sync::Arc;

use super::age::AgeRead;
use super::cause_ids::{self as id, caution};
use super::cause_start::{Start, held_card, start};
use super::evidence::{InForce, in_force};
use super::kill_record::{Records, records};
use super::lens::{Answers as Gathered, Lens, Picks, Used, digest_of, ids_of};
use super::marrow;
use super::observations::{FINDINGS_OF, Observed, findings, observe};
use super::scope::Scope;
use super::sex::SexFound;
use super::shape::{Basis, Estimate, Outcome, Reading, Share, Sharpen, Statement, Val, Variant};
use super::{Given, window};
use crate::order::Short as _;
use crate::record::{Bone, Carcass, Digest, Site};
use crate::science::age::Sex;
use crate::science::cause::{
    Animals, Answers, Case, Cause, Drawn, Ends, Facts, Grade, LEAST_GAIN_BITS, Label, PerCause, Table, ends, fit,
    gains, label, posterior, printed, pulls_for, ranked, row, sources,
};
use crate::science::marrow::MarrowClass;

/// Probability from which an age class is taken as known. Ours.
const AGE_KNOWN: f64 = 0.8;
/// Age from which a buck's head is looked at for abscess, years.
const BUCK_YEARS: f64 = 2.5;
/// Coverage of the ends.
const COVERAGE: f64 = 0.9;
/// Pulls below this are not told: under a tenth of odds.
const LEAST_PULL: f64 = 0.1;
/// Causes that are ranked, and looks that are offered.
const TOLD: usize = 3;
const OFFERED: usize = 5;
/// A death so soon after catching may be of it: of 652 does caught, 16 died of it within 14 days, the last by
/// then (DelGiudice et al. 2005).
const CAUGHT_DAYS: i64 = 14;

/// All that goes into the reading.
pub(super) struct Weighed<'a> {
    table: InForce,
    start: Start,
    /// What all ways of settling differing answers agree on.
    case: Case,
    /// Each way, where they differ.
    ways: Vec<(Picks, Case)>,
    observed: Observed,
    records: Records<'a>,
    used: Used<'a>,
    age_used: Option<(Vec<crate::record::EntryId>, Digest)>,
}

/// Work on the drawn table that a phone does between taps before it shows the reading.
#[derive(Debug)]
pub struct CauseWork {
    drawn: Arc<Drawn>,
    cases: Vec<Case>,
}

impl CauseWork {
    /// Does a small part; `true` where nothing is left to do.
    pub fn step(&self) -> bool {
        self.cases.iter().all(|case| self.drawn.prepare_a_part(case))
    }
}

/// Reads what was seen.
pub(super) fn weigh<'a>(
    carcass: &'a Carcass,
    gathered: &Gathered<'a>,
    age: Option<&AgeRead>,
    given: &Given,
) -> Weighed<'a> {
    let card = held_card(given, carcass);
    let table = in_force(card);
    let first = Lens::new(gathered, Picks::new());
    let days = window::window(carcass, &first).map(|w| w.days);
    let start = start(card.map(|given| given.card), table.drawn.table(), days);
    let (splits, _) = first.ways(&first.asked(&findings()));
    let marrow = marrow_state(carcass);
    let age_state = age.and_then(age_state);
    let sex = SexFound::of(&first).for_age();
    let mut used = first.into_used();
    let buck = sex == Some(Sex::Male) && age.and_then(|age| age.years).is_some_and(|years| years >= BUCK_YEARS);
    let mut all: Vec<(Picks, Observed)> = splits
        .into_iter()
        .map(|picks| {
            let lens = Lens::new(gathered, picks.clone());
            let observed = observe(&lens);
            used.extend(lens.into_used());
            (picks, observed)
        })
        .collect();
    for (_, observed) in &mut all {
        if let Some((state, _)) = &marrow {
            observed.answers.set(row::MARROW, Some(*state));
        }
        observed.answers.set(row::AGE, age_state);
    }
    used.extend(marrow.into_iter().flat_map(|(_, used)| used));
    let case = |observed: &Observed| Case {
        buck,
        snow_after_death: observed.snow_after_death,
        ..Case::new(start.prior, observed.answers)
    };
    let observed = agreed(&all);
    let differing = all.iter().any(|(_, one)| one.answers != observed.answers);
    let ways = if differing { all.iter().map(|(picks, one)| (picks.clone(), case(one))).collect() } else { Vec::new() };
    let records = records(carcass, observed.answers.get(row::BITE_HAEMORRHAGE) == Some(0));
    let age_used =
        age.filter(|_| age_state.is_some()).map(|age| (age.reading.rests_on.clone(), age.reading.entries_digest));
    Weighed { table, case: case(&observed), start, ways, observed, records, used, age_used }
}

/// What every way says alike: a row on which they differ is left out.
fn agreed(all: &[(Picks, Observed)]) -> Observed {
    let Some((_, first)) = all.first() else { return Observed::default() };
    let mut out = *first;
    for (number, state) in first.answers.each() {
        if all.iter().any(|(_, other)| other.answers.get(number) != Some(state)) {
            out.answers.set(number, None);
        }
    }
    out.snow_after_death = all.iter().any(|(_, one)| one.snow_after_death);
    out.snow_readable = all.iter().all(|(_, one)| one.snow_readable);
    out.cut_by_people = all.iter().any(|(_, one)| one.cut_by_people);
    out
}

/// The state of the femur's marrow where every look at it says one class.
fn marrow_state(carcass: &Carcass) -> Option<(u8, Used<'_>)> {
    let found = marrow::find(carcass);
    let femur = found.looks.iter().filter(|look| look.bone == Some(Bone::Femur));
    let states: Vec<Option<u8>> = femur
        .filter_map(|look| look.result.as_ref().ok())
        .map(|read| match read.class {
            MarrowClass::M3 if !read.doubtful => Some(0),
            MarrowClass::M2 => Some(1),
            MarrowClass::M1 => Some(2),
            _ => None,
        })
        .collect();
    let (first, rest) = states.split_first()?;
    let state = (*first).filter(|_| rest.iter().all(|other| other == first))?;
    Some((state, found.used))
}

/// The age class where it is known well enough: fawn, 1 to 8 years, 9 and more.
fn age_state(age: &AgeRead) -> Option<u8> {
    let [fawn, .., nine] = age.classes?;
    let shares = [fawn, 1.0 - fawn - nine, nine];
    (0_u8..).zip(shares).find(|(_, share)| *share >= AGE_KNOWN).map(|(state, _)| state)
}

impl Weighed<'_> {
    /// The probability of a shooting from what is seen without touching.
    pub(super) fn shot_hands_off(&self) -> f64 {
        self.case.shot_hands_off(self.table.drawn.table())
    }

    /// The case and the table, for what to look at next.
    pub(super) fn case(&self) -> (&Case, &Table) {
        (&self.case, self.table.drawn.table())
    }

    /// The table in force.
    pub(super) const fn in_force(&self) -> &InForce {
        &self.table
    }

    /// The work that makes the reading quick.
    pub(super) fn work(&self) -> CauseWork {
        let cases = std::iter::once(self.case).chain(self.ways.iter().map(|(_, case)| *case)).collect();
        CauseWork { drawn: Arc::clone(&self.table.drawn), cases }
    }
}

struct Figures {
    posterior: PerCause,
    order: [Cause; 12],
    ends: Vec<Ends>,
    label: Label,
}

fn figures(table: &InForce, case: &Case, facts: Facts) -> Figures {
    let posterior = posterior(table.drawn.table(), case);
    let order = ranked(&posterior);
    let told: Vec<Cause> = order.iter().copied().take(TOLD).collect();
    let ends = ends(&table.drawn, case, &told);
    let nothing = Ends { low: 0.0, high: 1.0 };
    let of = |n: usize| ends.get(n).copied().unwrap_or(nothing);
    let label = label(table.drawn.table(), case, &posterior, of(0), of(1), facts);
    Figures { posterior, order, ends, label }
}

fn headline(label: Label) -> Statement {
    let said = Statement::plain(&id::label(label.code()));
    match label.cause() {
        Some(cause) => said.with("cause", Val::Message(id::cause(cause))),
        None => said,
    }
}

/// The reading.
pub(super) fn reading<'a>(gathered: &Gathered<'a>, scope: &Scope<'a>, mut weighed: Weighed<'a>) -> Reading {
    let table = weighed.table.drawn.table();
    let lens = Lens::new(gathered, Picks::new());
    let fed = fed_on(&lens, &weighed.case.answers);
    let handled = handled(&lens);
    weighed.used.extend(lens.into_used());
    weighed.used.extend(weighed.records.used.iter().map(|(id, answer)| (*id, *answer)));
    let facts = Facts {
        snow_readable: weighed.observed.snow_readable,
        witnessed: weighed.records.witnessed,
        named: weighed.records.named,
        cut_by_people: weighed.observed.cut_by_people,
    };
    let signs = !weighed.case.used(table).is_empty() || !weighed.ways.is_empty();
    let nothing = !signs && weighed.records.statements.is_empty();
    let mut out = Reading {
        method: "cause.of_death".to_owned(),
        title: id::TITLE.to_owned(),
        outcome: if nothing { Outcome::NoEvidence } else { Outcome::Read },
        estimates: Vec::new(),
        statements: vec![Statement::plain(id::NO_EVIDENCE)],
        cautions: Vec::new(),
        sharpen: sharpen(table, &weighed.case),
        variants: Vec::new(),
        rests_on: ids_of(&weighed.used),
        entries_digest: digest_of(&weighed.used),
        sources: Vec::new(),
    };
    if !nothing {
        let found = figures(&weighed.table, &weighed.case, facts);
        out.estimates = estimates(&found, weighed.records.on_record);
        out.statements = statements(&weighed, &found, fed);
        out.cautions = cautions(&weighed, &found, handled);
        out.variants = variants(gathered, &weighed, facts);
        out.sources = sources_of(&weighed);
        if found.label.is_final() {
            out.sharpen.clear();
        }
    }
    if let Some((ids, digest)) = &weighed.age_used {
        out.rests_on.extend(ids);
        out.rests_on.order();
        out.rests_on.dedup();
        out.entries_digest = Digest::of(&[out.entries_digest.to_string().as_bytes(), digest.to_string().as_bytes()]);
    }
    scope.guard(weighed.used, out)
}

/// All causes as printed, then the first three with their ends.
fn estimates(found: &Figures, on_record: Animals) -> Vec<Estimate> {
    let all = printed(&found.posterior, on_record);
    let mut shares: Vec<Share> = found
        .order
        .iter()
        .filter(|cause| cause.of(&all.figures) > 0.0)
        .map(|cause| Share { of: id::cause(*cause), probability: cause.of(&all.figures) })
        .collect();
    // What print cuts off keeps the shares whole.
    let cut = 1.0 - shares.iter().map(|share| share.probability).sum::<f64>();
    if cut > 1e-12 {
        shares.push(Share { of: id::SPECIES_UNCERTAIN.to_owned(), probability: cut });
    }
    vec![Estimate {
        unit: id::UNIT.to_owned(),
        best: found.order.first().map(|cause| cause.of(&all.figures)),
        low: found.ends.first().map(|e| cap(found.order.first(), e.low, on_record)),
        high: found.ends.first().map(|e| cap(found.order.first(), e.high, on_record)),
        coverage: Some(COVERAGE),
        shares,
    }]
}

fn cap(cause: Option<&Cause>, figure: f64, on_record: Animals) -> f64 {
    cause.map_or(figure, |cause| crate::science::cause::label::capped(*cause, figure, on_record))
}

fn statements(weighed: &Weighed, found: &Figures, fed: Option<Statement>) -> Vec<Statement> {
    let table = weighed.table.drawn.table();
    let on_record = weighed.records.on_record;
    let all = printed(&found.posterior, on_record);
    let mut said = vec![headline(found.label)];
    let places = (1_i64..).zip(&found.order).zip(&found.ends);
    for ((rank, cause), ends) in places.filter(|((_, cause), _)| cause.of(&found.posterior) > 0.0) {
        said.push(
            Statement::plain(id::RANKED)
                .with("rank", Val::Count(rank))
                .with("cause", Val::Message(id::cause(*cause)))
                .with("figure", Val::InHundred(cause.of(&all.figures)))
                .with("low", Val::InHundred(cap(Some(cause), ends.low, on_record)))
                .with("high", Val::InHundred(cap(Some(cause), ends.high, on_record))),
        );
    }
    said.extend(
        all.species_uncertain.map(|cut| Statement::plain(id::UNCERTAIN_LINE).with("figure", Val::InHundred(cut))),
    );
    let predators: f64 = Cause::ALL.iter().filter(|c| c.is_predator()).map(|c| c.of(&found.posterior)).sum();
    said.push(Statement::plain(id::ANY_PREDATOR).with("figure", Val::InHundred(predators)));
    said.extend(weighed.records.statements.iter().cloned());
    said.extend(fed);
    for cause in found.order.iter().take(TOLD).filter(|cause| cause.of(&found.posterior) > 0.0) {
        let pulls = pulls_for(table, &weighed.case, &found.posterior, *cause);
        for (what, wanted) in [(id::FOR, 1.0), (id::AGAINST, -1.0)] {
            let of_side = pulls.iter().filter(|pull| pull.ln_odds * wanted >= LEAST_PULL);
            let seen: Vec<Val> = of_side.map(|pull| Val::Message(id::seen(pull.number, pull.state))).collect();
            if !seen.is_empty() {
                let about = Statement::plain(what).with("cause", Val::Message(id::cause(*cause)));
                said.push(about.with("seen", Val::List(seen)));
            }
        }
    }
    said.extend(contributing(weighed, found));
    said.push(weighed.start.statement());
    said.push(
        Statement::plain(id::TABLE)
            .with("name", Val::Text(weighed.table.name.clone()))
            .with("digest", Val::Text(weighed.table.digest.to_string())),
    );
    said
}

/// Predators finish weak deer: a low reserve is told beside a kill.
fn contributing(weighed: &Weighed, found: &Figures) -> Option<Statement> {
    let killed = found.label.cause().is_some_and(Cause::is_predator);
    let low = [row::MARROW, row::BODY_FAT].into_iter().filter(|n| weighed.case.answers.get(*n) == Some(0));
    let seen: Vec<Val> = low.map(|number| Val::Message(id::seen(number, 0))).collect();
    (killed && !seen.is_empty()).then(|| Statement::plain(id::CONTRIBUTING).with("seen", Val::List(seen)))
}

/// Who ate, as tracks, droppings and birds say: apart from who killed.
fn fed_on(lens: &Lens, answers: &Answers) -> Option<Statement> {
    if !crate::science::cause::label::was_fed_on(answers) {
        return None;
    }
    let mut by: Vec<Val> = Vec::new();
    let mut add = |code: &str| {
        if let Some(name) = id::feeder(code).map(Val::Message)
            && !by.contains(&name)
        {
            by.push(name);
        }
    };
    for finding in ["tracks_by", "droppings_by"] {
        lens.choices(finding, Site::NONE).into_iter().flatten().for_each(&mut add);
    }
    if lens.choices("bird_signs", Site::NONE).is_some_and(|signs| !signs.is_empty()) {
        add("birds");
    }
    Some(if by.is_empty() {
        Statement::plain(id::FED_ON_UNKNOWN)
    } else {
        Statement::plain(id::FED_ON).with("by", Val::List(by))
    })
}

/// What a tagged deer's catching asks to be said.
fn handled(lens: &Lens) -> Option<Statement> {
    // Where answers differ the shortest time stands.
    match lens.numbers("days_since_handling_count", Site::NONE).into_iter().min() {
        Some(days) if days < CAUGHT_DAYS => Some(Statement::plain(caution::CAUGHT).with("n", Val::Count(days))),
        Some(_) => None,
        None => (lens.choice("study_tag_or_collar", Site::NONE) == Some("there"))
            .then(|| Statement::plain(caution::HANDLED)),
    }
}

fn cautions(weighed: &Weighed, found: &Figures, handled: Option<Statement>) -> Vec<Statement> {
    let table = weighed.table.drawn.table();
    let used = weighed.case.used(table);
    let cells = used.iter().filter_map(|(row, state)| row.states.get(usize::from(*state))).flatten();
    let (expert, all) =
        cells.fold((0, 0), |(expert, all), cell| (expert + i64::from(cell.grade == Grade::Expert), all + 1));
    let mut said = vec![
        Statement::plain(caution::EXPERT).with("expert", Val::Count(expert)).with("all", Val::Count(all)),
        Statement::plain(caution::DETECTION),
    ];
    let named = found.label.cause();
    said.extend(weighed.records.cautions.iter().cloned());
    said.extend(handled);
    let first_alone = found.order.first().is_none_or(|first| !weighed.records.named.contradict(*first));
    let record_differs = !first_alone && !weighed.records.named.differ();
    for (id, holds) in [
        (caution::PEOPLE, matches!(found.label, Label::People | Label::PeopleLikely)),
        (caution::NO_FIT, fit(table, &weighed.case).is_poor()),
        (caution::SPLIT, !weighed.ways.is_empty()),
        (caution::NO_AREA, !weighed.start.area_chosen),
        (caution::WOLF_NOT_IN_AREA, weighed.start.wolf_missing),
        (caution::FEEDING, matches!(found.label, Label::PossiblyKilled(_))),
        (caution::FEW_PAIRS, weighed.observed.few_pairs && weighed.case.answers.get(row::CANINES).is_some()),
        (caution::SNOW_LATER, weighed.case.snow_after_death && weighed.case.answers.get(row::TRACKS).is_some()),
        (caution::RECORD_DIFFERS, record_differs),
        (caution::DISEASE_BY_EYE, named == Some(Cause::Disease)),
    ] {
        if holds {
            said.push(Statement::plain(id));
        }
    }
    said
}

fn variants(gathered: &Gathered, weighed: &Weighed, facts: Facts) -> Vec<Variant> {
    let lens = Lens::new(gathered, Picks::new());
    weighed
        .ways
        .iter()
        .map(|(picks, case)| {
            let found = figures(&weighed.table, case, facts);
            Variant {
                taken: lens.taken(picks),
                headline: headline(found.label),
                estimates: estimates(&found, weighed.records.on_record),
            }
        })
        .collect()
}

/// What would narrow it most, whatever the time it takes.
fn sharpen(table: &Table, case: &Case) -> Vec<Sharpen> {
    let offered = |number: u8| case.counts(number) || number == row::MARROW;
    gains(table, case)
        .into_iter()
        .filter(|gain| gain.bits >= LEAST_GAIN_BITS && offered(gain.number))
        .take(OFFERED)
        .filter_map(|gain| {
            let finding = FINDINGS_OF.get(usize::from(gain.number).checked_sub(1)?)?.first()?;
            Some(Sharpen {
                look: Statement::plain(&id::look(gain.number)),
                finding: (*finding).to_owned(),
                site: Site::NONE,
                gain_bits: Some(gain.bits),
            })
        })
        .collect()
}

fn sources_of(weighed: &Weighed) -> Vec<Basis> {
    let own = Basis {
        id: "evidence-table".into(),
        cite: format!("{}, SHA-256 {}", weighed.table.name, weighed.table.digest).into(),
        mark: "design".into(),
    };
    std::iter::once(own).chain(sources::SOURCES.iter().map(Basis::from)).collect()
}
