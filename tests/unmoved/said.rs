//! Everything that the command line says of an archive.

use std::collections::BTreeMap;
use std::fs;
use std::path::Path;

use serde_json::Value as Json;

use crate::ran::Office;
use crate::written::written;

/// Output of every command that only looks, by name, and every file that one writes. So many carcasses get their report.
pub(crate) fn all(office: &Office, out: &Path, reports: usize) -> BTreeMap<String, Vec<u8>> {
    let mut all = BTreeMap::new();
    fs::create_dir_all(out).unwrap();
    let place = |name: &str| out.join(name).to_str().unwrap().to_owned();
    let mut run = |name: &str, args: &[&str]| {
        let ran = office.run(args);
        // Folders of this machine are no part of it.
        let plain =
            |text: &str| text.replace(out.to_str().unwrap(), "OUT").replace(office.folder.to_str().unwrap(), "ARCHIVE");
        let told = format!("exit {}\n{}\n{}", ran.code, plain(&ran.err), plain(&ran.out));
        fs::write(place(&format!("{}.txt", name.replace('/', "-"))), &told).unwrap();
        all.insert(format!("told/{name}"), told.into_bytes());
        ran
    };

    let mut files: Vec<String> =
        fs::read_dir(office.folder.join("received")).unwrap().map(|one| path(&one.unwrap().path())).collect();
    files.sort();
    let with = |head: &[&'static str]| -> Vec<String> {
        head.iter().map(|one| (*one).to_owned()).chain(files.iter().cloned()).collect()
    };
    let mut run_on = |name: &str, args: Vec<String>| run(name, &args.iter().map(String::as_str).collect::<Vec<_>>());
    let reading = run_on("read", with(&["read"])).out;
    run_on("open", with(&["open", "--json"]));
    run_on("diet", with(&["diet", "--json"]));
    let sketch = ["--out".to_owned(), place("sketch"), "--declination".to_owned(), "-3.5".to_owned()];
    run_on("sketch", [with(&["sketch"]), sketch.to_vec()].concat());
    for (name, args) in [
        ("phones", &["phones", "--json"][..]),
        ("lab-list", &["lab", "list", "--all"]),
        ("lab-list-json", &["lab", "list", "--all", "--json"]),
        ("calls", &["calls", "list"]),
        ("decide", &["decide", "list"]),
        ("reader", &["reader"]),
        ("reader-json", &["reader", "--json"]),
        ("labels", &["labels", "--out", &place("labels.html")]),
        ("winter", &["winter", "--json", "--us-units", "--svg", &place("winter.svg")]),
        ("season", &["season", "--json", "--out", &place("season")]),
        ("export", &["export", "--exact", "--names", "--out", &place("export")]),
        (
            "export-blurred",
            &["export", "--cell", "5000", "--present", "--winter", "2026", "--out", &place("export-blurred")],
        ),
    ] {
        run(name, args);
    }
    let mut read = BTreeMap::new();
    for (n, line) in reading.lines().enumerate() {
        let carcass: Json = serde_json::from_str(line).unwrap();
        if n < reports {
            let code = carcass["carcass"].as_str().unwrap();
            run(&format!("report/{n:02}"), &["report", code, "--out", &place(&format!("report-{n:02}.html"))]);
        }
        // By itself, so that it is seen which moved.
        read.insert(format!("read/{n:02}"), line.as_bytes().to_vec());
    }
    all.extend(read);
    all.extend(written(out).into_iter().filter(|(name, _)| !name.ends_with(".txt")));
    all
}

fn path(path: &Path) -> String {
    path.to_str().unwrap().to_owned()
}
