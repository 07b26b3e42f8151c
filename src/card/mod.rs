//! The local card and the evidence table: types and validation.
//!
//! The card holds what no code may decide: whom to call, permits, which diseases and predators are
//! about, units, crew codes, check-in rules, and figures of the reserve's own. Without a card the form goes on hands-off.

mod cause;
mod check;
mod check_figures;
mod figures;
mod laboratory;
mod local;
mod state;
mod table;

pub use cause::{CauseSettings, WinterWord};
pub use check::{CardError, CardFlaw};
pub use check_figures::FigureFlaw;
pub use figures::{
    AgePrior, BirthDates, BrowseFood, BrowseTier, CrownHeight, Figures, FormulasFromMemory, MolarRatio, NORM_MEASURES,
    Norm, NormAge, NormSex, PriorName, ReaderTable, browse_key,
};
pub use laboratory::{Laboratories, Laboratory, LaboratoryFlaw, Test, TestKind};
pub use local::{Call, CallFor, Card, Flags, Limits, Permit, Person, Units};
pub use state::{CardState, card_state};
pub use table::{COLUMNS, EvidenceTable, TableCell, TableError, TableFlaw, TablePrior, TableRow, TableState};
