//! What waits for a person: the list that `office decide list` prints and the office's page shows, in the same words.

use std::collections::btree_map::Values;
use std::collections::{BTreeMap, BTreeSet};

use uuid::Uuid;

use super::chains::Odd;
use super::decide::{are_two, joins, open, said_same, two_animals};
use super::finding_words::{question_words, said_words};
use super::keyring::Keyring;
use super::season::doubles::{Compared, Likely, Pairing};
use crate::bundle::Fingerprint;
use crate::guide::answer_words;
use crate::reading::Given;
use crate::record::short_code::short_code;
use crate::record::{Act, Body, Carcass, DeviceId, EntryId, Fold, Moment, Standing};
use crate::words::{Arg, Language, say_office};

const LANGUAGE: Language = Language::English;

fn tell(id: &str, args: &[(&str, Arg)]) -> String {
    say_office(LANGUAGE, id, args)
}

/// Two carcasses that may be one animal.
#[derive(Clone, Debug, PartialEq)]
pub struct Double {
    /// The one.
    pub one: Uuid,
    /// The other.
    pub other: Uuid,
    /// Probability that they are one.
    pub probability: f64,
    /// Between the two places, metres, to the ten.
    pub apart_m: f64,
    /// Factors of the odds: place, days, age and sex, jaw.
    pub factors: [f64; 4],
}

impl Double {
    fn of(pair: Likely) -> Self {
        Self {
            one: pair.first.carcass,
            other: pair.second.carcass,
            probability: pair.probability,
            apart_m: pair.apart_m,
            factors: pair.factors,
        }
    }

    /// How likely, and why.
    pub fn words(&self) -> [String; 2] {
        let [place, days, age, jaw] = self.factors.map(factor);
        // To the whole percent, and never certain: the figures are judgement.
        let percent = (100.0 * self.probability).round().min(99.0);
        [
            tell(
                "decide.likely",
                &[("percent", percent.to_string().into()), ("metres", self.apart_m.to_string().into())],
            ),
            tell(
                "decide.why",
                &[("place", place.into()), ("days", days.into()), ("age", age.into()), ("jaw", jaw.into())],
            ),
        ]
    }
}

/// A factor with two figures that tell.
fn factor(factor: f64) -> String {
    if factor >= 10.0 { format!("{factor:.0}") } else { format!("{factor:.2}") }
}

/// One of several answers, in words.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Said {
    /// The entry.
    pub entry: EntryId,
    /// What it says.
    pub said: String,
    /// Who said it.
    pub by: String,
    /// When.
    pub at: Moment,
    /// It is what the office decided.
    pub is_decision: bool,
}

/// A question of a carcass with answers that differ.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Split {
    /// The carcass.
    pub carcass: Uuid,
    /// The question, in words.
    pub question: String,
    /// What stands on it.
    pub answers: Vec<Said>,
}

/// A decision on answers that stands. Taken back, what it weighed stands for itself again.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Decided {
    /// The carcass.
    pub carcass: Uuid,
    /// The question, in words.
    pub question: String,
    /// What was decided.
    pub made: Said,
}

/// What waits for a person. Nothing is joined or chosen by itself.
#[derive(Clone, Debug, Default)]
pub struct Waiting {
    /// Pairs of which a crew said that they are one.
    pub said_same: Vec<[Uuid; 2]>,
    /// Pairs that may be one animal, likeliest first.
    pub doubles: Vec<Double>,
    /// Questions with answers that differ, carcass by carcass.
    pub open: Vec<Split>,
    /// Joins that stand.
    pub joined: Vec<[Uuid; 2]>,
    /// Pairs called two animals, both of them here.
    pub two: Vec<[Uuid; 2]>,
    /// Decisions on answers that stand, carcass by carcass.
    pub decided: Vec<Decided>,
}

