//! `office report`: the page on one carcass. All carcasses are invented. The rules are the project's own.
#![cfg(feature = "cli")]
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, clippy::indexing_slicing)]

#[path = "office/kit.rs"]
mod kit;
#[path = "office/ran.rs"]
mod ran;
#[path = "office/season_folder.rs"]
mod season_folder;

use std::fs;

use marrowbook::record::short_code::short_code;
use season_folder::{Archive, Deer, carcass};

#[test]
fn what_a_stranger_says_of_a_carcass_is_told_of_and_neither_joins_nor_uncounts_it() {
    let archive = Archive::new("report-joined");
    archive.keep("north.txt", &season_folder::bundle(&kit::phone(), "north", &[Deer::of(40)], &[]));
    // Joined, the lower id would be the carcass's: the stranger's own.
    let pair = [[carcass(1), carcass(40)]];
    let strange = [Deer::of(1), Deer::of(40)];
    archive.keep("strange.txt", &season_folder::bundle(&kit::stranger(), "strange", &strange, &pair));
    let page = |named: &str| {
        let out = archive.put("page.html", b"");
        let ran = archive.run(&["report", named, "--out", &out]);
        (ran.code, fs::read_to_string(out).unwrap(), ran.err)
    };
    let not_counted = "Only phones that are not enrolled tell of this carcass";
    for named in [carcass(40).to_string(), short_code(carcass(40))] {
        let (code, html, err) = page(&named);
        assert_eq!(code, 0, "{err}");
        assert!(html.contains(&format!("Id: {}", carcass(40))) && !html.contains(not_counted), "{html}");
        assert!(html.contains("by phones not enrolled"), "the stranger's entries are told of: {html}");
        assert!(!html.contains(&carcass(1).to_string()), "only the office joins: {html}");
    }
    let (code, html, err) = page(&carcass(1).to_string());
    assert!(code == 0 && html.contains(not_counted), "{err}");
    let (code, html, err) = page("ZZZZZZ");
    assert!(code != 0 && html.is_empty() && err.contains("ZZZZZZ"), "{err}");
}

#[test]
fn a_report_of_two_that_were_joined_names_both() {
    let archive = Archive::new("report-of-two");
    archive.keep("north.txt", &season_folder::bundle(&kit::phone(), "north", &[Deer::of(1), Deer::of(40)], &[]));
    let page = |n: u8| {
        let out = archive.put("page.html", b"");
        let ran = archive.run(&["report", &carcass(n).to_string(), "--out", &out]);
        assert_eq!(ran.code, 0, "{ran:?}");
        fs::read_to_string(out).unwrap()
    };
    assert!(!page(1).contains("Joined by the office"), "one animal is joined of nothing");
    let codes = [1, 40].map(|n| short_code(carcass(n)));
    assert_eq!(archive.run(&["decide", "same", &codes[0], &codes[1], "--by", "K7"]).code, 0);
    let both = format!("Joined by the office from: {}, {}", carcass(1), carcass(40));
    for n in [1, 40] {
        assert!(page(n).contains(&both), "{}", page(n));
    }
}
