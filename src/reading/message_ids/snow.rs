//! Messages about snow at the carcass; the English stands in `words`.

use crate::science::snow::Crust;
use crate::science::snow::sinking::{Hindrance, Printed};

singles! {
    /// "Snow at the carcass"
    TITLE = "reading.snow.title";
    /// "No snow was measured."
    NO_EVIDENCE = "reading.snow.no_evidence";
    /// "A deer sank {sinking} cm: {percent} % of its chest"
    SANK = "reading.snow.sank";
    /// "A deer sank {sinking} cm: {percent} % of its chest ({low} to {high})"
    SANK_RANGE = "reading.snow.sank_range";
    /// "By how far it sank: {class}"
    CLASS = "reading.snow.class";
    /// "By how far it sank: {least} to {most}, as high as its chest was"
    CLASSES_OF = "reading.snow.classes";
    /// "For a {group}: {percent} % ({low} to {high})"
    FOR_GROUP = "reading.snow.for_group";
    /// "Snow {depth} cm deep"
    DEPTH = "reading.snow.depth";
    /// "How far a deer sank was not measured."
    NOT_SUNK = "reading.snow.not_sunk";
    /// "Snow from {best} cm on impedes a deer with such a chest ({low} to {high})"
    IMPEDES = "reading.snow.impedes";
    /// "Snow from {best} cm on impedes a deer with this chest"
    IMPEDES_MEASURED = "reading.snow.impedes_measured";
    /// "The hunting animal sank {cm} cm, {less} cm less than the deer"
    OTHER_LESS = "reading.snow.other_less";
    /// "The hunting animal sank {cm} cm, no less than the deer"
    OTHER_NOT_LESS = "reading.snow.other_not_less";
    /// "The hunting animal sank {cm} cm"
    OTHER_SANK = "reading.snow.other_sank";
    /// "A person on foot sank {cm} cm"
    PERSON_SANK = "reading.snow.person_sank";
    /// "Walking cost {best} % more than on bare ground ({low} to {high}, by density of snow and chest) [from memory]"
    COST = "reading.snow.cost";
    /// "It sank past its chest, where nobody measured the cost of walking: none is given."
    COST_NOT = "reading.snow.cost_not";
    /// "Sinking {sinking} cm is more than the {depth} cm of snow. ..."
    DEEPER = "reading.snow.refused.deeper";
    /// "A depth below zero is none: ..."
    NOT_A_DEPTH = "reading.snow.refused.not_a_depth";
    /// "Chest height {cm} cm cannot be: ..."
    NOT_A_CHEST = "reading.snow.refused.not_a_chest";
    /// "% of the chest's height"
    UNIT_RELATIVE = "reading.snow.unit.relative";
    /// "% more than on bare ground, from memory"
    UNIT_COST = "reading.snow.unit.cost";
    /// "Snow that hindered is no cause of death."
    NOT_CAUSE = "reading.snow.caution.not_cause";
    /// "Depth alone tells little of sinking: ..."
    DEPTH_TELLS_LITTLE = "reading.snow.caution.depth";
    /// "A running deer plunges deeper than a walking one sinks: ..."
    RUNNING = "reading.snow.caution.running";
    /// "The chest was not measured: ..."
    CHEST_BY_AGE = "reading.snow.caution.chest_by_age";
    /// "The chest measured is unusual ..."
    CHEST_RECHECK = "reading.snow.caution.chest_recheck";
    /// "Snow was measured on more than one visit; ..."
    MORE_VISITS = "reading.snow.caution.more_visits";
    /// "More than one measure was taken; the mean is used."
    MEAN_USED = "reading.snow.caution.mean_used";
    /// "The cost is of mule deer and elk, ..."
    COST_OF_OTHERS = "reading.snow.caution.cost";
    /// "Printed depths are of the places named ..."
    PLACES = "reading.snow.caution.places";
    /// "Measure the chest: ..."
    LOOK_CHEST = "reading.snow.look.chest";
    /// "Measure how deep deer tracks sink."
    LOOK_SINKING = "reading.snow.look.sinking";
}

family! {
    /// How much it was hindered.
    CLASSES, class(Hindrance) {
        // "below the 25 cm from which walking gets costly"
        Hindrance::BelowSteep => "reading.snow.class.below_steep",
        // "in the 25 to 40 cm where walking gets costly fast"
        Hindrance::Steep => "reading.snow.class.steep",
        // "past 40 cm, where walking is costly"
        Hindrance::PastSteep => "reading.snow.class.past_steep",
        // "seriously impeded, past seven tenths of the chest"
        Hindrance::Impeded => "reading.snow.class.impeded",
        // "ploughing with the chest"
        Hindrance::Ploughs => "reading.snow.class.ploughs",
    }
}

family! {
    /// What is printed of such a depth.
    PRINTED, printed(Printed) {
        // "New York: deer still travel in 30 to 41 cm"
        Printed::NewYorkStillTravels => "reading.snow.printed.new_york_travels",
        // "Northern Minnesota: past 40 cm deer ate more alder, a poor food"
        Printed::MinnesotaAlder => "reading.snow.printed.minnesota_alder",
        // "New York: 46 cm is very difficult, fawns first"
        Printed::NewYorkVeryDifficult => "reading.snow.printed.new_york_difficult",
        // "Southern Ontario: past 46 cm deer keep to the core of their yards"
        Printed::OntarioCoreYards => "reading.snow.printed.ontario_core",
        // "Ontario: from 50 cm travel is restricted"
        Printed::OntarioRestricted => "reading.snow.printed.ontario_restricted",
        // "Ontario: from 63 cm travel is very restricted"
        Printed::OntarioVeryRestricted => "reading.snow.printed.ontario_very",
        // "Quebec: sinking 50 cm is critical"
        Printed::QuebecSinking => "reading.snow.printed.quebec_sinking",
    }
}

family! {
    /// The crust.
    CRUSTS, crust(Crust) {
        // "No crust"
        Crust::None => "reading.snow.crust.none",
        // "The crust breaks under a deer"
        Crust::BreaksUnderDeer => "reading.snow.crust.breaks",
        // "The crust holds a dog and breaks under a deer: ..."
        Crust::HoldsPredatorOnly => "reading.snow.crust.holds_other",
        // "The crust holds a deer that walks"
        Crust::HoldsDeer => "reading.snow.crust.holds_deer",
    }
}
