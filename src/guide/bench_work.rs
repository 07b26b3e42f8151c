//! What was taken for the bench and is not done yet: the list of open work.

use crate::record::{Carcass, Sheet};

/// A piece of work that waits on the bench; `bench_work.<code>` names it.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum BenchWork {
    /// The jaw was taken: clean it and look again.
    CleanJaw,
    /// A long bone was taken: thaw its marrow and look.
    MarrowLook,
    /// Marrow was weighed wet and not yet dry.
    MarrowDry,
}

impl BenchWork {
    /// The code used in message ids.
    pub const fn code(self) -> &'static str {
        match self {
            Self::CleanJaw => "clean_jaw",
            Self::MarrowLook => "marrow_look",
            Self::MarrowDry => "marrow_dry",
        }
    }
}

/// What waits on the bench for this carcass.
pub fn bench_work(carcass: &Carcass) -> Vec<BenchWork> {
    let sheets = |bench: bool| {
        let is_bench = move |kind: &Option<String>| kind.as_deref() == Some("bench");
        carcass.examinations.values().filter(move |e| is_bench(&e.kind) == bench).map(|e| &e.sheet)
    };
    let seen = |sheet: &Sheet, finding: &str| {
        sheet.answers().any(|(code, _, all)| code.as_str() == finding && all.iter().any(|s| s.answer.value().is_some()))
    };
    let in_field = |finding: &str| sheets(false).any(|s| seen(s, finding));
    let on_bench = |finding: &str| sheets(true).any(|s| seen(s, finding));
    let mut work = Vec::new();
    if in_field("jaw_taken") && !on_bench("tooth_state") {
        work.push(BenchWork::CleanJaw);
    }
    if in_field("femur_taken") && !on_bench("marrow_consistency") {
        work.push(BenchWork::MarrowLook);
    }
    if on_bench("marrow_wet_g") && !on_bench("marrow_dry_g") {
        work.push(BenchWork::MarrowDry);
    }
    work
}
