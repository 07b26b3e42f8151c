//! Message ids of the time of death, with the English meant where it is not plain from the id.

use crate::science::death::{Rule, Silent};

/// "Time of death"
pub const TITLE: &str = "reading.death.title";
/// "Died between {low} and {high}"
pub const BETWEEN: &str = "reading.death.between";
/// "Died about {middle}, between {low} and {high}"
pub const ABOUT: &str = "reading.death.about";
/// "Died before {high}. Nothing that was seen says how long before."
pub const BEFORE: &str = "reading.death.before";
/// "Died at {high}, as seen"
pub const SEEN: &str = "reading.death.seen";
/// Hard bounds that contradict each other, and what to do.
pub const CONFLICT: &str = "reading.death.conflict";
/// "Nothing dates it ..."
pub const NO_EVIDENCE: &str = "reading.death.no_evidence";
/// "Times are local, {offset} from UTC."
pub const LOCAL: &str = "reading.death.local";
/// "Daily temperatures and snowfalls: the log of {place}"
pub const LOG: &str = "reading.death.log";
/// "Readings that need days take {low} as the first: {rule}"
pub const ASSUMED: &str = "reading.death.assumed";
/// One bound: low end only, high end only, both.
pub const BOUND_LOW: &str = "reading.death.bound.low";
/// See [`BOUND_LOW`].
pub const BOUND_HIGH: &str = "reading.death.bound.high";
/// See [`BOUND_LOW`].
pub const BOUND_BOTH: &str = "reading.death.bound.both";
/// The same, left out: it runs against `{against}`.
pub const DROPPED_LOW: &str = "reading.death.dropped.low";
/// See [`DROPPED_LOW`].
pub const DROPPED_HIGH: &str = "reading.death.dropped.high";
/// See [`DROPPED_LOW`].
pub const DROPPED_BOTH: &str = "reading.death.dropped.both";
/// "{rule}: gives no bound. {why}"
pub const SILENT: &str = "reading.death.silent";
/// Hard and soft.
pub const HARD: &str = "reading.death.hard";
/// See [`HARD`].
pub const SOFT: &str = "reading.death.soft";
/// What a bound does: sets the first end, the last, both, or lies outside.
pub const ROLES: [&str; 4] =
    ["reading.death.role.first", "reading.death.role.last", "reading.death.role.both", "reading.death.role.none"];
/// Days before it was found.
pub const UNIT_DAYS_BEFORE: &str = "reading.unit.days_before_found";
/// The day it was found comes from the phone's clock.
pub const BY_CLOCK: &str = "reading.death.caution.by_clock";
/// The phone's clock jumped.
pub const CLOCK_JUMPED: &str = "reading.death.caution.clock_jumped";
/// Evidence conflicts.
pub const CONFLICTS: &str = "reading.death.caution.conflicts";
/// Four weeks or more.
pub const WIDE: &str = "reading.death.caution.wide";
/// The air is taken as it was at the look.
pub const STEADY_AIR: &str = "reading.death.caution.steady_air";
/// Weathered bone may be of an earlier winter.
pub const EARLIER_WINTER: &str = "reading.death.caution.earlier_winter";
/// Layers were counted by the crew, dates are the log's: check that they mean the same.
pub const LAYERS_OF_LOG: &str = "reading.death.caution.layers_of_log";
/// Several logs, none taken.
pub const SEVERAL_LOGS: &str = "reading.death.caution.several_logs";
/// What would sharpen it.
pub const LOOK_PLACE: &str = "reading.death.look.place";
/// See [`LOOK_PLACE`].
pub const LOOK_OVER: &str = "reading.death.look.over";
/// See [`LOOK_PLACE`].
pub const LOOK_UNDER: &str = "reading.death.look.under";
/// See [`LOOK_PLACE`].
pub const LOOK_FALLS: &str = "reading.death.look.falls";
/// See [`LOOK_PLACE`].
pub const LOOK_THIGH: &str = "reading.death.look.thigh";
/// See [`LOOK_PLACE`].
pub const LOOK_BONES: &str = "reading.death.look.bones";
/// Marks on the timeline.
pub const TIMELINE: [&str; 7] = [
    "reading.death.timeline.window",
    "reading.death.timeline.snowfall",
    "reading.death.timeline.visit",
    "reading.death.timeline.reported",
    "reading.death.timeline.without",
    "reading.death.timeline.alive",
    "reading.death.timeline.open",
];

