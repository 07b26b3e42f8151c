//! One thing asked of the crew: a step at a place, or the statement of a hazard.

use crate::record::{Answer, Side, Site, Tooth, Why, find};

use super::{About, Draft, Hazard, Input, Phase, Step, Touch, View};

/// One thing asked.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Ask {
    /// A step of the protocol at one place.
    Step {
        /// The row.
        step: &'static Step,
        /// The place.
        site: Site,
    },
    /// A hazard's statement: a stop to be read and stood back from, or a fact to be confirmed.
    Hazard {
        /// The row.
        hazard: &'static Hazard,
        /// The phase at whose gate it speaks.
        phase: Phase,
    },
}

/// Where an ask stands.
#[derive(Clone, Debug, PartialEq)]
pub enum Status {
    /// Every question of it has one of the five answers.
    Answered,
    /// To be asked.
    Open,
    /// Closed by these hazards.
    Closed(Vec<&'static str>),
}

/// An ask and where it stands.
#[derive(Clone, Debug, PartialEq)]
pub struct AskState {
    /// What is asked.
    pub ask: Ask,
    /// Where it stands.
    pub status: Status,
}

impl Ask {
    /// The phase it belongs to.
    pub const fn phase(&self) -> Phase {
        match self {
            Self::Step { step, .. } => step.phase,
            Self::Hazard { phase, .. } => *phase,
        }
    }

    /// The step's or the hazard's id, without the place.
    pub const fn id(&self) -> &'static str {
        match self {
            Self::Step { step, .. } => step.id,
            Self::Hazard { hazard, .. } => hazard.id,
        }
    }

    /// A name that stays the same from one day to the next, for links and tests.
    pub fn name(&self) -> String {
        match self {
            Self::Hazard { hazard, .. } => hazard.id.to_owned(),
            Self::Step { step, site } => {
                let mut name = step.id.to_owned();
                let mut add = |part: &str| {
                    name.push('.');
                    name.push_str(part);
                };
                if let Some(side) = site.side {
                    add(side.code());
                }
                if let Some(tooth) = site.tooth {
                    add(&tooth.name().to_ascii_lowercase());
                }
                if let Some(bone) = site.bone {
                    add(bone.code());
                }
                if let Some(item) = site.item {
                    add(&item.to_string());
                }
                name
            }
        }
    }

    /// The questions that it covers: findings with their places.
    pub fn questions(&self, view: &View) -> Vec<(&'static str, Site)> {
        match self {
            Self::Hazard { hazard, .. } => vec![(hazard.confirm, Site::NONE)],
            Self::Step { step, site } => match step.input {
                Input::Choice(f)
                | Input::Choices(f)
                | Input::Number(f)
                | Input::Text(f)
                | Input::Instant(f)
                | Input::Place(f)
                | Input::ReadDo(f)
                | Input::Photo(f)
                | Input::Sweep { finding: f, .. }
                | Input::Points { done: f, .. }
                | Input::Volumes { done: f, .. } => vec![(f, *site)],
                Input::Panel(signs) => signs.iter().map(|f| (*f, *site)).collect(),
                Input::Photos { finding, items } => items.iter().map(|n| (finding, Site::item(*n))).collect(),
                Input::Jaw => jaw_questions(view, site.side.unwrap_or(Side::Left)),
            },
        }
    }

    /// True where every question has one of the five answers; of a step that insists, where each has a value.
    pub fn is_answered(&self, view: &View) -> bool {
        self.questions(view).iter().all(|(f, s)| self.is_said(view, f, *s))
    }

    fn is_said(&self, view: &View, finding: &str, site: Site) -> bool {
        let insists = matches!(self, Self::Step { step, .. } if step.insists) && !view.is_closed();
        let has_value = || view.question(finding, site).standing.iter().any(|s| s.answer.value().is_some());
        view.is_answered(finding, site) && (!insists || has_value())
    }

    /// True where `looked, and it is not there` is an answer to this ask as the record stands.
    pub fn may_be_absent(&self, view: &View) -> bool {
        matches!(self, Self::Step { step, .. } if step.absent.is_some_and(|may| may(view)))
    }

    /// One answer for every question of the ask that has none yet. Empty where the answer is
    /// `NotSeen` and [`Ask::may_be_absent`] does not allow it: what was not looked for is never
    /// written as not there. A hazard's statement without a value is `cannot`: only `done` opens.
    pub fn fill(&self, view: &View, answer: &Answer) -> Vec<Draft> {
        if matches!(self, Self::Hazard { .. }) && answer.value().is_none() {
            return self.fill_as(view, &Answer::choice("cannot"), self.id());
        }
        if *answer == Answer::NotSeen && !self.may_be_absent(view) {
            return Vec::new();
        }
        self.fill_as(view, answer, self.id())
    }

    /// The same under another name than the step's, without asking whether it may be absent: for
    /// what is written by rule, which never writes `NotSeen`, and for a sweep, which was looked over.
    pub(crate) fn fill_as(&self, view: &View, answer: &Answer, step: &'static str) -> Vec<Draft> {
        let open = |f: &str, s: Site| matches!(self, Self::Hazard { .. }) || !self.is_said(view, f, s);
        self.questions(view)
            .into_iter()
            .filter(|(f, s)| open(f, *s))
            .map(|(finding, site)| Draft { finding, site, answer: answer.clone(), step })
            .collect()
    }

