//! Keys mixed up, one phone's file under another's key, and a retired key's old and new files.

use super::{judged, kit, opened, outcome, ran, ring};
use marrowbook::bundle::base64url::encode;
use marrowbook::bundle::{Cover, DeviceKey, Extras, Fingerprint, Kind, canonical, make, open, seal};
use marrowbook::office::keyring::Keyring;
use marrowbook::office::opening::{Outcome, Verdict, judge};
use ran::{Office, folder};
use serde_json::{Value, json};

/// A second phone that the office knows.
fn red_phone() -> DeviceKey {
    DeviceKey::from_seed(&[11; 32])
}

/// Both phones enrolled.
fn both() -> Keyring {
    let mut ring = ring();
    let red = red_phone().public().id();
    ring.enrol("red phone", Fingerprint::of(red), Some(red), kit::moment("2026-12-01T10:00:00-05:00")).unwrap();
    ring
}

fn payload(text: &str) -> Value {
    serde_json::from_slice(&open(text.as_bytes(), Kind::Bundle).unwrap().payload).unwrap()
}

fn resealed(payload: &Value, key: &DeviceKey) -> String {
    seal(Kind::Bundle, &canonical::to_vec(payload).unwrap(), key).unwrap()
}

#[test]
fn a_bundle_under_another_enrolled_phone_s_key_is_not_taken() {
    let ring = both();
    let blue = kit::phone().public().id();
    let mut changed = payload(&kit::good());
    let mut all = vec![resealed(&changed, &red_phone())];
    // The new signer named as the chain's device: no header comes out as it was.
    changed["chain"]["device"] = json!(red_phone().public().id().to_string());
    all.push(resealed(&changed, &red_phone()));
    // The chain of the first phone handed in as one that the second took over, with nothing else changed.
    let second = make(kit::cover(), &kit::entries(&red_phone()), Extras::default(), &red_phone()).unwrap();
    let mut posed = payload(&second);
    posed["chain"]["device"] = json!(blue.to_string());
    all.push(resealed(&posed, &red_phone()));
    // And the other way round.
    all.push(resealed(&payload(&second), &kit::phone()));
    let office = Office::new(folder("tamper-replayed"));
    office.put("keyring.json", ring.write().unwrap().as_bytes());
    for text in &all {
        assert_eq!(judge(text.as_bytes(), &ring).outcome(), Outcome::Damaged, "{text}");
        let (code, word, _) = opened(&office, text);
        assert_eq!((code, word.as_str()), (4, "damaged"));
    }
    assert_eq!(opened(&office, &second).0, 0);
}

#[test]
fn signature_and_payload_of_two_files_of_one_phone_do_not_go_together() {
    let one = kit::good();
    let two = kit::bundle(&kit::entries(&kit::phone())[..3], Extras::default(), &kit::phone());
    for name in ["payload", "signature"] {
        let mixed = one.replace(&kit::member(&one, name), &kit::member(&two, name));
        assert_ne!(mixed, one);
        assert_eq!(outcome(&mixed), Outcome::Damaged, "{name}");
    }
    // The same header over the same key is interchangeable, and says the same.
    assert_eq!(kit::member(&one, "protected"), kit::member(&two, "protected"));
}

/// Every mixture of three keys over key, name and signature: only one key in all three places is a file of that key's.
#[test]
fn keys_mixed_up_in_the_header_are_refused() {
    let keys = [kit::phone(), red_phone(), kit::stranger()];
    let entries = kit::entries(&kit::phone());
    let good = kit::bundle(&entries, Extras::default(), &kit::phone());
    let parts = kit::parts(&good);
    let blue = kit::phone().public();
    let office = Office::new(folder("tamper-mixed"));
    office.put("keyring.json", both().write().unwrap().as_bytes());
    let mut whole = 0;
    for (a, named) in keys.iter().enumerate() {
        for (b, held) in keys.iter().enumerate() {
            for (c, signing) in keys.iter().enumerate() {
                let header = parts.header.replace(&blue.x(), &held.public().x());
                let header = header.replace(&blue.id().to_string(), &named.public().id().to_string());
                let text = kit::signed(&header, &parts.packed, signing);
                let result = open(text.as_bytes(), Kind::Bundle);
                let (code, ..) = opened(&office, &text);
                if a == b && b == c {
                    assert_eq!(result.unwrap().signer, held.public());
                    whole += 1;
                    // The entries are the blue phone's: under any other key the file is refused one step later.
                    assert_eq!(code, if a == 0 { 0 } else { 4 });
                } else {
                    assert!(result.is_err(), "named {a}, held {b}, signed by {c}");
                    assert_eq!(code, 4, "named {a}, held {b}, signed by {c}");
                }
            }
        }
    }
    assert_eq!(whole, 3);
}

