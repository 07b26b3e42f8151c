//! Message ids of fat, of all evidence put together, and of reserve, with the English meant before each.

use super::message_ids::{family, singles};
use crate::science::condition::{Conflict, Ending, Ground};
use crate::science::fat::kidney::{KidneyRefusal, Trim};
use crate::science::fat::look::{Amount, Depot, Muscle, Stage, Turn};
use crate::science::reserve::days::ReserveRefusal;
use crate::science::reserve::loss::{LossBand, LossRefusal};

singles! {
    /// "Other fat: body, kidneys, jaw"
    FAT_TITLE = "reading.fat.title";
    /// "No other fat was looked at."
    FAT_NO_EVIDENCE = "reading.fat.no_evidence";
    /// "{depot}: {amount}"
    FAT_DEPOT = "reading.fat.seen";
    /// "{depot}: {amount}, but wet like jelly, so it counts as none"
    FAT_DEPOT_WATERY = "reading.fat.seen_watery";
    /// "Meat along the back: {muscle}"
    FAT_MUSCLE = "reading.fat.muscle_seen";
    /// "Kidney fat index, {trim}: {index} % of the kidney. {stage}"
    FAT_KIDNEY_INDEX = "reading.fat.kidney_index";
    /// "Kidney fat mass, {trim}: {grams} g of both kidneys"
    FAT_KIDNEY_MASS = "reading.fat.kidney_mass";
    /// "Kidney fat, {trim}: {grams} g of one kidney"
    FAT_KIDNEY_MASS_ONE = "reading.fat.kidney_mass_one";
    /// "Kidney fat, {trim}: no index. {why}"
    FAT_KIDNEY_REFUSED = "reading.fat.kidney_refused";
    /// "Hollow of the jaw, mean of both sides: fat {fat} %"
    FAT_CAVITY = "reading.fat.cavity";
    /// "Hollow of the jaw, one side: fat {fat} %"
    FAT_CAVITY_ONE = "reading.fat.cavity_one";
    /// "Rump fat at the thickest: {mm} mm"
    FAT_RUMP = "reading.fat.rump";
    /// "[from memory] Score of {lines} of 7 lines: {sum} of {possible} points, not scaled up"
    FAT_SCORE_PART = "reading.fat.score_part";
    /// "[from memory] Score: {sum} of 100 points"
    FAT_SCORE = "reading.fat.score";
    /// "[from memory] CONINDEX: {index}, with {trim} and femur fat {fat} % (not dry weight). For ranking only."
    FAT_CONINDEX = "reading.fat.conindex";
    /// "[from memory, mule deer] Body fat by rump fat: {percent} %"
    FAT_RUMP_RULE = "reading.fat.rump_rule";
    /// "[from memory, mule deer] Body fat by rump fat: about {percent} % or less"
    FAT_RUMP_RULE_LESS = "reading.fat.rump_rule_less";
    /// "Lines marked from memory take part in no other reading."
    FAT_RECALLED = "reading.fat.caution.recalled";
    /// "Lines marked from memory stand in the combined reading too ..."
    FAT_RECALLED_IN = "reading.fat.caution.recalled_in";
    /// "One kidney only: its mass is not the deer's."
    FAT_ONE_KIDNEY = "reading.fat.caution.one_kidney";
    /// "The two trimmings give two figures: compare each only with its own kind."
    FAT_TRIMS = "reading.fat.caution.trims";
    /// "Less than 20 g: in sika does with so little, marrow fell sharply."
    FAT_SIKA_MASS = "reading.fat.caution.sika_mass";
    /// "Left and right jaw differ by {points} points."
    FAT_JAW_SIDES = "reading.fat.caution.jaw_sides";
    /// "One side of the jaw only: sides differ, more so up to one and a half years."
    FAT_ONE_JAW_SIDE = "reading.fat.caution.one_jaw_side";
    /// "Bucks run low in the rut: compare only within sex, age and month."
    FAT_RUT = "reading.fat.caution.rut";
    /// "% of the kidney's weight"
    UNIT_KIDNEY_INDEX = "reading.unit.kidney_index";
    /// "g kidney fat"
    UNIT_KIDNEY_MASS = "reading.unit.kidney_mass";
    /// "Condition, all evidence together"
    COMBINED_TITLE = "reading.combined.title";
    /// "No fat and no marrow was looked at."
    COMBINED_NO_EVIDENCE = "reading.combined.no_evidence";
    /// "Answers differ, and so does the word: each way is shown."
    COMBINED_SPLIT = "reading.combined.split";
    /// "{depot} ({turn}): {stage}. Allows: {allows} Not: {forbids}"
    COMBINED_DEPOT = "reading.combined.depot";
    /// "{depot} ({turn}): look and scales do not agree; left out"
    COMBINED_DEPOT_OUT = "reading.combined.depot_out";
    /// "Marrow of the {bone} (last): {word}. Allows: {allows} Not: {forbids}"
    COMBINED_BONE = "reading.combined.bone";
    /// "Marrow of the {bone} (last): {lowest} to {highest}. Allows: {allows} Not: {forbids}"
    COMBINED_BONE_SPAN = "reading.combined.bone_span";
    /// "Marrow of the {bone} (last): does not count here"
    COMBINED_BONE_OUT = "reading.combined.bone_out";
    /// "Stores overlap: the order is a rule, not a law."
    COMBINED_OVERLAP = "reading.combined.caution.overlap";
    /// "Scores and indices from memory are left out."
    COMBINED_RECALLED = "reading.combined.caution.recalled";
    /// "FROM MEMORY: the office let in formulas that no printed source confirms ({why}). ..."
    COMBINED_LET_IN = "reading.combined.caution.let_in";
    /// "Weigh the kidneys and their fat on the bench"
    LOOK_KIDNEYS = "reading.look.kidneys";
    /// "Look at the marrow again: thawed, the right bone, not rotten?"
    LOOK_MARROW_AGAIN = "reading.look.marrow_again";
    /// "Weight lost, and days of reserve (for teaching)"
    RESERVE_TITLE = "reading.reserve.title";
    /// "Not weighed: no figure."
    RESERVE_NO_EVIDENCE = "reading.reserve.no_evidence";
    /// "Weight lost: {best} % ({low} to {high}) of {of}. {band}"
    RESERVE_LOSS = "reading.reserve.loss";
    /// "Weight lost: {best} % ({low} to {high}) of {of}. From {from} to {to}"
    RESERVE_LOSS_SPAN = "reading.reserve.loss_span";
    /// "Weight lost: no figure. {why}"
    RESERVE_LOSS_REFUSED = "reading.reserve.loss_refused";
    /// "For teaching: {group} of {from} to {to} kg needs {low} to {high} kcal a day"
    RESERVE_NEED = "reading.reserve.need";
    /// "With the fat of an early winter ({fat_low} to {fat_high} %) it lasts {low} to {high} days, about {best}"
    RESERVE_DAYS = "reading.reserve.days";
    /// "With the fat of an early winter ({fat_low} to {fat_high} %) it lasts {low} to {high} days"
    RESERVE_DAYS_RANGE = "reading.reserve.days_range";
    /// "If it eats nothing: {low} to {high} days"
    RESERVE_FASTING = "reading.reserve.fasting";
    /// "Taken: fasting rate 79 to 90 kcal a day and kg^0.75, spent 1.7 times that, eaten 0.9 to 1.1 times"
    RESERVE_TAKEN_DOE = "reading.reserve.taken_doe";
    /// "Taken: field rate 128 to 247 kcal a day and kg^0.75; eaten as a doe for its size, 71 to 99"
    RESERVE_TAKEN_FAWN = "reading.reserve.taken_fawn";
    /// "Days of reserve: no figure. {why}"
    RESERVE_REFUSED = "reading.reserve.refused";
    /// "A figure for teaching, from five captive does. It says nothing of this deer's past."
    RESERVE_TEACHING = "reading.reserve.caution.teaching";
    /// "It leaves out protein, young in the womb, great cold, travel in snow and spring."
    RESERVE_LEAVES_OUT = "reading.reserve.caution.leaves_out";
    /// "Snow and ice on the coat add weight."
    RESERVE_SNOW = "reading.reserve.caution.snow";
    /// "A herd's mean is not this deer's own weight."
    RESERVE_HERD = "reading.reserve.caution.herd";
    /// "Some of the days on which it can have died lie after April: spring rates are higher."
    RESERVE_SPRING = "reading.reserve.caution.spring";
    /// "Whole weight worked out from dressed weight."
    RESERVE_DRESSED = "reading.reserve.caution.dressed";
    /// "this deer's own weight"
    REFERENCE_OWN = "reading.reserve.of.own";
    /// "the herd's weight for sex and age"
    REFERENCE_HERD = "reading.reserve.of.herd";
    /// "a weight whose origin nobody named"
    REFERENCE_UNNAMED = "reading.reserve.of.unnamed";
    /// "Weigh the whole deer"
    LOOK_SCALES = "reading.look.scales";
    /// "Enter a weight to set it against, with its span"
    LOOK_REFERENCE = "reading.look.reference";
    /// "% of the reference weight lost"
    UNIT_LOSS = "reading.unit.loss";
}

