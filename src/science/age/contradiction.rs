//! Teeth that cannot stand together in one jaw. Nothing is dropped: the estimate runs, wider, and the
//! crew is told which teeth to look at again.

use serde::{Deserialize, Serialize};

use super::evidence::{
    AgeEvidence, ClassCall, Crest, Dentine, IncisorState, JawSide, M3Posterior, MolarState, P4State,
};
use super::item::Tooth;
use crate::order::Short as _;

/// How two looks contradict each other.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum ContradictionKind {
    /// A tooth further back is further out than the one before it.
    BackToothAhead,
    /// Wear on a tooth that is not through.
    WornButNotThrough,
    /// A milk tooth beside teeth that come long after it is shed.
    MilkBesideLateTeeth,
    /// A permanent P4 in a jaw whose last molar is not through.
    PermanentBeforeLastMolar,
    /// A tooth further back is worn more than the one before it.
    BackToothMoreWorn,
    /// Sharp crest and wide dentine, or no crest and no dentine, on one tooth.
    CrestAgainstDentine,
    /// The count does not fit the molars seen.
    CountAgainstMolars,
    /// A count that no jaw has.
    ImpossibleCount,
    /// The class called does not fit the teeth.
    CallAgainstTeeth,
}

/// One contradiction.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
pub struct Contradiction {
    /// How.
    pub kind: ContradictionKind,
    /// The teeth to look at again.
    pub teeth: Vec<Tooth>,
}

const MOLARS: [Tooth; 3] = [Tooth::M1, Tooth::M2, Tooth::M3];

/// All contradictions, each once, in a fixed order.
pub fn contradictions(evidence: &AgeEvidence) -> Vec<Contradiction> {
    let mut found = Vec::new();
    for side in [evidence.left, evidence.right, joined(&evidence.left, &evidence.right)] {
        order_of_eruption(&side, &mut found);
        milk_beside_late_teeth(&side, &mut found);
        order_of_wear(&side, &mut found);
        one_tooth(&side, &mut found);
        count(&side, &mut found);
    }
    call(evidence, &mut found);
    found.order();
    found.dedup();
    found
}

/// One jaw of both sides, the left where both were looked at.
fn joined(left: &JawSide, right: &JawSide) -> JawSide {
    fn each<T: Copy>(left: [Option<T>; 3], right: [Option<T>; 3]) -> [Option<T>; 3] {
        let ([l1, l2, l3], [r1, r2, r3]) = (left, right);
        [l1.or(r1), l2.or(r2), l3.or(r3)]
    }
    JawSide {
        p4: left.p4.or(right.p4),
        molars: each(left.molars, right.molars),
        i1: left.i1.or(right.i1),
        other_front: each(left.other_front, right.other_front),
        dentine: each(left.dentine, right.dentine),
        crest: each(left.crest, right.crest),
        m3_posterior: left.m3_posterior.or(right.m3_posterior),
        ..JawSide::default()
    }
}

fn add(found: &mut Vec<Contradiction>, kind: ContradictionKind, teeth: &[Tooth]) {
    found.push(Contradiction { kind, teeth: teeth.to_vec() });
}

/// Each pair of neighbouring molars, front one first.
fn pairs<T: Copy>(values: [Option<T>; 3]) -> impl Iterator<Item = ([Tooth; 2], T, T)> {
    let [a, b, c] = values;
    let [m1, m2, m3] = MOLARS;
    [([m1, m2], a, b), ([m2, m3], b, c), ([m1, m3], a, c)]
        .into_iter()
        .filter_map(|(teeth, front, back)| Some((teeth, front?, back?)))
}

fn order_of_eruption(side: &JawSide, found: &mut Vec<Contradiction>) {
    for (teeth, front, back) in pairs(side.molars) {
        let stage = |state: MolarState| super::eruption::molar_group(state);
        if stage(back) > stage(front) {
            add(found, ContradictionKind::BackToothAhead, &teeth);
        }
    }
    let last_molar_out = side.molars[2].is_some_and(|s| s <= MolarState::InGum);
    if last_molar_out && side.p4 >= Some(P4State::PermanentBelowRow) {
        add(found, ContradictionKind::PermanentBeforeLastMolar, &[Tooth::P4, Tooth::M3]);
    }
    let milk_i1 = side.i1 == Some(IncisorState::Milk);
    for (tooth, state) in [Tooth::I2, Tooth::I3, Tooth::C].into_iter().zip(side.other_front) {
        if milk_i1 && state == Some(IncisorState::Permanent) {
            add(found, ContradictionKind::BackToothAhead, &[Tooth::I1, tooth]);
        }
    }
}

