//! The labels of everything that was taken, for the screen and for paper.

use uuid::Uuid;

use super::answer_words::option;
use crate::record::short_code::short_code;
use crate::record::{Carcass, CustodyGap, CustodyItem, CustodyLineStep, Fold, Sheet, Site, Value, custody_list};
use crate::words::{Language, say};

/// One label.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Label {
    /// The number: as written, or the one that the form gives.
    pub number: String,
    /// False where nobody has written it on the thing yet.
    pub is_written: bool,
    /// The other lines, name and value, in the order in which they are written down. Of what was not said the value
    /// is empty: a line to be filled in by hand.
    pub lines: Vec<(String, String)>,
}

/// Labels of everything that was taken from a carcass, in the order of its examinations.
pub fn labels(language: Language, carcass: &Carcass) -> Vec<Label> {
    // Who reported the carcass and who had the thing since is on no label.
    custody_list(&Fold::default(), carcass).iter().map(|item| label(language, carcass, item)).collect()
}

/// The label of one thing of one examination; `None` where nobody said that it was taken.
pub fn label_of(language: Language, carcass: &Carcass, examination: Uuid, item: u16) -> Option<Label> {
    let all = custody_list(&Fold::default(), carcass);
    let one = all.iter().find(|one| one.examination == examination && one.item == item)?;
    Some(label(language, carcass, one))
}

/// The label of one thing that was taken.
pub fn label(language: Language, carcass: &Carcass, item: &CustodyItem) -> Label {
    let sheet = carcass.examinations.get(&item.examination).map(|exam| &exam.sheet);
    let chosen = |finding: &str, site: Site| sheet.and_then(|sheet| words(language, sheet, finding, site));
    let what = if item.what.is_empty() { String::new() } else { option(language, "sample_what", &item.what) };
    let animal = ["species", "sex_called"].into_iter().filter_map(|finding| chosen(finding, Site::NONE));
    let taken = item.lines.iter().find(|line| line.step == CustodyLineStep::Taken);
    let date = taken.and_then(|line| line.at).map(|at| {
        let (year, month, day) = at.date();
        format!("{year:04}-{month:02}-{day:02}")
    });
    let lines = [
        ("label.case", short_code(carcass.id)),
        ("label.animal", animal.collect::<Vec<_>>().join(", ")),
        ("label.what", what),
        ("finding.sample_kept", chosen("sample_kept", Site::item(item.item)).unwrap_or_default()),
        ("label.date", date.unwrap_or_default()),
        ("label.taken_by", taken.map(|line| line.to.clone()).unwrap_or_default()),
    ];
    Label {
        number: item.number.clone(),
        is_written: !item.gaps.contains(&CustodyGap::NoNumber),
        lines: lines.into_iter().map(|(id, value)| (say(language, id, &[]), value)).collect(),
    }
}

fn words(language: Language, sheet: &Sheet, finding: &str, site: Site) -> Option<String> {
    match sheet.question(finding, site).answer().value() {
        Some(Value::Choice(code)) => Some(option(language, finding, code)),
        _ => None,
    }
}

impl Label {
    /// What the code on the label holds, as plain text that any reader shows: the number alone on the first line, then
    /// `name: value` for each line that has a value.
    pub fn code_text(&self) -> String {
        let lines = self.lines.iter().filter(|(_, value)| !value.is_empty());
        let lines = lines.map(|(name, value)| format!("{name}: {value}"));
        std::iter::once(self.number.clone()).chain(lines).collect::<Vec<_>>().join("\n")
    }
}
