//! Every case of the start. What must hold is our own design; no outside source is needed.

use std::rc::Rc;

use crate::record::{Act, Entry, EntryId, Head, verify_range};

use super::memory::Fault;
use super::test_kit::{Phone, answers, begin, block_on, chain, device, device_of, go_on};
use super::{Break, Changes, Promise, Quick, Report, Store, StoreError, Writing, copies, row};

/// A phone with key 1 and these entries saved.
fn saved(entries: &[Entry]) -> Phone {
    let phone = Phone::default();
    let changes = Changes {
        entries: entries.to_vec(),
        head: entries.last().map(Head::after),
        seeds: vec![begin(1).seed],
        ..Changes::default()
    };
    block_on(phone.store.commit(&changes)).unwrap();
    phone
}

fn copy(phone: &Phone, entry: &Entry) {
    copies::put(&phone.quick, entry).unwrap();
}

fn copy_count(phone: &Phone) -> usize {
    copies::read(&phone.quick).unwrap().copies.len()
}

fn id(seq: u64) -> EntryId {
    EntryId { device: device(1), seq }
}

fn garble(phone: &Phone, seq: u64) {
    phone.store.disk.borrow_mut().rows.get_mut(&id(seq)).unwrap().push('}');
}

fn lose(phone: &Phone, seq: u64) {
    phone.store.disk.borrow_mut().rows.remove(&id(seq)).unwrap();
}

/// Opening again must find nothing left to do.
#[track_caller]
fn quiet(phone: &Phone) {
    let before = phone.store.disk.borrow().clone();
    let report = phone.open(77).report;
    let set_aside_before = report.set_aside_before;
    assert_eq!(report, Report { set_aside_before, ..Report::default() });
    assert_eq!(*phone.store.disk.borrow(), before);
}

fn new_chain(entry: &Entry) -> (Option<EntryId>, String) {
    match entry.body().unwrap().unwrap().act {
        Act::NewChain { last_good, reason, .. } => (last_good, reason),
        other => panic!("{other:?}"),
    }
}

#[test]
fn nothing_found_is_a_fresh_phone() {
    let phone = Phone::default();
    let opened = phone.open(1);
    assert!(opened.journal.is_empty());
    assert_eq!(opened.report, Report::default());
    assert_eq!((opened.device, opened.promise), (device(1), Promise::CrashAndPowerLoss));
    assert_eq!(phone.open(2).device, device(1), "the key made first stays");
    quiet(&phone);
}

#[test]
fn same_pair_drops_the_copy() {
    let entries = chain(device(1), 3);
    let phone = saved(&entries);
    copy(&phone, &entries[2]);
    let opened = phone.open(2);
    assert_eq!((opened.journal.len(), opened.report.recovered, copy_count(&phone)), (3, 0, 0));
    quiet(&phone);
}

#[test]
fn copy_only_is_committed_and_told() {
    let entries = chain(device(1), 4);
    let phone = saved(&entries[..2]);
    copy(&phone, &entries[3]);
    copy(&phone, &entries[2]);
    let opened = phone.open(2);
    assert_eq!((opened.journal.len(), opened.report.recovered, copy_count(&phone)), (4, 2, 0));
    assert_eq!(opened.report.new_chain, None);
    assert_eq!(phone.store.disk.borrow().rows.len(), 4);
    let Writing::Queue(queue) = opened.writing else { panic!() };
    assert_eq!(queue.head(), Head::after(&entries[3]));
    quiet(&phone);
}

#[test]
fn same_number_with_another_digest_is_a_fork_and_both_are_kept() {
    let entries = chain(device(1), 3);
    let phone = saved(&entries);
    let rival = go_on(Head::after(&entries[1]), 2, "bones");
    copy(&phone, &rival[0]);
    copy(&phone, &rival[1]);
    let opened = phone.open(2);
    assert_eq!((opened.report.forks.as_slice(), opened.report.new_chain), (&[id(3)][..], None));
    assert_eq!(opened.report.recovered, 1, "the one after the fork");
    assert_eq!(opened.journal.len(), 5);
    let Writing::Queue(queue) = opened.writing else { panic!() };
    assert_eq!(queue.head(), Head::after(&rival[1]), "no number is given twice, and no way is damage");
    assert!(opened.journal.entries().any(|e| *e == rival[0]) && opened.journal.entries().any(|e| *e == entries[2]));
    assert_eq!(opened.journal.forks(), [id(3)]);
    {
        let disk = phone.store.disk.borrow();
        assert_eq!(disk.rows[&id(3)], row::write(&entries[2]), "what stood there stands there");
        assert!(disk.forks.values().any(|text| *text == row::write(&rival[0])));
    }
    assert_eq!(copy_count(&phone), 0);
    quiet(&phone);
}

