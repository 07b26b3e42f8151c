//! Messages about what the rumen held; the English stands in `words`.

use crate::card::BrowseTier;
use crate::science::diet::plants::{Measured, Poison};

singles! {
    /// "What it had eaten, from the rumen"
    TITLE = "reading.diet.title";
    /// "No rumen contents were measured."
    NO_EVIDENCE = "reading.diet.no_evidence";
    /// "By {n} points: {plants}"
    BY_POINTS = "reading.diet.by_points";
    /// "By volume, {ml} ml: {plants}"
    BY_ML = "reading.diet.by_ml";
    /// "By volume as judged: {plants}"
    BY_PERCENT = "reading.diet.by_percent";
    /// "{plant} {percent} %"
    PART = "reading.diet.part";
    /// "{plant}: {n} points, {percent} % ({low} to {high}; by the wider method {wide_low} to {wide_high})"
    POINTS_OF = "reading.diet.points_of";
    /// "{plant}: {percent} %"
    VOLUME_OF = "reading.diet.volume_of";
    /// "{percent} % of the whole were given no name; ..."
    UNNAMED = "reading.diet.unnamed";
    /// "{tier}: {percent} % ({low} to {high})"
    TIER_RANGE = "reading.diet.tier_range";
    /// "{tier}: {percent} %"
    TIER_ONLY = "reading.diet.tier_only";
    /// "Seen, not measured: {plants}"
    SEEN_ONLY = "reading.diet.seen_only";
    /// "Fill of the rumen: {fill}. It says nothing of condition: deer die with full rumens."
    FILL = "reading.diet.fill";
    /// "Grain is at least half, ..."
    GRAIN = "reading.diet.grain";
    /// "{plant}: {what} {percent} % (fed to deer; the text names no region)"
    FOOD = "reading.diet.food";
    /// "Wisconsin pens rated otherwise than New York: {plants}"
    REGIONS = "reading.diet.regions";
    /// "Preferred or second choice in New York's list"
    TIER_GOOD = "reading.diet.tier.good";
    /// "Readily eaten in New York's list"
    TIER_READILY = "reading.diet.tier.readily";
    /// "Poor food in New York's list"
    TIER_POOR = "reading.diet.tier.poor";
    /// "Not on New York's list"
    TIER_NONE = "reading.diet.tier.none";
    /// The same four headings where ranks of the local card are among them.
    OWN_GOOD = "reading.diet.own.good";
    /// "Readily eaten ..."
    OWN_READILY = "reading.diet.own.readily";
    /// "Poor food ..."
    OWN_POOR = "reading.diet.own.poor";
    /// "On neither list"
    OWN_NONE = "reading.diet.own.none";
    /// "% of points on poor food, by the local card and New York's list"
    OWN_UNIT_POOR = "reading.diet.own.unit_poor";
    /// "{plant}: {tier}, by the local card ({region}; {source})"
    OWN_TIER = "reading.diet.own.tier";
    /// "{plant}, as food for deer: {percent} % digested, by the local card ({region}; {source})"
    OWN_DIGESTIBLE = "reading.diet.own.digestible";
    /// "Plants that the local card does not rank stand in New York State's list, ..."
    OWN_AND_LIST = "reading.diet.caution.own_and_list";
    /// "% poor food"
    UNIT_SHARE = "reading.diet.unit.share";
    /// "% of points on poor food (New York's list)"
    UNIT_POOR = "reading.diet.unit.poor";
    /// "A plant that this form does not know"
    PLANT_UNKNOWN = "reading.diet.plant_unknown";
    /// "Volumes cannot be used: they are all zero."
    ALL_ZERO = "reading.diet.refused.all_zero";
    /// "The percentages come to {percent}, more than 100. Correct one; nothing is worked out until then."
    OVER_100 = "reading.diet.refused.over_100";
    /// "No points are left to read."
    NO_POINTS = "reading.diet.refused.no_points";
    /// "The ranges are of this rumen, not of the herd; all hold together in 95 of 100 counts."
    ONE_RUMEN = "reading.diet.caution.one_rumen";
    /// "One sorting has no range: how far another would differ is not known."
    NO_RANGE = "reading.diet.caution.no_range";
    /// "Soft leaves go first: ..."
    SOFT_FIRST = "reading.diet.caution.soft_first";
    /// "Fewer than {n} points: count more."
    FEW_POINTS = "reading.diet.caution.few_points";
    /// "Some plants have under 5 points: their ranges are rough."
    TINY = "reading.diet.caution.tiny";
    /// "Some plants are not known to this version; ..."
    UNKNOWN = "reading.diet.caution.unknown";
    /// "{n} rows were left out: ..."
    LEFT_OUT = "reading.diet.caution.left_out";
    /// "A count or sorting was not ended."
    NOT_ENDED = "reading.diet.caution.not_ended";
    /// "More than one count; each is shown, none is pooled."
    APART = "reading.diet.caution.apart";
    /// "Tiers are New York's ..."
    TIERS_REGION = "reading.diet.caution.tiers";
    /// "Much poor food supports poor range. ..."
    POOR_RANGE = "reading.diet.caution.poor_range";
    /// "Count points of the rumen sample, 100 or more."
    LOOK_COUNT = "reading.diet.look.count";
    /// "Count on to 100 points or more."
    LOOK_MORE = "reading.diet.look.more";
}

family! {
    /// What is known of poison in a plant that was found.
    POISONS, poison(Poison) {
        // "Laurel or rhododendron was eaten: ..."
        Poison::Laurel => "reading.diet.poison.laurel",
        // "Garden yew was eaten: ..."
        Poison::GardenYew => "reading.diet.poison.garden_yew",
        // "Canada yew is a preferred winter food of deer; ..."
        Poison::CanadaYew => "reading.diet.poison.canada_yew",
        // "Wilted cherry leaves can give off cyanide ..."
        Poison::Cherry => "reading.diet.poison.cherry",
    }
}

family! {
    /// What was measured of a food.
    MEASURED, measured(Measured) {
        // "energy digested"
        Measured::GrossEnergyDigested => "reading.diet.measured.gross",
        // "energy taken up"
        Measured::EnergyMetabolised => "reading.diet.measured.metabolised",
        // "net energy"
        Measured::NetEnergy => "reading.diet.measured.net",
        // "protein digested"
        Measured::ProteinDigested => "reading.diet.measured.protein",
    }
}

family! {
    /// How the local card ranks a food.
    RANKS, rank(BrowseTier) {
        // "preferred"
        BrowseTier::Preferred => "reading.diet.rank.preferred",
        // "second choice"
        BrowseTier::Second => "reading.diet.rank.second",
        // "readily eaten"
        BrowseTier::Readily => "reading.diet.rank.readily",
        // "poor"
        BrowseTier::Poor => "reading.diet.rank.poor",
    }
}
