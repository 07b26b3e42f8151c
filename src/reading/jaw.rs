//! From findings at the jaw to what the age method takes.

use super::lens::{Ask, Lens};
use super::measures;
use super::sex::SexFound;
use crate::record::{Answer, Side, Site, Tooth};
use crate::science::age::{
    AgeEvidence, ClassCall, Crest, DeathWindow, Dentine, IncisorState, Infundibulum, JawFlags, JawSide, M3Posterior,
    MolarState, P4State, PremolarWear, QuickClass, Species,
};

/// Every finding that age and sex read.
pub(super) const FINDINGS: &[&str] = &[
    "species",
    "quick_class",
    "front_teeth",
    "jaw_trouble",
    "wear_class_called",
    "cheek_teeth_count",
    "third_tooth",
    "third_molar_back_cusp",
    "premolar_wear",
    "tooth_state",
    "dentine",
    "crest",
    "infundibulum",
    "sex_evidence",
    "sex_evidence_handled",
    "sex_called",
    "fetus",
    "place",
    "arrived_at",
];

/// Every question that the age method reads, for finding those on which answers differ.
pub(super) fn asks() -> Vec<Ask> {
    let mut all: Vec<Ask> = ["species", "quick_class", "front_teeth", "jaw_trouble", "wear_class_called"]
        .map(|finding| (finding, Site::NONE))
        .to_vec();
    let beside = [
        "cementum_years_count",
        "cementum_grade",
        "pelvis_knobs",
        "sex_evidence",
        "sex_evidence_handled",
        "sex_called",
        "fetus",
        "known_age_years_count",
        "death_known_at",
    ];
    all.extend(beside.map(|finding| (finding, Site::NONE)));
    for side in [Side::Left, Side::Right] {
        let of_side = ["cheek_teeth_count", "third_tooth", "third_molar_back_cusp", "premolar_wear"];
        all.extend(of_side.map(|finding| (finding, Site::side(side))));
        all.extend([Tooth::P1].iter().chain(&Tooth::CHEEK).map(|t| ("tooth_state", Site::tooth(side, *t))));
        all.push(("dentine", Site::tooth(side, Tooth::P4)));
        for tooth in Tooth::MOLARS {
            all.extend(["dentine", "crest", "infundibulum"].map(|finding| (finding, Site::tooth(side, tooth))));
        }
    }
    all
}

/// What the mapping had to say beside the evidence.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub(super) struct Notes {
    /// The third tooth was described in two ways that do not fit.
    pub(super) third_tooth_differs: bool,
    /// A molar was marked as a milk tooth.
    pub(super) milk_molar: bool,
    /// More rings than any deer has.
    pub(super) too_many_rings: bool,
}

/// All that the record says of age.
pub(super) fn evidence(
    lens: &Lens,
    death: Option<DeathWindow>,
    sex: &SexFound,
    latitude_deg: Option<f64>,
) -> (AgeEvidence, Notes) {
    let too_many_rings = matches!(measures::lab_age(lens), Some(Err(_)));
    let mut notes = Notes { too_many_rings, ..Notes::default() };
    let left = side(lens, Side::Left, &mut notes);
    let right = side(lens, Side::Right, &mut notes);
    let species = species(lens);
    let quick_class = match lens.choice("quick_class", Site::NONE) {
        Some("fawn") => Some(QuickClass::Fawn),
        Some("older") => Some(QuickClass::Older),
        _ => None,
    };
    let evidence = AgeEvidence {
        species,
        death,
        latitude_deg,
        sex: sex.for_age(),
        left,
        right,
        class_call: called(lens),
        quick_class,
        flags: flags(lens),
        more: measures::more_evidence(lens, sex),
    };
    (evidence, notes)
}

/// The species told.
pub(super) fn species(lens: &Lens) -> Species {
    match lens.choice("species", Site::NONE) {
        Some("white_tailed_deer") => Species::WhiteTailed,
        Some(_) => Species::Other,
        None => Species::Unknown,
    }
}

