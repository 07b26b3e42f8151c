//! Reading the tables against the record: what fires, what is closed, what comes next.

use crate::record::{Answer, Why};

use super::steps::STEPS;
use super::{Ask, AskState, Draft, ExamKind, Fired, Grade, Hazard, Phase, Status, Step, Touch, View, hazards, reopen};

/// How the visit stands.
#[derive(Clone, Debug, PartialEq)]
pub struct Situation {
    /// Everything that applies, in the order in which it is asked.
    pub asks: Vec<AskState>,
    /// The next thing to ask; `None` when nothing is open.
    pub next: Option<Ask>,
    /// Hazards that fire now, in the order of the table.
    pub fired: Vec<Fired>,
    /// Answers that the record already settles: to be written without asking.
    pub to_write: Vec<Draft>,
    /// True once a physical sign of a crime was seen, for good.
    pub evidence_record: bool,
    /// The hazards that made it one, even where the answer was taken back since.
    pub evidence: Vec<&'static Hazard>,
}

impl Situation {
    /// Stops that close something now.
    pub fn stops(&self) -> impl Iterator<Item = &Fired> {
        self.fired.iter().filter(|f| f.hazard.grade >= Grade::Stop && f.closes_now())
    }

    /// True where nothing that touches the carcass may be done.
    pub fn hands_on_closed(&self) -> bool {
        self.evidence_record
            || self.fired.iter().any(|f| f.closes_now() && f.hazard.closes.closes_hands_on())
    }

    /// Advice that fires now.
    pub fn advice(&self) -> impl Iterator<Item = &Fired> {
        self.fired.iter().filter(|f| f.hazard.grade == Grade::Advise)
    }

    /// Answered and all asks of a phase.
    pub fn progress(&self, phase: Phase) -> (usize, usize) {
        let of = self.asks.iter().filter(|a| a.ask.phase() == phase);
        let (done, all) = of.fold((0, 0), |(d, n), a| (d + usize::from(a.status != Status::Open), n + 1));
        (done, all)
    }
}

/// How the visit stands, from the record alone.
pub fn situation(view: &View) -> Situation {
    let fired: Vec<Fired> = hazards::all().filter_map(|h| fire(view, h)).collect();
    let evidence: Vec<_> = hazards::all().filter(|h| h.evidence && hazards::was_ever_fired(view, h)).collect();
    let evidence_record = !evidence.is_empty();
    let mut out = Situation { asks: Vec::new(), next: None, fired, to_write: Vec::new(), evidence_record, evidence };
    for phase in phases(view) {
        for step in STEPS.iter().flat_map(|part| part.iter()).filter(|s| s.phase == *phase) {
            if (step.when)(view) {
                add_step(view, &mut out, step);
            }
        }
    }
    add_hazards(&mut out);
    out.next = out.asks.iter().find(|a| a.status == Status::Open).map(|a| a.ask);
    out
}

fn phases(view: &View) -> &'static [Phase] {
    match view.kind {
        ExamKind::Field => &Phase::FIELD,
        ExamKind::Bench => &[Phase::Bench, Phase::HandOver],
    }
}

fn fire(view: &View, hazard: &'static Hazard) -> Option<Fired> {
    (hazard.fires)(view).then(|| Fired {
        hazard,
        said: hazards::said(view, hazard),
        reopened: reopen::is_reopened(view, hazard),
    })
}

fn add_step(view: &View, out: &mut Situation, step: &'static Step) {
    let closed = closed_by(out, step);
    for site in (step.sites)(view) {
        let ask = Ask::Step { step, site };
        let status = if ask.is_answered(view) {
            Status::Answered
        } else if !closed.is_empty() {
            Status::Closed(closed.clone())
        } else if let Some(answer) = (step.ruled_out)(view) {
            out.to_write.extend(ask.fill(view, &answer));
            Status::Answered
        } else {
            Status::Open
        };
        out.asks.push(AskState { ask, status });
    }
}

fn closed_by(out: &Situation, step: &Step) -> Vec<&'static str> {
    let mut by: Vec<&'static str> =
        out.fired.iter().filter(|f| hazards::closes_step(f, step)).map(|f| f.hazard.id).collect();
    if by.is_empty() && step.touch > Touch::Look {
        by.extend(out.evidence.iter().map(|h| h.id));
    }
    by
}

/// Hazards that must be said (stops read, facts confirmed) stand before the first open step that
/// they guard: a stop before everything else at the place, a confirm before the first step of its
/// gate. A stop that is only the reason on the steps that it closes is not read out.
fn add_hazards(out: &mut Situation) {
    let unsaid: Vec<Fired> =
        out.fired.iter().copied().filter(|f| f.hazard.grade > Grade::Advise && f.said.is_none()).collect();
    let first_open = |out: &Situation| out.asks.iter().position(|a| a.status == Status::Open);
    for f in unsaid.into_iter().rev() {
        if f.hazard.grade >= Grade::Stop && !hazards::is_loud(f.hazard) {
            continue;
        }
        let place = if f.hazard.grade >= Grade::Stop {
            first_open(out)
        } else {
            out.asks.iter().position(|a| {
                matches!(a, AskState { ask: Ask::Step { step, .. }, status: Status::Open } if hazards::guards(f.hazard, step))
            })
        };
        let at_end = out.asks.len();
        let place = match (place, f.hazard.grade >= Grade::Stop) {
            (Some(place), _) => place,
            (None, true) => at_end,
            (None, false) => continue,
        };
        let phase = out.asks.get(place).map_or(Phase::Leave, |a| a.ask.phase());
        out.asks.insert(place, AskState { ask: Ask::Hazard { hazard: f.hazard, phase }, status: Status::Open });
    }
}

/// What to write when the crew leaves now, or closes the record: every open or closed question gets
/// its explicit state, so that `not looked` is never silent.
pub(crate) fn rest(view: &View, leaving: &Why) -> Vec<Draft> {
    let now = situation(view);
    now.asks
        .iter()
        .filter(|a| a.ask.phase().is_at_carcass() || a.ask.phase() == Phase::Bench)
        .filter(|a| matches!(a.ask, Ask::Step { .. }))
        .flat_map(|a| match &a.status {
            Status::Answered => Vec::new(),
            Status::Open => a.ask.fill(view, &Answer::NotLooked { why: leaving.clone() }),
            Status::Closed(by) => a.ask.fill(view, &Answer::NotLooked { why: hazards::why_closed(by) }),
        })
        .collect()
}

impl Situation {
    /// Every question at the carcass that is still open gets `NotLooked` with this reason, those
    /// behind a stop the stop's own (frozen, dark, cold, time, not trained, else a stop in force).
    pub fn leave_now(view: &View, why: &Why) -> Vec<Draft> {
        rest(view, why)
    }

    /// The place of a question among those of its finding, for tests and links.
    pub fn find(&self, name: &str) -> Option<&AskState> {
        self.asks.iter().find(|a| a.ask.name() == name)
    }
}
