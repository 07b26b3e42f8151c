//! Days of a log as entries: corrections, two phones, disagreement, what is refused. Laws of the
//! design; no outside source is needed to state them.

use marrowbook::reading::winter_log::{log, logs};
use marrowbook::record::{
    Act, Answer, Body, Day, DeviceId, Digest, ENTRY_SCHEMA, EntryId, Flaw, Head, Journal, Key, Moment, PersonCode,
    Salt, Site, Subject, Value, Versions, Why, fold, validate,
};
use marrowbook::science::winter::log::{Gauge, ReadAt, Said};
use marrowbook::science::winter::measure::{Depth, Temperature};
use proptest::prelude::*;
use uuid::Uuid;

use crate::days::date;

const PLACE: Subject = Subject::WinterLog(Uuid::from_u128(3));

struct Phone {
    head: Head,
    journal: Journal,
    who: &'static str,
}

impl Phone {
    fn new(number: u8, who: &'static str) -> Self {
        Self { head: Head::start(DeviceId(Digest::of(&[&[number]]))), journal: Journal::new(), who }
    }

    fn write(&mut self, finding: &str, site: Site, answer: Answer, supersedes: Vec<EntryId>) -> EntryId {
        let key = Key { subject: PLACE, finding: finding.into(), site, observer: PersonCode::new(self.who).unwrap() };
        validate(&key, &answer).unwrap();
        let body = Body {
            schema: ENTRY_SCHEMA,
            act: Act::Answer { key, answer, supersedes },
            typed_by: PersonCode::new(self.who).unwrap(),
            at: Moment::parse("2027-01-05T07:30:00-05:00").unwrap(),
            zone: String::new(),
            since_start_ms: None,
            versions: Versions { protocol: 1, step: None, card: None },
        };
        let read = Body::read(&body.write().unwrap()).unwrap();
        assert_eq!(read, body, "written and read again is the same");
        let entry = self.head.next(&body, Salt([7; 16])).unwrap();
        self.head = self.head.check(&entry).unwrap();
        let id = entry.id();
        self.journal.add(entry).unwrap();
        id
    }

    fn on(&mut self, day: &str, finding: &str, number: i64) -> EntryId {
        self.write(finding, Site::day(Day::parse(day).unwrap()), Answer::number(number), Vec::new())
    }
}

#[test]
fn a_log_is_found_again_in_the_journal() {
    let mut phone = Phone::new(1, "K7");
    let name = Answer::Seen { value: Value::Text("North ridge".to_owned()) };
    phone.write("log_place_name", Site::NONE, name, vec![]);
    phone.write("log_read_at", Site::NONE, Answer::choice("morning"), vec![]);
    phone.write("log_sink_gauge", Site::NONE, Answer::choice("copper_3_lb"), vec![]);
    phone.on("2027-01-05", "day_minimum_c", -1_778);
    phone.on("2027-01-05", "day_snow_depth_cm", 45_720);
    let sixth = Site::day(Day::parse("2027-01-06").unwrap());
    phone.write("day_new_snow_cm", sixth, Answer::NotSeen, vec![]);
    phone.write("day_minimum_c", sixth, Answer::CantTell { why: Why::Frozen }, vec![]);
    let all = logs(&fold(&phone.journal));
    assert_eq!(all.len(), 1);
    let log = &all[0];
    assert_eq!(
        (log.place.as_str(), log.read_at, log.gauge),
        ("North ridge", Some(ReadAt::Morning), Some(Gauge::Copper))
    );
    let fifth = log.day(date(2027, 1, 5));
    assert_eq!(fifth.minimum, Some(Said::one(Temperature::ZERO_F)), "exactly 0 F, as typed");
    assert_eq!(fifth.depth, Some(Said::one(Depth::from_hundredths_in(1_800))));
    assert_eq!(fifth.new_snow, None, "not read is not zero");
    let sixth = log.day(date(2027, 1, 6));
    assert_eq!(sixth.new_snow, Some(Said::one(Depth::default())), "looked for and none there is zero");
    assert_eq!(sixth.minimum, None, "could not tell is not a reading");
}

