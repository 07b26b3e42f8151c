//! Every message id that a reading can use, with the English meant in the comment before it.
//!
//! The text itself stands in the catalogue of `words`. Names in braces are filled from the
//! statement's values: a class is a message of its own, a percentage is a whole number from 1 to 99.

pub use super::death::ids as death;
use super::fat_ids;
use crate::record::Bone;
use crate::science::age::{
    AgeRefusal, Caution as AgeCaution, ContradictionKind, Item, KeyClass, KeyRefusal, Prior, Reader, Tooth,
};
use crate::science::calipers::CaliperRefusal;
use crate::science::marrow::{AgeGroup, Caution, LookRefusal, MarrowClass, Reason, WeighingRefusal, Word};
use crate::science::scope::OutOfScope;
use crate::science::sex::SexSign;
use crate::science::size::girth::{GirthRefusal, RuleSilent};
use crate::science::size::rules::Rule;
use crate::science::source::Mark;
use crate::science::unborn::UnbornRefusal;

macro_rules! singles {
    ($($(#[$meta:meta])* $name:ident = $id:literal;)+) => {
        $($(#[$meta])* pub const $name: &str = $id;)+
        /// All ids of this list.
        pub const SINGLES: &[&str] = &[$($id,)+];
    };
}

macro_rules! family {
    ($(#[$meta:meta])* $list:ident, $of:ident($ty:ty) { $($pattern:pat => $id:literal,)+ }) => {
        $(#[$meta])*
        pub const fn $of(value: $ty) -> &'static str {
            match value { $($pattern => $id,)+ }
        }
        /// All ids of the family.
        pub const $list: &[&str] = &[$($id,)+];
    };
}

pub(super) use {family, singles};

singles! {
    /// "Age, from the lower jaw"
    AGE_TITLE = "reading.age.title";
    /// "{class} ({percent} in 100)"
    AGE_SINGLE = "reading.age.single";
    /// "One of: {classes} ({percent} in 100 together); most likely {class}"
    AGE_SET = "reading.age.set";
    /// "Fawn {fawn}, yearling {yearling}, 2 years {two}, 3 to 5 years {three_to_five}, 6 and more {six_and_over}, each in 100, never under 1"
    AGE_BROAD = "reading.age.broad";
    /// "If {class}: {low} to {high} months old, middle {middle} (90 in 100)"
    AGE_MONTHS = "reading.age.months";
    /// "The winter key says {class}"
    AGE_KEY = "reading.age.key";
    /// "The winter key gives no class: {why}"
    AGE_KEY_SILENT = "reading.age.key_silent";
    /// "By the dentine of the three molars alone, printed keys say {class}"
    AGE_PIVOT = "reading.age.pivot";
    /// "Left half: by the dentine of its three molars alone, printed keys say {class}"
    AGE_PIVOT_LEFT = "reading.age.pivot_left";
    /// "Right half: by the dentine of its three molars alone, printed keys say {class}"
    AGE_PIVOT_RIGHT = "reading.age.pivot_right";
    /// "Left side alone: {left}; right side alone: {right}"
    AGE_SIDES = "reading.age.sides";
    /// "Days of death taken as {from} to {to}"
    AGE_WINDOW = "reading.age.window";
    /// "Starting point: {prior}; late teeth in {late} of 100 deer"
    AGE_SETTINGS = "reading.age.settings";
    /// "Class called by {reader}"
    AGE_READER = "reading.age.reader";
    /// "By a look from afar only: fawn {fawn} in 100, older {older} in 100"
    AGE_QUICK = "reading.age.quick";
    /// "older than a fawn"
    AGE_OLDER = "reading.age.class.older";
    /// "Nothing was seen that speaks of age."
    AGE_NO_EVIDENCE = "reading.age.no_evidence";
    /// "So many ages are left open that no single class, not even the likeliest, should be leaned on."
    AGE_WIDE = "reading.age.wide";
    /// "The day it was found comes from the phone's clock, not from an answer."
    AGE_FOUND_BY_CLOCK = "reading.age.caution.found_by_clock";
    /// "The first day of death is assumed: 1 December (found in November: 1 November), or 110 days before it was found ..."
    AGE_WINDOW_ASSUMED = "reading.age.caution.window_assumed";
    /// "The third tooth was described in two ways that do not fit: look at it again."
    AGE_THIRD_TOOTH_DIFFERS = "reading.age.caution.third_tooth_differs";
    /// "A molar was marked as a milk tooth; molars have none, so that answer was left out."
    AGE_MILK_MOLAR = "reading.age.caution.milk_molar";
    /// "Answers differ ({count} ways were worked out); the figures are their average and every way is shown."
    SPLIT = "reading.caution.split";
    /// "Too many answers differ for every combination to be worked out; each was tried by itself."
    SPLIT_CUT = "reading.caution.split_cut";
    /// "With {look} as {answer}:"
    VARIANT = "reading.variant";

    /// "Condition, from bone marrow"
    CONDITION_TITLE = "reading.condition.title";
    /// "Marrow of the {bone}: {class}"
    CONDITION_LOOK = "reading.condition.look";
    /// "Marrow of the {bone}: {class}? It may be decay."
    CONDITION_LOOK_DOUBTFUL = "reading.condition.look_doubtful";
    /// "Fat by that class: {low} to {high} % of fresh marrow"
    CONDITION_LOOK_RANGE = "reading.condition.look_range";
    /// "Weighed marrow of the {bone}: dry weight {dry} %, fat {fat} % ({low} to {high})"
    CONDITION_WEIGHED = "reading.condition.weighed";
    /// "If {lost} % had gone as water before weighing: dry weight {dry} %, fat {fat} %"
    CONDITION_IF_LOST = "reading.condition.if_lost";
    /// "Marrow reserve {group}: {word}"
    CONDITION_WORD = "reading.condition.word";
    /// "Marrow reserve {group}: {lowest} to {highest}"
    CONDITION_WORDS = "reading.condition.words";
    /// "Marrow reserve {group}: most likely {word}, within {lowest} to {highest}"
    CONDITION_WORD_WITHIN = "reading.condition.word_within";
    /// "Lab, marrow of the {bone}: fat drawn out {fat} % ({low} to {high})"
    CONDITION_LAB_FAT = "reading.condition.lab_fat";
    /// "{percent} % is fat {fat} % if it is dry weight, fat {percent} % if it is fat"
    CONDITION_LAB_EITHER = "reading.condition.lab_either";
    /// "Marrow of the {bone}: cannot say. {why}"
    CONDITION_CANNOT_SAY = "reading.condition.cannot_say";
    /// "Look and weighing do not agree. Both are shown; neither wins."
    CONDITION_DISAGREE = "reading.condition.disagree";
    /// "No marrow was looked at."
    CONDITION_NO_EVIDENCE = "reading.condition.no_evidence";
    /// "The age is not known well enough, so both age groups are shown."
    CONDITION_BOTH_GROUPS = "reading.condition.caution.both_groups";
    /// "More than one bone or occasion was looked at; each is shown, none is pooled."
    CONDITION_NOT_POOLED = "reading.condition.caution.not_pooled";
    /// "More than one weighing: the mean wet weight and the least dry weight were used."
    CONDITION_WEIGHED_AGAIN = "reading.condition.caution.weighed_again";

    /// "Sex"
    SEX_TITLE = "reading.sex.title";
    /// "Female"
    SEX_FEMALE = "reading.sex.female";
    /// "Male"
    SEX_MALE = "reading.sex.male";
    /// "Signs point to {sex} ({percent} in 100)"
    SEX_LIKELY = "reading.sex.likely";
    /// "Not known"
    SEX_UNKNOWN = "reading.sex.unknown";
    /// "Signs of both sexes were recorded: look again."
    SEX_BOTH = "reading.sex.caution.both";
    /// "No antlers in winter says nothing of the sex: bucks cast them."
    SEX_NO_ANTLERS = "reading.sex.caution.no_antlers";

    /// "completed birthdays"
    UNIT_BIRTHDAYS = "reading.unit.birthdays";
    /// "months"
    UNIT_MONTHS = "reading.unit.months";
    /// "% fat of fresh marrow"
    UNIT_FAT = "reading.unit.fat_percent";
    /// "% dry weight of fresh marrow"
    UNIT_DRY = "reading.unit.dry_percent";
    /// "probability"
    UNIT_PROBABILITY = "reading.unit.probability";

    /// "Look at femur marrow, warmed by hand"
    LOOK_MARROW = "reading.look.marrow";
    /// "Thaw the marrow and look again on the bench"
    LOOK_THAWED = "reading.look.marrow_thawed";
    /// "Say whether the marrow was frozen"
    LOOK_FROZEN = "reading.look.marrow_frozen";
    /// "Feel whether the marrow is solid, jelly or wet"
    LOOK_CONSISTENCY = "reading.look.marrow_consistency";
    /// "See whether light comes through the jelly"
    LOOK_OPACITY = "reading.look.marrow_see_through";
    /// "Look at a femur; this bone empties late"
    LOOK_FEMUR = "reading.look.femur";
    /// "Weigh the marrow wet and dry on the bench"
    LOOK_WEIGH = "reading.look.weigh";
    /// "Say which species it is"
    LOOK_SPECIES = "reading.look.species";
    /// "On the bench: {look}"
    LOOK_ON_BENCH = "reading.look.on_bench";
    /// "Look for scrotum, penis, udder or vulva"
    LOOK_SEX = "reading.look.sex";

    /// "Age, from jaw and bones"
    AGE_TITLE_MORE = "reading.age.title_more";
    /// "Rings say {class}; all else alone says {mean} years in the mean, {years} less ({percent} in 100 for the class of the rings)"
    AGE_RINGS_OLDER = "reading.age.rings_older";
    /// "Rings say {class}; all else alone says {mean} years in the mean, {years} more ({percent} in 100 for the class of the rings)"
    AGE_RINGS_YOUNGER = "reading.age.rings_younger";
    /// "From rings of cementum alone: nothing else speaks of age"
    AGE_RINGS_ALONE = "reading.age.rings_alone";
    /// "Length of the tooth row: {best} months if a yearling ({low} to {high})"
    AGE_TOOTH_ROW = "reading.age.tooth_row";
    /// "Length of the tooth row was not used: {why}"
    AGE_TOOTH_ROW_NOT = "reading.age.tooth_row_not";
    /// "Width of dentine: {best} years if grown ({low} to {high})"
    AGE_DENTINE_WIDTH = "reading.age.dentine_width";
    /// "Width of dentine: 2.5 years or less if grown"
    AGE_DENTINE_WIDTH_LEAST = "reading.age.dentine_width_least";
    /// "Width of dentine was not used: {why}"
    AGE_DENTINE_WIDTH_NOT = "reading.age.dentine_width_not";
    /// "More rings were entered than any deer has (22): check the laboratory's sheet. They were not used."
    AGE_TOO_MANY_RINGS = "reading.age.caution.too_many_rings";
    /// "As the crew called it; no sign was recorded"
    SEX_CALLED = "reading.sex.called";
    /// "Undetermined; signs lean to {sex} ({percent} in 100)"
    SEX_UNDETERMINED = "reading.sex.undetermined";
    /// "Undetermined: signs of both sexes"
    SEX_UNDETERMINED_BOTH = "reading.sex.undetermined_both";
    /// "Decided by: {sign}"
    SEX_BY = "reading.sex.by";
    /// "Odds {odds} to 1"
    SEX_ODDS = "reading.sex.odds";
    /// "How often the pelvis is right was not found. It counts in grown deer only."
    SEX_PELVIS = "reading.sex.caution.pelvis";
    /// "The crew called it {sex}, the signs say otherwise: look again."
    SEX_CALLED_OTHERWISE = "reading.sex.caution.called_otherwise";
    /// "Weight and size"
    SIZE_TITLE = "reading.size.title";
    /// "Nothing was measured."
    SIZE_NO_EVIDENCE = "reading.size.no_evidence";
    /// "On the scales: {kg} kg"
    SIZE_WEIGHED = "reading.size.weighed";
    /// "The body was not whole: the scales show what was left."
    SIZE_WEIGHED_IN_PART = "reading.size.caution.weighed_in_part";
    /// "Dressed {dressed} kg: about {kg} kg alive ({low} to {high})"
    SIZE_FROM_DRESSED = "reading.size.from_dressed";
    /// "Girth {girth} cm: {low} to {high} kg alive in autumn, by all rules together"
    SIZE_GIRTH = "reading.size.girth";
    /// "Girth {girth} cm: no rule fits this deer"
    SIZE_GIRTH_NO_RULE = "reading.size.girth_no_rule";
    /// "{rule}: {kg} kg alive ({low} to {high}); used for girths of {from} to {to} cm"
    SIZE_RULE = "reading.size.rule";
    /// "{rule}: {kg} kg alive ({low} to {high}), {dressed} kg dressed; used for girths of {from} to {to} cm"
    SIZE_RULE_DRESSED = "reading.size.rule_dressed";
    /// "{rule}: not used, {why}"
    SIZE_RULE_SILENT = "reading.size.rule_silent";
    /// "If so, by {rule}: {kg} kg alive ({low} to {high})"
    SIZE_IF_OTHER_UNIT = "reading.size.if_other_unit";
    /// "That is what southern deer of this girth weighed in autumn. Winter takes weight off."
    SIZE_AUTUMN = "reading.size.caution.autumn";
    /// "The rules differ by more than 15 in 100. Each is shown; none wins."
    SIZE_RULES_DISAGREE = "reading.size.caution.rules_disagree";
    /// "Nobody said whether the body was whole, frozen or bloated: a girth counts only on one that is whole and neither."
    SIZE_STATE_NOT_ASKED = "reading.size.caution.state_not_asked";
    /// "{what}: {mm} mm, kept"
    SIZE_RECORDED = "reading.size.recorded";
    /// "Hind foot"
    SIZE_HIND_FOOT = "reading.size.hind_foot";
    /// "Lower jaw"
    SIZE_MANDIBLE = "reading.size.mandible";
    /// "Gap without teeth"
    SIZE_DIASTEMA = "reading.size.diastema";
    /// "Width of the femur"
    SIZE_FEMUR_WIDTH = "reading.size.femur_width";
    /// "Molars: width over height {ratio}, kept"
    SIZE_MOLAR_RATIO = "reading.size.molar_ratio";
    /// "Crown of the {tooth}: {mm} mm, kept"
    SIZE_CROWN = "reading.size.crown";
    /// "There are no norms for northern deer yet: measures of bone and crown are kept for the reserve's own and say nothing of age or sex by themselves."
    SIZE_NO_NORMS = "reading.size.caution.no_norms";
    /// "No deer has a hind foot over 60 cm: measure from the tip of the hoof to the point of the heel."
    SIZE_HIND_FOOT_LONG = "reading.size.caution.hind_foot_long";
    /// "Unborn young"
    UNBORN_TITLE = "reading.unborn.title";
    /// "Nobody looked for unborn young."
    UNBORN_NO_EVIDENCE = "reading.unborn.no_evidence";
    /// "Looked for; there were none."
    UNBORN_NONE = "reading.unborn.none";
    /// "There were unborn young; none was measured."
    UNBORN_NOT_MEASURED = "reading.unborn.not_measured";
    /// "No age yet: say on which day the deer was found."
    UNBORN_NO_DATES = "reading.unborn.no_dates";
    /// "{count} unborn, {days} days old ({low} to {high})"
    UNBORN_AGE = "reading.unborn.age";
    /// "Conceived about {best} ({low} to {high})"
    UNBORN_CONCEIVED = "reading.unborn.conceived";
    /// "Would have been born about {best} ({low} to {high})"
    UNBORN_BIRTH = "reading.unborn.birth";
    /// "Number {n}: {sex} (at that age right at least {percent} times in 100)"
    UNBORN_SEX = "reading.unborn.sex";
    /// "Number {n}: sex not counted, too young to tell by eye"
    UNBORN_SEX_REFUSED = "reading.unborn.sex_refused";
    /// "The equation for age is from memory and not confirmed."
    UNBORN_UNCONFIRMED = "reading.unborn.caution.unconfirmed";
    /// "The doe was thin, and thin does carry small young: they may be older and conceived earlier. The range is wider."
    UNBORN_THIN_DOE = "reading.unborn.caution.thin_doe";
    /// "The young differ by more than ten days, which litter mates do not: measure again."
    UNBORN_MATES_DIFFER = "reading.unborn.caution.mates_differ";
    /// "Not as many were measured as were counted."
    UNBORN_NOT_ALL_MEASURED = "reading.unborn.caution.not_all_measured";
    /// "Very small: make sure it is no knob of the womb's lining."
    UNBORN_SMALL = "reading.unborn.caution.small";
    /// "Below 63 days crews are right less than 90 times in 100."
    UNBORN_SEX_LINE = "reading.unborn.caution.sex_line";
    /// "Conceived outside the rut, which runs {from} to {to} here ..."
    UNBORN_OUTSIDE_RUT = "reading.unborn.caution.outside_rut";
    /// "kg"
    UNIT_KG = "reading.unit.kg";
    /// "lb"
    UNIT_LB = "reading.unit.lb";
    /// "days"
    UNIT_DAYS = "reading.unit.days";
    /// "Measure round the chest, close behind the forelegs"
    LOOK_GIRTH = "reading.look.girth";
    /// "Measure each from forehead to rump"
    LOOK_FETUS_LENGTH = "reading.look.fetus_length";
}

/// "fawn", "yearling", "2 years", ... "8 years", "9 years or more": classes by completed birthdays.
pub const CLASSES: &[&str] = &[
    "reading.age.class.y0",
    "reading.age.class.y1",
    "reading.age.class.y2",
    "reading.age.class.y3",
    "reading.age.class.y4",
    "reading.age.class.y5",
    "reading.age.class.y6",
    "reading.age.class.y7",
    "reading.age.class.y8",
    "reading.age.class.y9_and_more",
];

/// The class of so many completed birthdays; nine and more are one.
pub fn class(birthdays: u8) -> &'static str {
    CLASSES.get(usize::from(birthdays)).or(CLASSES.last()).copied().unwrap_or_default()
}

family! {
    /// "a fawn" / "a yearling" / "an adult of 2 years or more"
    KEY_CLASSES, key_class(KeyClass) {
        KeyClass::Fawn => "reading.age.key_class.fawn",
        KeyClass::Yearling => "reading.age.key_class.yearling",
        KeyClass::Adult => "reading.age.key_class.adult",
    }
}

family! {
    /// Clauses after "The winter key gives no class:".
    KEY_REFUSALS, key_refusal(KeyRefusal) {
        // "it is for white-tailed deer"
        KeyRefusal::NotWhiteTailed => "reading.age.key_why.not_white_tailed",
        // "the species is not recorded"
        KeyRefusal::SpeciesUnknown => "reading.age.key_why.species_unknown",
        // "no day is known on which it was found"
        KeyRefusal::NoDeathWindow => "reading.age.key_why.no_death_window",
        // "it is closed outside December to April"
        KeyRefusal::OutsideMonths => "reading.age.key_why.outside_months",
        // "count the cheek teeth of one side"
        KeyRefusal::NeedsCount => "reading.age.key_why.needs_count",
        // "look at the third cheek tooth"
        KeyRefusal::NeedsThirdTooth => "reading.age.key_why.needs_third_tooth",
        // "look whether the last molar is up"
        KeyRefusal::NeedsThirdMolar => "reading.age.key_why.needs_third_molar",
        // "look at the wear of the first molar"
        KeyRefusal::NeedsFirstMolarWear => "reading.age.key_why.needs_first_molar_wear",
        // "five teeth but an adult's wear: the first may be missing, look at the other side"
        KeyRefusal::P2MayBeMissing => "reading.age.key_why.p2_may_be_missing",
    }
}

family! {
    /// Why there is no age.
    AGE_REFUSALS, age_refusal(AgeRefusal) {
        // "No age: the method is for white-tailed deer. The record goes on."
        AgeRefusal::NotWhiteTailed => "reading.age.refused.not_white_tailed",
        // "No age yet: say which species it is."
        AgeRefusal::SpeciesUnknown => "reading.age.refused.species_unknown",
        // "No age yet: say on which day it was found."
        AgeRefusal::NoDeathWindow => "reading.age.refused.no_death_window",
        // "No age: the last possible day of death lies before the first. Check the dates."
        AgeRefusal::WindowReversed => "reading.age.refused.window_reversed",
        // "No age: it may have died in either of two winters."
        AgeRefusal::TwoWinters => "reading.age.refused.two_winters",
        // "No age: the method is for deer that died from November to May."
        AgeRefusal::OutsideSeason => "reading.age.refused.outside_season",
        // "No age: the birth dates hold only north of 38 degrees."
        AgeRefusal::TooFarSouth => "reading.age.refused.too_far_south",
        // "No age: a setting of the method is out of range."
        AgeRefusal::BadSetting => "reading.age.refused.bad_setting",
    }
}

family! {
    /// Why a method other than age is closed.
    SCOPE, out_of_scope(OutOfScope) {
        // "No reading: the method is for white-tailed deer. The record goes on."
        OutOfScope::NotWhiteTailed => "reading.scope.not_white_tailed",
        // "No reading yet: say which species it is."
        OutOfScope::SpeciesUnknown => "reading.scope.species_unknown",
        // "No reading: the method is for deer that died from November to May."
        OutOfScope::OutsideSeason => "reading.scope.outside_season",
    }
}

family! {
    /// Cautions beside an age.
    AGE_CAUTIONS, age_caution(AgeCaution) {
        // "This rests on a look from afar only: next to nothing."
        AgeCaution::QuickClassOnly => "reading.age.caution.quick_class_only",
        // "Years from wear are a guess: soils, sexes and readers differ, and old deer come out too young more often than not."
        AgeCaution::WearIsAGuess => "reading.age.caution.wear_is_a_guess",
        // "Teeth contradict each other: look again at those named."
        AgeCaution::TeethContradict => "reading.age.caution.teeth_contradict",
        // "Milk teeth kept late: born late or badly fed. The class stands; the months are wide."
        AgeCaution::DelayedTeeth => "reading.age.caution.delayed_teeth",
        // "Only four cheek teeth after 1 February: a late-born or stunted fawn."
        AgeCaution::LateFawn => "reading.age.caution.late_fawn",
        // "Five teeth but an adult's wear: the first cheek tooth may be missing. Look at the other side."
        AgeCaution::P2MayBeMissing => "reading.age.caution.p2_may_be_missing",
        // "One tooth counted is a tiny extra first premolar."
        AgeCaution::ExtraP1 => "reading.age.caution.extra_p1",
        // "The last column of the last molar is short or missing: that is no proof of a yearling."
        AgeCaution::ThirdColumnOdd => "reading.age.caution.third_column_odd",
        // "The count of cheek teeth is not that of a whole row and was not used."
        AgeCaution::CountNotUsed => "reading.age.caution.count_not_used",
        // "Left and right differ: the answer is wider."
        AgeCaution::SidesDiffer => "reading.age.caution.sides_differ",
        // "The jaw is diseased: the answer is wider."
        AgeCaution::JawDiseased => "reading.age.caution.jaw_diseased",
        // "Teeth are broken."
        AgeCaution::BrokenTeeth => "reading.age.caution.broken_teeth",
        // "The jaw is weathered or boiled: colours mislead."
        AgeCaution::Weathered => "reading.age.caution.weathered",
        // "Read from a photo only."
        AgeCaution::PhotoOnly => "reading.age.caution.photo_only",
        // "The class called was not used: the single teeth were."
        AgeCaution::CallSetAside => "reading.age.caution.call_set_aside",
        // "Too few teeth were described to use their wear; the class called was used."
        AgeCaution::WearSetAside => "reading.age.caution.wear_set_aside",
        // "Wear of premolars that may be milk teeth was left out."
        AgeCaution::PremolarWearSetAside => "reading.age.caution.premolar_wear_set_aside",
        // "Only the days from November to May were used."
        AgeCaution::WindowCut => "reading.age.caution.window_cut",
        // "It died near its birthday."
        AgeCaution::BirthdayAtHand => "reading.age.caution.birthday_at_hand",
        // "The winter key and the figures point to different classes: look again."
        AgeCaution::KeyDiffers => "reading.age.caution.key_differs",
        // "The laboratory's count of rings is evidence and not the truth: it is joined to the rest."
        AgeCaution::CementumNotTruth => "reading.age.caution.cementum_not_truth",
        // "Teeth and rings lie far apart: look at both again, and at the label."
        AgeCaution::CementumDiffers => "reading.age.caution.cementum_differs",
        // "The width of the brown band is read by a rule made on bucks in south Texas."
        AgeCaution::DentineWidthSouthern => "reading.age.caution.dentine_width_southern",
        // "The tooth row is read by a rule made on captive deer from Alabama and Florida."
        AgeCaution::ToothRowSouthern => "reading.age.caution.tooth_row_southern",
        // "A caliper measure lies outside the range of its rule and was not used; it stays in the record."
        AgeCaution::MeasureNotUsed => "reading.age.caution.measure_not_used",
        // "An antler was measured on a deer told to be a doe; it was not used. Look again."
        AgeCaution::BeamOnDoe => "reading.age.caution.beam_on_doe",
        // "Keep a lower jaw and both first incisors: a laboratory can count the rings."
        AgeCaution::KeepJawAndIncisors => "reading.age.caution.keep_jaw_and_incisors",
    }
}

family! {
    /// Contradictions; each names {teeth}.
    CONTRADICTIONS, contradiction(ContradictionKind) {
        // "{teeth}: the one further back is further out, which does not happen."
        ContradictionKind::BackToothAhead => "reading.age.contradiction.back_tooth_ahead",
        // "{teeth}: worn, but marked as not through the gum."
        ContradictionKind::WornButNotThrough => "reading.age.contradiction.worn_but_not_through",
        // "{teeth}: a milk tooth beside a tooth that comes or wears long after it is shed."
        ContradictionKind::MilkBesideLateTeeth => "reading.age.contradiction.milk_beside_late_teeth",
        // "{teeth}: a permanent third tooth, but the last molar is not through."
        ContradictionKind::PermanentBeforeLastMolar => "reading.age.contradiction.permanent_before_last_molar",
        // "{teeth}: the one further back is worn more."
        ContradictionKind::BackToothMoreWorn => "reading.age.contradiction.back_tooth_more_worn",
        // "{teeth}: crest and dentine do not fit."
        ContradictionKind::CrestAgainstDentine => "reading.age.contradiction.crest_against_dentine",
        // "{teeth}: the count does not fit this molar."
        ContradictionKind::CountAgainstMolars => "reading.age.contradiction.count_against_molars",
        // "No jaw has so many cheek teeth on a side: count again ({teeth})."
        ContradictionKind::ImpossibleCount => "reading.age.contradiction.impossible_count",
        // "{teeth}: does not fit the class that was called."
        ContradictionKind::CallAgainstTeeth => "reading.age.contradiction.call_against_teeth",
    }
}

family! {
    /// Tooth names in sentences: "third cheek tooth (P4)", "first molar (M1)" and so on.
    TEETH, tooth(Tooth) {
        Tooth::I1 => "reading.tooth.i1",
        Tooth::I2 => "reading.tooth.i2",
        Tooth::I3 => "reading.tooth.i3",
        Tooth::C => "reading.tooth.c",
        Tooth::P1 => "reading.tooth.p1",
        Tooth::P2 => "reading.tooth.p2",
        Tooth::P3 => "reading.tooth.p3",
        Tooth::P4 => "reading.tooth.p4",
        Tooth::M1 => "reading.tooth.m1",
        Tooth::M2 => "reading.tooth.m2",
        Tooth::M3 => "reading.tooth.m3",
    }
}

family! {
    /// Looks at the jaw that are still open, as something to do: "Count the cheek teeth of one side",
    /// "Look at the third cheek tooth: three cusps or two", "Look how far the first molar is up",
    /// "Compare dentine and enamel on the first molar", "Look at the crest of the first molar", ...
    LOOKS, look(Item) {
        Item::CheekTeeth => "reading.look.cheek_teeth",
        Item::P4State => "reading.look.p4_state",
        Item::M1State => "reading.look.m1_state",
        Item::M2State => "reading.look.m2_state",
        Item::M3State => "reading.look.m3_state",
        Item::I1State => "reading.look.i1_state",
        Item::OtherFront => "reading.look.other_front",
        Item::P4Dentine => "reading.look.p4_dentine",
        Item::M1Dentine => "reading.look.m1_dentine",
        Item::M2Dentine => "reading.look.m2_dentine",
        Item::M3Dentine => "reading.look.m3_dentine",
        Item::M1Crest => "reading.look.m1_crest",
        Item::M2Crest => "reading.look.m2_crest",
        Item::M3Crest => "reading.look.m3_crest",
        Item::M3Posterior => "reading.look.m3_posterior",
        Item::M1Infundibulum => "reading.look.m1_infundibulum",
        Item::M2Infundibulum => "reading.look.m2_infundibulum",
        Item::M3Infundibulum => "reading.look.m3_infundibulum",
        Item::PremolarWear => "reading.look.premolar_wear",
        Item::CannonPlate => "reading.look.cannon_plate",
    }
}

family! {
    /// Starting points.
    PRIORS, prior(Prior) {
        // "deer found dead in winter (half wolf kills, half survival figures)"
        Prior::WinterDead => "reading.age.prior.winter_dead",
        // "deer killed by wolves, Minnesota"
        Prior::WolfKill => "reading.age.prior.wolf_kill",
        // "deaths worked out from survival, Minnesota"
        Prior::Survival => "reading.age.prior.survival",
        // "deer shot by hunters, Minnesota"
        Prior::Harvest => "reading.age.prior.harvest",
        // "every class alike"
        Prior::Flat => "reading.age.prior.flat",
    }
}

family! {
    /// Readers.
    READERS, reader(&Reader) {
        // "a reader who goes by the first molar"
        Reader::FirstMolar => "reading.age.reader.first_molar",
        // "a volunteer with the customary key"
        Reader::Volunteer => "reading.age.reader.volunteer",
        // "an experienced reader"
        Reader::Experienced => "reading.age.reader.experienced",
        // "readers of this reserve, by their own record"
        Reader::Own(_) => "reading.age.reader.own",
    }
}

family! {
    /// Looks of marrow.
    MARROW_CLASSES, marrow_class(MarrowClass) {
        // "solid and waxy"
        MarrowClass::M1 => "reading.condition.class.m1",
        // "jelly, opaque"
        MarrowClass::M2 => "reading.condition.class.m2",
        // "wet or glassy jelly"
        MarrowClass::M3 => "reading.condition.class.m3",
        // "jelly, opaque or glassy not told"
        MarrowClass::M2OrM3 => "reading.condition.class.m2_or_m3",
    }
}

family! {
    /// Words of the marrow reserve. Never "good", never a cause.
    WORDS, word(Word) {
        // "exhausted"
        Word::Exhausted => "reading.condition.word.exhausted",
        // "depleted"
        Word::Depleted => "reading.condition.word.depleted",
        // "partly used"
        Word::PartlyUsed => "reading.condition.word.partly_used",
        // "marrow full (other stores may be gone)"
        Word::MarrowFull => "reading.condition.word.marrow_full",
    }
}

family! {
    /// "in a fawn" / "in an older deer"
    GROUPS, group(AgeGroup) {
        AgeGroup::Fawn => "reading.condition.group.fawn",
        AgeGroup::Adult => "reading.condition.group.adult",
    }
}

/// "at either age"
pub const GROUP_BOTH: &str = "reading.condition.group.both";

family! {
    /// Clauses after "cannot say".
    REASONS, reason(Reason) {
        // "It is solid, and nobody said whether it was frozen; frozen empty marrow is solid too."
        Reason::FrozenNotAsked => "reading.condition.why.frozen_not_asked",
        // "It may have dried in the air, and dried marrow seems fatter than it was."
        Reason::MayBeDried => "reading.condition.why.may_be_dried",
        // "It is rain-soaked, sour or mouldy."
        Reason::WetOrMouldy => "reading.condition.why.wet_or_mouldy",
        // "A lower leg bone empties last: full marrow here does not say that the femur is full."
        Reason::DistalBoneOnly => "reading.condition.why.distal_bone_only",
        // "The bone is not named, and some empty last."
        Reason::BoneUnknown => "reading.condition.why.bone_unknown",
    }
}

family! {
    /// Why a look has no class.
    LOOK_REFUSALS, look_refusal(LookRefusal) {
        // "It was frozen. The look is kept; thaw it on the bench and look again."
        LookRefusal::Frozen => "reading.condition.why.frozen",
        // "Nobody felt whether it was solid, jelly or wet; colour alone decides nothing."
        LookRefusal::NoConsistency => "reading.condition.why.no_consistency",
    }
}

family! {
    /// Why two weights give no figure.
    WEIGHING_REFUSALS, weighing_refusal(WeighingRefusal) {
        // "A weight is below zero or not a number. Both are kept; weigh again."
        WeighingRefusal::NotAWeight => "reading.condition.why.not_a_weight",
        // "The wet plug weighs less than 1 g. Take a larger one."
        WeighingRefusal::TooLittle => "reading.condition.why.too_little",
        // "The dry weight is above the wet weight. Were they swapped?"
        WeighingRefusal::DryAboveWet => "reading.condition.why.dry_above_wet",
        // "The share of water lost is out of range."
        // "The lab's percentage is not from 0 to 100. Read the sheet again."
        WeighingRefusal::NotAPercentage => "reading.condition.why.not_a_percentage",
        // "Nobody said whether the lab's percentage is dry weight or fat. Ask the lab."
        WeighingRefusal::ScaleNotSaid => "reading.condition.why.scale_not_said",
        WeighingRefusal::Loss => "reading.condition.why.loss",
    }
}

family! {
    /// Cautions beside a marrow reading.
    CONDITION_CAUTIONS, condition_caution(Caution) {
        // "Full marrow does not show good condition: fat on back, kidneys and belly goes first."
        Caution::FullIsNotGood => "reading.condition.caution.full_is_not_good",
        // "Condition is not the cause of death."
        Caution::NotCause => "reading.condition.caution.not_cause",
        // "This look spans 70 points of fat: weigh the marrow to narrow it."
        Caution::MiddleIsWide => "reading.condition.caution.middle_is_wide",
        // "Colour and firmness point to different classes; firmness decided."
        Caution::ColourDisagrees => "reading.condition.caution.colour_disagrees",
        // "The bone is not named."
        Caution::BoneNotKnown => "reading.condition.caution.bone_not_known",
        // "A lower leg bone empties last: low marrow here is strong evidence, normal marrow none."
        Caution::DistalBone => "reading.condition.caution.distal_bone",
        // "A jaw only shows that some reserve was used."
        Caution::MandibleOnly => "reading.condition.caution.mandible_only",
        // "Not the femur: bones do not compare one for one."
        Caution::NotFemur => "reading.condition.caution.not_femur",
        // "Nobody said whether the bone was open before."
        Caution::OpenedNotAsked => "reading.condition.caution.opened_not_asked",
        // "The marrow lay open or dry: a low reading stands, a high one does not."
        Caution::LongOpen => "reading.condition.caution.long_open",
        // "Frozen and thawed: the width is doubled."
        Caution::FrozenThawed => "reading.condition.caution.frozen_thawed",
        // "Nobody said whether it had been frozen."
        Caution::FrostNotKnown => "reading.condition.caution.frost_not_known",
        // "The carcass was past fresh: greasy yellow marrow may be decay."
        Caution::Decomposed => "reading.condition.caution.decomposed",
        // "The limits for fawns and adults come from sika deer."
        Caution::SikaLimits => "reading.condition.caution.sika_limits",
    }
}

family! {
    /// Bones in sentences: "femur", "tibia", ...
    BONES, bone(Bone) {
        Bone::Femur => "reading.bone.femur",
        Bone::Tibia => "reading.bone.tibia",
        Bone::Humerus => "reading.bone.humerus",
        Bone::Radius => "reading.bone.radius",
        Bone::Metatarsus => "reading.bone.metatarsus",
        Bone::Metacarpus => "reading.bone.metacarpus",
        Bone::Mandible => "reading.bone.mandible",
    }
}

/// "bone not named"
pub const BONE_UNKNOWN: &str = "reading.bone.unknown";

family! {
    /// Marks beside a source.
    MARKS, mark(Mark) {
        // "read in the source"
        Mark::Seen => "reading.mark.seen",
        // "worked out from figures that were read"
        Mark::Derived => "reading.mark.derived",
        // "from memory, not confirmed"
        Mark::Memory => "reading.mark.memory",
        // "our choice, not published"
        Mark::Design => "reading.mark.design",
        // "our rule, put together from the sources"
        Mark::Ours => "reading.mark.ours",
    }
}

family! {
    /// What decided the sex.
    SEX_SIGNS, sex_sign(SexSign) {
        // "scrotum or penis, a certain sign"
        SexSign::ScrotumOrPenis => "reading.sex.sign.scrotum_or_penis",
        // "udder or vulva, a certain sign"
        SexSign::UdderOrVulva => "reading.sex.sign.udder_or_vulva",
        // "unborn young, a certain sign"
        SexSign::Fetus => "reading.sex.sign.fetus",
        // "antlers (a few females have them)"
        SexSign::Antlers => "reading.sex.sign.antlers",
        // "antler bases, or the knobs of a buck fawn"
        SexSign::Pedicles => "reading.sex.sign.pedicles",
        // "a smooth brow without bases (a late buck fawn may have none)"
        SexSign::NoPedicles => "reading.sex.sign.no_pedicles",
        // "bare, suckled nipples"
        SexSign::SuckledNipples => "reading.sex.sign.suckled_nipples",
        // "knobs on the rear underside of the pelvis"
        SexSign::PelvisKnobs => "reading.sex.sign.pelvis_knobs",
        // "no knobs on the rear underside of the pelvis"
        SexSign::NoPelvisKnobs => "reading.sex.sign.no_pelvis_knobs",
    }
}

family! {
    /// Clauses after "was not used:".
    CALIPER_REFUSALS, caliper_refusal(CaliperRefusal) {
        // "it is no length"
        CaliperRefusal::NotALength => "reading.caliper_why.not_a_length",
        // "it lies below the range of the rule"
        CaliperRefusal::BelowRange => "reading.caliper_why.below_range",
        // "it lies above the range of the rule"
        CaliperRefusal::AboveRange => "reading.caliper_why.above_range",
        // "no source prints constants for this species, and the office has entered none"
        CaliperRefusal::NoConstants => "reading.caliper_why.no_constants",
        // "the office's constants cannot be true"
        CaliperRefusal::BadConstants => "reading.caliper_why.bad_constants",
    }
}

family! {
    /// Rules for weight, with their herds.
    GIRTH_RULES, girth_rule(Rule) {
        // "South Carolina, 229 fawns"
        Rule::CarolinaFawn => "reading.size.rule.carolina_fawn",
        // "South Carolina, 316 yearlings and older"
        Rule::CarolinaAdult => "reading.size.rule.carolina_adult",
        // "West Virginia, any deer"
        Rule::WestVirginia => "reading.size.rule.west_virginia",
        // "Florida, by girth, length, sex and age"
        Rule::Florida => "reading.size.rule.florida",
    }
}

family! {
    /// Clauses after "not used,".
    RULES_SILENT, rule_silent(RuleSilent) {
        // "it is for the other age"
        RuleSilent::OtherAge => "reading.size.silent.other_age",
        // "it wants body length, sex and age"
        RuleSilent::NeedsMore => "reading.size.silent.needs_more",
        // "the girth is outside its range"
        RuleSilent::OutsideRange => "reading.size.silent.outside_range",
    }
}

family! {
    /// Why a girth gives no weight.
    GIRTH_REFUSALS, girth_refusal(GirthRefusal) {
        // "The girth is no length: measure again."
        GirthRefusal::NotALength => "reading.size.refused.not_a_length",
        // "Girth {girth} cm is kept, without a weight: a frozen chest keeps the form it froze in."
        GirthRefusal::Frozen => "reading.size.refused.frozen",
        // "Girth {girth} cm is kept, without a weight: a bloated body is wider than the deer was."
        GirthRefusal::Bloated => "reading.size.refused.bloated",
        // "Girth {girth} cm is kept, without a weight: the body was opened or eaten."
        GirthRefusal::Opened => "reading.size.refused.opened",
        // "No deer has a girth of {girth} cm. Was it {girth} inches, which is {other} cm? Correct it if so."
        GirthRefusal::OtherUnit { meant_inches: true, .. } => "reading.size.refused.meant_inches",
        // "No deer has a girth of {girth} cm. Was it {other} cm, typed as inches? Correct it if so."
        GirthRefusal::OtherUnit { meant_inches: false, .. } => "reading.size.refused.meant_cm",
        // "No deer has a girth of {girth} cm, nor of as many inches: measure again."
        GirthRefusal::Impossible => "reading.size.refused.impossible",
    }
}

family! {
    /// Why unborn young have no age.
    UNBORN_REFUSALS, unborn_refusal(UnbornRefusal) {
        // "None was measured."
        UnbornRefusal::NoLength => "reading.unborn.refused.no_length",
        // "Number {n}: {mm} mm is no length. Measure again."
        UnbornRefusal::NotALength => "reading.unborn.refused.not_a_length",
        // "Number {n}: {mm} mm is too short to age; below 5 mm it may be a knob of the womb's lining."
        UnbornRefusal::TooShort => "reading.unborn.refused.too_short",
        // "Number {n}: {mm} mm is longer than any at birth (500 mm). Was it measured with the legs? From forehead to rump."
        UnbornRefusal::TooLong => "reading.unborn.refused.too_long",
        // "No age: the last possible day of death lies before the first. Check the dates."
        UnbornRefusal::WindowReversed => "reading.unborn.refused.window_reversed",
        // "No age: the dates lie outside the calendar. Check them."
        UnbornRefusal::NoDate => "reading.unborn.refused.no_date",
    }
}

/// How an age is known, by the option of the finding.
pub const KNOWN_HOW: &[&str] = &[
    "option.known_age_how.tagged_as_fawn",
    "option.known_age_how.kept_from_birth",
    "option.known_age_how.other_record",
];
/// Which tooth the laboratory cut, by the option of the finding.
pub const CEMENTUM_TEETH: &[&str] = &[
    "option.cementum_tooth.first_incisor",
    "option.cementum_tooth.other_incisor",
    "option.cementum_tooth.canine",
    "option.cementum_tooth.cheek_tooth",
];
pub mod diet;
pub mod snow;

/// Every id, by list.
pub const ALL: &[&[&str]] = &[
    super::short::IDS,
    SINGLES,
    &[super::shape::UNDER_1, super::shape::OVER_99],
    super::local_ids::ALL,
    KNOWN_HOW,
    CEMENTUM_TEETH,
    CLASSES,
    KEY_CLASSES,
    KEY_REFUSALS,
    AGE_REFUSALS,
    SCOPE,
    AGE_CAUTIONS,
    CONTRADICTIONS,
    TEETH,
    LOOKS,
    PRIORS,
    READERS,
    MARROW_CLASSES,
    WORDS,
    GROUPS,
    &[GROUP_BOTH, BONE_UNKNOWN],
    REASONS,
    LOOK_REFUSALS,
    WEIGHING_REFUSALS,
    CONDITION_CAUTIONS,
    BONES,
    MARKS,
    SEX_SIGNS,
    CALIPER_REFUSALS,
    GIRTH_RULES,
    RULES_SILENT,
    GIRTH_REFUSALS,
    UNBORN_REFUSALS,
    fat_ids::SINGLES,
    fat_ids::DEPOTS,
    fat_ids::AMOUNTS,
    fat_ids::MUSCLES,
    fat_ids::TURNS,
    fat_ids::STAGES,
    fat_ids::KIDNEY_STAGES,
    fat_ids::DEPOT_ALLOWS,
    fat_ids::DEPOT_FORBIDS,
    &fat_ids::BONE_ALLOWS,
    &fat_ids::BONE_FORBIDS,
    fat_ids::TRIMS,
    fat_ids::KIDNEY_REFUSALS,
    fat_ids::ENDINGS,
    fat_ids::GROUNDS,
    fat_ids::CONFLICTS,
    fat_ids::LOSS_BANDS,
    fat_ids::LOSS_REFUSALS,
    fat_ids::RESERVE_REFUSALS,
    snow::SINGLES,
    snow::CLASSES,
    snow::PRINTED,
    snow::CRUSTS,
    diet::SINGLES,
    diet::POISONS,
    diet::MEASURED,
    diet::RANKS,
    death::SINGLES,
    &death::ROLES,
    &death::TIMELINE,
    death::RULES,
    death::REASONS,
];
