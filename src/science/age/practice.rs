//! Jaws made up to practise on: a true class, then teeth as a deer of that class may have them.
//!
//! Nothing here is a real deer and nothing of it goes into a reading. The schedule and the wear are the
//! method's own (this room's `eruption` and `wear`); how far one deer strays from them is ours: one earliness stands
//! behind all of a jaw's eruption, one rate behind all of its wear, and every look strays a little more.
//! Jaws whose teeth contradict each other are not used.

use time::{Date, Duration, Month};

use super::contradiction::contradictions;
use super::eruption::Progress;
use super::evidence::{
    AgeEvidence, Crest, DeathWindow, Dentine, IncisorState, Infundibulum, JawSide, M3Posterior, MolarState, P4State,
    PremolarWear, Species,
};
use super::item::Item;
use super::key::{KeyClass, pivot_birthdays, winter_key};
use super::{LATE_SHARE, wear};
use crate::science::source::{Mark, Source};
use crate::science::special::normal_quantile;

/// Last true class: nine and more.
const LAST: u64 = 9;
/// First day of death, and days after it that are drawn from.
const FIRST: (i32, Month, u8) = (2026, Month::December, 15);
const DAYS: u64 = 107;
/// Months of a fawn on the first day: born on 3 June.
const MONTHS_AT_FIRST: f64 = 6.4;
const DAYS_A_MONTH: f64 = 30.4375;
/// Spread of birth dates, months: 11 days.
const BIRTH_SD_MONTHS: f64 = 0.36;
/// Spread of the log of wear age between deer: the method's own.
const RATE_SD: f64 = 0.25;
/// Spread of one look about what the deer's wear would have: less than the method's 0.7, which holds the
/// eye of the reader as well.
const LOOK_SD: f64 = 0.4;
/// A molar has come into wear so long after it stands at full height, months.
const WEAR_AFTER_MONTHS: f64 = 4.0;
/// Ages at which the molars stand at full height, months: the middle of the method's schedule.
const FULL_MONTHS: [f64; 3] = [6.2, 12.5, 23.0];
/// Jaws drawn before one without strays is taken.
const TRIES: u8 = 60;

/// What made jaws rest on.
pub static SOURCE: Source = Source::new(
    "practice-jaws",
    "jaws made by this program from the age keys' middle values; how far one deer strays from them is our choice",
    Mark::Design,
);

/// A made jaw.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct MadeJaw {
    /// The class it was made as: completed birthdays, 9 for nine and more.
    pub birthdays: u8,
    /// The day on which it is said to have died.
    pub died: Date,
    /// Whether it is the left half.
    pub left: bool,
    /// The teeth.
    pub side: JawSide,
}

/// What decides the class by the printed keys.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Decides {
    /// So few cheek teeth: a fawn.
    FewTeeth,
    /// Six, and the third has three cusps: a yearling.
    ThreeCusps,
    /// Six, and the third is just changing: a yearling.
    Changing,
    /// Six, and the third is new and white, the molars hardly worn: a yearling.
    NewThirdTooth,
    /// Dentine of the molars: completed birthdays, 8 for eight and more.
    Dentine(u8),
    /// The keys do not agree on this jaw.
    Nothing,
}

impl Decides {
    /// Completed birthdays by that rule.
    pub const fn birthdays(self) -> Option<u8> {
        match self {
            Self::FewTeeth => Some(0),
            Self::ThreeCusps | Self::Changing | Self::NewThirdTooth => Some(1),
            Self::Dentine(birthdays) => Some(birthdays),
            Self::Nothing => None,
        }
    }
}

impl MadeJaw {
    /// The jaw of a number; the same number makes the same jaw on every machine.
    pub fn of(seed: u32) -> Self {
        let mut draws = Draws(u64::from(seed));
        let birthdays = draws.below(LAST + 1);
        let left = draws.below(2) == 0;
        let mut jaw = Self::draw(&mut draws, birthdays, left, LOOK_SD);
        for _ in 0..TRIES {
            if jaw.is_plain() {
                return jaw;
            }
            jaw = Self::draw(&mut draws, birthdays, left, LOOK_SD);
        }
        Self::draw(&mut draws, birthdays, left, 0.0)
    }

    /// Nothing contradicts itself, and the count keeps to the winter key: fewer than six in a fawn only.
    fn is_plain(&self) -> bool {
        let few = self.side.cheek_teeth.is_some_and(|n| n < 6);
        few == (self.birthdays == 0) && contradictions(&self.evidence()).is_empty()
    }

