//! What a camera gives: codes that are no frames of ours, damaged ones, and well-made ones that tell lies.

use marrowbook::frames::frame::{FileName, Frame};
use marrowbook::frames::{Gather, MOST_BYTES, SYMBOL_BYTES, Spread, Taken, read};
use marrowbook::record::Digest;

pub(crate) fn run(bytes: &[u8]) {
    let Some((how, rest)) = bytes.split_first() else { return };
    match how % 4 {
        0 => raw(rest),
        1 => made(rest),
        2 => sent(rest),
        _ => picture(rest),
    }
}

fn raw(bytes: &[u8]) {
    if let Ok(frame) = Frame::read(bytes) {
        assert_eq!(frame.write(), bytes);
    }
    drop(Gather::new().take(bytes));
}

/// Frames whose check holds, of three files that may or may not be there. Nine bytes each: which file, its length, the
/// frame's number, what the symbol is filled with.
fn made(bytes: &[u8]) {
    let mut gather = Gather::new();
    for part in bytes.chunks_exact(9).take(64) {
        let number = |at: usize| usize::from(part[at]) << 8 | usize::from(part[at + 1]);
        let length = (number(1) << (part[3] % 9)) % (MOST_BYTES + 2);
        let mut symbol = vec![part[7]; SYMBOL_BYTES];
        symbol[0] = part[8];
        let digest = [part[0] % 3; 8];
        let frame = Frame {
            file: FileName { digest, bytes: length },
            number: u32::try_from(number(4) << (part[6] % 9)).unwrap_or_default() & 0x00ff_ffff,
            symbol,
        };
        take(&mut gather, &frame.write());
    }
}

/// A file that is there, its frames in any order with some missed, damaged or of another file among them.
fn sent(bytes: &[u8]) {
    let (order, file) = bytes.split_at(bytes.len() / 2);
    let Ok(spread) = Spread::new(file.to_vec()) else { return };
    let mut gather = Gather::new();
    for pair in order.chunks_exact(2).take(64) {
        let mut frame = spread.frame(u32::from(pair[0]));
        if pair[1] > 200 {
            let at = usize::from(pair[1]) % frame.len();
            frame[at] ^= 1;
        }
        if let Some(whole) = take(&mut gather, &frame) {
            assert_eq!(whole, file);
            return;
        }
    }
}

fn take(gather: &mut Gather, code: &[u8]) -> Option<Vec<u8>> {
    match gather.take(code) {
        Ok(Taken::More { have, need } | Taken::Nothing { have, need }) => {
            assert!(have < need && need <= MOST_BYTES.div_ceil(SYMBOL_BYTES));
            None
        }
        Ok(Taken::Whole(bytes)) => {
            let Digest(digest) = Digest::of(&[&bytes]);
            let named = Frame::read(code).map(|frame| frame.file);
            assert!(named.is_ok_and(|file| file.digest == digest[..8] && file.bytes == bytes.len()));
            Some(bytes)
        }
        Ok(Taken::False) | Err(_) => None,
    }
}

/// Eight pixels a byte, black or white, in rows of the width that the first byte says.
fn picture(bytes: &[u8]) {
    let Some((width, rest)) = bytes.split_first() else { return };
    let width = usize::from(*width).max(1);
    let pixels: Vec<u8> = rest.iter().flat_map(|byte| (0..8).map(move |bit| (byte >> bit & 1) * 255)).collect();
    let height = pixels.len() / width;
    let Some(luma) = pixels.get(..width * height) else { return };
    for code in read::codes(width, height, luma) {
        raw(&code);
    }
}