family! {
    /// Depots.
    DEPOTS, depot(Depot) {
        Depot::Rump => "reading.fat.depot.rump",
        Depot::Brisket => "reading.fat.depot.brisket",
        Depot::Gut => "reading.fat.depot.gut",
        Depot::Kidney => "reading.fat.depot.kidney",
        Depot::Heart => "reading.fat.depot.heart",
        Depot::Pericardium => "reading.fat.depot.pericardium",
    }
}

family! {
    /// How much.
    AMOUNTS, amount(Amount) {
        Amount::None => "reading.fat.amount.none",
        Amount::Slight => "reading.fat.amount.slight",
        Amount::Moderate => "reading.fat.amount.moderate",
        Amount::Heavy => "reading.fat.amount.heavy",
    }
}

family! {
    /// Muscle.
    MUSCLES, muscle(Muscle) {
        Muscle::Wasted => "reading.fat.muscle.wasted",
        Muscle::Lean => "reading.fat.muscle.lean",
        Muscle::Full => "reading.fat.muscle.full",
    }
}

family! {
    /// When a depot's turn comes.
    TURNS, turn(Turn) {
        Turn::First => "reading.fat.turn.first",
        Turn::Second => "reading.fat.turn.second",
        Turn::Third => "reading.fat.turn.third",
    }
}

