//! What the tests of this room share: invented entries, and a way to run futures by hand.

use std::future::Future;
use std::pin::{Pin, pin};
use std::rc::Rc;
use std::task::{Context, Poll, Waker};

use uuid::Uuid;

use crate::record::{
    Act, Answer, Body, DeviceId, Digest, ENTRY_SCHEMA, Entry, Head, Key, Moment, PersonCode, Salt, Site, Subject,
    Versions,
};

use super::memory::{MemoryQuick, MemoryStore};
use super::{Begin, Opened, Queue, Seed, Stamp, Writing};

pub(super) fn device(n: u8) -> DeviceId {
    device_of(&Seed([n; 32]))
}

/// Stands in for the thumbprint of the key: any function from seeds to names will do here.
pub(super) fn device_of(seed: &Seed) -> DeviceId {
    DeviceId(Digest::of(&[b"device", &seed.0]))
}

pub(super) fn body(what: &str) -> Body {
    Body {
        schema: ENTRY_SCHEMA,
        act: Act::Answer {
            key: Key {
                subject: Subject::Examination(Uuid::from_u128(7)),
                finding: "body_state".into(),
                site: Site::NONE,
                observer: PersonCode::new("K7").unwrap(),
            },
            answer: Answer::choice(what),
            supersedes: vec![],
        },
        typed_by: PersonCode::new("K7").unwrap(),
        at: Moment::parse("2027-02-14T10:23:05-05:00").unwrap(),
        zone: "America/Toronto".to_owned(),
        since_start_ms: Some(81_000),
        versions: Versions { protocol: 1, step: None, card: None },
    }
}

pub(super) fn answers(what: &[&str]) -> Vec<(Body, Salt)> {
    what.iter().map(|what| (body(what), Salt([3; 16]))).collect()
}

pub(super) fn chain(device: DeviceId, count: usize) -> Vec<Entry> {
    go_on(Head::start(device), count, "whole")
}

pub(super) fn go_on(from: Head, count: usize, what: &str) -> Vec<Entry> {
    let mut head = from;
    (0..count)
        .map(|_| {
            let entry = head.next(&body(what), Salt([9; 16])).unwrap();
            head = Head::after(&entry);
            entry
        })
        .collect()
}

pub(super) fn begin(n: u8) -> Begin {
    Begin {
        seed: Seed([n; 32]),
        salt: Salt([n; 16]),
        stamp: Stamp {
            at: Moment::parse("2027-02-15T08:00:00-05:00").unwrap(),
            zone: "America/Toronto".to_owned(),
            versions: Versions { protocol: 1, step: None, card: None },
        },
    }
}

/// Run to the end. Nothing here waits for anything outside, so polling again is always right.
pub(super) fn block_on<F: Future>(future: F) -> F::Output {
    let mut future = pin!(future);
    let mut cx = Context::from_waker(Waker::noop());
    for _ in 0..10_000 {
        if let Poll::Ready(output) = future.as_mut().poll(&mut cx) {
            return output;
        }
    }
    panic!("a future that never ends");
}

/// Poll once.
pub(super) fn step<F: Future + ?Sized>(future: Pin<&mut F>) -> Option<F::Output> {
    match future.poll(&mut Context::from_waker(Waker::noop())) {
        Poll::Ready(output) => Some(output),
        Poll::Pending => None,
    }
}

/// One phone: two stores that outlive the pages opened on them.
#[derive(Clone, Default)]
pub(super) struct Phone {
    pub(super) store: MemoryStore,
    pub(super) quick: MemoryQuick,
}

pub(super) type TestQueue = Queue<MemoryStore, MemoryQuick>;

impl Phone {
    pub(super) fn open(&self, fresh: u8) -> Opened<MemoryStore, MemoryQuick> {
        block_on(self.opening(fresh))
    }

    pub(super) async fn opening(&self, fresh: u8) -> Opened<MemoryStore, MemoryQuick> {
        super::open(Rc::new(self.store.clone()), self.quick.clone(), &begin(fresh), device_of, true).await
    }

    pub(super) fn queue(&self, fresh: u8) -> Rc<TestQueue> {
        match self.open(fresh).writing {
            Writing::Queue(queue) => queue,
            Writing::ReadOnly => panic!("may write"),
        }
    }
}
