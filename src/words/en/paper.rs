//! The paper twin; no phone carries these texts.

pub(super) const TEXTS: &[(&str, &str)] = &[
    ("paper.title", "Dead deer on snow: record on paper"),
    ("paper.protocol", "Protocol"),
    (
        "paper.head_lines",
        "Crew ________________ Date __________ Place ________________________ Carcass ______ Who wrote ________",
    ),
    (
        "paper.letters",
        "Tick what you saw. Leave blank what does not apply. Otherwise write a letter and the number of its reason: \
         X looked, not there; ? looked, cannot tell; N not looked; G eaten or gone. Reasons:",
    ),
    ("paper.stops", "Stop: touch nothing, step back, finish from a distance, call whom the local card names"),
    ("paper.not_there", "X ? N G __"),
    ("paper.date_time", "day, hour"),
    ("paper.place", "latitude, longitude or grid"),
    ("paper.done", "done"),
    ("paper.photo", "taken, number:"),
    ("paper.bench", "on the bench"),
    ("paper.each_side", "left / right:"),
    ("paper.each_tooth", "each tooth, left and right:"),
    ("paper.each_bone", "which bone, side:"),
    ("paper.each_item", "each, by number:"),
];
