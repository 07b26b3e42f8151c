//! Condition from bone marrow. What it says is never a cause of death and never "good".

use super::lens::{Used, digest_of, ids_of};
use super::marrow::{self, Found, Look, Weighing};
use super::message_ids as id;
use super::scope::Scope;
use super::shape::{Basis, Estimate, Outcome, Reading, Sharpen, Statement, Val, Variant};
use crate::record::{Bone, Carcass, Site};
use crate::science::marrow::{
    AgeGroup, Caution, Consistency, DryPercent, LookReading, LookRefusal, MarrowClass, Verdict, WeighingReading,
    WeighingRefusal, disagree, sources,
};
use crate::science::source::Source;

/// The reading; `p_fawn` decides which limits are shown, both where it is not known.
pub(super) fn read<'a>(found: &Found<'a>, scope: &Scope<'a>, p_fawn: Option<f64>) -> Reading {
    let group = p_fawn.and_then(AgeGroup::from_fawn_probability);
    let mut out = Told { group, statements: Vec::new(), cautions: Vec::new(), estimates: Vec::new() };
    for weighing in &found.weighings {
        out.weighing(weighing);
    }
    // What was read stands first: a list shows the first line alone, and a look that failed in the field must not hide
    // the one on the bench.
    let (read, refused): (Vec<&Look>, Vec<&Look>) = found.looks.iter().partition(|look| look.result.is_ok());
    for look in read.into_iter().chain(refused) {
        out.look(look);
    }
    out.disagreements(found);
    out.shared_cautions(found);
    let read_any = found.looks.iter().any(|l| l.result.is_ok()) || found.weighings.iter().any(|w| w.result.is_ok());
    let outcome = match (read_any, out.statements.is_empty()) {
        (true, _) => Outcome::Read,
        (false, false) => Outcome::Refused,
        (false, true) => Outcome::NoEvidence,
    };
    if outcome == Outcome::NoEvidence {
        out.statements.push(Statement::plain(id::CONDITION_NO_EVIDENCE));
    }
    let reading = Reading {
        method: "condition.marrow".to_owned(),
        title: id::CONDITION_TITLE.to_owned(),
        outcome,
        estimates: out.estimates,
        statements: out.statements,
        cautions: out.cautions,
        sharpen: sharpen(found),
        variants: variants(found, group),
        rests_on: ids_of(&found.used),
        entries_digest: digest_of(&found.used),
        sources: sources_of(found),
    };
    scope.guard(found.used.clone(), reading)
}

/// Whether any look or weighing says that a grown deer's last reserve was low or gone, and the entries that
/// it rests on. `None` where no marrow could be read.
pub(super) fn reserve_low(carcass: &Carcass) -> (Option<bool>, Used<'_>) {
    let found = marrow::find(carcass);
    let looks = found.looks.iter().filter_map(|look| look.result.as_ref().ok()).map(|r| r.adult);
    let weighings = found.weighings.iter().filter_map(|w| w.result.as_ref().ok()).map(|r| r.adult);
    let low = looks.chain(weighings).map(Verdict::supports_poor_condition).reduce(|a, b| a || b);
    (low, found.used)
}

/// What has been said so far.
struct Told {
    group: Option<AgeGroup>,
    statements: Vec<Statement>,
    cautions: Vec<Statement>,
    estimates: Vec<Estimate>,
}

fn bone_name(bone: Option<Bone>) -> Val {
    Val::message(bone.map_or(id::BONE_UNKNOWN, id::bone))
}

impl Told {
    fn say(&mut self, statement: Statement) {
        if !self.statements.contains(&statement) {
            self.statements.push(statement);
        }
    }

    fn caution(&mut self, id: &str) {
        let statement = Statement::plain(id);
        if !self.cautions.contains(&statement) {
            self.cautions.push(statement);
        }
    }

    fn look(&mut self, look: &Look) {
        match &look.result {
            Err(why) => self.say(cannot_say(look.bone, id::look_refusal(*why))),
            Ok(reading) => {
                self.say(look_headline(look.bone, reading));
                let range = Statement::plain(id::CONDITION_LOOK_RANGE)
                    .with("low", Val::number(reading.fat_low.get(), 0))
                    .with("high", Val::number(reading.fat_high.get(), 0));
                self.say(range);
                self.verdicts(look.bone, reading.fawn, reading.adult);
                self.science_cautions(&reading.cautions);
                self.estimates.push(Estimate {
                    unit: id::UNIT_FAT.to_owned(),
                    best: None,
                    low: Some(reading.fat_low.get()),
                    high: Some(reading.fat_high.get()),
                    coverage: None,
                    shares: Vec::new(),
                });
            }
        }
    }

