//! What was taken for the bench and is not done yet: the list of open work.
//!
//! A piece of work is done once somebody answered it on a bench, on any day: with a value, with `not there`,
//! or with a reason that will not pass. Cold, dark, frost and want of time pass, so it goes on waiting.

use crate::record::{Answer, Bone, Carcass, Sheet, Site, Why};

/// A piece of work that waits on the bench; `bench_work.<code>` names it.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum BenchWork {
    /// The jaw was taken: clean it and look again.
    CleanJaw,
    /// The jaw was taken: take and weigh what lies in its hollow.
    JawCavity,
    /// A long bone was taken: thaw its marrow and look.
    MarrowLook,
    /// A long bone was taken: weigh a plug of its marrow.
    MarrowWet,
    /// Marrow was weighed wet and not yet dry.
    MarrowDry,
    /// The kidneys were taken: weigh them and their fat.
    Kidneys,
    /// The heart was taken: look at its fat.
    Heart,
    /// Rumen contents were taken: count points or sort by volume.
    RumenCount,
}

impl BenchWork {
    /// All of it.
    pub const ALL: [Self; 8] = [
        Self::CleanJaw,
        Self::JawCavity,
        Self::MarrowLook,
        Self::MarrowWet,
        Self::MarrowDry,
        Self::Kidneys,
        Self::Heart,
        Self::RumenCount,
    ];

    /// The code used in message ids.
    pub const fn code(self) -> &'static str {
        match self {
            Self::CleanJaw => "clean_jaw",
            Self::JawCavity => "jaw_cavity",
            Self::MarrowLook => "marrow_look",
            Self::MarrowWet => "marrow_wet",
            Self::MarrowDry => "marrow_dry",
            Self::Kidneys => "kidneys",
            Self::Heart => "heart",
            Self::RumenCount => "rumen_count",
        }
    }
}

/// The examinations of one kind.
struct Sheets<'a>(Vec<&'a Sheet>);

impl<'a> Sheets<'a> {
    fn of(carcass: &'a Carcass, bench: bool) -> Self {
        let is_bench = |kind: &Option<String>| kind.as_deref() == Some("bench");
        let all = carcass.examinations.values().filter(|e| is_bench(&e.kind) == bench);
        Self(all.map(|e| &e.sheet).collect())
    }

    fn answers(&self, finding: &'static str) -> impl Iterator<Item = (Site, &'a Answer)> {
        let of = move |sheet: &&'a Sheet| {
            let asked = sheet.answers().filter(move |(code, _, _)| code.as_str() == finding);
            asked.flat_map(|(_, site, all)| all.iter().map(move |s| (site, &s.answer))).collect::<Vec<_>>()
        };
        self.0.iter().flat_map(of).collect::<Vec<_>>().into_iter()
    }

    fn seen(&self, finding: &'static str) -> bool {
        self.answers(finding).any(|(_, answer)| answer.value().is_some())
    }

    fn done(&self, finding: &'static str, at: fn(Site) -> bool) -> bool {
        self.answers(finding).any(|(site, answer)| at(site) && settles(answer))
    }

    /// Answered, and there is nothing to go on with: not there, gone, or given up for good.
    fn given_up(&self, finding: &'static str) -> bool {
        self.answers(finding).any(|(_, answer)| answer.value().is_none() && settles(answer))
    }

    fn took(&self, organ: &str) -> bool {
        self.0.iter().any(|sheet| sheet.chose("organs_taken", organ))
    }
}

/// Whether an answer ends the waiting.
const fn settles(answer: &Answer) -> bool {
    match answer {
        Answer::Seen { .. } | Answer::NotSeen | Answer::PartGone { .. } => true,
        Answer::CantTell { why } | Answer::NotLooked { why } => {
            !matches!(why, Why::Frozen | Why::Dark | Why::Cold | Why::Time | Why::NotGiven)
        }
    }
}

/// Whether something weighed wet still waits for its dry weight, place by place.
fn dry_waits(bench: &Sheets) -> bool {
    let dry: Vec<Site> =
        bench.answers("marrow_dry_g").filter(|(_, answer)| settles(answer)).map(|(site, _)| site).collect();
    let mut wet = bench.answers("marrow_wet_g").filter(|(_, answer)| answer.value().is_some());
    wet.any(|(site, _)| !dry.contains(&site))
}

/// What waits on the bench for this carcass.
pub fn bench_work(carcass: &Carcass) -> Vec<BenchWork> {
    let (field, bench) = (Sheets::of(carcass, false), Sheets::of(carcass, true));
    let any: fn(Site) -> bool = |_| true;
    let hollow: fn(Site) -> bool = |site| site.bone == Some(Bone::Mandible);
    let long_bone: fn(Site) -> bool = |site| site.bone != Some(Bone::Mandible);
    let (jaw, bone) = (field.seen("jaw_taken"), field.seen("femur_taken"));
    let waits = |work| match work {
        BenchWork::CleanJaw => jaw && !bench.seen("tooth_state"),
        BenchWork::JawCavity => jaw && !(bench.done("marrow_wet_g", hollow) || bench.given_up("jaw_cavity")),
        BenchWork::MarrowLook => bone && !bench.seen("marrow_consistency"),
        BenchWork::MarrowWet => bone && !bench.done("marrow_wet_g", long_bone),
        BenchWork::MarrowDry => dry_waits(&bench),
        BenchWork::Kidneys => field.took("kidneys") && !(bench.done("kidney_g", any) || bench.given_up("kidneys_here")),
        BenchWork::RumenCount => field.0.iter().any(|s| rumen_taken(s)) && !rumen_done(&bench),
        BenchWork::Heart => field.took("heart") && !bench.done("heart_fat", any),
    };
    BenchWork::ALL.into_iter().filter(|work| waits(*work)).collect()
}

/// A bag of rumen contents left the carcass.
fn rumen_taken(sheet: &Sheet) -> bool {
    let rumen = Answer::choice("rumen");
    sheet.answers().any(|(code, _, all)| code.as_str() == "sample_what" && all.iter().any(|s| s.answer == rumen))
}

/// The count or the sorting is done, or somebody found that there is nothing to count. Put off is not done.
fn rumen_done(bench: &Sheets) -> bool {
    let any: fn(Site) -> bool = |_| true;
    bench.done("rumen_point_count", any) || bench.done("rumen_sorting", any) || bench.given_up("rumen_method")
}
