//! Reading the tables against the record: what fires, what is closed, what comes next.

use crate::record::{Answer, Site, Why};

use super::steps::{STEPS, asks_for_permission};
use super::{
    Ask, AskState, Draft, ExamKind, Fired, Grade, Hazard, LEFT, Phase, RULED_OUT, Status, Step, Touch, View, hazards,
    reopen, short_record,
};

/// How the visit stands.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Situation {
    /// Everything that applies, in the order in which it is asked.
    pub asks: Vec<AskState>,
    /// The next thing to ask; `None` when nothing is open.
    pub next: Option<Ask>,
    /// Hazards that fire now, in the order of the table.
    pub fired: Vec<Fired>,
    /// Answers that the record already settles, of what lies before [`Situation::next`]: to be
    /// written without asking. Once written they are not repeated.
    pub to_write: Vec<Draft>,
    /// True once a physical sign of a crime was seen, for good.
    pub evidence_record: bool,
    /// The hazards that made it one, even where the answer was taken back since.
    pub evidence: Vec<&'static Hazard>,
}

impl Situation {
    /// Stops in force that are read out.
    pub fn stops(&self) -> impl Iterator<Item = &Fired> {
        self.fired.iter().filter(|f| hazards::is_loud(f.hazard) && f.closes_now())
    }

    /// What keeps steps closed without being an alarm: a permission that is missing, a body frozen
    /// through, nobody beside the one with the blade.
    pub fn held(&self) -> impl Iterator<Item = &Fired> {
        let quiet = |f: &&Fired| f.hazard.grade >= Grade::Stop && !hazards::is_loud(f.hazard);
        self.fired.iter().filter(quiet).filter(|f| f.closes_now())
    }

    /// True where nothing that touches the carcass may be done.
    pub fn hands_on_closed(&self) -> bool {
        self.evidence_record || self.fired.iter().any(|f| f.closes_now() && f.hazard.closes.closes_hands_on())
    }

    /// Advice that fires now.
    pub fn advice(&self) -> impl Iterator<Item = &Fired> {
        self.fired.iter().filter(|f| f.hazard.grade == Grade::Advise)
    }

    /// Answered, closed and all asks of a phase. What a stop closes is not done.
    pub fn progress(&self, phase: Phase) -> [usize; 3] {
        self.asks.iter().filter(|a| a.ask.phase() == phase).fold([0; 3], |[done, closed, all], a| match a.status {
            Status::Answered => [done + 1, closed, all + 1],
            Status::Closed(_) => [done, closed + 1, all + 1],
            Status::Open => [done, closed, all + 1],
        })
    }

    /// The ask that puts a question and is open to an answer; where this very place is not asked, the
    /// same question on the other side stands for it.
    pub fn asking(&self, view: &View, finding: &str, site: Site) -> Option<&AskState> {
        let open = |a: &&AskState| !matches!(a.status, Status::Closed(_));
        let puts = |exact: bool| {
            move |a: &&AskState| {
                let same = |s: Site| if exact { s == site } else { s.tooth == site.tooth && s.bone == site.bone };
                a.ask.questions(view).iter().any(|(f, s)| *f == finding && same(*s))
            }
        };
        let all = || self.asks.iter().filter(open);
        all().find(puts(true)).or_else(|| all().find(puts(false)))
    }

    /// The ask of a name, for links and tests.
    pub fn find(&self, name: &str) -> Option<&AskState> {
        self.asks.iter().find(|a| a.ask.name() == name)
    }
}

/// How the visit stands, from the record alone.
pub fn situation(view: &View) -> Situation {
    let Reading { mut out, settled } = read(view);
    let open = out.asks.iter().position(|a| a.status == Status::Open);
    out.next = open.and_then(|at| out.asks.get(at)).map(|a| a.ask);
    let passed = open.unwrap_or(usize::MAX);
    out.to_write = settled.into_iter().filter(|(at, _)| *at < passed).map(|(_, draft)| draft).collect();
    out
}

/// A situation in the making, with the answers that rules give and the ask that each belongs to.
struct Reading {
    out: Situation,
    settled: Vec<(usize, Draft)>,
}

fn read(view: &View) -> Reading {
    // A report is taken at a desk, and what was written on paper is over: nobody is in danger now, and what was
    // done is typed as it was done. That it is evidence stays.
    let at_carcass = view.kind != ExamKind::Report;
    let in_danger = at_carcass && !view.there("from_paper");
    let fired: Vec<Fired> = hazards::all().filter(|_| in_danger).filter_map(|h| fire(view, h)).collect();
    let evidence: Vec<_> =
        hazards::all().filter(|h| at_carcass && h.evidence && hazards::was_ever_fired(view, h)).collect();
    let evidence_record = !evidence.is_empty();
    let out = Situation { asks: Vec::new(), next: None, fired, to_write: Vec::new(), evidence_record, evidence };
    let mut reading = Reading { out, settled: Vec::new() };
    for phase in phases(view) {
        let of_phase: Vec<&'static Step> =
            STEPS.iter().flat_map(|part| part.iter()).filter(|s| s.phase == *phase && (s.when)(view)).collect();
        for run in of_phase.chunk_by(|a, b| !a.group.is_empty() && a.group == b.group) {
            add_run(view, &mut reading, run);
        }
    }
    add_hazards(&mut reading);
    reading
}

fn phases(view: &View) -> &'static [Phase] {
    match view.kind {
        ExamKind::Report => &Phase::REPORT,
        ExamKind::Field => &Phase::FIELD,
        ExamKind::Bench => &Phase::BENCH,
    }
}

