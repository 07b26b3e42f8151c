//! Opening good and hostile files. The kit of files under `tests/kit` goes through the same doors.

use super::*;
use crate::bundle::base64url::{decode, encode};
use crate::bundle::deflate::deflate;
use crate::bundle::envelope::{seal, seal_as};
use crate::bundle::key::DeviceKey;
use crate::bundle::vectors::published_key;

const PAYLOAD: &[u8] = br#"{"format":"sample/1","records":[]}"#;

fn sealed() -> String {
    seal(Kind::Bundle, PAYLOAD, &published_key()).unwrap()
}

fn refused(text: &str) -> OpenError {
    open(text.as_bytes(), Kind::Bundle).unwrap_err()
}

fn members(text: &str) -> serde_json::Map<String, serde_json::Value> {
    serde_json::from_str(text).unwrap()
}

/// Signs the sample payload under a header written by hand, with the published key.
fn with_header(header: &str) -> String {
    with_header_and(header, &crate::bundle::deflate::deflate(PAYLOAD))
}

fn with_header_and(header: &str, packed: &[u8]) -> String {
    let (protected, payload) = (encode(header.as_bytes()), encode(packed));
    let signature = encode(&published_key().sign(format!("{protected}.{payload}").as_bytes()));
    format!(r#"{{"payload":"{payload}","protected":"{protected}","signature":"{signature}"}}"#)
}

fn good_header() -> String {
    let text = sealed();
    let protected = members(&text)["protected"].as_str().unwrap().to_owned();
    String::from_utf8(decode(&protected).unwrap()).unwrap()
}

#[test]
fn every_kind_opens_as_itself_and_as_no_other() {
    for made in Kind::ALL {
        let text = seal(made, PAYLOAD, &published_key()).unwrap();
        for asked in Kind::ALL {
            match open(text.as_bytes(), asked) {
                Ok(opened) => {
                    assert_eq!(made, asked);
                    assert_eq!(opened.payload, PAYLOAD);
                    assert_eq!(opened.signer, published_key().public());
                    assert_eq!(opened.original, text.as_bytes());
                    assert!(opened.repairs.is_empty());
                }
                Err(error) => assert_eq!(error, OpenError::OtherKind { expected: asked, found: made }),
            }
        }
    }
}

#[test]
fn a_header_written_by_hand_opens_when_it_is_right() {
    assert_eq!(open(with_header(&good_header()).as_bytes(), Kind::Bundle).unwrap().payload, PAYLOAD);
}

// The known answer of `envelope`: verified outside with jwcrypto, joserfc, PyNaCl and jose.
#[test]
fn the_known_answer_verifies() {
    let text = seal_as("sample-bundle-1+jws", None, PAYLOAD, &published_key());
    let expect = |typ: &str| {
        if typ == "sample-bundle-1+jws" { Ok(()) } else { Err(OpenError::UnknownKind(typ.into())) }
    };
    let verified = verify(text.as_bytes(), 10_000, expect, false).unwrap();
    assert_eq!((verified.packed.as_slice(), verified.signer), (PAYLOAD, published_key().public()));
    assert_eq!(refused(&text), OpenError::UnknownKind("sample-bundle-1+jws".into()));
}

// RFC 8037 appendix A.4 and A.5: the signature is good, and the header is not one of ours.
#[test]
fn rfc_8037_a_4_signature() {
    let input = "eyJhbGciOiJFZERTQSJ9.RXhhbXBsZSBvZiBFZDI1NTE5IHNpZ25pbmc";
    let signature = "hgyY0il_MGCjP0JzlnLWG1PPOt7-09PGcvMg3AIbQR6dWbhijcNR4ki4iylGjg5BhVsPt9g7sVvpAr_MuM0KAg";
    assert_eq!(decode(input.split('.').next().unwrap()).unwrap(), br#"{"alg":"EdDSA"}"#);
    assert_eq!(decode(input.split('.').nth(1).unwrap()).unwrap(), b"Example of Ed25519 signing");
    assert_eq!(encode(&published_key().sign(input.as_bytes())), signature);
    assert!(published_key().public().verifies(input.as_bytes(), &base64url::decode_array(signature).unwrap()));
    let (protected, payload) = input.split_once('.').unwrap();
    let text = format!(r#"{{"payload":"{payload}","protected":"{protected}","signature":"{signature}"}}"#);
    assert_eq!(refused(&text), OpenError::HeaderMissing("typ"));
}

#[test]
fn no_changed_bit_opens() {
    let text = sealed().into_bytes();
    for place in 0..text.len() {
        for bit in 0..8 {
            let mut changed = text.clone();
            changed[place] ^= 1 << bit;
            assert!(open(&changed, Kind::Bundle).is_err(), "byte {place} bit {bit}");
        }
    }
}

#[test]
fn no_cut_opens() {
    let text = sealed();
    for length in 0..text.len() {
        assert!(open(&text.as_bytes()[..length], Kind::Bundle).is_err(), "{length}");
    }
    assert_eq!(refused(&text[..text.len() / 2]), OpenError::Truncated);
    assert_eq!(refused(&text[..1]), OpenError::Truncated);
}

#[test]
fn what_mail_does_is_tolerated_and_named() {
    let text = sealed();
    let lines: Vec<&str> = text.as_bytes().chunks(76).map(|line| str::from_utf8(line).unwrap()).collect();
    let wrapped = lines.join("\r\n");
    let pretty = serde_json::to_string_pretty(&members(&text)).unwrap();
    for (mangled, repair) in [
        (format!("\n  {text}\n\n"), Repair::OuterSpace),
        (format!("\u{feff}{text}"), Repair::ByteOrderMark),
        (wrapped, Repair::LineBreaks),
        (pretty, Repair::LineBreaks),
    ] {
        let opened = open(mangled.as_bytes(), Kind::Bundle).unwrap();
        assert_eq!(opened.repairs, [repair]);
        assert_eq!(opened.payload, PAYLOAD);
        assert_eq!(opened.original, mangled.as_bytes());
    }
}

#[test]
fn the_envelope_has_three_text_members() {
    let text = sealed();
    let with = |name: &str, value: serde_json::Value| {
        let mut members = members(&text);
        members.insert(name.into(), value);
        serde_json::to_string(&members).unwrap()
    };
    let without = |name: &str| {
        let mut members = members(&text);
        members.remove(name);
        serde_json::to_string(&members).unwrap()
    };
    let one = serde_json::json!({"protected": "", "signature": ""});
    assert_eq!(refused("[]"), OpenError::NotAnObject);
    assert!(matches!(refused("Dear office,"), OpenError::NotAnEnvelope(_)));
    assert_eq!(refused(&with("header", serde_json::json!({}))), OpenError::UnprotectedHeader);
    assert_eq!(refused(&with("signatures", serde_json::json!([one]))), OpenError::SignaturesList);
    assert_eq!(refused(&with("signatures", serde_json::json!([one, one]))), OpenError::SignedAgain(2));
    assert_eq!(refused(&with("note", "from Anna".into())), OpenError::UnknownMember("note".into()));
    assert_eq!(refused(&with("payload", 5.into())), OpenError::MemberNotText(Part::Payload));
    for part in [Part::Payload, Part::Protected, Part::Signature] {
        assert_eq!(refused(&without(part.name())), OpenError::MissingMember(part));
        let padded = format!("{}==", members(&text)[part.name()].as_str().unwrap());
        assert!(
            matches!(refused(&with(part.name(), padded.into())), OpenError::Base64 { part: found, .. } if found == part)
        );
    }
    let twice = text.replacen('{', r#"{"payload":"","#, 1);
    assert_eq!(refused(&twice), OpenError::NotAnEnvelope(ReadError::DuplicateMember("payload".into())));
}

#[test]
fn the_header_has_the_known_members() {
    let header = good_header();
    let changed = |from: &str, to: &str| {
        assert!(header.contains(from), "{from}");
        refused(&with_header(&header.replace(from, to)))
    };
    assert!(matches!(refused(&with_header("alg")), OpenError::HeaderNotJson(_)));
    assert_eq!(refused(&with_header("[]")), OpenError::HeaderNotObject);
    assert_eq!(
        changed("{\"alg\"", "{\"alg\":\"none\",\"alg\""),
        OpenError::HeaderNotJson(ReadError::DuplicateMember("alg".into()))
    );
    assert_eq!(changed("{\"alg\"", "{\"crit\":[\"b64\"],\"b64\":false,\"alg\""), OpenError::Extension("crit"));
    assert_eq!(changed("{\"alg\"", "{\"b64\":true,\"alg\""), OpenError::Extension("b64"));
    assert_eq!(changed("{\"alg\"", "{\"x5u\":\"y\",\"alg\""), OpenError::HeaderUnknown("x5u".into()));
    for algorithm in ["none", "EdDSA", "HS256", "ed25519"] {
        assert_eq!(
            changed("\"alg\":\"Ed25519\"", &format!("\"alg\":\"{algorithm}\"")),
            OpenError::WrongAlgorithm(algorithm.into())
        );
    }
    assert_eq!(changed("\"alg\":\"Ed25519\"", "\"alg\":7"), OpenError::HeaderMissing("alg"));
    assert_eq!(changed("application/json", "text/plain"), OpenError::WrongForm { member: "cty" });
    assert_eq!(changed(",\"zip\":\"DEF\"", ""), OpenError::WrongForm { member: "zip" });
    assert_eq!(changed("\"DEF\"", "\"GZ\""), OpenError::WrongForm { member: "zip" });
}

#[test]
fn the_kind_is_told_from_a_newer_one_and_a_strange_one() {
    let header = good_header();
    let typ = |typ: &str| refused(&with_header(&header.replace("marrowbook-bundle-1+jws", typ)));
    assert_eq!(typ("marrowbook-bundle-2+jws"), OpenError::NewerVersion { kind: Kind::Bundle, version: 2 });
    assert_eq!(typ("marrowbook-card-1+jws"), OpenError::OtherKind { expected: Kind::Bundle, found: Kind::Card });
    assert_eq!(typ("JWT"), OpenError::UnknownKind("JWT".into()));
    // a newer version may have header members unknown here
    let newer =
        header.replace("marrowbook-bundle-1+jws", "marrowbook-bundle-2+jws").replace("{\"alg\"", "{\"aaa\":1,\"alg\"");
    assert!(refused(&with_header(&newer)).is_newer_version());
}

#[test]
fn the_key_must_be_usable_and_named_rightly() {
    let header = good_header();
    let other = DeviceKey::from_seed(&[7; 32]).public();
    let own = published_key().public();
    assert_eq!(refused(&with_header(&header.replace(&own.x(), &other.x()))), OpenError::KeyNameMismatch);
    assert_eq!(
        refused(&with_header(&header.replace(&own.id().to_string(), &other.id().to_string()))),
        OpenError::KeyNameMismatch
    );
    // replayed under another phone's key and name: the header is right, the signature is not
    let renamed = header.replace(&own.x(), &other.x()).replace(&own.id().to_string(), &other.id().to_string());
    assert_eq!(refused(&with_header(&renamed)), OpenError::SignatureWrong);
    // the neutral element of the curve, under which anyone can sign
    let weak = format!("AQ{}", "A".repeat(41));
    assert!(matches!(refused(&with_header(&header.replace(&own.x(), &weak))), OpenError::BadKey(_)));
}

#[test]
fn a_payload_of_another_form_is_refused_even_when_signed() {
    let header = good_header();
    let packed = |plain: &[u8]| refused(&with_header_and(&header, &crate::bundle::deflate::deflate(plain)));
    assert_eq!(packed(b"{ }"), OpenError::PayloadForm(ReadError::NotCanonical { at: 1 }));
    assert_eq!(packed(br#"{"a":1,"a":1}"#), OpenError::PayloadForm(ReadError::DuplicateMember("a".into())));
    assert_eq!(refused(&with_header_and(&header, PAYLOAD)).step(), crate::bundle::Step::Payload);
    let bomb = crate::bundle::deflate::deflate(&vec![b'1'; 8 << 20]);
    assert!(matches!(refused(&with_header_and(&header, &bomb)), OpenError::PayloadTooLarge { .. }));
}

#[test]
fn size_comes_first() {
    let limits = Limits { file_bytes: 100, payload_bytes: 10 };
    assert_eq!(open_within(&[0xff; 101], Kind::Bundle, limits), Err(OpenError::TooLarge { limit: 100 }));
    let limits = Limits { file_bytes: 10_000, payload_bytes: 10 };
    assert_eq!(open_within(sealed().as_bytes(), Kind::Bundle, limits), Err(OpenError::PayloadTooLarge { limit: 10 }));
    let card = seal(Kind::Card, PAYLOAD, &published_key()).unwrap();
    assert_eq!(open_within(card.as_bytes(), Kind::Card, limits), Err(OpenError::PayloadTooLarge { limit: 10 }));
}

/// A file opened in parts, with what it says or the check that failed.
fn in_parts(bytes: &[u8], kind: Kind, limits: Limits) -> Result<Checked, OpenError> {
    let mut opening = Opening::begin(bytes, kind, limits)?;
    loop {
        match opening.step() {
            Ok(true) => {}
            Ok(false) => return opening.done(),
            Err(error) => {
                assert!(opening.done().is_err(), "what was refused holds nothing");
                return Err(error);
            }
        }
    }
}

// A law of the design: parts are for taps, and let nothing through.
#[test]
fn in_parts_every_file_opens_or_is_refused_as_in_one_go() {
    let same = |bytes: &[u8], kind: Kind, limits: Limits| {
        let whole = open_within(bytes, kind, limits).map(|opened| (opened.signer, opened.payload, opened.repairs));
        let parts = in_parts(bytes, kind, limits).map(|checked| (checked.signer, checked.payload, checked.repairs));
        assert_eq!(parts, whole);
        whole.is_ok()
    };
    let payload = format!("{{\"a\":\"{}\"}}", "browse and bark ".repeat(60_000));
    let mut opened = 0;
    for made in Kind::ALL {
        let small = seal(made, b"{\"a\":1}", &published_key()).unwrap();
        let large = seal(made, payload.as_bytes(), &published_key()).unwrap();
        for kind in Kind::ALL {
            for (text, most) in [
                (&small, 64 << 20),
                (&small, 6),
                (&large, 64 << 20),
                (&large, payload.len()),
                (&large, payload.len() - 1),
                (&large, 1 << 19),
            ] {
                opened += usize::from(same(text.as_bytes(), kind, Limits { payload_bytes: most, ..Limits::default() }));
            }
        }
        for at in (0..small.len()).step_by(3) {
            let mut spoilt = small.clone().into_bytes();
            spoilt[at] ^= 1;
            same(&spoilt, made, Limits::default());
            same(small.as_bytes().get(..at).unwrap(), made, Limits::default());
        }
    }
    assert_eq!(opened, 3 * Kind::ALL.len());
    // Signed all the same: not deflated, cut, with more behind its end, of no JSON, of another form.
    let good = deflate(b"{\"a\":1}");
    let more = [&good[..], b"x"].concat();
    for packed in
        [b"{}".to_vec(), good[..good.len() - 1].to_vec(), more, deflate(b"{"), deflate(b"{ }"), deflate(b"[1.50]")]
    {
        let text = with_header_and(&good_header(), &packed);
        assert!(!same(text.as_bytes(), Kind::Bundle, Limits::default()));
    }
}
