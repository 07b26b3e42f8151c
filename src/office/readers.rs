//! How well each reader reads jaws of known age, and the table for the local card that follows from it.
//!
//! A jaw counts where the office knows its age: exactly (a tag) or by a laboratory's rings, which carry
//! their own error. Whoever is named as observer of the wear class is its reader. A reader's calls of one jaw
//! count once, by the first that was written down: a second look has seen the first answer. A jaw of which
//! known ages differ among themselves is left out and named.

use crate::card::ReaderTable;
use crate::record::{Answer, Carcass, PersonCode, Site, Value};
use crate::science::age::{ClassCall, Prior, Reader, Sex};
use crate::science::cementum::{Grade, LabAge};
use crate::science::reader_record::direct::COVERAGE;
use crate::science::reader_record::{Direct, Learned, Tally, Truth, learn};
use crate::science::special::{ShareInterval, wilson};
use serde::Serialize;
use std::collections::BTreeMap;
use uuid::Uuid;

/// Calls of every reader on jaws of known age.
#[derive(Clone, Debug, Default)]
pub struct Record {
    readers: BTreeMap<PersonCode, Tally>,
    /// Jaws that counted.
    pub jaws: usize,
    /// Carcasses left out because their known ages differ, or cannot be.
    pub left_out: Vec<Uuid>,
    /// Calls not counted because the same reader had called the same jaw before.
    pub again_count: usize,
}

/// One reader, or all together.
#[derive(Clone, Debug, Serialize)]
pub struct ReaderLine {
    /// Person code; absent for all readers together.
    pub reader: Option<String>,
    /// Readings of jaws of exactly known age.
    pub known_count: u32,
    /// Readings of jaws of which only rings were counted.
    pub by_rings_count: u32,
    /// What exactly known ages alone say.
    pub direct: Direct,
    /// Wilson's 95 % interval of each cell of `direct.calls` within its row, as low and high; absent where
    /// the row is empty.
    pub intervals: Vec<Option<Vec<[f64; 2]>>>,
    /// Rows with rings counted in and the published table behind them, worth 20 readings a row.
    pub learned: Learned,
}

/// What is known of an age, or that it cannot be told from what was entered.
fn truth(carcass: &Carcass) -> Option<Result<Truth, ()>> {
    let numbers = |finding: &str| -> Vec<i64> {
        let results = carcass.question(finding, Site::NONE).results();
        results
            .into_iter()
            .filter_map(|answer| match answer {
                Answer::Seen { value: Value::Number(n) } => Some(*n),
                _ => None,
            })
            .collect()
    };
    match numbers("known_age_years_count").as_slice() {
        [] => {}
        [years] => return Some(u8::try_from(*years).map(Truth::Known).map_err(drop)),
        _ => return Some(Err(())),
    }
    let grade = match carcass.choice("cementum_grade").as_deref() {
        Some("grade_best") => Some(Grade::Best),
        Some("grade_middle") => Some(Grade::Middle),
        Some("grade_lowest") => Some(Grade::Lowest),
        _ => None,
    };
    match numbers("cementum_years_count").as_slice() {
        [] => None,
        [years] => {
            let lab = u8::try_from(*years).ok().and_then(|years| LabAge::new(years, grade).ok());
            Some(lab.map(Truth::Cementum).ok_or(()))
        }
        _ => Some(Err(())),
    }
}

/// Who called which class, each reader once, and how many further calls there were.
fn calls(carcass: &Carcass) -> (BTreeMap<PersonCode, ClassCall>, usize) {
    let standing =
        carcass.examinations.values().flat_map(|e| e.sheet.question("wear_class_called", Site::NONE).standing);
    let mut all: Vec<_> = standing
        .filter_map(|s| {
            let Answer::Seen { value: Value::Choice(code) } = &s.answer else { return None };
            let years: usize = code.strip_prefix('y')?.parse().ok()?;
            Some((s.at.unix_seconds(), s.id, s.observer.clone(), *ClassCall::ALL.get(years)?))
        })
        .collect();
    all.sort_by_key(|(at, id, ..)| (*at, *id));
    let count = all.len();
    let mut first = BTreeMap::new();
    for (_, _, reader, call) in all {
        first.entry(reader).or_insert(call);
    }
    let again = count - first.len();
    (first, again)
}

