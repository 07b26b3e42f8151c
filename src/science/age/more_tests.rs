//! Calipers, rings, growing ends, antlers, size and signs of sex joined to the teeth.

use proptest::prelude::*;
use time::macros::date;

use super::*;
use crate::science::calipers::CaliperRefusal;
use crate::science::cementum::{Grade, LabAge};
use crate::science::sex::SexSign;
use crate::science::skeleton::{Plate, cannon_stages};

const TABLE: &str = include_str!("../../../tests/reference/age_more.csv");
const FEBRUARY: DeathWindow = DeathWindow { from: date!(2026 - 02 - 15), to: date!(2026 - 02 - 15) };

fn table(kind: &'static str) -> impl Iterator<Item = (Vec<&'static str>, f64)> {
    TABLE.lines().filter_map(move |line| {
        let cells: Vec<&str> = line.split(',').collect();
        (cells[0] == kind).then(|| (cells[1..4].to_vec(), cells[4].parse().unwrap()))
    })
}

fn deer(more: MoreEvidence) -> AgeEvidence {
    AgeEvidence { species: Species::WhiteTailed, death: Some(FEBRUARY), more, ..AgeEvidence::default() }
}

fn called(call: ClassCall, sex: Sex, more: MoreEvidence) -> AgeEvidence {
    AgeEvidence { class_call: Some(call), sex: Some(sex), ..deer(more) }
}

fn run(evidence: &AgeEvidence) -> AgeEstimate {
    match estimate(evidence, &Settings::default()).unwrap() {
        AgeOutcome::Estimate(e) => *e,
        AgeOutcome::NoEvidence { .. } => panic!("no evidence"),
    }
}

fn lab(years: u8, grade: Option<Grade>) -> MoreEvidence {
    MoreEvidence { cementum: Some(LabAge { years, grade }), ..MoreEvidence::default() }
}

fn adult(dentine: [Dentine; 3]) -> JawSide {
    JawSide {
        cheek_teeth: Some(6),
        p4: Some(P4State::PermanentStained),
        dentine: dentine.map(Some),
        ..JawSide::default()
    }
}

/// Posteriors worked out by NumPy from the same published figures.
#[test]
fn agrees_with_numpy() {
    let none = MoreEvidence::default();
    let size = MoreEvidence { size_z: Some(-1.5), ..none };
    let beam = MoreEvidence { antler_beam_mm: Some(350.0), ..none };
    for (kind, evidence) in [
        ("call_4", called(ClassCall::Four, Sex::Female, none)),
        ("call_4_rings_6", called(ClassCall::Four, Sex::Female, lab(6, Some(Grade::Middle)))),
        ("call_4_size", called(ClassCall::Four, Sex::Female, size)),
        ("beam_350", called(ClassCall::Two, Sex::Male, beam)),
    ] {
        let got = run(&evidence);
        let mut rows = 0;
        for (cells, expected) in table(kind) {
            let class: usize = cells[0].parse().unwrap();
            assert!((got.classes[class] - expected).abs() < 1e-9, "{kind} {class}: {} {expected}", got.classes[class]);
            rows += 1;
        }
        assert_eq!(rows, 10, "{kind}");
    }
}

/// The same for a smooth brow on a deer whose sex is not known: sex and class hang together.
#[test]
fn sex_and_age_are_joined() {
    let more = MoreEvidence { sex_line: Some(SexSign::NoPedicles), ..MoreEvidence::default() };
    let evidence = AgeEvidence { sex: None, ..called(ClassCall::Four, Sex::Female, more) };
    let got = run(&evidence);
    for (cells, expected) in table("brow") {
        let class: usize = cells[0].parse().unwrap();
        let sex = usize::from(cells[1] == "male");
        assert!((got.joint[class][sex] - expected).abs() < 1e-9, "{class} {sex}");
    }
    // A smooth brow on a sure fawn leaves one in four for a buck; on a grown deer hardly any.
    let fawn = JawSide { cheek_teeth: Some(5), ..JawSide::default() };
    let male = |side: JawSide| run(&AgeEvidence { left: side, ..deer(more) }).joint.iter().map(|[_, m]| m).sum::<f64>();
    assert!((male(fawn) - 0.25).abs() < 0.01, "{}", male(fawn));
    assert!(male(adult([Dentine::Wider, Dentine::Narrower, Dentine::Narrower])) < 0.03);
}

