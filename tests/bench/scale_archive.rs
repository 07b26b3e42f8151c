//! Makes an archive of so many carcasses for `tests/long scale`: `scale-archive COUNT FOLDER`.
//!
//! The deer are those of the invented outing by turns, each at a place and on a day of its own: one on five square
//! kilometres, a winter of 150 days, twenty-five to a phone and at most twenty crews. Only time and memory are measured
//! on it, no figure.
#![allow(clippy::expect_used, clippy::cast_possible_truncation, clippy::cast_possible_wrap, missing_docs)]

#[allow(dead_code)] // what else is timed
mod work;

use std::path::PathBuf;

use marrowbook::bundle::{Cover, DeviceKey, Extras, Fingerprint, FourVersions, make};
use marrowbook::office::archive::Archive;
use marrowbook::office::keyring::Keyring;
use marrowbook::record::{
    Act, Answer, Body, ENTRY_SCHEMA, Entry, Head, Key, Moment, PersonCode, Place, PlaceSource, Salt, Site, Subject,
    Value, Versions, links, uuid_v7,
};
use work::{Dice, outing};

/// Carcasses that one phone hands over, in one bundle.
const OF_A_PHONE: u64 = 25;
/// Square kilometres to a carcass.
const KM2: f64 = 5.0;

/// From zero to below one.
fn share(dice: &mut Dice) -> f64 {
    (dice.next() % 1_000_000) as f64 / 1e6
}

fn main() {
    let mut args = std::env::args_os().skip(1);
    let count: u64 = args.next().and_then(|n| n.to_str()?.parse().ok()).expect("how many carcasses");
    let folder: PathBuf = args.next().expect("a folder").into();
    let outing = outing();
    let archive = Archive::at(&folder);
    let mut dice = Dice(11);
    let mut ring = Keyring::default();
    let begun = Moment::from_unix(1_796_000_000, -300).expect("a moment");
    // A square of so many square kilometres, some forty-five degrees north.
    let side_deg = (count as f64 * KM2).sqrt() / 111.2;
    let mut done = 0;
    while done < count {
        let key = DeviceKey::from_seed(&dice.bytes());
        let id = key.public().id();
        ring.enrol(&format!("phone {done}"), Fingerprint::of(id), Some(id), begun).expect("a new phone");
        let mut head = Head::start(id);
        let mut entries: Vec<Entry> = Vec::new();
        for carcass in done..(done + OF_A_PHONE).min(count) {
            let at = 1_796_200_000 + (dice.next() % 150) as i64 * 86_400;
            let place = Place {
                lat_e7: ((45.0 + share(&mut dice) * side_deg) * 1e7) as i64,
                lon_e7: ((-90.0 + share(&mut dice) * side_deg) * 1e7) as i64,
                accuracy_m_95: Some(8),
                source: PlaceSource::Device,
            };
            let turn = carcass as usize % outing.len();
            let findings = outing.get(turn).map(Vec::as_slice).unwrap_or_default();
            let of = uuid_v7(at.unsigned_abs() * 1000, dice.bytes());
            let examination = uuid_v7(at.unsigned_abs() * 1000 + 1, dice.bytes());
            let tie = Answer::Seen { value: Value::Ref(of) };
            let mut rows = vec![(links::CARCASS, Site::NONE, tie)];
            rows.extend(findings.iter().map(|found| {
                let answer = match found.finding.as_str() {
                    "place" => Answer::Seen { value: Value::Place(place.clone()) },
                    _ => found.answer.clone(),
                };
                (found.finding.as_str(), found.site, answer)
            }));
            // Moments of the outing itself would put all deer on one day.
            rows.retain(|(_, _, answer)| !matches!(answer.value(), Some(Value::Instant(_))));
            for (number, (finding, site, answer)) in (0_i64..).zip(rows) {
                let person = PersonCode::new("K7").expect("a code");
                let key = Key {
                    subject: Subject::Examination(examination),
                    finding: finding.into(),
                    site,
                    observer: person.clone(),
                };
                let body = Body {
                    schema: ENTRY_SCHEMA,
                    act: Act::Answer { key, answer, supersedes: Vec::new() },
                    typed_by: person,
                    at: Moment::from_unix(at + number * 17, -300).expect("a moment"),
                    zone: "America/Toronto".to_owned(),
                    since_start_ms: Some(number.unsigned_abs() * 17_123),
                    versions: Versions { protocol: 1, step: Some(finding.to_owned()), card: None },
                };
                let entry = head.next(&body, Salt(dice.bytes())).expect("an entry");
                head = Head::after(&entry);
                entries.push(entry);
            }
        }
        let cover = Cover {
            bundle: uuid_v7(1_810_000_000_000, dice.bytes()),
            made_at: Moment::from_unix(1_810_000_000, -300).expect("a moment"),
            zone: "America/Toronto".to_owned(),
            app: env!("CARGO_PKG_VERSION").to_owned(),
            versions: FourVersions { envelope: 1, entry_schema: ENTRY_SCHEMA, protocol: 1, science: 1 },
            label: format!("phone {done}"),
            crew: Some(format!("crew {}", done / OF_A_PHONE % 20)),
            card: None,
        };
        let text = make(cover, &entries, Extras::default(), &key).expect("a bundle");
        archive.keep(text.as_bytes()).expect("the bundle is kept");
        done += OF_A_PHONE;
    }
    archive.save_keyring(&ring, None).expect("the keyring is kept");
    println!("{count} carcasses in {}", folder.display());
}
