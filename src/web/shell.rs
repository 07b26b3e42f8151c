//! What the page's own script tells: whether the form works without signal, and whether a newer
//! version waits. A newer version is never taken by itself.

use leptos::prelude::*;

use super::form::Form;
use super::parts::act;

/// State of the shell around the form.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub(crate) struct Shell {
    /// Kept on the phone for use without signal.
    pub(crate) offline: Offline,
    /// A newer version waits.
    pub(crate) update: bool,
}

/// Whether the form is kept on the phone.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub(crate) enum Offline {
    /// Not known yet, or being kept just now.
    #[default]
    Loading,
    /// Yes.
    Ready,
    /// It did not work.
    Failed,
    /// This browser or address does not allow it.
    Unsupported,
}

impl Shell {
    /// As the page's script left it on the document.
    pub(crate) fn read() -> Self {
        let root = web_sys::window().and_then(|w| w.document()).and_then(|d| d.document_element());
        let data = |name: &str| root.as_ref().and_then(|r| r.get_attribute(name)).unwrap_or_default();
        let offline = match data("data-offline").as_str() {
            "ready" => Offline::Ready,
            "failed" => Offline::Failed,
            "unsupported" => Offline::Unsupported,
            _ => Offline::Loading,
        };
        Self { offline, update: data("data-update") == "ready" }
    }

    /// The message about use without signal.
    pub(crate) const fn message(self) -> &'static str {
        match self.offline {
            Offline::Loading => "shell.loading",
            Offline::Ready => "shell.ready",
            Offline::Failed => "shell.failed",
            Offline::Unsupported => "shell.unsupported",
        }
    }
}

/// Follow the page's script for as long as the page lives.
pub(crate) fn watch(form: Form) {
    form.shell.try_set(Shell::read());
    let changed = leptos::ev::Custom::<web_sys::Event>::new("marrowbook-shell");
    let handle = window_event_listener(changed, move |_| {
        form.shell.try_set(Shell::read());
    });
    std::mem::forget(handle);
}

/// The button that takes a newer version, where one waits.
pub(crate) fn update_button(form: Form, shell: Shell) -> Option<AnyView> {
    shell.update.then(|| {
        view! { <li data-fact="update">{form.say("shell.update")} {act(form, "update", form.say("shell.update_now"), take_update)}</li> }
            .into_any()
    })
}

fn take_update() {
    if let (Some(window), Ok(event)) = (web_sys::window(), web_sys::Event::new("marrowbook-update-now")) {
        let _ = window.dispatch_event(&event);
    }
}