/// The carcasses looked through one by one, in short parts: a page answers taps in between.
#[derive(Debug)]
pub struct Looking<'a> {
    of: (&'a Fold, &'a [(EntryId, Body)]),
    given: Given<'a>,
    todo: Values<'a, Uuid, Carcass>,
    /// By the winter in which they were found.
    winters: BTreeMap<i32, Vec<Compared>>,
    open: Vec<Split>,
    decided: Vec<Decided>,
}

impl<'a> Looking<'a> {
    /// Before the first. `given` has the card as the season judges it: at each carcass's last entry.
    pub fn begin(folded: &'a Fold, bodies: &'a [(EntryId, Body)], given: Given<'a>) -> Self {
        let todo = folded.carcasses.values();
        Self { of: (folded, bodies), given, todo, winters: BTreeMap::new(), open: Vec::new(), decided: Vec::new() }
    }

    /// Looks the next one through; false where there is none.
    pub fn step(&mut self) -> bool {
        let Some(carcass) = self.todo.next() else { return false };
        // One that counts in no season is compared with nobody, as in the season's own table.
        if let Some((winter, compared)) = Compared::of(carcass, &self.given) {
            self.winters.entry(winter).or_default().push(compared);
        }
        self.open.extend(splits(carcass));
        self.decided.extend(decided(carcass));
        true
    }
}

/// The carcasses compared with each other, one at a time with those behind it in its winter.
#[derive(Debug)]
pub struct Comparing<'l, 'a> {
    of: &'l Looking<'a>,
    winters: Vec<Pairing<'l>>,
    at: [usize; 2],
    found: Vec<Double>,
}

impl<'l, 'a> Comparing<'l, 'a> {
    /// Of all that were looked through.
    pub fn begin(of: &'l Looking<'a>) -> Self {
        let winters = of.winters.values().map(|winter| Pairing::of(winter)).collect();
        Self { of, winters, at: [0, 0], found: Vec::new() }
    }

    /// Compares the next one; false where there is none.
    pub fn step(&mut self) -> bool {
        let [winter, at] = &mut self.at;
        let Some(pairing) = self.winters.get(*winter) else { return false };
        if *at < pairing.len() {
            self.found.extend(pairing.at(*at).into_iter().map(Double::of));
            *at += 1;
        } else {
            (*winter, *at) = (*winter + 1, 0);
        }
        true
    }

    /// What waits, once nothing is left.
    pub fn done(self) -> Waiting {
        let (folded, bodies) = self.of.of;
        let two = two_animals(bodies);
        Waiting {
            said_same: said_same(folded, &two).into_iter().map(|(one, other)| [one.id, other.id]).collect(),
            doubles: listed(self.found, folded, &two),
            open: self.of.open.clone(),
            joined: joins(bodies).into_iter().map(|(_, pair)| pair).collect(),
            decided: self.of.decided.clone(),
            two: two.into_iter().filter(|pair| pair.iter().all(|id| folded.carcass(*id).is_some())).collect(),
        }
    }
}

/// All that waits, in one go.
pub fn waiting(folded: &Fold, bodies: &[(EntryId, Body)], given: Given<'_>) -> Waiting {
    let mut looking = Looking::begin(folded, bodies, given);
    while looking.step() {}
    let mut comparing = Comparing::begin(&looking);
    while comparing.step() {}
    comparing.done()
}

fn decided(carcass: &Carcass) -> impl Iterator<Item = Decided> {
    carcass.decided_questions().flat_map(move |(finding, site)| {
        let made = carcass.decisions(finding.as_str(), site).into_iter();
        made.map(move |(made, _)| Decided {
            carcass: carcass.id,
            question: question_words(finding.as_str(), site),
            made: Said::of(finding.as_str(), made),
        })
    })
}

/// The questions of a carcass with answers that differ.
fn splits(carcass: &Carcass) -> impl Iterator<Item = Split> {
    open(carcass).into_iter().map(|one| Split {
        carcass: carcass.id,
        question: question_words(&one.finding, one.site),
        answers: one.standing.iter().map(|standing| Said::of(&one.finding, standing)).collect(),
    })
}

