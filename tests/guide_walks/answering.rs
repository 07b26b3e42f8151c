//! Hands that answer: a scripted one, with plain answers for what the script does not say.

use std::collections::BTreeMap;

use marrowbook::guide::{Ask, Draft, Input, View};
use marrowbook::record::{Answer, Digest, Photo, Place, PlaceSource, Shape, Site, Value, Why, find};

use crate::visit::moment;

pub(crate) trait Answering {
    /// What is written for this ask.
    fn answer(&mut self, ask: &Ask, view: &View) -> Vec<Draft>;
}

/// Answers by finding; what is not there gets the finding's plain answer.
#[derive(Clone, Default)]
pub(crate) struct Script {
    by_finding: BTreeMap<&'static str, Answer>,
    by_site: BTreeMap<(&'static str, Site), Answer>,
}

impl Script {
    /// `finding=option` or `finding=number` or `finding=-` (not there), `finding=!reason` (not looked),
    /// `finding=?reason` (cannot tell), several apart by blanks.
    pub(crate) fn new(text: &str) -> Self {
        let mut script = Self::default();
        for word in text.split_whitespace() {
            let (finding, value) = word.split_once('=').unwrap();
            let def = find(finding).unwrap_or_else(|| panic!("no finding {finding}"));
            script.by_finding.insert(def.code, spoken(def.shape, value));
        }
        script
    }

    pub(crate) fn at(mut self, finding: &'static str, site: Site, value: &str) -> Self {
        self.by_site.insert((finding, site), spoken(find(finding).unwrap().shape, value));
        self
    }

    fn of(&self, finding: &'static str, site: Site) -> Answer {
        let given = self.by_site.get(&(finding, site)).or_else(|| self.by_finding.get(finding));
        given.cloned().unwrap_or_else(|| plain(finding))
    }
}

fn why(text: &str) -> Why {
    Why::PLAIN.into_iter().find(|w| w.code() == text).unwrap_or_else(|| panic!("no reason {text}"))
}

fn spoken(shape: Shape, value: &str) -> Answer {
    let seen = |value| Answer::Seen { value };
    if value == "-" {
        Answer::NotSeen
    } else if let Some(reason) = value.strip_prefix('!') {
        Answer::NotLooked { why: why(reason) }
    } else if let Some(reason) = value.strip_prefix('?') {
        Answer::CantTell { why: why(reason) }
    } else {
        match shape {
            Shape::Choices(_) => seen(Value::choices(value.split('+'))),
            Shape::Number { .. } => Answer::number(value.parse().unwrap()),
            Shape::Text(_) | Shape::Plants(_) => seen(Value::Text(value.replace('+', " "))),
            _ => Answer::choice(value),
        }
    }
}

/// The plain answer to a finding: signs are not there, lines are done, numbers are in the middle.
fn plain(finding: &'static str) -> Answer {
    let seen = |value| Answer::Seen { value };
    match finding {
        "crew_count" | "heads_counted_count" | "blades_out_count" | "blades_back_count" => return Answer::number(2),
        "air_temperature_c" => return Answer::number(-5),
        "wind_km_h" | "other_samples_count" => return Answer::number(0),
        "walk_out_min" => return Answer::number(30),
        "cheek_teeth_count" => return Answer::number(6),
        "wounds_count" => return Answer::number(1),
        "tooth_state" => return Answer::choice("in_wear"),
        // Most days out are no search.
        "outing_kind" => return Answer::choice("response"),
        "thumb_to_finger" => return Answer::choice("easy"),
        "due_back" => return seen(Value::Instant(moment("2027-02-14T16:00:00-05:00"))),
        "cold_signs" | "times_known" | "witness_behaviour" | "remark" | "sex_evidence" => return Answer::NotSeen,
        _ => {}
    }
    match find(finding).unwrap().shape {
        Shape::Presence => Answer::NotSeen,
        Shape::Choice(options) => Answer::choice(options[0]),
        Shape::Choices(options) => seen(Value::choices([options[0]])),
        Shape::Number { min, max, .. } => Answer::number(i64::midpoint(min, max)),
        Shape::Text(_) => seen(Value::Text("N-1".to_owned())),
        Shape::Plants(_) => seen(Value::Text("spruce".to_owned())),
        Shape::Instant => seen(Value::Instant(moment("2027-02-14T10:30:00-05:00"))),
        Shape::Place => seen(Value::Place(Place {
            lat_e7: 450_000_000,
            lon_e7: -740_000_000,
            accuracy_m_95: Some(12),
            source: PlaceSource::Device,
        })),
        Shape::Photo => {
            seen(Value::Photo(Photo { sha256: Digest::of(&[b"photo"]), bytes: 5, media: "image/jpeg".to_owned() }))
        }
        Shape::Ref => panic!("{finding} is not asked"),
    }
}

impl Answering for Script {
    fn answer(&mut self, ask: &Ask, view: &View) -> Vec<Draft> {
        let step = match ask {
            Ask::Hazard { hazard, .. } => {
                let said = self.by_finding.get(hazard.confirm).cloned().unwrap_or_else(|| Answer::choice("done"));
                return ask.fill(view, &said);
            }
            Ask::Step { step, .. } => step,
        };
        let questions = ask.questions(view);
        if let Input::Sweep { finding, steps } = step.input {
            // Looked over in one only where the script knows no sign of any of them.
            let signs = steps.iter().filter_map(|id| marrowbook::guide::steps::step(id)).flat_map(|s| match s.input {
                Input::Panel(signs) => signs.to_vec(),
                _ => Vec::new(),
            });
            let clean = signs.map(|f| self.of(f, Site::NONE)).all(|a| a == Answer::NotSeen);
            let each = Draft { finding, site: Site::NONE, answer: Answer::choice("ask_each"), step: step.id };
            return if clean { ask.sweep(view) } else { vec![each] };
        }
        if let Input::Panel(signs) = step.input {
            let answers: Vec<Answer> = questions.iter().map(|(f, s)| self.of(f, *s)).collect();
            if let Some(none) = answers.iter().find(|a| !a.is_informative()) {
                return ask.fill(view, none);
            }
            let seen: Vec<&str> =
                signs.iter().zip(&answers).filter(|(_, a)| a.value().is_some()).map(|(s, _)| *s).collect();
            return ask.panel(view, &seen);
        }
        questions
            .into_iter()
            .filter(|(f, s)| !view.is_answered(f, *s))
            .map(|(finding, site)| {
                let line = matches!(step.input, Input::ReadDo(_)) && !self.by_finding.contains_key(finding);
                let answer = if line { Answer::choice("there") } else { self.of(finding, site) };
                assert!(answer != Answer::NotSeen || ask.may_be_absent(view), "{} cannot be absent", ask.name());
                Draft { finding, site, answer, step: step.id }
            })
            .collect()
    }
}
