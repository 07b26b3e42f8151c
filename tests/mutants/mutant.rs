//! Which mutant is on, put into a copy of the library by `tests/mutants/run`: none unless the environment names one.
//! Child processes inherit it. With a file named in `MARROWBOOK_MUTANT_SEEN` every number that is asked for goes there.

use std::cell::RefCell;
use std::collections::HashSet;
use std::fs::OpenOptions;
use std::io::Write;
use std::sync::LazyLock;

static ON: LazyLock<u32> =
    LazyLock::new(|| std::env::var("MARROWBOOK_MUTANT").ok().and_then(|text| text.parse().ok()).unwrap_or(0));
static SEEN: LazyLock<Option<String>> = LazyLock::new(|| std::env::var("MARROWBOOK_MUTANT_SEEN").ok());

thread_local! {
    static WRITTEN: RefCell<HashSet<u32>> = RefCell::new(HashSet::new());
}

/// Whether this mutant is the one.
pub fn is(id: u32) -> bool {
    if let Some(file) = &*SEEN {
        let new = WRITTEN.try_with(|written| written.borrow_mut().insert(id)).unwrap_or(true);
        if new {
            let mut file = OpenOptions::new().create(true).append(true).open(file).expect("the file of what was seen");
            file.write_all(format!("{id}\n").as_bytes()).expect("a line of what was seen");
        }
    }
    *ON == id
}
