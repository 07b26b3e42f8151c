//! Sheets: a laboratory's, a winter's daily log, and the plain table of findings.

use marrowbook::office::findings_table::FindingsTable;
use marrowbook::office::lab_row;
use marrowbook::office::winter::table::Draft;
use marrowbook::office::winter::text::rows;
use marrowbook::words::Language;

pub(crate) fn run(bytes: &[u8]) {
    let Some((how, rest)) = bytes.split_first() else { return };
    match how % 3 {
        0 => laboratory(rest),
        1 => winter(rest),
        _ => findings(rest),
    }
}

fn laboratory(bytes: &[u8]) {
    let Ok(rows) = lab_row::rows(bytes) else { return };
    for row in rows {
        row.says();
        drop(row.reported());
    }
}

fn winter(bytes: &[u8]) {
    let Ok(draft) = Draft::read(bytes) else { return };
    let told = draft.as_proposed();
    draft.open(&told);
    let table = draft.table(&told);
    assert_eq!(table.kept + table.dropped, rows(bytes).unwrap().rows.len());
    for note in &table.notes {
        assert!(!note.say(Language::English).is_empty());
    }
}

fn findings(bytes: &[u8]) {
    let Ok(table) = FindingsTable::read(bytes) else { return };
    let Ok(tabled) = table.journal() else { return };
    tabled.journal.bodies();
}
