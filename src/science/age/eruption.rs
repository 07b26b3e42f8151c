//! Which teeth are there: transitions that come earlier or later in each deer.
//!
//! `P(done | t) = Phi((t - mu) / sd)`. With a share `pi` the deer is one whose teeth run late, as 9
//! of 13 wolf-killed yearlings in Minnesota showed in January to March (Mech and Frenzel 1971).

use std::sync::OnceLock;

use super::birth::middle_of;
use super::evidence::{IncisorState, JawSide, MolarState, P4State};
use crate::science::skeleton::cannon_stages;
use crate::science::special::normal_cdf;

/// Least likelihood of one look: no single look may veto an age. Design.
pub(super) const FLOOR: f64 = 0.002;
/// Jaws with an extra P1: 2 of 401 (Mech and Frenzel 1971, table 5).
const EXTRA_P1_SHARE: f64 = 2.0 / 401.0;
/// Jaws with a P2 missing: 3 of 401 (same table).
const MISSING_P2_SHARE: f64 = 3.0 / 401.0;
/// A front tooth counts as changing for this long before the permanent one is in, months. Design.
const CHANGING_MONTHS: f64 = 1.0;
/// Share of molars with some cusps through that are called worn. Ours.
const WORN_BEFORE_FULL: f64 = 0.5;
/// Delay of a fawn's teeth (M1, M2, incisors) in a late deer, months. Design. The spread of M3 already
/// reaches the latest ages that the agencies print, so M3 is not shifted again; that is ours.
const LATE_MONTHS: f64 = 3.0;

/// Cells of age in the table: three classes and the spread of birth dates.
const TABLE_CELLS: usize = 160;

/// Mean and standard deviation of a transition, months. Design, from the published schedules.
struct Transition(f64, f64);

const VISIBLE: [Transition; 3] = [Transition(2.75, 0.5), Transition(6.8, 0.7), Transition(14.0, 2.0)];
const FULL: [Transition; 3] = [Transition(6.2, 0.8), Transition(12.5, 1.2), Transition(23.0, 2.0)];
const I1: Transition = Transition(6.0, 0.8);
/// I2, I3, C: the agencies contradict each other, hence the width.
const OTHER_FRONT: Transition = Transition(10.5, 2.5);
const MILK_SHED: Transition = Transition(18.3, 0.8);
const MILK_SHED_LATE: Transition = Transition(22.5, 1.5);
const P4_FULL: Transition = Transition(19.5, 0.9);
const P4_FULL_LATE: Transition = Transition(24.0, 1.5);
/// Stain or dentine line, seen from 22 months, typical from 26; its absence marks a yearling
/// (Indiana). The spread is ours.
const P4_STAIN: Transition = Transition(25.0, 1.5);
const P4_STAIN_LATE: Transition = Transition(27.0, 1.2);

impl Transition {
    fn done(&self, months: f64) -> f64 {
        normal_cdf((months - self.0) / self.1)
    }
}

/// All teeth in: any deer of three birthdays or more.
pub(super) static COMPLETE: Progress = Progress {
    visible: [1.0; 3],
    full: [1.0; 3],
    i1: [1.0; 2],
    other_front: [1.0; 2],
    milk_shed: 1.0,
    p4_full: 1.0,
    p4_stain: 1.0,
    cannon: [0.0, 0.0, 1.0],
};

/// How far each tooth and the cannon bone is, as probabilities, at one age.
#[derive(Clone, Copy, Debug)]
pub(super) struct Progress {
    visible: [f64; 3],
    full: [f64; 3],
    i1: [f64; 2],
    other_front: [f64; 2],
    milk_shed: f64,
    p4_full: f64,
    p4_stain: f64,
    /// Growing end of a cannon bone, open, line, closed: kept here because it comes with the months too.
    cannon: [f64; 3],
}

