//! Results of laboratories as they stand in a carcass: which test, of which sample, and what came back.

use std::collections::BTreeMap;

use uuid::Uuid;

use crate::card::TestKind;
use crate::record::{
    Answer, Carcass, CustodyItem, EntryId, Examination, Fold, Hands, Moment, Sheet, Site, Standing, Value, plain_number,
};

/// The findings that hold what came back, with the finding that names its sample where that is one of its own.
const RESULTS: [(&str, &str); 4] = [
    ("cementum_years_count", "cementum_sample"),
    ("marrow_lab_percent", ""),
    ("test_result", ""),
    ("dna_of", "dna_sample"),
];

/// A result.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Entered {
    /// The bench examination in which it stands.
    pub examination: Uuid,
    /// Its entry.
    pub id: EntryId,
    /// The finding that holds it.
    pub finding: &'static str,
    /// At which place.
    pub site: Site,
    /// What came back.
    pub answer: Answer,
    /// The test's code on the local card; empty for what was entered by hand without one.
    pub test: String,
    /// The sample's number; empty where nobody said.
    pub sample: String,
    /// Of a disease test: the disease.
    pub disease: String,
    /// The laboratory.
    pub laboratory: String,
    /// When it reported.
    pub reported_at: Option<Moment>,
    /// Who entered it.
    pub by: String,
    /// It is what the office decided, and none of the results that it weighed says so any more: they were corrected or
    /// taken back since.
    pub decided: bool,
}

impl Entered {
    /// Whether it is a result of this test. One that was entered by hand names no test: then the kind decides.
    pub fn is_of(&self, test: &str, kind: TestKind) -> bool {
        if self.test.is_empty() { self.finding == finding_of(kind) } else { self.test == test }
    }

    /// What has to be said beside it, where it is what the office decided and nothing else says so any more.
    pub fn caution(&self) -> Option<String> {
        self.decided.then(|| {
            format!(
                "decided so by {} (entry {}); the result that it rests on was corrected or taken back since. It counts \
                 until a person decides anew, or takes it back with office decide undo (at the command line)",
                self.by, self.id
            )
        })
    }

    /// The laboratory said that it is not done yet.
    pub const fn is_pending(&self) -> bool {
        matches!(self.answer, Answer::NotLooked { .. })
    }

    /// Of a disease test: its state.
    pub fn state(&self) -> Option<TestState> {
        (self.finding == "test_result").then(|| TestState::of(&self.answer)).flatten()
    }
}

/// The finding in which a kind of test has its result.
pub const fn finding_of(kind: TestKind) -> &'static str {
    match kind {
        TestKind::CementumAge => "cementum_years_count",
        TestKind::MarrowDryWeight | TestKind::MarrowFat => "marrow_lab_percent",
        TestKind::Disease => "test_result",
        TestKind::Dna => "dna_of",
    }
}

/// What a laboratory says of a disease. A suspect is never a positive, and what was unsuitable is not free of it.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, serde::Serialize)]
#[serde(rename_all = "snake_case")]
pub enum TestState {
    /// Found.
    Positive,
    /// Not ruled out: to be confirmed.
    Suspect,
    /// Tested, not found.
    NotDetected,
    /// The sample could not be tested.
    Unsuitable,
    /// Not done yet.
    Pending,
}

impl TestState {
    /// All.
    pub const ALL: [Self; 5] = [Self::Positive, Self::Suspect, Self::NotDetected, Self::Unsuitable, Self::Pending];

    /// The code in a laboratory's sheet.
    pub const fn code(self) -> &'static str {
        match self {
            Self::Positive => "positive",
            Self::Suspect => "suspect",
            Self::NotDetected => "not_detected",
            Self::Unsuitable => "unsuitable",
            Self::Pending => "pending",
        }
    }

    /// Its words, by id of the office's own texts.
    pub const fn text(self) -> &'static str {
        match self {
            Self::Positive => "lab.state.positive",
            Self::Suspect => "lab.state.suspect",
            Self::NotDetected => "lab.state.not_detected",
            Self::Unsuitable => "lab.state.unsuitable",
            Self::Pending => "lab.state.pending",
        }
    }

    /// The reason that a sheet's line enters where there is no result.
    pub const fn why(self) -> Option<&'static str> {
        match self {
            Self::Unsuitable => Some("unsuitable sample"),
            Self::Pending => Some("pending at the laboratory"),
            Self::Positive | Self::Suspect | Self::NotDetected => None,
        }
    }

    /// The state of an answer on `test_result`.
    pub fn of(answer: &Answer) -> Option<Self> {
        match answer {
            Answer::Seen { value: Value::Choice(code) } if code == "positive" => Some(Self::Positive),
            Answer::Seen { value: Value::Choice(code) } if code == "suspect" => Some(Self::Suspect),
            Answer::Seen { .. } => None,
            Answer::NotSeen => Some(Self::NotDetected),
            Answer::CantTell { .. } | Answer::PartGone { .. } => Some(Self::Unsuitable),
            Answer::NotLooked { .. } => Some(Self::Pending),
        }
    }
}

fn text(sheet: &Sheet, finding: &str) -> String {
    match sheet.answer(finding) {
        Answer::Seen { value: Value::Text(text) } => text,
        _ => String::new(),
    }
}

