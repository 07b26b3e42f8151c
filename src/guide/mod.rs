//! The visit: phases, steps, hazards, gates, what comes next.
//!
//! Steps and hazards are tables. [`situation`] reads the tables against what stands in the record
//! and says what to ask next, what is closed and why, and what to write without asking. It keeps no
//! state of its own: the same record gives the same situation after any interruption.

mod ask;
mod compose;
mod draft;
mod hazard;
pub mod hazards;
mod phase;
mod situation;
mod step;
pub mod steps;
mod view;

pub use ask::{Ask, AskState, Status};
pub use compose::{Context, compose, withdraw};
pub use draft::Draft;
pub use hazard::{Closes, Fired, Grade, Hazard};
pub use phase::Phase;
pub use situation::{Situation, situation};
pub use step::{Input, Step, Touch};
pub use view::{ExamKind, View};

/// Version of the table of steps, written into every entry.
pub const PROTOCOL: u32 = 1;
