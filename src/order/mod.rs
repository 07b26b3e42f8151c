//! Putting short lists in order.
//!
//! The standard library's sort is made for long lists and comes to about 4 kB of code for every type that it
//! sorts; with some sixty types that was a tenth of the phone's form. What is put in order here has tens of
//! rows (looks, samples, causes), so that one small insertion, shared by all types, does. Long lists (a journal,
//! a season) use the standard sort.

pub(crate) mod decimal;

use std::cmp::Ordering;

/// Sets and maps filled one by one: `collect` sorts first, with code of its own for every type.
pub(crate) trait Gather: Iterator + Sized {
    /// All that is left, gathered.
    fn gather<C: Default + Extend<Self::Item>>(self) -> C {
        let mut all = C::default();
        all.extend(self);
        all
    }
}

impl<I: Iterator> Gather for I {}

/// Two places of a list, compared and exchanged without knowing what lies there.
trait Places {
    fn out_of_order(&self, at: usize) -> bool;
    fn exchange(&mut self, at: usize);
}

struct Of<'a, T, F>(&'a mut [T], F);

impl<T, F: Fn(&T, &T) -> Ordering> Places for Of<'_, T, F> {
    fn out_of_order(&self, at: usize) -> bool {
        match (self.0.get(at), self.0.get(at + 1)) {
            (Some(a), Some(b)) => (self.1)(a, b).is_gt(),
            _ => false,
        }
    }

    fn exchange(&mut self, at: usize) {
        self.0.swap(at, at + 1);
    }
}

fn insert_each(places: &mut dyn Places, count: usize) {
    for end in 1..count {
        let mut at = end;
        while at > 0 && places.out_of_order(at - 1) {
            places.exchange(at - 1);
            at -= 1;
        }
    }
}

/// Short lists. Rows that compare equal keep their order.
pub(crate) trait Short<T> {
    /// Least first.
    fn order(&mut self)
    where
        T: Ord;
    /// By this comparison.
    fn order_by(&mut self, compare: impl Fn(&T, &T) -> Ordering);
    /// By this key, least first.
    fn order_by_key<K: Ord>(&mut self, key: impl Fn(&T) -> K);
}

impl<T> Short<T> for [T] {
    fn order(&mut self)
    where
        T: Ord,
    {
        self.order_by(T::cmp);
    }

    fn order_by(&mut self, compare: impl Fn(&T, &T) -> Ordering) {
        let count = self.len();
        insert_each(&mut Of(self, compare), count);
    }

    fn order_by_key<K: Ord>(&mut self, key: impl Fn(&T) -> K) {
        self.order_by(|a, b| key(a).cmp(&key(b)));
    }
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::{Gather as _, Short};
    use std::collections::{BTreeMap, BTreeSet};

    proptest! {
        #[test]
        fn orders_like_the_standard_stable_sort(rows in proptest::collection::vec((0_u8..6, 0_u8..250), 0..40)) {
            let (mut ours, mut theirs) = (rows.clone(), rows);
            ours.order_by_key(|row| row.0);
            theirs.sort_by_key(|row| row.0);
            prop_assert_eq!(&ours, &theirs);
            ours.order_by(|a, b| b.1.cmp(&a.1));
            theirs.sort_by_key(|row| std::cmp::Reverse(row.1));
            prop_assert_eq!(&ours, &theirs);
            ours.order();
            theirs.sort_unstable(); // rows that compare equal are equal here
            prop_assert_eq!(ours, theirs);
        }

        #[test]
        fn gathers_what_collect_collects(rows in proptest::collection::vec((0_u8..6, 0_u8..250), 0..40)) {
            let map = || rows.iter().copied();
            prop_assert_eq!(map().gather::<BTreeMap<u8, u8>>(), map().collect::<BTreeMap<u8, u8>>());
            prop_assert_eq!(map().gather::<BTreeSet<_>>(), map().collect::<BTreeSet<_>>());
        }
    }
}
