//! The office's rows: natively, on one core. Prints one JSON line a row; `tests/bench/run` shows them.
#![allow(clippy::expect_used, clippy::indexing_slicing, clippy::cast_possible_truncation, missing_docs)]

mod work;

use marrowbook::bundle::{Contents, DeviceKey, Kind, canonical, open};
use marrowbook::frames::{Gather, Spread, Taken, paint::picture, read::codes};
use marrowbook::reading::{self, Given};
use marrowbook::science::cause::{Cause, Drawn, Table, ends};
use marrowbook::science::special::beta_quantile;
use std::sync::OnceLock;
use std::time::Instant;

/// Seconds that this thread had of the processor, so that a machine that is busy with other things does not falsify
/// the row; where the system does not tell them, seconds on the clock. In steps of some milliseconds.
fn spent() -> f64 {
    static START: OnceLock<Instant> = OnceLock::new();
    let start = START.get_or_init(Instant::now);
    let told = std::fs::read_to_string("/proc/thread-self/schedstat").ok();
    let nanoseconds = told.as_deref().and_then(|text| text.split(' ').next()?.parse::<f64>().ok());
    nanoseconds.map_or_else(|| start.elapsed().as_secs_f64(), |ns| ns / 1e9)
}

/// What one of `times` runs takes, in seconds; the least of three goes.
fn seconds(times: usize, mut act: impl FnMut()) -> f64 {
    let go = |act: &mut dyn FnMut()| {
        let start = spent();
        (0..times).for_each(|_| act());
        (spent() - start) / times as f64
    };
    (0..3).map(|_| go(&mut act)).fold(f64::INFINITY, f64::min)
}

fn row(id: &str, value: f64) {
    println!("{{\"id\":\"{id}\",\"value\":{value:.3}}}");
}

fn main() {
    let key = work::key();
    let one = work::bundle_with_readings(&work::entries(1, &key), &key);
    row("carcass_size", one.len() as f64 / 1000.0);

    let many = work::bundle(&work::entries(1000, &key), &key);
    let took = seconds(2, || {
        let opened = open(many.as_bytes(), Kind::Bundle).expect("our own bundle opens");
        let contents = Contents::read(&opened).expect("our own bundle reads");
        assert!(contents.faults.is_empty() && contents.entries.len() > 40_000);
    });
    // Bytes of the file as it was handed in, which is smaller than what it unpacks to.
    row("office_open", many.len() as f64 / 1e6 / took);

    // All but the cause come with their interval or distribution; the cause's ranges are drawn.
    let folded = work::folded(&work::entries(200, &key));
    let took = seconds(5, || {
        for carcass in folded.carcasses.values() {
            std::hint::black_box(reading::all(carcass, &Given { without_cause: true, ..Given::default() }));
        }
    });
    row("office_readings", folded.carcasses.len() as f64 / took);

    // The table is drawn once for all carcasses: that time is a row of its own.
    // A table of its own: the shared one was drawn for the bundle above.
    let took = seconds(1, || {
        let drawn = Drawn::new(Table::built_in());
        let case = work::whole_case(drawn.table());
        std::hint::black_box(ends(&drawn, &case, &Cause::ALL));
    });
    row("office_draw_table_ms", took * 1000.0);
    let took = seconds(3, || {
        for carcass in folded.carcasses.values() {
            std::hint::black_box(reading::all(carcass, &Given::default()));
        }
    });
    row("office_intervals", folded.carcasses.len() as f64 / took);

    // The most that a carcass can ask for: every row answered.
    let drawn = Drawn::built_in();
    let whole = work::whole_case(drawn.table());
    std::hint::black_box(ends(drawn, &whole, &Cause::ALL));
    let took = seconds(101, || drop(std::hint::black_box(ends(drawn, &whole, &Cause::ALL[..3]))));
    row("office_intervals_whole", 1.0 / took);

    beside_others(&key);
    frames();
}

/// What `ratios.py` measures of general-purpose libraries, of the same bytes and numbers.
fn beside_others(key: &DeviceKey) {
    let message: Vec<u8> = (0..1024_u32).map(|n| (n.wrapping_mul(2_654_435_761) >> 24) as u8).collect();
    let (signature, public) = (key.sign(&message), key.public());
    row(
        "signed_per_s",
        1.0 / seconds(500, || {
            std::hint::black_box(key.sign(&message));
        }),
    );
    row("checked_per_s", 1.0 / seconds(500, || assert!(public.verifies(&message, &signature))));
    let many = work::bundle(&work::entries(200, key), key);
    let payload = open(many.as_bytes(), Kind::Bundle).expect("our own bundle opens").payload;
    if let Some(path) = std::env::var_os("MARROWBOOK_RATIOS") {
        std::fs::write(path, &payload).expect("a place for the text that others read too");
    }
    let took = seconds(5, || canonical::check(&payload).expect("our own form"));
    row("json_mb_s", payload.len() as f64 / 1e6 / took);
    let cases: Vec<(f64, f64, f64)> = (0..1000)
        .map(|n| (f64::from(n).mul_add(0.000_98, 0.01), f64::from(n % 30 + 1), f64::from(n % 17 + 1)))
        .collect();
    let took = seconds(5, || {
        for (p, a, b) in &cases {
            std::hint::black_box(beta_quantile(*p, *a, *b));
        }
    });
    row("beta_quantiles_per_s", cases.len() as f64 / took);
}

/// Hand-over by codes on the screen: what a look through the camera costs, and how long 100 kB take where three codes in
/// ten are missed, as fast as `public/parts/frames.js` shows them.
fn frames() {
    let each_s = each_ms() / 1000.0;
    // Its bytes do not matter: what is signed and packed looks like noise.
    let file: Vec<u8> = (0..100_000_u32).map(|n| (n.wrapping_mul(2_654_435_761) >> 24) as u8).collect();
    let spread = Spread::new(file).expect("a file that can be shown");
    // Nine pixels a module fill the square that is read.
    let (side, luma) = picture(&spread.frame(7), 9).expect("a frame fits");
    let took = seconds(20, || assert_eq!(codes(side, side, &luma).len(), 1));
    row("frames_read", 1.0 / took);
    let mut gather = Gather::new();
    let mut shown = 0_u32;
    for number in 0_u32.. {
        shown += 1;
        let missed = ((number.wrapping_mul(2_654_435_761) >> 16) & 1023) < 307;
        if !missed && matches!(gather.take(&spread.frame(number)), Ok(Taken::Whole(_))) {
            break;
        }
    }
    row("frames_100_kb_s", f64::from(shown) * each_s);
}

/// From code to code, as the page shows them.
fn each_ms() -> f64 {
    let script = include_str!("../../public/parts/frames.js");
    let rest = script.split_once("const EACH_MS = ").expect("frames.js says how fast codes follow each other").1;
    rest.split_once(';').expect("a statement").0.parse().expect("milliseconds")
}
