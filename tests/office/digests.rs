//! Committed digests of what the program writes.

use std::collections::BTreeMap;
use std::fs;
use std::path::Path;

use marrowbook::record::Digest;

/// The committed digests are those of these files. With `MARROWBOOK_WRITE_DIGESTS=1` they are written anew, after a
/// deliberate change.
pub(crate) fn committed(list: &str, files: &BTreeMap<String, Vec<u8>>) {
    let lines: Vec<String> = files.iter().map(|(name, bytes)| format!("{}  {name}\n", hex(bytes))).collect();
    let lines = lines.concat();
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join(list);
    if std::env::var_os("MARROWBOOK_WRITE_DIGESTS").is_some() {
        fs::write(&path, &lines).unwrap();
    }
    let before = fs::read_to_string(&path).unwrap_or_default();
    let differing: Vec<&str> = lines.lines().filter(|line| !before.lines().any(|known| known == *line)).collect();
    assert!(
        before == lines,
        "{list} is not what the program writes; if it was meant, once more with MARROWBOOK_WRITE_DIGESTS=1: {differing:#?}"
    );
}

/// SHA-256 as `sha256sum` prints it.
pub(crate) fn hex(bytes: &[u8]) -> String {
    let bytes: Vec<String> = Digest::of(&[bytes]).0.iter().map(|byte| format!("{byte:02x}")).collect();
    bytes.concat()
}
