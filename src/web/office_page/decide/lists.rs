//! What waits for a person, as the part holds it.

use leptos::prelude::*;
use uuid::Uuid;

use crate::office::hand::Decision;
use crate::office::to_decide::{Decided, Double, Split, Waiting};

/// What waits, list by list: thousands of questions are not gone through anew because of one in another list.
#[derive(Clone, Copy)]
pub(super) struct Lists {
    pub(super) said_same: RwSignal<Vec<[Uuid; 2]>>,
    pub(super) doubles: RwSignal<Vec<Double>>,
    pub(super) open: RwSignal<Vec<Split>>,
    pub(super) joined: RwSignal<Vec<[Uuid; 2]>>,
    pub(super) two: RwSignal<Vec<[Uuid; 2]>>,
    pub(super) decided: RwSignal<Vec<Decided>>,
}

impl Lists {
    pub(super) fn new() -> Self {
        Self {
            said_same: RwSignal::default(),
            doubles: RwSignal::default(),
            open: RwSignal::default(),
            joined: RwSignal::default(),
            two: RwSignal::default(),
            decided: RwSignal::default(),
        }
    }

    pub(super) fn put(self, waiting: Waiting) {
        let Waiting { said_same, doubles, open, joined, two, decided } = waiting;
        self.said_same.try_set(said_same);
        self.doubles.try_set(doubles);
        self.open.try_set(open);
        self.joined.try_set(joined);
        self.two.try_set(two);
        self.decided.try_set(decided);
    }

    /// Without what was just decided: the figures follow in a moment.
    pub(super) fn drop_decided(self, decision: &Decision) {
        match decision {
            Decision::Same(one, other) | Decision::Apart(one, other) => {
                let is_it = |[a, b]: [Uuid; 2]| (a, b) == (*one, *other) || (b, a) == (*one, *other);
                leave_out(self.doubles, |double| is_it([double.one, double.other]));
                for pairs in [self.said_same, self.joined, self.two] {
                    leave_out(pairs, |pair| is_it(*pair));
                }
            }
            Decision::Answer { entry, .. } => {
                leave_out(self.open, |split| split.answers.iter().any(|answer| answer.entry == *entry));
            }
            Decision::Undo { entry, .. } => leave_out(self.decided, |one| one.made.entry == *entry),
        }
    }
}

fn leave_out<T: Send + Sync + 'static>(list: RwSignal<Vec<T>>, is_it: impl Fn(&T) -> bool) {
    if list.with_untracked(|all| all.iter().any(&is_it)) {
        list.update(|all| all.retain(|one| !is_it(one)));
    }
}
