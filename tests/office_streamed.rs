//! An archive that is read in parts says the same as one that is held whole, however small the parts are and however many
//! threads work. All carcasses are invented; what is held against each other are two ways through this program.
#![cfg(feature = "cli")]
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, clippy::indexing_slicing)]

#[path = "office/kit.rs"]
mod kit;
#[path = "../demo/season/make/mod.rs"]
mod make_season;
#[path = "office/ran.rs"]
mod ran;
#[path = "office/season_folder.rs"]
mod season_folder;

use std::collections::{BTreeMap, BTreeSet};
use std::io::{self, Write};
use std::path::Path;
use std::sync::{Arc, Mutex};

use marrowbook::bundle::{DeviceKey, Extras, Fingerprint, make};
use marrowbook::office::archive;
use marrowbook::office::export::{self, Out};
use marrowbook::office::season::asked::Asked;
use marrowbook::office::season::{self, gather};
use marrowbook::office::streamed::store::{InMemory, Store};
use marrowbook::office::streamed::{Bounds, StreamError, Streamed};
use marrowbook::record::{
    Act, Answer, Body, ENTRY_SCHEMA, Entry, EntryId, Fold, Head, Key, Moment, PersonCode, Salt, Site, Subject, Value,
    Versions, fold, links,
};
use season_folder::{Archive, Deer};
use uuid::Uuid;

/// Parts of a kilobyte on three threads, so that hardly two carcasses lie in one.
const SMALL: Bounds = Bounds { part_bytes: 1 << 10, most_parts: u64::MAX, threads: 3 };

fn at(minute: i64) -> Moment {
    Moment::from_unix(1_802_700_000 + minute * 60, -300).unwrap()
}

/// The key of another office, whose archive was put together with this one's.
fn another_office() -> DeviceKey {
    DeviceKey::from_seed(&[6; 32])
}

/// A phone's chain, of which ranges are handed over.
struct Chain {
    key: DeviceKey,
    head: Head,
    entries: Vec<Entry>,
}

impl Chain {
    fn of(key: DeviceKey) -> Self {
        Self { head: Head::start(key.public().id()), key, entries: Vec::new() }
    }

    fn add(&mut self, act: Act) -> EntryId {
        let n = i64::try_from(self.entries.len()).unwrap();
        let body = Body {
            schema: ENTRY_SCHEMA,
            act,
            typed_by: PersonCode::new("K7").unwrap(),
            at: at(n),
            zone: String::new(),
            since_start_ms: None,
            versions: Versions { protocol: 1, step: None, card: None },
        };
        let entry = self.head.next(&body, Salt([9; 16])).unwrap();
        self.head = Head::after(&entry);
        self.entries.push(entry.clone());
        entry.id()
    }

    fn say(&mut self, subject: Subject, finding: &str, answer: Answer, supersedes: &[EntryId]) -> EntryId {
        let observer = PersonCode::new("K7").unwrap();
        let key = Key { subject, finding: finding.into(), site: Site::NONE, observer };
        self.add(Act::Answer { key, answer, supersedes: supersedes.to_vec() })
    }

    fn bundle(&self, range: std::ops::Range<usize>, extras: Extras) -> String {
        make(kit::cover(), &self.entries[range], extras, &self.key).unwrap()
    }
}

const fn carcass(n: u128) -> Uuid {
    Uuid::from_u128(0x0190_0000_0000_7000_8000_0000_0000_0000 + n)
}

const fn exam(n: u128) -> Subject {
    Subject::Examination(Uuid::from_u128(0x0190_0000_0000_7000_9000_0000_0000_0000 + n))
}

fn refers(id: Uuid) -> Answer {
    Answer::Seen { value: Value::Ref(id) }
}

