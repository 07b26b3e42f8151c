//! Exports and paper on the office's page.

pub(super) const TEXTS: &[(&str, &str)] = &[
    ("desk.nav.exports", "Exports and paper"),
    ("exports.head", "Exports and paper"),
    (
        "exports.what",
        "Everything that counts, in open forms for other programs: CSV with a data package, GeoJSON, a Darwin Core archive and \
         JSON lines, in one zip. Nothing of it comes back in: only what phones hand over does.",
    ),
    ("exports.winter", "Only the winter that begins in the year (empty: all of them)"),
    ("exports.cell", "Places blurred to squares with sides of so many metres, {least} and more"),
    ("exports.exact", "Places exactly as they were recorded: whoever has the file finds the carcass"),
    ("exports.names", "Also codes and names of persons, and what they typed in their own words"),
    ("exports.save", "Save an export (zip)"),
    ("exports.working", "Writing the export. With many carcasses this takes a while."),
    ("exports.made", "{n} {n?carcass|carcasses} in {files} files. {places} {persons}"),
    ("exports.not", "No export was made: {reason}."),
    ("exports.paper", "For paper"),
    ("exports.paper.what", "Each is a page to open in a browser and print."),
    ("exports.letter", "US letter instead of A4"),
    ("exports.labels", "Labels of all samples"),
    ("exports.labels.made", "{n} {n?label|labels}, with codes. Print the page without scaling."),
    ("exports.labels.none", "No sample was taken yet: there is nothing to label."),
    ("exports.protocol", "The protocol on two sheets"),
    ("exports.protocol.made", "Print it on two sheets, both sides, without scaling: for the day the phone dies."),
];
