//! Signed files tampered with: nothing passes as intact that is not what the device signed, and no kind of file passes
//! as another. Rules of the house: RFC 7515 says only what a signature covers.
//!
//! `src/bundle/opening_tests.rs` holds the header member by member, `tests/kit` one file for each way to be damaged; here
//! stand the ways taken through, place by place, and what no signature can show.
#![cfg(feature = "cli")]
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, clippy::indexing_slicing)]

#[path = "tamper/bytes.rs"]
mod bytes;
#[path = "tamper/entries.rs"]
mod entries;
#[path = "tamper/holder.rs"]
mod holder;
#[path = "tamper/keys.rs"]
mod keys;
#[path = "tamper/kinds.rs"]
mod kinds;
#[path = "office/kit.rs"]
mod kit;
#[path = "office/ran.rs"]
mod ran;
#[path = "office/sampled.rs"]
mod sampled;

use marrowbook::office::keyring::Keyring;
use marrowbook::office::opening::{Judged, Outcome, judge};
use ran::Office;

/// The kit's keyring: the blue phone, and a lost one.
fn ring() -> Keyring {
    Keyring::read(&kit::keyring()).unwrap()
}

/// The office's judgement.
fn judged(text: &str) -> Judged {
    judge(text.as_bytes(), &ring())
}

fn outcome(text: &str) -> Outcome {
    judged(text).outcome()
}

/// `office open` of a file: exit code, the outcome of all that is in it, and the step that failed.
fn opened(office: &Office, text: &str) -> (i32, String, Option<String>) {
    let file = office.put("handed-in.txt", text.as_bytes());
    let ran = office.run(&["open", "--json", &file]);
    let line = ran.json();
    let word = |name: &str| line[name].as_str().map(str::to_owned);
    (ran.code, word("worst").unwrap(), word("step"))
}