    fn weighing(&mut self, weighing: &Weighing) {
        match &weighing.result {
            Err(why) => {
                self.say(cannot_say(weighing.bone, id::weighing_refusal(*why)));
                if let (WeighingRefusal::ScaleNotSaid, Some(percent)) = (why, weighing.lab) {
                    self.say(either_scale(percent));
                }
            }
            Ok(reading) => {
                self.say(weighed(weighing.bone, reading));
                for row in &reading.if_water_lost {
                    let lost = Statement::plain(id::CONDITION_IF_LOST)
                        .with("lost", Val::percent(row.lost_share))
                        .with("dry", Val::number(row.dry.get(), 1))
                        .with("fat", Val::number(row.fat.get(), 1));
                    self.say(lost);
                }
                self.verdicts(weighing.bone, reading.fawn, reading.adult);
                self.science_cautions(&reading.cautions);
                if weighing.again {
                    self.caution(id::CONDITION_WEIGHED_AGAIN);
                }
                self.estimates.extend(figures(reading));
            }
        }
    }

    /// One verdict where both groups have the same or the group is known, else one for each.
    fn verdicts(&mut self, bone: Option<Bone>, fawn: Verdict, adult: Verdict) {
        match self.group {
            _ if fawn == adult => self.say(verdict(bone, adult, id::GROUP_BOTH)),
            Some(AgeGroup::Fawn) => self.say(verdict(bone, fawn, id::group(AgeGroup::Fawn))),
            Some(AgeGroup::Adult) => self.say(verdict(bone, adult, id::group(AgeGroup::Adult))),
            None => {
                self.say(verdict(bone, fawn, id::group(AgeGroup::Fawn)));
                self.say(verdict(bone, adult, id::group(AgeGroup::Adult)));
                self.caution(id::CONDITION_BOTH_GROUPS);
            }
        }
    }

    fn science_cautions(&mut self, cautions: &[Caution]) {
        for caution in cautions {
            self.caution(id::condition_caution(*caution));
        }
    }

    fn disagreements(&mut self, found: &Found) {
        for weighing in &found.weighings {
            let same_bone = found.looks.iter().filter(|look| look.bone == weighing.bone);
            let apart = same_bone.filter_map(|l| l.result.as_ref().ok().zip(weighing.result.as_ref().ok()));
            if apart.into_iter().any(|(look, weighed)| disagree(look, weighed)) {
                self.say(Statement::plain(id::CONDITION_DISAGREE));
            }
        }
    }

    fn shared_cautions(&mut self, found: &Found) {
        if !self.statements.is_empty() {
            self.caution(id::condition_caution(Caution::NotCause));
        }
        if found.looks.len() + found.weighings.len() > 1 {
            self.caution(id::CONDITION_NOT_POOLED);
        }
        if split(found) > 1 {
            let count = i64::try_from(split(found)).unwrap_or(i64::MAX);
            self.cautions.insert(0, Statement::plain(id::SPLIT).with("count", Val::Count(count)));
        }
        if !found.whole {
            self.caution(id::SPLIT_CUT);
        }
    }
}

fn look_headline(bone: Option<Bone>, reading: &LookReading) -> Statement {
    let headline = if reading.doubtful { id::CONDITION_LOOK_DOUBTFUL } else { id::CONDITION_LOOK };
    Statement::plain(headline)
        .with("bone", bone_name(bone))
        .with("class", Val::message(id::marrow_class(reading.class)))
}

fn cannot_say(bone: Option<Bone>, why: &str) -> Statement {
    Statement::plain(id::CONDITION_CANNOT_SAY).with("bone", bone_name(bone)).with("why", Val::message(why))
}

fn verdict(bone: Option<Bone>, verdict: Verdict, group: &str) -> Statement {
    let word = |w| Val::message(id::word(w));
    let said = match verdict {
        Verdict::CannotSay(why) => return cannot_say(bone, id::reason(why)),
        Verdict::Words { best: Some(best), lowest, highest } if lowest == highest => {
            Statement::plain(id::CONDITION_WORD).with("word", word(best))
        }
        Verdict::Words { best: Some(best), lowest, highest } => Statement::plain(id::CONDITION_WORD_WITHIN)
            .with("word", word(best))
            .with("lowest", word(lowest))
            .with("highest", word(highest)),
        Verdict::Words { best: None, lowest, highest } => {
            Statement::plain(id::CONDITION_WORDS).with("lowest", word(lowest)).with("highest", word(highest))
        }
    };
    said.with("group", Val::message(group))
}

