//! Diet of several deer, month by month: aggregate percentage, aggregate volume and frequency.
//!
//! It is deer that are drawn again, never points: however many points were counted in one rumen, it is one
//! deer. Deer of different months are never pooled, and a deer without a date stands apart.

use std::borrow::Cow;
use std::collections::{BTreeMap, BTreeSet};

use serde::Serialize;
use uuid::Uuid;

use crate::reading::{self, Given, Outcome, RumenMeasure, RumenSample, found_on, own_plant_names, rumen_samples};
use crate::record::Carcass;
use crate::science::diet::plants::{self, Tier};
use crate::science::diet::pooled::{self, NoPool, PooledItem};
use crate::science::special::ShareInterval;
use crate::words::{Language, raw};

/// Diet of all months.
#[derive(Clone, Debug, Default, PartialEq, Serialize)]
#[cfg_attr(feature = "cli", derive(schemars::JsonSchema))]
pub struct DietReport {
    /// Each month, in order.
    pub months: Vec<MonthDiet>,
    /// Deer that are in no month, and why.
    pub left_out: Vec<LeftOut>,
}

/// Diet of the deer of one month.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(feature = "cli", derive(schemars::JsonSchema))]
pub struct MonthDiet {
    /// Year and month in which they were found, such as `2027-02`.
    pub month: String,
    /// Deer.
    pub deer: usize,
    /// Deer measured by points, by volume in millilitres, by volume in percent.
    pub by: [usize; 3],
    /// Deer found in that month of which no shares are known: not looked at, gone, or refused. They count in no
    /// figure here; each is named among those left out.
    pub without_shares: usize,
    /// Deer with fewer points than are asked for.
    pub few_points: usize,
    /// Each food, largest aggregate percentage first.
    pub foods: Vec<FoodLine>,
    /// The tiers of New York's list.
    pub tiers: Vec<FoodLine>,
    /// What has to be said beside it, as sentences.
    pub notes: Vec<String>,
}

/// One food, or one tier, over the deer of a month. Shares are percent.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(feature = "cli", derive(schemars::JsonSchema))]
pub struct FoodLine {
    /// Code of the plant or the tier; `own:` and the words of the person where it is no plant of the list,
    /// `own_unnamed` where nobody said what it was.
    pub food: String,
    /// Latin name; absent where it is no one kind.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub latin: Option<&'static str>,
    /// Mean of each deer's share.
    pub aggregate_percent: f64,
    /// Its ends.
    pub percent_low_high: Option<[f64; 2]>,
    /// Share of all volume together; absent unless every deer has volumes in millilitres.
    pub aggregate_volume: Option<f64>,
    /// Its ends.
    pub volume_low_high: Option<[f64; 2]>,
    /// Deer that had it.
    pub deer_with: u32,
    /// Percent of deer that had it.
    pub frequency_percent: f64,
    /// Its ends (Wilson).
    pub frequency_low_high: Option<[f64; 2]>,
}

/// A deer that was left out.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
#[cfg_attr(feature = "cli", derive(schemars::JsonSchema))]
pub struct LeftOut {
    /// Which.
    pub carcass: Uuid,
    /// Why, as a sentence.
    pub reason: Cow<'static, str>,
}

/// What one carcass gives.
#[derive(Clone, Debug)]
pub struct OfOne {
    carcass: Uuid,
    /// The day on which it was found.
    found: Option<time::Date>,
    deer: Result<Deer, Cow<'static, str>>,
}

/// One deer's amounts.
#[derive(Clone, Debug)]
struct Deer {
    carcass: Uuid,
    shares: BTreeMap<String, f64>,
    ml: Option<BTreeMap<String, f64>>,
    measure: RumenMeasure,
    few_points: bool,
    counted_twice: bool,
}

/// Diet of all these carcasses, by the month in which they were found.
pub fn diet<'a>(carcasses: impl IntoIterator<Item = &'a Carcass>) -> DietReport {
    let all: Vec<OfOne> = carcasses.into_iter().map(of_one).collect();
    pooled(&all)
}

/// Reads one carcass.
pub fn of_one(carcass: &Carcass) -> OfOne {
    OfOne { carcass: carcass.id, found: found_on(carcass), deer: deer(carcass) }
}

