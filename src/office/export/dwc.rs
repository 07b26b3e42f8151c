//! Darwin Core archive (TDWG text guide): `meta.xml`, a core of occurrences, an extension MeasurementOrFact.
//!
//! What nobody looked at says `notAssessed`; a question without a row was not looked at either. Estimated days of death
//! are facts with their method, never the event's date.

use std::fmt::Write as _;

use super::dwc_rows::{FACTS, Fact, OCCURRENCE};
use super::{File, Tables};
use crate::office::plain::on_one_line;
use crate::office::season::csv::is_formula;

/// Namespace of Darwin Core terms.
const DWC: &str = "http://rs.tdwg.org/dwc/terms/";

/// Names of core and extension.
pub(super) const NAMES: [&str; 2] = ["dwca/occurrence.txt", "dwca/measurementorfact.txt"];

/// The file that says what stands in the others.
pub(super) fn about() -> File {
    ("dwca/meta.xml".to_owned(), meta().into_bytes())
}

/// The names of the columns of core and extension.
pub(super) fn heads() -> [Vec<u8>; 2] {
    let facts = [&["occurrenceID"][..], &FACTS].concat();
    [OCCURRENCE.as_slice(), &facts].map(|names| {
        let names: Vec<String> = names.iter().map(|name| (*name).to_owned()).collect();
        line(&names).into_bytes()
    })
}

/// Lines of core and extension.
pub(super) fn lines(tables: &Tables) -> [Vec<u8>; 2] {
    let (mut core, mut facts) = (String::new(), String::new());
    for row in &tables.carcasses.rows {
        let Some(id) = tables.carcasses.cell(row, "carcass_id").text() else { continue };
        let Some(more) = tables.more.get(id) else { continue };
        core += &line(&super::dwc_rows::occurrence(tables, row, more));
        for fact in &more.facts {
            facts += &line(&of_fact(id, fact));
        }
    }
    [core, facts].map(String::into_bytes)
}

/// The name of a carcass as an occurrence.
pub(super) fn urn(id: &str) -> String {
    format!("urn:uuid:{id}")
}

fn of_fact(carcass: &str, fact: &Fact) -> Vec<String> {
    let fact = fact.clone();
    vec![
        urn(carcass),
        fact.id,
        fact.kind,
        fact.value,
        fact.accuracy,
        fact.unit,
        fact.by,
        fact.at,
        fact.method,
        fact.remarks,
    ]
}

/// One line, cells apart by tabs: a tab or a line's end inside a cell becomes a blank.
fn line(cells: &[String]) -> String {
    let one = |cell: &String| {
        let plain = on_one_line(cell);
        // Numbers keep their minus; words that a spreadsheet would take for a formula do not lead with it.
        if is_formula(&plain) && plain.parse::<f64>().is_err() { format!("'{plain}") } else { plain }
    };
    cells.iter().map(one).collect::<Vec<_>>().join("\t") + "\n"
}

fn meta() -> String {
    let file = |tag: &str, of: &str, name: &str| {
        format!(
            "  <{tag} encoding=\"UTF-8\" fieldsTerminatedBy=\"\\t\" linesTerminatedBy=\"\\n\" fieldsEnclosedBy=\"\" \
             ignoreHeaderLines=\"1\" rowType=\"{DWC}{of}\">\n    <files><location>{name}</location></files>\n"
        )
    };
    let mut out =
        String::from("<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n<archive xmlns=\"http://rs.tdwg.org/dwc/text/\">\n");
    out += &file("core", "Occurrence", "occurrence.txt");
    out += "    <id index=\"0\"/>\n";
    fields(&mut out, 0, &OCCURRENCE);
    out += "  </core>\n";
    out += &file("extension", "MeasurementOrFact", "measurementorfact.txt");
    out += "    <coreid index=\"0\"/>\n";
    fields(&mut out, 1, &FACTS);
    out += "  </extension>\n</archive>\n";
    out
}

fn fields(out: &mut String, first: usize, terms: &[&str]) {
    for (index, term) in (first..).zip(terms) {
        let _ = writeln!(out, "    <field index=\"{index}\" term=\"{DWC}{term}\"/>");
    }
}