#[test]
fn a_correction_is_a_later_entry_and_two_phones_that_differ_are_both_kept() {
    let mut ours = Phone::new(1, "K7");
    let first = ours.on("2027-01-05", "day_minimum_c", -1_000);
    let day = Site::day(Day::parse("2027-01-05").unwrap());
    ours.write("day_minimum_c", day, Answer::number(-1_200), vec![first]);
    let minimum =
        |journal: &Journal| log(&fold(journal).winter_logs[&Uuid::from_u128(3)]).day(date(2027, 1, 5)).minimum;
    let c = |hundredths| Temperature::from_hundredths_c(hundredths);
    assert_eq!(minimum(&ours.journal), Some(Said::one(c(-1_200))));
    let mut theirs = Phone::new(2, "A1");
    theirs.on("2027-01-05", "day_minimum_c", -1_900);
    ours.journal.merge(&theirs.journal);
    ours.journal.merge(&theirs.journal);
    let said = minimum(&ours.journal).unwrap();
    assert_eq!((said.low, said.high), (c(-1_900), c(-1_200)));
    assert!(said.is_split());
}

#[test]
fn a_day_s_finding_needs_a_day_and_a_log() {
    let key = |subject, site| Key {
        subject,
        finding: "day_minimum_c".into(),
        site,
        observer: PersonCode::new("K7").unwrap(),
    };
    let day = Site::day(Day::parse("2027-01-05").unwrap());
    let answer = Answer::number(-1_778);
    assert!(validate(&key(PLACE, day), &answer).is_ok());
    assert!(matches!(validate(&key(PLACE, Site::NONE), &answer), Err(Flaw::WrongSite { .. })));
    assert!(matches!(validate(&key(PLACE, Site { item: Some(1), ..day }), &answer), Err(Flaw::WrongSite { .. })));
    let exam = Subject::Examination(Uuid::from_u128(3));
    assert!(matches!(validate(&key(exam, day), &answer), Err(Flaw::WrongSubject { .. })));
    assert!(matches!(validate(&key(PLACE, day), &Answer::number(9_900)), Err(Flaw::OutOfRange { .. })));
    let depth = Key { finding: "day_snow_depth_cm".into(), ..key(PLACE, day) };
    assert!(matches!(validate(&depth, &Answer::number(-1)), Err(Flaw::OutOfRange { .. })), "no negative depth");
    let body = Key { finding: "body_state".into(), ..key(exam, day) };
    assert!(matches!(validate(&body, &Answer::choice("whole")), Err(Flaw::WrongSite { .. })), "no day on an animal");
}

proptest! {
    #[test]
    fn merging_logs_is_a_union_whatever_the_order(
        a in prop::collection::vec((0_u8..5, 0_u8..3, -4_000_i64..2_000), 0..12),
        b in prop::collection::vec((0_u8..5, 0_u8..3, -4_000_i64..2_000), 0..12),
    ) {
        let write = |number: u8, who: &'static str, rows: &[(u8, u8, i64)]| {
            let mut phone = Phone::new(number, who);
            let mut last: Option<EntryId> = None;
            for (day, what, value) in rows {
                let site = Site::day(Day::new(2027, 1, 1 + day).unwrap());
                let finding = ["day_minimum_c", "day_maximum_c", "day_mean_c"][usize::from(*what)];
                let supersedes = if *value % 3 == 0 { last.into_iter().collect() } else { Vec::new() };
                last = Some(phone.write(finding, site, Answer::number(*value), supersedes));
            }
            phone.journal
        };
        let (a, b) = (write(1, "K7", &a), write(2, "A1", &b));
        let mut ab = a.clone();
        ab.merge(&b);
        let mut ba = b.clone();
        ba.merge(&a);
        ba.merge(&b);
        prop_assert_eq!(logs(&fold(&ab)), logs(&fold(&ba)));
    }
}