/// Two phones that went to the same carcasses; whatever makes an entry belong elsewhere than where it lies is in it.
fn tangled(archive: &Archive) {
    let words = Fingerprint::of(another_office().public().id()).to_string();
    let ran = archive.run(&["enrol", "--fingerprint", &words, "--name", "the office of North Moor"]);
    assert_eq!(ran.code, 0, "{ran:?}");
    let mut a = Chain::of(kit::phone());
    let (outing, report) = (Uuid::from_u128(71), Uuid::from_u128(72));
    for n in 0..30 {
        a.say(exam(n), "species", Answer::choice("white_tailed_deer"), &[]);
        a.say(exam(n), links::CARCASS, refers(carcass(n)), &[]);
        a.say(exam(n), "blood_on_snow", Answer::NotSeen, &[]);
        a.say(exam(n), links::OUTING, refers(outing), &[]);
    }
    a.say(Subject::Outing(outing), "outing_kind", Answer::choice("search"), &[]);
    a.say(Subject::Report(report), "report_species", Answer::choice("deer"), &[]);
    a.say(exam(3), links::REPORT, refers(report), &[]);
    let first = a.entries.len();
    // An examination that turned out to be of another carcass, far from it in the order of ids.
    let tie = EntryId { device: a.key.public().id(), seq: 2 };
    a.say(exam(0), links::CARCASS, refers(carcass(29)), &[tie]);
    // One of which two people say different things, one that is of none, one whose tie was taken back.
    a.say(exam(40), links::CARCASS, refers(carcass(12)), &[]);
    a.say(exam(40), links::CARCASS, refers(carcass(5)), &[]);
    a.say(exam(41), "species", Answer::choice("other_deer"), &[]);
    let gone = a.say(exam(42), links::CARCASS, refers(carcass(7)), &[]);
    a.add(Act::Withdraw { supersedes: vec![gone] });
    a.say(exam(43), links::CARCASS, Answer::NotSeen, &[]);
    a.say(exam(44), links::CARCASS, Answer::choice("what"), &[]);
    a.say(exam(44), links::CARCASS, refers(carcass(8)), &[]);
    let second = a.entries.len();
    // A second phone at some of them; it takes back what the first one wrote.
    let mut b = Chain::of(kit::lost_phone());
    for n in 0..6 {
        b.say(exam(100 + n), links::CARCASS, refers(carcass(n * 5)), &[]);
        b.say(exam(100 + n), "blood_on_snow", Answer::choice("there"), &[]);
    }
    let of_a = |seq| EntryId { device: kit::phone().public().id(), seq };
    b.add(Act::Withdraw { supersedes: vec![of_a(3)] });
    // Another office joins and decides: of a crew's phone neither would count.
    let mut office = Chain::of(another_office());
    office.add(Act::Alias { carcasses: [carcass(20), carcass(2)] });
    office.add(Act::Alias { carcasses: [carcass(20), carcass(28)] });
    let apart = office.add(Act::Alias { carcasses: [carcass(4), carcass(6)] });
    office.add(Act::Withdraw { supersedes: vec![apart] });
    office.add(Act::Alias { carcasses: [carcass(10), Uuid::from_u128(1)] });
    office.add(Act::Decide {
        carcass: carcass(28),
        finding: "blood_on_snow".into(),
        site: Site::NONE,
        answer: Answer::choice("there"),
        supersedes: vec![of_a(11)],
        reason: "seen on the photo".to_owned(),
    });
    // The second phone goes on from a copy of itself: two entries of one number.
    let mut copy = Chain { key: kit::lost_phone(), head: b.head, entries: b.entries.clone() };
    copy.say(exam(100), "hair_scattered", Answer::NotSeen, &[]);
    b.say(exam(101), "hair_scattered", Answer::choice("there"), &[]);
    let withheld: Vec<Entry> = a.entries[first..second].iter().map(Entry::withhold).collect();
    for (name, text) in [
        // The same again, in ranges that reach over each other; once with bodies withheld that come elsewhere.
        ("1.txt", a.bundle(0..first, Extras::default())),
        ("2.txt", a.bundle(40..second, Extras::default())),
        ("3.txt", make(kit::cover(), &withheld, Extras::default(), &a.key).unwrap()),
        ("4.txt", b.bundle(0..b.entries.len(), Extras::default())),
        ("6.txt", office.bundle(0..office.entries.len(), Extras::default())),
        (
            "5.txt",
            copy.bundle(
                0..copy.entries.len(),
                Extras { carried: vec![a.bundle(0..50, Extras::default())], ..Extras::default() },
            ),
        ),
    ] {
        archive.keep(name, &text);
    }
}

/// What all parts hold together.
#[derive(Default)]
struct Whole {
    parts: usize,
    carcasses: BTreeMap<Uuid, marrowbook::record::Carcass>,
    outings: BTreeMap<Uuid, marrowbook::record::Sheet>,
    reports: BTreeMap<Uuid, marrowbook::record::Sheet>,
}

