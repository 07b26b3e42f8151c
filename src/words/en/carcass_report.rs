//! The report on one carcass, for paper.

pub(super) const TEXTS: &[(&str, &str)] = &[
    ("report.title", "Report on carcass {code}"),
    ("report.id", "Id: {id}"),
    ("report.joined", "Joined by the office from: {ids}"),
    ("report.made", "Worked out on {date} by version {app}, methods {science}"),
    ("report.card", "With local card {digest} in force"),
    ("report.no_card", "Without a local card"),
    ("report.not_counted", "Only phones that are not enrolled tell of this carcass. It counts in no figure."),
    ("report.photos", "Photos"),
    ("report.photo_missing", "Named and not received: {digest}"),
    ("report.photos.more", "{n} more {n?photo|photos} on the continuation sheets"),
    ("report.photos.others", "Other photos"),
    ("report.visit", "{kind}: {from} to {to}, by {who}"),
    ("report.read_by", "Read by (name, date, signature):"),
    ("report.sketch", "Scene, to scale"),
    ("report.readings", "Readings, by today's methods"),
    ("report.rests", "rests on answers {numbers}"),
    ("report.sources", "Sources of the readings, with how well each is supported"),
    ("report.phones", "What the phone said, against this"),
    ("report.history", "Continuation: every answer, in order of the phone's clock"),
    (
        "report.history.what",
        "An answer that was replaced or taken back is struck through and names what did it. Here stand the answers on \
         this carcass, changes of hands of what was taken from it, and decisions; answers on outings and reports are \
         not on this page.",
    ),
    ("report.not_shown.strange", "Not shown: {n} {n?entry|entries} on this carcass by phones not enrolled."),
    (
        "report.not_shown.withheld",
        "Not shown: {n} {n?entry|entries} whose text is withheld. Of which carcass {n?it is|they are} cannot be said.",
    ),
    (
        "report.not_shown.unreadable",
        "Not shown: {n} {n?entry|entries} that cannot be read. Of which carcass {n?it is|they are} cannot be said.",
    ),
    ("report.replaced", "replaced by {n}"),
    ("report.weighed", "set aside by decision {n}"),
    ("report.typed", "{when}, {who} (typed by {typed})"),
    ("report.withdrawn", "Taken back: {numbers}"),
    ("report.joins", "The office joined two carcasses: {ids}"),
    ("report.decided", "The office decided ({reason})"),
    ("report.unread", "An entry of a newer version, kept and not shown"),
    ("report.lab", "Laboratory and office"),
    ("report.lab.sample", "sample {what}"),
    ("report.lab.from", "laboratory: {what}"),
    ("report.lab.reported", "reported {what}"),
    ("report.lab.by", "entered by {what}"),
    ("report.lab.none", "The office has written nothing on this carcass."),
    ("report.lab.no_key", "This archive has no office key, so nothing here can be told as the office's own."),
    ("report.custody", "Chain of custody"),
    ("report.custody.none", "Nothing is recorded as taken."),
    ("report.files", "Files that this rests on"),
    (
        "report.file",
        "{label}: signed by the key with the words {words}; made {made}; {standing}. File SHA-256 {sha256}",
    ),
    ("report.file.enrolled", "enrolled by the office on {date}"),
    ("report.file.retired", "retired by the office on {date}, made after that: it does not count"),
    ("report.file.unknown", "not enrolled"),
    ("report.keyring", "The keyring is signed by the office key with the words {words}."),
    (
        "report.keyring.signed",
        "The keyring was picked by itself and is signed by the key with the words {words}. Nothing here says that this is \
         the office's key.",
    ),
    (
        "report.keyring.key_missing",
        "The keyring is signed by the key with the words {words}, and that key's file is not in this archive: no phone \
         counts as enrolled.",
    ),
    ("report.keyring.plain", "The keyring of this archive is not signed."),
    ("report.keyring.none", "There is no keyring: no phone counts as enrolled."),
    (
        "report.trust",
        "A good signature says that the file was not changed since that phone signed it. It does not say that what was \
         typed is true.",
    ),
    ("report.page", "Carcass {code}, page"),
];
