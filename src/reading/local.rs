//! The reserve's own figures, as the local card brings them, ready for the methods.
//!
//! They are used only while the card is in force at the time of the carcass and passes its checks; else
//! the form's own figures are used and the reading says why.

use super::given::{Given, GivenCard};
use super::lens::Lens;
use super::local_ids as id;
use super::measures::{SIDES, mean};
use super::shape::{Basis, Statement, Val};
use crate::card::{AgePrior, Card, CardState, Figures, Norm, NormAge, NormSex, PriorName, card_state};
use crate::order::Short as _;
use crate::record::{Carcass, Moment};
use crate::science::age::{Births, Prior, Reader, Settings, Sex};
use crate::science::reader_record::ReaderModel;
use crate::science::size::norms::Norm as Spread;
use crate::science::source::Mark;

/// The figures in force, or why there are none.
#[derive(Clone, Copy, Default)]
pub(super) struct Local<'a> {
    pub(super) figures: Option<&'a Figures>,
    serial: u64,
    unused: Option<&'static str>,
    without_prior: bool,
}

impl<'a> Local<'a> {
    /// The figures of the card given, if it holds.
    pub(super) fn of(carcass: &Carcass, given: &Given<'a>) -> Self {
        let Some(GivenCard { card, at, .. }) = given.card else { return Self::default() };
        if card.figures.is_empty() {
            return Self::default();
        }
        let unused = at.or_else(|| latest_entry(carcass)).map_or(Some(id::CARD_NO_DATE), |at| flaw(card, at));
        let figures = unused.is_none().then_some(&card.figures);
        Self { figures, serial: card.serial, unused, without_prior: false }
    }

    /// The same for an age that a cause of death takes in: a starting point that the office chose is never
    /// joined with a cause. `None` where the age is the same either way.
    pub(super) fn for_cause(&self) -> Option<Self> {
        let chosen = self.figures.is_some_and(|figures| figures.age_prior.is_some());
        chosen.then_some(Self { without_prior: true, ..*self })
    }