#[test]
fn after_a_fork_at_the_end_the_stored_way_goes_on() {
    let entries = chain(device(1), 3);
    let phone = saved(&entries);
    copy(&phone, &go_on(Head::after(&entries[1]), 1, "bones")[0]);
    let opened = phone.open(2);
    assert_eq!((opened.report.forks.as_slice(), opened.report.new_chain), (&[id(3)][..], None));
    let Writing::Queue(queue) = opened.writing else { panic!() };
    assert_eq!(queue.head(), Head::after(&entries[2]));
    queue.draft(answers(&["whole"])).unwrap();
    block_on(queue.flush()).unwrap();
    quiet(&phone);
}

#[test]
fn a_gap_begins_a_new_chain_that_names_the_last_good_head() {
    let entries = chain(device(1), 6);
    let phone = saved(&entries);
    lose(&phone, 4);
    let opened = phone.open(2);
    assert_eq!(opened.report.new_chain, Some(Break::Gap { first: 4 }));
    assert_eq!(opened.journal.len(), 6);
    let first = opened.journal.of_device(device(1)).last().unwrap().clone();
    assert_eq!((first.header.seq, first.header.prev), (7, Some(entries[2].header.digest())));
    assert_eq!(new_chain(&first), (Some(id(3)), "entries are missing from number 4 on".to_owned()));
    quiet(&phone);
    let queue = phone.queue(2);
    let drafted = queue.draft(answers(&["whole"])).unwrap();
    block_on(queue.flush()).unwrap();
    assert!(verify_range(Head::after(&first), &drafted.entries).is_ok());
    quiet(&phone);
}

#[test]
fn entries_missing_at_the_end_show_by_the_stored_head() {
    let entries = chain(device(1), 5);
    let phone = saved(&entries);
    lose(&phone, 5);
    let opened = phone.open(2);
    assert_eq!(opened.report.new_chain, Some(Break::Gap { first: 5 }));
    let first = opened.journal.of_device(device(1)).last().unwrap();
    assert_eq!((first.header.seq, first.header.prev), (6, Some(entries[3].header.digest())));
    quiet(&phone);
}

#[test]
fn a_broken_row_is_set_aside_and_the_rest_opens() {
    let entries = chain(device(1), 5);
    let phone = saved(&entries);
    garble(&phone, 2);
    let text = phone.store.disk.borrow().rows[&id(2)].clone();
    let opened = phone.open(2);
    assert_eq!(opened.report.new_chain, Some(Break::Damage { seq: 2 }));
    assert_eq!(opened.journal.len(), 5, "four good ones and the new chain's first");
    assert_eq!(opened.report.set_aside.len(), 1);
    assert_eq!(opened.report.set_aside[0].text, text);
    assert!(opened.report.set_aside[0].reason.starts_with("it is not a whole stored entry"));
    assert_eq!(new_chain(opened.journal.of_device(device(1)).last().unwrap()).0, Some(id(1)));
    {
        let disk = phone.store.disk.borrow();
        assert_eq!(disk.rows[&id(2)], text, "the damaged row stays as it is");
        assert_eq!(disk.set_aside.values().next().unwrap().text, text);
    }
    quiet(&phone);
    // A later version that can read it again finds it in its place.
    phone.store.disk.borrow_mut().rows.insert(id(2), row::write(&entries[1]));
    let healed = phone.open(2);
    assert_eq!((healed.journal.len(), healed.report.new_chain), (6, None));
}

