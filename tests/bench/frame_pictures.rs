//! Frames as pictures and back, for checks by other programs.
//!
//!     frame-pictures paint FILE FOLDER FIRST COUNT SCALE    numbered PGM pictures of frames
//!     frame-pictures codes < list of PGM pictures           what their codes hold, one line a picture, in hexadecimal
//!     frame-pictures read < list of PGM pictures            what was read, one line each, then the file's digest
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, clippy::indexing_slicing, missing_docs)]

use std::fmt::Write as _;
use std::io::BufRead;
use std::time::Instant;

use marrowbook::frames::{Gather, Spread, Taken, paint, read};
use marrowbook::record::Digest;

fn main() {
    let args: Vec<String> = std::env::args().skip(1).collect();
    match args.iter().map(String::as_str).collect::<Vec<_>>()[..] {
        ["paint", file, folder, first, count, scale] => {
            let number = |text: &str| text.parse::<u32>().expect("a number");
            let spread = Spread::new(std::fs::read(file).expect("the file")).expect("a file that can be shown");
            let (first, count, scale) = (number(first), number(count), number(scale) as usize);
            for frame in first..first + count {
                let (side, luma) = paint::picture(&spread.frame(frame), scale).expect("a frame fits");
                let mut bytes = format!("P5\n{side} {side}\n255\n").into_bytes();
                bytes.extend(luma);
                std::fs::write(format!("{folder}/{frame:06}.pgm"), bytes).expect("the folder can be written");
            }
            println!("{}", spread.symbols());
        }
        ["codes"] => {
            for path in std::io::stdin().lock().lines() {
                let bytes = std::fs::read(path.unwrap()).expect("a picture");
                let (width, height, luma) = pgm(&bytes);
                let hex = |code: Vec<u8>| {
                    code.iter().fold(String::new(), |mut text, byte| {
                        let _ = write!(text, "{byte:02x}");
                        text
                    })
                };
                println!("{}", read::codes(width, height, luma).into_iter().map(hex).collect::<Vec<_>>().join(" "));
            }
        }
        ["read"] => {
            let mut gather = Gather::new();
            let mut spent = 0.0;
            for path in std::io::stdin().lock().lines() {
                let bytes = std::fs::read(path.unwrap()).expect("a picture");
                let (width, height, luma) = pgm(&bytes);
                let start = Instant::now();
                let codes = read::codes(width, height, luma);
                spent += start.elapsed().as_secs_f64();
                let said = codes.iter().map(|code| match gather.take(code) {
                    Ok(Taken::More { have, need }) => format!("more {have} {need}"),
                    Ok(Taken::Nothing { have, need }) => format!("same {have} {need}"),
                    Ok(Taken::Whole(bytes)) => format!("whole {} {}", bytes.len(), Digest::of(&[&bytes])),
                    Ok(Taken::False) => "false".to_owned(),
                    Err(why) => format!("no {why}"),
                });
                println!("{}", said.collect::<Vec<_>>().first().map_or("none", |line| line));
            }
            println!("seconds {spent:.3}");
        }
        _ => panic!("paint FILE FOLDER FIRST COUNT SCALE, codes, or read"),
    }
}

/// Width, height and luma of a PGM as this program and its checks write them.
fn pgm(bytes: &[u8]) -> (usize, usize, &[u8]) {
    let mut rest = bytes.strip_prefix(b"P5\n").expect("a binary PGM");
    let mut line = || {
        let at = rest.iter().position(|b| *b == b'\n').expect("a header");
        let text = std::str::from_utf8(&rest[..at]).unwrap().to_owned();
        rest = &rest[at + 1..];
        text
    };
    let size: Vec<usize> = line().split(' ').map(|n| n.parse().unwrap()).collect();
    assert_eq!(line(), "255");
    (size[0], size[1], rest)
}
