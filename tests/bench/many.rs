//! An archive of many invented carcasses, to open in the office's page: `many-carcasses FOLDER [COUNT]` writes
//! `keyring.json` and bundles of 100 carcasses each. For `tests/browser/office-many.mjs`; no figure of it is a check value.
#![allow(
    clippy::expect_used,
    clippy::indexing_slicing,
    clippy::cast_possible_truncation,
    clippy::unnecessary_wraps,
    missing_docs
)]

mod work;

use marrowbook::bundle::Fingerprint;
use marrowbook::office::keyring::Keyring;
use marrowbook::record::{Answer, Moment, Place, PlaceSource, Site, Value};
use std::fs;
use std::path::Path;
use work::Found;

/// Carcasses in one bundle.
const IN_ONE: usize = 100;

/// Of so many the last lies where the one before it lies: they may be one animal.
const ONE_DOUBLE_IN: i64 = 250;

/// Spread over some 30 by 30 km, so that few lie near each other; and a jaw that was taken, with its number.
fn also(carcass: u128) -> Vec<Found> {
    let n = i64::try_from(carcass).expect("few carcasses");
    let at = n - i64::from(n % ONE_DOUBLE_IN == ONE_DOUBLE_IN - 1);
    let place = Place {
        lat_e7: 471_000_000 + at * 7_919_317 % 2_700_000,
        lon_e7: -920_000_000 + at * 5_371_717 % 4_000_000,
        accuracy_m_95: Some(12),
        source: PlaceSource::Device,
    };
    let seen = |finding: &str, value, site| Found { finding: finding.to_owned(), answer: Answer::Seen { value }, site };
    vec![
        seen("place", Value::Place(place), Site::NONE),
        seen("jaw_taken", Value::Choice("whole_jaw".to_owned()), Site::NONE),
        seen("sample_number", Value::Text(format!("INV-{n}")), Site::item(1)),
    ]
}

fn main() {
    let mut args = std::env::args().skip(1);
    let folder = args.next().expect("the folder to write to");
    let count: u128 = args.next().map_or(5000, |n| n.parse().expect("how many carcasses"));
    let folder = Path::new(&folder);
    fs::create_dir_all(folder).expect("the folder is made");
    let key = work::key();
    let entries = work::entries_with(count, &key, also);
    let each = entries.len() / usize::try_from(count).expect("few carcasses");
    for (n, part) in entries.chunks(each * IN_ONE).enumerate() {
        fs::write(folder.join(format!("bundle-{n:04}.txt")), work::bundle(part, &key)).expect("a bundle is written");
    }
    let mut ring = Keyring::default();
    let at = Moment::from_unix(1_790_000_000, -300).expect("a moment");
    let device = key.public().id();
    ring.enrol("phone of the benchmark", Fingerprint::of(device), Some(device), at).expect("an empty ring takes it");
    fs::write(folder.join("keyring.json"), ring.write().expect("a ring is written")).expect("the ring is written");
    println!("{} entries", entries.len());
}
