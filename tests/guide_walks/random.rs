//! Hands that answer anything: every visit ends, and nothing that nobody looked for is called absent.

use marrowbook::guide::{Ask, Draft, ExamKind, Input, Situation, View, situation};
use marrowbook::record::{Answer, Shape, Value, Why, find};

use crate::answering::{Answering, Script};
use crate::visit::Visit;

struct Dice {
    state: u64,
    plain: Script,
}

impl Dice {
    fn new(start: u64) -> Self {
        Self { state: start.wrapping_mul(2).wrapping_add(1), plain: Script::default() }
    }

    /// A number under `sides`.
    fn roll(&mut self, sides: usize) -> usize {
        // Knuth's multiplier; the upper bits are the good ones.
        self.state = self.state.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
        usize::try_from(self.state >> 33).unwrap() % sides
    }

    fn no_answer(&mut self) -> Answer {
        let why = Why::PLAIN[self.roll(Why::PLAIN.len())].clone();
        match self.roll(3) {
            0 => Answer::CantTell { why },
            1 => Answer::NotLooked { why },
            _ => Answer::PartGone { why },
        }
    }
}

impl Answering for Dice {
    fn answer(&mut self, ask: &Ask, view: &View) -> Vec<Draft> {
        let Ask::Step { step, .. } = ask else {
            let said = if self.roll(5) == 0 { self.no_answer() } else { Answer::choice("done") };
            return ask.fill(view, &said);
        };
        // The form offers no such tile where a step insists.
        if self.roll(6) == 0 && !step.insists {
            let answer = self.no_answer();
            return ask.fill(view, &answer);
        }
        if ask.may_be_absent(view) && self.roll(2) == 0 {
            return ask.fill(view, &Answer::NotSeen);
        }
        if let Input::Panel(signs) = step.input {
            let seen: Vec<&str> = signs.iter().copied().filter(|_| self.roll(7) == 0).collect();
            return ask.panel(view, &seen);
        }
        let mut drafts = Vec::new();
        for (finding, site) in ask.questions(view).into_iter().filter(|(f, s)| !view.is_answered(f, *s)) {
            let answer = match find(finding).unwrap().shape {
                Shape::Choice(options) => Answer::choice(options[self.roll(options.len())]),
                Shape::Choices(options) => {
                    let one = options[self.roll(options.len())];
                    let two = options[self.roll(options.len())];
                    Answer::Seen { value: Value::choices([one, two]) }
                }
                Shape::Number { min, max, .. } => {
                    let span = usize::try_from(max - min + 1).unwrap();
                    Answer::number(min + i64::try_from(self.roll(span)).unwrap())
                }
                _ => return self.plain.answer(ask, view),
            };
            drafts.push(Draft { finding, site, answer, step: step.id });
        }
        drafts
    }
}

#[test]
fn every_visit_ends_whatever_is_answered() {
    for start in 0..9 {
        let mut visit = Visit::field(1);
        if start % 4 == 3 {
            visit.next_exam(2, ExamKind::Bench);
        }
        if start % 5 == 4 {
            visit.card = None;
        }
        let mut dice = Dice::new(start);
        let asked = visit.walk(&mut dice);
        println!("start {start}: {} asks", asked.len());
        assert!(asked.len() > 10);
        let end = visit.situation();
        assert_eq!((end.next, end.to_write.len()), (None, 0), "start {start}");
    }
}

#[test]
fn no_rule_and_no_leaving_ever_says_not_there() {
    for start in 100..103 {
        let mut visit = Visit::field(1);
        let mut dice = Dice::new(start);
        for turn in 0.. {
            let now = visit.situation();
            assert!(now.to_write.iter().all(|d| d.answer != Answer::NotSeen));
            if turn % 15 == 0 {
                let leaving = visit.look(|view| Situation::leave_now(view, &Why::Time));
                assert!(leaving.iter().all(|d| d.answer != Answer::NotSeen));
            }
            if visit.step(&mut dice).is_none() {
                break;
            }
        }
    }
}

#[test]
fn not_there_is_refused_where_it_cannot_be_said() {
    let visit = Visit::field(1);
    visit.look(|view| {
        for state in &situation(view).asks {
            let filled = state.ask.fill(view, &Answer::NotSeen);
            let refused = filled.iter().all(|d| d.answer != Answer::NotSeen);
            assert!(state.ask.may_be_absent(view) || refused, "{}", state.ask.name());
        }
        let species = situation(view).find("species").unwrap().ask;
        assert_eq!(species.fill(view, &Answer::NotSeen), []);
        let wounds = situation(view).find("wounds_outside").unwrap().ask;
        assert_eq!(wounds.fill(view, &Answer::NotSeen), [], "nobody has looked the body over yet");
    });
}
