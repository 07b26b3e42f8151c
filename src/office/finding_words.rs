//! Questions and answers in the words of the office. What only a laboratory says has names of its own there: a test
//! that found nothing was `not detected`, and a suspect is told apart wherever it stands.

use super::lab_results::TestState;
use crate::guide::{answer_words, finding_label};
use crate::record::{Answer, Site, Why};
use crate::words::{Language, office_has, say_office};

const LANGUAGE: Language = Language::English;

/// A question with its place.
pub fn question_words(finding: &str, site: Site) -> String {
    let label = finding_label(finding);
    let name =
        if office_has(&label) { say_office(LANGUAGE, &label, &[]) } else { answer_words::finding(LANGUAGE, finding) };
    let place = answer_words::site(LANGUAGE, site);
    if place.is_empty() { name } else { format!("{name}, {place}") }
}

/// An answer, with its unit; of a test its state, with what somebody wrote beside it.
pub fn said_words(finding: &str, answer: &Answer) -> String {
    let Some(state) = TestState::of(answer).filter(|_| finding == "test_result") else {
        return answer_words::answer(LANGUAGE, finding, answer);
    };
    let words = say_office(LANGUAGE, state.text(), &[]);
    match answer {
        Answer::CantTell { why: Why::Other(own) } | Answer::NotLooked { why: Why::Other(own) }
            if state.why() != Some(own.as_str()) =>
        {
            format!("{words} ({own})")
        }
        _ => words,
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::record::OFFICE_FINDINGS;

    /// A rule of the house: every finding of the office's own has a name, and the five answers stay apart.
    #[test]
    fn what_only_the_office_writes_is_named() {
        for def in OFFICE_FINDINGS {
            assert!(office_has(&finding_label(def.code)), "{}", def.code);
        }
        let other = |text: &str| Why::Other(text.to_owned());
        let told = |answer: Answer| said_words("test_result", &answer);
        assert_eq!(told(Answer::choice("positive")), "positive");
        assert_eq!(told(Answer::choice("suspect")), "suspect, not confirmed");
        assert_eq!(told(Answer::NotSeen), "not detected");
        assert_eq!(told(Answer::CantTell { why: other("unsuitable sample") }), "unsuitable sample, nothing is known");
        let rotten = Answer::CantTell { why: other("rotten") };
        assert_eq!(told(rotten.clone()), "unsuitable sample, nothing is known (rotten)");
        assert_eq!(told(Answer::NotLooked { why: Why::NotGiven }), "pending at the laboratory");
        assert_ne!(said_words("dna_of", &rotten), told(rotten));
    }
}
