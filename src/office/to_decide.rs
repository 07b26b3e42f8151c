//! What waits for a person: the list that `office decide list` prints and the office's page shows, in the same words.

use std::collections::{BTreeMap, BTreeSet};

use uuid::Uuid;

use super::chains::Odd;
use super::decide::are_two;
use super::finding_words::{question_words, said_words};
use super::keyring::Keyring;
use super::season::doubles::{Compared, Likely, Pairing};
use crate::bundle::Fingerprint;
use crate::guide::answer_words;
use crate::reading::Given;
use crate::record::short_code::short_code;
use crate::record::{Act, Body, Carcass, DeviceId, EntryId, Fold};
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

/// Carcasses gathered for the comparison, by the winter in which they were found.
#[derive(Debug, Default)]
pub struct ToCompare(BTreeMap<i32, Vec<Compared>>);

impl ToCompare {
    /// Takes one in; one that counts in no season is compared with nobody, as in the season's own table.
    pub fn take(&mut self, carcass: &Carcass, given: &Given) {
        if let Some((winter, compared)) = Compared::of(carcass, given) {
            self.0.entry(winter).or_default().push(compared);
        }
    }

    /// Every pair that is likely enough to be looked at, likeliest first, but those called two animals.
    pub fn doubles(&self, folded: &Fold, two: &BTreeSet<[Uuid; 2]>) -> Vec<Double> {
        let found = self.winters().flat_map(|winter| (0..winter.len()).flat_map(move |at| doubles_at(&winter, at)));
        listed(found.collect(), folded, two)
    }

    /// Each winter laid out, to be compared in parts with [`doubles_at`] and put together with [`listed`].
    pub fn winters(&self) -> impl Iterator<Item = Pairing<'_>> {
        self.0.values().map(|winter| Pairing::of(winter))
    }
}

/// The pairs of one carcass of a winter with those behind it.
pub fn doubles_at(winter: &Pairing<'_>, at: usize) -> Vec<Double> {
    let double = |pair: Likely| Double {
        one: pair.first.carcass,
        other: pair.second.carcass,
        probability: pair.probability,
        apart_m: pair.apart_m,
        factors: pair.factors,
    };
    winter.at(at).into_iter().map(double).collect()
}

/// Pairs in order, without those called two animals.
pub fn listed(mut all: Vec<Double>, folded: &Fold, two: &BTreeSet<[Uuid; 2]>) -> Vec<Double> {
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