/// Of which sample and by which test a result of a disease is; `None` for other findings, and where either was not said.
pub(super) fn sample_and_test(finding: &str, sheet: &Sheet, names: &SampleNames) -> Option<[String; 2]> {
    let test = || Some(text(sheet, "lab_test")).filter(|test| !test.is_empty());
    let disease = || Some(text(sheet, "test_for").to_lowercase()).filter(|disease| !disease.is_empty());
    let sample = names.on_label(&text(sheet, "lab_sample"));
    (finding == "test_result" && !sample.is_empty()).then(|| test().or_else(disease).map(|test| [sample, test]))?
}

/// Which of a carcass's samples a number means.
#[derive(Clone, Debug, Default)]
pub struct SampleNames(BTreeMap<String, Vec<(u8, usize, String)>>);

impl SampleNames {
    /// Of these samples.
    pub fn of<'i>(items: impl IntoIterator<Item = &'i CustodyItem>) -> Self {
        let mut out: BTreeMap<String, Vec<(u8, usize, String)>> = BTreeMap::new();
        for (at, item) in items.into_iter().enumerate() {
            for number in item.numbers() {
                let Some(rank) = item.rank_of(number) else { continue };
                out.entry(plain_number(number)).or_default().push((rank, at, plain_number(&item.number)));
            }
        }
        for all in out.values_mut() {
            let nearest = all.iter().map(|(rank, _, _)| *rank).min().unwrap_or_default();
            all.retain(|(rank, _, _)| *rank == nearest);
        }
        Self(out)
    }

    /// Of the samples of a carcass, whoever had them.
    pub fn of_carcass(carcass: &Carcass) -> Self {
        Self::of(&Hands::default().list(&Fold::default(), carcass))
    }

    /// The places of those that a number fits best; several only where several bear it alike.
    pub fn places(&self, number: &str) -> impl Iterator<Item = usize> {
        self.0.get(&plain_number(number)).into_iter().flatten().map(|(_, at, _)| *at)
    }

    /// The number on the label of the one that is meant; the number itself where that is nobody's or several's.
    fn on_label(&self, number: &str) -> String {
        let plain = plain_number(number);
        match self.0.get(&plain).map(Vec::as_slice) {
            Some([(_, _, label)]) => label.clone(),
            _ => plain,
        }
    }
}

/// Every result that stands on a carcass, in the order of its examinations. Results that a crew typed on its bench
/// are among them; those that the office weighed and did not choose are not. What the office chose stands also where
/// the result that it chose was corrected since.
pub fn entered(carcass: &Carcass) -> Vec<Entered> {
    let mut out = Vec::new();
    let mut standing_at: BTreeMap<EntryId, usize> = BTreeMap::new();
    for examination in carcass.examinations.values() {
        for (finding, own_sample) in RESULTS {
            let of_this = examination.sheet.answers().filter(|(code, _, _)| code.as_str() == finding);
            let of_this = of_this.flat_map(|(_, site, all)| all.iter().map(move |one| (site, one)));
            for (site, standing) in of_this.filter(|(site, one)| carcass.counts(finding, *site, one)) {
                standing_at.insert(standing.id, out.len());
                out.push(one(examination, (finding, own_sample), site, standing));
            }
        }
    }
    let mut homes: BTreeMap<EntryId, &Examination> = BTreeMap::new();
    if RESULTS.iter().any(|(finding, _)| carcass.decided_sites(finding).next().is_some()) {
        let of = |exam| move |id: &EntryId| (*id, exam);
        homes.extend(carcass.examinations.values().flat_map(|exam| exam.sheet.history().iter().map(of(exam))));
    }
    for (finding, own_sample) in RESULTS {
        for site in carcass.decided_sites(finding) {
            for (standing, on) in carcass.decisions(finding, site) {
                // A result that it chose says the same already.
                let at = |id: &EntryId| standing_at.get(id).and_then(|at| out.get(*at));
                if on.iter().filter_map(at).any(|one: &Entered| one.answer == standing.answer) {
                    continue;
                }
                let mut of = on.iter().filter_map(|id| homes.get(id).copied());
                // Of those that it weighed the one whose result it chose, where that can still be told.
                let was_chosen = |exam: &&Examination| exam.sheet.was_ever_said(finding, site, &standing.answer);
                let of = of.clone().find(was_chosen).or_else(|| of.next());
                out.extend(of.map(|of| Entered { decided: true, ..one(of, (finding, own_sample), site, standing) }));
            }
        }
    }
    out
}

fn one(
    examination: &Examination,
    (finding, own_sample): (&'static str, &str),
    site: Site,
    standing: &Standing,
) -> Entered {
    let sheet = &examination.sheet;
    let first = |findings: [&str; 2]| {
        let found = findings.into_iter().filter(|finding| !finding.is_empty()).map(|finding| text(sheet, finding));
        found.into_iter().find(|text| !text.is_empty()).unwrap_or_default()
    };
    let own = finding.split_once('_').map_or("", |(begin, _)| begin);
    let reported = [format!("{own}_reported_at"), "lab_reported_at".to_owned()];
    let reported_at = reported.iter().find_map(|finding| match sheet.answer(finding) {
        Answer::Seen { value: Value::Instant(at) } => Some(at),
        _ => None,
    });
    Entered {
        examination: examination.id,
        id: standing.id,
        finding,
        site,
        answer: standing.answer.clone(),
        test: text(sheet, "lab_test"),
        sample: first([own_sample, "lab_sample"]),
        disease: text(sheet, "test_for"),
        laboratory: first([&format!("{own}_lab"), "lab_name"]),
        reported_at,
        by: standing.observer.to_string(),
        decided: false,
    }
}