fn milk_beside_late_teeth(side: &JawSide, found: &mut Vec<Contradiction>) {
    let kind = ContradictionKind::MilkBesideLateTeeth;
    let worn = |d: Option<Dentine>| d >= Some(Dentine::Wider);
    if side.p4 == Some(P4State::MilkThreeCusps) {
        for (tooth, dentine) in MOLARS.into_iter().zip(side.dentine).skip(1) {
            if worn(dentine) {
                add(found, kind, &[Tooth::P4, tooth]);
            }
        }
        if side.dentine[0] >= Some(Dentine::TwiceAsWide) {
            add(found, kind, &[Tooth::P4, Tooth::M1]);
        }
    }
    if side.i1 == Some(IncisorState::Milk) {
        if side.p4 >= Some(P4State::PermanentBelowRow) {
            add(found, kind, &[Tooth::I1, Tooth::P4]);
        }
        if side.molars[2] >= Some(MolarState::FullHeight) {
            add(found, kind, &[Tooth::I1, Tooth::M3]);
        }
    }
}

fn order_of_wear(side: &JawSide, found: &mut Vec<Contradiction>) {
    for (teeth, front, back) in pairs(side.dentine) {
        if back.code() >= front.code() + 2 {
            add(found, ContradictionKind::BackToothMoreWorn, &teeth);
        }
    }
    for (teeth, front, back) in pairs(side.crest) {
        if back.code() >= front.code() + 2 {
            add(found, ContradictionKind::BackToothMoreWorn, &teeth);
        }
    }
}

fn one_tooth(side: &JawSide, found: &mut Vec<Contradiction>) {
    for (tooth, ((state, dentine), crest)) in
        MOLARS.into_iter().zip(side.molars.into_iter().zip(side.dentine).zip(side.crest))
    {
        let hidden = state.is_some_and(|s| s <= MolarState::InGum);
        if hidden && (dentine > Some(Dentine::None) || crest > Some(Crest::Sharp)) {
            add(found, ContradictionKind::WornButNotThrough, &[tooth]);
        }
        let sharp_and_wide = crest == Some(Crest::Sharp) && dentine >= Some(Dentine::TwiceAsWide);
        let gone_and_none = crest == Some(Crest::Gone) && dentine.is_some_and(|d| d <= Dentine::Narrower);
        if sharp_and_wide || gone_and_none {
            add(found, ContradictionKind::CrestAgainstDentine, &[tooth]);
        }
    }
    let cusp_worn = side.m3_posterior >= Some(M3Posterior::TraceOfWear);
    if cusp_worn && side.molars[2].is_some_and(|s| s <= MolarState::InGum) {
        add(found, ContradictionKind::WornButNotThrough, &[Tooth::M3]);
    }
}

fn count(side: &JawSide, found: &mut Vec<Contradiction>) {
    let Some(counted) = side.cheek_teeth else {
        return;
    };
    let Some(row) = side.row_count() else {
        // Fewer than three is a broken jaw or a count not finished, not a contradiction.
        if counted > 6 {
            add(found, ContradictionKind::ImpossibleCount, &[Tooth::P2, Tooth::P3, Tooth::P4]);
        }
        return;
    };
    if matches!(side.p4, Some(P4State::MilkLooseOrGone | P4State::PermanentBelowRow)) {
        return;
    }
    for (place, (tooth, state)) in (4_u8..).zip(MOLARS.into_iter().zip(side.molars)) {
        let Some(state) = state else { continue };
        let through = state >= MolarState::CuspsThrough;
        // One too few is a missing P2, one too many an extra P1; those are asked about, not refused.
        let too_few = through && row + 1 < place;
        let too_many = !through && row > place;
        if too_few || too_many {
            add(found, ContradictionKind::CountAgainstMolars, &[tooth]);
        }
    }
}

fn call(evidence: &AgeEvidence, found: &mut Vec<Contradiction>) {
    let Some(call) = evidence.class_call else {
        return;
    };
    let kind = ContradictionKind::CallAgainstTeeth;
    let p4 = evidence.p4();
    if p4.is_some_and(|s| s <= P4State::PermanentBelowRow) && call >= ClassCall::Three {
        add(found, kind, &[Tooth::P4]);
    }
    if p4 == Some(P4State::PermanentStained) && call <= ClassCall::Yearling && evidence.clearly_worn(0) {
        add(found, kind, &[Tooth::P4, Tooth::M1]);
    }
    if call == ClassCall::Fawn && evidence.molar(2) >= Some(MolarState::FullHeight) {
        add(found, kind, &[Tooth::M3]);
    }
}