impl Record {
    /// Takes in one carcass.
    pub fn take(&mut self, carcass: &Carcass) {
        let (calls, again) = calls(carcass);
        if calls.is_empty() {
            return;
        }
        match truth(carcass) {
            None => {}
            Some(Err(())) => self.left_out.push(carcass.id),
            Some(Ok(truth)) => {
                self.jaws += 1;
                self.again_count += again;
                for (reader, call) in calls {
                    self.readers.entry(reader).or_default().add(truth, call);
                }
            }
        }
    }

    /// Readers behind it.
    pub fn readers_count(&self) -> usize {
        self.readers.len()
    }

    fn pool(&self) -> Tally {
        let mut pool = Tally::default();
        self.readers.values().for_each(|tally| pool.add_all(tally));
        pool
    }

    /// All readers together, then each by code.
    pub fn lines(&self) -> Vec<ReaderLine> {
        let each = self.readers.iter().map(|(code, tally)| line(Some(code.to_string()), tally));
        std::iter::once(line(None, &self.pool())).chain(each).collect()
    }

    /// The table of all readers together for a local card; `None` where no call was made on a jaw of known
    /// age. `day` is written as in 2027-05-02.
    pub fn table(&self, version: u32, day: String) -> Option<ReaderTable> {
        let pool = self.pool();
        let (known_count, by_rings_count) = (pool.known_readings(), pool.lab_readings());
        if known_count + by_rings_count == 0 {
            return None;
        }
        let learned = learned(&pool);
        Some(ReaderTable {
            version,
            made_on: day,
            readers_count: u32::try_from(self.readers.len()).unwrap_or(u32::MAX),
            known_count,
            by_rings_count,
            rows_millionths: learned.model.rows().iter().map(|row| row.to_vec()).collect(),
        })
    }
}

/// Classes among jaws of which the rings were counted, before they were: the form's own starting point,
/// half does, half bucks.
fn prior() -> [f64; 10] {
    let [female, male] = [Sex::Female, Sex::Male].map(|sex| Prior::default().shares(sex));
    let mut classes = [0.0; 10];
    for ((slot, f), m) in classes.iter_mut().zip(female).zip(male) {
        *slot = f64::midpoint(f, m);
    }
    classes
}

fn learned(tally: &Tally) -> Learned {
    learn(tally, &Reader::default(), &prior())
}

