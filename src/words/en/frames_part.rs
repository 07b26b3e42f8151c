//! What the part for codes says by itself (`public/parts/frames.js`). No form carries it: the build writes a file of it
//! for each language beside the part.

pub(super) const TEXTS: &[(&str, &str)] = &[
    ("code", "Moving code for the other phone's camera"),
    ("passes", "Round {pass}, code {at} of {n}. {s} s so far; one round takes {all} s."),
    ("too_large", "{kb} kB is too much for this way. Share it or save it as a file."),
    (
        "take_how",
        "On the other phone tap: Hand over, then Show to another phone. Hold this phone so that the moving code fills most of the picture. Left midway, it begins anew.",
    ),
    ("opening", "Opening the camera …"),
    ("look", "Picture of this phone's camera"),
    ("bar", "How much has come"),
    ("search", "Looking for a code. Nearer, or farther; hold still; no glare on the other screen."),
    ("progress", "{have} of {need} codes have come."),
    ("foreign", "That is another code, not ours. Look at the moving code on the other phone."),
    ("version", "The other phone has another version of the form. Open both where there is signal, or share a file."),
    ("large", "What the other phone shows is too large for this way. Share a file."),
    ("false", "Something came wrong. It begins anew by itself: go on looking."),
    ("denied", "The camera is not allowed. Allow it for this page in the browser's settings, then try again."),
    ("no_camera", "There is no camera for this page. Let the other phone share a file."),
    ("lost", "The camera was taken away, perhaps by another program. Close that, then try again."),
    ("trouble", "The camera did not open: {reason}. Close other programs that use it, then try again."),
];
