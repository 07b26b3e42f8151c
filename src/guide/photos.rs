//! Photos: which are asked for and in what order, which may be deleted, and when room runs short.
//!
//! What snow and wind take first is taken first; then the whole before the part (reference
//! `cause-and-time-of-death.md` 6.2, `[EJ]`). An evidence record has photos of its own.

use crate::record::{Answer, PHOTO_DELETED, Photo, Site, Value, Why};
use crate::words::{Language, say};

use super::steps::STEPS;
use super::{Ask, Draft, Input, View};

/// Numbers of the photos on the list, in the order in which they are asked for.
pub(crate) const LIST: &[u16] = &[31, 32, 33, 34, 35, 36, 37, 38];

/// The four sides among them.
pub(crate) const SIDES: [u16; 4] = [32, 33, 34, 35];

/// Photos with a step of their own, by number.
const ALONE: &[(u16, &str)] = &[
    (1, "photo_scene"),
    (2, "photo_jaw"),
    (3, "photo_marrow"),
    (11, "ev_label"),
    (12, "ev_tracks"),
    (13, "ev_overview"),
    (14, "ev_middle"),
    (15, "ev_close"),
    (16, "ev_way_in"),
    (21, "ev_north"),
    (22, "ev_east"),
    (23, "ev_south"),
    (24, "ev_west"),
    (25, "ev_both_sides"),
    (26, "ev_head_feet"),
    (27, "ev_wounds"),
    (28, "ev_wounds_scale"),
    (29, "ev_snow_wall"),
];

/// Until so many milliseconds after the camera was opened a page that comes back goes straight to the photo's
/// question. After that the crew has been elsewhere, and is shown where the visit stood. The project's own, no source.
pub const BACK_TO_CAMERA_MS: u64 = 20 * 60 * 1000;

/// What a photo takes at most, in bytes, for the count of those that still fit. Measured on pictures of snow scenes
/// at 1600 pixels: 150 to 700 kB.
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

/// What a photo's number stands for, in words; empty for a number that is not known here.
pub fn photo_words(language: Language, number: u16) -> String {
    if LIST.contains(&number) {
        return say(language, &format!("photo.item.{number}"), &[]);
    }
    let alone = ALONE.iter().find(|(n, _)| *n == number);
    alone.map(|(_, step)| say(language, &format!("step.{step}.ask"), &[])).unwrap_or_default()
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
    use crate::words::raw;

    #[test]
    fn every_photo_that_a_step_asks_for_has_words_of_its_own() {
        let all: Vec<u16> = LIST.iter().copied().chain(ALONE.iter().map(|(n, _)| *n)).collect();
        assert_eq!(all.iter().collect::<BTreeSet<_>>().len(), all.len(), "a number stands twice");
        let mut told = BTreeSet::new();
        for number in all {
            let id = match ALONE.iter().find(|(n, _)| *n == number) {
                Some((_, step)) => format!("step.{step}.ask"),
                None => format!("photo.item.{number}"),
            };
            let text = raw(Language::English, &id).unwrap_or_else(|| panic!("no text {id}"));
            assert!(text.chars().count() <= 60, "{text}");
            assert!(told.insert(text), "{text} says two things");
            assert_eq!(photo_words(Language::English, number), text);
        }
        assert_eq!(photo_words(Language::English, 9_999), "");
        assert!(SIDES.iter().all(|side| LIST.contains(side)));
    }

    #[test]
    fn tracks_come_before_the_body_and_the_whole_before_the_wound() {
        // Reference `cause-and-time-of-death.md` 6.2: most fragile items first [S85b]; overview, mid-range, close-up
        // [S85a]; each wound without scale, then with it.
        let at = |text: &str| {
            LIST.iter().position(|n| photo_words(Language::English, *n).to_lowercase().contains(text)).unwrap()
        };
        assert_eq!(at("tracks"), 0);
        assert!(at("north") < at("head") && at("head") < at("wound"));
        let wounds: Vec<String> = LIST
            .iter()
            .map(|n| photo_words(Language::English, *n))
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
