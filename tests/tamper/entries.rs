//! Entries tampered with before the very same key signs again, as a program on the phone could do by mistake: each place
//! in turn, in the phone's own chain and in one that it took over. The chain's stated end shows every one.

use super::{kit, opened, outcome, ran};
use marrowbook::bundle::{Contents, Kind, canonical, open, seal};
use marrowbook::office::opening::Outcome;
use ran::{Office, folder};
use serde_json::{Value, json};

/// Of the full bundle: the chain of the phone and the one that it took over.
const CHAINS: [&str; 2] = ["/chain", "/adopted/0"];

/// The full bundle with something changed inside, signed again by the phone.
fn resealed(change: impl FnOnce(&mut Value)) -> String {
    let mut payload: Value =
        serde_json::from_slice(&open(kit::full().as_bytes(), Kind::Bundle).unwrap().payload).unwrap();
    change(&mut payload);
    seal(Kind::Bundle, &canonical::to_vec(&payload).unwrap(), &kit::phone()).unwrap()
}

fn in_list(chain: &str, change: impl FnOnce(&mut Vec<Value>)) -> String {
    resealed(|payload| change(payload.pointer_mut(chain).unwrap()["entries"].as_array_mut().unwrap()))
}

/// Never intact: the office says damaged, and a reader of the contents gets none or is told that a chain is broken.
#[track_caller]
fn shows(text: &str, what: &str) {
    assert_eq!(outcome(text), Outcome::Damaged, "{what}");
    let read = Contents::read(&open(text.as_bytes(), Kind::Bundle).unwrap());
    assert!(read.is_err() || read.unwrap().chain_broken(), "{what}");
}

/// Another letter of the alphabet of base64url at this place.
fn other_letter(text: &str, place: usize) -> String {
    let new = if &text[place..=place] == "Q" { "g" } else { "Q" };
    format!("{}{new}{}", &text[..place], &text[place + 1..])
}

#[test]
fn untouched_it_is_whole() {
    assert_eq!(outcome(&resealed(|_| {})), Outcome::Intact);
}

#[test]
fn entries_dropped_doubled_or_moved_show_at_every_place() {
    for chain in CHAINS {
        for at in 0..6 {
            shows(&in_list(chain, |all| drop(all.remove(at))), &format!("{chain} without {at}"));
            shows(&in_list(chain, |all| all.truncate(at)), &format!("{chain} cut at {at}"));
            shows(&in_list(chain, |all| drop(all.drain(..=at))), &format!("{chain} without all to {at}"));
            for to in 0..=6 {
                shows(&in_list(chain, |all| all.insert(to, all[at].clone())), &format!("{chain} {at} again at {to}"));
            }
            for to in (0..6).filter(|to| *to != at) {
                let moved = in_list(chain, |all| {
                    let one = all.remove(at);
                    all.insert(to, one);
                });
                shows(&moved, &format!("{chain} {at} moved to {to}"));
                shows(&in_list(chain, |all| all.swap(at, to)), &format!("{chain} {at} and {to} changed places"));
                shows(&in_list(chain, |all| all[at] = all[to].clone()), &format!("{chain} {to} in place of {at}"));
            }
        }
    }
    let across = resealed(|payload| {
        let one = payload["adopted"][0]["entries"][1].clone();
        payload["chain"]["entries"].as_array_mut().unwrap().insert(1, one);
    });
    shows(&across, "an entry of the other chain put in");
}

