//! A panel finished: the signs tapped are there, all its others were looked for and are not.

use crate::guide::{Ask, Draft, Input};
use crate::record::Answer;

/// The drafts of a panel. Empty for other inputs.
pub(crate) fn panel_drafts(ask: &Ask, seen: &[&str]) -> Vec<Draft> {
    let Ask::Step { step, site } = ask else { return Vec::new() };
    let Input::Panel(signs) = step.input else { return Vec::new() };
    let answer = |sign: &str| if seen.contains(&sign) { Answer::choice("there") } else { Answer::NotSeen };
    signs.iter().map(|sign| Draft { finding: sign, site: *site, answer: answer(sign), step: step.id }).collect()
}