impl Progress {
    /// In a cell of age, from a table made once. Past its end every tooth is in.
    pub(super) fn in_cell(index: usize, late: bool) -> &'static Self {
        static TABLE: OnceLock<Vec<[Progress; 2]>> = OnceLock::new();
        let table = TABLE.get_or_init(|| {
            (0..TABLE_CELLS).map(|cell| [false, true].map(|late| Self::at(middle_of(cell), late))).collect()
        });
        table.get(index).map_or(&COMPLETE, |[on_time, delayed]| if late { delayed } else { on_time })
    }

    /// At `months`, in a deer whose teeth run on time or late.
    pub(super) fn at(months: f64, late: bool) -> Self {
        let t = if late { months - LATE_MONTHS } else { months };
        let changing = |event: &Transition| [event.done(t + CHANGING_MONTHS), event.done(t)];
        let (shed, full, stain) =
            if late { (MILK_SHED_LATE, P4_FULL_LATE, P4_STAIN_LATE) } else { (MILK_SHED, P4_FULL, P4_STAIN) };
        Self {
            visible: fawn_teeth_late(&VISIBLE, t, months),
            full: fawn_teeth_late(&FULL, t, months),
            i1: changing(&I1),
            other_front: changing(&OTHER_FRONT),
            milk_shed: shed.done(months),
            p4_full: full.done(months),
            p4_stain: stain.done(months),
            cannon: cannon_stages(months),
        }
    }

    /// Probabilities of the stages of a cannon bone's growing end, floored.
    pub(super) fn cannon(&self) -> [f64; 3] {
        self.cannon.map(|p| p.max(FLOOR))
    }

    /// Milk tooth; changing (loose, gone or below the row); white; stained.
    pub(super) fn p4_groups(&self) -> [f64; 4] {
        [
            1.0 - self.milk_shed,
            (self.milk_shed - self.p4_full).max(0.0),
            (self.p4_full - self.p4_stain).max(0.0),
            self.p4_stain.min(self.p4_full),
        ]
    }

    /// Not through; some cusps; full height.
    pub(super) fn molar_groups(&self, molar: usize) -> [f64; 3] {
        let visible = self.visible.get(molar).copied().unwrap_or(1.0);
        let full = self.full.get(molar).copied().unwrap_or(1.0);
        [1.0 - visible, (visible - full).max(0.0), full]
    }

    /// Likelihood of a molar's state. The front cusps come into wear before the last one is up, so `in
    /// wear` is said of part of the teeth that are not yet full.
    fn molar(&self, molar: usize, state: MolarState) -> Option<f64> {
        let groups = self.molar_groups(molar);
        let [_, cusps, full] = groups;
        match state {
            MolarState::InWear => Some(full + WORN_BEFORE_FULL * cusps),
            _ => pick(&groups, molar_group(state)),
        }
    }

    /// Milk; changing; permanent.
    pub(super) fn i1_groups(&self) -> [f64; 3] {
        front_groups(self.i1)
    }

    /// Milk; changing; permanent.
    pub(super) fn other_front_groups(&self) -> [f64; 3] {
        front_groups(self.other_front)
    }

    /// A count of 3, 4, 5 or 6 where nothing is known of the molars.
    pub(super) fn count_groups(&self) -> [f64; 4] {
        [3, 4, 5, 6].map(|row| self.count(row, [None; 3], Anomalies::default()))
    }

    /// Likelihood of a row count beside what was seen of the molars. A molar that was looked at
    /// explains its own part of the count, so only the others speak again.
    fn count(&self, row: u8, seen: [Option<bool>; 3], anomalies: Anomalies) -> f64 {
        let extra = if anomalies.p1_settled { 0.0 } else { EXTRA_P1_SHARE };
        let missing = if anomalies.p2_settled { 0.0 } else { MISSING_P2_SHARE };
        [(1.0 - extra - missing, row), (extra, row.saturating_sub(1)), (missing, row + 1)]
            .into_iter()
            .filter(|(_, normal_row)| (3..=6).contains(normal_row))
            .map(|(share, normal_row)| {
                let mut likelihood = share;
                for ((place, visible), looked) in (4_u8..).zip(self.visible).zip(seen) {
                    let counted = normal_row >= place;
                    likelihood *= match looked {
                        Some(through) => f64::from(u8::from(through == counted)),
                        None if counted => visible,
                        None => 1.0 - visible,
                    };
                }
                likelihood
            })
            .sum()
    }

    /// Likelihood of everything seen of eruption, each look floored. Two sides of one look count
    /// as one: their geometric mean, so that sides which differ widen the answer and do not shift it twice.
    pub(super) fn likelihood(&self, sides: [&JawSide; 2]) -> f64 {
        let through = molars_through(sides);
        let count = |side: &JawSide| {
            // While the premolars change, the number of teeth in the row says nothing of the molars.
            let changing = matches!(side.p4, Some(P4State::MilkLooseOrGone | P4State::PermanentBelowRow));
            let row = side.row_count().filter(|_| !changing)?;
            Some(self.count(row, through, Anomalies::of(side)))
        };
        let mut total = mean_of(sides, count);
        total *= mean_of(sides, |side| pick(&self.p4_groups(), p4_group(side.p4?)));
        for molar in 0..3 {
            total *= mean_of(sides, |side| self.molar(molar, side.molars.get(molar).copied().flatten()?));
        }
        total *= mean_of(sides, |side| pick(&self.i1_groups(), usize::from(side.i1?.code())));
        let front = self.other_front_groups();
        let teeth = sides.into_iter().flat_map(|side| side.other_front).flatten();
        total * mean(teeth.filter_map(|state: IncisorState| pick(&front, usize::from(state.code()))))
    }
}