/// Rings and growing ends row by row against SciPy.
#[test]
fn parts_agree_with_scipy() {
    for (cells, expected) in table("rings") {
        let grade = match cells[1] {
            "best" => Some(Grade::Best),
            "middle" => Some(Grade::Middle),
            "lowest" => Some(Grade::Lowest),
            _ => None,
        };
        let row = LabAge { years: cells[0].parse().unwrap(), grade }.probabilities();
        assert!((row[cells[2].parse::<usize>().unwrap()] - expected).abs() < 1e-12, "{cells:?}");
    }
    for (cells, expected) in table("cannon") {
        let [open, line, closed] = cannon_stages(cells[0].parse().unwrap());
        let got = match cells[1] {
            "open" => open,
            "line" => line,
            _ => closed,
        };
        assert!((got - expected).abs() < 1e-12, "{cells:?}");
    }
    for (cells, expected) in table("tooth_row_days") {
        let sex = if cells[1] == "male" { Sex::Male } else { Sex::Female };
        let got = crate::science::calipers::tooth_row::age_days(cells[0].parse().unwrap(), sex);
        assert!((got / expected - 1.0).abs() < 1e-12, "{cells:?}");
    }
}

/// A laboratory's count replaces nothing: it is joined, and how far it lies from the teeth is said.
#[test]
fn rings_are_joined_and_the_distance_is_said() {
    let jaw = adult([Dentine::TwiceAsWide, Dentine::Wider, Dentine::Narrower]);
    let teeth = run(&AgeEvidence { left: jaw, ..deer(MoreEvidence::default()) });
    assert_eq!(teeth.lab, None);
    let near = run(&AgeEvidence { left: jaw, ..deer(lab(5, Some(Grade::Best))) });
    let far = run(&AgeEvidence { left: jaw, ..deer(lab(9, Some(Grade::Best))) });
    for estimate in [&near, &far] {
        let said = estimate.lab.unwrap();
        assert!((said.others_mean - teeth.mean_birthdays).abs() < 1e-12);
        assert!((said.others_give_it - teeth.classes[usize::from(said.lab.years)]).abs() < 1e-12);
        assert!(estimate.cautions.contains(&Caution::CementumNotTruth));
        assert!(!estimate.cautions.contains(&Caution::KeepJawAndIncisors));
    }
    assert!((near.lab.unwrap().others_less_lab - (teeth.mean_birthdays - 5.0)).abs() < 1e-12);
    assert!(far.cautions.contains(&Caution::CementumDiffers) && !near.cautions.contains(&Caution::CementumDiffers));
    assert!(near.classes[5] > teeth.classes[5] && far.mean_birthdays > teeth.mean_birthdays);
    // Teeth still speak: the count alone is not the answer.
    let alone = run(&deer(lab(9, Some(Grade::Best))));
    assert_eq!(alone.lab, None);
    assert!(far.classes[9] < alone.classes[9]);
}

/// A cracked cannon bone can age a deer without a head (Purdue 1983).
#[test]
fn a_cannon_bone_alone() {
    let with = |plate| run(&deer(MoreEvidence { cannon_plate: Some(plate), ..MoreEvidence::default() }));
    let [open, line, closed] = Plate::ALL.map(with);
    assert!(open.broad.fawn + open.broad.yearling > 0.99, "{:?}", open.broad);
    assert!(line.broad.yearling > 0.9, "{:?}", line.broad);
    assert!(closed.broad.fawn + closed.broad.yearling < 0.01, "{:?}", closed.broad);
    assert!(open.mean_birthdays < line.mean_birthdays && line.mean_birthdays < closed.mean_birthdays);
    assert!(closed.cautions.contains(&Caution::KeepJawAndIncisors));
    assert!(!closed.basis.eruption && closed.basis.growth_plate);
}

/// Tooth row and width of dentine divide a class; alone they say nothing of it.
#[test]
fn calipers_alone_are_no_age() {
    let more = MoreEvidence { tooth_row_mm: Some(76.0), dentine_width_mm: Some(1.5), ..MoreEvidence::default() };
    assert!(matches!(estimate(&deer(more), &Settings::default()), Ok(AgeOutcome::NoEvidence { .. })));
}

#[test]
fn a_tooth_row_moves_the_months_of_a_yearling_only() {
    let yearling = JawSide { cheek_teeth: Some(6), p4: Some(P4State::MilkThreeCusps), ..JawSide::default() };
    let december = DeathWindow { from: date!(2025 - 11 - 15), to: date!(2026 - 04 - 30) };
    let with = |mm: Option<f64>| {
        let more = MoreEvidence { tooth_row_mm: mm, ..MoreEvidence::default() };
        run(&AgeEvidence { left: yearling, death: Some(december), sex: Some(Sex::Male), ..deer(more) })
    };
    let (plain, short, long) = (with(None), with(Some(76.0)), with(Some(84.0)));
    for measured in [&short, &long] {
        for (a, b) in plain.classes.iter().zip(measured.classes) {
            assert!((a - b).abs() < 1e-12);
        }
        assert!(measured.cautions.contains(&Caution::ToothRowSouthern));
    }
    assert!(short.months.unwrap().middle < plain.months.unwrap().middle);
    assert!(long.months.unwrap().middle > plain.months.unwrap().middle);
    let outside = with(Some(95.0));
    assert_eq!(outside.measures.tooth_row, Some(Err(CaliperRefusal::AboveRange)));
    assert!(outside.cautions.contains(&Caution::MeasureNotUsed));
    assert_eq!(outside.months, plain.months);
}