family! {
    /// What a depot says of itself.
    STAGES, stage(Stage) {
        Stage::Gone => "reading.fat.stage.gone",
        Stage::Low => "reading.fat.stage.low",
        Stage::Present => "reading.fat.stage.present",
    }
}

family! {
    /// What a kidney fat index says.
    KIDNEY_STAGES, kidney_stage(Stage) {
        // "The reserve there is essentially gone."
        Stage::Gone => "reading.fat.kidney_stage.gone",
        // "Low: look to the marrow."
        Stage::Low => "reading.fat.kidney_stage.low",
        // "There is reserve there."
        Stage::Present => "reading.fat.kidney_stage.present",
    }
}

family! {
    /// What a depot lets one say.
    DEPOT_ALLOWS, depot_allows(Stage) {
        Stage::Gone => "reading.combined.allows.gone",
        Stage::Low => "reading.combined.allows.low",
        Stage::Present => "reading.combined.allows.present",
    }
}

family! {
    /// What it does not.
    DEPOT_FORBIDS, depot_forbids(Stage) {
        Stage::Gone => "reading.combined.forbids.gone",
        Stage::Low => "reading.combined.forbids.low",
        Stage::Present => "reading.combined.forbids.present",
    }
}

/// What a bone lets one say: its reserve was low, was in use, or nothing.
pub const BONE_ALLOWS: [&str; 3] = [
    "reading.combined.allows.marrow_low",
    "reading.combined.allows.marrow_used",
    "reading.combined.allows.marrow_full",
];
/// What it does not.
pub const BONE_FORBIDS: [&str; 2] = ["reading.combined.forbids.marrow", "reading.combined.forbids.marrow_full"];

family! {
    /// Trimmings.
    TRIMS, trim(Trim) {
        Trim::Whole => "reading.fat.trim.whole",
        Trim::StraightCuts => "reading.fat.trim.straight_cuts",
    }
}