/// What a percentage without its scale would mean on each.
fn either_scale(percent: f64) -> Statement {
    let fat = DryPercent::new(percent).map_or(percent, |dry| dry.fat().get());
    Statement::plain(id::CONDITION_LAB_EITHER).with("percent", Val::number(percent, 1)).with("fat", Val::number(fat, 1))
}

fn weighed(bone: Option<Bone>, reading: &WeighingReading) -> Statement {
    let said = match reading.dry {
        Some(dry) => Statement::plain(id::CONDITION_WEIGHED).with("dry", Val::number(dry.get(), 1)),
        None => Statement::plain(id::CONDITION_LAB_FAT),
    };
    said.with("bone", bone_name(bone))
        .with("fat", Val::number(reading.fat.get(), 1))
        .with("low", Val::number(reading.fat_low.get(), 1))
        .with("high", Val::number(reading.fat_high.get(), 1))
}

/// Both scales, apart; no source states a coverage for the width.
fn figures(reading: &WeighingReading) -> Vec<Estimate> {
    let fat = Estimate {
        unit: id::UNIT_FAT.to_owned(),
        best: Some(reading.fat.get()),
        low: Some(reading.fat_low.get()),
        high: Some(reading.fat_high.get()),
        coverage: None,
        shares: Vec::new(),
    };
    let dry = reading.dry.map(|dry| Estimate {
        unit: id::UNIT_DRY.to_owned(),
        best: Some(dry.get()),
        low: None,
        high: None,
        coverage: None,
        shares: Vec::new(),
    });
    std::iter::once(fat).chain(dry).collect()
}

/// Ways of settling answers that differ at one look.
fn split(found: &Found) -> usize {
    found.looks.iter().filter(|look| !look.taken.is_empty()).count()
}

fn variants(found: &Found, group: Option<AgeGroup>) -> Vec<Variant> {
    if split(found) < 2 {
        return Vec::new();
    }
    let of_look = |look: &Look| {
        let mut told = Told { group, statements: Vec::new(), cautions: Vec::new(), estimates: Vec::new() };
        told.look(look);
        let headline = told.statements.into_iter().next()?;
        Some(Variant { taken: look.taken.clone(), headline, estimates: told.estimates })
    };
    found.looks.iter().filter(|look| !look.taken.is_empty()).filter_map(of_look).collect()
}

fn sources_of(found: &Found) -> Vec<Basis> {
    let looked: &[Source] = if found.looks.is_empty() { &[] } else { &sources::LOOK };
    let weighed: &[Source] = if found.weighings.is_empty() { &[] } else { &sources::WEIGHING };
    let mut list: Vec<Basis> = Vec::new();
    for source in looked.iter().chain(weighed).map(Basis::from) {
        if !list.contains(&source) {
            list.push(source);
        }
    }
    list
}

/// What to do next, by rule: no model forecasts a look at marrow.
fn sharpen(found: &Found) -> Vec<Sharpen> {
    let next = |look: &str, finding: &str, bone: Option<Bone>| Sharpen {
        look: Statement::plain(look),
        finding: finding.to_owned(),
        site: bone.map_or(Site::NONE, Site::bone),
        gain_bits: None,
    };
    let femur = Some(Bone::Femur);
    if found.looks.is_empty() && found.weighings.is_empty() {
        return vec![next(id::LOOK_MARROW, "marrow_consistency", femur)];
    }
    let mut list = Vec::new();
    let readable = found.looks.iter().any(|look| look.result.is_ok());
    for look in &found.looks {
        let open = match &look.result {
            Err(LookRefusal::Frozen) if !readable => Some((id::LOOK_THAWED, "marrow_consistency")),
            Err(LookRefusal::NoConsistency) if !readable => Some((id::LOOK_CONSISTENCY, "marrow_consistency")),
            Ok(r)
                if r.cautions.contains(&Caution::FrostNotKnown)
                    && look.seen.consistency == Some(Consistency::Solid) =>
            {
                Some((id::LOOK_FROZEN, "marrow_frozen"))
            }
            Ok(r) if r.class == MarrowClass::M2OrM3 => Some((id::LOOK_OPACITY, "marrow_see_through")),
            _ => None,
        };
        list.extend(open.map(|(id, finding)| next(id, finding, look.bone)));
    }
    let any_femur =
        found.looks.iter().map(|l| l.bone).chain(found.weighings.iter().map(|w| w.bone)).any(|b| b == femur);
    if !any_femur {
        list.push(next(id::LOOK_FEMUR, "marrow_consistency", femur));
    }
    if found.weighings.is_empty() {
        let bone = found.looks.first().and_then(|look| look.bone);
        list.push(next(id::LOOK_WEIGH, "marrow_wet_g", bone));
    }
    list
}
