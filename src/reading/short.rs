//! A reading in a few lines: the best value, its range with what it covers, the mark of what nobody
//! outside confirmed, and what must not be overlooked. Made from the reading alone: a new reading is
//! shown without a line of its own here.

use super::message_ids as id;
use super::shape::{Estimate, Outcome, Reading, Sharpen, Statement, Val};
use super::{Readings, shape::Basis};
use crate::order::Short as _;
use crate::record::Unit;

/// A look that promises less than this is not worth the cold, bits. Ours.
const WORTH_FIRST_BITS: f64 = 0.1;

/// "{class}"
pub const CLASS: &str = "reading.short.class";
/// "Likeliest: {class}"
pub const LIKELIEST: &str = "reading.short.likeliest";
/// "{first} to {last}: {percent} in 100"
pub const CLASSES: &str = "reading.short.classes";
/// "{percent} in 100"
pub const SURE: &str = "reading.short.sure";
/// "About {best} alive"
pub const ABOUT: &str = "reading.short.about";
/// "About {best}, autumn weight"
pub const ABOUT_IN_AUTUMN: &str = "reading.short.about_in_autumn";
/// "{low} to {high}, autumn weight"
pub const BETWEEN_IN_AUTUMN: &str = "reading.short.between_in_autumn";
/// "{low} to {high} alive"
pub const BETWEEN: &str = "reading.short.between";
/// "{low} to {high}: {percent} in 100"
pub const HOLDS: &str = "reading.short.holds";
/// "{low} to {high} {unit}: {percent} in 100"
pub const HOLDS_IN: &str = "reading.short.holds_in";
/// "{low} to {high} {unit}; no source says how often that holds"
pub const HOLDS_IN_UNSAID: &str = "reading.short.holds_in_unsaid";
/// "{low} to {high}; no source says how often that holds"
pub const HOLDS_UNSAID: &str = "reading.short.holds_unsaid";
/// "{n} rules, each {percent} in 100"
pub const RULES: &str = "reading.short.rules";
/// "{n} of {all} sources unconfirmed"
pub const MARK: &str = "reading.short.mark";
/// "Too many ages are left open to lean on one class"
pub const WIDE: &str = "reading.short.wide";
/// "Left: {left}. Right: {right}."
pub const SIDES: &str = "reading.short.sides";
/// "Fawn {fawn}, older {older} in 100"
pub const QUICK: &str = "reading.short.quick";
/// "By a look from afar only"
pub const QUICK_ONLY: &str = "reading.short.quick_only";
/// All ids of this file.
pub const IDS: &[&str] = &[
    CLASS,
    LIKELIEST,
    CLASSES,
    SURE,
    ABOUT,
    ABOUT_IN_AUTUMN,
    BETWEEN_IN_AUTUMN,
    BETWEEN,
    HOLDS,
    HOLDS_UNSAID,
    HOLDS_IN,
    HOLDS_IN_UNSAID,
    RULES,
    MARK,
    WIDE,
    SIDES,
    QUICK,
    QUICK_ONLY,
];

/// What must not be overlooked, and how it is said in short.
const FLAGS: [(&str, &str); 8] = [
    (super::fat_ids::COMBINED_LET_IN, super::fat_ids::COMBINED_LET_IN),
    (id::AGE_SIDES, SIDES),
    (id::AGE_WIDE, WIDE),
    (id::SPLIT, id::SPLIT),
    (super::local_ids::SPLIT_WAYS, super::local_ids::SPLIT_WAYS),
    (super::cause_ids::caution::SPLIT, super::cause_ids::caution::SPLIT),
    (super::cause_ids::caution::NO_FIT, super::cause_ids::caution::NO_FIT),
    (id::death::CONFLICTS, id::death::CONFLICTS),
];

