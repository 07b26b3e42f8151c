//! From a folded carcass, through the science, to statements.

pub mod message_ids;
