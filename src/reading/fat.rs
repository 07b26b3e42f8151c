//! Fat other than marrow: what was seen and weighed, and the formulas from memory behind their mark.

use super::fat_ids as fid;
use super::lens::{Answers, Ask, Lens, Picks, Used};
use super::local::Local;
use super::marrow::{Found as Marrow, bone_of};
use super::measures::{SIDES, mean};
use super::message_ids as id;
use super::scope::Scope;
use super::shape::{Outcome, Reading, Sharpen, Statement, Val};
use super::told::Told;
use crate::record::{Answer, Bone, Side, Site};
use crate::science::fat::cavity::{Cavity, read_cavity};
use crate::science::fat::kidney::{KidneyFat, KidneyRefusal, KidneyWeights, Trim, read_kidneys};
use crate::science::fat::look::{Amount, Depot, DepotLook, Muscle};
use crate::science::fat::{recalled, sources};
use crate::science::marrow::{Caution, FatPercent};

/// Every finding that is read here.
pub(super) const FINDINGS: &[&str] = &[
    "rump_fat",
    "brisket_fat",
    "gut_fat",
    "kidney_fat",
    "heart_fat",
    "pericardial_fat",
    "fat_watery",
    "muscle_mass",
    "rump_fat_mm",
    "kidney_fat_cut_g",
    "kidney_fat_whole_g",
    "kidney_g",
];
/// Those on which two people may differ.
pub(super) const ASKS: [Ask; 8] = [
    ("rump_fat", Site::NONE),
    ("brisket_fat", Site::NONE),
    ("gut_fat", Site::NONE),
    ("kidney_fat", Site::NONE),
    ("heart_fat", Site::NONE),
    ("pericardial_fat", Site::NONE),
    ("fat_watery", Site::NONE),
    ("muscle_mass", Site::NONE),
];

/// Each depot with its finding and the name of its part among those that may be watery.
const DEPOTS: [(Depot, &str, &str); 6] = [
    (Depot::Rump, "rump_fat", "back_and_rump"),
    (Depot::Brisket, "brisket_fat", "brisket"),
    (Depot::Gut, "gut_fat", "gut"),
    (Depot::Kidney, "kidney_fat", "kidneys"),
    (Depot::Heart, "heart_fat", "heart"),
    (Depot::Pericardium, "pericardial_fat", "heart"),
];

/// What was found, under one way of settling answers.
pub(super) struct Found {
    pub(super) looks: Vec<(Depot, DepotLook)>,
    pub(super) muscle: Option<Muscle>,
    rump_mm: Option<f64>,
    /// By trimming, whole first.
    kidneys: Vec<(Trim, Result<KidneyFat, KidneyRefusal>)>,
}

impl Found {
    pub(super) fn of(lens: &Lens) -> Self {
        let watery = lens.choices("fat_watery", Site::NONE).unwrap_or_default();
        let look = |(depot, finding, part): (Depot, &'static str, &str)| {
            let amount = match (lens.result(finding, Site::NONE)?, lens.choice(finding, Site::NONE)) {
                (Answer::NotSeen, _) | (_, Some("none")) => Amount::None,
                (_, Some("slight" | "thin")) => Amount::Slight,
                (_, Some("moderate")) => Amount::Moderate,
                (_, Some("heavy" | "thick")) => Amount::Heavy,
                _ => return None,
            };
            Some((depot, DepotLook { amount, watery: amount != Amount::None && watery.contains(&part) }))
        };
        let muscle = match lens.choice("muscle_mass", Site::NONE) {
            Some("full") => Some(Muscle::Full),
            Some("lean") => Some(Muscle::Lean),
            Some("wasted") => Some(Muscle::Wasted),
            _ => None,
        };
        let weights = kidney_weights(lens);
        let read = |trim| read_kidneys(weights, trim).map(|result| (trim, result));
        Self {
            looks: DEPOTS.into_iter().filter_map(look).collect(),
            muscle,
            rump_mm: mean(lens, "rump_fat_mm", &[Site::NONE], 1.0),
            kidneys: [Trim::Whole, Trim::StraightCuts].into_iter().filter_map(read).collect(),
        }
    }

    /// Fat of the first trimming that has an index: the whole one is the better for biology.
    pub(super) fn kidney(&self) -> Option<KidneyFat> {
        self.kidneys.iter().filter_map(|(_, read)| read.ok()).find(|fat| fat.index.is_ok())
    }

    fn is_empty(&self) -> bool {
        self.looks.is_empty() && self.muscle.is_none() && self.rump_mm.is_none() && self.kidneys.is_empty()
    }
}