/// A reading in short.
#[derive(Clone, Debug, PartialEq)]
pub struct Short {
    /// The best value, or why there is none.
    pub best: Statement,
    /// Range and coverage, then what belongs to it.
    pub lines: Vec<Statement>,
    /// What must not be overlooked: sides that differ, answers that differ, a spread too wide.
    pub flags: Vec<Statement>,
    /// How many of its sources nobody outside has confirmed; absent where all are.
    pub mark: Option<Statement>,
}

/// A reading in short.
pub fn short(reading: &Reading) -> Short {
    let headline = reading.statements.first().cloned().unwrap_or_else(|| Statement::plain(&reading.title));
    let (best, lines) = if reading.outcome == Outcome::Read { said(reading, headline) } else { (headline, Vec::new()) };
    let found = |(long, short): (&str, &str)| {
        let said = reading.statements.iter().chain(&reading.cautions).find(|s| s.id == long)?;
        Some(Statement { id: short.to_owned(), values: said.values.clone() })
    };
    let flags = FLAGS.into_iter().filter_map(found).collect();
    Short { best, lines, flags, mark: mark(&reading.sources) }
}

fn mark(sources: &[Basis]) -> Option<Statement> {
    let count = |n: usize| Val::Count(i64::try_from(n).unwrap_or(i64::MAX));
    let open = sources.iter().filter(|s| s.is_unconfirmed()).count();
    (open > 0).then(|| Statement::plain(MARK).with("n", count(open)).with("all", count(sources.len())))
}

/// Best value and lines of a reading that was made.
fn said(reading: &Reading, headline: Statement) -> (Statement, Vec<Statement>) {
    let find = |id: &str| reading.statements.iter().find(|s| s.id == id).cloned();
    let weights: Vec<&Estimate> = reading.estimates.iter().filter(|e| e.unit == id::UNIT_KG).collect();
    match headline.id.as_str() {
        id::AGE_SINGLE | id::AGE_SET => {
            let class = headline.values.get("class").cloned().unwrap_or(Val::Text(String::new()));
            let lines = [reading.estimates.first().and_then(classes), find(id::AGE_MONTHS)];
            // The number beside the warning has to say what it is.
            let best = if find(id::AGE_WIDE).is_some() { LIKELIEST } else { CLASS };
            (Statement::plain(best).with("class", class), lines.into_iter().flatten().collect())
        }
        id::AGE_QUICK => {
            let best = Statement { id: QUICK.to_owned(), values: headline.values };
            (best, vec![Statement::plain(QUICK_ONLY)])
        }
        id::SIZE_FROM_DRESSED | id::SIZE_GIRTH if !weights.is_empty() => {
            weight(&weights, reading.cautions.iter().any(|c| c.id == id::SIZE_AUTUMN))
        }
        _ if reading.title == super::cause_ids::TITLE => {
            // Beside "no cause is named here" a list of causes would name one all the same.
            let named = headline.id != super::cause_ids::label("people");
            let ranked = reading.statements.iter().filter(|s| named && s.id == super::cause_ids::RANKED);
            (headline, ranked.cloned().collect())
        }
        _ if reading.title == super::cause_ids::measures::TITLE => {
            (headline, reading.statements.iter().skip(1).cloned().collect())
        }
        _ if reading.title == id::SEX_TITLE => (headline, find(id::SEX_BY).into_iter().collect()),
        _ => (headline, reading.estimates.first().and_then(range).into_iter().collect()),
    }
}

/// From the youngest to the oldest likely class, and what all classes between them add up to.
fn classes(estimate: &Estimate) -> Option<Statement> {
    let within = |n: usize| {
        let n = n as f64;
        estimate.low.is_some_and(|low| low <= n) && estimate.high.is_some_and(|high| n <= high)
    };
    let named: Vec<_> = estimate.shares.iter().enumerate().filter(|(n, _)| within(*n)).map(|(_, s)| s).collect();
    let (first, last) = (named.first()?, named.last()?);
    let percent = Val::percent(named.iter().map(|s| s.probability).sum());
    let said = if first == last {
        Statement::plain(SURE)
    } else {
        Statement::plain(CLASSES).with("first", Val::message(&first.of)).with("last", Val::message(&last.of))
    };
    Some(said.with("percent", percent))
}

