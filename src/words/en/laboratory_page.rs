//! Laboratory and calls on the office's page.

pub(super) const TEXTS: &[(&str, &str)] = &[
    ("desk.nav.laboratory", "Laboratory and calls"),
    ("laboratory.page.head", "Laboratory and calls"),
    (
        "laboratory.page.what",
        "What goes to which laboratory, what comes back, and whom to call then. Laboratories, tests and diseases are those \
         of today's local card. What you note here is signed with the office key and kept in the archive.",
    ),
    (
        "laboratory.page.no_key",
        "You can look, and nothing can be noted yet: it is signed with the office key. Open or make it under Archive and \
         key.",
    ),
    ("laboratory.page.working", "Looking through samples and results ..."),
    ("laboratory.page.no_code", "Type your person code first: {reason}. Nothing was noted."),
    ("laboratory.page.refused", "Not noted: {reason}."),
    ("laboratory.page.received", "Samples not noted as received ({n})"),
    (
        "laboratory.page.received.what",
        "Tick what arrived together. Place, state and seals go into the custody of each, with your code as who has it now.",
    ),
    ("laboratory.page.received.place", "Where you received it"),
    ("laboratory.page.received.condition", "In what state: frozen, cool, dry or leaking"),
    ("laboratory.page.received.line", "{number}, {what} of {code}: with {who}"),
    ("laboratory.page.received.none", "No sample waits to be noted as received."),
    ("laboratory.page.received.noted", "Noted as received, and kept in the archive."),
    ("laboratory.page.receive", "Note {n} as received"),
    ("laboratory.page.none_received", "Tick the samples that arrived first. Nothing was noted."),
    ("laboratory.page.seals", "Their seals"),
    ("laboratory.page.seals.not_looked", "nobody looked"),
    ("laboratory.page.seals.whole", "all whole"),
    ("laboratory.page.seals.broken", "one or more broken"),
    ("laboratory.page.not_sent", "Not sent after all"),
    ("laboratory.page.not_received", "Not received after all"),
    ("laboratory.page.taken_back", "Taken back, by a signed entry. What was noted before stays in the history."),
    ("laboratory.page.samples", "Samples to send"),
    (
        "laboratory.page.no_laboratories",
        "No list of samples: {reason}. Put laboratories on the next local card under Local card, and make that card.",
    ),
    (
        "laboratory.page.samples.what",
        "Each test that a laboratory does on what was taken. Tick what goes into one parcel; the parcel's place, seal and \
         state go into the custody of each sample.",
    ),
    ("laboratory.page.place", "Where the parcel was given away"),
    ("laboratory.page.seal", "Number on its seal"),
    ("laboratory.page.condition", "In what state: frozen, cool or dry"),
    ("laboratory.page.send", "Note {n} as sent"),
    ("laboratory.page.none_ticked", "Tick the samples that went into the parcel first. Nothing was noted."),
    ("laboratory.page.sent", "Noted as sent, and kept in the archive."),
    ("laboratory.page.answered", "Answered: {n}"),
    ("laboratory.page.label", "Label, packing and custody"),
    ("laboratory.page.results", "A laboratory's sheet"),
    (
        "laboratory.page.results.what",
        "A CSV with the columns sample and test, and result, reported, years, grade, tooth, percent, bone, from, carcass as \
         far as the tests have them. Every line is matched by its sample's number; while one does not fit, nothing is \
         entered.",
    ),
    ("laboratory.page.pick", "Open a laboratory's sheet"),
    ("laboratory.page.too_large", "That file is larger than any sheet of ours. Nothing was read."),
    ("laboratory.page.no_sheet", "{name}: {reason}. Mend the sheet, then open it again. Nothing was entered."),
    ("laboratory.page.leave_out", "Leave this line out"),
    (
        "laboratory.page.correct",
        "Correct: a line that differs from what the office entered before takes its place. What a phone recorded is never \
         replaced: there the line stands beside it",
    ),
    ("laboratory.page.nothing_new", "Nothing new is in it."),
    ("laboratory.page.fits", "{n} {n?line|lines}: each fits or is left out. Nothing is entered yet."),
    (
        "laboratory.page.wrong",
        "{n} {n?line does|lines do} not fit. Nothing is entered: mend the sheet and open it again, or leave those lines out.",
    ),
    ("laboratory.page.enter", "Enter these results"),
    ("laboratory.page.entered", "Entered and kept in the archive."),
    ("laboratory.page.calls", "Calls to make ({n})"),
    (
        "laboratory.page.calls.private",
        "Names, numbers, and what hurt whom. Keep this list apart from everything that is handed on; no export and no report \
         holds it.",
    ),
    ("laboratory.page.calls.none", "No call is owed."),
    ("laboratory.page.pick_numbers", "Numbers of people: a CSV with the columns code and number, kept nowhere"),
    ("laboratory.page.no_numbers", "No numbers were read: {reason}. The sheet needs the columns code and number."),
    ("laboratory.page.no_number", "no number here"),
    ("laboratory.page.call.done", "Mark as called"),
    ("laboratory.page.call.undo", "Not called after all"),
    ("laboratory.page.call.marked", "Noted as called, and kept in the archive."),
    ("laboratory.page.call.back", "The mark was taken back. The call is on the list again."),
    ("laboratory.page.call.made", "Called by {who} on {when}"),
    ("laboratory.page.calls.made", "Show or hide calls that were made ({n})"),
];
