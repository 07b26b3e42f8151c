//! The invented season cut down, for a slow build.

use std::fs;
use std::path::Path;

use crate::written::written;

/// Leaves in its archive the gate's crew, the stranger and the office alone.
pub(crate) fn leave_few(season: &Path) {
    let few =
        ["gate by mail.txt", "found on the desk.txt"].map(|name| fs::read(season.join("files").join(name)).unwrap());
    let received = season.join("archive/received");
    for (name, bytes) in written(&received) {
        if !few.contains(&bytes) {
            fs::remove_file(received.join(name)).unwrap();
        }
    }
}
