//! All evidence of condition together: one word, its reasons, what each store allows, and what does not fit.

use super::fat::{self, ASKS, Found};
use super::fat_ids as fid;
use super::lens::{Answers, Lens, Picks, digest_of, ids_of};
use super::local::Local;
use super::marrow::Found as Marrow;
use super::message_ids as id;
use super::scope::Scope;
use super::shape::{Basis, Outcome, Reading, Sharpen, Statement, Val, Variant};
use crate::record::{Bone, Side, Site};
use crate::science::condition::{
    BoneEvidence, BoneLine, BoneSays, Combined, DepotLine, Ending, Evidence, Ground, combine, sources,
};
use crate::science::marrow::{self as method, AgeGroup, Caution, LabScale, Word, read_lab};

/// The reading. Beside it stand the probability of a fawn, and whether the deer is known to be a buck.
pub(super) fn reading<'a>(
    answers: &Answers<'a>,
    marrow: &Marrow<'a>,
    scope: &Scope<'a>,
    (p_fawn, male): (Option<f64>, bool),
    local: &Local,
) -> Reading {
    let first = Lens::new(answers, Picks::new());
    let (ways, whole) = first.ways(&ASKS);
    let bones = bones(marrow);
    let group = p_fawn.and_then(AgeGroup::from_fawn_probability);
    let mut used = marrow.used.clone();
    let mut all = Vec::new();
    for picks in ways {
        let taken = first.taken(&picks);
        let lens = Lens::new(answers, picks);
        let found = Found::of(&lens);
        let evidence = Evidence {
            kidney_index: found.kidney().and_then(|fat| fat.stage()),
            looks: found.looks,
            muscle: found.muscle,
            marrow: bones.clone(),
            group,
        };
        all.extend(combine(&evidence).map(|combined| (taken, combined)));
        used.extend(lens.into_used());
    }
    let mut told = Told::default();
    let mut recalled = super::told::Told::default();
    let outcome = match all.first() {
        None => {
            told.statements.push(Statement::plain(fid::COMBINED_NO_EVIDENCE));
            Outcome::NoEvidence
        }
        Some((_, combined)) => {
            let split = all.iter().any(|(_, other)| other.ending != combined.ending);
            told.all(combined, split);
            told.cautions(male, !whole, local.formulas_from_memory());
            if local.formulas_from_memory().is_some() {
                recalled.recalled(&Found::of(&first), marrow, true);
                told.statements.append(&mut recalled.statements);
            }
            Outcome::Read
        }
    };
    let headline = |combined: &Combined| Statement::plain(fid::ending(combined.ending));
    let variants = if all.len() > 1 {
        let each =
            all.iter().map(|(taken, c)| Variant { taken: taken.clone(), headline: headline(c), estimates: vec![] });
        each.collect()
    } else {
        Vec::new()
    };
    let reading = Reading {
        method: "condition.combined".to_owned(),
        title: fid::COMBINED_TITLE.to_owned(),
        outcome,
        estimates: Vec::new(),
        statements: told.statements,
        cautions: told.cautions,
        sharpen: sharpen(all.first().map(|(_, combined)| combined)),
        variants,
        rests_on: ids_of(&used),
        entries_digest: digest_of(&used),
        sources: if outcome == Outcome::Read {
            sources::SOURCES.iter().chain(recalled.sources).map(Basis::from).collect()
        } else {
            Vec::new()
        },
    };
    scope.guard(used, reading)
}

/// Looks and weighings as evidence. Two sides of one jaw are averaged where both were dried: they differ in
/// life, and that is no contradiction.
fn bones(marrow: &Marrow) -> Vec<BoneEvidence> {
    let side = |site: Site| match site.side {
        None => 0,
        Some(Side::Left) => 1,
        Some(Side::Right) => 2,
    };
    let in_jaw = |bone: Option<Bone>| bone == Some(Bone::Mandible);
    let mut all = Vec::new();
    for look in &marrow.looks {
        if let Ok(read) = &look.result {
            let side = if in_jaw(look.bone) { 0 } else { side(look.site) };
            let (fawn, adult) = (read.fawn, read.adult);
            all.push(BoneEvidence { bone: fat::named(look.bone), side, fawn, adult, doubtful: read.doubtful });
        }
    }
    let jaw = fat::cavity(marrow).filter(|cavity| cavity.both);
    for weighing in &marrow.weighings {
        if jaw.is_some() && in_jaw(weighing.bone) {
            continue;
        }
        if let Ok(read) = &weighing.result {
            let (fawn, adult) = (read.fawn, read.adult);
            let side = if in_jaw(weighing.bone) { 0 } else { side(weighing.site) };
            all.push(BoneEvidence { bone: fat::named(weighing.bone), side, fawn, adult, doubtful: false });
        }
    }
    let exposure = marrow.weighings.iter().find(|w| in_jaw(w.bone)).map(|w| w.exposure).unwrap_or_default();
    if let Some(cavity) = jaw
        && let Ok(read) = read_lab(cavity.fat.get(), LabScale::FatExtracted, Some(method::Bone::Mandible), exposure)
    {
        let (bone, side) = (Some(method::Bone::Mandible), 0);
        all.push(BoneEvidence { bone, side, fawn: read.fawn, adult: read.adult, doubtful: false });
    }
    all
}