fn line(reader: Option<String>, tally: &Tally) -> ReaderLine {
    let direct = Direct::of(tally);
    let intervals = direct.calls.iter().map(|row| {
        let of: u32 = row.iter().sum();
        let ends = |ShareInterval { low, high, .. }: ShareInterval| [low, high];
        row.iter().map(|n| wilson(*n, of, COVERAGE).map(ends)).collect()
    });
    ReaderLine {
        reader,
        known_count: tally.known_readings(),
        by_rings_count: tally.lab_readings(),
        direct,
        intervals: intervals.collect(),
        learned: learned(tally),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::office::findings_table::FindingsTable;
    use crate::record::fold;

    fn record(jaws: &[(&str, &str)]) -> Record {
        let carcasses: Vec<String> = jaws
            .iter()
            .zip(1..)
            .map(|((truth, calls), n)| {
                format!(
                    r#"{{"name":"deer {n}","examinations":[{{"at":"2027-02-14T10:00:00-05:00","observer":"lab",
                    "kind":"bench","findings":[{truth}]}}{calls}]}}"#
                )
            })
            .collect();
        let text = format!(r#"{{"format":"marrowbook-findings-1","carcasses":[{}]}}"#, carcasses.join(","));
        let tabled = FindingsTable::read(text.as_bytes()).unwrap().journal().unwrap();
        assert_eq!(tabled.set_aside, []);
        let mut record = Record::default();
        fold(&tabled.journal).carcasses.values().for_each(|carcass| record.take(carcass));
        record
    }

    fn call(reader: &str, class: &str) -> String {
        format!(
            r#",{{"at":"2027-02-15T10:00:00-05:00","observer":"{reader}","kind":"bench",
            "findings":[{{"finding":"wear_class_called","value":"{class}"}}]}}"#
        )
    }

    const TAGGED_4: &str = r#"{"finding":"known_age_years_count","value":4}"#;
    const RINGS_6: &str =
        r#"{"finding":"cementum_years_count","value":6},{"finding":"cementum_grade","value":"grade_best"}"#;

    /// Common practice, no source: one reader's two looks at one jaw are not two jaws.
    #[test]
    fn a_second_call_of_the_same_jaw_by_the_same_reader_counts_once() {
        let later = call("K7", "y6").replace("2027-02-15", "2027-02-20");
        let twice = [later.clone(), call("K7", "y4"), call("B2", "y5")].concat();
        let record = record(&[(TAGGED_4, &twice), (TAGGED_4, &later)]);
        assert_eq!((record.jaws, record.again_count), (2, 1));
        let [pool, _, k7] = &record.lines()[..] else { panic!() };
        assert_eq!((pool.known_count, k7.known_count), (3, 2));
        assert_eq!((k7.direct.calls[4][4], k7.direct.calls[4][6]), (1, 1), "the first call of the first jaw");
    }

    #[test]
    fn calls_are_counted_by_reader_and_truth() {
        let two = [call("K7", "y4"), call("B2", "y6")].concat();
        let one = call("K7", "y5");
        let none = "";
        let record = record(&[(TAGGED_4, &two), (TAGGED_4, &one), (RINGS_6, &two), (TAGGED_4, none)]);
        assert_eq!((record.jaws, record.readers_count()), (3, 2));
        let [pool, b2, k7] = &record.lines()[..] else { panic!() };
        assert_eq!((pool.reader.as_deref(), pool.known_count, pool.by_rings_count), (None, 3, 2));
        assert_eq!((b2.reader.as_deref(), b2.known_count, b2.by_rings_count), (Some("B2"), 1, 1));
        assert_eq!((k7.reader.as_deref(), k7.known_count, k7.by_rings_count), (Some("K7"), 2, 1));
        assert_eq!((k7.direct.calls[4][4], k7.direct.calls[4][5]), (1, 1));
        let right = k7.direct.exact.unwrap();
        assert_eq!((right.right, right.of), (1, 2));
        let table = record.table(1, "2027-05-02".to_owned()).unwrap();
        assert_eq!((table.readers_count, table.known_count, table.by_rings_count), (2, 3, 2));
        assert!(table.rows_millionths.iter().all(|row| row.iter().sum::<u32>() == 1_000_000));
    }

    /// Wilson's intervals by SciPy, as in tests/reference/special.csv (9 of 13: 0.424 to 0.873; the same
    /// share in Mech and Frenzel 1971).
    #[test]
    fn cells_carry_their_intervals() {
        let right = call("K7", "y4");
        let wrong = call("K7", "y5");
        let jaws: Vec<(&str, &str)> =
            (0..13).map(|n| (TAGGED_4, if n < 9 { right.as_str() } else { wrong.as_str() })).collect();
        let line = &record(&jaws).lines()[0];
        let row = line.intervals[4].as_ref().unwrap();
        assert!((row[4][0] - 0.424).abs() < 5e-4 && (row[4][1] - 0.873).abs() < 5e-4, "{:?}", row[4]);
        assert!(line.intervals[3].is_none());
        let exact = line.direct.exact.unwrap();
        assert!((exact.low - row[4][0]).abs() < 1e-12);
    }

    #[test]
    fn known_ages_that_differ_leave_the_jaw_out() {
        let differ = format!(
            r#"{TAGGED_4}]}},{{"at":"2027-02-16T10:00:00-05:00","kind":"bench","observer":"other",
            "findings":[{{"finding":"known_age_years_count","value":5}}"#
        );
        let too_many = r#"{"finding":"cementum_years_count","value":33}"#;
        let calls = call("K7", "y4");
        let record = record(&[(&differ, &calls), (too_many, &calls)]);
        assert_eq!((record.jaws, record.left_out.len()), (0, 2));
        assert!(record.table(1, "2027-05-02".to_owned()).is_none());
    }

    /// A tag is believed before rings.
    #[test]
    fn a_tag_goes_before_rings() {
        let both = format!("{TAGGED_4},{RINGS_6}");
        let record = record(&[(&both, &call("K7", "y4"))]);
        assert_eq!((record.lines()[0].known_count, record.lines()[0].by_rings_count), (1, 0));
    }
}