#[test]
fn a_width_of_dentine_moves_adults_among_themselves() {
    let jaw = adult([Dentine::Wider, Dentine::Wider, Dentine::Narrower]);
    let with = |mm: Option<f64>| {
        let more = MoreEvidence { dentine_width_mm: mm, ..MoreEvidence::default() };
        run(&AgeEvidence { left: jaw, ..deer(more) })
    };
    let (plain, narrow, wide) = (with(None), with(Some(0.3)), with(Some(3.0)));
    assert!(narrow.mean_birthdays < plain.mean_birthdays && plain.mean_birthdays < wide.mean_birthdays);
    for measured in [&narrow, &wide] {
        assert!(measured.broad.fawn + measured.broad.yearling < 0.01);
        assert!(measured.cautions.contains(&Caution::DentineWidthSouthern));
    }
}

#[test]
fn a_beam_on_a_doe_has_no_say() {
    let more = MoreEvidence { antler_beam_mm: Some(420.0), ..MoreEvidence::default() };
    let plain = run(&called(ClassCall::Two, Sex::Female, MoreEvidence::default()));
    let doe = run(&called(ClassCall::Two, Sex::Female, more));
    assert_eq!(plain.classes, doe.classes);
    assert!(doe.cautions.contains(&Caution::BeamOnDoe));
    // Where nobody said the sex, a beam is an antler.
    let open = run(&AgeEvidence { sex: None, ..called(ClassCall::Two, Sex::Male, more) });
    assert!(open.joint.iter().map(|[_, male]| male).sum::<f64>() > 0.98);
}

/// What looks were left open: a growing end is worth much where nothing is known, nothing in an old deer.
#[test]
fn the_growing_end_is_weighed_like_a_tooth() {
    let AgeOutcome::NoEvidence { sharpen } = estimate(&deer(MoreEvidence::default()), &Settings::default()).unwrap()
    else {
        panic!()
    };
    let bits = |gains: &[Gain]| gains.iter().find(|g| g.item == Item::CannonPlate).unwrap().bits;
    assert!(bits(&sharpen) > 0.5);
    let old = run(&AgeEvidence { left: adult([Dentine::Smooth; 3]), ..deer(MoreEvidence::default()) });
    assert!(bits(&old.sharpen) < 0.02);
}

/// A reader of the reserve's own stands in for a published one.
#[test]
fn a_reader_of_the_reserves_own() {
    use crate::science::reader_record::{Tally, Truth, learn};
    let mut tally = Tally::default();
    (0..80).for_each(|_| tally.add(Truth::Known(3), ClassCall::Five));
    let model = learn(&tally, &Reader::FirstMolar, &[0.1; 10]).model;
    let settings = Settings { reader: Reader::Own(Box::new(model)), ..Settings::default() };
    let evidence = called(ClassCall::Five, Sex::Female, MoreEvidence::default());
    let AgeOutcome::Estimate(own) = estimate(&evidence, &settings).unwrap() else { panic!() };
    assert!(own.mean_birthdays < run(&evidence).mean_birthdays - 0.3);
}

fn any_more() -> impl Strategy<Value = MoreEvidence> {
    let plate = || prop::option::of(prop::sample::select(&Plate::ALL[..]));
    let lab = prop::option::of((0..=22_u8, prop::option::of(prop::sample::select(vec![Grade::Best, Grade::Lowest]))));
    let line = prop::option::of(prop::sample::select(vec![
        SexSign::Antlers,
        SexSign::Pedicles,
        SexSign::NoPedicles,
        SexSign::SuckledNipples,
        SexSign::PelvisKnobs,
        SexSign::NoPelvisKnobs,
    ]));
    (
        prop::option::of(0.0..120.0_f64),
        prop::option::of(-1.0..5.0_f64),
        lab,
        plate(),
        plate(),
        prop::option::of(-5.0..700.0_f64),
        prop::option::of(-8.0..8.0_f64),
        line,
        prop::option::of((0.0..250.0_f64, any::<bool>())),
    )
        .prop_map(|(row, width, lab, cannon_plate, radius_plate, beam, size_z, sex_line, own)| MoreEvidence {
            local_age: own.map(|(months, share)| LocalAge {
                months,
                spread: if share { LocalSpread::Share(0.25) } else { LocalSpread::Months(12.0) },
            }),
            tooth_row_mm: row,
            dentine_width_mm: width,
            cementum: lab.map(|(years, grade)| LabAge { years, grade }),
            cannon_plate,
            radius_plate,
            antler_beam_mm: beam,
            size_z,
            sex_line,
        })
}