/// Left and right; a kidney of which no side was told stands for the left where that has no weights.
fn kidney_weights(lens: &Lens) -> [KidneyWeights; 2] {
    let of = |sites: &[Site]| {
        let grams = |finding| mean(lens, finding, sites, 10.0);
        KidneyWeights {
            kidney_g: grams("kidney_g"),
            fat_whole_g: grams("kidney_fat_whole_g"),
            fat_cut_g: grams("kidney_fat_cut_g"),
        }
    };
    let left = of(&[Site::side(Side::Left)]);
    let left = if left == KidneyWeights::default() { of(&[Site::NONE]) } else { left };
    [left, of(&[Site::side(Side::Right)])]
}

/// Fat in the hollow of the jaw, from the weighings of marrow at the mandible.
pub(super) fn cavity(marrow: &Marrow) -> Option<Cavity> {
    let at = |side: Option<Side>| {
        let here = marrow.weighings.iter().filter(|w| w.bone == Some(Bone::Mandible) && w.site.side == side);
        let fats: Vec<f64> = here.filter_map(|w| Some(w.result.as_ref().ok()?.fat.get())).collect();
        if fats.is_empty() { None } else { FatPercent::new(fats.iter().sum::<f64>() / fats.len() as f64) }
    };
    read_cavity(at(Some(Side::Left)).or_else(|| at(None)), at(Some(Side::Right)))
}

/// Fat of the femur by weighing, on the scale of fat.
fn femur_fat(marrow: &Marrow) -> Option<FatPercent> {
    let mut femur = marrow.weighings.iter().filter(|w| w.bone == Some(Bone::Femur));
    femur.find_map(|w| Some(w.result.as_ref().ok()?.fat))
}

/// What is said of fat.
impl Told {
    fn looks(&mut self, found: &Found) {
        for (depot, look) in &found.looks {
            let id = if look.watery { fid::FAT_DEPOT_WATERY } else { fid::FAT_DEPOT };
            let said = Statement::plain(id).with("depot", Val::message(fid::depot(*depot)));
            self.say(said.with("amount", Val::message(fid::amount(look.amount))));
        }
        if let Some(muscle) = found.muscle {
            self.say(Statement::plain(fid::FAT_MUSCLE).with("muscle", Val::message(fid::muscle(muscle))));
        }
        if !found.looks.is_empty() {
            self.rest_on(&sources::LOOKS);
        }
    }

    fn kidneys(&mut self, found: &Found) {
        for (trim, read) in &found.kidneys {
            let named = |id: &str| Statement::plain(id).with("trim", Val::message(fid::trim(*trim)));
            let refused = |why| named(fid::FAT_KIDNEY_REFUSED).with("why", Val::message(fid::kidney_refusal(why)));
            let fat = match read {
                Ok(fat) => fat,
                Err(why) => {
                    self.say(refused(*why));
                    continue;
                }
            };
            match fat.index {
                Ok(index) => {
                    let stage = crate::science::fat::kidney::stage(index);
                    let said = named(fid::FAT_KIDNEY_INDEX).with("index", Val::number(index, 1));
                    self.say(said.with("stage", Val::message(fid::kidney_stage(stage))));
                    self.figure(fid::UNIT_KIDNEY_INDEX, Some(index), None, None);
                }
                Err(why) => self.say(refused(why)),
            }
            let mass = if fat.both { fid::FAT_KIDNEY_MASS } else { fid::FAT_KIDNEY_MASS_ONE };
            self.say(named(mass).with("grams", Val::number(fat.fat_g, 1)));
            if fat.both {
                self.figure(fid::UNIT_KIDNEY_MASS, Some(fat.fat_g), None, None);
            } else {
                self.caution(fid::FAT_ONE_KIDNEY);
            }
            if fat.below_sika_mass() {
                self.caution(fid::FAT_SIKA_MASS);
            }
            self.caution(fid::FAT_TRIMS);
        }
        if !found.kidneys.is_empty() {
            self.rest_on(&sources::KIDNEY);
        }
    }

    fn jaw(&mut self, cavity: Option<Cavity>) {
        let Some(cavity) = cavity else { return };
        let id = if cavity.both { fid::FAT_CAVITY } else { fid::FAT_CAVITY_ONE };
        self.say(Statement::plain(id).with("fat", Val::number(cavity.fat.get(), 1)));
        self.caution(id::condition_caution(Caution::MandibleOnly));
        if cavity.both {
            self.cautions.push(Statement::plain(fid::FAT_JAW_SIDES).with("points", Val::number(cavity.apart, 1)));
        } else {
            self.caution(fid::FAT_ONE_JAW_SIDE);
        }
        self.rest_on(&sources::CAVITY);
    }