/// Names of algorithms and kinds that other readers have been led astray by (RFC 8725 sections 2.1, 3.1 and 3.11).
#[test]
fn other_words_for_algorithm_and_kind_are_refused_however_they_are_signed() {
    let good = kit::good();
    let parts = kit::parts(&good);
    let algorithms =
        ["none", "None", "NONE", "", "EdDSA", "ED25519", "ed25519", "Ed25519 ", "Ed448", "ES256", "RS256", "HS256"];
    let kinds = [
        "",
        "JWT",
        "JOSE+JSON",
        "marrowbook-bundle-1",
        "marrowbook-bundle-1+JWS",
        "MARROWBOOK-BUNDLE-1+JWS",
        "application/marrowbook-bundle-1+jws",
        " marrowbook-bundle-1+jws",
        "marrowbook-bundle-1+jws ",
        "marrowbook-bundle-0+jws",
        "marrowbook-bundle-1+jws+jws",
        "marrowbook-bundle-bundle-1+jws",
        "marrowbook-card-1+jws",
        "marrowbook-table-1+jws",
        "marrowbook-decision-1+jws",
        "marrowbook-keyring-1+jws",
    ];
    let rows = (algorithms.iter().map(|word| ("\"alg\":\"Ed25519\"", format!("\"alg\":\"{word}\""))))
        .chain(kinds.iter().map(|word| ("\"typ\":\"marrowbook-bundle-1+jws\"", format!("\"typ\":\"{word}\""))));
    for (from, to) in rows {
        assert!(parts.header.contains(from), "{from}");
        let header = parts.header.replace(from, &to);
        let fresh = kit::signed(&header, &parts.packed, &kit::phone());
        let old = good.replace(&kit::member(&good, "protected"), &encode(header.as_bytes()));
        let empty = old.replace(&kit::member(&good, "signature"), "");
        for text in [fresh, old, empty] {
            assert_eq!(outcome(&text), Outcome::Damaged, "{to}");
        }
    }
}

fn made_at(at: &str, key: &DeviceKey) -> String {
    let cover = Cover { made_at: kit::moment(at), ..kit::cover() };
    make(cover, &kit::entries(key), Extras::default(), key).unwrap()
}

#[test]
fn a_retired_key_s_files_count_up_to_its_day_and_not_a_second_later() {
    let office = Office::new(folder("tamper-retired"));
    office.put("keyring.json", kit::keyring().as_bytes());
    let key = kit::lost_phone();
    // Retired on 10 January at 10:00 -05:00; the same second told in another zone is the same second.
    for (at, intact) in [
        ("2026-12-24T18:00:00-05:00", true),
        ("2027-01-10T09:59:59-05:00", true),
        ("2027-01-10T10:00:00-05:00", true),
        ("2027-01-10T15:00:00+00:00", true),
        ("2027-01-10T10:00:01-05:00", false),
        ("2027-01-10T15:00:01+00:00", false),
        ("2027-01-10T09:59:59-06:00", false),
        ("2031-01-10T10:00:00-05:00", false),
    ] {
        let text = made_at(at, &key);
        let judged = judged(&text);
        match &judged.verdict {
            Verdict::Intact { label } => assert!(intact && label == "lost phone", "{at}"),
            Verdict::Retired { label, .. } => assert!(!intact && label == "lost phone", "{at}"),
            other => panic!("{at}: {other:?}"),
        }
        let (code, word, _) = opened(&office, &text);
        assert_eq!((code, word.as_str()), if intact { (0, "intact") } else { (3, "unknown_device") }, "{at}");
    }
    // A file made later whose date was set back without the key is no file of that key's.
    let late = made_at("2027-03-01T10:00:00-05:00", &key);
    let early = made_at("2027-01-01T10:00:00-05:00", &key);
    let set_back = late.replace(&kit::member(&late, "payload"), &kit::member(&early, "payload"));
    assert_eq!(opened(&office, &set_back).0, 4);
}
