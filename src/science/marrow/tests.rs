use proptest::prelude::*;

use super::*;

const FRESH: Exposure = Exposure {
    opened: Some(Opened::Intact),
    frost: Some(Frost::NeverFrozen),
    dried: Some(false),
    wet_or_mouldy: Some(false),
    decomposed: Some(false),
};

fn look(consistency: Consistency, opacity: Option<Opacity>, colour: Option<Colour>) -> MarrowLook {
    MarrowLook { consistency: Some(consistency), opacity, colour }
}

fn class(look: MarrowLook) -> MarrowClass {
    read_look(look, Some(Bone::Femur), FRESH).unwrap().class
}

fn weigh(wet_g: f64, dry_g: f64) -> WeighingReading {
    read_weighing(&DryWeighing { wet_g, dry_g }, Some(Bone::Femur), FRESH).unwrap()
}

fn best(verdict: Verdict) -> Option<Word> {
    match verdict {
        Verdict::Words { best, .. } => best,
        Verdict::CannotSay(_) => None,
    }
}

/// Sinclair, Fryxell and Caughley 2006 after Cheatum 1949: the three looks.
#[test]
fn the_three_printed_looks() {
    assert_eq!(class(look(Consistency::Solid, None, Some(Colour::White))), MarrowClass::M1);
    assert_eq!(class(look(Consistency::Gelatinous, Some(Opacity::Opaque), Some(Colour::White))), MarrowClass::M2);
    assert_eq!(class(look(Consistency::Gelatinous, Some(Opacity::Opaque), Some(Colour::Pink))), MarrowClass::M2);
    assert_eq!(class(look(Consistency::Gelatinous, Some(Opacity::Translucent), Some(Colour::Yellow))), MarrowClass::M3);
    assert_eq!(class(look(Consistency::Wet, None, Some(Colour::Red))), MarrowClass::M3);
}

/// Bischoff 1954 as quoted by Greer 1968: consistency is to be trusted, colour is not.
#[test]
fn consistency_decides_and_the_colour_is_flagged() {
    let reading = read_look(look(Consistency::Solid, None, Some(Colour::Red)), Some(Bone::Femur), FRESH).unwrap();
    assert_eq!(reading.class, MarrowClass::M1);
    assert!(reading.cautions.contains(&Caution::ColourDisagrees));
    let colour_only = MarrowLook { colour: Some(Colour::Yellow), ..MarrowLook::default() };
    assert_eq!(read_look(colour_only, Some(Bone::Femur), FRESH), Err(LookRefusal::NoConsistency));
    assert_eq!(class(look(Consistency::Gelatinous, None, None)), MarrowClass::M2OrM3);
}

/// A frozen empty marrow looks solid (rule of ours on Greer 1968): no class until thawed, and a
/// solid look of unknown frost gets no word.
#[test]
fn frost() {
    let solid = look(Consistency::Solid, None, Some(Colour::White));
    let frozen = Exposure { frost: Some(Frost::FrozenNow), ..FRESH };
    assert_eq!(read_look(solid, Some(Bone::Femur), frozen), Err(LookRefusal::Frozen));
    let unknown = Exposure { frost: None, ..FRESH };
    let reading = read_look(solid, Some(Bone::Femur), unknown).unwrap();
    assert_eq!(reading.adult, Verdict::CannotSay(Reason::FrozenNotAsked));
    // What is soft is not frozen, so the question need not have been asked.
    let soft = look(Consistency::Wet, Some(Opacity::Translucent), Some(Colour::Red));
    assert!(read_look(soft, Some(Bone::Femur), unknown).unwrap().supports_poor_condition());
}

/// Rules of ours: open for more than a day, a low reading stays and a high one falls; wet falls both
/// ways; decay makes M3 doubtful.
#[test]
fn exposure() {
    let open = Exposure { opened: Some(Opened::OverADay), ..FRESH };
    let solid = look(Consistency::Solid, None, Some(Colour::White));
    let wet = look(Consistency::Wet, Some(Opacity::Translucent), Some(Colour::Red));
    let read = |l, e: Exposure| read_look(l, Some(Bone::Femur), e).unwrap();
    assert_eq!(read(solid, open).adult, Verdict::CannotSay(Reason::MayBeDried));
    assert_eq!(best(read(wet, open).adult), Some(Word::Exhausted));
    let mouldy = Exposure { wet_or_mouldy: Some(true), ..FRESH };
    assert_eq!(read(solid, mouldy).adult, Verdict::CannotSay(Reason::WetOrMouldy));
    assert_eq!(read(wet, mouldy).adult, Verdict::CannotSay(Reason::WetOrMouldy));
    let decayed = Exposure { decomposed: Some(true), ..FRESH };
    assert!(read(wet, decayed).doubtful);
    assert!(!read(wet, decayed).supports_poor_condition());
    assert!(!read(solid, decayed).doubtful);
    let short = Exposure { opened: Some(Opened::UnderADay), ..FRESH };
    assert_eq!(best(read(solid, short).adult), Some(Word::MarrowFull));
}

