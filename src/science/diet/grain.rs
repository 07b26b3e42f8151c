//! When much grain should be sent to a laboratory. A rule of ours; it names no cause.

use crate::science::marrow::MarrowClass;

/// What was seen. `None`: not looked, or could not be told.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Grain {
    /// Grain is at least half of the contents.
    pub half: Option<bool>,
    /// The contents smell sour.
    pub sour: Option<bool>,
    /// The contents are watery.
    pub watery: Option<bool>,
    /// Loose droppings were seen.
    pub loose: Option<bool>,
    /// Class of the marrow.
    pub marrow: Option<MarrowClass>,
}

/// Whether contents should go to a laboratory for grain overload: grain at least half, and sour or watery or
/// loose, and marrow not spent. What was not looked at supports nothing.
pub fn send_to_laboratory(grain: Grain) -> bool {
    let any = [grain.sour, grain.watery, grain.loose].contains(&Some(true));
    let not_spent = matches!(grain.marrow, Some(MarrowClass::M1 | MarrowClass::M2));
    grain.half == Some(true) && any && not_spent
}
