//! Practice at home: a made jaw, what is to be seen on it, and what is said once a class was called.
//!
//! Apart from real work throughout: nothing here is an answer, an entry or a reading of a carcass.

mod score;

use crate::reading::message_ids as id;
use crate::reading::{Statement, Val};
use crate::record::{FindingDef, Side, Site, Tooth, find};
use crate::science::age::practice::{Decides, MadeJaw};
use crate::science::age::{AgeOutcome, ClassCall, IncisorState, M3Posterior, MolarState, P4State, Settings, estimate};

pub use score::{BadStored, Practice, Score, ScoreRow};

/// One thing to be seen on a made jaw, in the record's own codes, so that the form's drawings show it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Look {
    /// Finding.
    pub finding: &'static str,
    /// Where.
    pub site: Site,
    /// Option.
    pub option: &'static str,
}

/// A made jaw as it is shown.
#[derive(Clone, Debug, PartialEq)]
pub struct Drawn {
    /// Side of the animal.
    pub side: Side,
    /// The day on which it is said to have died.
    pub died: String,
    /// State and crest of the six cheek teeth: the row.
    pub row: Vec<Look>,
    /// What the keys go by.
    pub first: Vec<Look>,
    /// What helps beside it.
    pub more: Vec<Look>,
}

/// The options of a finding stand in the order of the method's scales.
fn option(finding: &'static str, code: usize) -> Option<&'static str> {
    find(finding).map(FindingDef::options).unwrap_or_default().get(code).copied()
}

/// The jaw of a number as it is shown.
pub fn drawn(seed: u32) -> Drawn {
    let jaw = MadeJaw::of(seed);
    let side = if jaw.left { Side::Left } else { Side::Right };
    let (mut row, mut first, mut more) = (Vec::new(), Vec::new(), Vec::new());
    let look = |finding: &'static str, site: Site, code: usize| {
        option(finding, code).map(|option| Look { finding, site, option })
    };
    let at = |tooth| Site::tooth(side, tooth);
    let teeth = jaw.side;
    for tooth in [Tooth::P2, Tooth::P3, Tooth::P4] {
        row.extend(teeth.p4.map(|p4| Look { finding: "tooth_state", site: at(tooth), option: premolar(p4) }));
    }
    for (n, tooth) in Tooth::MOLARS.into_iter().enumerate() {
        let code = teeth.molars.get(n).copied().flatten().map_or(0, |m: MolarState| usize::from(m.code()));
        row.extend(look("tooth_state", at(tooth), code));
        let crest = teeth.crest.get(n).copied().flatten();
        row.extend(crest.and_then(|c| look("crest", at(tooth), usize::from(c.code()))));
        let dentine = teeth.dentine.get(n).copied().flatten();
        first.extend(dentine.and_then(|d| look("dentine", at(tooth), usize::from(d.code()))));
        let funnel = teeth.infundibulum.get(n).copied().flatten();
        more.extend(funnel.and_then(|f| look("infundibulum", at(tooth), usize::from(f.code()))));
    }
    first.extend(teeth.p4.and_then(|p4| look("third_tooth", Site::side(side), usize::from(p4.code()))));
    let cusp = teeth.m3_posterior.and_then(M3Posterior::code);
    first.extend(cusp.and_then(|c| look("third_molar_back_cusp", Site::side(side), usize::from(c))));
    let front =
        match (teeth.i1.map_or(0, IncisorState::code), teeth.other_front.iter().flatten().all(|i| i.code() == 2)) {
            (0, _) => 0,
            (1, _) => 1,
            (_, false) => 2,
            (_, true) => 3,
        };
    first.extend(look("front_teeth", Site::NONE, front));
    more.extend(teeth.premolar_wear.and_then(|w| look("premolar_wear", Site::side(side), usize::from(w.code()))));
    more.extend(teeth.p4_dentine.and_then(|d| look("dentine", at(Tooth::P4), usize::from(d.code()))));
    Drawn { side, died: jaw.died.to_string(), row, first, more }
}

/// How a premolar stands in the row while the third one is at this stage.
const fn premolar(p4: P4State) -> &'static str {
    match p4 {
        P4State::MilkThreeCusps => "milk",
        P4State::MilkLooseOrGone => "milk_loose",
        P4State::PermanentBelowRow => "part_up",
        P4State::PermanentWhite => "up_unworn",
        P4State::PermanentStained => "in_wear",
    }
}