fn together(streamed: &Streamed) -> Whole {
    let mut out = Whole::default();
    let mut last = None;
    let take = |folded: Fold| {
        out.parts += 1;
        for (id, carcass) in folded.carcasses {
            assert!(last < Some(id), "in the order of their ids");
            last = Some(id);
            for exam in carcass.examinations.values() {
                // What a reading looks up beside a carcass lies in the same part.
                if let Answer::Seen { value: Value::Ref(outing) } = exam.sheet.answer(links::OUTING) {
                    assert!(folded.outings.contains_key(&outing), "{outing}");
                }
                if let Answer::Seen { value: Value::Ref(report) } = exam.sheet.answer(links::REPORT) {
                    assert!(folded.reports.contains_key(&report), "{report}");
                }
            }
            out.carcasses.insert(id, carcass);
        }
        Ok::<_, StreamError>(())
    };
    streamed.carcasses(|folded| folded, take).unwrap();
    let outings = |folded: Fold| {
        out.outings.extend(folded.outings);
        Ok::<_, StreamError>(())
    };
    streamed.outings(|folded| folded, outings).unwrap();
    let reports = |folded: Fold| {
        out.reports.extend(folded.reports);
        Ok::<_, StreamError>(())
    };
    streamed.reports(|folded| folded, reports).unwrap();
    out
}

#[test]
fn parts_together_are_the_whole_fold() {
    let tangle = Archive::new("streamed-tangled");
    tangled(&tangle);
    let made = ran::folder("streamed-made");
    make_season::season(&made).unwrap();
    for (folder, adrift, forks, fewest, joined) in
        [(Path::new(tangle.folder()).to_owned(), 3, 1, 20, 2), (made.join("archive"), 0, 0, 30, 0)]
    {
        let archive = archive::Archive::at(&folder);
        let keyring = archive.keyring().unwrap();
        let held = gather(&archive, &keyring, None).unwrap();
        let whole = fold(&held.entries.journal);
        assert!(whole.carcasses.values().filter(|one| one.joined.len() > 1).count() >= joined);
        let decided = whole.carcasses.get(&carcass(2)).is_none_or(|one| one.decided_questions().count() == 1);
        assert!(decided, "what was decided of one of the joined is decided of all");
        let one = Bounds { part_bytes: 1, ..SMALL };
        for bounds in [Bounds::default(), SMALL, one, Bounds { most_parts: 3, ..one }] {
            let mut store = InMemory::default();
            let streamed = Streamed::cut(&archive, &keyring, None, &mut store, bounds).unwrap();
            let parts = together(&streamed);
            assert_eq!(parts.carcasses, whole.carcasses);
            assert_eq!((parts.outings, parts.reports), (whole.outings.clone(), whole.reports.clone()));
            assert_eq!(streamed.winter_logs().unwrap().winter_logs, whole.winter_logs);
            assert_eq!((streamed.adrift, streamed.forks), (whole.adrift.len(), held.entries.journal.forks().len()));
            assert!(streamed.adrift >= adrift && streamed.forks >= forks, "{} {}", streamed.adrift, streamed.forks);
            match bounds {
                bounds if bounds == Bounds::default() => assert_eq!(parts.parts, 1),
                Bounds { most_parts: 3, .. } => assert!((2..=4).contains(&parts.parts), "{}", parts.parts),
                _ => assert!(parts.parts >= fewest, "{}", parts.parts),
            }
            let files = &streamed.files;
            assert_eq!(
                (&files.opened, &files.used, &files.crews),
                (&held.files.opened, &held.files.used, &held.files.crews)
            );
            assert_eq!((&files.not_used, files.worst), (&held.files.not_used, held.files.worst));
        }
    }
}

#[test]
fn a_season_in_parts_has_the_bytes_of_one_held_whole() {
    let folder = Archive::new("streamed-season");
    tangled(&folder);
    folder.keep("north.txt", &season_folder::bundle(&kit::stranger(), "who", &[Deer::of(3)], &[]));
    let deer: Vec<Deer> = (1..9).map(Deer::of).collect();
    let searched =
        season_folder::Outing { kind: "search", route: "lines", strip_m: Some(20), lines_m: vec![2000, 3500] };
    folder.keep("deer.txt", &season_folder::bundle_with(&kit::phone(), "north", &deer, &[], Some(&searched)));
    let archive = archive::Archive::at(folder.folder());
    let keyring = archive.keyring().unwrap();
    let asked = Asked { winter: Some(2026), ..Asked::default() };
    let held = gather(&archive, &keyring, None).unwrap();
    let whole = season::season(&held, &asked).unwrap();
    assert!(whole.carcasses.found > 8 && whole.carcasses.forks > 0, "{:?}", whole.carcasses);
    let whole = season::written::files(&held.files, &keyring, asked, &whole, None).unwrap();
    let mut store = InMemory::default();
    let streamed = Streamed::cut(&archive, &keyring, None, &mut store, SMALL).unwrap();
    let parts = season::season_streamed(&streamed, &asked).unwrap();
    let parts = season::written::files(&streamed.files, &keyring, asked, &parts, None).unwrap();
    let differing: Vec<_> = whole.iter().zip(&parts).filter(|(a, b)| a != b).map(|(a, _)| &a.0).collect();
    assert!(whole.len() == parts.len() && differing.is_empty(), "{differing:?}");
}

