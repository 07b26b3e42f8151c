//! Makes the kit: good and hostile bundles from fixed keys. All names and answers are invented.
#![allow(dead_code)]

use marrowbook::bundle::base64url::{decode, encode};
use marrowbook::bundle::deflate::{deflate, inflate};
use marrowbook::bundle::{
    Cover, DeviceKey, Extras, Fingerprint, FourVersions, Kind, PhoneReading, canonical, make, seal,
};
use marrowbook::office::keyring::Keyring;
use marrowbook::record::{
    Act, Answer, Body, Digest, ENTRY_SCHEMA, Entry, Head, Key, Moment, PersonCode, Photo, Salt, Site, Stored, Subject,
    Value as Seen, Versions, Why, links, uuid_v7,
};
use serde_json::{Value, json};

const FORTY_MB: usize = 40 << 20;

/// The enrolled phone: the published key of RFC 8032 section 7.1 TEST 1. For tests only.
pub(crate) fn phone() -> DeviceKey {
    let seed = "9d61b19deffd5a60ba844af492ec2cc44449c5697b326919703bac031cae7f60";
    let byte = |at: usize| u8::from_str_radix(&seed[2 * at..2 * at + 2], 16).unwrap();
    DeviceKey::from_seed(&std::array::from_fn(byte))
}

/// A phone that nobody enrolled.
pub(crate) fn stranger() -> DeviceKey {
    DeviceKey::from_seed(&[7; 32])
}

/// A phone that was lost and retired before it made its bundle.
pub(crate) fn lost_phone() -> DeviceKey {
    DeviceKey::from_seed(&[8; 32])
}

pub(crate) fn moment(text: &str) -> Moment {
    Moment::parse(text).unwrap()
}

/// The keyring against which the kit is opened.
pub(crate) fn keyring() -> String {
    let mut ring = Keyring::default();
    let at = moment("2026-12-01T10:00:00-05:00");
    for (label, key) in [("blue phone", phone()), ("lost phone", lost_phone())] {
        let device = key.public().id();
        ring.enrol(label, Fingerprint::of(device), Some(device), at).unwrap();
    }
    ring.retire("lost phone", moment("2027-01-10T10:00:00-05:00"), moment("2027-01-10T10:00:00-05:00"), None).unwrap();
    ring.write().unwrap()
}

fn answer(finding: &str, site: Site, answer: Answer, minute: u8) -> Body {
    Body {
        schema: ENTRY_SCHEMA,
        act: Act::Answer {
            key: Key {
                subject: Subject::Examination(uuid_v7(1_802_618_640_000, [1; 10])),
                finding: finding.into(),
                site,
                observer: PersonCode::new("K7").unwrap(),
            },
            answer,
            supersedes: Vec::new(),
        },
        typed_by: PersonCode::new("M2").unwrap(),
        at: moment(&format!("2027-02-14T10:{minute:02}:00-05:00")),
        zone: "America/Toronto".into(),
        since_start_ms: Some(u64::from(minute) * 60_000),
        versions: Versions { protocol: 1, step: Some(finding.into()), card: None },
    }
}

/// Six entries of one examination.
pub(crate) fn entries(key: &DeviceKey) -> Vec<Entry> {
    let femur = Site::bone(marrowbook::record::Bone::Femur);
    let carcass = Answer::Seen { value: Seen::Ref(uuid_v7(1_802_618_640_000, [2; 10])) };
    let bodies = [
        answer(links::CARCASS, Site::NONE, carcass, 20),
        answer("examination_kind", Site::NONE, Answer::choice("field"), 21),
        answer("snow_depth_cm", Site::NONE, Answer::number(62), 24),
        answer("blood_on_snow", Site::NONE, Answer::NotSeen, 25),
        answer("marrow_consistency", femur, Answer::CantTell { why: Why::Frozen }, 40),
        answer(
            "evidence_note",
            Site::NONE,
            Answer::Seen { value: Seen::Text("Ca\u{f1}on \u{201c}B\u{201d}\n\u{1f98c}".into()) },
            41,
        ),
    ];
    let mut head = Head::start(key.public().id());
    let mut all = Vec::new();
    for (place, body) in (0_u8..).zip(bodies) {
        let entry = head.next(&body, Salt([place + 1; 16])).unwrap();
        head = Head::after(&entry);
        all.push(entry);
    }
    all
}

pub(crate) fn cover() -> Cover {
    Cover {
        bundle: uuid_v7(1_802_641_200_000, [3; 10]),
        made_at: moment("2027-02-14T16:40:00-05:00"),
        zone: "America/Toronto".into(),
        app: "0.1.0".into(),
        versions: FourVersions { envelope: 1, entry_schema: 1, protocol: 1, science: 1 },
        label: "blue".into(),
        crew: Some("north".into()),
        card: None,
    }
}

