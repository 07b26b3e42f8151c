//! What a run wrote.

use std::collections::BTreeMap;
use std::fs;
use std::path::Path;

/// Name, from the folder on, and bytes of every file below a folder.
pub(crate) fn written(folder: &Path) -> BTreeMap<String, Vec<u8>> {
    let mut out = BTreeMap::new();
    let mut open = vec![folder.to_owned()];
    while let Some(here) = open.pop() {
        for path in fs::read_dir(here).unwrap().map(|entry| entry.unwrap().path()) {
            if path.is_dir() {
                open.push(path);
            } else {
                let name = path.strip_prefix(folder).unwrap().to_str().unwrap().to_owned();
                out.insert(name, fs::read(path).unwrap());
            }
        }
    }
    out
}