/// Davis and others 1987, Spears and others 2003: lower leg bones empty last.
#[test]
fn distal_bones_and_the_jaw() {
    let solid = look(Consistency::Solid, None, Some(Colour::White));
    let wet = look(Consistency::Wet, Some(Opacity::Translucent), Some(Colour::Red));
    let middle = look(Consistency::Gelatinous, Some(Opacity::Opaque), None);
    let read = |l, b| read_look(l, Some(b), FRESH).unwrap();
    assert_eq!(read(solid, Bone::Metatarsus).adult, Verdict::CannotSay(Reason::DistalBoneOnly));
    assert_eq!(best(read(wet, Bone::Metacarpus).adult), Some(Word::Exhausted));
    assert_eq!(
        read(middle, Bone::Metatarsus).adult,
        Verdict::Words { best: None, lowest: Word::Exhausted, highest: Word::PartlyUsed }
    );
    assert_eq!(read_look(solid, None, FRESH).unwrap().fawn, Verdict::CannotSay(Reason::BoneUnknown));
    // Cederlund and others 1986: 38 % in a moose jaw is not starvation.
    let jaw = read_weighing(&DryWeighing { wet_g: 4.0, dry_g: 1.8 }, Some(Bone::Mandible), FRESH).unwrap();
    assert_eq!(best(jaw.fawn), Some(Word::PartlyUsed));
}

/// Worked from D = 100 dry / wet and F = D - 7 (Hanks 1981), and D = D'(1 - L).
#[test]
fn weights_to_percent() {
    for (wet, dry, d, f) in [(6.0, 3.0, 50.0, 43.0), (5.0, 0.3, 6.0, 0.0), (4.0, 3.8, 95.0, 88.0)] {
        let got = weigh(wet, dry);
        assert!((got.dry.unwrap().get() - d).abs() < 1e-9 && (got.fat.get() - f).abs() < 1e-9, "{got:?}");
    }
    assert_eq!(best(weigh(4.0, 3.8).adult), Some(Word::MarrowFull));
    let lost = weighing::before_loss(DryPercent::new(50.0).unwrap(), 0.2).unwrap();
    assert!((lost.get() - 40.0).abs() < 1e-9 && (lost.fat().get() - 33.0).abs() < 1e-9);
}

/// Of a bone that lay open: what it would come to had it lost water, by D = D'(1 - L) and F = D - 7 (the row of 20 % is
/// printed in the reference, the others are the same sum); a bone that was whole has no such table.
#[test]
fn what_lost_water_would_come_to() {
    let read = |opened| {
        let exposure = Exposure { opened: Some(opened), ..FRESH };
        read_weighing(&DryWeighing { wet_g: 6.0, dry_g: 3.0 }, Some(Bone::Femur), exposure).unwrap().if_water_lost
    };
    let rows = read(Opened::OverADay);
    assert_eq!(rows.len(), 3);
    for (row, (lost, dry, fat)) in rows.iter().zip([(0.1, 45.0, 38.0), (0.2, 40.0, 33.0), (0.3, 35.0, 28.0)]) {
        assert!((row.lost_share - lost).abs() < 1e-9, "{row:?}");
        assert!((row.dry.get() - dry).abs() < 1e-9 && (row.fat.get() - fat).abs() < 1e-9, "{row:?}");
    }
    assert!(read(Opened::Intact).is_empty());
}

/// Nieminen and Laitinen 1986 and others: dry weight and drawn-out fat are two scales, 7 points apart; one
/// is never read as the other, and a percentage without its scale gives no figure.
#[test]
fn a_laboratory_names_its_scale() {
    let lab = |percent, scale| read_lab(percent, scale, Some(Bone::Femur), FRESH);
    let dry = lab(50.0, LabScale::DryWeight).unwrap();
    assert_eq!((dry.dry.map(DryPercent::get), dry.fat.get()), (Some(50.0), 43.0));
    assert_eq!(dry, read_weighing(&DryWeighing { wet_g: 6.0, dry_g: 3.0 }, Some(Bone::Femur), FRESH).unwrap());
    let fat = lab(50.0, LabScale::FatExtracted).unwrap();
    assert_eq!((fat.dry, fat.fat.get()), (None, 50.0));
    assert_eq!(best(lab(20.0, LabScale::DryWeight).unwrap().adult), Some(Word::Exhausted));
    assert_eq!(best(lab(20.0, LabScale::FatExtracted).unwrap().adult), Some(Word::Depleted));
    assert_eq!(lab(20.0, LabScale::NotSaid), Err(WeighingRefusal::ScaleNotSaid));
    assert_eq!(lab(100.1, LabScale::DryWeight), Err(WeighingRefusal::NotAPercentage));
    assert_eq!(lab(f64::NAN, LabScale::DryWeight), Err(WeighingRefusal::NotAPercentage));
}

