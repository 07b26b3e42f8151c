//! What a food ranks and is worth: by the local card where it has a row for it, else by the form's list.

use std::cell::RefCell;

use super::diet::Names;
use super::local::Local;
use super::message_ids::diet as say;
use super::shape::{Basis, Statement, Val};
use crate::card::{BrowseFood, BrowseTier, browse_key};
use crate::science::diet::plants::{self, Tier};

/// Where a plant stands: preferred and second in one, readily, poor, on no list.
pub(super) const POOR: usize = 2;
const OFF: usize = 3;

/// The card's rows and what was used of them.
pub(super) struct Browse<'a> {
    local: Local<'a>,
    used: RefCell<Vec<&'a BrowseFood>>,
}

impl<'a> Browse<'a> {
    pub(super) const fn of(local: Local<'a>) -> Self {
        Self { local, used: RefCell::new(Vec::new()) }
    }

    /// The card's row of a plant: by its code, or by the name that somebody wrote.
    fn row(&self, code: &str, names: &Names) -> Option<&'a BrowseFood> {
        let key = names.own(code).map_or_else(|| code.to_owned(), browse_key);
        self.local.figures?.browse.iter().find(|food| food.key() == key)
    }

    /// Its tier, as one of the four headings.
    pub(super) fn tier(&self, code: &str, names: &Names) -> usize {
        let own = self.row(code, names).and_then(|food| Some((food, food.tier?)));
        if let Some((food, tier)) = own {
            let mut used = self.used.borrow_mut();
            if !used.contains(&food) {
                used.push(food);
            }
            return match tier {
                BrowseTier::Preferred | BrowseTier::Second => 0,
                BrowseTier::Readily => 1,
                BrowseTier::Poor => POOR,
            };
        }
        match plants::of_code(code).and_then(|plant| plant.new_york) {
            Some(Tier::Preferred | Tier::Second) => 0,
            Some(Tier::Readily) => 1,
            Some(Tier::Poor) => POOR,
            None => OFF,
        }
    }

    /// Whether the card ranks it.
    pub(super) fn ranks(&self, code: &str, names: &Names) -> bool {
        self.row(code, names).is_some_and(|food| food.tier.is_some())
    }

    /// Whether some rank is the card's.
    pub(super) fn is_used(&self) -> bool {
        !self.used.borrow().is_empty()
    }

    /// What the card says of each of these, and what that rests on.
    pub(super) fn told(&self, codes: &[&str], names: &Names) -> (Vec<Statement>, Vec<Basis>) {
        let (mut said, mut basis) = (Vec::new(), Vec::new());
        for (code, food) in codes.iter().filter_map(|code| Some((*code, self.row(code, names)?))) {
            let of = |id: &str| {
                Statement::plain(id)
                    .with("plant", names.of(code))
                    .with("region", Val::Text(food.region.clone()))
                    .with("source", Val::Text(food.source.clone()))
            };
            if let Some(tier) = food.tier {
                said.push(of(say::OWN_TIER).with("tier", Val::message(say::rank(tier))));
            }
            if let Some(percent) = food.digestible_percent {
                said.push(of(say::OWN_DIGESTIBLE).with("percent", Val::Count(i64::from(percent))));
            }
            basis.push(self.local.basis("card-browse", format!("{}, {}: {}", food.item, food.region, food.source)));
        }
        (said, basis)
    }
}