    fn draw(draws: &mut Draws, class: u64, left: bool, look_sd: f64) -> Self {
        let day = draws.below(DAYS);
        let months = 12.0 * class as f64
            + MONTHS_AT_FIRST
            + day as f64 / DAYS_A_MONTH
            + BIRTH_SD_MONTHS * draws.normal().clamp(-2.0, 2.0);
        let late = draws.share() < LATE_SHARE;
        // Without strays the deer stands in the middle of its class.
        let middle = |drawn: f64| if look_sd > 0.0 { drawn } else { 0.5 };
        let earliness = middle(draws.share());
        let rate = libm::exp(RATE_SD * draws.normal().clamp(-2.0, 2.0));
        let mut side = erupted(months, late, earliness);
        wear_down(&mut side, months / 12.0 * rate, look_sd, draws);
        let (year, month, first) = FIRST;
        let died = Date::from_calendar_date(year, month, first).unwrap_or(Date::MIN)
            + Duration::days(i64::try_from(day).unwrap_or_default());
        Self { birthdays: u8::try_from(class).unwrap_or_default(), died, left, side }
    }

    /// The same as the method takes it.
    pub fn evidence(&self) -> AgeEvidence {
        let death = Some(DeathWindow { from: self.died, to: self.died });
        let (left, right) = if self.left { (self.side, JawSide::default()) } else { (JawSide::default(), self.side) };
        AgeEvidence { species: Species::WhiteTailed, death, left, right, ..AgeEvidence::default() }
    }

    /// What the printed keys go by on it.
    pub fn decides(&self) -> Decides {
        let Ok(key) = winter_key(&self.evidence()) else { return Decides::Nothing };
        match (key.class, self.side.p4) {
            (KeyClass::Fawn, _) => Decides::FewTeeth,
            (KeyClass::Yearling, Some(P4State::MilkThreeCusps)) => Decides::ThreeCusps,
            (KeyClass::Yearling, Some(P4State::MilkLooseOrGone | P4State::PermanentBelowRow)) => Decides::Changing,
            (KeyClass::Yearling, _) => Decides::NewThirdTooth,
            (KeyClass::Adult, _) => pivot_birthdays(&self.side).map_or(Decides::Nothing, Decides::Dentine),
        }
    }
}

/// Which teeth are there. One earliness stands behind all, so that a forward deer is forward throughout.
fn erupted(months: f64, late: bool, earliness: f64) -> JawSide {
    let progress = Progress::at(months, late);
    let stage = |groups: &[f64]| -> (usize, f64) {
        let mut below = 0.0;
        for (n, share) in groups.iter().enumerate() {
            if earliness < below + share {
                return (n, (earliness - below) / share);
            }
            below += share;
        }
        (groups.len().saturating_sub(1), 1.0)
    };
    let molar = |n: usize| {
        let worn_from = FULL_MONTHS.get(n).copied().unwrap_or_default() + WEAR_AFTER_MONTHS;
        match stage(&progress.molar_groups(n)) {
            (0, within) if within < 0.5 => MolarState::NotVisible,
            (0, _) => MolarState::InGum,
            (1, _) => MolarState::CuspsThrough,
            _ if months < worn_from => MolarState::FullHeight,
            _ => MolarState::InWear,
        }
    };
    let molars = [molar(0), molar(1), molar(2)];
    let front = |groups: [f64; 3]| match stage(&groups).0 {
        0 => IncisorState::Milk,
        1 => IncisorState::Erupting,
        _ => IncisorState::Permanent,
    };
    let p4 = match stage(&progress.p4_groups()) {
        (0, _) => P4State::MilkThreeCusps,
        (1, within) if within < 0.5 => P4State::MilkLooseOrGone,
        (1, _) => P4State::PermanentBelowRow,
        (2, _) => P4State::PermanentWhite,
        _ => P4State::PermanentStained,
    };
    let through = molars.into_iter().filter(|m| *m >= MolarState::CuspsThrough).count();
    JawSide {
        cheek_teeth: u8::try_from(3 + through).ok(),
        p4: Some(p4),
        molars: molars.map(Some),
        i1: Some(front(progress.i1_groups())),
        other_front: [Some(front(progress.other_front_groups())); 3],
        ..JawSide::default()
    }
}

/// How worn the teeth in wear are.
fn wear_down(side: &mut JawSide, wear_years: f64, sd: f64, draws: &mut Draws) {
    let mut code = |item: Item| -> usize {
        let expected = wear::expected(item, wear_years) + sd * draws.normal().clamp(-2.0, 2.0);
        #[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss)] // a code of at most five
        {
            (expected + 0.5).floor().clamp(0.0, 5.0) as usize
        }
    };
    let dentine = [Item::M1Dentine, Item::M2Dentine, Item::M3Dentine].map(&mut code);
    let crest = [Item::M1Crest, Item::M2Crest, Item::M3Crest].map(&mut code);
    let funnel = [Item::M1Infundibulum, Item::M2Infundibulum, Item::M3Infundibulum].map(&mut code);
    let (p4, premolars, back) = (code(Item::P4Dentine), code(Item::PremolarWear), code(Item::M3Posterior));
    let worn = side.molars.map(|m| m == Some(MolarState::InWear));
    side.dentine = of_scale(dentine, worn, Dentine::ALL);
    side.crest = of_scale(crest, worn, Crest::ALL);
    side.infundibulum = of_scale(funnel, worn, Infundibulum::ALL);
    if side.molars.last().copied().flatten() >= Some(MolarState::CuspsThrough) {
        const CUSP: &[M3Posterior] = &[
            M3Posterior::UnwornCone,
            M3Posterior::TraceOfWear,
            M3Posterior::FlatOrHollow,
            M3Posterior::SlopesToCheek,
            M3Posterior::LevelOrBelow,
        ];
        let [.., worn_back] = worn;
        side.m3_posterior = at(if worn_back { back } else { 0 }, CUSP);
    }
    if side.p4 == Some(P4State::PermanentStained) {
        side.p4_dentine = at(p4, Dentine::ALL);
        side.premolar_wear = at(premolars, PremolarWear::ALL);
    }
}