#[test]
fn a_copy_heals_a_broken_row() {
    let entries = chain(device(1), 3);
    let phone = saved(&entries);
    garble(&phone, 3);
    copy(&phone, &entries[2]);
    let opened = phone.open(2);
    assert_eq!((opened.report.recovered, opened.report.new_chain, opened.report.forks.len()), (1, None, 0));
    assert_eq!(opened.journal.len(), 3);
    quiet(&phone);
}

#[test]
fn a_broken_copy_is_set_aside() {
    let phone = saved(&chain(device(1), 1));
    phone.quick.put("copy.2.feed", "{\"header\":").unwrap();
    let opened = phone.open(2);
    assert_eq!(opened.report.set_aside[0].text, "{\"header\":");
    assert_eq!(phone.store.disk.borrow().set_aside.len(), 1);
    assert_eq!((copy_count(&phone), opened.report.new_chain), (0, None));
    quiet(&phone);
}

#[test]
fn a_lost_key_begins_a_new_device_that_names_the_old_one() {
    let entries = chain(device(1), 3);
    let phone = saved(&entries);
    phone.store.disk.borrow_mut().seeds.clear();
    let opened = phone.open(2);
    assert_eq!((opened.device, opened.report.new_chain), (device(2), Some(Break::LostKey)));
    let first = opened.journal.of_device(device(2)).next().unwrap();
    assert_eq!((first.header.seq, first.header.prev), (1, None));
    assert_eq!(new_chain(first).0, Some(id(3)));
    assert_eq!(opened.journal.len(), 4);
    quiet(&phone);
    // Lost once more: the newest of the old devices is named.
    phone.store.disk.borrow_mut().seeds = vec!["not a seed".to_owned()];
    phone.quick.drop("seed").unwrap();
    let third = phone.open(3);
    assert_eq!(third.device, device(3));
    let last_good = new_chain(third.journal.of_device(device(3)).next().unwrap()).0;
    assert_eq!(last_good, Some(EntryId { device: device(2), seq: 1 }));
}

#[test]
fn a_key_lost_from_one_store_is_found_in_the_other() {
    let phone = saved(&chain(device(1), 3));
    phone.open(2);
    phone.store.disk.borrow_mut().seeds.clear();
    let opened = phone.open(3);
    assert_eq!((opened.device, opened.report.new_chain), (device(1), None));
    assert_eq!(phone.store.disk.borrow().seeds, [begin(1).seed.write()]);
}

#[test]
fn a_journal_that_is_gone_is_told_by_the_hint() {
    let entries = chain(device(1), 4);
    let phone = saved(&entries);
    copies::put_head(&phone.quick, &Head::after(&entries[3])).unwrap();
    phone.store.disk.borrow_mut().rows.clear();
    phone.store.disk.borrow_mut().heads.clear();
    let opened = phone.open(2);
    assert_eq!(opened.report.new_chain, Some(Break::Gap { first: 1 }));
    let first = opened.journal.entries().next().unwrap();
    assert_eq!((first.header.seq, new_chain(first).0), (5, None), "no number is given twice");
    quiet(&phone);
}

#[test]
fn with_the_store_refused_the_chain_goes_on_in_the_quick_store() {
    let entries = chain(device(1), 3);
    let phone = saved(&entries);
    phone.open(2);
    copies::put_head(&phone.quick, &Head::after(&entries[2])).unwrap();
    phone.store.refused.set(true);
    let opened = phone.open(3);
    assert!(matches!(opened.report.store_refused, Some(StoreError::Refused(_))));
    assert_eq!((opened.device, opened.promise, opened.journal.len()), (device(1), Promise::CrashedTabOnly, 0));
    let Writing::Queue(queue) = opened.writing else { panic!() };
    let drafted = queue.draft(answers(&["bones"])).unwrap();
    let unsaved = block_on(queue.flush()).unwrap_err();
    assert_eq!((unsaved.promise, unsaved.waiting), (Promise::CrashedTabOnly, 1));
    // Another day without the store: the copy counts.
    let again = phone.open(4);
    assert_eq!(again.journal.len(), 1);
    phone.store.refused.set(false);
    let healed = phone.open(5);
    assert_eq!((healed.report.recovered, healed.report.new_chain, healed.journal.len()), (1, None, 4));
    assert!(healed.journal.entries().any(|e| *e == drafted.entries[0]));
    assert_eq!(healed.device, device(1));
    quiet(&phone);
}

