//! Archive, office key and phones on the office's page.

pub(super) const TEXTS: &[(&str, &str)] = &[
    ("archive.page.head", "Archive"),
    (
        "archive.page.what",
        "One folder holds all that the office answers for: files as received, photos, keyring, cards, winter logs. \
         Everything else is worked out from it. The command line reads and writes the same folder.",
    ),
    ("archive.page.folder", "Open the archive folder, or an empty folder for a new one"),
    (
        "archive.page.no_folder",
        "This browser cannot open a folder. Open the archive as a zip, and save it as a zip at the end.",
    ),
    ("archive.page.zip", "Open an archive from a zip"),
    ("archive.page.save_zip", "Save the archive as a zip"),
    ("archive.page.in_folder", "Open: the folder {name}. What is done here is written there at once."),
    ("archive.page.in_zip", "Open: {name}."),
    ("archive.page.in_demo", "The invented season is open, in this page alone."),
    ("archive.page.in_page", "No archive is open: a new one was begun in this page. Open yours under Archive and key."),
    (
        "archive.page.unsaved",
        "{n} {n?file is|files are} not saved yet and would be lost with this page: open a folder or save a zip.",
    ),
    ("archive.page.saved", "Everything is saved."),
    ("archive.page.saving", "Writing into the folder \u{2026}"),
    ("archive.page.handed", "Handed to the browser as archive.zip. See among your downloads that it is there."),
    (
        "archive.page.handed_beside",
        "Handed to the browser as archive.zip. {n} {n?file is|files are} still not in the folder.",
    ),
    ("archive.page.again", "Write into the folder again"),
    ("archive.page.not_opened", "Not opened: {reason}. What was on this page stays."),
    ("archive.page.not_written", "Not written into the folder: {reason}. It is still in this page; save it as a zip."),
    (
        "archive.page.changed_there",
        "another program changed {name} since it was opened here, and what was done here would undo that; save a zip, \
         open this page anew with the folder, and do there once more what was done to key and phones",
    ),
    (
        "archive.page.holds",
        "It holds {files} {files?file|files} as received, {photos} {photos?photo|photos}, {cards} {cards?card|cards}.",
    ),
    ("key.page.head", "Office key"),
    (
        "key.page.what",
        "The office signs cards and its keyring with it. Keep a copy of the file and the passphrase apart from each \
         other: without the passphrase nobody can open it again, and a new key means a new card for every phone.",
    ),
    (
        "key.page.ring",
        "The keyring that you picked knows {n}: {names}. With the office key this archive gets a keyring \
         of its own in its place.",
    ),
    (
        "key.page.ring.take",
        "Take {n?this phone|these phones} into it: they go on counting. Only if you know who made the keyring that you \
         picked: from then on the office key vouches for it",
    ),
    (
        "key.page.ring.leave",
        "Begin with an empty one, and enrol each phone under Phones: until then its files do not count",
    ),
    ("key.page.ring.choose", "Choose first what becomes of the phones of the keyring that you picked."),
    ("key.page.ring.more", "{names} and {n} more"),
    ("key.page.make", "Make an office key"),
    ("key.page.passphrase_new", "A passphrase: four or five unrelated words, at least 15 characters"),
    ("key.page.again", "The same again"),
    ("key.page.differ", "The two passphrases are not the same. Type both again."),
    ("key.page.load", "Load a key file that the office has (office-key.json)"),
    ("key.page.passphrase", "Passphrase of the office key"),
    ("key.page.open", "Open the key"),
    ("key.page.other", "Not this file: choose again"),
    ("key.page.close", "Close the key"),
    ("key.page.working", "Working: this takes some seconds \u{2026}"),
    ("key.page.opened", "The office key is open in this page until you close it."),
    ("key.page.locked", "This archive has an office key. Type its passphrase to sign with it."),
    (
        "key.page.locked_picked",
        "Type the passphrase of the key file that you picked: this archive has its office key from then on.",
    ),
    ("key.page.none", "This archive has no office key yet."),
    ("key.page.words", "Words of this key, which phones show when they load your card: {words}"),
    ("key.page.download", "Download a copy of the key file (office-key.json)"),
    (
        "key.page.wrong",
        "Not opened: {reason}. Check capitals and spaces, and whether it is the passphrase of this key.",
    ),
    ("key.page.failed", "Not done: {reason}."),
    ("phones.page.head", "Phones"),
    (
        "phones.page.what",
        "A phone counts once somebody of the office has compared the eight words with those on the phone's own \
         hand-over screen. Do it with the phone at hand, or read aloud over the telephone.",
    ),
    ("phones.page.unknown", "Not enrolled: {label}"),
    (
        "phones.page.unknown_retired",
        "Retired: {label}, which the office called {name}, from {since}. It made a file after that. Find out who has it \
         before you enrol it again.",
    ),
    ("phones.page.none", "No file came from a phone that is not enrolled."),
    ("phones.page.words", "Words of the key that signed: {words}"),
    ("phones.page.digits", "In digits: {digits}"),
    ("phones.page.name", "What the office calls this phone"),
    ("phones.page.same", "I compared them: the phone shows the same eight words"),
    ("phones.page.enrol", "Enrol this phone"),
    ("phones.page.not_compared", "Compare the words first, and tick that they are the same."),
    ("phones.page.enrolled", "Enrolled as {name}. Its files count now."),
    ("phones.page.on_ring", "On the keyring"),
    ("phones.page.ring_empty", "No phone in use is on the keyring."),
    ("phones.page.in_use", "{name}: enrolled {date}"),
    ("phones.page.retired", "{name}: enrolled {date}, retired {since}; what it made until then still counts"),
    ("phones.page.since", "Retired from (first day)"),
    ("phones.page.retire", "Retire {name}"),
    ("phones.page.retire_now", "Yes, retire {name}"),
    (
        "phones.page.stops",
        "From {date} on: {n} {n?file|files} that {name} made later {n?counts|count} now, and would count in no figure any \
         more. Is the day right?",
    ),
    ("phones.page.own", "This is the key that signs here. It is not retired."),
    ("phones.page.no_day", "Choose the day from which it is retired."),
    ("phones.page.now_retired", "{name} is retired. What it made before keeps its standing."),
    ("phones.page.refused", "Not done: {reason}."),
];
