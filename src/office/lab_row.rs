//! A line of a laboratory's sheet: its columns, and the answers that it gives for its test.

use crate::card::{Laboratory, Test, TestKind};
use crate::office::csv_sheet::{CsvSheet, NoCsv};
use crate::office::lab::options;
use crate::office::lab_results::TestState;
use crate::record::{Answer, Bone, CustodyItem, Moment, Site, Value, Why};
use crate::science::cementum::OLDEST_YEARS;

/// The columns that a sheet may have; the first two it must.
pub const COLUMNS: [&str; 11] =
    ["sample", "test", "carcass", "result", "reported", "years", "grade", "tooth", "percent", "bone", "from"];

/// Why a file is no sheet of results.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
#[allow(missing_docs)]
pub enum NoSheet {
    #[error("{0}")]
    Csv(#[from] NoCsv),
    #[error("it has a column `{0}`, which is none of: {columns}", columns = COLUMNS.join(", "))]
    Column(String),
    #[error("it holds no result")]
    Empty,
    #[error("it has no line {0} with a result, so that line cannot be left out")]
    NoLine(u64),
}

/// What is wrong with a line's values.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
#[allow(missing_docs)]
pub enum BadValue {
    #[error("column `{0}` is empty, and this test needs it")]
    Missing(&'static str),
    #[error("column `{column}` is filled, and test `{test}` has no use for it")]
    NoUse { column: &'static str, test: String },
    #[error("`{value}` in column `{column}` is not one of {known}")]
    NotOneOf { column: &'static str, value: String, known: String },
    #[error("`{value}` in column `{column}` is not {what}")]
    NotA { column: &'static str, value: String, what: String },
}

/// A line as it stands, blanks round the values taken away.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
#[allow(missing_docs)]
pub struct Row {
    pub line: u64,
    pub sample: String,
    pub test: String,
    pub carcass: String,
    pub result: String,
    pub reported: String,
    pub years: String,
    pub grade: String,
    pub tooth: String,
    pub percent: String,
    pub bone: String,
    pub from: String,
}

impl Row {
    /// The column's place in the row.
    fn cell(&mut self, column: &str) -> Option<&mut String> {
        Some(match column {
            "sample" => &mut self.sample,
            "test" => &mut self.test,
            "carcass" => &mut self.carcass,
            "result" => &mut self.result,
            "reported" => &mut self.reported,
            "years" => &mut self.years,
            "grade" => &mut self.grade,
            "tooth" => &mut self.tooth,
            "percent" => &mut self.percent,
            "bone" => &mut self.bone,
            "from" => &mut self.from,
            _ => return None,
        })
    }

    /// What it says, as it stands there: for a line of which nobody knows what its figures are.
    pub fn says(&self) -> String {
        let all = [&self.result, &self.years, &self.percent];
        all.into_iter().filter(|text| !text.is_empty()).cloned().collect::<Vec<_>>().join(", ")
    }

    /// When it was reported: a day, or a local time with its offset.
    ///
    /// # Errors
    /// It is neither.
    pub fn reported(&self) -> Result<Option<Moment>, BadValue> {
        if self.reported.is_empty() {
            return Ok(None);
        }
        let at = if self.reported.len() == 10 {
            // Noon: a day only was said.
            Moment::parse(&format!("{}T12:00:00+00:00", self.reported))
        } else {
            Moment::parse(&self.reported)
        };
        let what = "a day such as 2027-04-02, or a local time with its offset".to_owned();
        at.map(Some).map_err(|_| BadValue::NotA { column: "reported", value: self.reported.clone(), what })
    }
}

/// The lines of a sheet; empty ones are passed over.
///
/// # Errors
/// See [`NoSheet`].
pub fn rows(bytes: &[u8]) -> Result<Vec<Row>, NoSheet> {
    let sheet = CsvSheet::read(bytes)?;
    let mut blank = Row::default();
    if let Some(column) = sheet.head.iter().find(|column| blank.cell(column).is_none()) {
        return Err(NoSheet::Column(column.clone()));
    }
    for column in ["sample", "test"] {
        sheet.column(column)?;
    }
    let mut out = Vec::new();
    for (line, cells) in sheet.rows {
        let mut row = Row { line, ..Row::default() };
        for (column, value) in sheet.head.iter().zip(cells) {
            if let Some(cell) = row.cell(column) {
                *cell = value;
            }
        }
        out.push(row);
    }
    if out.is_empty() { Err(NoSheet::Empty) } else { Ok(out) }
}

/// What a line answers.
#[derive(Debug)]
pub struct Asked<'a> {
    /// Which test.
    pub test: &'a Test,
    /// Whose.
    pub laboratory: &'a Laboratory,
    /// Of which sample.
    pub sample: &'a CustodyItem,
}

/// The answers of a line.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Said {
    /// The result itself.
    pub result: Answer,
    /// Its place.
    pub site: Site,
    /// All answers, the result among them.
    pub all: Vec<(&'static str, Site, Answer)>,
}

/// The answers that a line gives for its test.
///
/// # Errors
/// See [`BadValue`].
pub fn answers(row: &Row, asked: &Asked) -> Result<Said, BadValue> {
    let kind = asked.test.kind;
    let used: &[&str] = match kind {
        TestKind::CementumAge => &["years", "grade", "tooth"],
        TestKind::MarrowDryWeight | TestKind::MarrowFat => &["percent", "bone"],
        TestKind::Disease => &[],
        TestKind::Dna => &["from"],
    };
    let values = [
        ("years", &row.years),
        ("grade", &row.grade),
        ("tooth", &row.tooth),
        ("percent", &row.percent),
        ("bone", &row.bone),
        ("from", &row.from),
    ];
    if let Some((column, _)) = values.into_iter().find(|(column, value)| !value.is_empty() && !used.contains(column)) {
        return Err(BadValue::NoUse { column, test: asked.test.code.clone() });
    }
    let own = |code: TestState| {
        let why = Why::Other(code.why().unwrap_or_default().to_owned());
        if code == TestState::Unsuitable { Answer::CantTell { why } } else { Answer::NotLooked { why } }
    };
    let state = row.result.to_lowercase().replace([' ', '-'], "_");
    let state = TestState::ALL.into_iter().find(|one| one.code() == state);
    let without_value = state.filter(|one| matches!(one, TestState::Unsuitable | TestState::Pending)).map(own);
    // Of these the figure stands in a column of its own: a word that says something else is not passed over.
    let is_figure = matches!(kind, TestKind::CementumAge | TestKind::MarrowDryWeight | TestKind::MarrowFat);
    if is_figure && !row.result.is_empty() && without_value.is_none() {
        let known = [TestState::Unsuitable, TestState::Pending].map(TestState::code).join(", ");
        return Err(BadValue::NotOneOf { column: "result", value: row.result.clone(), known });
    }
    if without_value.is_some()
        && let Some((column, _)) =
            [("years", &row.years), ("percent", &row.percent)].iter().find(|(_, v)| !v.is_empty())
    {
        return Err(BadValue::NoUse { column, test: format!("{}: {}", asked.test.code, row.result) });
    }
    let mut out = Vec::new();
    let mut site = Site::NONE;
    let result = match kind {
        TestKind::CementumAge => {
            let result = match without_value {
                Some(answer) => answer,
                None => years(row)?,
            };
            out.push(("cementum_years_count", site, result.clone()));
            out.extend(grade(&row.grade)?.map(|code| ("cementum_grade", site, Answer::choice(code))));
            let tooth = option("tooth", "cementum_tooth", &row.tooth)?;
            out.extend(tooth.map(|code| ("cementum_tooth", site, Answer::choice(&code))));
            result
        }
        TestKind::MarrowDryWeight | TestKind::MarrowFat => {
            site = Site::bone(bone(row, asked.sample)?);
            let result = match without_value {
                Some(answer) => answer,
                None => percent(row)?,
            };
            out.push(("marrow_lab_percent", site, result.clone()));
            let scale = if kind == TestKind::MarrowFat { "fat_extracted" } else { "dry_weight" };
            out.push(("marrow_lab_scale", site, Answer::choice(scale)));
            result
        }
        TestKind::Disease => {
            let known = || TestState::ALL.map(TestState::code).join(", ");
            let state = state.ok_or_else(|| match row.result.as_str() {
                "" => BadValue::Missing("result"),
                value => BadValue::NotOneOf { column: "result", value: value.to_owned(), known: known() },
            })?;
            let result = match state {
                TestState::Positive | TestState::Suspect => Answer::choice(state.code()),
                TestState::NotDetected => Answer::NotSeen,
                TestState::Unsuitable | TestState::Pending => own(state),
            };
            out.push(("test_result", site, result.clone()));
            out.push(("test_for", site, text(&asked.test.disease)));
            result
        }
        TestKind::Dna => {
            let came = without_value.is_none();
            let result = match (without_value, row.result.as_str()) {
                (Some(answer), _) => answer,
                (None, "") => return Err(BadValue::Missing("result")),
                (None, _) if state == Some(TestState::NotDetected) || row.result == crate::office::lab::NO_ANIMAL => {
                    Answer::NotSeen
                }
                (None, _) => Answer::choice(&option("result", "dna_of", &row.result)?.unwrap_or_default()),
            };
            out.push(("dna_of", site, result.clone()));
            // Only a wound that bled speaks of who killed: that is never guessed.
            let from = option("from", "dna_from", &row.from)?;
            if came && from.is_none() {
                return Err(BadValue::Missing("from"));
            }
            out.extend(from.map(|from| ("dna_from", site, Answer::choice(&from))));
            result
        }
    };
    // Cementum and DNA have findings of their own for sample, laboratory and date; readings name them.
    let (sample, laboratory, reported) = match kind {
        TestKind::CementumAge => ("cementum_sample", "cementum_lab", "cementum_reported_at"),
        TestKind::Dna => ("dna_sample", "dna_lab", "dna_reported_at"),
        TestKind::MarrowDryWeight | TestKind::MarrowFat | TestKind::Disease => {
            ("lab_sample", "lab_name", "lab_reported_at")
        }
    };
    let name: String = asked.laboratory.name.chars().take(80).collect();
    let mut also = vec![
        ("lab_test", Site::NONE, text(&asked.test.code)),
        (sample, Site::NONE, text(&asked.sample.number)),
        (laboratory, Site::NONE, text(&name)),
    ];
    also.extend(row.reported()?.map(|at| (reported, Site::NONE, Answer::Seen { value: Value::Instant(at) })));
    out.extend(also);
    Ok(Said { result, site, all: out })
}

fn text(text: &str) -> Answer {
    Answer::Seen { value: Value::Text(text.to_owned()) }
}

fn years(row: &Row) -> Result<Answer, BadValue> {
    if row.years.is_empty() {
        return Err(BadValue::Missing("years"));
    }
    let what = || format!("a whole number from 0 to {OLDEST_YEARS}");
    let read = row.years.parse::<i64>().ok().filter(|years| (0..=i64::from(OLDEST_YEARS)).contains(years));
    read.map(Answer::number).ok_or_else(|| BadValue::NotA { column: "years", value: row.years.clone(), what: what() })
}

/// A percentage, kept in tenths. A finer one is refused: nobody's figure is rounded unseen.
fn percent(row: &Row) -> Result<Answer, BadValue> {
    if row.percent.is_empty() {
        return Err(BadValue::Missing("percent"));
    }
    let typed = row.percent.strip_suffix('%').unwrap_or(&row.percent).trim().replace(',', ".");
    let (whole, tenth) = typed.split_once('.').unwrap_or((&typed, "0"));
    let tenth = match tenth.trim_end_matches('0') {
        "" => "0",
        tenth => tenth,
    };
    let digits = |text: &str| !text.is_empty() && text.len() <= 3 && text.bytes().all(|b| b.is_ascii_digit());
    let read = (digits(whole) && digits(tenth) && tenth.len() == 1)
        .then(|| Some(whole.parse::<i64>().ok()? * 10 + tenth.parse::<i64>().ok()?))
        .flatten()
        .filter(|tenths| (0..=1_000).contains(tenths));
    let what = "a percentage from 0 to 100 with at most one decimal".to_owned();
    read.map(Answer::number).ok_or_else(|| BadValue::NotA { column: "percent", value: row.percent.clone(), what })
}

fn grade(typed: &str) -> Result<Option<&'static str>, BadValue> {
    Ok(Some(match typed {
        "" => return Ok(None),
        "A" | "a" => "grade_best",
        "B" | "b" => "grade_middle",
        "C" | "c" => "grade_lowest",
        _ => {
            let (value, known) = (typed.to_owned(), "A, B, C".to_owned());
            return Err(BadValue::NotOneOf { column: "grade", value, known });
        }
    }))
}

fn option(column: &'static str, finding: &str, typed: &str) -> Result<Option<String>, BadValue> {
    let code = typed.to_lowercase().replace([' ', '-'], "_");
    match typed {
        "" => Ok(None),
        _ if options(finding).contains(&code.as_str()) => Ok(Some(code)),
        _ => Err(BadValue::NotOneOf { column, value: typed.to_owned(), known: options(finding).join(", ") }),
    }
}

/// The bone that was sent: as the sheet says, else the femur that the sample is. Another long bone has to be named.
fn bone(row: &Row, sample: &CustodyItem) -> Result<Bone, BadValue> {
    if row.bone.is_empty() {
        return if sample.what == Bone::Femur.code() { Ok(Bone::Femur) } else { Err(BadValue::Missing("bone")) };
    }
    let code = row.bone.to_lowercase();
    Bone::of_code(&code).ok_or_else(|| {
        let known = Bone::ALL.map(Bone::code).join(", ");
        BadValue::NotOneOf { column: "bone", value: row.bone.clone(), known }
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    // Three grades of certainty, A the best (Adams and Blanchong 2020, PLoS ONE 15(5):e0233421, in the reference
    // age-and-sex.md). Letters in small: rule of the house.
    #[test]
    fn grades_of_a_count_of_rings() {
        let read = |typed: &str| grade(typed).ok().flatten();
        assert_eq!(["A", "b", "C"].map(read), [Some("grade_best"), Some("grade_middle"), Some("grade_lowest")]);
        assert_eq!(grade(""), Ok(None));
        assert!(grade("D").is_err());
        assert_eq!(options("cementum_grade"), ["grade_best", "grade_middle", "grade_lowest"]);
    }
}
