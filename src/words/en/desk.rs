//! The office's page.

pub(super) const TEXTS: &[(&str, &str)] = &[
    ("desk.title", "Marrowbook office"),
    (
        "desk.what",
        "Opens what crews hand over, keeps it in your archive, and works the figures out from it. Everything stays on \
         this computer: nothing is sent.",
    ),
    ("desk.pick", "Pick bundles and photos, or drop them here"),
    ("desk.pick_ring", "Only to look: pick a keyring without its archive (keyring.txt)"),
    ("desk.ring.none", "There is no keyring here, so every phone counts as not enrolled."),
    (
        "desk.ring.key_missing",
        "The keyring of this archive was signed by the key with these words: {words}. That key's file is not in the \
         archive, so every phone counts as not enrolled: load office-key.json under Archive and key.",
    ),
    (
        "desk.ring.plain",
        "Keyring with {n} {n?phone|phones}, not signed: whoever could change that file could enrol a phone.",
    ),
    (
        "desk.ring.signed",
        "Keyring with {n} {n?phone|phones}, signed by the key with these words: {words}. Use it only if these are the \
         words of your office key.",
    ),
    ("desk.ring.refused", "That keyring was not taken: {reason}. The one before stays in use."),
    ("desk.ring.too_large", "the file is too large for a keyring"),
    ("desk.too_large", "the file is larger than {most} MB, the most that is read here"),
    ("desk.not_handed", "Not handed to the browser: {reason}. Try once more."),
    ("desk.sum.none", "No file was picked yet."),
    (
        "desk.sum",
        "{files} {files?file|files}: {intact} intact and enrolled, {unknown} from phones not enrolled, {damaged} \
         damaged or altered, {newer} of a newer version.",
    ),
    ("desk.sum.photos", "Photos: {good} as signed, {stray} that no bundle here names."),
    ("desk.outcome.intact", "Intact and enrolled"),
    ("desk.outcome.unknown", "Intact, phone not enrolled"),
    ("desk.outcome.damaged", "Damaged or altered"),
    ("desk.outcome.newer", "Made by a newer version"),
    ("desk.next", "What to do: {next}"),
    ("desk.unread", "The browser could not read this file: {reason}. Pick it again."),
    ("desk.carcasses", "{n} {n?carcass|carcasses}"),
    (
        "desk.recomputed",
        "Worked out anew from all intact files of enrolled phones together, with this archive's newest local card in \
         force. Damaged files are left out.",
    ),
    ("desk.looked", "To look at only: {n} {n?carcass|carcasses} of phones not enrolled"),
    ("desk.looked.what", "They count in no figure until their phones are enrolled (under Phones)."),
    ("desk.kept.new", "Kept in the archive as received."),
    ("desk.kept.before", "No news: it lay in the archive already."),
    ("desk.kept.not", "Not kept in the archive."),
    (
        "desk.missing",
        "{n} {n?photo is|photos are} named and not received. Ask the crews; they are matched when they come.",
    ),
    ("desk.missing.line", "{digest} (named by {label})"),
    ("desk.ring.archive", "Keyring of this archive with {n} {n?phone|phones}, signed by its office key: {words}"),
    ("desk.card_bad", "A card of the archive cannot be used: {reason}"),
    ("desk.nav", "Parts of this page"),
    ("desk.nav.files", "Files"),
    ("desk.nav.archive", "Archive and key"),
    ("desk.nav.phones", "Phones"),
    ("desk.nav.card", "Local card"),
    ("desk.carcass", "Carcass {code}, {n} {n?examination|examinations}"),
    ("desk.all_readings", "All readings with figures, cautions and sources"),
    ("desk.found_at", "Found {day}, at {place}"),
    ("desk.found_on", "Found {day}, no place given"),
    ("desk.found_place", "At {place}, day not known"),
    ("desk.phone.none", "The phone sent no readings to compare."),
    ("desk.phone.agrees", "The phone showed the same figures, to the last digit."),
    ("desk.phone.differs", "The phone showed other figures ({method}): {why}"),
    ("desk.phone.other_entries", "it did not have the same answers."),
    ("desk.phone.other_science", "it had another version of the methods."),
    ("desk.phone.card_not_here", "it had a local card that this page does not have; office read takes cards."),
    ("desk.phone.other_table", "its card had another evidence table."),
    ("desk.phone.other_card", "it had another local card in force, or none."),
    ("desk.phone.unexplained", "nothing here explains it. Keep the file and report it."),
    ("desk.phone.unknown_form", "its figures are of a form not known here."),
    ("desk.adrift", "{n} {n?examination names|examinations name} no carcass, so {n?it has|they have} no readings yet."),
    ("desk.set_aside", "Entry {seq} is set aside: {reason}."),
];