/// What was said about the two anomalies that change a count.
#[derive(Clone, Copy, Default)]
struct Anomalies {
    p1_settled: bool,
    p2_settled: bool,
}

impl Anomalies {
    const fn of(side: &JawSide) -> Self {
        // A count of seven has already been taken as six and a P1.
        let seven = matches!(side.cheek_teeth, Some(7));
        Self { p1_settled: side.extra_p1.is_some() || seven, p2_settled: side.p2_missing.is_some() }
    }
}

/// M1 and M2 at the shifted age, M3 at the true one.
fn fawn_teeth_late([m1, m2, m3]: &[Transition; 3], shifted: f64, months: f64) -> [f64; 3] {
    [m1.done(shifted), m2.done(shifted), m3.done(months)]
}

fn front_groups([started, done]: [f64; 2]) -> [f64; 3] {
    [1.0 - started, (started - done).max(0.0), done]
}

/// Whether each molar was seen to be through, from either side.
fn molars_through(sides: [&JawSide; 2]) -> [Option<bool>; 3] {
    let [left, right] = sides;
    let mut through = [None; 3];
    for ((slot, l), r) in through.iter_mut().zip(left.molars).zip(right.molars) {
        *slot = l.max(r).map(|state| state >= MolarState::CuspsThrough);
    }
    through
}

/// Group of a P4 state in [`Progress::p4_groups`].
pub(super) const fn p4_group(state: P4State) -> usize {
    match state {
        P4State::MilkThreeCusps => 0,
        P4State::MilkLooseOrGone | P4State::PermanentBelowRow => 1,
        P4State::PermanentWhite => 2,
        P4State::PermanentStained => 3,
    }
}

/// Group of a molar state in [`Progress::molar_groups`].
pub(super) const fn molar_group(state: MolarState) -> usize {
    match state {
        MolarState::NotVisible | MolarState::InGum => 0,
        MolarState::CuspsThrough => 1,
        MolarState::FullHeight | MolarState::InWear => 2,
    }
}

fn pick(groups: &[f64], group: usize) -> Option<f64> {
    groups.get(group).copied()
}

/// Geometric mean over the sides that answer of the floored likelihood; one if none does.
fn mean_of(sides: [&JawSide; 2], likelihood: impl Fn(&JawSide) -> Option<f64>) -> f64 {
    mean(sides.into_iter().filter_map(likelihood))
}

fn mean(likelihoods: impl Iterator<Item = f64>) -> f64 {
    let (mut product, mut n, mut first, mut same) = (1.0, 0_u32, 1.0, true);
    for likelihood in likelihoods.map(|l| l.max(FLOOR)) {
        if n == 0 {
            first = likelihood;
        }
        same &= likelihood.total_cmp(&first).is_eq();
        product *= likelihood;
        n += 1;
    }
    // Roots are slow; teeth that agree need none.
    if same { first } else { libm::pow(product, 1.0 / f64::from(n)) }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Worked from the transitions: at 20.5 months milk premolars are still there in 0.3 % of deer on
    /// time and in 90.9 % of late ones; the published 9 of 13 then solves to a late share of 0.76.
    #[test]
    fn milk_premolars_at_20_and_a_half_months() {
        let [on_time, ..] = Progress::at(20.5, false).p4_groups();
        let [late, ..] = Progress::at(20.5, true).p4_groups();
        assert!((on_time - 0.003).abs() < 0.0005, "{on_time}");
        assert!((late - 0.909).abs() < 0.0005, "{late}");
        let pi: f64 = (9.0 / 13.0 - 0.003) / (0.909 - 0.003);
        assert!((pi - 0.761).abs() < 0.001, "{pi}");
    }

    #[test]
    fn groups_are_shares() {
        for late in [false, true] {
            for step in 0..160_u32 {
                let p = Progress::at(f64::from(step) * 0.25, late);
                let count: f64 = p.count_groups().iter().sum();
                assert!((0.98..1.02).contains(&count), "{count} at {step}");
                assert!((p.i1_groups().iter().sum::<f64>() - 1.0).abs() < 1e-9);
                assert!((p.molar_groups(2).iter().sum::<f64>() - 1.0).abs() < 1e-2);
                assert!((p.p4_groups().iter().sum::<f64>() - 1.0).abs() < 0.02);
            }
        }
    }

    #[test]
    fn a_three_year_old_has_all_teeth() {
        let p = Progress::at(41.0, true);
        assert!(p.full.iter().all(|f| *f > 0.999_999) && p.p4_stain > 0.999_999);
    }
}
