//! What a full carcass takes in a bundle: the design's bound of 12 kB, photos aside, with every reading of a
//! closed record. A measure of the house, no outside source.
#![allow(clippy::expect_used, clippy::indexing_slicing)]

#[allow(dead_code)]
#[path = "bench/work.rs"]
mod work;

/// What each further carcass adds, and what the first takes with the envelope round it.
#[test]
fn a_full_carcass_takes_at_most_twelve_kilobytes() {
    let key = work::key();
    let size = |count| work::bundle_with_readings(&work::entries(count, &key), &key).len();
    let (one, eleven) = (size(1), size(11));
    let each = (eleven - one) / 10;
    println!("the first carcass {one} bytes, each further one {each} bytes");
    assert!(one <= 12_000, "{one} bytes");
    assert!(each <= 12_000, "{each} bytes");
}
