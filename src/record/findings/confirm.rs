//! One deliberate statement a hazard: `done` says that the fact it asks for is so, `cannot` that it
//! is not to be had. Kept under the hazard's own code so that each can be corrected by itself.

use crate::record::finding::{FindingDef as F, Shape};

const SAID: Shape = Shape::Choice(&["done", "cannot"]);

macro_rules! confirms {
    ($($code:literal),* $(,)?) => { &[$(F::exam(concat!("confirm_", $code), SAID)),*] };
}

/// Hazards of the carcass, the place, the law, and the guards of each gate, in turn.
pub(super) const FINDINGS: &[F] = confirms!(
    "h01", "h02", "h03", "h03a", "h04", "h05", "h06", "h07", "h08", "h09", "h10", "h11", "h12", "h13", "h14", "h15",
    "h16", "h17", "h18", "h19", "h20", "h21", "h22", "h23", "h24", "h25", "h26", "e01", "e02", "e03", "e04", "e05",
    "e06", "e06l", "e07", "e08", "e09", "e09a", "e10", "l01", "l02", "l03", "l04", "l05", "l06", "l07", "l08", "l09",
    "g01", "g02", "g03", "g04", "g05", "g06", "g07", "g08", "g09", "g10", "g11", "g12", "g13", "g14", "g15", "g16",
    "g17", "g18", "g19", "g20", "g21", "g22", "g23", "g24", "g25", "g26", "g27",
);

/// Stops that a person whom the card names has reopened, by code. The fixed ones are not among them.
pub(super) const REOPENED: &[F] = &[F::exam(
    "reopened",
    Shape::Choices(&[
        "h03", "h05", "h09", "h16", "h23", "h24", "h26", "e01", "e04", "e07", "e09", "l03", "l08", "g03", "g04", "g06",
        "g07", "g09", "g10", "g11", "g12", "g13", "g14", "g15", "g16", "g17", "g18", "g25",
    ]),
)];