/// What is said once a class was called, the verdict first.
pub fn told(seed: u32, call: ClassCall) -> Vec<Statement> {
    let jaw = MadeJaw::of(seed);
    let class = |birthdays: u8| Val::message(id::class(birthdays));
    let called = u8::try_from(call.index().min(9)).unwrap_or(9);
    let right = called == jaw.birthdays;
    let verdict = if right {
        "practice.right"
    } else if called < jaw.birthdays {
        "practice.too_young"
    } else {
        "practice.too_old"
    };
    let mut all = vec![Statement::plain(verdict).with("truth", class(jaw.birthdays)).with("called", class(called))];
    let decides = jaw.decides();
    all.push(why(decides, jaw.side.cheek_teeth));
    match decides.birthdays() {
        // By its wear a deer of nine and one of eight are told alike.
        Some(rule) if rule != jaw.birthdays.min(8) => {
            let strays = if rule < jaw.birthdays { "practice.strays_young" } else { "practice.strays_old" };
            all.push(Statement::plain(strays).with("rule", class(rule)).with("truth", class(jaw.birthdays)));
        }
        _ => {}
    }
    if let Ok(AgeOutcome::Estimate(read)) = estimate(&jaw.evidence(), &Settings::default()) {
        let set = &read.likely_set;
        let (first, last) = (set.classes.first().copied(), set.classes.last().copied());
        let (first, last) = (first.unwrap_or(read.best_class), last.unwrap_or(read.best_class));
        let within = (first..=last).filter_map(|c| read.classes.get(usize::from(c))).sum();
        let said = if first == last { "practice.program_one" } else { "practice.program" };
        all.push(
            Statement::plain(said)
                .with("class", class(read.best_class))
                .with("first", class(first))
                .with("last", class(last))
                .with("percent", Val::percent(within)),
        );
    }
    all
}

fn why(decides: Decides, teeth: Option<u8>) -> Statement {
    match decides {
        Decides::FewTeeth => Statement::plain("practice.why.few").with("n", Val::Count(teeth.map_or(0, i64::from))),
        Decides::ThreeCusps => Statement::plain("practice.why.three_cusps"),
        Decides::Changing => Statement::plain("practice.why.changing"),
        Decides::NewThirdTooth => Statement::plain("practice.why.new_third"),
        Decides::Dentine(birthdays) => Statement::plain(match birthdays {
            0..=2 => "practice.why.d2",
            3 => "practice.why.d3",
            4 => "practice.why.d4",
            5 => "practice.why.d5",
            6 => "practice.why.d6",
            7 => "practice.why.d7",
            _ => "practice.why.d8",
        }),
        Decides::Nothing => Statement::plain("practice.why.nothing"),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::words::{Language, raw};

    /// The options of the record stand in the order of the method's scales (section 3.1 of the printed
    /// classes as this project codes them).
    #[test]
    fn what_is_shown_is_what_was_made() {
        use crate::science::age::{Crest, Dentine, Infundibulum, PremolarWear};
        for (finding, count) in [
            ("dentine", Dentine::ALL.len()),
            ("crest", Crest::ALL.len()),
            ("infundibulum", Infundibulum::ALL.len()),
            ("premolar_wear", PremolarWear::ALL.len()),
            ("third_tooth", P4State::ALL.len()),
        ] {
            assert_eq!(find(finding).unwrap().options().len(), count, "{finding}");
        }
        assert_eq!(option("dentine", 4), Some("twice_or_more"));
        assert_eq!(option("crest", 3), Some("rounded"));
        assert_eq!(option("third_molar_back_cusp", 2), Some("flat_or_hollow"));
        assert_eq!(option("tooth_state", usize::from(MolarState::InWear.code())), Some("in_wear"));
        for seed in 0..200 {
            let drawn = drawn(seed);
            assert_eq!(drawn.row.iter().filter(|l| l.finding == "tooth_state").count(), 6, "{seed}");
            assert!(drawn.first.iter().any(|l| l.finding == "third_tooth"), "{seed}");
        }
    }

    #[test]
    fn everything_told_has_words_and_says_whether_it_was_right() {
        for seed in 0..200 {
            let truth = MadeJaw::of(seed).birthdays;
            for call in ClassCall::ALL {
                let told = told(seed, call);
                for said in &told {
                    assert!(raw(Language::English, &said.id).is_some(), "{}", said.id);
                    assert!(!said.say(Language::English).contains('{'), "{}", said.say(Language::English));
                }
                let right = call.index().min(9) == usize::from(truth);
                assert_eq!(told[0].id == "practice.right", right, "{seed} {call:?}");
            }
        }
    }
}