/// One rule: its value and range. Several: none wins, so the whole spread and no middle.
fn weight(all: &[&Estimate], autumn: bool) -> (Statement, Vec<Statement>) {
    let kilos = |kg: f64| Val::measure(kg, Unit::Kilogram, 0);
    if let [one] = all {
        let about = if autumn { ABOUT_IN_AUTUMN } else { ABOUT };
        let best = Statement::plain(about).with("best", kilos(one.best.unwrap_or_default()));
        return (best, range(one).into_iter().collect());
    }
    let low = all.iter().filter_map(|e| e.low.or(e.best)).fold(f64::INFINITY, f64::min);
    let high = all.iter().filter_map(|e| e.high.or(e.best)).fold(f64::NEG_INFINITY, f64::max);
    let between = if autumn { BETWEEN_IN_AUTUMN } else { BETWEEN };
    let best = Statement::plain(between).with("low", kilos(low)).with("high", kilos(high));
    let least = all.iter().filter_map(|e| e.coverage).fold(1.0, f64::min);
    let count = Val::Count(i64::try_from(all.len()).unwrap_or(i64::MAX));
    (best, vec![Statement::plain(RULES).with("n", count).with("percent", Val::percent(least))])
}

/// Range and coverage of an estimate that is a number.
fn range(estimate: &Estimate) -> Option<Statement> {
    let (low, high) = (estimate.low?, estimate.high?);
    let (ends, holds, unsaid) = match estimate.metric_unit() {
        Some(unit) => ([low, high].map(|v| Val::measure(v, unit, 0)), HOLDS, HOLDS_UNSAID),
        None => ([low, high].map(plain), HOLDS_IN, HOLDS_IN_UNSAID),
    };
    let [low, high] = ends;
    let said = match estimate.coverage {
        Some(share) => Statement::plain(holds).with("percent", Val::percent(share)),
        None => Statement::plain(unsaid),
    };
    let said = if holds == HOLDS_IN { said.with("unit", Val::message(&estimate.unit)) } else { said };
    Some(said.with("low", low).with("high", high))
}

/// At most one decimal.
fn plain(value: f64) -> Val {
    Val::number(value, u8::from(!format!("{value:.1}").ends_with(".0")))
}

impl Readings {
    /// The three that matter most: age, sex, weight.
    pub const fn main(&self) -> [&Reading; 3] {
        [&self.age, &self.sex, &self.size]
    }

    /// All others, in the order in which they are shown.
    pub fn others(&self) -> Vec<&Reading> {
        let main = self.main().map(|r| r.method.as_str());
        self.each().into_iter().filter(|r| !main.contains(&r.method.as_str())).collect()
    }

