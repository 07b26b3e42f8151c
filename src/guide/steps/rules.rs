//! Answers that the record already settles: what is eaten, frozen, buried or not allowed is written
//! with its reason instead of being asked.

use crate::guide::{View, may_open, may_take_femur, may_take_jaw};
use crate::record::{Answer, Site, Why, sample_of_item};

fn gone(v: &View) -> Option<Answer> {
    v.body_is("bones_and_hair").then_some(Answer::PartGone { why: Why::Scavenged })
}

/// Hide, flesh and gut: gone where only bones and hair are left.
pub(super) fn soft_parts(v: &View, _: Site) -> Option<Answer> {
    gone(v)
}

/// Why nobody touches, where that was said.
fn untouched(v: &View) -> Option<Answer> {
    refused(v, "touching_allowed")
}

/// `NotLooked` with the reason for which a permission was not given; `None` while it is not asked yet
/// or where it was given.
fn refused(v: &View, permission: &str) -> Option<Answer> {
    if !v.is_answered(permission, Site::NONE) || v.there(permission) {
        return None;
    }
    let why = match v.answer(permission) {
        Answer::CantTell { why } | Answer::NotLooked { why } | Answer::PartGone { why } if why != Why::NotGiven => why,
        _ => Why::NotTrained,
    };
    Some(Answer::NotLooked { why })
}

/// What is touched, where nobody touches.
pub(super) fn touching(v: &View, _: Site) -> Option<Answer> {
    untouched(v)
}

/// Hide and flesh looked over by hand.
pub(super) fn soft_touching(v: &View, site: Site) -> Option<Answer> {
    soft_parts(v, site).or_else(|| untouched(v))
}

/// Girth is taken round a whole body that is neither frozen nor bloated; the chest keeps the form that it
/// froze in.
pub(super) fn girth(v: &View, site: Site) -> Option<Answer> {
    if v.chose("body_frozen", "frozen_solid") || v.chose("body_frozen", "part_frozen") {
        Some(Answer::NotLooked { why: Why::Frozen })
    } else if v.chose("decay", "bloated_or_soft") || v.there("swollen_belly") {
        Some(Answer::NotLooked { why: Why::Decayed })
    } else {
        soft_touching(v, site)
    }
}

/// Whether to open at all: nothing left, frozen through, under snow, or nobody touches.
pub(super) fn opening(v: &View, site: Site) -> Option<Answer> {
    let not_looked = |why| Some(Answer::NotLooked { why });
    if v.chose("body_frozen", "frozen_solid") && gone(v).is_none() {
        not_looked(Why::Frozen)
    } else if v.chose("body_buried", "mostly_buried") && gone(v).is_none() {
        not_looked(Why::Buried)
    } else {
        soft_touching(v, site)
    }
}

/// The fist pressed into the belly is the last test before anybody is asked to open. Nobody is asked
/// where the card in force lets nobody open.
pub(super) fn opening_tested(v: &View, site: Site) -> Option<Answer> {
    let not_looked = |why| Some(Answer::NotLooked { why });
    let hard = v.chose("belly_dents_under_fist", "hard");
    let somebody = v.card_in_force().is_some_and(|card| card.people.iter().any(|person| person.may_open));
    opening(v, site)
        .or_else(|| if hard { not_looked(Why::Frozen) } else { None })
        .or_else(|| if somebody { None } else { not_looked(Why::NotTrained) })
}

/// What lies inside, once somebody trained was asked for.
pub(super) fn inside(v: &View, site: Site) -> Option<Answer> {
    let nobody = v.is_answered("opening_trained", Site::NONE) && !may_open(v);
    opening_tested(v, site)
        .or_else(|| refused(v, "opening_trained"))
        .or_else(|| nobody.then_some(Answer::NotLooked { why: Why::NotTrained }))
}

/// Taking the lower jaw: the card in force has to name this person for it.
pub(super) fn taking_jaw(v: &View, _: Site) -> Option<Answer> {
    untouched(v).or_else(|| not_named(may_take_jaw(v)))
}

/// Taking a long bone: the card in force has to name this person for it.
pub(super) fn taking_femur(v: &View, _: Site) -> Option<Answer> {
    untouched(v).or_else(|| not_named(may_take_femur(v)))
}

fn not_named(named: bool) -> Option<Answer> {
    (!named).then_some(Answer::NotLooked { why: Why::NotTrained })
}

/// Jaw, long bone, kidneys and heart say what they are by their number.
pub(super) fn sample_named(_: &View, site: Site) -> Option<Answer> {
    site.item.and_then(sample_of_item).map(Answer::choice)
}

/// How marrow holds together cannot be told while it is frozen: ice is as hard as fat. The look
/// (light through it, colour, photo) is kept raw, and the bench classes it after thawing.
pub(super) fn frozen_marrow(v: &View, site: Site) -> Option<Answer> {
    let frozen = v.question("marrow_frozen", site).answer() == Answer::choice("frozen");
    frozen.then_some(Answer::CantTell { why: Why::Frozen })
}

/// The same in the field, where nobody may touch either.
pub(super) fn frozen_or_untouched_marrow(v: &View, site: Site) -> Option<Answer> {
    untouched(v).or_else(|| frozen_marrow(v, site))
}
