//! Which question about the jaw is on the screen: found from what is written and what was tapped.

use crate::order::Short as _;
use crate::record::{Answer, Site, Tooth};

/// A question about one tooth, with all that is needed to show it.
#[derive(Clone, Debug, PartialEq)]
pub struct ToothQuestion {
    /// Finding.
    pub finding: &'static str,
    /// Side and tooth.
    pub site: Site,
    /// The finding's name, for questions that have no sentence of their own.
    pub name: String,
    /// Options with their names, in the order of the finding.
    pub options: Vec<(&'static str, String)>,
    /// The answer that stands, and the same in words.
    pub given: Option<(Answer, String)>,
}

impl ToothQuestion {
    /// The tooth.
    pub const fn tooth(&self) -> Option<Tooth> {
        self.site.tooth
    }

    /// True once any of the five answers stands.
    pub const fn is_answered(&self) -> bool {
        self.given.is_some()
    }

    /// The option that stands.
    pub fn chosen(&self) -> Option<&str> {
        match &self.given {
            Some((Answer::Seen { value: crate::record::Value::Choice(code) }, _)) => Some(code),
            _ => None,
        }
    }
}

/// What the person tapped last.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum JawFocus {
    /// Nothing: the first open question is shown.
    #[default]
    Next,
    /// Answered something on this tooth: its other questions come first, then the rest of the row.
    After(Tooth),
    /// This tooth: its first open question, or all that is written about it.
    Tooth(Tooth),
    /// This question, to be answered anew.
    Again(&'static str, Site),
}

/// What is shown.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Shown {
    /// The question at this place of the list.
    Question(usize),
    /// All that is written about a tooth.
    Written(Tooth),
    /// The whole row, everything answered.
    Whole,
}

/// What is shown for these questions after that tap.
pub fn shown(questions: &[ToothQuestion], focus: JawFocus) -> Shown {
    let open = |of: Option<Tooth>| {
        questions.iter().position(|q| !q.is_answered() && (of.is_none() || q.tooth() == of)).map(Shown::Question)
    };
    match focus {
        JawFocus::Next => open(None).unwrap_or(Shown::Whole),
        JawFocus::After(tooth) => open(Some(tooth)).or_else(|| open(None)).unwrap_or(Shown::Whole),
        JawFocus::Tooth(tooth) => open(Some(tooth)).unwrap_or(Shown::Written(tooth)),
        JawFocus::Again(finding, site) => questions
            .iter()
            .position(|q| q.finding == finding && q.site == site)
            .map_or_else(|| shown(questions, JawFocus::Next), Shown::Question),
    }
}

/// Options in the order in which they are offered on a tooth: the likely ones first, none left out.
/// Molars have no milk teeth before them, so those looks stand last there.
pub fn offered(question: &ToothQuestion) -> Vec<(&'static str, String)> {
    let mut all = question.options.clone();
    if question.finding == "tooth_state" {
        let molar = question.tooth().is_some_and(|t| Tooth::MOLARS.contains(&t));
        let first: &[&str] = if molar {
            &["in_wear", "up_unworn", "part_up", "in_gum", "not_there", "lost_in_life", "lost_after_death"]
        } else {
            &["in_wear", "milk", "milk_loose", "up_unworn", "part_up", "milk_shed", "not_there"]
        };
        let place = |code: &str| first.iter().position(|f| *f == code);
        let (likely, rest): (Vec<_>, Vec<_>) = all.into_iter().partition(|(code, _)| place(code).is_some());
        all = likely;
        all.order_by_key(|(code, _)| place(code));
        all.extend(rest);
    }
    all
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::record::{Side, find};

    fn question(finding: &'static str, tooth: Tooth, given: Option<&str>) -> ToothQuestion {
        let options = find(finding).unwrap().options().iter().map(|o| (*o, (*o).to_owned())).collect();
        let given = given.map(|code| (Answer::choice(code), code.to_owned()));
        ToothQuestion { finding, site: Site::tooth(Side::Left, tooth), name: String::new(), options, given }
    }

    fn row(m1: Option<&str>) -> Vec<ToothQuestion> {
        let mut all: Vec<_> =
            Tooth::CHEEK.iter().map(|t| question("tooth_state", *t, if *t == Tooth::M1 { m1 } else { None })).collect();
        if m1 == Some("in_wear") {
            all.push(question("dentine", Tooth::M1, None));
            all.push(question("crest", Tooth::M1, None));
        }
        all
    }

    #[test]
    fn a_tooth_that_was_begun_is_finished_before_the_next() {
        let open = row(None);
        assert_eq!(shown(&open, JawFocus::Next), Shown::Question(0));
        assert_eq!(shown(&open, JawFocus::Tooth(Tooth::M1)), Shown::Question(3));
        let worn = row(Some("in_wear"));
        assert_eq!(shown(&worn, JawFocus::After(Tooth::M1)), Shown::Question(6), "the dentine of the same tooth");
        let unworn = row(Some("up_unworn"));
        assert_eq!(shown(&unworn, JawFocus::After(Tooth::M1)), Shown::Question(0), "then back to the first open one");
    }

    #[test]
    fn what_is_written_is_shown_and_can_be_asked_again() {
        let unworn = row(Some("up_unworn"));
        assert_eq!(shown(&unworn, JawFocus::Tooth(Tooth::M1)), Shown::Written(Tooth::M1));
        let again = JawFocus::Again("tooth_state", Site::tooth(Side::Left, Tooth::M1));
        assert_eq!(shown(&unworn, again), Shown::Question(3));
        // A question that is no longer asked falls back to the first open one.
        let gone = JawFocus::Again("crest", Site::tooth(Side::Left, Tooth::M1));
        assert_eq!(shown(&unworn, gone), Shown::Question(0));
    }

    #[test]
    fn every_option_is_offered_once_on_every_tooth() {
        for tooth in Tooth::CHEEK {
            let question = question("tooth_state", tooth, None);
            let mut offered: Vec<&str> = offered(&question).iter().map(|(code, _)| *code).collect();
            offered.order();
            let mut all = find("tooth_state").unwrap().options().to_vec();
            all.order();
            assert_eq!(offered, all, "{tooth:?}");
        }
    }
}
