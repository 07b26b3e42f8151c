//! The second copy: a store proper that is thrown away, whenever, costs nothing that was ticked.
//! What must hold is our own design; no outside source is needed.

use std::rc::Rc;

use proptest::prelude::*;

use crate::record::{Digest, Entry, Head, verify_range};

use super::memory::{Disk, MemoryQuick, MemorySpare, MemoryStore};
use super::spare::{Doubled, Spare as _};
use super::test_kit::{answers, begin, block_on, device, device_of};
use super::{Break, Opened, Queue, Store as _, StoreError, Writing};

type Both = Doubled<MemoryStore, MemorySpare>;

#[derive(Clone, Default)]
struct Phone {
    store: MemoryStore,
    spare: MemorySpare,
    quick: MemoryQuick,
}

impl Phone {
    fn stores(&self) -> Both {
        let names = block_on(self.spare.names());
        Doubled::new(self.store.clone(), self.spare.clone(), names)
    }

    fn open(&self) -> Opened<Both, MemoryQuick> {
        block_on(super::open(Rc::new(self.stores()), self.quick.clone(), &begin(1), device_of, true))
    }

    /// Answers by one tap; what of it was ticked.
    fn tap(queue: &Queue<Both, MemoryQuick>, count: usize) -> Vec<Entry> {
        let drafted = queue.draft(answers(&vec!["whole"; count])).unwrap();
        let flushed = block_on(queue.flush());
        if flushed.is_ok() { drafted.entries } else { Vec::new() }
    }

    /// The browser throws its store away, and what it keeps beside it.
    fn lose(&self) {
        *self.store.disk.borrow_mut() = Disk::default();
        self.quick.kill(usize::MAX);
    }
}

fn queue(opened: &Opened<Both, MemoryQuick>) -> &Queue<Both, MemoryQuick> {
    match &opened.writing {
        Writing::Queue(queue) => queue,
        Writing::ReadOnly => panic!("may write"),
    }
}

#[test]
fn a_store_that_was_thrown_away_comes_back_with_its_key() {
    let phone = Phone::default();
    let first = phone.open();
    let ticked: Vec<Entry> = [1, 3, 2].into_iter().flat_map(|n| Phone::tap(queue(&first), n)).collect();
    assert_eq!(ticked.len(), 6);
    phone.lose();
    let again = phone.open();
    assert_eq!((again.report.spared, again.report.recovered, again.report.new_chain), (6, 0, None));
    assert_eq!(again.device, first.device);
    assert_eq!(again.seed, first.seed);
    for entry in &ticked {
        assert!(again.journal.entries().any(|other| other == entry));
    }
    // They lie in the store proper again, the chain goes on, and the next start has nothing to say.
    let next = Phone::tap(queue(&again), 1);
    let all: Vec<Entry> = ticked.iter().chain(&next).cloned().collect();
    assert!(verify_range(Head::start(first.device), &all).is_ok());
    assert_eq!(phone.store.disk.borrow().rows.len(), 7);
    assert_eq!(phone.open().report.spared, 0);
}

#[test]
fn no_tick_without_the_second_copy() {
    let phone = Phone::default();
    let opened = phone.open();
    phone.spare.full.set(true);
    assert_eq!(Phone::tap(queue(&opened), 2), vec![]);
    assert_eq!(queue(&opened).trouble(), Some(StoreError::Full));
    // With room again the next tap takes the earlier ones along.
    phone.spare.full.set(false);
    assert_eq!(Phone::tap(queue(&opened), 1).len(), 1);
    phone.lose();
    assert_eq!(phone.open().report.spared, 3);
}

#[test]
fn a_browser_without_a_second_store_keeps_what_it_can() {
    let phone = Phone::default();
    phone.spare.refused.set(true);
    let opened = phone.open();
    assert_eq!(Phone::tap(queue(&opened), 2).len(), 2);
    assert_eq!(phone.store.disk.borrow().rows.len(), 2);
    assert!(phone.spare.pieces.borrow().is_empty());
}

#[test]
fn what_an_earlier_form_kept_is_copied_and_many_pieces_become_one() {
    let phone = Phone::default();
    phone.spare.refused.set(true);
    let ticked: usize = (0..70).map(|_| Phone::tap(queue(&phone.open()), 1).len()).sum();
    phone.spare.refused.set(false);
    let photo = Digest::of(&[b"photo"]);
    block_on(phone.store.put_photo(photo, b"bytes")).unwrap();
    let stores = phone.stores();
    block_on(stores.tidy()).unwrap();
    // One piece of entries, the seed, the photo.
    assert_eq!(phone.spare.pieces.borrow().len(), 3);
    for _ in 0..70 {
        Phone::tap(queue(&phone.open()), 1);
    }
    assert_eq!(phone.spare.pieces.borrow().len(), 73);
    block_on(phone.stores().tidy()).unwrap();
    // What is one piece already stays as it is.
    assert_eq!(phone.spare.pieces.borrow().len(), 4);
    phone.lose();
    let opened = phone.open();
    assert_eq!(opened.report.spared, ticked + 70);
    assert_eq!(block_on(phone.stores().photo(photo)), Ok(Some(b"bytes".to_vec())));
    block_on(phone.stores().delete_photo(photo)).unwrap();
    assert_eq!(block_on(phone.stores().photos()), Ok(vec![]));
    assert!(!phone.spare.pieces.borrow().contains_key(&format!("photo.{photo}")));
}

#[test]
fn settings_come_back_and_the_store_proper_goes_first() {
    let phone = Phone::default();
    let stores = phone.stores();
    block_on(stores.put_setting("form", "1")).unwrap();
    phone.lose();
    assert_eq!(block_on(phone.stores().setting("form")), Ok(Some("1".to_owned())));
    block_on(phone.store.put_setting("form", "2")).unwrap();
    assert_eq!(block_on(phone.stores().setting("form")), Ok(Some("2".to_owned())));
}

#[test]
fn a_piece_that_does_not_read_is_told_and_its_number_not_used_again() {
    let phone = Phone::default();
    let opened = phone.open();
    for _ in 0..3 {
        Phone::tap(queue(&opened), 1);
    }
    let last = format!("entries.{}.3.3", device(1));
    block_on(phone.spare.put(&last, b"")).unwrap();
    phone.lose();
    let again = phone.open();
    assert_eq!(again.report.spared, 2);
    assert_eq!(again.report.new_chain, Some(Break::Gap { first: 3 }));
    assert_eq!(queue(&again).head().seq, 4);
}

proptest! {
    #[test]
    fn thrown_away_at_any_time(steps in prop::collection::vec((1..4_usize, any::<bool>(), any::<bool>(), 0..9_u8), 1..12)) {
        let phone = Phone::default();
        let mut ticked: Vec<Entry> = Vec::new();
        for (count, full, gone, lose) in steps {
            let opened = phone.open();
            prop_assert_eq!(opened.report.new_chain, None);
            for entry in &ticked {
                prop_assert!(opened.journal.entries().any(|other| other == entry));
            }
            // The page that writes does this after its start; a page may also be gone before it comes to it.
            block_on(phone.stores().tidy()).unwrap();
            if gone {
                continue;
            }
            phone.spare.full.set(full);
            ticked.extend(Phone::tap(queue(&opened), count));
            phone.spare.full.set(false);
            // With the quick store whole, what was not ticked comes back too and no number is used twice.
            if lose < 4 {
                *phone.store.disk.borrow_mut() = Disk::default();
            }
        }
    }
}
