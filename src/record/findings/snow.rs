//! Snow against the animal, beside the depth of the snow story: who sinks how deep, and the chest.

use crate::record::Unit;
use crate::record::finding::{FindingDef as F, number};

pub(super) const FINDINGS: &[F] = &[
    F::exam("sinking_predator_cm", number(Unit::Centimetre, 0, 0, 300)).repeated(),
    F::exam("sinking_person_cm", number(Unit::Centimetre, 0, 0, 300)).repeated().of_occasion(),
    F::exam("chest_height_cm", number(Unit::Centimetre, 1, 250, 1_220)).repeated(),
];
