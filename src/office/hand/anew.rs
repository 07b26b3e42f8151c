//! Some carcasses as the archive stands now, without folding all of it: what was worked out of them, and what the office
//! itself wrote since. A tap that signs something must not wait for an archive of thousands.

use std::collections::{BTreeMap, BTreeSet};

use super::{Figures, Hand, Worked};
use crate::office::keyring::Keyring;
use crate::office::opening::Outcome;
use crate::record::{Act, Body, Carcass, Digest, EntryId, Fold, fold_bodies, plain_number};
use uuid::Uuid;

/// The archive of which figures were made.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Stand {
    received: BTreeSet<Digest>,
    keyring: Keyring,
}

/// Which carcasses have samples of a number, by every number that a sample goes or went by.
#[derive(Clone, Debug, Default)]
pub struct Bearers(BTreeMap<String, BTreeSet<Uuid>>);

impl Bearers {
    /// Notes a number of a sample of this carcass.
    pub(super) fn note(&mut self, number: &str, carcass: Uuid) {
        self.0.entry(plain_number(number)).or_default().insert(carcass);
    }

    /// Every carcass that has a say in what these numbers mean: whose samples go or went by one. What else those are
    /// called matters on their own carcass only.
    pub fn of<'n>(&self, numbers: impl IntoIterator<Item = &'n str>) -> BTreeSet<Uuid> {
        numbers.into_iter().filter_map(|number| self.0.get(&plain_number(number))).flatten().copied().collect()
    }
}

impl Hand {
    /// The archive as it stands.
    pub(super) fn stand(&self) -> Stand {
        Stand { received: self.received.keys().copied().collect(), keyring: self.keyring.clone() }
    }

    /// Bodies of the office's own that came since, in their order; `None` where something else changed.
    fn since(&self, stand: &Stand) -> Option<Vec<(EntryId, Body)>> {
        let office = self.office_key()?.public().ok()?.id();
        if self.keyring != stand.keyring || stand.received.iter().any(|one| !self.received.contains_key(one)) {
            return None;
        }
        let mut out = Vec::new();
        for (_, judged) in self.received.iter().filter(|(digest, _)| !stand.received.contains(*digest)) {
            let contents = judged.contents.as_ref().filter(|_| judged.signer == Some(office))?;
            if judged.worst() != Outcome::Intact || !judged.carried.is_empty() {
                return None;
            }
            for entry in &contents.entries {
                let body = entry.body().ok()??;
                // Joined or taken apart, other carcasses have a say as well.
                if matches!(body.act, Act::Alias { .. }) {
                    return None;
                }
                out.push((entry.id(), body));
            }
        }
        Some(out)
    }

    /// What counts of these carcasses, as the archive stands now; all of it where more than the office's own answers came
    /// since the figures were worked out. Outings and reports are not in it.
    pub(super) fn anew(&self, figures: &Figures, carcasses: &BTreeSet<Uuid>) -> Fold {
        let Some(since) = self.since(&figures.of) else { return self.folded() };
        let worked: &Worked = &figures.counted;
        let all = carcasses.iter().filter_map(|id| worked.folded.carcasses.get(id));
        let examinations: Vec<Uuid> = all.flat_map(|carcass: &Carcass| carcass.examinations.keys().copied()).collect();
        let places = worked.places.about(&examinations);
        let mut bodies: Vec<&(EntryId, Body)> = places.iter().filter_map(|at| worked.bodies.get(*at)).collect();
        bodies.extend(&since);
        bodies.sort_by_key(|(id, _)| *id);
        let mut folded = fold_bodies(&bodies);
        folded.carcasses.retain(|id, _| carcasses.contains(id));
        folded
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Crews that number their samples 1, 2, 3 on every carcass must not make each tap about all carcasses.
    #[test]
    fn a_number_is_about_those_that_bear_it_and_no_others() {
        let [one, other] = [1, 2].map(Uuid::from_u128);
        let mut bearers = Bearers::default();
        for (number, carcass) in [("RIDGE-1", one), ("1", one), ("1", other), ("RIDGE-2", other)] {
            bearers.note(number, carcass);
        }
        assert_eq!(bearers.of(["ridge-1"]), BTreeSet::from([one]), "as it is plainly written");
        assert_eq!(bearers.of(["1"]), BTreeSet::from([one, other]));
        assert_eq!(bearers.of(["RIDGE-2", "none"]), BTreeSet::from([other]));
    }
}
