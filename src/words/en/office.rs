//! What the office is told about files that were handed in.

pub(super) const TEXTS: &[(&str, &str)] = &[
    // Outcomes of opening, one line a file.
    ("office.open.intact", "intact and enrolled: from \"{label}\""),
    ("office.open.unknown", "intact, but from a device that is not enrolled"),
    ("office.open.retired", "intact, but made after \"{label}\" was retired on {date}"),
    ("office.open.damaged", "damaged or altered ({step}): {reason}"),
    ("office.open.newer", "made by a newer version: {reason}"),
    ("office.open.photo", "a photo named in {bundle}, as signed"),
    (
        "office.open.photo_stray",
        "a photo that no bundle here names: pick its bundle as well; if that is here, it was changed on its way: ask for it \
         again",
    ),
    ("office.open.passed_over", "{file}: passed over: neither a picture nor a text file"),
    ("office.sketch.none", "no scene sketch in these files"),
    ("office.sketch.no_place", "{name}: no position of the body; the GeoJSON gives metres from the body only"),
    (
        "office.sketch.no_declination",
        "{name}: bearings are as read, not turned to true north; give --declination where a compass needle was used",
    ),
    ("office.sketch.not_placed", "{name}: a mark hangs on one that was taken back, and is left out"),
    // What to do next.
    (
        "office.next.unknown",
        "Compare the fingerprint with the one on the phone's hand-over screen. If they read the same, enrol the phone: under \
         Phones on the office's page, or by office enrol FILE --words \"...\" --name NAME",
    ),
    (
        "office.next.retired",
        "Ask the crew how the phone came to write after it was retired. If it was found again, enrol it under a new \
         name.",
    ),
    ("office.next.newer", "Update this program, and keep the file: nothing in it is lost."),
    ("office.next.size", "This is no hand-over file of ours. Check that the right file was picked."),
    (
        "office.next.text",
        "If it is no file from a phone, pick the right one: a zip is unpacked first, and an archive in a zip is opened under \
         Archive and key. If it is, it was saved in another form on its way: ask for it again as an attachment, not as pasted \
         text.",
    ),
    (
        "office.next.envelope",
        "If it is from a phone, it was cut or changed on its way: ask the crew to hand over again; their phone still has \
         everything. If it is not, pick the right file.",
    ),
    (
        "office.next.header",
        "The file was changed on its way. Ask the crew to hand over again; their phone still has everything.",
    ),
    ("office.next.kind", "This is another kind of file. Check that the right file was picked."),
    (
        "office.next.key",
        "The name of the key was changed. Do not use the file; ask the crew to hand over again from their own phone.",
    ),
    (
        "office.next.signature",
        "Do not use the file. Ask the crew to hand over again; their phone still has everything.",
    ),
    (
        "office.next.content",
        "The phone signed something that is no bundle. Keep the file, and ask for the journal as raw text from the \
         phone's emergency page.",
    ),
    (
        "office.next.chain",
        "Keep the file, and do not use its entries. Ask for the journal as raw text from the phone's emergency page.",
    ),
    // Beneath the outcome.
    ("office.about.fingerprint", "fingerprint: {words}"),
    ("office.about.digits", "in digits: {digits}"),
    ("office.about.label", "the phone calls itself: {label}"),
    ("office.about.made", "made {date} by version {app}"),
    ("office.about.entries", "{count} {count?entry|entries}, numbers {first} to {last}"),
    ("office.about.withheld", "{count} {count?entry has|entries have} a withheld text"),
    (
        "office.about.adopted",
        "{count} {count?entry comes|entries come} from a chain whose key the phone has lost; only this bundle vouches \
         for {count?it|them}",
    ),
    ("office.about.photo_missing", "photo named in the bundle but not received: {digest}"),
    ("office.about.photo_deleted", "photo deleted on the phone, its trace kept: {digest}"),
    ("office.about.photo_here", "{count} {count?photo|photos} received as signed"),
    ("office.about.carried", "carried inside, from another phone: {outcome}"),
    ("office.about.fault", "set aside: {reason}"),
    ("office.about.repair.mark", "a byte order mark was taken off before reading"),
    ("office.about.repair.space", "white space round the text was taken off before reading"),
    ("office.about.repair.breaks", "line breaks that the way had put in were taken out before reading"),
];