pub(crate) fn bundle(range: &[Entry], extras: Extras, key: &DeviceKey) -> String {
    make(cover(), range, extras, key).unwrap()
}

/// The good bundle of the enrolled phone.
pub(crate) fn good() -> String {
    bundle(&entries(&phone()), Extras::default(), &phone())
}

/// A bundle with everything in it that a bundle can hold.
pub(crate) fn full() -> String {
    let mut own = entries(&phone());
    own[5] = own[5].withhold();
    let stranger = stranger();
    let extras = Extras {
        adopted: vec![entries(&DeviceKey::from_seed(&[9; 32]))],
        photos: vec![Photo { sha256: Digest::of(&[b"no such photo"]), bytes: 13, media: "image/jpeg".into() }],
        readings: vec![PhoneReading {
            carcass: uuid_v7(1_802_618_640_000, [2; 10]),
            text: r#"{"condition":{"best":0.25}}"#.into(),
        }],
        carried: vec![bundle(&entries(&stranger), Extras::default(), &stranger)],
    };
    bundle(&own, extras, &phone())
}

pub(crate) struct Parts {
    pub(crate) header: String,
    pub(crate) packed: Vec<u8>,
}

pub(crate) fn member(text: &str, name: &str) -> String {
    let envelope: Value = serde_json::from_str(text).unwrap();
    envelope[name].as_str().unwrap().to_owned()
}

pub(crate) fn parts(text: &str) -> Parts {
    Parts {
        header: String::from_utf8(decode(&member(text, "protected")).unwrap()).unwrap(),
        packed: decode(&member(text, "payload")).unwrap(),
    }
}

