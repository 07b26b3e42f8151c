//! The finding table: everything that can be asked, by part of the visit.

mod again;
mod body;
mod confirm;
mod evidence;
mod fat;
mod death;
mod jaw;
mod kill_record;
mod lab;
mod marrow;
mod measures;
mod office;
mod outing;
mod people;
mod photos;
mod reports;
mod route;
mod rumen;
mod scene;
mod search;
mod signs;
mod tracks;
mod sketch;
mod snow;
mod winter;
mod work;

use std::collections::HashMap;
use std::sync::OnceLock;

pub use office::OFFICE_FINDINGS;
pub use photos::PHOTO_DELETED;
pub use reports::REPORT_CALL_BACK;

use super::FindingDef;

/// All findings, in groups.
pub const FINDINGS: &[&[FindingDef]] = &[
    outing::FINDINGS,
    people::FINDINGS,
    photos::FINDINGS,
    reports::FINDINGS,
    route::FINDINGS,
    scene::FINDINGS,
    body::FINDINGS,
    jaw::FINDINGS,
    marrow::FINDINGS,
    fat::FINDINGS,
    measures::FINDINGS,
    lab::FINDINGS,
    kill_record::FINDINGS,
    death::FINDINGS,
    work::FINDINGS,
    signs::FINDINGS,
    evidence::FINDINGS,
    tracks::FINDINGS,
    confirm::FINDINGS,
    confirm::REOPENED,
    winter::FINDINGS,
    rumen::FINDINGS,
    snow::FINDINGS,
    again::FINDINGS,
    search::FINDINGS,
    sketch::FINDINGS,
];

/// The definition of a finding by its code. Asked hundreds of times for one screen: looked up, not
/// searched for.
pub fn find(code: &str) -> Option<&'static FindingDef> {
    static BY_CODE: OnceLock<HashMap<&'static str, &'static FindingDef>> = OnceLock::new();
    BY_CODE.get_or_init(|| all().map(|def| (def.code, def)).collect()).get(code).copied()
}

/// The definition of a finding that only the office writes. In a page [`find`] lacks these, so that the form does not
/// carry their table: what both pages of the office and its command line judge by has to ask here first.
pub fn find_office(code: &str) -> Option<&'static FindingDef> {
    OFFICE_FINDINGS.iter().find(|def| def.code == code)
}

#[cfg(target_arch = "wasm32")]
fn all() -> impl Iterator<Item = &'static FindingDef> {
    FINDINGS.iter().flat_map(|group| group.iter())
}

/// The office's own too: the command line alone writes them.
#[cfg(not(target_arch = "wasm32"))]
fn all() -> impl Iterator<Item = &'static FindingDef> {
    FINDINGS.iter().flat_map(|group| group.iter()).chain(OFFICE_FINDINGS)
}

#[cfg(test)]
mod tests {
    use std::collections::BTreeSet;

    use super::*;
    use crate::record::Shape;

    #[test]
    fn codes_are_unique_and_plain() {
        let mut seen = BTreeSet::new();
        for def in all() {
            assert!(seen.insert(def.code), "{} stands twice", def.code);
            for word in [def.code].iter().chain(def.options()) {
                assert!(word.bytes().all(|b| b.is_ascii_lowercase() || b.is_ascii_digit() || b == b'_'), "{word}");
            }
        }
        assert!(seen.len() > 80);
    }

    #[test]
    fn measured_findings_say_their_unit_in_the_name() {
        for def in FINDINGS.iter().flat_map(|g| g.iter()) {
            if let Shape::Number { unit, min, max, .. } = def.shape {
                assert!(min <= max, "{}", def.code);
                let ending = match unit.symbol() {
                    "mm" => "_mm",
                    "cm" => "_cm",
                    "m" => "_m",
                    "g" => "_g",
                    "kg" => "_kg",
                    "\u{b0}C" => "_c",
                    "km/h" => "_km_h",
                    "\u{b0}" => "_deg",
                    "min" => "_min",
                    "ml" => "_ml",
                    "%" => "_percent",
                    _ => "_count",
                };
                assert!(def.code.ends_with(ending), "{} should end with {ending}", def.code);
            }
        }
    }
}