fn side(lens: &Lens, which: Side, notes: &mut Notes) -> JawSide {
    let here = Site::side(which);
    let state = |tooth| tooth_state(lens, which, tooth);
    let each = |tooths: [Tooth; 3]| tooths.map(|tooth| Site::tooth(which, tooth));
    let molars = Tooth::MOLARS.map(|tooth| {
        let code = state(tooth);
        notes.milk_molar |= matches!(code, Some("milk" | "milk_loose" | "milk_shed"));
        molar_state(code?)
    });
    let whole_row = Tooth::CHEEK.map(state);
    let counted = lens.number("cheek_teeth_count", here).and_then(|n| u8::try_from(n).ok());
    let extra_p1 = state(Tooth::P1).map(stands);
    let p2_missing = state(Tooth::P2).map(|code| code == "not_there");
    let from_states = || {
        let row = whole_row.iter().try_fold(0_u8, |n, code| Some(n + u8::from(stands((*code)?))))?;
        Some(row + u8::from(extra_p1 == Some(true)))
    };
    let (i1, other_front) = front_teeth(lens);
    JawSide {
        cheek_teeth: counted.or_else(from_states),
        extra_p1,
        p2_missing,
        p4: p4(lens, here, state(Tooth::P4), notes),
        molars,
        i1,
        other_front,
        p4_dentine: dentine(lens, Site::tooth(which, Tooth::P4)),
        dentine: each(Tooth::MOLARS).map(|site| dentine(lens, site)),
        crest: each(Tooth::MOLARS).map(|site| crest(lens, site)),
        m3_posterior: back_cusp(lens, here),
        infundibulum: each(Tooth::MOLARS).map(|site| infundibulum(lens, site)),
        premolar_wear: premolar_wear(lens, here),
    }
}

/// The state of a tooth; looked at and not there is a state.
fn tooth_state<'a>(lens: &Lens<'_, 'a>, side: Side, tooth: Tooth) -> Option<&'a str> {
    match lens.result("tooth_state", Site::tooth(side, tooth))? {
        Answer::NotSeen => Some("not_there"),
        _ => lens.choice("tooth_state", Site::tooth(side, tooth)),
    }
}

/// Whether a tooth in that state counts as standing in the row. One lost after death left its place.
fn stands(code: &str) -> bool {
    !matches!(code, "not_there" | "in_gum" | "milk_shed")
}

fn molar_state(code: &str) -> Option<MolarState> {
    Some(match code {
        "not_there" => MolarState::NotVisible,
        "in_gum" => MolarState::InGum,
        "part_up" => MolarState::CuspsThrough,
        "up_unworn" => MolarState::FullHeight,
        "in_wear" => MolarState::InWear,
        _ => return None,
    })
}

/// The third cheek tooth by its own question first. `In wear` alone is not taken for a permanent tooth:
/// a worn milk tooth in winter is what that mistake looks like.
fn p4(lens: &Lens, here: Site, state: Option<&str>, notes: &mut Notes) -> Option<P4State> {
    let asked = match lens.choice("third_tooth", here) {
        Some("three_cusps") => Some(P4State::MilkThreeCusps),
        Some("loose_or_gone") => Some(P4State::MilkLooseOrGone),
        Some("two_cusps_below_row") => Some(P4State::PermanentBelowRow),
        Some("two_cusps_white") => Some(P4State::PermanentWhite),
        Some("two_cusps_stained") => Some(P4State::PermanentStained),
        _ => None,
    };
    let by_state = match state {
        Some("milk") => Some(P4State::MilkThreeCusps),
        Some("milk_loose" | "milk_shed") => Some(P4State::MilkLooseOrGone),
        Some("part_up") => Some(P4State::PermanentBelowRow),
        Some("up_unworn") => Some(P4State::PermanentWhite),
        _ => None,
    };
    if let (Some(asked), Some(by_state)) = (asked, by_state) {
        let milk = |p: P4State| p <= P4State::MilkLooseOrGone;
        notes.third_tooth_differs |= milk(asked) != milk(by_state);
    }
    asked.or(by_state)
}

