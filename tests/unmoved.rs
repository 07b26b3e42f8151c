//! What the office's command line says, all of it, byte for byte as it was when somebody last looked: of the invented
//! season, and of answers given by chance, which come by what no season in its right mind holds. This says that something
//! moved and never that it was right; none of it is a check value. A change that was meant is written down with
//! `MARROWBOOK_WRITE_DIGESTS=1 cargo test --features cli --test unmoved`, after a look at what moved: each run leaves what it
//! wrote under `target/tmp/unmoved-*/said`. Of few carcasses, for a slow build; of all with `MARROWBOOK_WHOLE=1` too
//! (`tests/long unmoved`), and both lists are to be written.
#![cfg(feature = "cli")]
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, clippy::indexing_slicing)]

#[path = "unmoved/chance.rs"]
mod chance;
#[path = "office/digests.rs"]
mod digests;
#[path = "office/few.rs"]
mod few;
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

fn whole() -> bool {
    std::env::var_os("MARROWBOOK_WHOLE").is_some()
}

#[test]
fn of_the_invented_season() {
    let place = folder("unmoved-season");
    make::season(&place).unwrap();
    let mut office = Office::new(place.join("archive"));
    office.passphrase = Some(PASSPHRASE.into());
    if !whole() {
        few::leave_few(&place);
    }
    let list = if whole() { "tests/unmoved/season.sha256" } else { "tests/unmoved/season-of-few.sha256" };
    digests::committed(list, &said::all(&office, &place.join("said")));
}

#[test]
fn of_answers_given_by_chance() {
    let place = folder("unmoved-chance");
    let (list, carcasses) =
        if whole() { ("tests/unmoved/chance.sha256", 40) } else { ("tests/unmoved/chance-of-few.sha256", 8) };
    chance::archive(&place.join("archive"), PASSPHRASE, carcasses);
    let mut office = Office::new(place.join("archive"));
    office.passphrase = Some(PASSPHRASE.into());
    digests::committed(list, &said::all(&office, &place.join("said")));
}
