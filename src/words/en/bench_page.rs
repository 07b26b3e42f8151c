//! Laboratory and calls on the office's page.

pub(super) const TEXTS: &[(&str, &str)] = &[
    ("desk.nav.laboratory", "Laboratory and calls"),
    ("bench.head", "Laboratory and calls"),
    (
        "bench.what",
        "What goes to which laboratory, what comes back, and whom to call then. Laboratories, tests and diseases are those \
         of today's local card. What you note here is signed with the office key and kept in the archive.",
    ),
    (
        "bench.no_key",
        "You can look, and nothing can be noted yet: it is signed with the office key. Open it under Archive and key.",
    ),
    ("bench.working", "Looking through samples and results ..."),
    ("bench.no_code", "Type your person code first: {reason}. Nothing was noted."),
    ("bench.refused", "Not noted: {reason}."),
    ("bench.samples", "Samples to send"),
    (
        "bench.no_laboratories",
        "No list of samples: {reason}. Put laboratories on the next local card under Local card, and make that card.",
    ),
    (
        "bench.samples.what",
        "Each test that a laboratory does on what was taken. Tick what goes into one parcel; the parcel's place, seal and \
         state go into the custody of each sample.",
    ),
    ("bench.place", "Where the parcel was given away"),
    ("bench.seal", "Number on its seal"),
    ("bench.condition", "In what state: frozen, cool, dry"),
    ("bench.send", "Note {n} as sent"),
    ("bench.none_ticked", "Tick the samples that went into the parcel first. Nothing was noted."),
    ("bench.sent", "Noted as sent, and kept in the archive."),
    ("bench.answered", "Answered: {n}"),
    ("bench.label", "Label, packing and custody"),
    ("bench.results", "A laboratory's sheet"),
    (
        "bench.results.what",
        "A CSV with the columns sample and test, and result, reported, years, grade, tooth, percent, bone, from, carcass as \
         far as the tests have them. Every line is matched by its sample's number; while one does not fit, nothing is \
         entered.",
    ),
    ("bench.pick", "Open a laboratory's sheet"),
    ("bench.too_large", "That file is larger than any sheet of ours. Nothing was read."),
    ("bench.no_sheet", "{name}: {reason}. Mend the sheet, then open it again. Nothing was entered."),
    ("bench.leave_out", "Leave this line out"),
    ("bench.correct", "Lines that say otherwise than what the office entered before stand in its place"),
    ("bench.nothing_new", "Nothing new is in it."),
    ("bench.fits", "{n} {n?line|lines}, and each fits. Nothing is entered yet."),
    (
        "bench.wrong",
        "{n} {n?line does|lines do} not fit. Nothing is entered: mend the sheet and open it again, or leave those lines out.",
    ),
    ("bench.enter", "Enter these results"),
    ("bench.entered", "Entered and kept in the archive."),
    ("bench.calls", "Calls to make ({n})"),
    (
        "bench.calls.private",
        "Names, numbers, and what hurt whom. Keep this list apart from everything that is handed on; no export and no report \
         holds it.",
    ),
    ("bench.calls.none", "No call is owed."),
    ("bench.pick_numbers", "Numbers of people: a CSV with the columns code and number, kept nowhere"),
    ("bench.no_numbers", "No numbers were read: {reason}. The sheet needs the columns code and number."),
    ("bench.no_number", "no number here"),
    ("bench.call.done", "Called"),
    ("bench.call.undo", "Not called after all"),
    ("bench.call.marked", "Noted as called, and kept in the archive."),
    ("bench.call.back", "The mark was taken back. The call is on the list again."),
    ("bench.call.made", "Called by {who} on {when}"),
    ("bench.calls.made", "Show or hide calls that were made ({n})"),
];
