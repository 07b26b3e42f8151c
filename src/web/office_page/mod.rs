//! The office's page: archive, key, phones, local card, and what follows from the files. It uses the same library as
//! the command line, so both say the same of a file.

mod archive;
mod beside;
mod card;
mod card_fields;
mod card_laboratories;
mod carcasses;
mod decide;
mod demo;
mod desk;
mod exports;
mod fields;
mod figures;
mod key;
mod laboratory;
mod phones;
mod picked_ring;
mod rows;
mod season;
mod signed;
mod view;
mod winter;

pub(crate) use beside::is_beside;
pub use view::page;
