//! What the office's command line says, all of it, byte for byte as it was when somebody last looked: of the invented
//! season, and of answers given by chance, which come by what no season in its right mind holds. This says that something
//! moved and never that it was right; none of it is a check value. A change that was meant is written down with
//! `MARROWBOOK_WRITE_DIGESTS=1 cargo test --features cli --test unmoved`, after a look at what moved: each run leaves what it
//! wrote under `target/tmp/unmoved-*/said`.
#![cfg(feature = "cli")]
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, clippy::indexing_slicing)]

#[path = "unmoved/chance.rs"]
mod chance;
#[path = "office/digests.rs"]
mod digests;
#[path = "../demo/season/make/mod.rs"]
mod make;
#[path = "office/ran.rs"]
mod ran;
#[path = "unmoved/said.rs"]
mod said;
#[path = "office/written.rs"]
mod written;

use ran::{Office, folder};

const PASSPHRASE: &str = "quillback ridge is invented";

#[test]
fn of_the_invented_season() {
    let place = folder("unmoved-season");
    make::season(&place).unwrap();
    let mut office = Office::new(place.join("archive"));
    office.passphrase = Some(PASSPHRASE.into());
    digests::committed("tests/unmoved/season.sha256", &said::all(&office, &place.join("said"), 2));
}

#[test]
fn of_answers_given_by_chance() {
    let place = folder("unmoved-chance");
    chance::archive(&place.join("archive"), PASSPHRASE, 16);
    let mut office = Office::new(place.join("archive"));
    office.passphrase = Some(PASSPHRASE.into());
    digests::committed("tests/unmoved/chance.sha256", &said::all(&office, &place.join("said"), 2));
}