    /// A panel finished: the signs tapped are there, all its others were looked for and are not.
    /// With no sign tapped this is `none of these`. Where not enough was looked over to say so
    /// ([`Ask::may_be_absent`]), the others cannot be told, with the likely reason. Empty for other
    /// inputs.
    pub fn panel(&self, view: &View, seen: &[&str]) -> Vec<Draft> {
        let Self::Step { step, site } = self else { return Vec::new() };
        let Input::Panel(signs) = step.input else { return Vec::new() };
        let other =
            if self.may_be_absent(view) { Answer::NotSeen } else { Answer::CantTell { why: self.likely_why(view) } };
        let answer = |sign: &str| if seen.contains(&sign) { Answer::choice("there") } else { other.clone() };
        signs.iter().map(|sign| Draft { finding: sign, site: *site, answer: answer(sign), step: step.id }).collect()
    }

    /// `None of these` said of a sweep: the answer itself, every sign of its panels looked for and not there, its
    /// lines stated. What was answered by hand before stands. Empty for other inputs.
    pub fn sweep(&self, view: &View) -> Vec<Draft> {
        let Self::Step { step, site } = self else { return Vec::new() };
        let Input::Sweep { finding, steps } = step.input else { return Vec::new() };
        let mut drafts = vec![Draft { finding, site: *site, answer: Answer::choice("none_of_these"), step: step.id }];
        for covered in steps.iter().filter_map(|id| super::steps::step(id)).filter(|covered| (covered.when)(view)) {
            let ask = Self::Step { step: covered, site: *site };
            let answer = match covered.input {
                Input::Panel(_) if ask.may_be_absent(view) => Answer::NotSeen,
                Input::ReadDo(_) => Answer::choice("there"),
                _ => continue,
            };
            drafts.extend(ask.fill_as(view, &answer, step.id));
        }
        drafts
    }

    /// What taking this answer back takes back: its own questions; of a sweep also what this person said by
    /// it of each sign, as far as nobody was asked since.
    pub fn to_take_back(&self, view: &View) -> Vec<(&'static str, Site)> {
        let mut all = self.questions(view);
        let Self::Step { step, site } = self else { return all };
        let Input::Sweep { steps, .. } = step.input else { return all };
        let swept = |(finding, site): &(&'static str, Site)| {
            view.question(finding, *site)
                .standing
                .iter()
                .any(|s| s.step.as_deref() == Some(step.id) && s.observer == *view.person)
        };
        let covered = steps.iter().filter_map(|id| super::steps::step(id));
        all.extend(covered.flat_map(|step| Self::Step { step, site: *site }.questions(view)).filter(swept));
        all
    }

    /// What it asks about.
    pub const fn about(&self) -> About {
        match self {
            Self::Step { step, .. } => step.about,
            Self::Hazard { .. } => About::Visit,
        }
    }

    /// The likely reason for having no answer here, preset on the `No answer` screen.
    pub fn likely_why(&self, view: &View) -> Why {
        let likely = self.of_the_body(view);
        if self.about().takes(&likely) { likely } else { Why::NotGiven }
    }

    fn of_the_body(&self, view: &View) -> Why {
        let Self::Step { step, .. } = self else { return Why::NotGiven };
        let of_the_body =
            matches!(step.phase, Phase::StandOff | Phase::HandsOff | Phase::Outside | Phase::Opened | Phase::Samples);
        if !of_the_body {
            Why::NotGiven
        } else if step.touch > Touch::Look && view.chose("body_frozen", "frozen_solid") {
            Why::Frozen
        } else if view.chose("body_buried", "mostly_buried") || view.chose("snow_over_body", "covered") {
            Why::Buried
        } else if view.body_is("bones_and_hair") || view.body_is("mostly_eaten") {
            Why::Scavenged
        } else if super::steps::needs_permission(step) {
            Why::NotTrained
        } else if step.touch > Touch::Look && view.chose("body_looked_over", "upper_side_only") {
            Why::UnderBody
        } else {
            Why::NotGiven
        }
    }
}

/// The jaw's questions: the state of each cheek tooth; then wear, of teeth that are in wear: dentine
/// and crest of the molars, dentine of the third cheek tooth (a milk tooth there is told by its
/// state and never has its wear read).
fn jaw_questions(view: &View, side: Side) -> Vec<(&'static str, Site)> {
    let in_wear = |tooth| {
        let place = Site::tooth(side, tooth);
        (view.question("tooth_state", place).answer() == Answer::choice("in_wear")).then_some(place)
    };
    let mut all: Vec<_> = Tooth::CHEEK.iter().map(|t| ("tooth_state", Site::tooth(side, *t))).collect();
    all.extend(in_wear(Tooth::P4).map(|site| ("dentine", site)));
    for site in Tooth::MOLARS.into_iter().filter_map(in_wear) {
        all.push(("dentine", site));
        all.push(("crest", site));
    }
    debug_assert!(all.iter().all(|(f, _)| find(f).is_some()));
    all
}