/// An export in memory.
#[derive(Clone, Default)]
struct Held(Arc<Mutex<BTreeMap<String, Vec<u8>>>>);

struct HeldFile(Held, String);

impl Out for Held {
    fn file(&mut self, name: &str) -> io::Result<Box<dyn Write + Send>> {
        assert!(self.0.lock().unwrap().insert(name.to_owned(), Vec::new()).is_none(), "{name} twice");
        Ok(Box::new(HeldFile(self.clone(), name.to_owned())))
    }
}

impl Write for HeldFile {
    fn write(&mut self, bytes: &[u8]) -> io::Result<usize> {
        self.0.0.lock().unwrap().get_mut(&self.1).unwrap().extend_from_slice(bytes);
        Ok(bytes.len())
    }

    fn flush(&mut self) -> io::Result<()> {
        Ok(())
    }
}

#[test]
fn an_export_in_small_parts_has_the_same_bytes_in_every_form() {
    let tangle = Archive::new("streamed-export");
    tangled(&tangle);
    tangle.keep("full.txt", &kit::full());
    let made = ran::folder("streamed-export-made");
    make_season::season(&made).unwrap();
    let all = export::Asked::default();
    let last = export::Asked { winter: Some(2026), names: true, ..all };
    for (folder, asked) in
        [(Path::new(tangle.folder()).to_owned(), vec![all, last]), (made.join("archive"), vec![last])]
    {
        let archive = archive::Archive::at(&folder);
        let keyring = archive.keyring().unwrap();
        for asked in asked {
            let run = |bounds: Bounds| {
                let (mut store, out) = (InMemory::default(), Held::default());
                let streamed = Streamed::cut(&archive, &keyring, None, &mut store, bounds).unwrap();
                let said = export::write(&streamed, &asked, &mut out.clone()).unwrap();
                let files = out.0.lock().unwrap().clone();
                assert_eq!(files.len(), said.files);
                (said, files)
            };
            let (whole, files) = run(Bounds::default());
            let (small, others) = run(SMALL);
            assert_eq!(whole, small);
            assert!(whole.carcasses > 10 && whole.answers > whole.carcasses, "{whole:?}");
            assert_eq!(files.keys().collect::<BTreeSet<_>>(), others.keys().collect::<BTreeSet<_>>());
            let differing: Vec<&String> =
                files.iter().filter(|(name, text)| others[*name] != **text).map(|(n, _)| n).collect();
            assert!(differing.is_empty(), "{differing:?}");
            let ends = [".csv", ".geojson", ".ndjson", "occurrence.txt", "measurementorfact.txt", ".parquet"];
            assert!(ends.iter().all(|end| files.keys().any(|name| name.ends_with(end))), "{:?}", files.keys());
        }
    }
}

/// What cannot be written, between or at the end, ends the run and says why.
#[test]
fn no_room_is_told() {
    struct Full(usize);
    impl Out for Full {
        fn file(&mut self, name: &str) -> io::Result<Box<dyn Write + Send>> {
            self.0 += 1;
            if self.0 > 8 { Err(io::Error::other(format!("{name}: no room"))) } else { Ok(Box::new(Vec::new())) }
        }
    }
    impl Store for Full {
        fn put(&mut self, _: &[u8]) -> io::Result<u64> {
            Err(io::Error::other("no room in between"))
        }
        fn get(&self, _: u64, _: usize) -> io::Result<Vec<u8>> {
            Err(io::Error::other("nothing lies there"))
        }
    }
    let folder = Archive::new("streamed-fails");
    folder.keep("full.txt", &kit::full());
    let archive = archive::Archive::at(folder.folder());
    let keyring = archive.keyring().unwrap();
    for bounds in [SMALL, Bounds::default()] {
        let mut store = InMemory::default();
        let streamed = Streamed::cut(&archive, &keyring, None, &mut store, bounds).unwrap();
        let error = export::write(&streamed, &export::Asked::default(), &mut Full(0)).unwrap_err();
        assert!(error.to_string().contains("no room"), "{error}");
        let mut full = Full(0);
        let Err(error) = Streamed::cut(&archive, &keyring, None, &mut full, bounds) else { panic!("nothing was put") };
        assert!(matches!(&error, StreamError::Store(cause) if cause.to_string() == "no room in between"), "{error}");
    }
}
