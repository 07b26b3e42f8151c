//! Photos: the list, the camera that closed the page, deleting, room.

use super::steps::steps;

pub(super) const STEPS: &[(&str, &str)] = steps! {
    "photos" {
        "Take these photos now, one tap each."
        "Snow and wind take the tracks first."
        "From 5 to 10 m off, scale in sight. Touch nothing."
    }
};

pub(super) const TEXTS: &[(&str, &str)] = &[
    ("photo.item.1", "The whole place"),
    ("photo.item.2", "Teeth of the lower jaw"),
    ("photo.item.3", "Marrow"),
    ("photo.item.11", "Card with code and date"),
    ("photo.item.12", "Tracks in sight"),
    ("photo.item.13", "All of it, from where you stood"),
    ("photo.item.14", "Body, nearer by zoom"),
    ("photo.item.15", "The sign itself, by zoom"),
    ("photo.item.16", "Back along the way in"),
    ("photo.item.21", "For the officer: from the north"),
    ("photo.item.22", "For the officer: from the east"),
    ("photo.item.23", "For the officer: from the south"),
    ("photo.item.24", "For the officer: from the west"),
    ("photo.item.25", "For the officer: both sides"),
    ("photo.item.26", "For the officer: head and feet"),
    ("photo.item.27", "For the officer: wounds"),
    ("photo.item.28", "For the officer: wounds with scale"),
    ("photo.item.29", "For the officer: wall of snow"),
    ("photo.of_report", "Picture of the report"),
    ("photo.item.31", "Tracks, with scale"),
    ("photo.item.32", "From the north"),
    ("photo.item.33", "From the east"),
    ("photo.item.34", "From the south"),
    ("photo.item.35", "From the west"),
    ("photo.item.36", "Head, as it lies"),
    ("photo.item.37", "A wound, as it is"),
    ("photo.item.38", "The same wound, with scale"),
    ("photo.from_pictures", "From this phone's pictures"),
    ("photo.other_camera", "Taken with another camera"),
    ("photo.go_on", "Go on"),
    ("photo.go_on_without", "Go on, without the other {n}"),
    ("photo.go_on_none", "Go on without photos"),
    ("photo.all", "Photos"),
    ("photo.all_count", "Photos: {n}"),
    ("photo.lost", "The phone closed this page while the camera was open. The picture never came back: take it again."),
    ("photo.lost_elsewhere", "A picture was not handed back by the camera: {what}. Take it again if you can."),
    ("photo.kept_after_all", "The page was closed in between. The picture is kept: {what}."),
    (
        "photo.full",
        "No room for this photo. Nothing of it was kept; all answers are safe. Free room on the phone, or hand over and \
         delete photos; then take it again.",
    ),
    ("photo.not_kept", "The photo was not kept: {reason}. All answers are safe. Take it again, or take No answer."),
    ("photo.no_picture", "That file is no picture. Take a photo, or choose another."),
    (
        "photo.heic",
        "This browser cannot read HEIC pictures. Take the photo here, or set the phone's camera to JPEG (most compatible).",
    ),
    ("photo.broken", "That picture is damaged: this browser cannot read it. Take it again, or choose another."),
    (
        "photo.too_large",
        "That picture is too large for this phone ({n} megapixels). Take it here, or choose a smaller one.",
    ),
    (
        "photo.no_canvas",
        "This phone could not make the picture smaller: too little memory. Close other pages, then try again.",
    ),
    // The photos of one carcass.
    ("photos.head", "Photos of this carcass"),
    ("photos.none", "No photo of this carcass is on this phone."),
    ("photos.taken_back", "Taken back."),
    ("photos.deleted", "Deleted. Its number and digest stay in the record."),
    ("photos.not_here", "Not on this phone any more."),
    ("photos.of", "{kb} kB, by {who}, {at}"),
    ("photos.number", "Digest {digest}"),
    ("photos.delete", "Delete"),
    ("photos.delete_sure", "Delete for good: {what}? The picture goes; that it was here, and its digest, stay."),
    ("photos.delete_yes", "Delete it"),
    ("photos.delete_no", "Keep it"),
    ("photos.evidence", "Photos of an evidence record are never deleted. Keep the camera's own files as well."),
    ("photos.here", "{n} {n?photo|photos} on this phone. With the records: {mb} MB."),
    ("photos.room", "Room for {n} more or so ({used} of {quota} MB used)."),
    ("photos.room_low", "Little room: about {n} more {n?photo|photos}. Free room on the phone, or hand over soon."),
    ("photos.room_unknown", "This browser does not say how much room is left."),
    ("photos.persisted", "The browser has promised not to clear the records by itself."),
    ("photos.not_persisted", "The browser may clear the records when the phone runs short. Hand over soon."),
    ("photos.page", "More photos ({page} of {pages})"),
    ("saved.photo", "Photo"),
    ("saved.photo_deleted", "Photo deleted"),
    ("hand_over.share_with", "Share the file and {n} {n?photo|photos}"),
    ("hand_over.share_more", "Share the next {n} {n?photo|photos} ({from} to {to} of {all})"),
    ("hand_over.shared_part", "Shared. {n} {n?photo|photos} to go: share again."),
    ("hand_over.download_with", "Save the file and {n} {n?photo|photos}"),
];
