//! Figures that nobody looks at any more, let go of in short parts: a season in millions of small pieces of memory is felt
//! when all of it is given back at once.

use std::sync::Arc;

use super::{Figures, Worked};

/// Bodies and carcasses that are let go of in one part.
const AT_ONCE: usize = 500;
const CARCASSES_AT_ONCE: usize = 10;

/// What is left of figures.
#[derive(Debug)]
pub struct Fading(Vec<Worked>);

impl Fading {
    /// `None` where somebody looks at them still, who lets go of them then.
    pub fn of(figures: Arc<Figures>) -> Option<Self> {
        let Figures { counted, looked, .. } = Arc::into_inner(figures)?;
        Some(Self([counted, looked].into_iter().filter_map(Arc::into_inner).collect()))
    }

    /// Lets go of some more; false where nothing is left.
    pub fn step(&mut self) -> bool {
        let Some(worked) = self.0.last_mut() else { return false };
        let Worked { recomputed, bodies, .. } = worked;
        if !bodies.is_empty() {
            bodies.truncate(bodies.len().saturating_sub(AT_ONCE));
        } else if !recomputed.carcasses.is_empty() {
            let left = recomputed.carcasses.len().saturating_sub(CARCASSES_AT_ONCE);
            recomputed.carcasses.truncate(left);
        } else if (0..CARCASSES_AT_ONCE).all(|_| recomputed.folded.carcasses.pop_first().is_none()) {
            self.0.pop();
        }
        true
    }
}