    /// Looks that would sharpen one of the three, the one most worth its time first: what the model promises
    /// most; then the first look of a reading that has nothing yet; then the others that a rule proposes.
    /// What the model holds for next to nothing is left out here; the whole reading has it.
    pub fn sharpen(&self) -> Vec<&Sharpen> {
        let mut ranked: Vec<(u8, f64, &Sharpen)> = Vec::new();
        for reading in self.main() {
            for (n, look) in reading.sharpen.iter().enumerate() {
                let first_of_nothing = n == 0 && reading.outcome == Outcome::NoEvidence;
                match look.gain_bits {
                    Some(bits) if bits >= WORTH_FIRST_BITS => ranked.push((0, -bits, look)),
                    Some(_) => {}
                    None => ranked.push((if first_of_nothing { 1 } else { 2 }, 0.0, look)),
                }
            }
        }
        let mut order: Vec<(u8, f64, usize)> =
            ranked.iter().zip(0..).map(|((group, bits, _), n)| (*group, *bits, n)).collect();
        order.order_by(|a, b| a.0.cmp(&b.0).then(a.1.total_cmp(&b.1)).then(a.2.cmp(&b.2)));
        order.into_iter().filter_map(|(_, _, n)| Some(ranked.get(n)?.2)).collect()
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::reading::Share;
    use crate::record::Digest;
    use crate::words::Language;

    fn reading(title: &str, headline: Statement, estimates: Vec<Estimate>) -> Reading {
        Reading {
            method: title.to_owned(),
            title: title.to_owned(),
            outcome: Outcome::Read,
            estimates,
            statements: vec![headline],
            cautions: Vec::new(),
            sharpen: Vec::new(),
            variants: Vec::new(),
            rests_on: Vec::new(),
            entries_digest: Digest([0; 32]),
            sources: Vec::new(),
        }
    }

    fn kilograms(best: f64, low: f64, high: f64) -> Estimate {
        Estimate {
            unit: id::UNIT_KG.to_owned(),
            best: Some(best),
            low: Some(low),
            high: Some(high),
            coverage: Some(0.9),
            shares: Vec::new(),
        }
    }

    fn say(statement: &Statement) -> String {
        statement.say(Language::English).replace('\u{a0}', " ")
    }

    /// A rule of the house: what lies between the ends is added up as well, so that the share said is that
    /// of the range said.
    #[test]
    fn a_range_of_classes_says_what_lies_within_it() {
        let shares = [0.0, 0.02, 0.1, 0.38, 0.2, 0.3].into_iter().zip(0..);
        let age = Estimate {
            unit: id::UNIT_BIRTHDAYS.to_owned(),
            best: Some(3.0),
            low: Some(3.0),
            high: Some(5.0),
            coverage: Some(0.88),
            shares: shares.map(|(probability, n)| Share { of: id::class(n).to_owned(), probability }).collect(),
        };
        let headline = Statement::plain(id::AGE_SET).with("class", Val::message(id::class(3)));
        let short = short(&reading(id::AGE_TITLE, headline, vec![age]));
        assert_eq!(say(&short.best), "3 years");
        assert_eq!(say(&short.lines[0]), "3 years to 5 years: 88 in 100");
    }

    #[test]
    fn several_weights_are_shown_as_one_spread_without_a_middle() {
        let two = vec![kilograms(51.0, 45.0, 57.0), kilograms(62.0, 55.0, 70.0)];
        let both = short(&reading(id::SIZE_TITLE, Statement::plain(id::SIZE_GIRTH), two));
        assert_eq!(say(&both.best), "45 kg to 70 kg alive");
        let one = vec![kilograms(45.359_237, 40.0, 50.0)];
        let short = short(&reading(id::SIZE_TITLE, Statement::plain(id::SIZE_GIRTH), one));
        // International pound, 1959: 0.45359237 kg.
        let us = short.best.say_in(Language::English, crate::record::Shown::Us);
        assert_eq!(us.replace('\u{a0}', " "), "About 100 lb alive");
        assert_eq!(say(&short.lines[0]), "40 kg to 50 kg: 90 in 100");
    }

    /// A rule of the house: the unit stands after the range, not after a comma.
    #[test]
    fn a_range_that_is_no_measure_of_the_scale_names_its_unit() {
        let fat = Estimate {
            unit: id::UNIT_FAT.to_owned(),
            best: None,
            low: Some(0.0),
            high: Some(15.5),
            coverage: None,
            shares: Vec::new(),
        };
        let said = range(&fat).map(|s| say(&s)).unwrap();
        assert!(said.starts_with("0 to 15.5 % fat") && said.ends_with("no source says how often that holds"), "{said}");
    }

    #[test]
    fn sides_that_differ_are_never_left_out() {
        let mut reading = reading(id::AGE_TITLE, Statement::plain(id::AGE_SET), Vec::new());
        let sides = Statement::plain(id::AGE_SIDES)
            .with("left", Val::message(id::class(3)))
            .with("right", Val::message(id::class(5)));
        reading.statements.push(sides);
        let flags: Vec<String> = short(&reading).flags.iter().map(say).collect();
        assert_eq!(flags, ["Left: 3 years. Right: 5 years."]);
    }
}
