//! The visit: phases, steps, hazards, gates, what comes next.
//!
//! Steps and hazards are tables. [`situation`] reads the tables against what stands in the record
//! and says what to ask next, what is closed and why, and what to write without asking. It keeps no
//! state of its own: the same record gives the same situation after any interruption.

mod about;
pub mod answer_words;
mod ask;
mod baseline;
mod bench_work;
mod calls;
mod compose;
pub mod daylight;
mod draft;
mod hazard;
pub mod hazards;
mod labels;
mod measured;
mod leaving;
mod next;
mod permission;
mod phase;
pub mod photos;
pub mod practice;
mod reopen;
mod resume;
mod rumen;
mod samples;
pub mod second_look;
mod short_record;
mod situation;
pub mod sketch;
mod step;
pub mod steps;
mod typed_place;
mod view;
mod weather;
mod wording;

pub use about::About;
pub use ask::{Ask, AskState, Status};
pub use baseline::BASELINE;
pub use bench_work::{BenchWork, bench_work};
pub use calls::{CANNOT_CALL, NO_CARD_TO_CALL, calls};
pub use compose::{Context, Handing, compose, custody, withdraw};
pub use draft::{Draft, LEFT, RULED_OUT, UNLABELLED};
pub use hazard::{Closes, Fired, Grade, Hazard, Speaks};
pub use labels::{Label, label, label_of, labels};
pub use measured::Measured;
pub use next::{NextLook, cause_may_be_shown, next_looks, search_for_people};
pub use permission::{NoTouch, may_open, may_take_femur, may_take_head_parts, may_take_jaw, may_touch};
pub use phase::Phase;
pub use reopen::{NoReopen, may_reopen, reopen, still_closed};
pub use resume::{LastAnswer, Resume};
pub use rumen::{PointCount, Volumes, point_count, volumes};
pub use samples::{
    SAMPLES, SampleRow, SampleVerdict, Taker, is_number_mistyped, proposed_number, samples_worth_taking,
};
pub use short_record::{SHORT_FROM, is_short};
pub use situation::{Situation, situation};
pub use step::{Input, Step, Touch};
pub use typed_place::{TypedPlace, not_a_place, typed_place};
pub(crate) use view::is_unasked;
pub use view::{ExamKind, View, before};
pub use weather::wind_chill_now;
pub use wording::{finding_label, option_label, site_words, why_words};

/// Version of the table of steps, written into every entry.
pub const PROTOCOL: u32 = 1;