/// Limits seen: sika calves 45 %, does 25 %; below 15 % the reserve is gone at any age.
#[test]
fn bands_by_age() {
    let fat = |f| FatPercent::new(f).unwrap();
    assert_eq!(fat(30.0).word(AgeGroup::Fawn), Word::Depleted);
    assert_eq!(fat(30.0).word(AgeGroup::Adult), Word::PartlyUsed);
    assert_eq!(fat(10.0).word(AgeGroup::Fawn), Word::Exhausted);
    assert_eq!(fat(10.0).word(AgeGroup::Adult), Word::Exhausted);
    assert_eq!(fat(85.0).word(AgeGroup::Adult), Word::MarrowFull);
    assert_eq!(AgeGroup::from_fawn_probability(0.5), None);
    assert_eq!(AgeGroup::from_fawn_probability(0.95), Some(AgeGroup::Fawn));
    assert_eq!(AgeGroup::from_fawn_probability(0.05), Some(AgeGroup::Adult));
}

#[test]
fn widths_double_with_frost() {
    let thawed = Exposure { frost: Some(Frost::Thawed), ..FRESH };
    let got = read_weighing(&DryWeighing { wet_g: 6.0, dry_g: 3.0 }, Some(Bone::Femur), thawed).unwrap();
    assert!((got.fat_low.get() - 33.0).abs() < 1e-9 && (got.fat_high.get() - 53.0).abs() < 1e-9);
    assert!((weigh(6.0, 3.0).fat_low.get() - 38.0).abs() < 1e-9);
}

#[test]
fn look_and_weighing_can_disagree() {
    let empty = read_look(look(Consistency::Wet, None, None), Some(Bone::Femur), FRESH).unwrap();
    assert!(disagree(&empty, &weigh(6.0, 5.4)));
    assert!(!disagree(&empty, &weigh(6.0, 0.6)));
}

#[test]
fn refuses_impossible_weights() {
    let read = |wet_g, dry_g| read_weighing(&DryWeighing { wet_g, dry_g }, None, FRESH).unwrap_err();
    assert_eq!(read(3.0, 3.1), WeighingRefusal::DryAboveWet);
    assert_eq!(read(0.9, 0.5), WeighingRefusal::TooLittle);
    assert_eq!(read(3.0, -0.1), WeighingRefusal::NotAWeight);
    assert_eq!(read(f64::NAN, 1.0), WeighingRefusal::NotAWeight);
    assert_eq!(read(f64::INFINITY, 1.0), WeighingRefusal::NotAWeight);
    let d = DryPercent::new(50.0).unwrap();
    assert_eq!(weighing::before_loss(d, 1.0), Err(WeighingRefusal::Loss));
    assert_eq!(weighing::before_loss(d, f64::NAN), Err(WeighingRefusal::Loss));
}

prop_compose! {
    fn any_exposure()(
        opened in prop::option::of(prop::sample::select(vec![Opened::Intact, Opened::UnderADay, Opened::OverADay, Opened::UnknownTime])),
        frost in prop::option::of(prop::sample::select(vec![Frost::NeverFrozen, Frost::FrozenNow, Frost::Thawed])),
        dried in any::<Option<bool>>(), wet_or_mouldy in any::<Option<bool>>(), decomposed in any::<Option<bool>>(),
    ) -> Exposure { Exposure { opened, frost, dried, wet_or_mouldy, decomposed } }
}

fn any_bone() -> impl Strategy<Value = Option<Bone>> {
    prop::option::of(prop::sample::select(Bone::ALL.to_vec()))
}

proptest! {
    /// One way only: full marrow never supports poor condition, is always told apart from good
    /// condition, and no exposure turns a low look into a full one.
    #[test]
    fn one_way(exposure in any_exposure(), bone in any_bone(), wet_g in 1.0..20.0_f64, share in 0.0..=1.0_f64) {
        if let Ok(solid) = read_look(look(Consistency::Solid, None, None), bone, exposure) {
            prop_assert!(!solid.supports_poor_condition());
            prop_assert!(solid.cautions.contains(&Caution::FullIsNotGood));
        }
        if let Ok(wet) = read_look(look(Consistency::Wet, None, None), bone, exposure)
            && let Verdict::Words { highest, .. } = wet.adult
        {
            prop_assert_eq!(highest, Word::Exhausted);
        }
        let reading = read_weighing(&DryWeighing { wet_g, dry_g: wet_g * share }, bone, exposure).unwrap();
        prop_assert!(reading.cautions.contains(&Caution::NotCause));
        prop_assert!(reading.fat_low <= reading.fat && reading.fat <= reading.fat_high);
        for verdict in [reading.fawn, reading.adult] {
            if let Verdict::Words { best: Some(best), lowest, highest } = verdict {
                prop_assert!(lowest <= best && best <= highest);
                prop_assert!(best != Word::MarrowFull || !bone.is_none_or(Bone::is_distal));
                prop_assert!(!exposure.may_be_dried() || best <= Word::Depleted || bone == Some(Bone::Mandible));
            }
        }
    }
}
