//! Which answers a reading rests on, as lines to be read.

use crate::reading::Reading;
use crate::record::Carcass;
use crate::web::wording;
use crate::words::{Arg, Language, say};

/// One answer.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct BasisLine {
    /// What was asked, with its place.
    pub question: String,
    /// What was answered.
    pub answer: String,
    /// By whom and when.
    pub by: String,
}

/// The standing answers that a reading rests on, in the order of the findings.
pub fn basis(language: Language, carcass: &Carcass, reading: &Reading) -> Vec<BasisLine> {
    let mut lines = Vec::new();
    for examination in carcass.examinations.values() {
        for (finding, site, standing) in examination.sheet.answers() {
            for one in standing.iter().filter(|one| reading.rests_on.contains(&one.id)) {
                let name = wording::finding(language, finding.as_str());
                let place = wording::site(language, site);
                let args = [
                    ("who", Arg::Text(one.observer.as_str().to_owned())),
                    ("when", Arg::Text(wording::date_and_time(one.at))),
                ];
                lines.push(BasisLine {
                    question: if place.is_empty() { name } else { format!("{name}, {place}") },
                    answer: wording::answer(language, finding.as_str(), &one.answer),
                    by: say(language, "reading.view.by", &args),
                });
            }
        }
    }
    lines
}