/// What has been said so far.
#[derive(Default)]
struct Told {
    statements: Vec<Statement>,
    cautions: Vec<Statement>,
}

impl Told {
    fn all(&mut self, combined: &Combined, split: bool) {
        let ending = if split { Ending::CannotSay } else { combined.ending };
        self.statements.push(Statement::plain(fid::ending(ending)));
        if split {
            self.statements.push(Statement::plain(fid::COMBINED_SPLIT));
        } else {
            self.statements.extend(combined.grounds.iter().map(|g| Statement::plain(fid::ground(*g))));
        }
        self.statements.extend(combined.conflicts.iter().map(|c| Statement::plain(fid::conflict(*c))));
        self.statements.extend(combined.depots.iter().copied().map(depot));
        self.statements.extend(combined.bones.iter().copied().map(bone));
    }

    fn cautions(&mut self, male: bool, cut: bool, let_in: Option<&str>) {
        // First, and in full: whoever quotes the word has to see it.
        self.cautions
            .extend(let_in.map(|why| Statement::plain(fid::COMBINED_LET_IN).with("why", Val::Text(why.to_owned()))));
        let mut add = |id: &str| self.cautions.push(Statement::plain(id));
        add(id::condition_caution(Caution::NotCause));
        add(fid::COMBINED_OVERLAP);
        if let_in.is_none() {
            add(fid::COMBINED_RECALLED);
        }
        if male {
            add(fid::FAT_RUT);
        }
        if cut {
            add(id::SPLIT_CUT);
        }
    }
}

fn depot(line: DepotLine) -> Statement {
    let named = |id: &str| {
        Statement::plain(id)
            .with("depot", Val::message(fid::depot(line.depot)))
            .with("turn", Val::message(fid::turn(line.depot.turn())))
    };
    let Some(stage) = line.stage else { return named(fid::COMBINED_DEPOT_OUT) };
    named(fid::COMBINED_DEPOT)
        .with("stage", Val::message(fid::stage(stage)))
        .with("allows", Val::message(fid::depot_allows(stage)))
        .with("forbids", Val::message(fid::depot_forbids(stage)))
}

fn bone(line: BoneLine) -> Statement {
    let name = Bone::ALL.into_iter().find(|bone| fat::named(Some(*bone)) == line.bone && line.bone.is_some());
    let named = |id: &str| Statement::plain(id).with("bone", Val::message(name.map_or(id::BONE_UNKNOWN, id::bone)));
    let BoneSays::Words { lowest, highest, .. } = line.says else { return named(fid::COMBINED_BONE_OUT) };
    let [low, used, full] = fid::BONE_ALLOWS;
    let [plain, of_full] = fid::BONE_FORBIDS;
    let (allows, forbids) = match highest {
        Word::Exhausted | Word::Depleted => (low, plain),
        Word::PartlyUsed => (used, plain),
        Word::MarrowFull => (full, of_full),
    };
    let said = if lowest == highest {
        named(fid::COMBINED_BONE).with("word", Val::message(id::word(lowest)))
    } else {
        named(fid::COMBINED_BONE_SPAN)
            .with("lowest", Val::message(id::word(lowest)))
            .with("highest", Val::message(id::word(highest)))
    };
    said.with("allows", Val::message(allows)).with("forbids", Val::message(forbids))
}

/// What to do next, by rule.
fn sharpen(combined: Option<&Combined>) -> Vec<Sharpen> {
    let marrow = |look: &str, finding: &str| Sharpen {
        look: Statement::plain(look),
        finding: finding.to_owned(),
        site: Site::bone(Bone::Femur),
        gain_bits: None,
    };
    let Some(combined) = combined else {
        return vec![marrow(id::LOOK_MARROW, "marrow_consistency"), fat::look_at_kidneys()];
    };
    let mut list = Vec::new();
    if combined.grounds.contains(&Ground::Contradiction) {
        list.push(marrow(fid::LOOK_MARROW_AGAIN, "marrow_consistency"));
    } else if combined.bones.iter().all(|line| line.says == BoneSays::Nothing) {
        list.push(marrow(id::LOOK_MARROW, "marrow_consistency"));
    } else if combined.grounds.contains(&Ground::MayBeEmptier) {
        list.push(marrow(id::LOOK_WEIGH, "marrow_wet_g"));
    }
    let kidney = crate::science::fat::look::Depot::Kidney;
    if combined.ending != Ending::Exhausted && !combined.depots.iter().any(|line| line.depot == kidney) {
        list.push(fat::look_at_kidneys());
    }
    list
}