/// Diet of all these, by the month in which they were found.
pub fn pooled<'a>(all: impl IntoIterator<Item = &'a OfOne>) -> DietReport {
    let mut months: BTreeMap<String, Vec<&Deer>> = BTreeMap::new();
    let mut without_shares: BTreeMap<String, usize> = BTreeMap::new();
    let mut left_out = Vec::new();
    let month_of = |day: time::Date| format!("{:04}-{:02}", day.year(), u8::from(day.month()));
    for one in all {
        let mut skip = |reason: Cow<'static, str>| left_out.push(LeftOut { carcass: one.carcass, reason });
        match (&one.deer, one.found) {
            (Err(reason), day) => {
                if let Some(day) = day {
                    *without_shares.entry(month_of(day)).or_default() += 1;
                }
                skip(reason.clone());
            }
            (Ok(_), None) => {
                skip("Nothing says when it was found, and deer of different months are not pooled.".into());
            }
            (Ok(deer), Some(day)) => {
                months.entry(month_of(day)).or_default().push(deer);
            }
        }
    }
    let mut report = DietReport { months: Vec::new(), left_out };
    for (month, deer) in months {
        let without_shares = without_shares.get(&month).copied().unwrap_or_default();
        match month_diet(month, &deer, without_shares) {
            Ok(month) => report.months.push(month),
            Err(why) => {
                let out = |one: &&Deer| LeftOut {
                    carcass: one.carcass,
                    reason: format!("Its month cannot be pooled: {why}.").into(),
                };
                report.left_out.extend(deer.iter().map(out));
            }
        }
    }
    report
}

/// The shares of one deer, or why it has none.
fn deer(carcass: &Carcass) -> Result<Deer, Cow<'static, str>> {
    let samples = with_own_plants_named(rumen_samples(carcass), carcass);
    let Some(first) = samples.first() else { return Err("Its rumen was not counted or sorted.".into()) };
    // The reading has the checks: species, months, percentages over 100, rows that cannot be read.
    let reading = reading::all(carcass, &Given { without_cause: true, ..Given::default() }).diet;
    let read = reading.as_ref().is_some_and(|diet| diet.outcome == Outcome::Read);
    if !read {
        let said = reading.and_then(|diet| diet.statements.first().map(|said| said.say(Language::English)));
        return Err(said.map_or("No reading could be made of its rumen.".into(), Cow::Owned));
    }
    let sum = |amounts: &BTreeMap<String, f64>| amounts.values().sum::<f64>();
    let usable: Vec<_> = samples.iter().filter(|one| sum(&one.amounts) > 0.0).collect();
    // Several counts of one rumen are one deer: their mean, each count as much as the other.
    let mut shares: BTreeMap<String, f64> = BTreeMap::new();
    for one in &usable {
        let all = sum(&one.amounts) * usable.len() as f64;
        for (code, amount) in &one.amounts {
            *shares.entry(code.clone()).or_default() += amount / all;
        }
    }
    let ml = usable.iter().find(|one| one.measure == RumenMeasure::Millilitres).map(|one| one.amounts.clone());
    let points = usable.iter().filter(|one| one.measure == RumenMeasure::Points);
    let fewest = f64::from(crate::science::diet::points::FEWEST);
    Ok(Deer {
        carcass: carcass.id,
        shares,
        ml,
        measure: first.measure,
        few_points: points.clone().any(|one| sum(&one.amounts) < fewest),
        counted_twice: usable.len() > 1,
    })
}

/// Amounts of a crew's own plants under the names that they were given. A slot of one record says nothing of
/// the same slot in another, so a plant without a name joins only the others without one.
fn with_own_plants_named<'a>(samples: Vec<RumenSample<'a>>, carcass: &Carcass) -> Vec<RumenSample<'a>> {
    let names = own_plant_names(carcass);
    let heading = |code: String| match (names.get(&code), plants::OWN.iter().any(|own| own.code == code)) {
        (Some(name), _) => food_named(name),
        (None, true) => "own_unnamed".to_owned(),
        (None, false) => code,
    };
    let renamed = |mut one: RumenSample<'a>| {
        let mut amounts = BTreeMap::new();
        for (code, amount) in std::mem::take(&mut one.amounts) {
            *amounts.entry(heading(code)).or_default() += amount;
        }
        one.amounts = amounts;
        one
    };
    samples.into_iter().map(renamed).collect()
}

/// The food that a person's own words mean: a plant of the list where they are its trade or Latin name, else
/// `own:` and the words, blanks and capitals aside.
fn food_named(words: &str) -> String {
    let plain = |text: &str| text.split_whitespace().collect::<Vec<_>>().join(" ").to_lowercase();
    let words = plain(words);
    let is_it = |plant: &&plants::Plant| {
        let trade = raw(Language::English, &format!("plant.{}", plant.code));
        trade.is_some_and(|name| plain(name) == words) || (!plant.latin.is_empty() && plain(plant.latin) == words)
    };
    let listed = plants::all().filter(|plant| !plants::OWN.contains(plant)).find(is_it);
    listed.map_or_else(|| format!("own:{words}"), |plant| plant.code.to_owned())
}

