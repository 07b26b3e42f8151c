//! The crew's form and the office's page.

mod address;
mod app;
mod crash;
mod demo;
mod desk;
pub mod drawings;
mod edge;
mod form;
mod form_device;
mod form_input;
mod form_photo;
mod form_practice;
mod form_received;
mod frames_view;
mod fetched;
mod half_typed;
mod inputs;
mod keys;
mod languages;
pub mod office_page;
mod opening;
mod parts;
mod photo_slot;
mod picture;
pub mod platform;
pub mod readings;
mod reasons;
mod screen;
mod screens;
mod session;
mod settings;
mod shell;
mod wording;

use leptos::prelude::*;

/// Starts the crew's form: called once, by the binary `web`.
pub fn start() {
    crash::install_hook();
    // The records are asked for first and come while the screen is being made.
    let early = opening::early();
    platform::page::when_read(move || mount_to_body(move || app::app(early)));
}

/// Starts the office's page, or the thread beside it: called once in each, by the binary `desk`.
pub fn start_office() {
    crash::install_hook();
    if !office_page::is_beside() {
        platform::page::when_read(|| mount_to_body(office_page::page));
    }
}
