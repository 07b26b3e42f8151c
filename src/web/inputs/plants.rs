//! Picking a plant from the browse list: a group, then its plants.

use leptos::prelude::*;

use crate::science::diet::plants::{self, Group, Plant};
use crate::web::form::Form;
use crate::web::parts::{Look, tile};

/// The page on which groups are picked; those after it are the groups' own.
pub(super) const GROUPS: usize = 1;
/// The first page that is no longer the picker's.
pub(super) const AFTER: usize = GROUPS + 1 + Group::ALL.len();

/// The name of a plant; of one that is not known here, its code.
pub(crate) fn name(form: Form, code: &str) -> String {
    crate::web::wording::plant(form.language(), code)
}

/// Turn to a page of the input in hand.
pub(super) fn turn_to(form: Form, page: usize) {
    form.page.try_set(page);
    form.bounce_from_now();
}

/// The picker at one of its pages. `take` gets the plant picked.
pub(super) fn picker(form: Form, page: usize, take: impl Fn(&'static Plant) + Copy + 'static) -> AnyView {
    let back_to = if page == GROUPS { 0 } else { GROUPS };
    let back = tile(form, "plants-back", form.say("plants.back"), Look::Aside, move || turn_to(form, back_to));
    let (head, tiles) = match page.checked_sub(GROUPS + 1).and_then(|at| Group::ALL.get(at)) {
        None => ("plants.which_group", groups(form)),
        Some(group) => ("plants.which", of_group(form, *group, take)),
    };
    view! {
        <p class="part">{form.say(head)}</p>
        <div class="plants two">{tiles}</div>
        <div class="foot">{back}</div>
    }
    .into_any()
}

fn groups(form: Form) -> AnyView {
    let one = |(at, group): (usize, Group)| {
        let label = form.say(&format!("plants.{}", group.code()));
        tile(form, group.code(), label, Look::Value, move || turn_to(form, GROUPS + 1 + at))
    };
    Group::ALL.into_iter().enumerate().map(one).collect_view().into_any()
}

fn of_group(form: Form, group: Group, take: impl Fn(&'static Plant) + Copy + 'static) -> AnyView {
    plants::all()
        .filter(|plant| plant.group == group)
        .map(|plant| tile(form, plant.code, name(form, plant.code), Look::Value, move || take(plant)))
        .collect_view()
        .into_any()
}
