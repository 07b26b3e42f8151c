//! Opening signed files. No fuzzer forges a signature, so the first byte says how the rest comes in: as a file, or as the
//! payload, the packed payload or the header of a file that is signed on the spot.

use marrowbook::bundle::base64url::encode;
use marrowbook::bundle::deflate::deflate;
use marrowbook::bundle::{Contents, DeviceKey, Kind, Limits, canonical, open, opening, seal};
use marrowbook::office::keyring::Keyring;
use marrowbook::office::opening::{Outcome, judge};
use marrowbook::office::report::report;
use marrowbook::record::Journal;
use marrowbook::words::Language;
use std::sync::LazyLock;

static KEY: LazyLock<DeviceKey> = LazyLock::new(|| DeviceKey::from_seed(&[5; 32]));

pub(crate) fn run(bytes: &[u8]) {
    let Some((how, rest)) = bytes.split_first() else { return };
    match how % 5 {
        0 => file(rest),
        1 => payload(rest),
        2 => file(signed(&header(), rest).as_bytes()),
        3 => file(signed(&String::from_utf8_lossy(rest), &deflate(b"{}")).as_bytes()),
        _ => keyring(rest),
    }
}

fn header() -> String {
    let public = KEY.public();
    let x = public.x();
    format!(
        r#"{{"alg":"Ed25519","cty":"application/json","jwk":{{"crv":"Ed25519","kty":"OKP","x":"{x}"}},"kid":"{}","typ":"marrowbook-bundle-1+jws","zip":"DEF"}}"#,
        public.id()
    )
}

fn signed(header: &str, packed: &[u8]) -> String {
    let (protected, payload) = (encode(header.as_bytes()), encode(packed));
    let signature = encode(&KEY.sign(format!("{protected}.{payload}").as_bytes()));
    format!(r#"{{"payload":"{payload}","protected":"{protected}","signature":"{signature}"}}"#)
}

fn file(bytes: &[u8]) {
    let limits = Limits { file_bytes: 1 << 20, payload_bytes: 1 << 20 };
    for kind in Kind::ALL {
        let Ok(opened) = opening::open_within(bytes, kind, limits) else { continue };
        assert_eq!(opened.kind, kind);
        assert!(opened.payload.len() <= limits.payload_bytes && canonical::is_canonical(&opened.payload));
    }
    let judged = judge(bytes, &Keyring::default());
    assert_ne!(judged.outcome(), Outcome::Intact, "nobody is enrolled");
    let said = report(&judged, Language::English, &|_| false);
    assert!(!said.outcome.is_empty());
    let Some(contents) = judged.contents.filter(|contents| !contents.chain_broken()) else { return };
    // What is taken goes into a journal, each entry under its number or as a fork of it.
    let mut journal = Journal::new();
    contents.entries.iter().for_each(|entry| drop(journal.add(entry.clone())));
    journal.bodies();
}

fn payload(bytes: &[u8]) {
    // What the strict reader takes and the canonical form does not is brought into that form first.
    let bytes = match serde_json::from_slice::<serde_json::Value>(bytes) {
        Ok(value) if !canonical::is_canonical(bytes) => canonical::to_vec(&value).unwrap_or_default(),
        _ => bytes.to_vec(),
    };
    let Ok(text) = seal(Kind::Bundle, &bytes, &KEY) else {
        return assert!(!canonical::is_canonical(&bytes) || bytes.len() > 1 << 20);
    };
    let opened = open(text.as_bytes(), Kind::Bundle).unwrap();
    assert_eq!(opened.payload, bytes);
    drop(Contents::read(&opened));
    file(text.as_bytes());
}

fn keyring(bytes: &[u8]) {
    let Ok(ring) = Keyring::read(&String::from_utf8_lossy(bytes)) else { return };
    assert_eq!(Keyring::read(&ring.write().unwrap()).unwrap(), ring);
}
