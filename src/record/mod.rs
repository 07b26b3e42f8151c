//! The vocabulary: units, answers, findings, entries, the journal and its hash chain, the fold.
//!
//! An *entry* says what one person answered to one question at one moment. Entries form one hash
//! chain a device. A *subject* (outing, report, examination, winter log) is asked questions; an examination
//! names its carcass. Folding all entries gives subjects and carcasses; nothing is ever overwritten,
//! a correction is a later entry that names what it supersedes.

mod answer;
#[cfg(not(target_arch = "wasm32"))]
mod answer_body;
mod body;
mod chain;
mod custody;
mod day;
mod decided;
mod entry;
mod finding;
mod findings;
mod fold;
mod folding;
mod ids;
mod journal;
mod key;
pub mod letters;
mod moment;
mod outline;
pub mod sample_number;
pub mod short_code;
mod site;
mod strict_json;
mod unit;
mod validate;

pub use answer::{Answer, Photo, Place, PlaceSource, Value, Why};
pub use body::{Act, Body, BodyError, CustodyStep, ENTRY_SCHEMA, Versions};
pub use chain::{ChainError, Head, verify_range};
pub use custody::{
    CustodyGap, CustodyItem, CustodyLine, CustodyLineStep, Hands, custody_list, is_labelled, plain_number, same_number,
    sample_of_item, samples_counted, samples_taken,
};
pub use day::{Day, DayError};
pub use entry::{Entry, Header, Salt, Stored};
pub use finding::{FindingDef, Keeping, Scope, Shape, Sites};
pub use findings::OFFICE_FINDINGS;
pub use findings::{FINDINGS, PHOTO_DELETED, REPORT_CALL_BACK, find, find_office};
pub use fold::{
    Carcass, Custody, Examination, Fold, Question, Sheet, Standing, fold, fold_bodies, fold_part, fold_undecided, named,
};
pub use folding::{Finishing, Folding, Superseded};
pub use ids::{DeviceId, Digest, Digesting, EntryId, IdError, PersonCode, uuid_v7};
pub use journal::{CALL_DONE, Deciders, Journal, Setback};
pub use key::{FindingCode, Key, Subject};
pub use moment::{Moment, MomentError};
pub use outline::{DUE_BACK, EXAMINATION_KIND, HAPPENS_NOW, links, may_be_now, may_lie_ahead};
pub use site::{Bone, Side, Site, Tooth};
pub use strict_json::{JsonError, read_strict, to_canonical};
pub use unit::{Measure, Shown, Unit};
pub use validate::{Flaw, validate, validate_office};
