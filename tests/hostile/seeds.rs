//! What the fuzzer starts from: for each target a few inputs as they come in the field, made from this repository's own
//! vectors. All names and answers are invented.

use super::kit;
use marrowbook::bundle::deflate::deflate;
use marrowbook::bundle::{Kind, open, qr::QrMatrix, seal};
use marrowbook::frames::Spread;
use marrowbook::keep::{Seed, row};
use marrowbook::record::{Entry, Head, Salt};
use std::fmt::Write as _;

type Input = (&'static str, String, Vec<u8>);

/// Target, name, bytes.
pub(crate) fn all() -> Vec<Input> {
    let mut all = Vec::new();
    let mut put = |target: &'static str, name: &str, bytes: Vec<u8>| all.push((target, name.to_owned(), bytes));
    let led = |how: u8, bytes: &[u8]| [&[how], bytes].concat();

    let good = kit::good();
    let payload = open(kit::full().as_bytes(), Kind::Bundle).unwrap().payload;
    put("bundle", "file", led(0, good.as_bytes()));
    put("bundle", "card-as-file", led(0, seal(Kind::Card, br#"{"form":1}"#, &kit::phone()).unwrap().as_bytes()));
    put("bundle", "payload", led(1, &payload));
    put("bundle", "packed", led(2, &deflate(&payload)));
    put("bundle", "packed-bare", led(2, &deflate(b"{\"format\":2}")));
    put("bundle", "header", led(3, kit::parts(&good).header.as_bytes()));
    put("bundle", "keyring", led(4, kit::keyring().as_bytes()));

    let card = include_bytes!("../../demo/card.json");
    put("card", "demo", card.to_vec());
    put("card", "signed", include_bytes!("../../demo/card.txt").to_vec());
    let bare = r#"{"form":1,"serial":1,"office":"Quillback","valid_from":"2026-12-01T00:00:00-05:00","valid_to":"2027-06-01T00:00:00-04:00","calls":[],"people":[]}"#;
    put("card", "bare", bare.as_bytes().to_vec());

    for (n, text) in PLACES.iter().enumerate() {
        put("coordinates", &format!("{n:02}"), text.as_bytes().to_vec());
    }

    put("csv", "laboratory", led(0, LABORATORY.as_bytes()));
    put("csv", "laboratory-semicolons", led(0, LABORATORY.replace(',', ";").as_bytes()));
    put("csv", "winter", led(1, WINTER.as_bytes()));
    put("csv", "winter-us", led(1, WINTER_US.as_bytes()));
    put("csv", "findings", led(2, include_bytes!("../office/findings-example.json")));

    let spread = Spread::new(b"a file that is a little longer than nothing".to_vec()).unwrap();
    put("frames", "frame", led(0, &spread.frame(0)));
    put("frames", "made", led(1, &[0, 0, 3, 0, 0, 0, 0, 7, 1, 1, 9, 9, 2, 0, 4, 1, 7, 1, 0, 0, 3, 0, 0, 1, 0, 7, 1]));
    put("frames", "sent", led(2, b"\0\0\x01\0\x02\xff\x03\0\0abcdefgh"));
    put("frames", "picture", led(3, &picture("MBF")));

    put("journal", "as-left", journal(&[("r", 0..4), ("c", 4..6)], true));
    put("journal", "copies-only", journal(&[("c", 0..3)], true));
    put("journal", "gap-and-fork", journal(&[("r", 0..2), ("R", 2..3), ("r", 4..5), ("f", 1..2), ("c", 3..4)], false));
    put("journal", "rival", rival());
    all
}

const PLACES: [&str; 16] = [
    "45.1234 -84.5678",
    "45,1234 -84,5678",
    "45.1234, -84.5678",
    "N 45 30.5 W 84 12.25",
    "45\u{b0}30'15.5\"N 84\u{b0}12'30\"W",
    "45 30 15 N, 84 12 30 W",
    "84.5678 W 45.1234 N",
    "16T 726784 5121582",
    "16 T 726784.1 5121582.4",
    "16TGS2678421582",
    "16T GS 26784 21582",
    "16TGS",
    "33X VG 1 2",
    "-90 180",
    "60 N 5 E",
    "1C AA 00000 00000",
];

const LABORATORY: &str = "sample,test,result,reported,years,grade,percent,from\n\
    KDRMWA-1J,cementum,,2027-04-02,6,A,,\n\
    KDRMWA-2C,marrow,,2027-04-02,,,37.4,\n\
    KDRMWA-3T,cwd,not detected,2027-04-02T12:00:00-05:00,,,,\n\
    KDRMWA-4M,swab-dna,coyote,2027-04-02,,,,clot_wound\n";

const WINTER: &str = "place;date;tmin (C);tmax (C);snow depth (cm);new snow (cm)\n\
    North gate;2027-01-01;-12,5;-3;41;0\n\
    North gate;2027-01-02;-17.8;-9,0;44;3\n\
    South gate;2027-01-02;M;;T;\n\
    \"North \"\"old\"\" gate\";2027-02-29;1;2;3;4\n";

const WINTER_US: &str =
    "date,tmin (F),snow depth (in),new snow (in)\n1/2/2027,0,18,T\n1/3/2027,-11,19,1.5\n13/3/2027,5,,\n";

/// A code as the target's picture has it: eight pixels a byte, three pixels a module.
fn picture(text: &str) -> Vec<u8> {
    let code = QrMatrix::of_text(text).unwrap();
    let (edge, scale) = (4, 3);
    let modules = marrowbook::frames::paint::text_modules(text).unwrap();
    assert!(code.view_side() >= modules.len());
    let side = ((modules.len() + 2 * edge) * scale).next_multiple_of(8);
    let dark = |x: usize, y: usize| {
        let at = |n: usize| (n / scale).checked_sub(edge);
        at(y).zip(at(x)).and_then(|(y, x)| modules.get(y)?.get(x).copied()).unwrap_or(false)
    };
    let mut out = vec![u8::try_from(side).unwrap()];
    for y in 0..side {
        for byte in 0..side / 8 {
            out.push((0..8).map(|bit| u8::from(!dark(byte * 8 + bit, y)) << bit).sum());
        }
    }
    out
}

/// Lines of the stores: where each entry of the kit's phone lies, and, where wanted, head and seed.
fn journal(rows: &[(&str, std::ops::Range<usize>)], whole: bool) -> Vec<u8> {
    let all = kit::entries(&kit::phone());
    let mut out = String::new();
    for (kind, range) in rows {
        for entry in &all[range.clone()] {
            for part in [kind, row::write(entry).as_str(), "\n"] {
                out.push_str(part);
            }
        }
    }
    if whole {
        let seed = Seed(kit::phone().seed()).write();
        let head = row::write_head(&Head::after(&all[3]));
        for (kind, text) in [("s", &seed), ("S", &seed), ("h", &head), ("H", &head)] {
            writeln!(out, "{kind}{text}").unwrap();
        }
    }
    out.into_bytes()
}

/// Two entries of one number, and one that follows the second of them.
fn rival() -> Vec<u8> {
    let all = kit::entries(&kit::phone());
    let other = Head::after(&all[0]).next(&all[4].body().unwrap().unwrap(), Salt([88; 16])).unwrap();
    let after: Entry = Head::after(&other).next(&all[3].body().unwrap().unwrap(), Salt([89; 16])).unwrap();
    let lines = [("r", &all[0]), ("r", &all[1]), ("c", &other), ("c", &after)];
    lines.map(|(kind, entry)| format!("{kind}{}\n", row::write(entry))).concat().into_bytes()
}