fn month_diet(month: String, deer: &[&Deer], without_shares: usize) -> Result<MonthDiet, NoPool> {
    let codes: BTreeSet<&str> = deer
        .iter()
        .flat_map(|one| one.shares.iter())
        .filter(|(_, n)| **n > 0.0)
        .map(|(code, _)| code.as_str())
        .collect();
    let codes: Vec<&str> = codes.into_iter().collect();
    let mut foods = lines(deer, &codes, |food, code| food == code)?;
    foods.sort_by(|a, b| b.aggregate_percent.total_cmp(&a.aggregate_percent).then(a.food.cmp(&b.food)));
    let tiers = lines(deer, &TIERS, |food, tier| tier_of(food) == tier)?;
    let by = [RumenMeasure::Points, RumenMeasure::Millilitres, RumenMeasure::Percent]
        .map(|way| deer.iter().filter(|one| one.measure == way).count());
    let few_points = deer.iter().filter(|one| one.few_points).count();
    let notes = notes(deer, few_points);
    Ok(MonthDiet { month, deer: deer.len(), by, without_shares, few_points, foods, tiers, notes })
}

const TIERS: [&str; 4] = ["preferred_or_second", "readily_eaten", "poor", "not_on_the_list"];

/// Where a food stands in New York's list.
fn tier_of(code: &str) -> &'static str {
    match plants::of_code(code).and_then(|plant| plant.new_york) {
        Some(Tier::Preferred | Tier::Second) => "preferred_or_second",
        Some(Tier::Readily) => "readily_eaten",
        Some(Tier::Poor) => "poor",
        None => "not_on_the_list",
    }
}

/// One line a heading; a food belongs to a heading where `belongs` says so.
fn lines(deer: &[&Deer], headings: &[&str], belongs: fn(&str, &str) -> bool) -> Result<Vec<FoodLine>, NoPool> {
    let row = |amounts: &BTreeMap<String, f64>| -> Vec<f64> {
        let of = |heading: &&str| amounts.iter().filter(|(food, _)| belongs(food, heading)).map(|(_, n)| *n).sum();
        headings.iter().map(of).collect()
    };
    let shares: Vec<Vec<f64>> = deer.iter().map(|one| row(&one.shares)).collect();
    let percents = pooled::pool(&shares)?;
    let ml: Option<Vec<Vec<f64>>> = deer.iter().map(|one| one.ml.as_ref().map(row)).collect();
    let volumes: Option<Vec<PooledItem>> = ml.map(|ml| pooled::pool(&ml)).transpose()?;
    let volume_of = |at: usize| volumes.as_ref().and_then(|all| all.get(at));
    Ok(headings
        .iter()
        .zip(&percents)
        .enumerate()
        .map(|(at, (heading, item))| FoodLine {
            food: (*heading).to_owned(),
            latin: plants::of_code(heading).map(|plant| plant.latin).filter(|latin| !latin.is_empty()),
            aggregate_percent: 100.0 * item.aggregate_percent,
            percent_low_high: hundred(item.percent_interval),
            aggregate_volume: volume_of(at).map(|item| 100.0 * item.aggregate_volume),
            volume_low_high: volume_of(at).and_then(|item| hundred(item.volume_interval)),
            deer_with: item.deer_with,
            frequency_percent: 100.0 * f64::from(item.deer_with) / deer.len() as f64,
            frequency_low_high: hundred(item.frequency),
        })
        .collect())
}

fn hundred(interval: Option<ShareInterval>) -> Option<[f64; 2]> {
    interval.map(|ends| [100.0 * ends.low, 100.0 * ends.high])
}

fn notes(deer: &[&Deer], few_points: usize) -> Vec<String> {
    let mut notes = vec![
        "Deer found dead are no random sample of the herd.".to_owned(),
        "Soft leaves are digested first: twigs, needles and shells are over-counted.".to_owned(),
        "Tiers are of New York State's list and may differ here.".to_owned(),
    ];
    let n = deer.len();
    if n < pooled::FEWEST_DEER {
        notes.push(format!("{n} deer are too few for a range: {} are asked for.", pooled::FEWEST_DEER));
    } else {
        notes.push(format!("Ranges: whole deer drawn again, {} draws, 95 in 100.", pooled::DRAWS));
        if n < pooled::FEW_DEER {
            notes.push(format!("With {n} deer the ranges are likely too narrow."));
        }
    }
    if deer.iter().any(|one| one.ml.is_none()) {
        notes.push("No aggregate volume: not every deer was sorted in millilitres.".to_owned());
    }
    let mut add = |n: usize, what: &str| {
        if n > 0 {
            notes.push(format!("{n} deer {what}"));
        }
    };
    add(few_points, "with fewer than 100 points.");
    add(deer.iter().filter(|one| one.counted_twice).count(), "with more than one count: their mean is used.");
    notes
}
