//! The line that says how the last answer stands: writing, saved, or what is promised instead.

use leptos::prelude::*;

use crate::keep::Promise;
use crate::web::form::{Form, Saves};
use crate::web::screen::Screen;
use crate::words::Arg;

/// The line. The tick appears only once the answer is on disk. It is told where the answer was given and on the screen
/// after that, for it says nothing of any other; that an answer is not safe is told everywhere.
pub(crate) fn saved_line(form: Form) -> AnyView {
    let state = Memo::new(move |_| form.saves.get());
    view! {
        <p class="saved" role="status" data-saved=move || state_name(&state.get())>
            {move || state.with(|saves| told(form, saves).then(|| words(form, saves)))}
        </p>
    }
    .into_any()
}

fn told(form: Form, saves: &Saves) -> bool {
    let asks = form.screen.with(|screen| {
        matches!(
            screen,
            Screen::Visit(_)
                | Screen::Sketch
                | Screen::Custody
                | Screen::Journal(_)
                | Screen::WinterLog(_)
                | Screen::WinterDay(..)
                | Screen::WinterRead(..)
        )
    });
    saves.failed.is_some() || asks && saves.screens_since < 2
}

fn state_name(saves: &Saves) -> &'static str {
    match saves {
        Saves { failed: Some(_), .. } => "failed",
        Saves { writing, .. } if *writing > 0 => "writing",
        Saves { what, .. } if what.is_empty() => "none",
        _ => "saved",
    }
}

fn words(form: Form, saves: &Saves) -> String {
    let what = ("what", Arg::Text(saves.what.clone()));
    match saves {
        Saves { failed: Some((reason, promise)), .. } => {
            form.say_with(promised(*promise), &[("reason", Arg::Text(reason.clone())), what])
        }
        Saves { writing, .. } if *writing > 0 => form.say_with("saved.writing", &[what]),
        Saves { what, .. } if what.is_empty() => String::new(),
        _ => form.say_with("saved.saved", &[what]),
    }
}

/// The message for an answer that is not on disk.
pub(crate) const fn promised(promise: Promise) -> &'static str {
    match promise {
        Promise::MemoryOnly => "saved.memory_only",
        Promise::CrashedTabOnly => "saved.crashed_tab_only",
        Promise::CrashAndPowerLoss => "saved.later",
    }
}
