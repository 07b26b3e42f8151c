//! Weight from girth or from dressed weight, and the measures of bone that have no norms here.
//!
//! All weights are what a deer of such a girth weighed in the herd behind the rule, in autumn: winter takes
//! weight off without taking it all off the girth. So several rules stand side by side, each with its herd.
//!
//! | file | holds |
//! |---|---|
//! | [`girth`] | the rules, and when a girth says nothing |
//! | [`rules`] | each rule with its herd and its range |
//! | [`dressed`] | from dressed to live weight |
//! | [`norms`] | a measure against a mean of the reserve's own |
//! | [`sources`] | what all of it rests on |

pub mod dressed;
pub mod girth;
pub mod norms;
pub mod rules;
pub mod sources;

use serde::{Deserialize, Serialize};

/// Kilograms in a pound, exact by definition (international yard and pound agreement, 1959).
pub const KG_PER_LB: f64 = 0.45359237;
/// Centimetres in an inch, exact by the same.
pub const CM_PER_INCH: f64 = 2.54;

/// A weight with its ends.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct Weight {
    /// Best value, kg.
    pub best_kg: f64,
    /// Lower end, kg.
    pub low_kg: f64,
    /// Upper end, kg.
    pub high_kg: f64,
}

impl Weight {
    fn scaled(base_kg: f64, [low, best, high]: [f64; 3]) -> Self {
        Self { best_kg: base_kg * best, low_kg: base_kg * low, high_kg: base_kg * high }
    }
}
