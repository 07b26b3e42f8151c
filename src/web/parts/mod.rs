//! Pieces that screens are put together from.

mod bar;
mod code_field;
mod head;
mod label_lines;
mod notes;
mod saved;
mod tiles;

pub(crate) use bar::bar;
pub(crate) use code_field::code_field;
pub(crate) use head::{HEAD, head, plain_head};
pub(crate) use label_lines::label_lines;
pub(crate) use notes::{advice, notice, opening_report};
pub(crate) use saved::saved_line;
pub(crate) use tiles::{
    A_PAGE, Look, act, foot, main_tile, main_tile_unless, pages, pictured_tile, tile, toggle, toggle_with,
};
