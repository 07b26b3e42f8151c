//! One program for all targets; the variable `MARROWBOOK_TARGET` says which.
#![no_main]

mod targets;

use std::sync::LazyLock;

static TARGET: LazyLock<fn(&[u8])> = LazyLock::new(|| {
    let name = std::env::var("MARROWBOOK_TARGET").unwrap_or_default();
    targets::by_name(&name).unwrap_or_else(|| {
        eprintln!("no target `{name}`; there are {}", targets::ALL.map(|(name, _)| name).join(", "));
        std::process::exit(2)
    })
});

libfuzzer_sys::fuzz_target!(|bytes: &[u8]| TARGET(bytes));
