//! The queue: order, batches, failures and what is promised under each.

use std::pin::pin;

use crate::record::{Act, Head, verify_range};

use super::memory::Fault;
use super::test_kit::{Phone, answers, block_on, body, device, go_on, step};
use super::{Promise, Quick, Saved, StoreError, copies, photo, row};

fn fail(phone: &Phone, error: StoreError, applied: bool) {
    phone.store.faults.borrow_mut().push_back(Fault { error, applied });
}

fn lost() -> StoreError {
    StoreError::Lost("asleep".to_owned())
}

fn rows(phone: &Phone) -> usize {
    phone.store.disk.borrow().rows.len()
}

fn copy_count(phone: &Phone) -> usize {
    copies::read(&phone.quick).unwrap().copies.len()
}

#[test]
fn the_copy_is_there_at_once_and_the_tick_only_when_it_is_on_disk() {
    let phone = Phone::default();
    let queue = phone.queue(1);
    let drafted = queue.draft(answers(&["whole"])).unwrap();
    assert_eq!((copy_count(&phone), rows(&phone)), (1, 0));
    let mut saving = pin!(drafted.saving);
    let mut flush = pin!(queue.flush());
    assert!(step(saving.as_mut()).is_none());
    let mut polls = 0;
    while step(flush.as_mut()).is_none() {
        polls += 1;
        assert!(step(saving.as_mut()).is_none(), "no tick while the transaction runs");
    }
    assert!(polls >= 2);
    assert_eq!(step(saving.as_mut()), Some(Ok(Saved { earlier: 0 })));
    assert_eq!((copy_count(&phone), rows(&phone)), (0, 1));
}

#[test]
fn a_panel_of_answers_is_saved_together_or_not_at_all() {
    let phone = Phone::default();
    let queue = phone.queue(1);
    fail(&phone, StoreError::Full, false);
    let drafted = queue.draft(answers(&["whole", "bones", "frozen"])).unwrap();
    assert!(verify_range(Head::start(device(1)), &drafted.entries).is_ok());
    assert_eq!(block_on(queue.flush()).unwrap_err().waiting, 3);
    assert_eq!(rows(&phone), 0);
    block_on(queue.flush()).unwrap();
    assert_eq!(rows(&phone), 3);
}

#[test]
fn a_failed_answer_waits_in_order_and_goes_with_the_next() {
    let phone = Phone::default();
    let queue = phone.queue(1);
    fail(&phone, StoreError::Full, false);
    let first = queue.draft(answers(&["whole"])).unwrap();
    block_on(queue.flush()).unwrap_err();
    let unsaved = block_on(first.saving).unwrap_err();
    assert_eq!((unsaved.reason, unsaved.promise, unsaved.waiting), (StoreError::Full, Promise::CrashedTabOnly, 1));
    assert_eq!(queue.trouble(), Some(StoreError::Full));
    let second = queue.draft(answers(&["bones"])).unwrap();
    block_on(queue.flush()).unwrap();
    assert_eq!(block_on(second.saving), Ok(Saved { earlier: 1 }));
    assert_eq!((rows(&phone), copy_count(&phone), queue.waiting()), (2, 0, 0));
    assert_eq!((queue.promise(), queue.trouble()), (Promise::CrashAndPowerLoss, None));
    let opened = phone.open(9);
    let stored: Vec<_> = opened.journal.entries().cloned().collect();
    assert_eq!(stored, [first.entries[0].clone(), second.entries[0].clone()]);
}

#[test]
fn answers_given_while_a_transaction_runs_are_not_mixed_into_it() {
    let phone = Phone::default();
    let queue = phone.queue(1);
    let first = queue.draft(answers(&["whole"])).unwrap();
    let mut flush = pin!(queue.flush());
    assert!(step(flush.as_mut()).is_none());
    let second = queue.draft(answers(&["bones"])).unwrap();
    let mut other = pin!(queue.flush());
    assert!(step(other.as_mut()).is_none(), "the turn is taken");
    while step(flush.as_mut()).is_none() {}
    assert_eq!(block_on(first.saving), Ok(Saved { earlier: 0 }));
    let mut saving = pin!(second.saving);
    assert!(step(saving.as_mut()).is_none());
    assert_eq!(rows(&phone), 1);
    let head = phone.store.disk.borrow().heads[&device(1)].clone();
    assert_eq!(head, row::write_head(&Head::after(&first.entries[0])), "the head is that of what is on disk");
    while step(other.as_mut()).is_none() {}
    assert_eq!(step(saving.as_mut()), Some(Ok(Saved { earlier: 0 })));
    assert_eq!(rows(&phone), 2);
}

#[test]
fn a_lost_connection_is_opened_again_once() {
    let phone = Phone::default();
    let queue = phone.queue(1);
    fail(&phone, lost(), false);
    let drafted = queue.draft(answers(&["whole"])).unwrap();
    block_on(queue.flush()).unwrap();
    assert_eq!(block_on(drafted.saving), Ok(Saved { earlier: 0 }));
    fail(&phone, lost(), false);
    fail(&phone, lost(), false);
    queue.draft(answers(&["bones"])).unwrap();
    assert_eq!(block_on(queue.flush()).unwrap_err().reason, lost(), "the second loss is told");
    block_on(queue.flush()).unwrap();
    assert_eq!(rows(&phone), 2);
}

