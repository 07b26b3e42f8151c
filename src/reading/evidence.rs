//! The evidence table in force: the program's own, or the one that the local card carries.

use std::sync::{Arc, Mutex, OnceLock, PoisonError};

use super::GivenCard;
use crate::card::{COLUMNS, EvidenceTable, TableFlaw, TablePrior, TableRow, TableState};
use crate::record::{Digest, to_canonical};
use crate::science::cause::{CAUSES, Cause, Cell, Drawn, Grade, PerCause, PriorSet, Row, Table, skeleton};

/// What the program's own table is called.
pub const BUILT_IN_NAME: &str = "Marrowbook, table 1";
/// The row of bucks of two and a half years or more, as the file names it.
const BUCKS: &str = "head_abscess_of_bucks";
/// The row that it stands in for.
const BUCKS_FOR: u8 = 21;
/// Drawn tables of cards that are kept: a phone has one card, an office a few a season.
const MOST_HELD: usize = 4;

/// A table with its drawings.
#[derive(Clone, Debug)]
pub(crate) struct InForce {
    pub(crate) drawn: Arc<Drawn>,
    pub(crate) name: String,
    pub(crate) digest: Digest,
}

/// The program's own table in the form of a file.
pub fn built_in() -> EvidenceTable {
    let table = Table::built_in();
    let mut rows: Vec<TableRow> =
        table.rows.iter().zip(skeleton()).map(|(row, data)| written(row, data.code, data.number)).collect();
    rows.push(written(&table.head_abscess_of_bucks, BUCKS, BUCKS_FOR));
    let prior =
        |set: &PriorSet| TablePrior { area: set.code.clone(), per_thousand: set.shares.map(thousandths).into() };
    EvidenceTable {
        form: 1,
        name: BUILT_IN_NAME.to_owned(),
        note: "972 cells: 25 rest on counts, 102 take their direction from a source, 845 are expert judgement"
            .to_owned(),
        columns: COLUMNS.map(str::to_owned).into(),
        priors: table.priors.iter().map(prior).collect(),
        rows,
    }
}

#[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss)] // shares of 0 to 1
fn thousandths(share: f64) -> u32 {
    (share * 1000.0).round() as u32
}

fn written(row: &Row, code: &str, number: u8) -> TableRow {
    let names = skeleton().iter().find(|data| data.number == number).map(|data| data.states).unwrap_or_default();
    let text = |p: f64| {
        let tenths = (p * 1000.0).round() / 10.0;
        format!("{tenths}")
    };
    let cell = |cell: &Cell| match cell.grade {
        Grade::Counted => format!("{}/{}/{}J", text(cell.low()), text(cell.p), text(cell.high())),
        grade => format!("{}{}", text(cell.p), grade.letter()),
    };
    let states = row
        .states
        .iter()
        .zip(names)
        .map(|(cells, name)| TableState { state: name.code.to_owned(), cells: cells.iter().map(cell).collect() });
    TableRow { row: code.to_owned(), states: states.collect() }
}

/// Takes a table that was read over into figures.
///
/// # Errors
/// The first row that is not one of the observations, lacks, or has other states.
pub fn table_of(file: &EvidenceTable) -> Result<Table, TableFlaw> {
    file.check()?;
    for row in &file.rows {
        if row.row != BUCKS && !skeleton().iter().any(|data| data.code == row.row) {
            let known: Vec<&str> = skeleton().iter().map(|data| data.code).collect();
            return Err(TableFlaw::Row(row.row.clone(), format!("the observations are {}, {BUCKS}", known.join(", "))));
        }
    }
    let find =
        |code: &str| file.rows.iter().find(|row| row.row == code).ok_or_else(|| TableFlaw::Missing(code.to_owned()));
    let rows = skeleton().iter().map(|data| taken(find(data.code)?, data.number)).collect::<Result<_, _>>()?;
    let head_abscess_of_bucks = taken(find(BUCKS)?, BUCKS_FOR)?;
    let priors = file.priors.iter().map(|prior| PriorSet { code: prior.area.clone(), shares: shares(prior) }).collect();
    Ok(Table { rows, head_abscess_of_bucks, priors })
}

fn shares(prior: &TablePrior) -> PerCause {
    let mut shares = [0.0; CAUSES];
    for (share, thousandths) in shares.iter_mut().zip(&prior.per_thousand) {
        *share = f64::from(*thousandths) / 1000.0;
    }
    shares
}

