//! The rules, their weights and what each rests on.

use super::super::source::{Mark, Source};

/// A rule that bounds the instant of death. Ties among soft bounds of one weight go in this order.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Rule {
    /// This animal was seen alive.
    SeenAlive,
    /// The place was looked at, and the body was not there.
    PlaceClear,
    /// It was seen to die.
    SeenToDie,
    /// It was seen dead.
    Found,
    /// A collar changed to its signal for no movement.
    CollarSwitched,
    /// The season's start, assumed.
    SeasonStart,
    /// How long bodies last, assumed.
    Persistence,
    /// S1: a snowfall lies over it.
    SnowOver,
    /// S2: a snowfall lies under it, pressed.
    SnowUnder,
    /// S3: bare ground or old ice under it, lasting snow round it.
    BareUnder,
    /// S4: tracks of the event cut into a snowfall.
    TracksCut,
    /// S5: tracks of the event filled by a snowfall.
    TracksFilled,
    /// S6: a crust of rain or melt over it or over its blood.
    CrustOver,
    /// S7: blood or hair inside a snowfall's layer.
    BloodLayer,
    /// S8: ice cast under it.
    MeltCast,
    /// S9: on a pedestal of snow.
    Pedestal,
    /// T1: muscle twitches.
    Twitch,
    /// T2: limp and warm.
    LimpWarm,
    /// T3: jaw stiff, hind legs limp.
    JawStiff,
    /// T4: stiff all over, not frozen.
    AllStiff,
    /// T6: stiffness gone, never frozen.
    StiffnessGone,
    /// T7: eyes clear and round.
    EyesClear,
    /// T8: eyes sunken or clouded.
    EyesSunken,
    /// T9: blood on snow still liquid.
    BloodLiquid,
    /// T10: steams, or warm under the foreleg.
    BodyWarm,
    /// Temperature deep in the thigh.
    ThighCooling,
    /// Temperature deep in the belly.
    BellyCooling,
    /// Temperature at the root of nose or ear.
    NoseCooling,
    /// Lower leg frozen hard through or not.
    LegFrozen,
    /// Neck frozen hard through or not.
    NeckFrozen,
    /// Thigh frozen hard through or not.
    ThighFrozen,
    /// Trunk frozen hard through or not.
    TrunkFrozen,
    /// How much was eaten, and by whom.
    Eaten,
    /// Fresh, without smell.
    Fresh,
    /// Belly green or bloated.
    Bloated,
    /// Hair slips.
    HairSlips,
    /// Eggs or maggots of flies.
    Flies,
    /// Bones and ligaments only, nothing gnawed.
    BonesUngnawed,
    /// Weathering of bone.
    BoneWeathering,
    /// Greasy bone, hair mat, plants pressed.
    PlantsPressed,
    /// Moss, algae or roots on bone.
    GrownOver,
}

/// Hours before a look within which death lies.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Span {
    /// At least.
    pub earliest_h: f64,
    /// At most, where there is a most.
    pub latest_h: Option<f64>,
}

/// What a rule is worth when bounds conflict, and where it comes from.
#[derive(Clone, Copy, Debug)]
pub struct Row {
    /// The rule.
    pub rule: Rule,
    /// Its short name, as printed.
    pub id: &'static str,
    /// Higher is taken first: snow 5, cooling 4, freezing 3, stiffness, eyes and scavenging 2, decay 1.
    pub weight: u8,
    /// What it rests on.
    pub source: Source,
}

const fn row(rule: Rule, id: &'static str, weight: u8, source: Source) -> Row {
    Row { rule, id, weight, source }
}

const RECORD: Source = Source::new("death-record", "what people, cameras and collars saw of it", Mark::Ours);
const SEASON: Source = Source::new("death-season", "1 December taken as the start of the season", Mark::Ours);
const PERSISTENCE: Source = Source::new(
    "death-persistence",
    "40 deer put out in Wisconsin, Jennelle and others 2009, J. Wildl. Manage. 73:655-662; log-normal set through its medians",
    Mark::Derived,
);
const SNOW: Source = Source::new(
    "death-snow",
    "layers of dated snowfalls over and under a body; when a layer counts is expert judgement",
    Mark::Design,
);
const TWITCH: Source =
    Source::new("death-twitch", "a state agency's manual, told in the press in 2008: no twitch after 4 h", Mark::Seen);
