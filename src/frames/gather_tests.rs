//! Whole round trips with what a camera does to them. All draws come from a fixed start.

use super::super::{Frame, MOST_BYTES, NotOurs, SYMBOL_BYTES, Spread};
use super::*;

/// A small generator of the tests' own, so that a fault in the code's is not hidden by using it twice.
struct Draw(u64);

impl Draw {
    /// xorshift64 (Marsaglia 2003).
    fn next(&mut self) -> u64 {
        self.0 ^= self.0 << 13;
        self.0 ^= self.0 >> 7;
        self.0 ^= self.0 << 17;
        self.0
    }

    fn below(&mut self, n: u64) -> u64 {
        self.next() % n
    }

    fn bytes(&mut self, n: usize) -> Vec<u8> {
        (0..n).map(|_| self.next().to_le_bytes()[3]).collect()
    }
}

/// Frames until the file is whole, of a sender that is caught at `from` and of which `drop` in a hundred are missed.
fn take(file: &[u8], from: u32, drop: u64, draw: &mut Draw) -> (Vec<u8>, usize) {
    let spread = Spread::new(file.to_vec()).unwrap();
    let mut gather = Gather::new();
    let mut read = 0;
    for number in from.. {
        if draw.below(100) < drop {
            continue;
        }
        read += 1;
        if let Taken::Whole(bytes) = gather.take(&spread.frame(number)).unwrap() {
            return (bytes, read);
        }
    }
    unreachable!()
}

#[test]
fn a_file_comes_whole_from_any_start_with_three_in_ten_missed() {
    let mut draw = Draw(0x5eed);
    let mut more = Vec::new();
    for bytes in [1, SYMBOL_BYTES, SYMBOL_BYTES + 1, 12_000, 64 * SYMBOL_BYTES, 90_123] {
        let file = draw.bytes(bytes);
        for from in [0, 3, 1_000_000] {
            let (came, read) = take(&file, from, 30, &mut draw);
            assert_eq!(came, file, "{bytes} from {from}");
            more.push(read - bytes.div_ceil(SYMBOL_BYTES));
        }
    }
    // A random square matrix over GF(2) wants 1.6 more rows on average (MacKay 2005, section 3).
    let mean = more.iter().sum::<usize>() as f64 / more.len() as f64;
    assert!(mean < 4.0, "{more:?}");
}

#[test]
fn order_doubles_strangers_and_damage_do_no_harm() {
    let mut draw = Draw(77);
    let file = draw.bytes(20_000);
    let spread = Spread::new(file.clone()).unwrap();
    let need = spread.symbols();
    let mut frames: Vec<Vec<u8>> = (0..u32::try_from(need * 2).unwrap()).map(|n| spread.frame(n)).collect();
    for at in (1..frames.len()).rev() {
        frames.swap(at, usize::try_from(draw.below(at as u64 + 1)).unwrap());
    }
    let mut gather = Gather::new();
    let mut have_before = 0;
    for frame in &frames {
        let mut damaged = frame.clone();
        let at = usize::try_from(draw.below(damaged.len() as u64)).unwrap();
        damaged[at] ^= 1 << draw.below(8);
        assert!(gather.take(&damaged).is_err());
        assert_eq!(gather.take(b"WIFI:S:trailhead;;"), Err(NotOurs::Foreign));
        match gather.take(frame).unwrap() {
            Taken::More { have, need: n } => {
                assert_eq!((have, n), (have_before + 1, need));
                have_before = have;
                assert_eq!(gather.take(frame), Ok(Taken::Nothing { have, need }), "the same again");
            }
            Taken::Nothing { have, .. } => assert_eq!(have, have_before),
            Taken::Whole(bytes) => return assert_eq!(bytes, file),
            Taken::False => panic!("no false frame was shown"),
        }
    }
    panic!("not whole after two passes");
}

#[test]
fn two_senders_side_by_side_are_kept_apart() {
    let mut draw = Draw(5);
    let files = [draw.bytes(9_000), draw.bytes(9_000)];
    let senders = files.clone().map(|file| Spread::new(file).unwrap());
    let mut gather = Gather::new();
    let mut came = Vec::new();
    for number in 0..200 {
        for sender in &senders {
            if let Taken::Whole(bytes) = gather.take(&sender.frame(number)).unwrap() {
                came.push(bytes);
            }
        }
        if came.len() >= 2 {
            break;
        }
    }
    assert_eq!(came[..2], files);
}

#[test]
fn what_was_put_together_from_a_false_frame_is_not_given_out() {
    let file = vec![7_u8; 3 * SYMBOL_BYTES];
    let spread = Spread::new(file.clone()).unwrap();
    let mut forged = Frame::read(&spread.frame(1)).unwrap();
    forged.symbol[5] ^= 1;
    let mut gather = Gather::new();
    gather.take(&spread.frame(0)).unwrap();
    gather.take(&forged.write()).unwrap();
    assert_eq!(gather.take(&spread.frame(2)), Ok(Taken::False));
    // All of it is dropped, and the next pass brings the file.
    gather.take(&spread.frame(0)).unwrap();
    gather.take(&spread.frame(1)).unwrap();
    assert_eq!(gather.take(&spread.frame(2)), Ok(Taken::Whole(file)));
}

#[test]
fn memory_is_bounded_and_what_is_too_large_is_refused() {
    assert!(Spread::new(Vec::new()).is_err());
    assert_eq!(Spread::new(vec![0; MOST_BYTES + 1]).err(), Some(super::super::TooLarge(MOST_BYTES + 1)));
    let mut gather = Gather::new();
    for n in 0..50_u8 {
        let spread = Spread::new(vec![n; 5_000]).unwrap();
        gather.take(&spread.frame(0)).unwrap();
        assert!(gather.files.len() <= FILES);
    }
    assert_eq!(Spread::new(vec![1; MOST_BYTES]).unwrap().symbols(), MOST_BYTES.div_ceil(SYMBOL_BYTES));
    let mut draw = Draw(9);
    let file = draw.bytes(200_000);
    let (came, read) = take(&file, 700, 0, &mut draw);
    assert_eq!(came, file);
    assert!(read < file.len().div_ceil(SYMBOL_BYTES) + 20, "{read}");
}