fn taken(row: &TableRow, number: u8) -> Result<Row, TableFlaw> {
    let data = skeleton().iter().find(|data| data.number == number);
    let data = data.ok_or_else(|| TableFlaw::Missing(row.row.clone()))?;
    if !row.states.iter().map(|s| s.state.as_str()).eq(data.states.iter().map(|s| s.code)) {
        let states: Vec<&str> = data.states.iter().map(|s| s.code).collect();
        return Err(TableFlaw::Row(row.row.clone(), format!("its states are, in this order: {}", states.join(", "))));
    }
    // Tenths of a percent come out as the very figures that the program's own table has.
    let share = |percent: f64| percent * 10.0 / 1000.0;
    let states = row.cells()?.into_iter().map(|cells| {
        let mut out = [Cell::graded(0.5, Grade::Expert); CAUSES];
        for (out, cell) in out.iter_mut().zip(cells) {
            *out = match (cell.low, cell.high) {
                (Some(low), Some(high)) => Cell::bounded(share(low), share(cell.mid), share(high)),
                _ => Cell::graded(share(cell.mid), Grade::of_letter(cell.grade).unwrap_or(Grade::Expert)),
            };
        }
        out
    });
    Ok(Row::new(number, data.block, data.minutes, data.class, states.collect()))
}

/// Digest of a table: SHA-256 over its canonical form, which is what is signed.
pub fn digest_of_table(file: &EvidenceTable) -> Digest {
    Digest::of(&[to_canonical(file).unwrap_or_default().as_bytes()])
}

/// The table in force. A card's own is taken over once and kept, named by its own digest.
pub(crate) fn in_force(card: Option<GivenCard>) -> InForce {
    static BUILT_IN: OnceLock<InForce> = OnceLock::new();
    static HELD: Mutex<Vec<InForce>> = Mutex::new(Vec::new());
    let built_in = || {
        BUILT_IN
            .get_or_init(|| InForce {
                drawn: Arc::new(Drawn::new(Table::built_in())),
                name: BUILT_IN_NAME.to_owned(),
                digest: digest_of_table(&built_in()),
            })
            .clone()
    };
    let Some(file) = card.and_then(|given| given.card.cause.as_ref()?.table.as_ref()) else { return built_in() };
    let digest = digest_of_table(file);
    let mut held = HELD.lock().unwrap_or_else(PoisonError::into_inner);
    if let Some(table) = held.iter().find(|held| held.digest == digest) {
        return table.clone();
    }
    // A card whose table does not hold is refused when it is loaded.
    let Ok(table) = table_of(file) else { return built_in() };
    let table = InForce { drawn: Arc::new(Drawn::new(table)), name: file.name.clone(), digest };
    held.insert(0, table.clone());
    held.truncate(MOST_HELD);
    table
}

/// The names of the columns are the names of the causes.
const _: () = assert!(COLUMNS.len() == Cause::ALL.len());

#[cfg(test)]
mod tests {
    use super::*;

    fn as_text(table: &EvidenceTable) -> String {
        serde_json::to_string(table).unwrap()
    }

    #[test]
    fn the_program_s_table_comes_back_the_same_from_its_file() {
        let file = EvidenceTable::from_json(&as_text(&built_in())).unwrap();
        assert_eq!(table_of(&file).unwrap(), Table::built_in());
        assert_eq!(COLUMNS, Cause::ALL.map(Cause::code));
        assert_eq!(file.rows.len(), 26);
    }

    /// Each flaw with the row that the refusal must name.
    #[test]
    fn a_flaw_names_its_row() {
        let refused = |change: &dyn Fn(&mut EvidenceTable)| {
            let mut table = built_in();
            change(&mut table);
            table_of(&table).unwrap_err().to_string()
        };
        for (said, change) in [
            (
                "row `wound_zone`, state `throat`, cause `dog`",
                (|t| t.rows[1].states[0].cells[4] = "8%".into()) as fn(&mut EvidenceTable),
            ),
            ("row `marrow_look`: the states of cause `coyote` add to 1200", |t| {
                t.rows[11].states[0].cells[0] = "40Q".into();
            }),
            ("row `covered`, state `yes`: 11 cells", |t| drop(t.rows[5].states[0].cells.pop())),
            ("row `lungs` is missing", |t| drop(t.rows.remove(19))),
            ("row `lung` is not one", |t| t.rows[19].row = "lung".into()),
            ("row `posture` is not one", |t| t.rows[4].states.swap(0, 1)),
            ("`hair` stands twice", |t| t.rows[0].row = "hair".into()),
            ("shares of area `northeast`", |t| t.priors[0].per_thousand[0] = 300),
            ("has no name", |t| t.name = " ".into()),
            ("of form 2", |t| t.form = 2),
            ("columns must be", |t| t.columns.swap(0, 1)),
        ] {
            let text = refused(&change);
            assert!(text.contains(said), "{text}");
        }
    }
}
