//! From findings at the bones to looks and weighings, one a bone and occasion.

use super::lens::{Answers, Ask, Lens, Picks, Used};
use super::shape::Taken;
use crate::order::Short as _;
use crate::record::{Answer, Bone, Carcass, Site, Why};
use crate::science::marrow::{
    self as method, Colour, Consistency, DryWeighing, Exposure, Frost, LabScale, LookReading, LookRefusal, MarrowLook,
    Opacity, Opened, WeighingReading, WeighingRefusal, read_lab, read_look, read_weighing,
};

/// Grams are kept in hundredths.
const G_PER_STEP: f64 = 0.01;

/// A look at one bone on one occasion, under one way of settling answers.
pub(super) struct Look {
    pub(super) bone: Option<Bone>,
    pub(super) site: Site,
    pub(super) result: Result<LookReading, LookRefusal>,
    /// What could have sharpened it.
    pub(super) seen: MarrowLook,
    pub(super) taken: Vec<Taken>,
}

/// A weighing of one bone's marrow.
pub(super) struct Weighing {
    pub(super) bone: Option<Bone>,
    pub(super) site: Site,
    pub(super) result: Result<WeighingReading, WeighingRefusal>,
    /// More than one wet or dry weight was kept.
    pub(super) again: bool,
    pub(super) exposure: Exposure,
    /// The percentage, where a laboratory sent that and no weights.
    pub(super) lab: Option<f64>,
}

/// All looks and weighings, preferred bones first.
pub(super) struct Found<'a> {
    pub(super) looks: Vec<Look>,
    pub(super) weighings: Vec<Weighing>,
    pub(super) used: Used<'a>,
    /// Every combination of differing answers was worked out.
    pub(super) whole: bool,
}

/// Every finding that condition reads.
const FINDINGS: &[&str] = &[
    "marrow_bone",
    "marrow_consistency",
    "marrow_colour",
    "marrow_see_through",
    "marrow_frozen",
    "bone_opened",
    "marrow_spoiled",
    "marrow_wet_g",
    "marrow_dry_g",
    "marrow_lab_percent",
    "marrow_lab_scale",
    "decay",
];
/// A look is there where one of these was answered.
const LOOKED: &[&str] = &["marrow_consistency", "marrow_colour", "marrow_see_through"];
/// What one look depends on.
const LOOK_ASKS: [&str; 6] =
    ["marrow_consistency", "marrow_colour", "marrow_see_through", "marrow_frozen", "bone_opened", "marrow_spoiled"];

/// Looks at every bone that anything was answered about.
pub(super) fn find(carcass: &Carcass) -> Found<'_> {
    let mut found = Found { looks: Vec::new(), weighings: Vec::new(), used: Used::new(), whole: true };
    let whole = Answers::of(carcass, FINDINGS);
    let occasions: Vec<Answers> =
        carcass.examinations.values().map(|e| Answers::of_examination(carcass, &e.sheet, FINDINGS)).collect();
    for (bone, site) in places(&whole, &mut found.used) {
        for occasion in occasions.iter().filter(|o| o.sites(LOOKED).contains(&site)) {
            looks_at(occasion, &whole, bone, site, &mut found);
        }
        weigh(&whole, bone, site, &mut found);
    }
    found
}

/// Every place with an answer on marrow, preferred bones first, a bone that is not named last.
fn places<'a>(whole: &Answers<'a>, used: &mut Used<'a>) -> Vec<(Option<Bone>, Site)> {
    let lens = Lens::new(whole, Picks::new());
    let in_hand = |code: &str| Bone::ALL.into_iter().find(|bone| bone.code() == code);
    let mut places: Vec<(Option<Bone>, Site)> = whole
        .sites(&[LOOKED, &["marrow_wet_g", "marrow_dry_g", "marrow_lab_percent"]].concat())
        .into_iter()
        .map(|site| (site.bone.or_else(|| lens.choice("marrow_bone", Site::NONE).and_then(in_hand)), site))
        .collect();
    places.order_by_key(|(bone, site)| (bone.is_none(), *bone, *site));
    used.extend(lens.into_used());
    places
}

fn looks_at<'a>(occasion: &Answers<'a>, whole: &Answers<'a>, bone: Option<Bone>, site: Site, found: &mut Found<'a>) {
    let asks: Vec<Ask> = LOOK_ASKS.iter().map(|finding| (*finding, site)).collect();
    let first = Lens::new(occasion, Picks::new());
    let (ways, complete) = first.ways(&asks);
    found.whole &= complete;
    for picks in ways {
        let taken = first.taken(&picks);
        let lens = Lens::new(occasion, picks);
        found.looks.extend(look(&lens, whole, bone, site, taken));
        found.used.extend(lens.into_used());
    }
}

fn look<'a>(
    lens: &Lens<'_, 'a>,
    whole: &Answers<'a>,
    bone: Option<Bone>,
    site: Site,
    taken: Vec<Taken>,
) -> Option<Look> {
    let mut exposure = exposure(lens, whole, site);
    if matches!(lens.said("marrow_consistency", site), Some(Answer::CantTell { why: Why::Frozen })) {
        exposure.frost = Some(Frost::FrozenNow);
    }
    let seen = seen(lens, site);
    let nothing = seen == MarrowLook::default() && exposure.frost != Some(Frost::FrozenNow);
    let result = read_look(seen, bone.map(bone_of), exposure);
    (!nothing).then_some(Look { bone, site, result, seen, taken })
}