fn front_teeth(lens: &Lens) -> (Option<IncisorState>, [Option<IncisorState>; 3]) {
    use IncisorState::{Erupting, Milk, Permanent};
    match lens.choice("front_teeth", Site::NONE) {
        Some("all_milk") => (Some(Milk), [Some(Milk); 3]),
        Some("first_pair_changing") => (Some(Erupting), [None; 3]),
        Some("first_pair_permanent") => (Some(Permanent), [None; 3]),
        Some("all_permanent") => (Some(Permanent), [Some(Permanent); 3]),
        _ => (None, [None; 3]),
    }
}

fn dentine(lens: &Lens, site: Site) -> Option<Dentine> {
    Some(match lens.choice("dentine", site)? {
        "none" => Dentine::None,
        "narrower" => Dentine::Narrower,
        "about_equal" => Dentine::AsWide,
        "wider" => Dentine::Wider,
        "twice_or_more" => Dentine::TwiceAsWide,
        "smooth" => Dentine::Smooth,
        _ => return None,
    })
}

fn crest(lens: &Lens, site: Site) -> Option<Crest> {
    Some(match lens.choice("crest", site)? {
        "sharp" => Crest::Sharp,
        "slightly_blunt" => Crest::SlightlyBlunt,
        "blunt" => Crest::Blunt,
        "rounded" => Crest::Rounded,
        "gone" => Crest::Gone,
        _ => return None,
    })
}

fn infundibulum(lens: &Lens, site: Site) -> Option<Infundibulum> {
    Some(match lens.choice("infundibulum", site)? {
        "open_deep" => Infundibulum::Open,
        "narrow" => Infundibulum::Narrow,
        "remnant" => Infundibulum::Remnant,
        "gone" => Infundibulum::Gone,
        _ => return None,
    })
}

fn back_cusp(lens: &Lens, site: Site) -> Option<M3Posterior> {
    Some(match lens.choice("third_molar_back_cusp", site)? {
        "in_gum_or_unworn" => M3Posterior::UnwornCone,
        "pointed" => M3Posterior::TraceOfWear,
        "flat_or_hollow" => M3Posterior::FlatOrHollow,
        "slopes_to_cheek" => M3Posterior::SlopesToCheek,
        "level_or_below" => M3Posterior::LevelOrBelow,
        "cusp_missing" => M3Posterior::AbsentOrPeg,
        _ => return None,
    })
}

fn premolar_wear(lens: &Lens, site: Site) -> Option<PremolarWear> {
    Some(match lens.choice("premolar_wear", site)? {
        "none" => PremolarWear::None,
        "light" => PremolarWear::Light,
        "moderate" => PremolarWear::Moderate,
        "heavy" => PremolarWear::Heavy,
        "stumps" => PremolarWear::Stumps,
        _ => return None,
    })
}

fn called(lens: &Lens) -> Option<ClassCall> {
    let years: usize = lens.choice("wear_class_called", Site::NONE)?.strip_prefix('y')?.parse().ok()?;
    ClassCall::ALL.get(years).copied()
}

fn flags(lens: &Lens) -> JawFlags {
    let Some(codes) = lens.choices("jaw_trouble", Site::NONE) else { return JawFlags::default() };
    let has = |code: &str| Some(codes.contains(&code));
    JawFlags {
        sides_differ: has("sides_differ"),
        swelling: Some(codes.contains(&"swelling") || codes.contains(&"bone_eaten_away")),
        broken_teeth: has("broken"),
        weathered: has("weathered_or_boiled"),
        photo_only: has("photo_only"),
    }
}
