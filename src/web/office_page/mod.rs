//! The office's page: a bare opener of bundles. It uses the same library as the command line, so both
//! say the same of a file; keeping and enrolling are the command line's.

mod demo;
pub mod hand;
mod view;
mod winter;

pub use view::page;