impl Said {
    fn of(finding: &str, standing: &Standing) -> Self {
        Self {
            entry: standing.id,
            said: said_words(finding, &standing.answer),
            by: standing.observer.to_string(),
            at: standing.at,
            is_decision: standing.subject.is_none(),
        }
    }
}

/// Pairs in order, without those called two animals.
fn listed(mut all: Vec<Double>, folded: &Fold, two: &BTreeSet<[Uuid; 2]>) -> Vec<Double> {
    let settled = |one: Uuid, other: Uuid| match (folded.carcasses.get(&one), folded.carcasses.get(&other)) {
        (Some(one), Some(other)) => are_two(two, one, other),
        _ => true,
    };
    all.retain(|pair| !settled(pair.one, pair.other));
    all.sort_by(|a, b| b.probability.total_cmp(&a.probability).then_with(|| (a.one, a.other).cmp(&(b.one, b.other))));
    all
}

/// What the office calls a device; part of its name where it does not know it.
pub fn phone_words(keyring: &Keyring, device: DeviceId) -> String {
    let print = Fingerprint::of(device);
    let known = keyring.devices().iter().find(|one| one.fingerprint == print);
    known.map_or_else(
        || {
            let id: String = device.to_string().chars().take(8).collect();
            tell("decide.phone.unnamed", &[("id", id.into())])
        },
        |one| one.label.clone(),
    )
}

/// An oddity in words, with what each entry of a fork says.
pub fn odd_words(odd: &Odd, keyring: &Keyring, bodies: &[(EntryId, Body)]) -> (String, Vec<String>) {
    let number = |n: u64| Arg::Text(n.to_string());
    match odd {
        Odd::Fork(id) => {
            let head =
                tell("decide.fork", &[("phone", phone_words(keyring, id.device).into()), ("seq", number(id.seq))]);
            let from = bodies.partition_point(|(one, _)| one < id);
            let both = bodies.iter().skip(from).take_while(|(one, _)| one == id);
            (head, both.map(|(_, body)| tell("decide.fork.said", &[("said", act_words(&body.act).into())])).collect())
        }
        Odd::Gap { device, first, last } => {
            let id = if first == last { "decide.gap.one" } else { "decide.gap" };
            let phone = phone_words(keyring, *device);
            (tell(id, &[("phone", phone.into()), ("first", number(*first)), ("last", number(*last))]), Vec::new())
        }
        Odd::Clock { id, before, at, times } => {
            let args = [
                ("phone", phone_words(keyring, id.device).into()),
                ("seq", number(id.seq)),
                ("n", Arg::Count(i64::try_from(*times).unwrap_or(i64::MAX))),
                ("before", answer_words::date_and_time(*before).into()),
                ("at", answer_words::date_and_time(*at).into()),
            ];
            (tell("decide.clock", &args), Vec::new())
        }
        Odd::Unheeded { device, times } => {
            let n = Arg::Count(i64::try_from(*times).unwrap_or(i64::MAX));
            (tell("decide.unheeded", &[("phone", phone_words(keyring, *device).into()), ("n", n)]), Vec::new())
        }
    }
}

fn act_words(act: &Act) -> String {
    match act {
        Act::Answer { key, answer, .. } => {
            let finding = key.finding.as_str();
            format!("{}: {}", question_words(finding, key.site), said_words(finding, answer))
        }
        Act::Decide { finding, site, answer, .. } => {
            let finding = finding.as_str();
            format!("{}: {}", question_words(finding, *site), said_words(finding, answer))
        }
        Act::Alias { carcasses: [one, other] } => {
            tell("decide.joined.line", &[("one", short_code(*one).into()), ("other", short_code(*other).into())])
        }
        _ => tell("decide.fork.other", &[]),
    }
}
