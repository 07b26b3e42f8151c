use proptest::prelude::*;

use super::*;
use crate::science::fat::look::Amount;
use crate::science::marrow::{
    Bone, Consistency, DryWeighing, Exposure, Frost, MarrowLook, Opacity, Opened, Verdict, read_look, read_weighing,
};
use crate::science::special::wilson;

const FRESH: Exposure = Exposure {
    opened: Some(Opened::Intact),
    frost: Some(Frost::NeverFrozen),
    dried: Some(false),
    wet_or_mouldy: Some(false),
    decomposed: Some(false),
};

fn seen(bone: Bone, consistency: Consistency, exposure: Exposure) -> BoneEvidence {
    let opacity = (consistency == Consistency::Gelatinous).then_some(Opacity::Opaque);
    let look = MarrowLook { consistency: Some(consistency), opacity, colour: None };
    let got = read_look(look, Some(bone), exposure).unwrap();
    BoneEvidence { bone: Some(bone), side: 0, fawn: got.fawn, adult: got.adult, doubtful: got.doubtful }
}

/// A weighing of so much fat, F.
fn weighed(bone: Bone, fat: f64) -> BoneEvidence {
    let got = read_weighing(&DryWeighing { wet_g: 10.0, dry_g: (fat + 7.0) / 10.0 }, Some(bone), FRESH).unwrap();
    BoneEvidence { bone: Some(bone), side: 0, fawn: got.fawn, adult: got.adult, doubtful: false }
}

fn full(bone: Bone) -> BoneEvidence {
    seen(bone, Consistency::Solid, FRESH)
}
fn jelly(bone: Bone) -> BoneEvidence {
    seen(bone, Consistency::Gelatinous, FRESH)
}
fn empty(bone: Bone) -> BoneEvidence {
    seen(bone, Consistency::Wet, FRESH)
}

fn of(looks: &[(Depot, Amount)], marrow: &[BoneEvidence], group: Option<AgeGroup>) -> Evidence {
    let looks = looks.iter().map(|(d, amount)| (*d, DepotLook { amount: *amount, watery: false })).collect();
    Evidence { looks, marrow: marrow.to_vec(), group, ..Evidence::default() }
}

fn adult(looks: &[(Depot, Amount)], marrow: &[BoneEvidence]) -> Combined {
    combine(&of(looks, marrow, Some(AgeGroup::Adult))).unwrap()
}

/// Mech and DelGiudice 1985, one way only: empty marrow supports poor condition, full marrow supports nothing.
#[test]
fn marrow_alone_is_one_way() {
    assert_eq!(adult(&[], &[empty(Bone::Femur)]).ending, Ending::Exhausted);
    let alone = adult(&[], &[full(Bone::Femur)]);
    assert_eq!((alone.ending, alone.grounds), (Ending::CannotSay, vec![Ground::OnlyFullMarrow]));
    let plenty: Vec<_> = Depot::ALL.map(|depot| (depot, Amount::Heavy)).to_vec();
    let all_full = adult(&plenty, &[full(Bone::Femur)]);
    assert_eq!((all_full.ending, all_full.grounds), (Ending::CannotSay, vec![Ground::NoUseSeen]));
    assert_eq!(combine(&Evidence::default()), None);
}

/// Marrow fat by dry weight, limits seen for sika deer (does 25, calves 45), below 15 in any ruminant.
#[test]
fn weighed_marrow_by_age() {
    let ending = |fat, group| combine(&of(&[], &[weighed(Bone::Femur, fat)], group)).unwrap().ending;
    assert_eq!(ending(5.0, Some(AgeGroup::Adult)), Ending::Exhausted);
    assert_eq!(ending(30.0, Some(AgeGroup::Fawn)), Ending::Depleted);
    assert_eq!(ending(30.0, Some(AgeGroup::Adult)), Ending::PartlyUsed);
    // Where the age is not known, only what holds for both is said.
    assert_eq!(ending(30.0, None), Ending::PartlyUsed);
    assert_eq!(ending(5.0, None), Ending::Exhausted);
    assert_eq!(ending(88.0, Some(AgeGroup::Adult)), Ending::CannotSay, "83 to 93 reaches from use to full");
    // The width is part of the evidence: 22 less and more 5 is not below 25 for sure.
    let near = adult(&[], &[weighed(Bone::Femur, 22.0)]);
    assert_eq!(near.ending, Ending::PartlyUsed);
    assert!(near.grounds.contains(&Ground::MayBeEmptier));
}

