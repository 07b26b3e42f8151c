//! Left and right by themselves, compared on what was seen of both.

use super::evidence::{AgeEvidence, JawSide};
use super::more::{Measures, MoreEvidence};
use super::posterior::Posterior;
use super::{Basis, Settings, basis, birth, summary};

/// Best class by the left and by the right side alone, where both were looked at and they differ by a
/// class or more. Only looks taken on both sides are compared: a look that one side lacks is no difference.
pub(super) fn apart(evidence: &AgeEvidence, settings: &Settings, cells: &[birth::MonthCell]) -> Option<[u8; 2]> {
    let [left, right] = shared(&evidence.left, &evidence.right);
    if left == right {
        return None;
    }
    let best = |side: JawSide| {
        let more = MoreEvidence { sex_line: evidence.more.sex_line, ..MoreEvidence::default() };
        let alone = AgeEvidence {
            left: side,
            right: JawSide::default(),
            class_call: None,
            quick_class: None,
            more,
            ..*evidence
        };
        let basis = basis::basis_of(&alone);
        (basis.eruption || basis.wear).then(|| class_of(&alone, settings, basis, cells))
    };
    let both = [best(left)?, best(right)?];
    (both[0] != both[1]).then_some(both)
}

fn class_of(evidence: &AgeEvidence, settings: &Settings, basis: Basis, cells: &[birth::MonthCell]) -> u8 {
    let posterior = Posterior::new(evidence, settings, basis, &Measures::default(), cells, 1.0);
    summary::best(&posterior.classes).0
}

/// Each side with only what was seen of both.
fn shared(left: &JawSide, right: &JawSide) -> [JawSide; 2] {
    let of = |a: &JawSide, b: &JawSide| JawSide {
        cheek_teeth: a.cheek_teeth.filter(|_| b.cheek_teeth.is_some()),
        // A tooth too many or missing explains its own side's count.
        extra_p1: a.extra_p1,
        p2_missing: a.p2_missing,
        p4: a.p4.filter(|_| b.p4.is_some()),
        molars: both(a.molars, b.molars),
        i1: a.i1.filter(|_| b.i1.is_some()),
        other_front: both(a.other_front, b.other_front),
        p4_dentine: a.p4_dentine.filter(|_| b.p4_dentine.is_some()),
        dentine: both(a.dentine, b.dentine),
        crest: both(a.crest, b.crest),
        m3_posterior: a.m3_posterior.filter(|_| b.m3_posterior.is_some()),
        infundibulum: both(a.infundibulum, b.infundibulum),
        premolar_wear: a.premolar_wear.filter(|_| b.premolar_wear.is_some()),
    };
    [of(left, right), of(right, left)]
}

fn both<T: Copy>(a: [Option<T>; 3], b: [Option<T>; 3]) -> [Option<T>; 3] {
    let mut kept = a;
    for (slot, other) in kept.iter_mut().zip(b) {
        if other.is_none() {
            *slot = None;
        }
    }
    kept
}