/// The options put consistency and opacity into one; where they were also asked apart and do not fit,
/// opacity is left open.
fn seen(lens: &Lens, site: Site) -> MarrowLook {
    let (consistency, by_option) = match lens.choice("marrow_consistency", site) {
        Some("solid_waxy") => (Some(Consistency::Solid), None),
        Some("gelatinous_opaque") => (Some(Consistency::Gelatinous), Some(Opacity::Opaque)),
        Some("gelatinous_wet" | "watery") => (Some(Consistency::Wet), None),
        _ => (None, None),
    };
    let asked = match lens.choice("marrow_see_through", site) {
        Some("opaque") => Some(Opacity::Opaque),
        Some("translucent") => Some(Opacity::Translucent),
        _ => None,
    };
    let opacity = match (by_option, asked) {
        (Some(option), Some(asked)) if option != asked => None,
        _ => by_option.or(asked),
    };
    let colour = match lens.choice("marrow_colour", site) {
        Some("white") => Some(Colour::White),
        Some("pink") => Some(Colour::Pink),
        Some("red") => Some(Colour::Red),
        Some("yellow") => Some(Colour::Yellow),
        _ => None,
    };
    MarrowLook { consistency, opacity, colour }
}

/// Frost belongs to the occasion; whether the bone was open or spoiled is taken from any occasion.
fn exposure<'a>(lens: &Lens<'_, 'a>, whole: &Answers<'a>, site: Site) -> Exposure {
    let whole = Lens::new(whole, Picks::new());
    let opened = lens.choice("bone_opened", site).or_else(|| whole.choice("bone_opened", site));
    let spoiled = lens.choices("marrow_spoiled", site).or_else(|| whole.choices("marrow_spoiled", site));
    let has = |codes: &[&str]| spoiled.as_ref().map(|found| found.iter().any(|code| codes.contains(code)));
    let exposure = Exposure {
        opened: match opened {
            Some("intact") => Some(Opened::Intact),
            Some("open_under_a_day") => Some(Opened::UnderADay),
            Some("open_over_a_day") => Some(Opened::OverADay),
            Some("open_unknown") => Some(Opened::UnknownTime),
            _ => None,
        },
        frost: match lens.choice("marrow_frozen", site) {
            Some("frozen") => Some(Frost::FrozenNow),
            Some("thawed_after_freezing") => Some(Frost::Thawed),
            Some("never_frozen") => Some(Frost::NeverFrozen),
            _ => None,
        },
        dried: has(&["dried"]),
        wet_or_mouldy: has(&["mouldy", "sour", "rain_soaked"]),
        decomposed: whole.choice("decay", Site::NONE).map(|code| code != "fresh"),
    };
    lens.also_used(whole);
    exposure
}

fn weigh<'a>(whole: &Answers<'a>, bone: Option<Bone>, site: Site, found: &mut Found<'a>) {
    let before = found.weighings.len();
    let lens = Lens::new(whole, Picks::new());
    let (wet, dry) = (lens.numbers("marrow_wet_g", site), lens.numbers("marrow_dry_g", site));
    if let (Some(wet_g), Some(dry_g)) = (mean(&wet), least(&dry)) {
        let exposure = exposure(&lens, whole, site);
        let result = read_weighing(&DryWeighing { wet_g, dry_g }, bone.map(bone_of), exposure);
        let again = wet.len() > 1 || dry.len() > 1;
        found.weighings.push(Weighing { bone, site, result, again, exposure, lab: None });
    }
    let percents = lens.numbers("marrow_lab_percent", site);
    if !percents.is_empty() {
        let exposure = exposure(&lens, whole, site);
        let scale = match lens.choice("marrow_lab_scale", site) {
            Some("dry_weight") => LabScale::DryWeight,
            Some("fat_extracted") => LabScale::FatExtracted,
            _ => LabScale::NotSaid,
        };
        // Two sheets of one laboratory are two results: each is told.
        for tenths in percents {
            let percent = tenths as f64 / 10.0;
            let result = read_lab(percent, scale, bone.map(bone_of), exposure);
            found.weighings.push(Weighing { bone, site, result, again: false, exposure, lab: Some(percent) });
        }
    }
    if found.weighings.len() > before {
        found.used.extend(lens.into_used());
    }
}

fn mean(steps: &[i64]) -> Option<f64> {
    let sum: i64 = steps.iter().sum();
    (!steps.is_empty()).then(|| sum as f64 / steps.len() as f64 * G_PER_STEP)
}

/// Dried to constant weight, the last weight is the least.
fn least(steps: &[i64]) -> Option<f64> {
    steps.iter().min().map(|step| *step as f64 * G_PER_STEP)
}

pub(super) const fn bone_of(bone: Bone) -> method::Bone {
    match bone {
        Bone::Femur => method::Bone::Femur,
        Bone::Tibia => method::Bone::Tibia,
        Bone::Humerus => method::Bone::Humerus,
        Bone::Radius => method::Bone::Radius,
        Bone::Metatarsus => method::Bone::Metatarsus,
        Bone::Metacarpus => method::Bone::Metacarpus,
        Bone::Mandible => method::Bone::Mandible,
    }
}