    fn prior(&self) -> Option<&'a AgePrior> {
        self.figures.and_then(|figures| figures.age_prior.as_ref()).filter(|_| !self.without_prior)
    }

    /// Says that the figures were not used, where a card brought some.
    pub(super) fn caution(&self) -> Option<Statement> {
        self.unused.map(Statement::plain)
    }

    /// What the age method starts from.
    pub(super) fn settings(&self) -> Settings {
        let own = self.figures.and_then(|f| f.reader_model.as_ref());
        let reader = own.and_then(|table| {
            let mut rows = [[0; 11]; 10];
            for (to, from) in rows.iter_mut().zip(&table.rows_millionths) {
                *to = from.as_slice().try_into().ok()?;
            }
            ReaderModel::new(rows, table.known_count, table.by_rings_count).ok()
        });
        let births = self.figures.and_then(|f| f.birth_dates.as_ref()).map(|births| Births {
            // Day 0 is 3 June; the card's check lets only May and June through.
            mean_day: f64::from(births.day) - 3.0 - if births.month == 5 { 31.0 } else { 0.0 },
            sd_days: f64::from(births.sd_days),
        });
        let prior = self.prior().map(|choice| match choice.prior {
            PriorName::WinterDead => Prior::WinterDead,
            PriorName::WolfKill => Prior::WolfKill,
            PriorName::Survival => Prior::Survival,
            PriorName::Harvest => Prior::Harvest,
            PriorName::Flat => Prior::Flat,
        });
        Settings {
            reader: reader.map_or_else(Reader::default, |model| Reader::Own(Box::new(model))),
            births: births.unwrap_or_default(),
            prior: prior.unwrap_or_default(),
            ..Settings::default()
        }
    }

    /// A source of the card, for what was used of it.
    pub(super) fn basis(&self, id: &'static str, cite: String) -> Basis {
        let cite = format!("{cite}; local card {}", self.serial);
        Basis { id: id.into(), cite: cite.into(), mark: Mark::Ours.id().into() }
    }

    /// Why formulas from memory may stand in the combined reading of condition; `None` where they may not.
    pub(super) fn formulas_from_memory(&self) -> Option<&'a str> {
        Some(self.figures?.formulas_from_memory.as_ref()?.why.as_str())
    }

    /// What the region's births rest on, where the card has its own.
    pub(super) fn births_basis(&self) -> Option<Basis> {
        let births = self.figures?.birth_dates.as_ref()?;
        Some(self.basis("card-birth-dates", format!("births of the region: {}", births.source)))
    }

    /// What is said of the figures behind an age, and what they rest on. `called` where a class called by a
    /// person was used.
    pub(super) fn behind_age(&self, called: bool) -> (Vec<Statement>, Vec<Basis>) {
        let (mut said, mut basis) = (Vec::new(), Vec::new());
        let Some(figures) = self.figures else { return (said, basis) };
        if let Some(table) = figures.reader_model.as_ref().filter(|_| called) {
            let count = |n: u32| Val::Count(i64::from(n));
            said.push(
                Statement::plain(id::OWN_READERS)
                    .with("known", count(table.known_count))
                    .with("rings", count(table.by_rings_count))
                    .with("version", count(table.version))
                    .with("date", Val::Text(table.made_on.clone())),
            );
            let cite = format!(
                "the reserve's own readers: {} readings of known age, {} by rings, {} readers, made {}",
                table.known_count, table.by_rings_count, table.readers_count, table.made_on
            );
            basis.push(self.basis("card-reader-model", cite));
        }
        if let Some(births) = &figures.birth_dates {
            said.push(
                Statement::plain(id::OWN_BIRTHS)
                    .with("day", Val::Text(format!("{:02}-{:02}", births.month, births.day)))
                    .with("sd", Val::Count(i64::from(births.sd_days)))
                    .with("source", Val::Text(births.source.clone())),
            );
            basis.extend(self.births_basis());
        }
        if let Some(choice) = self.prior() {
            said.push(Statement::plain(id::OWN_PRIOR).with("why", Val::Text(choice.why.clone())));
            basis.push(self.basis("card-age-prior", format!("starting point chosen by the office: {}", choice.why)));
        }
        (said, basis)
    }

    /// Norms of a measure, grown deer first.
    pub(super) fn norms(&self, measure: &str) -> Vec<&'a Norm> {
        let all = self.figures.map(|f| f.norms.as_slice()).unwrap_or_default();
        let mut of: Vec<&Norm> = all.iter().filter(|norm| norm.measure == measure).collect();
        of.order_by_key(|norm| (std::cmp::Reverse(norm.age), norm.sex));
        of
    }

    /// What norms rest on.
    pub(super) fn norm_basis(&self, norm: &Norm) -> Basis {
        self.basis("card-norms", format!("sizes of the reserve's own deer: {}", norm.source))
    }

    /// What the norms of size rest on, each once.
    pub(super) fn norms_basis(&self) -> Vec<Basis> {
        let used = ["hind_foot_mm", "mandible_mm"].into_iter().flat_map(|measure| self.norms(measure));
        let mut list: Vec<Basis> = Vec::new();
        for basis in used.filter(|norm| norm.age == NormAge::Grown).map(|norm| self.norm_basis(norm)) {
            if !list.contains(&basis) {
                list.push(basis);
            }
        }
        list
    }

    /// The norm of grown deer of that sex; of both together where the sex is open or has no row.
    fn grown(&self, measure: &str, sex: Option<Sex>) -> Option<Spread> {
        let of = |wanted: Option<NormSex>| {
            self.norms(measure).into_iter().find(|n| n.age == NormAge::Grown && n.sex == wanted).map(spread)
        };
        let named = |sex| match sex {
            Sex::Female => NormSex::Female,
            Sex::Male => NormSex::Male,
        };
        sex.and_then(|sex| of(Some(named(sex)))).or_else(|| of(None)).or_else(|| {
            // Half does, half bucks, their means apart.
            let (doe, buck) = (of(Some(NormSex::Female))?, of(Some(NormSex::Male))?);
            let apart = (buck.mean_mm - doe.mean_mm) / 2.0;
            let within = f64::midpoint(doe.sd_mm * doe.sd_mm, buck.sd_mm * buck.sd_mm);
            let mean_mm = f64::midpoint(doe.mean_mm, buck.mean_mm);
            Some(Spread { mean_mm, sd_mm: libm::sqrt(within + apart * apart) })
        })
    }

    /// Standard deviations from grown deer of the reserve, by the first measure that has both a length and
    /// a norm: hind foot, then mandible. One only: they grow together.
    pub(super) fn size_z(&self, lens: &Lens, sex: Option<Sex>) -> Option<f64> {
        ["hind_foot_mm", "mandible_mm"].into_iter().find_map(|measure| {
            let norm = self.grown(measure, sex)?;
            norm.z(mean(lens, measure, &SIDES, 1.0)?)
        })
    }

    /// Both sexes' norms of grown deer for the first measure that has them, with the measure.
    pub(super) fn sexes(&self, lens: &Lens) -> Option<(&'static str, f64, [Spread; 2])> {
        ["hind_foot_mm", "mandible_mm"].into_iter().find_map(|measure| {
            let of = |wanted| {
                self.norms(measure).into_iter().find(|n| n.age == NormAge::Grown && n.sex == Some(wanted)).map(spread)
            };
            let both = [of(NormSex::Female)?, of(NormSex::Male)?];
            Some((measure, mean(lens, measure, &SIDES, 1.0)?, both))
        })
    }
}

/// A norm as the method takes it.
pub(super) fn spread(norm: &Norm) -> Spread {
    Spread { mean_mm: f64::from(norm.mean_tenths_mm) / 10.0, sd_mm: f64::from(norm.sd_tenths_mm) / 10.0 }
}

/// What keeps the card's figures out, if anything.
fn flaw(card: &Card, at: Moment) -> Option<&'static str> {
    if card.check().is_err() {
        return Some(id::CARD_BAD);
    }
    match card_state(Some(card), at) {
        CardState::InForce => None,
        CardState::NotYet => Some(id::CARD_NOT_YET),
        CardState::Expired | CardState::None => Some(id::CARD_EXPIRED),
    }
}

/// The latest time at which anything of the carcass was written down.
fn latest_entry(carcass: &Carcass) -> Option<Moment> {
    let standing = carcass.examinations.values().flat_map(|e| e.sheet.answers()).flat_map(|(_, _, all)| all);
    standing.map(|s| s.at).filter(|at| *at != Moment::EPOCH).max_by_key(|at| at.unix_seconds())
}