/// Seen: skin, belly, kidney and heart, marrow last (Michigan DNR; Austin 1984). What goes before the marrow
/// is a floor of its own; with all of it gone and the marrow in use the deer is depleted.
#[test]
fn depots_before_the_marrow() {
    let gone: Vec<_> = Depot::ALL.map(|depot| (depot, Amount::None)).to_vec();
    let rump_gone = [(Depot::Rump, Amount::None)];
    let middle = adult(&rump_gone, &[jelly(Bone::Femur)]);
    assert_eq!(middle.ending, Ending::PartlyUsed);
    assert_eq!(middle.grounds, [Ground::MarrowInUse, Ground::OtherStoreUsed, Ground::MayBeEmptier]);
    assert_eq!(adult(&gone, &[jelly(Bone::Femur)]).ending, Ending::Depleted);
    let before_last = adult(&gone, &[full(Bone::Femur)]);
    assert_eq!((before_last.ending, before_last.grounds[0]), (Ending::PartlyUsed, Ground::RestGoneMarrowFull));
    let unknown = adult(&gone, &[]);
    assert_eq!((unknown.ending, unknown.grounds[0]), (Ending::PartlyUsed, Ground::RestGoneMarrowUnknown));
    // Skin fat alone gone says nothing of kidney and marrow.
    let skin = adult(&rump_gone, &[]);
    assert_eq!((skin.ending, skin.grounds[0]), (Ending::PartlyUsed, Ground::OtherStoreUsed));
    let order: Vec<Depot> = adult(&gone, &[]).depots.iter().map(|line| line.depot).collect();
    assert_eq!(order, Depot::ALL);
}

/// SEAFWA 1982: after four weeks of little food the kidney index had fallen and femur marrow had not.
#[test]
fn kidney_falls_before_marrow() {
    let mut evidence = of(&[], &[full(Bone::Femur)], Some(AgeGroup::Fawn));
    evidence.kidney_index = Some(Stage::Low);
    let got = combine(&evidence).unwrap();
    assert_eq!((got.ending, got.conflicts.len()), (Ending::PartlyUsed, 0));
}

#[test]
fn fat_beside_empty_marrow_is_a_contradiction() {
    for depot in Depot::ALL {
        let got = adult(&[(depot, Amount::Moderate)], &[empty(Bone::Femur)]);
        assert_eq!(got.ending, Ending::CannotSay, "{depot:?}");
        assert_eq!(got.grounds, [Ground::Contradiction]);
        let expected = if depot.turn() == Turn::Third {
            Conflict::KidneyBesideEmptyMarrow
        } else {
            Conflict::FatBesideEmptyMarrow
        };
        assert_eq!(got.conflicts, [expected]);
    }
    // Slight fat is no plenty, and watery fat is none.
    assert_eq!(adult(&[(Depot::Heart, Amount::Slight)], &[empty(Bone::Femur)]).ending, Ending::Exhausted);
    let mut watery = of(&[(Depot::Heart, Amount::Heavy)], &[empty(Bone::Femur)], None);
    watery.looks[0].1.watery = true;
    assert_eq!(combine(&watery).unwrap().ending, Ending::Exhausted);
}

