//! The root: made once, and the only owner of state.

use leptos::prelude::*;
use wasm_bindgen::JsCast as _;

use super::form::Form;
use super::opening::Early;
use super::parts::{HEAD, bar, notice, saved_line};
use super::{address, screens, shell};

/// The clock is read again this often: due back, daylight and the card's dates depend on it.
const CLOCK: std::time::Duration = std::time::Duration::from_secs(30);

/// The form, and its records, which are on their way.
pub(crate) fn app(early: Early) -> AnyView {
    let form = Form::new(address::screen());
    address::watch(move |screen| form.follow_address(screen));
    shell::watch(form);
    super::languages::watch(form);
    super::keys::watch(form);
    if let Ok(handle) = set_interval_with_handle(move || form.tick(), CLOCK) {
        // For as long as the page lives.
        let _ = handle;
    }
    light(form);
    super::opening::go_on(form, early);
    page(form)
}

fn page(form: Form) -> AnyView {
    // Drawn anew for another screen and after an entry, never for the clock: half-typed answers stay.
    let drawn = Memo::new(move |_| (form.screen.get(), form.turn.get(), form.ready.get()));
    let name = Memo::new(move |_| form.screen.with(super::screen::Screen::name));
    Effect::new(move |_| {
        drawn.track();
        request_animation_frame(focus_head);
    });
    view! {
        <div class="page" data-screen=name data-left-hand=move || form.settings.with(|s| s.left_hand).then_some("")>
            {move || {
                form.spoken.track();
                view! { {bar(form)} {saved_line(form)} }
            }}
            <main>
                {notice(form)}
                {move || match drawn.get() {
                    (screen, _, true) => screens::screen(form, &screen),
                    _ => view! {
                        <h1>{form.say("start.head")}</h1>
                        <p class="how" role="status">{form.say("opening.records")}</p>
                    }
                    .into_any(),
                }}
            </main>
        </div>
    }
    .into_any()
}

/// The head takes the focus, so that a screen reader says what is new and the keyboard starts there.
fn focus_head() {
    let head = web_sys::window().and_then(|w| w.document()).and_then(|d| d.get_element_by_id(HEAD));
    if let Some(head) = head.and_then(|h| h.dyn_into::<web_sys::HtmlElement>().ok()) {
        let _ = head.focus();
    }
    if let Some(window) = web_sys::window() {
        window.scroll_to_with_x_and_y(0.0, 0.0);
    }
}

/// Daylight or dusk, told to the style sheet on the root element.
fn light(form: Form) {
    Effect::new(move |_| tell_root("data-light", if form.settings.with(|s| s.dusk) { "dusk" } else { "day" }));
}

/// Something of the whole page, on the root element.
pub(super) fn tell_root(name: &str, value: &str) {
    if let Some(root) = web_sys::window().and_then(|w| w.document()).and_then(|d| d.document_element()) {
        let _ = root.set_attribute(name, value);
    }
}
