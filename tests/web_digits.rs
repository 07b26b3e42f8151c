//! Phone and office print the same digits.
//!
//! The same sums run natively and in the browser's wasm. Every bit of every result goes into one digest
//! and both sides must come to the one written here; it was made by the native side (x86-64 Linux) and
//! says nothing about being right, which is the business of each method's own tests.

#![allow(clippy::unwrap_used, clippy::format_collect)]

use marrowbook::science::special::{beta_cdf, clopper_pearson, normal_cdf, normal_quantile, wilson};
use marrowbook::science::wind_chill::index_c;
use sha2::{Digest, Sha256};

#[cfg(target_arch = "wasm32")]
wasm_bindgen_test::wasm_bindgen_test_configure!(run_in_browser);

/// Digest over the bits of some thousands of results across each function's range.
fn digest_of_results() -> String {
    let mut bits = Vec::new();
    let mut put = |value: f64| bits.extend_from_slice(&value.to_bits().to_le_bytes());
    for step in -400..=400 {
        put(normal_cdf(f64::from(step) / 50.0));
    }
    for step in 1..1000 {
        put(normal_quantile(f64::from(step) / 1000.0).unwrap());
    }
    for step in 1..100 {
        for (a, b) in [(0.5, 0.5), (1.0, 3.5), (7.25, 2.0), (40.0, 61.0)] {
            put(beta_cdf(f64::from(step) / 100.0, a, b).unwrap());
        }
    }
    for n in 1..30 {
        for hits in 0..=n {
            for interval in [clopper_pearson(hits, n, 0.95).unwrap(), wilson(hits, n, 0.9).unwrap()] {
                put(interval.low);
                put(interval.high);
            }
        }
    }
    for wind in 5..100 {
        put(index_c(-15.0, f64::from(wind)).unwrap());
    }
    Sha256::digest(&bits).iter().map(|byte| format!("{byte:02x}")).collect()
}

#[cfg_attr(not(target_arch = "wasm32"), test)]
#[cfg_attr(target_arch = "wasm32", wasm_bindgen_test::wasm_bindgen_test)]
fn every_bit_is_the_same_in_the_browser() {
    // A method that changes changes this digest: take the new one from the native run.
    assert_eq!(digest_of_results(), "312e29068943458cf3b729b300954a9d350349e439b694075a46399087dd5803");
}