const STIFF: Source = Source::new(
    "death-stiffness",
    "a weak general web source on stiffness after death, widened here for cold",
    Mark::Design,
);
const EXPERT: Source = Source::new("death-early", "early hours after death: expert judgement", Mark::Design);
const WARM: Source = Source::new(
    "death-warm-core",
    "a moose's core still at 27 to 28 C after 40 h, Evans and others 2019, J. Wildl. Dis. 55:710-712",
    Mark::Seen,
);
const COOLING: Source = Source::new(
    "death-cooling",
    "Newton's cooling with wide rates, scaled from that moose; no test on deer was found",
    Mark::Design,
);
const FREEZING: Source = Source::new(
    "death-freezing",
    "Plank's freezing time of a long cylinder, general engineering; not tested on deer",
    Mark::Derived,
);
const EATEN: Source = Source::new(
    "death-eaten",
    "ravens: Kaczensky and others 2005, Wildl. Biol.; other daily intakes and the share that can be eaten from memory",
    Mark::Memory,
);
const DECAY: Source =
    Source::new("death-decay", "day degrees above 0 C at which decay shows: expert judgement", Mark::Design);
const WEATHERING: Source = Source::new(
    "death-weathering",
    "Behrensmeyer 1978, Paleobiology 4:150-162, bones in Kenya; years of stages 0 to 2 from memory, doubled here",
    Mark::Memory,
);
const PLANTS: Source = Source::new("death-plants", "plants and moss at bones found in spring", Mark::Memory);

/// Every rule.
pub const ROWS: [Row; 41] = [
    row(Rule::SeenAlive, "L1", 6, RECORD),
    row(Rule::PlaceClear, "L2", 6, RECORD),
    row(Rule::SeenToDie, "L3", 6, RECORD),
    row(Rule::Found, "L4", 6, RECORD),
    row(Rule::CollarSwitched, "L5", 6, RECORD),
    row(Rule::SeasonStart, "L6", 0, SEASON),
    row(Rule::Persistence, "L7", 0, PERSISTENCE),
    row(Rule::SnowOver, "S1", 5, SNOW),
    row(Rule::SnowUnder, "S2", 5, SNOW),
    row(Rule::BareUnder, "S3", 5, SNOW),
    row(Rule::TracksCut, "S4", 5, SNOW),
    row(Rule::TracksFilled, "S5", 5, SNOW),
    row(Rule::CrustOver, "S6", 5, SNOW),
    row(Rule::BloodLayer, "S7", 5, SNOW),
    row(Rule::MeltCast, "S8", 5, SNOW),
    row(Rule::Pedestal, "S9", 5, SNOW),
    row(Rule::Twitch, "T1", 2, TWITCH),
    row(Rule::LimpWarm, "T2", 2, STIFF),
    row(Rule::JawStiff, "T3", 2, EXPERT),
    row(Rule::AllStiff, "T4", 2, EXPERT),
    row(Rule::StiffnessGone, "T6", 2, STIFF),
    row(Rule::EyesClear, "T7", 2, EXPERT),
    row(Rule::EyesSunken, "T8", 1, EXPERT),
    row(Rule::BloodLiquid, "T9", 2, EXPERT),
    row(Rule::BodyWarm, "T10", 2, WARM),
    row(Rule::ThighCooling, "C1", 4, COOLING),
    row(Rule::BellyCooling, "C2", 4, COOLING),
    row(Rule::NoseCooling, "C3", 4, COOLING),
    row(Rule::LegFrozen, "F1", 3, FREEZING),
    row(Rule::NeckFrozen, "F2", 3, FREEZING),
    row(Rule::ThighFrozen, "F3", 3, FREEZING),
    row(Rule::TrunkFrozen, "F4", 3, FREEZING),
    row(Rule::Eaten, "E1", 2, EATEN),
    row(Rule::Fresh, "D1", 1, DECAY),
    row(Rule::Bloated, "D2", 1, DECAY),
    row(Rule::HairSlips, "D3", 1, DECAY),
    row(Rule::Flies, "D4", 1, DECAY),
    row(Rule::BonesUngnawed, "D5", 1, DECAY),
    row(Rule::BoneWeathering, "W1", 1, WEATHERING),
    row(Rule::PlantsPressed, "W2", 1, PLANTS),
    row(Rule::GrownOver, "W3", 1, PLANTS),
];

impl Rule {
    /// Its row.
    pub fn row(self) -> &'static Row {
        // Every rule has one, in the order of the rules: a test counts them.
        ROWS.get(self as usize).unwrap_or(&ROWS[0])
    }

    /// Whether it is assumed and not seen.
    pub const fn is_assumed(self) -> bool {
        matches!(self, Self::SeasonStart | Self::Persistence)
    }
}