fn any_deer() -> impl Strategy<Value = AgeEvidence> {
    let call = prop::sample::select(ClassCall::ALL.to_vec());
    let sex = prop::option::of(prop::sample::select(vec![Sex::Female, Sex::Male]));
    let dentine = prop::option::of(prop::sample::select(Dentine::ALL));
    let p4 = prop::option::of(prop::sample::select(P4State::ALL));
    (call, sex, [dentine.clone(), dentine.clone(), dentine], p4, any_more()).prop_map(
        |(call, sex, dentine, p4, more)| {
            let left = JawSide { p4, dentine, ..JawSide::default() };
            AgeEvidence { class_call: Some(call), sex, left, ..deer(more) }
        },
    )
}

fn mean_with(evidence: &AgeEvidence, change: impl Fn(&mut MoreEvidence)) -> f64 {
    let mut changed = *evidence;
    change(&mut changed.more);
    run(&changed).mean_birthdays
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(150))]

    /// Whatever was measured: a distribution in which no class that the prior holds is ruled out.
    #[test]
    fn always_a_distribution(evidence in any_deer()) {
        let e = run(&evidence);
        prop_assert!((e.classes.iter().sum::<f64>() - 1.0).abs() < 1e-9);
        prop_assert!((e.joint.iter().flatten().sum::<f64>() - 1.0).abs() < 1e-9);
        prop_assert!(e.classes.iter().all(|p| *p > 0.0));
        prop_assert!(e.sharpen.iter().all(|g| g.bits.is_finite() && g.bits >= 0.0));
        if let Some(m) = e.months { prop_assert!(m.low <= m.middle && m.middle <= m.high); }
    }

    /// A wider band of dentine, a longer beam or a larger measure never makes a deer younger.
    #[test]
    fn more_never_makes_younger(evidence in any_deer(), a in 0.0..3.4_f64, b in 0.0..3.4_f64, z in -8.0..8.0_f64) {
        let (less, more) = (a.min(b), a.max(b));
        let width = |mm| mean_with(&evidence, |m| m.dentine_width_mm = Some(mm));
        prop_assert!(width(more) >= width(less) - 1e-9);
        let own = |months| {
            let spread = LocalSpread::Share(0.25);
            mean_with(&evidence, |m| m.local_age = Some(LocalAge { months, spread }))
        };
        prop_assert!(own(more * 60.0) >= own(less * 60.0) - 1e-9);
        let size = |z| mean_with(&evidence, |m| m.size_z = Some(z));
        prop_assert!(size(z + 0.5) >= size(z) - 1e-9);
        if evidence.sex == Some(Sex::Male) {
            let beam = |mm| mean_with(&evidence, |m| m.antler_beam_mm = Some(mm));
            prop_assert!(beam(420.0) >= beam(300.0) - 1e-9);
        }
    }

    /// A closed end is never younger than an open one, whatever else was seen. A line lies between them
    /// unless everything else contradicts it: then the floor of 0.002 makes it speak like the nearer of the
    /// two (see `a_cannon_bone_alone`).
    #[test]
    fn growing_ends_never_make_younger(evidence in any_deer()) {
        let mean = |plate| mean_with(&evidence, |m| m.cannon_plate = Some(plate));
        prop_assert!(mean(Plate::Open) <= mean(Plate::Closed) + 1e-9);
    }

    /// A count of rings raises its own class (eight and nine stand together, see `cementum`).
    #[test]
    fn rings_raise_their_own_class(evidence in any_deer(), years in 0..9_u8) {
        let mut without = evidence;
        without.more.cementum = None;
        let mut with = evidence;
        with.more.cementum = Some(LabAge { years, grade: Some(Grade::Middle) });
        let class = usize::from(years);
        prop_assert!(run(&with).classes[class] >= run(&without).classes[class] - 1e-12);
    }

    /// Each piece multiplies: whatever came before, rings put in last by Bayes' rule give what all at once give.
    #[test]
    fn order_of_evidence_does_not_matter(evidence in any_deer()) {
        let mut plain = evidence;
        plain.more.cementum = None;
        let mut with = evidence;
        let lab = evidence.more.cementum.unwrap_or(LabAge { years: 4, grade: None });
        with.more.cementum = Some(lab);
        let before = run(&plain).classes;
        let product: Vec<f64> = before.iter().zip(lab.likelihood()).map(|(p, l)| p * l).collect();
        let total: f64 = product.iter().sum();
        for (got, expected) in run(&with).classes.iter().zip(product) {
            prop_assert!((got - expected / total).abs() < 1e-9);
        }
    }
}
