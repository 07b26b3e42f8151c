//! What becomes of a keyring that was picked by itself, once the archive gets an office key.

use leptos::prelude::*;

use super::desk::{Desk, count, tell_with};
use crate::office::hand::Hand;
use crate::office::keyring::Keyring;

/// So many phones are named.
const NAMED: usize = 20;

/// What the person chose; nothing at first, for either way changes what counts.
#[derive(Clone, Copy)]
pub(super) struct OfPicked(RwSignal<Option<bool>>);

impl OfPicked {
    pub(super) fn new() -> Self {
        Self(RwSignal::new(None))
    }

    /// Where nothing is to be chosen.
    pub(super) fn settled() -> Self {
        Self(RwSignal::new(Some(false)))
    }

    /// What goes onto the archive's keyring; `None` where the person has to choose first.
    pub(super) fn ring(self, desk: Desk) -> Option<Keyring> {
        let picked = desk.hand.with_untracked(Hand::picked_ring);
        match self.0.get_untracked() {
            _ if picked.devices().is_empty() => Some(picked),
            Some(true) => Some(picked),
            Some(false) => Some(Keyring::default()),
            None => None,
        }
    }

    /// The question, where there is such a keyring.
    pub(super) fn asked(self, desk: Desk) -> impl Fn() -> Option<AnyView> + Send + 'static {
        let picked = Memo::new(move |_| desk.hand.with(Hand::picked_ring));
        move || {
            let names = picked.with(names);
            (!names.is_empty()).then(|| self.question(&names))
        }
    }

    fn question(self, names: &[String]) -> AnyView {
        let n = count(names.len());
        let first = names.iter().take(NAMED).map(String::as_str).collect::<Vec<_>>().join(", ");
        let told = match names.len().saturating_sub(NAMED) {
            0 => first,
            more => tell_with("key.page.ring.more", &[("names", first.into()), ("n", count(more))]),
        };
        let way = |take: bool, id: &str| {
            view! {
                <label class="check-line">
                    <input type="radio" name="of-picked" data-field=if take { "ring-take" } else { "ring-leave" }
                        prop:checked=move || self.0.get() == Some(take) on:change=move |_| self.0.set(Some(take))/>
                    {tell_with(id, &[("n", n.clone())])}
                </label>
            }
        };
        view! {
            <fieldset class="card-row" data-of-picked=names.len()>
                <legend>{tell_with("key.page.ring", &[("n", n.clone()), ("names", told.into())])}</legend>
                {way(true, "key.page.ring.take")}
                {way(false, "key.page.ring.leave")}
            </fieldset>
        }
        .into_any()
    }
}

fn names(ring: &Keyring) -> Vec<String> {
    ring.devices().iter().map(|one| one.label.clone()).collect()
}
