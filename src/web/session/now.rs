//! How things stand at this moment: what every screen reads, made anew after each entry.

use std::sync::Arc;

use uuid::Uuid;

use crate::card::Card;
use crate::guide::{Ask, ExamKind, Phase, Situation, View, before, daylight, situation};
use crate::record::{Carcass, Fold, Moment, PersonCode, Sheet, Subject};

/// What is in hand.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) struct Here {
    /// Who holds the phone.
    pub(crate) person: PersonCode,
    /// The day out.
    pub(crate) outing: Option<Uuid>,
    /// The report.
    pub(crate) report: Option<Uuid>,
    /// The examination.
    pub(crate) examination: Option<Uuid>,
    /// What is begun next is typed in from a sheet of paper.
    pub(crate) from_paper: bool,
    /// The examination at which a second person looks without knowing what was said.
    pub(crate) second_look: Option<Uuid>,
}

impl Default for Here {
    fn default() -> Self {
        Self {
            person: PersonCode::unnamed(),
            outing: None,
            report: None,
            examination: None,
            from_paper: false,
            second_look: None,
        }
    }
}

impl Here {
    /// The examination in hand, where a second person is looking at it.
    pub(crate) fn looked_at_again(&self) -> Option<Uuid> {
        self.second_look.filter(|exam| self.examination == Some(*exam))
    }
}

/// How things stand.
pub(crate) struct Now {
    /// What is in hand.
    pub(crate) here: Here,
    /// What stands of it.
    pub(crate) fold: Fold,
    /// Field or bench.
    pub(crate) kind: ExamKind,
    /// The local card, where one is loaded.
    pub(crate) card: Option<Arc<Card>>,
    /// By the phone's clock.
    pub(crate) at: Moment,
    /// What the guide makes of it; without an examination nothing is asked.
    pub(crate) situation: Situation,
    empty: Sheet,
}

impl Now {
    /// Read the guide's tables against what stands.
    pub(crate) fn new(here: Here, fold: Fold, card: Option<Arc<Card>>, at: Moment) -> Self {
        let kind = match here.examination.and_then(|id| fold.examination(id)).and_then(|e| e.kind.as_deref()) {
            Some("bench") => ExamKind::Bench,
            None if here.examination.is_none() && here.report.is_some() => ExamKind::Report,
            _ => ExamKind::Field,
        };
        let mut now = Self { here, fold, kind, card, at, situation: Situation::default(), empty: Sheet::default() };
        if now.here.examination.is_some() || now.kind == ExamKind::Report {
            now.situation = situation(&now.view());
        }
        now
    }

    /// What the guide reads.
    pub(crate) fn view(&self) -> View<'_> {
        let sheet = |subject: Option<Subject>| subject.and_then(|s| self.fold.sheet(s));
        View {
            kind: self.kind,
            outing: self.outing_sheet(),
            exam: sheet(self.here.examination.map(Subject::Examination)).unwrap_or(&self.empty),
            report: sheet(self.here.report.map(Subject::Report)),
            before: self.here.outing.zip(self.here.examination).and_then(|(o, e)| before(&self.fold, o, e)),
            carcass: self.carcass(),
            card: self.card.as_deref(),
            person: &self.here.person,
            now: self.at,
        }
    }

    fn outing_sheet(&self) -> &Sheet {
        self.here.outing.and_then(|id| self.fold.sheet(Subject::Outing(id))).unwrap_or(&self.empty)
    }

    /// The carcass in hand.
    pub(crate) fn carcass(&self) -> Option<&Carcass> {
        self.here.examination.and_then(|id| self.fold.carcass_of(id))
    }

    /// When the crew is due back, once that was said.
    pub(crate) fn due_back(&self) -> Option<Moment> {
        daylight::due_back(&self.view())
    }

    /// The ask of that name, or the next one.
    pub(crate) fn ask(&self, name: Option<&str>) -> Option<Ask> {
        match name {
            Some(name) => self.situation.find(name).map(|a| a.ask),
            None => self.situation.next,
        }
    }

    /// The phase of what comes next.
    pub(crate) fn phase(&self) -> Option<Phase> {
        match (self.here.examination, self.situation.next) {
            (Some(_), Some(ask)) => Some(ask.phase()),
            (Some(_), None) => Some(Phase::HandOver),
            (None, _) => (self.kind == ExamKind::Report).then_some(Phase::Report),
        }
    }

    /// True once the crew said that it leaves at once.
    pub(crate) fn is_left(&self) -> bool {
        self.view().choice("left_early").is_some()
    }

    /// True once the examination in hand was closed.
    pub(crate) fn is_closed(&self) -> bool {
        self.view().choice("examination_closed").is_some()
    }
}