fn at<T: Copy>(code: usize, all: &[T]) -> Option<T> {
    all.get(code.min(all.len().saturating_sub(1))).copied()
}

fn of_scale<T: Copy>(codes: [usize; 3], worn: [bool; 3], all: &[T]) -> [Option<T>; 3] {
    let mut out = [None; 3];
    for ((slot, code), worn) in out.iter_mut().zip(codes).zip(worn) {
        *slot = if worn { at(code, all) } else { None };
    }
    out
}

/// Random numbers by SplitMix64 (Steele, Lea and Flood 2014, OOPSLA): whole-number arithmetic, so that
/// every machine makes the same jaw.
struct Draws(u64);

impl Draws {
    const fn next(&mut self) -> u64 {
        self.0 = self.0.wrapping_add(0x9E37_79B9_7F4A_7C15);
        let z = (self.0 ^ (self.0 >> 30)).wrapping_mul(0xBF58_476D_1CE4_E5B9);
        let z = (z ^ (z >> 27)).wrapping_mul(0x94D0_49BB_1331_11EB);
        z ^ (z >> 31)
    }

    /// A whole number below `n`.
    const fn below(&mut self, n: u64) -> u64 {
        // The bias of the rest is below one in 10^17 for the few values asked for.
        self.next() % n
    }

    /// A number above 0 and below 1.
    fn share(&mut self) -> f64 {
        ((self.next() >> 12) as f64 + 0.5) / 4_503_599_627_370_496.0
    }

    fn normal(&mut self) -> f64 {
        normal_quantile(self.share()).unwrap_or_default()
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::science::age::{AgeOutcome, Settings, estimate};

    /// First numbers from 1234567, as printed with the algorithm in several languages (from memory of that
    /// table).
    #[test]
    fn numbers_are_those_of_the_published_generator() {
        let mut draws = Draws(1_234_567);
        let first = [0; 5].map(|_: u8| draws.next());
        assert_eq!(
            first,
            [
                6_457_827_717_110_365_317,
                3_203_168_211_198_807_973,
                9_817_491_932_198_370_423,
                4_593_380_528_125_082_431,
                16_408_922_859_458_223_821
            ]
        );
    }

    #[test]
    fn every_class_is_made_and_no_jaw_contradicts_itself() {
        let mut made = [0; 10];
        for seed in 0..400 {
            let jaw = MadeJaw::of(seed);
            made[usize::from(jaw.birthdays)] += 1;
            assert_eq!(contradictions(&jaw.evidence()), [], "{seed}");
            assert_eq!(MadeJaw::of(seed), jaw, "the same jaw again");
        }
        // 40 of each are expected; three standard deviations of a binomial are 18.
        assert!(made.iter().all(|n| (22..=58).contains(n)), "{made:?}");
    }

    /// Agency keys for December to April (Indiana; section 3 of the printed classes): at most five cheek
    /// teeth in a fawn, six from the second winter on; a third tooth with three cusps is never an adult's.
    #[test]
    fn made_teeth_keep_to_the_winter_keys() {
        for seed in 0..400 {
            let jaw = MadeJaw::of(seed);
            let teeth = jaw.side.cheek_teeth.unwrap();
            match jaw.birthdays {
                0 => assert!((4..=5).contains(&teeth) && jaw.side.p4 == Some(P4State::MilkThreeCusps), "{jaw:?}"),
                1 | 2 => assert!(teeth == 6, "{jaw:?}"),
                _ => assert!(teeth == 6 && jaw.side.p4 == Some(P4State::PermanentStained), "{jaw:?}"),
            }
        }
    }

    /// A method that reads jaws made by its own rules has to find most of them again; with all looks taken
    /// it must lie within its own likely classes in most, and wear must rise with the class.
    #[test]
    fn the_program_reads_its_own_jaws_well_but_not_always_rightly() {
        let (mut within, mut exact) = (0, 0);
        for seed in 0..300 {
            let jaw = MadeJaw::of(seed);
            let Ok(AgeOutcome::Estimate(read)) = estimate(&jaw.evidence(), &Settings::default()) else {
                panic!("jaw {seed} is not read")
            };
            within += u32::from(read.likely_set.classes.contains(&jaw.birthdays));
            exact += u32::from(read.best_class == jaw.birthdays);
        }
        assert!(within >= 210, "{within} of 300 lie within the likely classes");
        assert!((120..=270).contains(&exact), "{exact} of 300 are named exactly: neither a riddle nor a quiz");
    }
}
