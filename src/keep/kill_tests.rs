//! Killed at any point, with any tail of the quick store lost: nothing ticked is gone, the chain is
//! whole, nothing is there twice. And with anything damaged: what can be read is there, what cannot
//! is kept, and the second start has nothing left to do.

use std::future::Future;
use std::pin::Pin;
use std::rc::Rc;

use proptest::prelude::*;

use crate::record::{Entry, Head, verify_range};

use super::memory::Fault;
use super::test_kit::{Phone, TestQueue, answers, block_on, device, step};
use super::{Report, StoreError, Writing, copies, row};

#[derive(Clone, Debug)]
enum Event {
    /// So many answers by one tap.
    Tap(usize),
    /// The writer goes on by so many steps.
    Run(usize),
    /// The quick store reaches the disk.
    Flush,
    /// The store proper fails next, with or without the transaction being in.
    Fail(StoreError, bool),
    /// The browser is killed and opened again; so many quick writes are lost, and the opening itself
    /// is killed after so many steps and done again.
    Kill { lost: usize, opening: usize },
}

fn event() -> impl Strategy<Value = Event> {
    let error = prop_oneof![
        Just(StoreError::Full),
        Just(StoreError::Lost("asleep".to_owned())),
        Just(StoreError::Failed("odd".to_owned())),
    ];
    prop_oneof![
        4 => (1..4_usize).prop_map(Event::Tap),
        4 => (1..6_usize).prop_map(Event::Run),
        1 => Just(Event::Flush),
        1 => (error, any::<bool>()).prop_map(|(error, applied)| Event::Fail(error, applied)),
        2 => (0..12_usize, 0..4_usize).prop_map(|(lost, opening)| Event::Kill { lost, opening }),
    ]
}

type Flush = Pin<Box<dyn Future<Output = ()>>>;

/// One page: its queue, the flushes under way, and the answers it waits for.
struct Page {
    queue: Rc<TestQueue>,
    flushes: Vec<Flush>,
    waits: Vec<(super::Saving, Vec<Entry>)>,
}

impl Page {
    fn open(phone: &Phone) -> (Self, Report) {
        let opened = phone.open(1);
        let Writing::Queue(queue) = opened.writing else { panic!("may write") };
        (Self { queue, flushes: Vec::new(), waits: Vec::new() }, opened.report)
    }

    fn tap(&mut self, count: usize) -> Vec<Entry> {
        let drafted = self.queue.draft(answers(&vec!["whole"; count])).unwrap();
        self.waits.push((drafted.saving, drafted.entries.clone()));
        let queue = Rc::clone(&self.queue);
        self.flushes.push(Box::pin(async move {
            let _ = queue.flush().await;
        }));
        drafted.entries
    }

    fn run(&mut self, steps: usize) {
        for _ in 0..steps {
            self.flushes.retain_mut(|flush| step(flush.as_mut()).is_none());
        }
    }

    fn ticked(&mut self) -> Vec<Entry> {
        let mut done = Vec::new();
        self.waits.retain_mut(|(saving, entries)| match step(Pin::new(saving)) {
            Some(Ok(_)) => {
                done.append(entries);
                false
            }
            Some(Err(_)) => false,
            None => true,
        });
        done
    }
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 300, ..ProptestConfig::default() })]

    #[test]
    fn nothing_ticked_is_lost_by_a_kill(events in prop::collection::vec(event(), 1..40)) {
        let phone = Phone::default();
        let (mut page, _) = Page::open(&phone);
        let mut ticked: Vec<Entry> = Vec::new();
        for event in events.into_iter().chain([Event::Kill { lost: 3, opening: 1 }]) {
            match event {
                Event::Tap(count) => { page.tap(count); }
                Event::Run(steps) => page.run(steps),
                Event::Flush => phone.quick.flush(),
                Event::Fail(error, applied) => phone.store.faults.borrow_mut().push_back(Fault { error, applied }),
                Event::Kill { lost, opening } => {
                    ticked.extend(page.ticked());
                    phone.quick.kill(lost);
                    phone.store.faults.borrow_mut().clear();
                    {
                        let mut half = Box::pin(phone.opening(1));
                        for _ in 0..opening { if step(half.as_mut()).is_some() { break; } }
                    }
                    phone.quick.kill(lost / 2);
                    let (next, report) = Page::open(&phone);
                    page = next;
                    prop_assert!(report.new_chain.is_none(), "{report:?}");
                    prop_assert!(report.forks.is_empty() && report.set_aside.is_empty(), "{report:?}");
                    let shown = phone.open(1).journal;
                    let all: Vec<Entry> = shown.of_device(device(1)).cloned().collect();
                    prop_assert!(verify_range(Head::start(device(1)), &all).is_ok());
                    for entry in &ticked {
                        prop_assert!(all.contains(entry), "ticked and lost: {}", entry.header.seq);
                    }
                    prop_assert_eq!(copies::read(&phone.quick).unwrap().copies.len(), 0);
                }
            }
            ticked.extend(page.ticked());
        }
        prop_assert_eq!(phone.open(1).report, Report::default());
    }

    #[test]
    fn nothing_readable_is_lost_by_damage(
        saved in 0..7_usize,
        copied in 0..4_usize,
        gone in prop::collection::vec(1..8_u64, 0..3),
        garbled in prop::collection::vec((1..8_u64, 0..400_usize, any::<char>()), 0..3),
        keyless in any::<bool>(),
        rival in any::<bool>(),
    ) {
        let phone = Phone::default();
        let queue = phone.queue(1);
        for _ in 0..saved { queue.draft(answers(&["whole"])).unwrap(); block_on(queue.flush()).unwrap(); }
        let from = if rival { Head { seq: queue.head().seq.saturating_sub(1), ..queue.head() } } else { queue.head() };
        for entry in super::test_kit::go_on(from, copied, "bones") { copies::put(&phone.quick, &entry).unwrap(); }
        {
            let mut disk = phone.store.disk.borrow_mut();
            disk.rows.retain(|id, _| !gone.contains(&id.seq));
            for (seq, at, new) in &garbled {
                if let Some((_, text)) = disk.rows.iter_mut().find(|(id, _)| id.seq == *seq) {
                    let at = (0..=*at).rev().find(|at| text.is_char_boundary(*at)).unwrap_or(0).min(text.len());
                    text.insert(at, *new);
                }
            }
            if keyless { disk.seeds.clear(); }
        }
        if keyless { super::Quick::drop(&phone.quick, "seed").unwrap(); }
        let before: Vec<String> = phone.store.disk.borrow().rows.values().cloned()
            .chain(copies::read(&phone.quick).unwrap().copies.into_iter().map(|copy| copy.text)).collect();
        let opened = phone.open(2);
        let disk = phone.store.disk.borrow().clone();
        for text in &before {
            let shown = row::read(text).is_ok_and(|entry| opened.journal.entries().any(|other| *other == entry));
            let aside = disk.set_aside.values().any(|item| item.text == *text);
            prop_assert!(shown || aside, "gone: {text}");
            prop_assert!(!(shown && aside), "both shown and set aside: {text}");
            let kept = disk.rows.values().chain(disk.forks.values()).any(|row| row == text) || aside;
            prop_assert!(kept, "not on disk: {text}");
        }
        let again = phone.open(3);
        let set_aside_before = disk.set_aside.len();
        prop_assert_eq!(again.report, Report { set_aside_before, ..Report::default() });
        prop_assert_eq!(again.journal, opened.journal);
        prop_assert_eq!(again.device, opened.device);
    }
}
