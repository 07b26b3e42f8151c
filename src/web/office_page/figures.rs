//! The figures, worked out in short parts after each change of the archive, so that no tap waits for them.

use std::sync::{Arc, Weak};

use leptos::prelude::*;

use super::desk::{Desk, count, now, tell, tell_with};
use crate::office::hand::{Fading, Figures, Hand};
use crate::web::platform::clock::{drawn, monotonic_ms, pause_ms};

/// How long one part may take before the page looks for taps, ms.
const PART_MS: u64 = 16;
/// How long to wait before it is asked again whether somebody looks at figures that others took the place of, ms.
const STILL_LOOKED_AT_MS: i32 = 500;

/// Runs `step` part by part until it says false, with pauses; false where `goes_on` said so before.
pub(super) async fn in_parts(mut step: impl FnMut() -> bool, goes_on: impl Fn() -> bool) -> bool {
    loop {
        let begun = monotonic_ms().unwrap_or_default();
        while monotonic_ms().unwrap_or_default().saturating_sub(begun) < PART_MS {
            if !step() {
                return goes_on();
            }
        }
        pause_ms(0).await;
        if !goes_on() {
            return false;
        }
    }
}

/// Runs `step` until it says false, as [`in_parts`], with a pause before each part that `is_long` names.
pub(super) async fn in_uneven_parts<T>(work: &mut T, step: impl Fn(&mut T) -> bool, is_long: impl Fn(&T) -> bool) {
    let mut more = true;
    while more {
        pause_ms(0).await;
        // The first part however long, then others until one is long.
        let mut first = true;
        let some = || {
            let now = std::mem::take(&mut first) || !is_long(work);
            if now {
                more = step(work);
            }
            now && more
        };
        in_parts(some, || true).await;
    }
}

/// Works the figures out anew whenever the archive changes.
pub(super) fn keep_working(desk: Desk) {
    let turn = StoredValue::new(0_u32);
    Effect::new(move || {
        let working = desk.hand.with(|hand| (!hand.received().is_empty()).then(|| Hand::working(hand, now())));
        turn.update_value(|turn| *turn = turn.wrapping_add(1));
        let mine = turn.get_value();
        let Some(mut working) = working else {
            desk.figures.set(None);
            return desk.progress.set(None);
        };
        desk.progress.set(Some((0, 0)));
        leptos::task::spawn_local(async move {
            // What was tapped is drawn first.
            drawn().await;
            let goes_on = || turn.try_get_value() == Some(mine);
            let mut told = 0;
            let step = || {
                let more = working.step();
                let (done, all) = working.so_far();
                if done >= told + 100 {
                    told = done;
                    desk.progress.try_set(Some((done, all)));
                }
                more
            };
            if in_parts(step, goes_on).await {
                let made = Arc::new(working.done());
                let before = desk.figures.try_update(|figures| figures.replace(made)).flatten();
                desk.progress.try_set(None);
                if let Some(before) = before {
                    fade(before).await;
                }
            } else {
                in_parts(|| working.let_go(), || true).await;
            }
        });
    });
}

/// Lets go of figures in parts once nobody else looks at them: whoever looks last would let go of all at once.
async fn fade(figures: Arc<Figures>) {
    // What was drawn of them is drawn anew first.
    drawn().await;
    while Arc::strong_count(&figures) > 1 {
        pause_ms(STILL_LOOKED_AT_MS).await;
    }
    if let Some(mut fading) = Fading::of(figures) {
        in_parts(|| fading.step(), || true).await;
    }
}

/// Whether these are the figures that something was made of, which need not be there any more.
pub(super) fn are(then: &Weak<Figures>, now: &Arc<Figures>) -> bool {
    std::ptr::eq(then.as_ptr(), Arc::as_ptr(now))
}

/// How far the work has come.
pub(super) fn progress(desk: Desk) -> AnyView {
    let words = move || match (desk.opening.get(), desk.progress.get()) {
        (Some((_, 0)), _) => tell("desk.opening"),
        (Some((done, all)), _) => tell_with("desk.opening.files", &[("done", count(done)), ("all", count(all))]),
        (None, None) => String::new(),
        (None, Some((_, 0))) => tell("desk.working.begin"),
        (None, Some((done, all))) => tell_with("desk.working", &[("done", count(done)), ("all", count(all))]),
    };
    let state = move || match (desk.opening.get(), desk.progress.get()) {
        (Some(_), _) => "opening",
        (None, Some(_)) => "yes",
        (None, None) => "no",
    };
    view! { <p class="working" data-working=state>{words}</p> }.into_any()
}
