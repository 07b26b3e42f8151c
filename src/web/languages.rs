//! Choosing a language. The form carries English; the others are files of their own, kept on the phone with it.

use leptos::prelude::*;

use super::fetched;
use super::form::Form;
use super::shell::Offline;
use crate::words::{self, Arg, Language, NotTaken};

/// Makes a language's texts ready.
///
/// # Errors
/// Why they are not, in English: the language itself cannot say it.
pub(super) async fn ready(language: Language) -> Result<(), String> {
    if words::is_at_hand(language) {
        return Ok(());
    }
    let why = match fetched::text(&address(language)).await {
        None => "language.missing",
        Some(file) => match words::take(language, file) {
            Ok(()) | Err(NotTaken::Carried) => return Ok(()),
            Err(NotTaken::OtherVersion) => "language.other_version",
        },
    };
    Err(words::say(Language::English, why, &[("language", Arg::from(language.own_name()))]))
}

/// Where a language's texts lie.
fn address(language: Language) -> String {
    format!("words/{}.txt", language.code())
}

/// The page was opened before its worker: what was fetched then is fetched again, so that the worker keeps it.
pub(super) fn watch(form: Form) {
    Effect::new(move |_| {
        let language = form.spoken.get();
        if form.shell.with(|shell| shell.offline == Offline::Ready) && language != Language::English {
            leptos::task::spawn_local(async move {
                let _ = fetched::text(&address(language)).await;
            });
        }
    });
}

impl Form {
    /// A language whose texts are at hand, from now on.
    pub(super) fn speak(self, language: Language) {
        self.spoken.try_set(language);
        // The browser reads aloud and hyphenates by it.
        super::app::tell_root("lang", language.code());
        note("language", language.code());
    }

    /// Speak another language from now on. Where its texts are not at hand, say so and go on as before.
    pub(crate) fn choose_language(self, language: Language) {
        leptos::task::spawn_local(async move {
            match ready(language).await {
                Ok(()) => {
                    self.set_settings(|s| s.language = Some(language.code().to_owned()));
                    // Sentences in the language before: what was saved last, and what did not work.
                    self.saves.try_update(|s| s.what.clear());
                    self.hush();
                    self.speak(language);
                    // The form itself holds what is half given: nothing is lost by it.
                    self.redraw();
                }
                Err(why) => self.tell(why),
            }
        });
    }
}

/// Left for the pages that have to speak, and be read, when the form cannot.
pub(super) fn note(what: &str, value: &str) {
    #[cfg(target_arch = "wasm32")]
    {
        use crate::keep::Quick as _;
        // Where the small store is shut, they are in English and by day.
        let _ = crate::keep::browser_quick::LocalQuick::new("marrowbook-").put(what, value);
    }
    #[cfg(not(target_arch = "wasm32"))]
    let _ = (what, value);
}

/// The languages offered, the browser's own first.
fn offered() -> Vec<Language> {
    let tag = web_sys::window().and_then(|w| w.navigator().language()).unwrap_or_default();
    let own = Language::of_tag(&tag).unwrap_or_default();
    let others = Language::ALL.into_iter().filter(|language| *language != own);
    std::iter::once(own).chain(others).collect()
}

/// A tile for each language, in its own tongue.
pub(crate) fn tiles(form: Form) -> AnyView {
    let one = |language: Language| {
        let chosen = form.language() == language;
        view! {
            <button
                type="button"
                class=if chosen { "tile chosen" } else { "tile" }
                lang=language.code()
                data-tile=format!("language-{}", language.code())
                aria-pressed=if chosen { "true" } else { "false" }
                on:click=move |event| {
                    if form.is_meant(&event) {
                        form.choose_language(language);
                    }
                }
            >
                <span class="label">{language.own_name()}</span>
            </button>
        }
    };
    view! {
        <div class="languages" role="group" aria-label=form.say("language.head")>
            {offered().into_iter().map(one).collect_view()}
        </div>
    }
    .into_any()
}

/// What stands beside a translation that nobody has checked yet.
pub(crate) fn unchecked(form: Form) -> Option<String> {
    (form.language() != Language::English).then(|| form.say("language.unchecked"))
}
