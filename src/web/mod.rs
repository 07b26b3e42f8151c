//! The crew's form and the office's page.

mod address;
mod app;
mod crash;
mod demo;
mod desk;
pub mod dom;
pub mod drawings;
mod edge;
mod form;
mod form_device;
mod form_input;
mod form_practice;
mod half_typed;
mod inputs;
mod keys;
pub mod office_page;
mod opening;
mod parts;
mod picture;
pub mod platform;
pub mod readings;
mod screen;
mod screens;
mod session;
mod settings;
mod shell;
mod wording;

/// Starts the crew's form: called once, by the binary `web`.
pub fn start() {
    crash::install_hook();
    dom::mount(app::app);
}

/// Starts the office's page: called once, by the binary `desk`.
pub fn start_office() {
    crash::install_hook();
    dom::mount(office_page::page);
}
