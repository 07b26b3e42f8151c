//! The work that the benchmarks time, the same natively and in a phone's wasm.
//! The carcass is the first one of the invented outing, with every finding that it holds.

use marrowbook::bundle::{Cover, DeviceKey, Extras, FourVersions, PhoneReading, make};
use marrowbook::reading::{self, Given};
use marrowbook::record::{
    Act, Answer, Body, Carcass, ENTRY_SCHEMA, Entry, Fold, Head, Journal, Key, Moment, PersonCode, Salt, Site, Subject,
    Value, Versions, fold, links, uuid_v7,
};
use marrowbook::science::cause::{AREAS, Answers, Case, Modifiers, Table, prior};
use serde::Deserialize;
use uuid::Uuid;

#[derive(Deserialize)]
struct Outing {
    carcasses: Vec<Examined>,
}

#[derive(Deserialize)]
struct Examined {
    findings: Vec<Found>,
}

#[derive(Clone, Deserialize)]
pub(crate) struct Found {
    pub(crate) finding: String,
    pub(crate) answer: Answer,
    #[serde(default)]
    pub(crate) site: Site,
}

/// What was found at each carcass of the invented outing.
pub(crate) fn outing() -> Vec<Vec<Found>> {
    let outing: Outing =
        serde_json::from_str(include_str!("../../demo/outing.json")).expect("the invented outing reads");
    outing.carcasses.into_iter().map(|one| one.findings).collect()
}

/// Bytes that do not compress, as salts and ids do not, the same each time.
pub(crate) struct Dice(pub(crate) u64);

impl Dice {
    pub(crate) fn next(&mut self) -> u64 {
        self.0 = self.0.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
        self.0 >> 33
    }

    pub(crate) fn bytes<const N: usize>(&mut self) -> [u8; N] {
        std::array::from_fn(|_| {
            self.next();
            let [top, ..] = self.0.to_be_bytes();
            top
        })
    }
}

/// A signing key that is no secret: the seed of RFC 8032, section 7.1, TEST 1.
pub(crate) fn key() -> DeviceKey {
    DeviceKey::from_seed(&[
        0x9d, 0x61, 0xb1, 0x9d, 0xef, 0xfd, 0x5a, 0x60, 0xba, 0x84, 0x4a, 0xf4, 0x92, 0xec, 0x2c, 0xc4, 0x44, 0x49,
        0xc5, 0x69, 0x7b, 0x32, 0x69, 0x19, 0x70, 0x3b, 0xac, 0x03, 0x1c, 0xae, 0x7f, 0x60,
    ])
}

/// The entries of `count` carcasses, one chain, as one phone would have written them.
#[allow(dead_code)] // not every target asks
pub(crate) fn entries(count: u128, key: &DeviceKey) -> Vec<Entry> {
    entries_with(count, key, |_| Vec::new())
}

/// The same, each carcass with a place where `place` gives one.
pub(crate) fn entries_with(count: u128, key: &DeviceKey, also: impl Fn(u128) -> Vec<Found>) -> Vec<Entry> {
    let outing = outing();
    let findings = outing.first().expect("a carcass of the invented outing");
    let mut head = Head::start(key.public().id());
    let mut all = Vec::new();
    let mut dice = Dice(1);
    for carcass in 0..count {
        let tie = Found {
            finding: links::CARCASS.to_owned(),
            answer: Answer::Seen { value: Value::Ref(id(carcass)) },
            site: Site::NONE,
        };
        let also = also(carcass);
        for found in std::iter::once(&tie).chain(&also).chain(findings) {
            let entry = head.next(&body(carcass, found, all.len()), Salt(dice.bytes())).expect("an entry is written");
            head = Head::after(&entry);
            all.push(entry);
        }
    }
    all
}

/// An id such as a phone makes. Its random part is another each time, as the codes and numbers that are made of it need.
fn id(number: u128) -> Uuid {
    // An odd number, so that no two come out alike.
    let mixed = (number + 1).wrapping_mul(0x9E37_79B9_7F4A_7C15_F39C_C060_5CED_C835).to_be_bytes();
    uuid_v7(1_800_000_000_000, *mixed.first_chunk().expect("ten of sixteen bytes"))
}

fn body(carcass: u128, found: &Found, number: usize) -> Body {
    let number = i64::try_from(number).expect("few entries");
    Body {
        schema: ENTRY_SCHEMA,
        act: Act::Answer {
            key: Key {
                subject: Subject::Examination(id((1 << 80) + carcass)),
                finding: found.finding.as_str().into(),
                site: found.site,
                observer: PersonCode::new("K7").expect("a code"),
            },
            answer: found.answer.clone(),
            supersedes: vec![],
        },
        typed_by: PersonCode::new("B2").expect("a code"),
        at: Moment::from_unix(1_800_000_000 + number * 17, -300).expect("a moment"),
        zone: "America/Toronto".to_owned(),
        since_start_ms: Some(number.unsigned_abs() * 17_123),
        versions: Versions { protocol: 1, step: Some(found.finding.clone()), card: None },
    }
}

/// A signed bundle of `entries`, without readings.
pub(crate) fn bundle(entries: &[Entry], key: &DeviceKey) -> String {
    pack(entries, Extras::default(), key)
}

/// A signed bundle of `entries` as a phone hands it over once every record is closed: with all readings.
#[allow(dead_code)] // not every target asks
pub(crate) fn bundle_with_readings(entries: &[Entry], key: &DeviceKey) -> String {
    let read = |carcass: &Carcass| PhoneReading {
        carcass: carcass.id,
        text: reading::all(carcass, &Given::default()).to_hand_over().expect("readings are written"),
    };
    let readings = folded(entries).carcasses.values().map(read).collect();
    pack(entries, Extras { readings, ..Extras::default() }, key)
}

fn pack(entries: &[Entry], extras: Extras, key: &DeviceKey) -> String {
    let cover = Cover {
        bundle: Uuid::from_u128(7),
        made_at: Moment::from_unix(1_800_100_000, -300).expect("a moment"),
        zone: "America/Toronto".to_owned(),
        app: env!("CARGO_PKG_VERSION").to_owned(),
        versions: FourVersions { envelope: 1, entry_schema: ENTRY_SCHEMA, protocol: 1, science: 1 },
        label: "phone of the benchmark".to_owned(),
        crew: None,
        card: None,
    };
    make(cover, entries, extras, key).expect("a bundle is made")
}

/// What the entries fold to.
pub(crate) fn folded(entries: &[Entry]) -> Fold {
    let mut journal = Journal::new();
    for entry in entries {
        journal.add(entry.clone()).expect("our own chain joins the journal");
    }
    fold(&journal)
}

/// A carcass as a visit of some hours leaves it: twelve rows.
#[allow(dead_code)] // the native rows take the whole
pub(crate) fn twelve_rows(table: &Table) -> Case {
    let mut seen = Answers::NONE;
    for number in [3, 4, 5, 6, 7, 8, 10, 11, 12, 16, 18, 23] {
        seen.set(number, Some(0));
    }
    Case { answers: seen, ..whole_case(table) }
}

/// A carcass of which every row of the evidence table is answered, each in its first state.
pub(crate) fn whole_case(table: &Table) -> Case {
    let mut seen = Answers::NONE;
    for row in &table.rows {
        seen.set(row.number, Some(0));
    }
    let set = table.prior(AREAS[1]).expect("an area of the table");
    Case::new(prior(set, Modifiers::default()).expect("shares"), seen)
}