/// Signs any header and payload bytes.
pub(crate) fn signed(header: &str, packed: &[u8], key: &DeviceKey) -> String {
    let (protected, payload) = (encode(header.as_bytes()), encode(packed));
    let signature = encode(&key.sign(format!("{protected}.{payload}").as_bytes()));
    format!(r#"{{"payload":"{payload}","protected":"{protected}","signature":"{signature}"}}"#)
}

/// Changes the header and signs again, as somebody would who has the phone.
fn header_changed(from: &str, to: &str) -> String {
    let Parts { header, packed } = parts(&good());
    assert!(header.contains(from), "{from}");
    signed(&header.replace(from, to), &packed, &phone())
}

/// Changes the header and leaves the old signature.
fn header_changed_unsigned(from: &str, to: &str) -> String {
    let header = parts(&good()).header;
    assert!(header.contains(from), "{from}");
    good().replace(&encode(header.as_bytes()), &encode(header.replace(from, to).as_bytes()))
}

pub(crate) fn plain_payload(text: &str) -> Vec<u8> {
    inflate(&parts(text).packed, 1 << 20).unwrap()
}

/// Changes the payload and signs again under `key`, header of that key.
pub(crate) fn payload_changed(change: impl FnOnce(&mut Value), key: &DeviceKey) -> String {
    let mut payload: Value = serde_json::from_slice(&plain_payload(&good())).unwrap();
    change(&mut payload);
    seal(Kind::Bundle, &canonical::to_vec(&payload).unwrap(), key).unwrap()
}

fn entries_changed(change: impl FnOnce(&mut Vec<Value>)) -> String {
    payload_changed(|payload| change(payload["chain"]["entries"].as_array_mut().unwrap()), &phone())
}

/// Signs payload bytes that our own sealing would refuse.
fn packed(packed: &[u8]) -> String {
    signed(&parts(&good()).header, packed, &phone())
}

fn envelope_changed(change: impl FnOnce(&mut serde_json::Map<String, Value>)) -> String {
    let mut envelope: Value = serde_json::from_str(&good()).unwrap();
    change(envelope.as_object_mut().unwrap());
    serde_json::to_string(&envelope).unwrap()
}

fn padded(name: &str) -> String {
    envelope_changed(|envelope| envelope[name] = json!(format!("{}==", envelope[name].as_str().unwrap())))
}

/// The general form of RFC 7515 with this many signatures, all good.
fn general(keys: &[DeviceKey]) -> String {
    let payload = member(&good(), "payload");
    let one = |key: &DeviceKey| {
        let text =
            signed(&parts(&bundle(&entries(key), Extras::default(), key)).header, &decode(&payload).unwrap(), key);
        json!({ "protected": member(&text, "protected"), "signature": member(&text, "signature") })
    };
    let signatures: Vec<Value> = keys.iter().map(one).collect();
    serde_json::to_string(&json!({ "payload": payload, "signatures": signatures })).unwrap()
}

fn wrapped(text: &str) -> String {
    let lines: Vec<&str> = text.as_bytes().chunks(76).map(|line| str::from_utf8(line).unwrap()).collect();
    lines.join("\r\n") + "\r\n"
}

fn indented() -> String {
    serde_json::to_string_pretty(&serde_json::from_str::<Value>(&good()).unwrap()).unwrap()
}

fn one_byte_changed(name: &str) -> String {
    let old = member(&good(), name);
    let middle = old.len() / 2;
    let other = if &old[middle..=middle] == "A" { "B" } else { "A" };
    good().replace(&old, &format!("{}{other}{}", &old[..middle], &old[middle + 1..]))
}

fn altered_on_phone() -> String {
    let mut all = entries(&phone());
    if let Stored::Whole { text, .. } = &mut all[2].stored {
        *text = text.replace("62", "26");
    }
    bundle(&all, Extras::default(), &phone())
}

fn other_devices_entries() -> String {
    payload_changed(|_| {}, &stranger())
}

fn replayed() -> String {
    let (own, other) = (phone().public(), stranger().public());
    let header = parts(&good()).header;
    let renamed = header.replace(&own.x(), &other.x()).replace(&own.id().to_string(), &other.id().to_string());
    good().replace(&encode(header.as_bytes()), &encode(renamed.as_bytes()))
}

fn utf_16(text: &str) -> Vec<u8> {
    [0xff, 0xfe].into_iter().chain(text.encode_utf16().flat_map(u16::to_le_bytes)).collect()
}

/// All files: name and bytes.
pub(crate) fn files() -> Vec<(String, Vec<u8>)> {
    let good = good();
    let card = seal(Kind::Card, br#"{"format":1}"#, &phone()).unwrap();
    let plain = plain_payload(&good);
    let swapped = |from: &str, to: &str| {
        let text = String::from_utf8(plain.clone()).unwrap();
        assert!(text.contains(from), "{from}");
        packed(&deflate(text.replacen(from, to, 1).as_bytes()))
    };
    let other = stranger().public();
    let text: Vec<(&str, String)> = vec![
        ("intact--as-made", good.clone()),
        ("intact--with-everything-in-it", {
            // what it carries comes from a phone that is not enrolled: judged below as unknown
            let mut own = entries(&phone());
            own[5] = own[5].withhold();
            bundle(
                &own,
                Extras { adopted: vec![entries(&DeviceKey::from_seed(&[9; 32]))], ..Extras::default() },
                &phone(),
            )
        }),
        ("intact--first-half-of-a-chain", bundle(&entries(&phone())[..3], Extras::default(), &phone())),
        ("intact--second-half-of-a-chain", bundle(&entries(&phone())[3..], Extras::default(), &phone())),
        ("intact--one-text-altered-on-the-phone", altered_on_phone()),
        ("intact--wrapped-by-mail", wrapped(&good)),
        ("intact--byte-order-mark", format!("\u{feff}{good}")),
        ("intact--white-space-round-it", format!("\n\n   {good}\t\n\n")),
        ("intact--indented", indented()),
        ("unknown--never-enrolled", bundle(&entries(&stranger()), Extras::default(), &stranger())),
        ("unknown--retired-before-it-was-made", bundle(&entries(&lost_phone()), Extras::default(), &lost_phone())),
        ("newer--envelope-of-version-2", header_changed("bundle-1+jws", "bundle-2+jws")),
        ("newer--content-of-form-2", payload_changed(|payload| payload["format"] = json!(2), &phone())),
        ("damaged-text--empty", String::new()),
        ("damaged-text--a-letter-with-accent", good.replacen('{', "{\u{e9}", 1)),
        ("damaged-envelope--cut-in-half", good[..good.len() / 2].to_owned()),
        ("damaged-envelope--last-byte-missing", good[..good.len() - 1].to_owned()),
        ("damaged-envelope--mail-footer", format!("{good}\r\n--\r\nsent from the trail")),
        ("damaged-envelope--a-letter", "Dear office, here is our bundle.".to_owned()),
        ("damaged-envelope--signed-twice", general(&[phone(), stranger()])),
        ("damaged-envelope--list-of-one-signature", general(&[phone()])),
        (
            "damaged-envelope--header-outside-the-signature",
            envelope_changed(|all| drop(all.insert("header".into(), json!({})))),
        ),
        ("damaged-envelope--unknown-member", envelope_changed(|all| drop(all.insert("note".into(), json!("ok"))))),
        ("damaged-envelope--member-missing", envelope_changed(|all| drop(all.remove("signature")))),
        ("damaged-envelope--member-twice", good.replacen('{', r#"{"payload":"","#, 1)),
        ("damaged-header--padded", padded("protected")),
        ("damaged-header--one-byte-changed", one_byte_changed("protected")),
        ("damaged-header--alg-none", header_changed("\"alg\":\"Ed25519\"", "\"alg\":\"none\"")),
        ("damaged-header--alg-none-old-signature", header_changed_unsigned("\"alg\":\"Ed25519\"", "\"alg\":\"none\"")),
        ("damaged-header--alg-eddsa", header_changed("\"alg\":\"Ed25519\"", "\"alg\":\"EdDSA\"")),
        ("damaged-header--alg-hs256", header_changed("\"alg\":\"Ed25519\"", "\"alg\":\"HS256\"")),
        ("damaged-header--alg-twice", header_changed("{\"alg\"", "{\"alg\":\"none\",\"alg\"")),
        ("damaged-header--critical-extension", header_changed("{\"alg\"", "{\"crit\":[\"exp\"],\"exp\":1,\"alg\"")),
        ("damaged-header--payload-not-encoded", header_changed("{\"alg\"", "{\"b64\":false,\"alg\"")),
        ("damaged-header--unknown-member", header_changed("{\"alg\"", "{\"x5u\":\"y\",\"alg\"")),
        ("damaged-header--zip-missing", header_changed(",\"zip\":\"DEF\"", "")),
        ("damaged-kind--typ-changed", header_changed_unsigned("bundle-1+jws", "card-1+jws")),
        ("damaged-kind--typ-of-nobody", header_changed("marrowbook-bundle-1+jws", "JWT")),
        ("damaged-kind--a-local-card", card),
        (
            "damaged-key--name-of-another-key",
            header_changed(&phone().public().id().to_string(), &other.id().to_string()),
        ),
        ("damaged-key--another-key", header_changed(&phone().public().x(), &other.x())),
        (
            "damaged-key--key-under-which-anyone-signs",
            header_changed(&phone().public().x(), &format!("AQ{}", "A".repeat(41))),
        ),
        ("damaged-signature--padded", padded("signature")),
        ("damaged-signature--one-byte-changed", one_byte_changed("signature")),
        ("damaged-signature--payload-byte-changed", one_byte_changed("payload")),
        ("damaged-signature--payload-written-anew", {
            let fresh = deflate(
                serde_json::to_string_pretty(&serde_json::from_slice::<Value>(&plain).unwrap()).unwrap().as_bytes(),
            );
            good.replace(&member(&good, "payload"), &encode(&fresh))
        }),
        ("damaged-signature--replayed-under-another-key", replayed()),
        ("damaged-content--padded", padded("payload")),
        ("damaged-content--not-deflated", packed(&plain)),
        ("damaged-content--deflated-and-cut", {
            let p = parts(&good).packed;
            packed(&p[..p.len() - 9])
        }),
        ("damaged-content--bytes-after-its-end", packed(&[parts(&good).packed, vec![0]].concat())),
        ("damaged-content--unpacks-to-40-megabytes", packed(&deflate(&vec![b' '; FORTY_MB]))),
        ("damaged-content--not-canonical", swapped("{\"app\":", "{ \"app\":")),
        ("damaged-content--member-twice", swapped("{\"app\":", "{\"app\":\"9.9.9\",\"app\":")),
        ("damaged-content--number-beyond-2-to-53", swapped("\"first_seq\":1", "\"first_seq\":9007199254740993")),
        ("damaged-content--unknown-member", payload_changed(|payload| payload["extra"] = json!(1), &phone())),
        ("damaged-content--entries-of-another-phone", other_devices_entries()),
        ("damaged-chain--entry-dropped", entries_changed(|all| drop(all.remove(2)))),
        ("damaged-chain--last-entry-dropped", entries_changed(|all| drop(all.pop()))),
        ("damaged-chain--entry-doubled", entries_changed(|all| all.insert(2, all[2].clone()))),
        ("damaged-chain--entries-moved", entries_changed(|all| all.swap(2, 3))),
        (
            "damaged-chain--entry-changed",
            entries_changed(|all| all[2]["body"] = json!(all[2]["body"].as_str().unwrap().replace("62", "26"))),
        ),
        (
            "damaged-chain--begins-elsewhere",
            payload_changed(
                |payload| {
                    payload["chain"]["first_seq"] = json!(2);
                    payload["chain"]["prev"] = json!("A".repeat(43));
                },
                &phone(),
            ),
        ),
    ];
    let mut all: Vec<(String, Vec<u8>)> =
        text.into_iter().map(|(name, text)| (format!("{name}.txt"), text.into_bytes())).collect();
    all.push(("unknown--carries-a-stranger.txt".into(), full().into_bytes()));
    all.push(("damaged-text--two-bytes-a-letter.txt".into(), utf_16(&good)));
    all
}