/// Davis and others 1987, Spears and others 2003: from the body outwards.
#[test]
fn order_of_the_bones() {
    assert_eq!(adult(&[], &[full(Bone::Radius), empty(Bone::Femur)]).ending, Ending::Exhausted);
    assert_eq!(adult(&[], &[full(Bone::Metatarsus), empty(Bone::Femur)]).ending, Ending::Exhausted);
    let strong = adult(&[], &[empty(Bone::Metatarsus)]);
    assert_eq!(strong.ending, Ending::Exhausted, "low marrow in a bone that empties last is the stronger sign");
    let clear = adult(&[], &[full(Bone::Metatarsus)]);
    assert_eq!((clear.ending, clear.grounds), (Ending::CannotSay, vec![Ground::NothingCounts]));
    let wrong = adult(&[], &[empty(Bone::Metatarsus), full(Bone::Femur)]);
    assert_eq!((wrong.ending, wrong.conflicts), (Ending::CannotSay, vec![Conflict::BonesOutOfOrder]));
    let bones: Vec<_> = adult(&[], &[empty(Bone::Radius), jelly(Bone::Mandible), empty(Bone::Femur)])
        .bones
        .iter()
        .filter_map(|line| line.bone)
        .collect();
    assert_eq!(bones, [Bone::Mandible, Bone::Femur, Bone::Radius]);
}

/// Cederlund and others 1986: 38 % in a jaw is no exhaustion; Nichols and Pelton 1974: the jaw goes first.
#[test]
fn the_jaw_alone() {
    let jaw = adult(&[], &[weighed(Bone::Mandible, 38.0)]);
    assert_eq!((jaw.ending, jaw.grounds), (Ending::PartlyUsed, vec![Ground::MarrowInUse, Ground::JawAlone]));
    assert_eq!(adult(&[], &[weighed(Bone::Mandible, 20.0)]).ending, Ending::PartlyUsed, "never depleted by a jaw");
    let low = adult(&[], &[weighed(Bone::Mandible, 5.0)]);
    assert_eq!((low.ending, low.grounds[1]), (Ending::Exhausted, Ground::JawAlone));
}

/// Which direction still counts: opened for long, low stands and high does not; wet neither; decay no M3.
#[test]
fn exposure_carries_over() {
    let open = Exposure { opened: Some(Opened::OverADay), ..FRESH };
    assert_eq!(adult(&[], &[seen(Bone::Femur, Consistency::Wet, open)]).ending, Ending::Exhausted);
    assert_eq!(adult(&[], &[seen(Bone::Femur, Consistency::Solid, open)]).ending, Ending::CannotSay);
    let soaked = Exposure { wet_or_mouldy: Some(true), ..FRESH };
    assert_eq!(adult(&[], &[seen(Bone::Femur, Consistency::Wet, soaked)]).ending, Ending::CannotSay);
    let decayed = Exposure { decomposed: Some(true), ..FRESH };
    let got = adult(&[], &[seen(Bone::Femur, Consistency::Wet, decayed)]);
    assert_eq!((got.ending, got.grounds), (Ending::CannotSay, vec![Ground::NothingCounts]));
}

#[test]
fn two_readings_of_one_bone() {
    let narrow = adult(&[], &[jelly(Bone::Femur), weighed(Bone::Femur, 20.0)]);
    assert_eq!(narrow.bones.len(), 1);
    assert_eq!(adult(&[], &[jelly(Bone::Femur), weighed(Bone::Femur, 19.0)]).ending, Ending::Depleted);
    let apart = adult(&[], &[empty(Bone::Femur), full(Bone::Femur)]);
    assert_eq!((apart.ending, apart.conflicts), (Ending::CannotSay, vec![Conflict::OneBoneTwoAnswers]));
}

#[test]
fn kidney_by_eye_and_by_scales() {
    let with = |amount, index| {
        let mut evidence = of(&[(Depot::Kidney, amount)], &[], None);
        evidence.kidney_index = Some(index);
        combine(&evidence).unwrap()
    };
    let apart = with(Amount::Heavy, Stage::Gone);
    assert_eq!(apart.conflicts, [Conflict::KidneyLookAndIndex]);
    assert_eq!((apart.depots[0].stage, apart.ending), (None, Ending::CannotSay));
    assert_eq!(with(Amount::Moderate, Stage::Low).depots[0].stage, Some(Stage::Low));
    assert_eq!(with(Amount::Moderate, Stage::Low).ending, Ending::PartlyUsed);
}