#[test]
fn with_both_refused_the_form_goes_on_in_memory() {
    let phone = Phone::default();
    phone.store.refused.set(true);
    phone.quick.refused.set(true);
    let opened = phone.open(1);
    assert_eq!((opened.promise, opened.device), (Promise::MemoryOnly, device(1)));
    assert!(opened.report.quick_refused.is_some());
    let Writing::Queue(queue) = opened.writing else { panic!() };
    queue.draft(answers(&["whole"])).unwrap();
    assert_eq!(block_on(queue.flush()).unwrap_err().promise, Promise::MemoryOnly);
    assert_eq!(queue.waiting(), 1);
}

#[test]
fn with_the_quick_store_refused_what_is_ticked_is_safe_all_the_same() {
    let phone = saved(&chain(device(1), 2));
    phone.quick.refused.set(true);
    let opened = phone.open(2);
    assert_eq!((opened.promise, opened.device, opened.journal.len()), (Promise::CrashAndPowerLoss, device(1), 2));
    let Writing::Queue(queue) = opened.writing else { panic!() };
    queue.draft(answers(&["whole"])).unwrap();
    block_on(queue.flush()).unwrap();
    assert_eq!(phone.open(2).journal.len(), 3);
}

#[test]
fn a_start_that_cannot_write_is_told_and_made_good_with_the_next_answer() {
    let entries = chain(device(1), 4);
    let phone = saved(&entries[..3]);
    lose(&phone, 2);
    copy(&phone, &entries[3]);
    phone.store.faults.borrow_mut().push_back(Fault { error: StoreError::Full, applied: false });
    let opened = phone.open(2);
    assert_eq!(opened.report.not_written, Some(StoreError::Full));
    assert_eq!((opened.promise, copy_count(&phone)), (Promise::CrashedTabOnly, 2));
    let Writing::Queue(queue) = opened.writing else { panic!() };
    let drafted = queue.draft(answers(&["whole"])).unwrap();
    assert_eq!(drafted.entries[0].header.seq, 6);
    block_on(queue.flush()).unwrap();
    assert_eq!(block_on(drafted.saving).unwrap().earlier, 2);
    assert_eq!((phone.store.disk.borrow().rows.len(), copy_count(&phone)), (5, 0));
    quiet(&phone);
}

#[test]
fn without_the_lock_nothing_is_written() {
    let entries = chain(device(1), 3);
    let phone = saved(&entries);
    garble(&phone, 2);
    copy(&phone, &entries[2]);
    let before = (phone.store.disk.borrow().clone(), phone.quick.names().unwrap());
    let store = Rc::new(phone.store.clone());
    let opened = block_on(super::open(store, phone.quick.clone(), &begin(2), device_of, false));
    assert!(matches!(opened.writing, Writing::ReadOnly));
    assert!(opened.seed.is_none());
    assert_eq!(opened.report, Report::default());
    assert_eq!((phone.store.disk.borrow().clone(), phone.quick.names().unwrap()), before);
}

#[test]
fn an_entry_stored_under_another_number_is_set_aside() {
    let entries = chain(device(1), 3);
    let phone = saved(&entries);
    phone.store.disk.borrow_mut().rows.insert(id(3), row::write(&entries[1]));
    let opened = phone.open(2);
    assert_eq!(opened.report.set_aside[0].reason, "it is stored as entry 3 but says that it is entry 2");
    assert_eq!(opened.report.new_chain, Some(Break::Damage { seq: 3 }));
    quiet(&phone);
}

#[test]
fn a_link_that_does_not_follow_is_damage() {
    let entries = chain(device(1), 3);
    let phone = saved(&entries[..2]);
    let other = go_on(Head { digest: None, ..Head::after(&entries[1]) }, 1, "bones");
    phone.store.disk.borrow_mut().rows.insert(id(3), row::write(&other[0]));
    let opened = phone.open(2);
    assert_eq!(opened.report.new_chain, Some(Break::Damage { seq: 3 }));
    assert_eq!(opened.journal.len(), 4);
    quiet(&phone);
}
