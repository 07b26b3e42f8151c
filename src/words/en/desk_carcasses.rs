//! The office's page: the list of carcasses, one carcass, the season.

pub(super) const TEXTS: &[(&str, &str)] = &[
    ("desk.nav.carcasses", "Carcasses"),
    ("desk.nav.decide", "To decide"),
    ("desk.nav.season", "Season"),
    ("desk.to_phones", "{n} {n?phone is|phones are} not enrolled: compare {n?its|their} words"),
    ("desk.to_carcasses", "See the list of carcasses"),
    ("desk.opening", "Opening the archive. With thousands of carcasses this takes some seconds."),
    ("desk.opening.files", "Opening files: {done} of {all}."),
    ("desk.working", "Working the figures out: {done} of {all} carcasses."),
    ("desk.working.begin", "Working the figures out ..."),
    ("desk.carcasses.none", "No carcass yet. Open your archive under Archive and key, or pick bundles under Files."),
    ("desk.find", "Find by code or id"),
    ("desk.find.none", "No carcass here has that code or id."),
    ("desk.page", "{first} to {last} of {all}"),
    ("desk.page.back", "Earlier"),
    ("desk.page.on", "Later"),
    ("desk.open", "Open {code}"),
    ("desk.open_questions", "{n} {n?question|questions} with answers that differ"),
    ("desk.back", "Back to the list"),
    ("desk.print", "Print"),
    (
        "desk.print.how",
        "Two sheets, A4 or Letter, and continuation sheets with every answer, the sources and more photos. Each carries \
         code and page.",
    ),
    ("desk.save_report", "Save as a file"),
    ("desk.gone", "This carcass is no longer here: it was joined to another, or its phone counts no more."),
    ("desk.not_printed", "Not handed to the printer: {reason}. Save it as a file, open that and print it."),
    ("desk.season.head", "The season"),
    (
        "desk.season.what",
        "Worked out from everything in the archive that counts. Each figure \
         says how many carcasses were not looked at. Other squares or another strip: office season.",
    ),
    ("desk.season.winter", "Winter that begins in the year (empty: the last in which a carcass was found)"),
    ("desk.season.work", "Work the season out"),
    ("desk.on_the_page", "This browser cannot do it beside the page: no tap is answered until it is done."),
    ("desk.season.working", "Working the season out. With many carcasses this takes a while."),
    (
        "desk.season.failed",
        "Not worked out: {reason}. Files come in under Files, and count once their phones are enrolled under Phones.",
    ),
    (
        "desk.season.found",
        "Winter {winter}: {found} {found?carcass|carcasses} found, {counted} counted in the figures.",
    ),
    ("desk.season.left_out", "{n} not counted: {why} Under Carcasses: {codes}"),
    ("desk.season.undated", "{n} without a date: in no winter."),
    (
        "desk.season.no_carcass",
        "{n} {n?visit|visits} without a carcass, of any winter: on the list of carcasses, in no figure.",
    ),
    (
        "desk.season.not_used",
        "{n} {n?file counts|files count} in no figure: {reason}. A phone that is not enrolled is enrolled under Phones; a \
         damaged file has to be handed in again.",
    ),
    ("desk.season.stale", "The archive has changed since. Work the season out again."),
    ("desk.season.save", "Save tables, plots and manifest (zip)"),
    (
        "desk.season.unsigned",
        "The manifest in the zip is signed only while the office key is open (under Archive and key).",
    ),
    ("desk.season.table", "The table of this plot"),
    ("desk.season.tables", "All other tables"),
    ("desk.season.rows", "{n} more {n?row|rows} in the file"),
];