family! {
    /// Why there is no index.
    KIDNEY_REFUSALS, kidney_refusal(KidneyRefusal) {
        KidneyRefusal::NotAWeight => "reading.fat.why.not_a_weight",
        KidneyRefusal::NoKidneyWeight => "reading.fat.why.no_kidney_weight",
        KidneyRefusal::NoFatWeight => "reading.fat.why.no_fat_weight",
        KidneyRefusal::CutAboveWhole => "reading.fat.why.cut_above_whole",
    }
}

family! {
    /// The words at the end. Never `good`, never a cause.
    ENDINGS, ending(Ending) {
        Ending::Exhausted => "reading.combined.word.exhausted",
        Ending::Depleted => "reading.combined.word.depleted",
        Ending::PartlyUsed => "reading.combined.word.partly_used",
        Ending::CannotSay => "reading.combined.word.cannot_say",
    }
}

family! {
    /// The reasons.
    GROUNDS, ground(Ground) {
        Ground::MarrowGone => "reading.combined.ground.marrow_gone",
        Ground::MarrowDepleted => "reading.combined.ground.marrow_depleted",
        Ground::MarrowInUseRestGone => "reading.combined.ground.marrow_in_use_rest_gone",
        Ground::MarrowInUse => "reading.combined.ground.marrow_in_use",
        Ground::OtherStoreUsed => "reading.combined.ground.other_store_used",
        Ground::RestGoneMarrowUnknown => "reading.combined.ground.rest_gone_marrow_unknown",
        Ground::RestGoneMarrowFull => "reading.combined.ground.rest_gone_marrow_full",
        Ground::OnlyFullMarrow => "reading.combined.ground.only_full_marrow",
        Ground::NoUseSeen => "reading.combined.ground.no_use_seen",
        Ground::NothingCounts => "reading.combined.ground.nothing_counts",
        Ground::Contradiction => "reading.combined.ground.contradiction",
        Ground::MayBeEmptier => "reading.combined.ground.may_be_emptier",
        Ground::JawAlone => "reading.combined.ground.jaw_alone",
        Ground::MuscleWasted => "reading.combined.ground.muscle_wasted",
    }
}

family! {
    /// What does not fit.
    CONFLICTS, conflict(Conflict) {
        Conflict::FatBesideEmptyMarrow => "reading.combined.conflict.fat_beside_empty_marrow",
        Conflict::KidneyBesideEmptyMarrow => "reading.combined.conflict.kidney_beside_empty_marrow",
        Conflict::OneBoneTwoAnswers => "reading.combined.conflict.one_bone_two_answers",
        Conflict::BonesOutOfOrder => "reading.combined.conflict.bones_out_of_order",
        Conflict::KidneyLookAndIndex => "reading.combined.conflict.kidney_look_and_index",
        Conflict::TurnsReversed => "reading.combined.conflict.turns_reversed",
        Conflict::WastedBesideFat => "reading.combined.conflict.wasted_beside_fat",
    }
}

family! {
    /// Words for a loss.
    LOSS_BANDS, loss_band(LossBand) {
        LossBand::Gained => "reading.reserve.band.gained",
        LossBand::Ordinary => "reading.reserve.band.ordinary",
        LossBand::Stressed => "reading.reserve.band.stressed",
        LossBand::NearLimit => "reading.reserve.band.near_limit",
        LossBand::AtLimit => "reading.reserve.band.at_limit",
    }
}

family! {
    /// Why there is no loss.
    LOSS_REFUSALS, loss_refusal(LossRefusal) {
        LossRefusal::NoWeight => "reading.reserve.why.no_weight",
        LossRefusal::NoReference => "reading.reserve.why.no_reference",
        LossRefusal::NotAWeight => "reading.reserve.why.not_a_weight",
        LossRefusal::NotWhole => "reading.reserve.why.not_whole",
        LossRefusal::BodyNotTold => "reading.reserve.why.body_not_told",
    }
}

family! {
    /// Why there are no days.
    RESERVE_REFUSALS, reserve_refusal(ReserveRefusal) {
        ReserveRefusal::NoWeight => "reading.reserve.days_why.no_weight",
        ReserveRefusal::NotTrue => "reading.reserve.days_why.not_true",
        ReserveRefusal::AfterApril => "reading.reserve.days_why.after_april",
    }
}
