//! Which symbols a frame mixes, by its number alone.

use super::frame::FileName;

/// Words of 64 bits that hold one bit a symbol.
pub(super) const fn words(symbols: usize) -> usize {
    symbols.div_ceil(64)
}

/// The symbols mixed into a frame, one bit each, the first in the lowest bit of the first word. The frames below
/// `n` carry one symbol each. The others: word `w` of frame `i` is SplitMix64 (Steele, Lea and Flood 2014,
/// doi:10.1145/2660193.2660195) of `i * 4096 + w`; the bits beyond the last symbol are cleared.
pub(super) fn mixed(file: &FileName, number: u32) -> Vec<u64> {
    let symbols = file.symbols();
    let mut mask = vec![0_u64; words(symbols)];
    if (number as usize) < symbols {
        if let Some(word) = mask.get_mut(number as usize / 64) {
            *word = 1 << (number % 64);
        }
        return mask;
    }
    for (place, word) in (0_u64..).zip(&mut mask) {
        *word = splitmix64(u64::from(number) * 4096 + place);
    }
    if let Some(last) = mask.last_mut()
        && !symbols.is_multiple_of(64)
    {
        *last &= (1 << (symbols % 64)) - 1;
    }
    mask
}

/// One output of SplitMix64 whose state before it was `state`.
fn splitmix64(state: u64) -> u64 {
    let z = state.wrapping_add(0x9e37_79b9_7f4a_7c15);
    let z = (z ^ (z >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
    let z = (z ^ (z >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
    z ^ (z >> 31)
}

/// `into ^= with`, byte by byte.
pub(super) fn add(into: &mut [u8], with: &[u8]) {
    into.iter_mut().zip(with).for_each(|(a, b)| *a ^= b);
}

#[cfg(test)]
mod tests {
    use super::*;

    /// The first outputs from the state 1234567, as printed with the reference code's Java twin
    /// (java.util.SplittableRandom's mixing; Rosetta Code "Pseudo-random numbers/Splitmix64").
    #[test]
    fn published_outputs() {
        let step = 0x9e37_79b9_7f4a_7c15_u64;
        let outputs: Vec<u64> = (0..3).map(|i| splitmix64(1_234_567_u64.wrapping_add(step.wrapping_mul(i)))).collect();
        assert_eq!(outputs, [6_457_827_717_110_365_317, 3_203_168_211_198_807_973, 9_817_491_932_198_370_423]);
    }

    #[test]
    fn no_bit_beyond_the_last_symbol() {
        let file = FileName { digest: [0; 8], bytes: 70 * super::super::SYMBOL_BYTES };
        for number in [0, 69, 70, 5000] {
            let mask = mixed(&file, number);
            assert_eq!(mask.len(), 2);
            assert_eq!(mask[1] >> 6, 0);
        }
        assert_eq!(mixed(&file, 69), [0, 1 << 5]);
    }
}