#[test]
fn lesser_contradictions_are_told_and_the_word_stands() {
    let reversed = adult(&[(Depot::Rump, Amount::Heavy), (Depot::Kidney, Amount::None)], &[]);
    assert_eq!((reversed.ending, reversed.conflicts), (Ending::PartlyUsed, vec![Conflict::TurnsReversed]));
    let mut wasted = of(&[(Depot::Rump, Amount::Heavy)], &[], None);
    wasted.muscle = Some(Muscle::Wasted);
    let got = combine(&wasted).unwrap();
    assert_eq!(got.conflicts, [Conflict::WastedBesideFat]);
    assert!(got.grounds.contains(&Ground::MuscleWasted));
}

/// Mech and Frenzel 1971 (NC-52): of wolf-killed deer 2 of 69 had empty marrow, 5 of the 12 whose other fat
/// was looked at had nearly none. Wilson intervals as printed in the reference, worked out from the counts:
/// marrow alone sees few of those that were short of fat.
#[test]
fn the_asymmetry_in_counts() {
    for (hits, n, low, high) in [(2, 69, 0.0080, 0.0997), (5, 12, 0.1933, 0.6805)] {
        let got = wilson(hits, n, 0.95).unwrap();
        assert!((got.low - low).abs() < 5e-5 && (got.high - high).abs() < 5e-5, "{got:?}");
    }
}

fn any_bone() -> impl Strategy<Value = BoneEvidence> {
    let exposure = (any::<bool>(), any::<bool>()).prop_map(|(open, decomposed)| Exposure {
        opened: Some(if open { Opened::OverADay } else { Opened::Intact }),
        decomposed: Some(decomposed),
        ..FRESH
    });
    let look = prop::sample::select(vec![Consistency::Solid, Consistency::Gelatinous, Consistency::Wet]);
    (prop::sample::select(Bone::ALL.to_vec()), look, exposure).prop_map(|(b, c, e)| seen(b, c, e))
}

fn any_evidence() -> impl Strategy<Value = Evidence> {
    let amount =
        prop::option::of(prop::sample::select(vec![Amount::None, Amount::Slight, Amount::Moderate, Amount::Heavy]));
    let looks = prop::collection::vec((amount, any::<bool>()), 6).prop_map(|all| {
        let look = |(depot, (amount, watery)): (Depot, (Option<Amount>, bool))| {
            Some((depot, DepotLook { amount: amount?, watery }))
        };
        Depot::ALL.into_iter().zip(all).filter_map(look).collect::<Vec<_>>()
    });
    let stage = prop::option::of(prop::sample::select(vec![Stage::Gone, Stage::Low, Stage::Present]));
    let group = prop::option::of(prop::sample::select(vec![AgeGroup::Fawn, AgeGroup::Adult]));
    (looks, stage, prop::collection::vec(any_bone(), 0..4), group)
        .prop_map(|(looks, kidney_index, marrow, group)| Evidence { looks, kidney_index, muscle: None, marrow, group })
}

proptest! {
    /// Laws of the reference: a word needs a sign of use; full marrow alone never gives one; exhausted needs
    /// empty marrow; contradicting evidence gives none; and every answer has its reason.
    #[test]
    fn laws(evidence in any_evidence()) {
        let Some(got) = combine(&evidence) else {
            prop_assert!(evidence.looks.is_empty() && evidence.marrow.is_empty());
            return Ok(());
        };
        prop_assert!(!got.grounds.is_empty());
        let empty_marrow = evidence.marrow.iter().any(|b| {
            matches!(b.adult, Verdict::Words { highest: Word::Exhausted, .. }) && !b.doubtful
        });
        prop_assert!(got.ending != Ending::Exhausted || empty_marrow);
        let depot_used = got.depots.iter().any(|line| line.stage.is_some_and(|s| s < Stage::Present));
        let marrow_used = got.bones.iter().any(|line| {
            matches!(line.says, BoneSays::Words { highest, .. } if highest < Word::MarrowFull)
        });
        prop_assert!(got.ending == Ending::CannotSay || depot_used || marrow_used);
        if got.conflicts.iter().any(|c| c.is_grave()) {
            prop_assert_eq!(got.ending, Ending::CannotSay);
        }
        // More marrow that is full never makes the word emptier.
        let mut fuller = evidence.clone();
        fuller.marrow.push(full(Bone::Metatarsus));
        prop_assert!(combine(&fuller).unwrap().ending >= got.ending);
    }
}
