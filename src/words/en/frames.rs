//! Handing over from phone to phone by codes on the screen, and labels of samples.

pub(super) const TEXTS: &[(&str, &str)] = &[
    ("frames.show", "Show to another phone"),
    (
        "frames.show_how",
        "On the other phone tap: Take from another phone. Its camera looks at this screen from a hand's length until it says that all has come. No signal is needed. Photos stay here.",
    ),
    ("frames.loading", "Getting ready …"),
    ("frames.gone", "It is not on this phone any more. Pick it from the list again."),
    (
        "frames.no_part",
        "This part of the form is not on this phone ({reason}). Open the form once where there is signal, or share a file.",
    ),
    ("frames.stop", "Stop"),
    ("frames.take", "Take from another phone"),
    ("frames.again", "Try again"),
    ("frames.another", "Take another"),
    (
        "frames.came",
        "All has come, and the signature is good. Kept on this phone; it goes along as a file of its own when this phone hands over.",
    ),
    ("frames.known", "All has come. It is the same as what was taken before: nothing new."),
    ("frames.own", "That is this phone's own record: nothing new."),
    ("frames.full", "No room for another: hand over what was taken before, then delete it here."),
    ("frames.only_shows", "Not kept: this page only shows. Take it in the tab that writes."),
    ("frames.refused", "Not taken. {reason} Let the other phone show it again, or share a file."),
    ("frames.not_kept", "It came, but could not be kept: {reason}. Leave it on the other phone."),
    ("frames.others", "From other phones"),
    ("frames.row", "From phone {phone}: {n} {n?carcass|carcasses}, made at {at}, {kb} kB"),
    ("frames.row_unread", "From another phone; cannot be read here. {reason} It is handed on as it is."),
    ("frames.delete", "Delete"),
    ("frames.delete_sure", "Has it arrived at the office? Deleted here, it does not come back."),
    ("frames.delete_no", "Keep it"),
    ("frames.delete_yes", "It has arrived: delete"),
    ("frames.deleted", "Deleted here."),
    ("frames.aside", "What was taken from other phones could not be read and was put aside ({name}). Tell the office."),
];
