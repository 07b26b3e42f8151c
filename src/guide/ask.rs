//! One thing asked of the crew: a step at a place, or the statement of a hazard.

use crate::record::{Answer, Side, Site, Tooth, Why, find};

use super::{Draft, Hazard, Input, Phase, Step, View};

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

    /// A name that stays the same from one day to the next, for links and tests.
    pub fn name(&self) -> String {
        match self {
            Self::Hazard { hazard, .. } => hazard.id.to_owned(),
            Self::Step { step, site } => {
                let mut name = step.id.to_owned();
                if let Some(side) = site.side {
                    name.push_str(match side {
                        Side::Left => ".left",
                        Side::Right => ".right",
                    });
                }
                if let Some(tooth) = site.tooth {
                    name.push('.');
                    name.push_str(&tooth.name().to_ascii_lowercase());
                }
                if let Some(bone) = site.bone {
                    name.push('.');
                    name.push_str(bone.code());
                }
                if let Some(item) = site.item {
                    name.push('.');
                    name.push_str(&item.to_string());
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
                | Input::Photo(f) => vec![(f, *site)],
                Input::Panel(signs) => signs.iter().map(|f| (*f, *site)).collect(),
                Input::Jaw => jaw_questions(view, site.side.unwrap_or(Side::Left)),
            },
        }
    }

    /// True where every question has one of the five answers.
    pub fn is_answered(&self, view: &View) -> bool {
        self.questions(view).iter().all(|(f, s)| view.is_answered(f, *s))
    }

    /// One answer for every question of the ask that has none yet.
    pub fn fill(&self, view: &View, answer: &Answer) -> Vec<Draft> {
        let step = match self {
            Self::Step { step, .. } => step.id,
            Self::Hazard { hazard, .. } => hazard.id,
        };
        self.questions(view)
            .into_iter()
            .filter(|(f, s)| !view.is_answered(f, *s))
            .map(|(finding, site)| Draft { finding, site, answer: answer.clone(), step })
            .collect()
    }

    /// The likely reason for having no answer here, preset on the `No answer` screen.
    pub fn likely_why(&self, view: &View) -> Why {
        let touches = matches!(self, Self::Step { step, .. } if step.touch > super::Touch::Look);
        if touches && view.chose("body_frozen", "frozen_solid") {
            Why::Frozen
        } else if view.chose("body_buried", "mostly_buried") {
            Why::Buried
        } else if view.chose("body_state", "bones_and_hair") || view.chose("body_state", "mostly_eaten") {
            Why::Scavenged
        } else {
            Why::NotGiven
        }
    }
}

/// The jaw's questions: the state of each cheek tooth, and wear of each molar that is in wear.
fn jaw_questions(view: &View, side: Side) -> Vec<(&'static str, Site)> {
    let mut all: Vec<_> = Tooth::CHEEK.iter().map(|t| ("tooth_state", Site::tooth(side, *t))).collect();
    for tooth in Tooth::MOLARS {
        let site = Site::tooth(side, tooth);
        let state = view.question("tooth_state", site).answer();
        if state == Answer::choice("in_wear") {
            all.push(("dentine", site));
            all.push(("crest", site));
        }
    }
    debug_assert!(all.iter().all(|(f, _)| find(f).is_some()));
    all
}