fn fire(view: &View, hazard: &'static Hazard) -> Option<Fired> {
    (hazard.fires)(view).then(|| Fired {
        hazard,
        said: hazards::said(view, hazard),
        reopened: reopen::is_reopened(view, hazard),
    })
}

/// Steps of one group, place by place; a step without a group is a run of its own.
fn add_run(view: &View, reading: &mut Reading, run: &[&'static Step]) {
    let with_sites: Vec<(&'static Step, Vec<Site>)> = run.iter().map(|step| (*step, (step.sites)(view))).collect();
    let mut places: Vec<Site> = Vec::new();
    for site in with_sites.iter().flat_map(|(_, sites)| sites) {
        let place = home(*site);
        if !places.contains(&place) {
            places.push(place);
        }
    }
    for place in places {
        for (step, sites) in &with_sites {
            for site in sites.iter().filter(|s| home(**s) == place) {
                add_step(view, reading, step, *site);
            }
        }
    }
}

/// The place under which a group asks together: a tooth belongs to its side.
const fn home(site: Site) -> Site {
    Site { tooth: None, ..site }
}

/// What a rule settles comes before what a stop closes: `eaten` says more than `a stop is in force`.
fn add_step(view: &View, reading: &mut Reading, step: &'static Step, site: Site) {
    let ask = Ask::Step { step, site };
    let at = reading.out.asks.len();
    let mut settle = |answer: &Answer| {
        let drafts = ask.fill_as(view, answer, RULED_OUT).into_iter();
        let new = drafts.filter(|d| !view.is_ruled(d.finding, d.site, &d.answer));
        reading.settled.extend(new.map(|draft| (at, draft)));
    };
    let status = if ask.is_answered(view) {
        Status::Answered
    } else if let Some(answer) = (step.ruled_out)(view, site).or_else(|| short_record::left_out(view, step)) {
        settle(&answer);
        Status::Answered
    } else {
        let by = closed_by(view, &reading.out, step);
        if by.is_empty() {
            Status::Open
        } else {
            // A closed record leaves no question without a state.
            if view.is_closed() {
                settle(&Answer::NotLooked { why: hazards::why_closed(&by) });
            }
            Status::Closed(by)
        }
    };
    reading.out.asks.push(AskState { ask, status });
}

fn closed_by(view: &View, out: &Situation, step: &Step) -> Vec<&'static str> {
    let mut by: Vec<&'static str> =
        out.fired.iter().filter(|f| hazards::closes_step(f, step)).map(|f| f.hazard.id).collect();
    if by.is_empty() && step.touch > Touch::Look && !view.there("from_paper") {
        by.extend(out.evidence.iter().map(|h| h.id));
    }
    by
}

/// Hazards that must be said (stops read, facts confirmed) stand before the first open step that
/// they guard: a stop before everything else that is open, a confirm before the first step of its
/// gate, once it is known that the gate is wanted. A stop that is only the reason on the steps that
/// it closes is not read out.
fn add_hazards(reading: &mut Reading) {
    let out = &mut reading.out;
    let unsaid: Vec<Fired> =
        out.fired.iter().copied().filter(|f| f.hazard.grade > Grade::Advise && f.said.is_none()).collect();
    for f in unsaid.into_iter().rev() {
        let stops = f.hazard.grade >= Grade::Stop;
        if stops && !hazards::is_loud(f.hazard) {
            continue;
        }
        let place = out.asks.iter().position(|a| match a {
            AskState { status: Status::Answered | Status::Closed(_), .. } => false,
            AskState { ask: Ask::Step { step, .. }, .. } => {
                stops || (hazards::guards(f.hazard, step) && !asks_for_permission(step))
            }
            AskState { ask: Ask::Hazard { .. }, .. } => stops,
        });
        let place = match place {
            Some(place) => place,
            // A stop is read even where nothing is left to close.
            None if stops => out.asks.len(),
            None => continue,
        };
        let phase = out.asks.get(place).map_or(Phase::Leave, |a| a.ask.phase());
        out.asks.insert(place, AskState { ask: Ask::Hazard { hazard: f.hazard, phase }, status: Status::Open });
        for (at, _) in reading.settled.iter_mut().filter(|(at, _)| *at >= place) {
            *at += 1;
        }
    }
}

/// Everything at the carcass or on the bench that would be left without a state, with the state
/// that it gets: what a rule settles its own, what a stop closes the stop's reason, and what is open
/// `NotLooked` with the reason for leaving.
pub(crate) fn rest(view: &View, leaving: &Why) -> Vec<Draft> {
    let Reading { out, settled } = read(view);
    let of_the_work = |phase: Phase| phase.is_at_carcass() || phase == Phase::Bench;
    let mut drafts: Vec<Draft> = Vec::new();
    for (at, state) in out.asks.iter().enumerate() {
        if !of_the_work(state.ask.phase()) || matches!(state.ask, Ask::Hazard { .. }) {
            continue;
        }
        drafts.extend(match &state.status {
            Status::Answered => settled.iter().filter(|(of, _)| *of == at).map(|(_, d)| d.clone()).collect(),
            Status::Open => state.ask.fill_as(view, &Answer::NotLooked { why: leaving.clone() }, LEFT),
            Status::Closed(by) => state.ask.fill_as(view, &Answer::NotLooked { why: hazards::why_closed(by) }, LEFT),
        });
    }
    drafts
}
