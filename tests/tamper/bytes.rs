//! Every byte changed, left out or put in, every cut, everything hung on: the file is refused, or (white space that mail
//! puts in) gives the very same payload under the very same key.

use super::{kit, opened, ran};
use marrowbook::bundle::{Kind, open};
use marrowbook::record::DeviceId;
use ran::{Office, folder};

/// What a reader takes from it: payload and signer; nothing where it is refused.
fn taken(bytes: &[u8]) -> Option<(Vec<u8>, DeviceId)> {
    open(bytes, Kind::Bundle).ok().map(|opened| (opened.payload, opened.signer.id()))
}

/// A bundle with everything in it: its own entries, an adopted chain, photos, a reading, another phone's bundle.
fn text() -> Vec<u8> {
    kit::full().into_bytes()
}

/// Where the value of a member stands.
fn span(text: &[u8], name: &str) -> std::ops::Range<usize> {
    let text = std::str::from_utf8(text).unwrap();
    let value = kit::member(text, name);
    let start = text.find(&value).unwrap();
    start..start + value.len()
}

/// The next of a row of numbers, the same in each run (Marsaglia 2003, xorshift64).
fn next(state: &mut u64) -> u64 {
    *state ^= *state << 13;
    *state ^= *state >> 7;
    *state ^= *state << 17;
    *state
}

#[test]
fn no_byte_changed_in_any_bit_opens() {
    let text = text();
    let payload = span(&text, "payload");
    let mut state = 0x6d61_7272_6f77;
    let mut tried = 0;
    for place in 0..text.len() {
        // Of the payload one bit of each letter, drawn: its letters all go the same way, and a bundle has thousands.
        let drawn = next(&mut state) % 8;
        let bits = if payload.contains(&place) { drawn..drawn + 1 } else { 0..8 };
        for bit in bits {
            let mut changed = text.clone();
            changed[place] ^= 1 << bit;
            assert_eq!(taken(&changed), None, "byte {place}, bit {bit}");
            tried += 1;
        }
    }
    assert!(tried > text.len() + 2000, "{tried}");
    assert!(taken(&text).is_some());
}

#[test]
fn no_cut_and_nothing_hung_on_opens() {
    let text = text();
    let whole = taken(&text);
    for length in 0..text.len() {
        assert_eq!(taken(&text[..length]), None, "the first {length}");
        if length > 0 {
            assert_eq!(taken(&text[length..]), None, "without the first {length}");
        }
    }
    for byte in 0..=u8::MAX {
        for changed in [[&text[..], &[byte]].concat(), [&[byte], &text[..]].concat()] {
            // Blank, tab, line feed, form feed and return are what mail puts round a file.
            let allowed = byte.is_ascii_whitespace();
            assert_eq!(taken(&changed), if allowed { whole.clone() } else { None }, "{byte}");
        }
    }
    assert_eq!(taken(&[&text[..], &text[..]].concat()), None, "twice in one file");
}

#[test]
fn no_byte_left_out_doubled_or_put_in_opens() {
    let text = text();
    let whole = taken(&text);
    let mut state = 0x736e_6f77;
    for place in 0..text.len() {
        let mut without = text.clone();
        without.remove(place);
        assert_eq!(taken(&without), None, "without byte {place}");
        let mut doubled = text.clone();
        doubled.insert(place, text[place]);
        assert_eq!(taken(&doubled), None, "byte {place} twice");
        let drawn = u8::try_from(next(&mut state) & 0xff).unwrap();
        for byte in [drawn, b'\n', b' ', b'A', b'"', b'}', 0] {
            let mut more = text.clone();
            more.insert(place, byte);
            // A line break anywhere, and a blank between the parts of the envelope, are not in what was signed.
            let found = taken(&more);
            let blank = byte.is_ascii_whitespace();
            assert!(found.is_none() || (blank && found == whole), "byte {byte} at {place}");
        }
    }
}

#[test]
fn the_command_line_says_the_same() {
    let office = Office::new(folder("tamper-bytes"));
    office.put("keyring.json", kit::keyring().as_bytes());
    let text = kit::good();
    assert_eq!(opened(&office, &text), (0, "intact".into(), None));
    for (part, step) in [("protected", "header"), ("payload", "signature"), ("signature", "signature")] {
        let place = span(text.as_bytes(), part).start + 40;
        let mut changed = text.clone().into_bytes();
        changed[place] = if changed[place] == b'A' { b'B' } else { b'A' };
        let (code, word, failed) = opened(&office, std::str::from_utf8(&changed).unwrap());
        assert_eq!((code, word.as_str()), (4, "damaged"), "{part}");
        assert!(failed.as_deref().is_some_and(|failed| failed == step || part == "protected"), "{part}: {failed:?}");
    }
    assert_eq!(opened(&office, &text[..text.len() - 1]).0, 4);
    assert_eq!(opened(&office, &format!("{text}{{}}")).0, 4);
}
