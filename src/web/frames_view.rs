//! Room for what the part draws: a text as an endless row of codes for the other phone's camera, and single codes.
//! Used by the form and by the office's page.

use leptos::prelude::*;

use super::platform::PlatformError;
use super::platform::frames_part;
use crate::bundle::deflate::deflate;
use crate::words::{Arg, Language, say};

/// Why the part is not here, and what next.
pub(crate) fn no_part(language: Language, why: &PlatformError) -> String {
    say(language, "frames.no_part", &[("reason", Arg::Text(why.to_string()))])
}

/// Room for what moves, with a word until the part is there.
pub(crate) fn room(language: Language) -> AnyView {
    view! { <div id="frames-box" class="frames-box"><p role="status">{say(language, "frames.loading", &[])}</p></div> }
        .into_any()
}

/// Fill the room left for codes (`data-code`), once the page is drawn. `failed` is told why not.
pub(crate) fn draw_codes(at: &'static str, language: Language, failed: impl FnOnce(String) + 'static) {
    leptos::task::spawn_local(async move {
        match frames_part::load(at).await {
            Ok(part) => part.draw_codes(),
            Err(why) => failed(no_part(language, &why)),
        }
    });
}

/// A text as moving codes. `at` is where the part lies from this page.
pub(crate) fn frames_view(text: &str, at: &'static str, language: Language) -> AnyView {
    let packed = deflate(text.as_bytes());
    let failed = RwSignal::new(String::new());
    leptos::task::spawn_local(async move {
        let shown = async { frames_part::load(at).await?.begin(language.code(), &packed).await };
        if let Err(why) = shown.await {
            failed.try_set(no_part(language, &why));
        }
    });
    let shown = move || match failed.get() {
        none if none.is_empty() => room(language),
        why => view! { <p class="alert" role="alert" data-frames="failed">{why}</p> }.into_any(),
    };
    view! { {shown} }.into_any()
}