/// All ids that stand alone.
pub const SINGLES: &[&str] = &[
    TITLE,
    BETWEEN,
    ABOUT,
    BEFORE,
    SEEN,
    CONFLICT,
    NO_EVIDENCE,
    LOCAL,
    LOG,
    ASSUMED,
    BOUND_LOW,
    BOUND_HIGH,
    BOUND_BOTH,
    DROPPED_LOW,
    DROPPED_HIGH,
    DROPPED_BOTH,
    SILENT,
    HARD,
    SOFT,
    UNIT_DAYS_BEFORE,
    BY_CLOCK,
    CLOCK_JUMPED,
    CONFLICTS,
    WIDE,
    STEADY_AIR,
    EARLIER_WINTER,
    LAYERS_OF_LOG,
    SEVERAL_LOGS,
    LOOK_PLACE,
    LOOK_OVER,
    LOOK_UNDER,
    LOOK_FALLS,
    LOOK_THIGH,
    LOOK_BONES,
];

macro_rules! family {
    ($(#[$meta:meta])* $list:ident, $of:ident($ty:ident) { $($name:ident $id:literal)+ }) => {
        $(#[$meta])*
        pub const fn $of(value: $ty) -> &'static str {
            match value { $($ty::$name => $id,)+ }
        }
        /// All ids of the family.
        pub const $list: &[&str] = &[$($id,)+];
    };
}

family! {
    /// What a rule is called.
    RULES, rule(Rule) {
        SeenAlive "reading.death.rule.seen_alive"
        PlaceClear "reading.death.rule.place_clear"
        SeenToDie "reading.death.rule.seen_to_die"
        Found "reading.death.rule.found"
        CollarSwitched "reading.death.rule.collar"
        SeasonStart "reading.death.rule.season"
        Persistence "reading.death.rule.persistence"
        SnowOver "reading.death.rule.snow_over"
        SnowUnder "reading.death.rule.snow_under"
        BareUnder "reading.death.rule.bare_under"
        TracksCut "reading.death.rule.tracks_cut"
        TracksFilled "reading.death.rule.tracks_filled"
        CrustOver "reading.death.rule.crust_over"
        BloodLayer "reading.death.rule.blood_layer"
        MeltCast "reading.death.rule.melt_cast"
        Pedestal "reading.death.rule.pedestal"
        Twitch "reading.death.rule.twitch"
        LimpWarm "reading.death.rule.limp_warm"
        JawStiff "reading.death.rule.jaw_stiff"
        AllStiff "reading.death.rule.all_stiff"
        StiffnessGone "reading.death.rule.stiffness_gone"
        EyesClear "reading.death.rule.eyes_clear"
        EyesSunken "reading.death.rule.eyes_sunken"
        BloodLiquid "reading.death.rule.blood_liquid"
        BodyWarm "reading.death.rule.body_warm"
        ThighCooling "reading.death.rule.thigh_cooling"
        BellyCooling "reading.death.rule.belly_cooling"
        NoseCooling "reading.death.rule.nose_cooling"
        LegFrozen "reading.death.rule.leg_frozen"
        NeckFrozen "reading.death.rule.neck_frozen"
        ThighFrozen "reading.death.rule.thigh_frozen"
        TrunkFrozen "reading.death.rule.trunk_frozen"
        Eaten "reading.death.rule.eaten"
        Fresh "reading.death.rule.fresh"
        Bloated "reading.death.rule.bloated"
        HairSlips "reading.death.rule.hair_slips"
        Flies "reading.death.rule.flies"
        BonesUngnawed "reading.death.rule.bones_ungnawed"
        BoneWeathering "reading.death.rule.bone_weathering"
        PlantsPressed "reading.death.rule.plants_pressed"
        GrownOver "reading.death.rule.grown_over"
    }
}

family! {
    /// Why a rule gives no bound.
    REASONS, silent(Silent) {
        NoDate "reading.death.why.no_date"
        NoDates "reading.death.why.no_dates"
        NoLog "reading.death.why.no_log"
        LogTooShort "reading.death.why.log_too_short"
        Cached "reading.death.why.cached"
        FrozenStiff "reading.death.why.frozen_stiff"
        NeedsThigh "reading.death.why.needs_thigh"
        LimpUndecided "reading.death.why.limp_undecided"
        ColdEyes "reading.death.why.cold_eyes"
        Pecked "reading.death.why.pecked"
        TooMildForBlood "reading.death.why.too_mild_for_blood"
        NeedsAir "reading.death.why.needs_air"
        TooWarm "reading.death.why.too_warm"
        ColderThanAir "reading.death.why.colder_than_air"
        NoseTooLate "reading.death.why.nose_too_late"
        FrozenThere "reading.death.why.frozen_there"
        Thawed "reading.death.why.thawed"
        UnderSnow "reading.death.why.under_snow"
        NeedsCount "reading.death.why.needs_count"
        UnknownEater "reading.death.why.unknown_eater"
        WasFrozen "reading.death.why.was_frozen"
        Gnawed "reading.death.why.gnawed"
        NeverWarm "reading.death.why.never_warm"
        NoThaw "reading.death.why.no_thaw"
    }
}