    /// Formulas from memory, each with that mark in its words and among its sources.
    pub(super) fn recalled(&mut self, found: &Found, marrow: &Marrow, let_in: bool) {
        let before = self.sources.len();
        if let Some(mm) = found.rump_mm {
            self.say(Statement::plain(fid::FAT_RUMP).with("mm", Val::number(mm, 0)));
            if let Some(rule) = recalled::rump_rule(mm / 10.0) {
                let id = if rule.at_most { fid::FAT_RUMP_RULE_LESS } else { fid::FAT_RUMP_RULE };
                self.say(Statement::plain(id).with("percent", Val::number(rule.percent, 0)));
                self.rest_on_one(&sources::RUMP_RULE);
            }
        }
        if let Some(score) = recalled::score(&found.looks, found.muscle) {
            let id = if score.is_whole() { fid::FAT_SCORE } else { fid::FAT_SCORE_PART };
            let said = Statement::plain(id).with("sum", Val::Count(i64::from(score.sum)));
            let said = if score.is_whole() {
                said
            } else {
                said.with("lines", Val::Count(i64::from(score.lines)))
                    .with("possible", Val::Count(i64::from(score.possible)))
            };
            self.say(said);
            self.rest_on_one(&sources::SCORE);
        }
        let kidney = found.kidney().and_then(|fat| Some((fat.trim, fat.index.ok()?)));
        if let Some(((trim, kfi), femur)) = kidney.zip(femur_fat(marrow))
            && let Some(index) = recalled::conindex(kfi, femur)
        {
            let said = Statement::plain(fid::FAT_CONINDEX).with("index", Val::number(index, 0));
            let said = said.with("trim", Val::message(fid::trim(trim)));
            self.say(said.with("fat", Val::number(femur.get(), 0)));
            self.rest_on_one(&sources::CONINDEX);
        }
        if self.sources.len() > before {
            self.caution(if let_in { fid::FAT_RECALLED_IN } else { fid::FAT_RECALLED });
        }
    }
}

/// The reading. `male` where the deer is known to be a buck.
pub(super) fn reading<'a>(
    answers: &Answers<'a>,
    marrow: &Marrow<'a>,
    scope: &Scope<'a>,
    male: bool,
    local: &Local,
) -> Reading {
    let lens = Lens::new(answers, Picks::new());
    let found = Found::of(&lens);
    let cavity = cavity(marrow);
    let mut told = Told::default();
    told.looks(&found);
    told.kidneys(&found);
    told.jaw(cavity);
    told.recalled(&found, marrow, local.formulas_from_memory().is_some());
    let nothing = found.is_empty() && cavity.is_none();
    let only_refused = told.estimates.is_empty()
        && cavity.is_none()
        && found.looks.is_empty()
        && found.muscle.is_none()
        && found.rump_mm.is_none()
        && found.kidneys.iter().all(|(_, read)| read.is_err());
    if nothing {
        told.say(Statement::plain(fid::FAT_NO_EVIDENCE));
        told.sharpen.push(look_at_kidneys());
    } else {
        told.cautions.insert(0, Statement::plain(id::condition_caution(Caution::NotCause)));
        if male {
            told.caution(fid::FAT_RUT);
        }
        let differ = lens.ways(&ASKS).0.len();
        if differ > 1 {
            let count = Val::Count(i64::try_from(differ).unwrap_or(i64::MAX));
            told.cautions.insert(0, Statement::plain(id::SPLIT).with("count", count));
        }
    }
    let mut used = lens.into_used();
    if cavity.is_some() {
        used.extend(jaw_entries(marrow));
    }
    let outcome = match (nothing, only_refused) {
        (true, _) => Outcome::NoEvidence,
        (false, true) => Outcome::Refused,
        (false, false) => Outcome::Read,
    };
    let reading = told.close("condition.fat", fid::FAT_TITLE, outcome, &used);
    scope.guard(used, reading)
}

/// The entries that marrow rests on.
fn jaw_entries<'a>(marrow: &Marrow<'a>) -> Used<'a> {
    marrow.used.clone()
}

/// The look that tells most beside marrow.
pub(super) fn look_at_kidneys() -> Sharpen {
    Sharpen {
        look: Statement::plain(fid::LOOK_KIDNEYS),
        finding: "kidney_g".to_owned(),
        site: SIDES[0],
        gain_bits: None,
    }
}

/// A bone as the methods name it.
pub(super) fn named(bone: Option<Bone>) -> Option<crate::science::marrow::Bone> {
    bone.map(bone_of)
}
