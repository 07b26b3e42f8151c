//! The way so far: what was answered by hand, in order, for Back, for the resume card and for the
//! journal of a carcass.

use crate::guide::{Ask, AskState, LEFT, RULED_OUT};
use crate::order::Short as _;
use crate::record::{Act, Answer, EntryId, FindingCode, Moment, PersonCode, Sheet, Site, Standing, Subject};

use super::{Now, Session};

/// One answer as it stands in the journal.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Answered {
    /// Its entry.
    pub(crate) id: EntryId,
    /// Which question.
    pub(crate) finding: FindingCode,
    /// Where.
    pub(crate) site: Site,
    /// What was said.
    pub(crate) answer: Answer,
    /// By whom.
    pub(crate) observer: PersonCode,
    /// When, by the phone's clock.
    pub(crate) at: Moment,
    /// The step that asked; absent for what the phone wrote by itself.
    pub(crate) step: Option<String>,
    /// What became of it.
    pub(crate) correction: Correction,
}

impl Answered {
    /// True where a person answered, rather than a rule or the leaving.
    pub(crate) fn by_hand(&self) -> bool {
        by_hand(self.step.as_deref())
    }
}

/// What became of an answer.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Correction {
    /// It stands.
    Stands,
    /// A later answer took its place.
    Replaced,
    /// It was taken back.
    TakenBack,
}

impl Session {
    /// Every answer about a subject in the order in which it was given.
    pub(crate) fn answers_about(&self, subject: Subject) -> Vec<Answered> {
        let mut replaced = std::collections::BTreeSet::new();
        let mut taken_back = std::collections::BTreeSet::new();
        for (_, body) in self.bodies.all() {
            match &body.act {
                Act::Answer { supersedes, .. } => replaced.extend(supersedes.iter().copied()),
                Act::Withdraw { supersedes } => taken_back.extend(supersedes.iter().copied()),
                _ => {}
            }
        }
        let become_of = |id: &EntryId| match (taken_back.contains(id), replaced.contains(id)) {
            (true, _) => Correction::TakenBack,
            (_, true) => Correction::Replaced,
            _ => Correction::Stands,
        };
        let answered = |(id, body): &(EntryId, crate::record::Body)| match &body.act {
            Act::Answer { key, answer, .. } => Some(Answered {
                id: *id,
                finding: key.finding.clone(),
                site: key.site,
                answer: answer.clone(),
                observer: key.observer.clone(),
                at: body.at,
                step: body.versions.step.clone(),
                correction: become_of(id),
            }),
            _ => None,
        };
        self.bodies.about(subject).filter_map(answered).collect()
    }

    /// Notes on who was hurt that stand, of every outing on this phone, the latest first.
    pub(crate) fn exposure_notes(&self) -> Vec<Standing> {
        let fold = self.bodies.fold_all();
        let of_one = |outing: &Sheet| {
            let mut all = outing.question("exposure_note", Site::NONE).standing;
            all.sort_by_key(|note| note.id);
            all.into_iter().rev().cloned().collect::<Vec<_>>()
        };
        fold.outings.values().rev().flat_map(of_one).collect()
    }

    /// Names of asks answered by hand that still stand, the latest last and each once.
    pub(crate) fn trail(&self, now: &Now) -> Vec<String> {
        let view = now.view();
        let mut names: Vec<(EntryId, String)> = Vec::new();
        for AskState { ask, .. } in &now.situation.asks {
            let questions = ask.questions(&view);
            let last = questions
                .iter()
                .flat_map(|(finding, site)| view.question(finding, *site).standing)
                .filter(|standing| standing.observer == self.here.person && by_hand(standing.step.as_deref()))
                .map(|standing| standing.id)
                .max();
            if let Some(id) = last {
                names.push((id, ask.name()));
            }
        }
        names.order();
        names.into_iter().map(|(_, name)| name).collect()
    }

    /// The ask before this one on the way; the last answered one where `from` is not on it.
    pub(crate) fn before(&self, now: &Now, from: Option<&Ask>) -> Option<String> {
        let trail = self.trail(now);
        let here = from.map(Ask::name);
        let place = trail.iter().position(|name| Some(name) == here.as_ref()).unwrap_or(trail.len());
        place.checked_sub(1).and_then(|p| trail.get(p)).cloned()
    }
}

/// Whether a person answered to a question, rather than a rule or the leaving.
fn by_hand(step: Option<&str>) -> bool {
    step.is_some_and(|step| step != RULED_OUT && step != LEFT)
}