#[test]
fn a_transaction_whose_end_was_not_heard_is_not_written_twice() {
    let phone = Phone::default();
    let queue = phone.queue(1);
    fail(&phone, lost(), true);
    let drafted = queue.draft(answers(&["whole"])).unwrap();
    block_on(queue.flush()).unwrap();
    assert_eq!(block_on(drafted.saving), Ok(Saved { earlier: 0 }));
    assert_eq!((rows(&phone), copy_count(&phone)), (1, 0));
    // In twice over and told so only after another answer was given.
    fail(&phone, lost(), true);
    fail(&phone, lost(), false);
    queue.draft(answers(&["bones"])).unwrap();
    fail(&phone, StoreError::Full, false);
    block_on(queue.flush()).unwrap_err();
    queue.draft(answers(&["frozen"])).unwrap();
    phone.store.faults.borrow_mut().clear();
    block_on(queue.flush()).unwrap();
    assert_eq!((rows(&phone), queue.waiting()), (3, 0));
    assert_eq!(phone.open(9).report, super::Report::default());
}

#[test]
fn a_rival_under_the_same_number_stays_and_ours_is_kept_for_the_next_start() {
    let phone = Phone::default();
    let queue = phone.queue(1);
    let rival = go_on(Head::start(device(1)), 1, "frozen").swap_remove(0);
    phone.store.disk.borrow_mut().rows.insert(rival.id(), row::write(&rival));
    let drafted = queue.draft(answers(&["whole"])).unwrap();
    let unsaved = block_on(queue.flush()).unwrap_err();
    assert_eq!((unsaved.reason, unsaved.promise), (StoreError::Taken, Promise::CrashedTabOnly));
    assert_eq!(phone.store.disk.borrow().rows[&rival.id()], row::write(&rival));
    let opened = phone.open(9);
    assert_eq!((opened.journal.len(), opened.report.forks.as_slice()), (2, &[drafted.entries[0].id()][..]));
}

#[test]
fn a_full_quick_store_costs_nothing_while_the_other_works() {
    let phone = Phone::default();
    let queue = phone.queue(1);
    phone.quick.room.set(Some(1));
    let drafted = queue.draft(answers(&["whole"])).unwrap();
    assert_eq!(copy_count(&phone), 0);
    block_on(queue.flush()).unwrap();
    assert_eq!(block_on(drafted.saving), Ok(Saved { earlier: 0 }));
    fail(&phone, StoreError::Full, false);
    queue.draft(answers(&["bones"])).unwrap();
    assert_eq!(block_on(queue.flush()).unwrap_err().promise, Promise::MemoryOnly);
}

#[test]
fn a_body_that_cannot_be_written_takes_nothing_with_it() {
    let phone = Phone::default();
    let queue = phone.queue(1);
    let mut unknown = body("whole");
    unknown.act = Act::Unknown { kind: "mood".to_owned() };
    let mut panel = answers(&["whole"]);
    panel.push((unknown, panel[0].1));
    assert!(queue.draft(panel).is_err());
    assert_eq!((queue.waiting(), queue.head(), copy_count(&phone)), (0, Head::start(device(1)), 0));
}

#[test]
fn no_answer_is_saved_at_once() {
    let queue = Phone::default().queue(1);
    assert_eq!(block_on(queue.draft(vec![]).unwrap().saving), Ok(Saved { earlier: 0 }));
}

#[test]
fn photos_are_kept_by_digest_and_a_changed_byte_shows() {
    let phone = Phone::default();
    let kept = block_on(photo::keep(&phone.store, b"abc", "image/jpeg")).unwrap();
    // FIPS 180-4 example for "abc".
    assert_eq!(kept.sha256.to_string(), "ungWv48Bz-pBQUDeXa4iI7ADYaOWF3qctBD_YfIAFa0");
    assert_eq!(kept.bytes, 3);
    assert_eq!(block_on(photo::read(&phone.store, &kept)), Ok(photo::Kept::Whole(b"abc".to_vec())));
    phone.store.disk.borrow_mut().photos.insert(kept.sha256, b"abd".to_vec());
    assert_eq!(block_on(photo::read(&phone.store, &kept)), Ok(photo::Kept::Altered(b"abd".to_vec())));
    phone.store.disk.borrow_mut().photos.clear();
    assert_eq!(block_on(photo::read(&phone.store, &kept)), Ok(photo::Kept::NotHere));
}

#[test]
fn names_of_copies_hold_nothing_that_looks_like_a_secret() {
    // The page that rescues raw records leaves out names with `key`, `seed` or `secret` in them.
    let phone = Phone::default();
    let queue = phone.queue(1);
    for _ in 0..200 {
        queue.draft(answers(&["whole"])).unwrap();
    }
    for name in phone.quick.names().unwrap().into_iter().filter(|name| name.starts_with("copy.")) {
        assert!(name.bytes().all(|b| b.is_ascii_digit() || b".copyabdef".contains(&b)), "{name}");
        assert!(!["key", "seed", "secret"].iter().any(|word| name.contains(word)));
    }
}
