//! Why the browser does not do what the form asks of it: clauses that are put into a sentence. What the browser itself
//! says stands behind them in its own words.

pub(super) const TEXTS: &[(&str, &str)] = &[
    (
        "reason.elsewhere",
        "the form is open in another tab or window of this browser; close that one, then load this one again",
    ),
    (
        "reason.no_lock",
        "this browser or address lets no page write alone. It needs https and an up-to-date browser; until then use paper. The plain page under Cautions saves what was kept",
    ),
    ("reason.store_refused", "the browser refuses to keep records"),
    ("reason.store_full", "the phone's storage for this page is full"),
    ("reason.store_lost", "the connection to the record store was lost"),
    ("reason.store_taken", "an entry of that number is stored already"),
    ("reason.store_failed", "the record store failed"),
    ("reason.only_shows", "this page only shows; hand over from the one that writes"),
];
