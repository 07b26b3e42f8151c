//! Photos: which are asked for and in what order, which may be deleted, and when room runs short.
//!
//! What snow and wind take first is taken first; then the whole before the part (reference
//! `cause-and-time-of-death.md` 6.2, `[EJ]`). An evidence record has photos of its own.

use crate::record::{Answer, PHOTO_DELETED, Photo, Site, Value, Why};
use crate::words::{Language, raw};

use super::steps::STEPS;
use super::{Ask, Draft, Input, View};

/// Numbers of the photos on the list, in the order in which they are asked for.
pub(crate) const LIST: &[u16] = &[31, 32, 33, 34, 35, 36, 37, 38];

/// The four sides among them.
pub(crate) const SIDES: [u16; 4] = [32, 33, 34, 35];

/// Until so many milliseconds after the camera was opened a page that comes back goes straight to the photo's
/// question. After that the crew has been elsewhere, and is shown where the visit stood. The project's own, no source.
pub const BACK_TO_CAMERA_MS: u64 = 20 * 60 * 1000;

/// What a photo is taken to need, in bytes, for the count of those that still fit: on the safe side for a JPEG of 1600
/// pixels. The project's own, no source.
pub const PHOTO_BYTES: u64 = 700_000;

/// Below so many photos of room the form says so.
pub const ROOM_LOW: u64 = 60;

/// Pixels above which a picture is not taken in: unpacked, it would fill a small phone's memory (4 bytes a pixel).
pub const MOST_PIXELS: u64 = 120_000_000;

/// Why a photo may not be deleted.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum NoDelete {
    /// It belongs to an evidence record: originals are kept and never deleted.
    Evidence,
}

/// Whether the photos of an examination may be deleted. A deletion leaves its trace: number, digest, length, who, when.
///
/// # Errors
/// Why not.
pub const fn may_delete(evidence_record: bool) -> Result<(), NoDelete> {
    if evidence_record { Err(NoDelete::Evidence) } else { Ok(()) }
}

/// The trace of a deletion.
pub fn deleted(photo: Photo, site: Site) -> Draft {
    Draft { finding: PHOTO_DELETED, site, answer: Answer::Seen { value: Value::Photo(photo) }, step: PHOTO_DELETED }
}

/// The body was photographed with another camera: the list is left out, and the office knows that there are photos.
pub fn other_camera(view: &View, list: &Ask) -> Vec<Draft> {
    let there = Answer::choice("there");
    let said = Draft { finding: "scene_photographed", site: Site::NONE, answer: there, step: "scene_photographed" };
    let mut drafts = list.fill(view, &Answer::NotLooked { why: Why::NotGiven });
    drafts.push(said);
    drafts
}

/// How many more photos fit.
pub const fn room_for(used_bytes: u64, quota_bytes: u64) -> u64 {
    quota_bytes.saturating_sub(used_bytes) / PHOTO_BYTES
}

/// What a photo shows, in words: of a report, or by its number. Empty for a number that is not known here.
pub fn photo_words(language: Language, finding: &str, number: u16) -> String {
    let id = if finding == "report_photo" { "photo.of_report".to_owned() } else { format!("photo.item.{number}") };
    raw(language, &id).unwrap_or_default().to_owned()
}

/// A step that asks for photos: its id and the finding that it writes.
pub fn photo_step(id: &str) -> Option<(&'static str, &'static str)> {
    let all = STEPS.iter().flat_map(|part| part.iter());
    all.filter(|row| row.id == id).find_map(|row| match row.input {
        Input::Photo(finding) | Input::Photos { finding, .. } => Some((row.id, finding)),
        _ => None,
    })
}

/// Photos that stand at a number.
pub fn count_at(view: &View, finding: &str, site: Site) -> usize {
    let standing = view.question(finding, site).standing;
    standing.into_iter().filter(|s| matches!(s.answer, Answer::Seen { value: Value::Photo(_) })).count()
}

#[cfg(test)]
mod tests {
    use std::collections::BTreeSet;

    use super::*;

    #[test]
    fn every_photo_that_a_step_asks_for_has_words_of_its_own() {
        // The scene, jaw, marrow; an evidence record's; those that an officer asks for; the list.
        let all: Vec<u16> = (1..=3).chain(11..=16).chain(21..=29).chain(LIST.iter().copied()).collect();
        let mut told = BTreeSet::new();
        for number in all {
            let text = photo_words(Language::English, "photo", number);
            assert!((3..=36).contains(&text.chars().count()), "{number}: {text}");
            assert!(told.insert(text), "{number} says what another says");
        }
        assert_eq!(photo_words(Language::English, "photo", 9_999), "");
        assert!(told.insert(photo_words(Language::English, "report_photo", 1)));
        assert!(SIDES.iter().all(|side| LIST.contains(side)));
    }

    #[test]
    fn tracks_come_before_the_body_and_the_whole_before_the_wound() {
        // Reference `cause-and-time-of-death.md` 6.2: most fragile items first [S85b]; overview, mid-range, close-up
        // [S85a]; each wound without scale, then with it.
        let at = |text: &str| {
            LIST.iter().position(|n| photo_words(Language::English, "photo", *n).to_lowercase().contains(text)).unwrap()
        };
        assert_eq!(at("tracks"), 0);
        assert!(at("north") < at("head") && at("head") < at("wound"));
        let wounds: Vec<String> = LIST
            .iter()
            .map(|n| photo_words(Language::English, "photo", *n))
            .filter(|t| t.to_lowercase().contains("wound"))
            .collect();
        assert_eq!(wounds.len(), 2);
        assert!(!wounds[0].contains("scale") && wounds[1].contains("scale"), "{wounds:?}");
    }

    #[test]
    fn steps_with_photos_name_their_finding() {
        assert_eq!(photo_step("photos"), Some(("photos", "photo")));
        assert_eq!(photo_step("photo_scene"), Some(("photo_scene", "photo")));
        assert_eq!(photo_step("report_photo"), Some(("report_photo", "report_photo")));
        assert_eq!(photo_step("snow_depth"), None);
    }

    #[test]
    fn evidence_is_never_deleted_and_room_is_counted_down_to_none() {
        assert_eq!(may_delete(true), Err(NoDelete::Evidence));
        assert_eq!(may_delete(false), Ok(()));
        assert_eq!(room_for(0, 7_000_000), 10);
        assert_eq!(room_for(8_000_000, 7_000_000), 0);
    }
}