#[test]
fn texts_salts_and_digests_changed_show_at_every_place() {
    for chain in CHAINS {
        for at in 0..6 {
            let entry = |change: &dyn Fn(&mut Value)| in_list(chain, |all| change(&mut all[at]));
            let withheld = chain == "/chain" && at == 5;
            if withheld {
                let changed = |entry: &mut Value| {
                    let digest = entry["withheld"].as_str().unwrap();
                    entry["withheld"] = json!(other_letter(digest, 7));
                };
                shows(&entry(&changed), "digest of a withheld text");
                continue;
            }
            for place in 0..21 {
                let salt =
                    |entry: &mut Value| entry["salt"] = json!(other_letter(entry["salt"].as_str().unwrap(), place));
                shows(&entry(&salt), &format!("{chain} {at}, salt at {place}"));
            }
            // A blank more is the same answer in another text, and not what was written.
            let blank = |entry: &mut Value| entry["body"] = json!(format!("{} ", entry["body"].as_str().unwrap()));
            shows(&entry(&blank), &format!("{chain} {at}, text"));
            let hidden = |entry: &mut Value| *entry = json!({ "withheld": "A".repeat(43) });
            shows(&entry(&hidden), &format!("{chain} {at} withheld under another digest"));
            let found = |entry: &mut Value| *entry = json!({ "withheld": "A".repeat(43), "found": "{}" });
            shows(&entry(&found), &format!("{chain} {at} said to be found altered"));
        }
    }
}

#[test]
fn what_says_where_a_chain_stands_shows_when_changed() {
    for chain in CHAINS {
        let range = |change: &dyn Fn(&mut Value)| resealed(|payload| change(payload.pointer_mut(chain).unwrap()));
        for place in 0..42 {
            let head = |range: &mut Value| range["head"] = json!(other_letter(range["head"].as_str().unwrap(), place));
            shows(&range(&head), &format!("{chain}, head at {place}"));
            let device =
                |range: &mut Value| range["device"] = json!(other_letter(range["device"].as_str().unwrap(), place));
            shows(&range(&device), &format!("{chain}, device at {place}"));
        }
        shows(&range(&|range| range["first_seq"] = json!(2)), "number of the first entry");
        shows(&range(&|range| range["prev"] = json!("A".repeat(43))), "something before the first entry");
        let later = |range: &mut Value| {
            range["first_seq"] = json!(2);
            range["prev"] = json!("A".repeat(43));
        };
        shows(&range(&later), "begins elsewhere");
    }
    // The second half of a chain names the header before it.
    let second = kit::bundle(&kit::entries(&kit::phone())[3..], marrowbook::bundle::Extras::default(), &kit::phone());
    assert_eq!(outcome(&second), Outcome::Intact);
    let payload: Value = serde_json::from_slice(&open(second.as_bytes(), Kind::Bundle).unwrap().payload).unwrap();
    for place in 0..42 {
        let mut changed = payload.clone();
        changed["chain"]["prev"] = json!(other_letter(payload["chain"]["prev"].as_str().unwrap(), place));
        let text = seal(Kind::Bundle, &canonical::to_vec(&changed).unwrap(), &kit::phone()).unwrap();
        shows(&text, &format!("header before it, at {place}"));
    }
}

#[test]
fn the_command_line_says_the_same() {
    let office = Office::new(folder("tamper-entries"));
    let mut ring = super::ring();
    // The full bundle carries one of a stranger: with it enrolled as well, only what is changed can be wrong.
    let stranger = kit::stranger().public().id();
    ring.enrol(
        "red phone",
        marrowbook::bundle::Fingerprint::of(stranger),
        Some(stranger),
        kit::moment("2026-12-01T10:00:00-05:00"),
    )
    .unwrap();
    office.put("keyring.json", ring.write().unwrap().as_bytes());
    assert_eq!(opened(&office, &resealed(|_| {})), (0, "intact".into(), None));
    for chain in CHAINS {
        for at in [0, 3, 5] {
            let damaged = (4, "damaged".to_owned(), Some("chain".to_owned()));
            assert_eq!(opened(&office, &in_list(chain, |all| drop(all.remove(at)))), damaged, "{chain} {at}");
            assert_eq!(
                opened(&office, &in_list(chain, |all| all.insert(at, all[at].clone()))),
                damaged,
                "{chain} {at}"
            );
        }
    }
}
