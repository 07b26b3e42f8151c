//! The crew's form and the office's page.

mod crash;
pub mod drawings;
pub mod platform;

use leptos::prelude::*;

/// Starts the crew's form: called once, by the binary `web`.
pub fn start() {
    crash::install_hook();
    mount_to_body(|| view! { <main><h1>"Marrowbook"</h1></main> });
}

/// Starts the office's page: called once, by the binary `desk`.
pub fn start_office() {
    crash::install_hook();
    mount_to_body(|| view! { <main><h1>"Marrowbook office"</h1></main> });
}
