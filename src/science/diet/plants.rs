//! The browse list: what may be tapped under a pin.
//!
//! Tiers are of New York State's list of winter foods; beside them the ratings of feeding pens in
//! Wisconsin, which disagree on some. They are of those places and not of yours. Latin names are from
//! memory. Numbers and codes stand in records and never change; a new plant gets the next number.

use crate::science::source::{Mark, Source};

/// How New York's list ranks a food in winter.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Tier {
    /// Preferred.
    Preferred,
    /// Second choice.
    Second,
    /// Readily eaten.
    Readily,
    /// Eaten when starving, or poor.
    Poor,
}

impl Tier {
    /// All, best first.
    pub const ALL: [Self; 4] = [Self::Preferred, Self::Second, Self::Readily, Self::Poor];
}

/// Where it is looked for on the screen.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
#[allow(missing_docs)]
pub enum Group {
    Conifer,
    Tree,
    Shrub,
    Other,
}

impl Group {
    /// All, in the order in which they are offered.
    pub const ALL: [Self; 4] = [Self::Conifer, Self::Tree, Self::Shrub, Self::Other];

    /// The code used in message ids.
    pub const fn code(self) -> &'static str {
        match self {
            Self::Conifer => "conifer",
            Self::Tree => "tree",
            Self::Shrub => "shrub",
            Self::Other => "other",
        }
    }
}

/// One food.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Plant {
    /// Its number, as the item of volumes in the record.
    pub number: u16,
    /// Its code, as under pins in the record; `plant.<code>` names it.
    pub code: &'static str,
    /// Latin name; empty where it is no one kind.
    pub latin: &'static str,
    /// Where it is looked for.
    pub group: Group,
    /// Tier in New York's list; `None`: not on it.
    pub new_york: Option<Tier>,
    /// Rating of the Wisconsin pens, 1 best to 3; 0: not named there.
    pub wisconsin: u8,
}

const P: Option<Tier> = Some(Tier::Preferred);
const S: Option<Tier> = Some(Tier::Second);
const R: Option<Tier> = Some(Tier::Readily);
const X: Option<Tier> = Some(Tier::Poor);

const fn plant(
    number: u16,
    code: &'static str,
    latin: &'static str,
    group: Group,
    new_york: Option<Tier>,
    wisconsin: u8,
) -> Plant {
    Plant { number, code, latin, group, new_york, wisconsin }
}

/// The list, in groups, best known first.
pub static PLANTS: [Plant; 70] = {
    use Group::{Conifer as C, Other as O, Shrub as H, Tree as T};
    [
        plant(1, "white_cedar", "Thuja occidentalis", C, P, 1),
        plant(2, "hemlock", "Tsuga canadensis", C, S, 2),
        plant(3, "balsam_fir", "Abies balsamea", C, X, 0),
        plant(4, "spruce", "Picea", C, X, 0),
        plant(5, "pine", "Pinus", C, X, 3),
        plant(6, "canada_yew", "Taxus canadensis", C, P, 0),
        plant(7, "garden_yew", "Taxus cuspidata, T. baccata", C, None, 0),
        plant(8, "red_cedar", "Juniperus virginiana", C, X, 0),
        plant(9, "tamarack", "Larix laricina", C, X, 0),
        plant(10, "mountain_maple", "Acer spicatum", T, P, 2),
        plant(11, "red_striped_maple", "Acer rubrum, A. pensylvanicum", T, P, 1),
        plant(12, "sugar_maple", "Acer saccharum", T, R, 2),
        plant(13, "black_yellow_birch", "Betula lenta, B. alleghaniensis", T, R, 2),
        plant(14, "white_birch", "Betula papyrifera, B. populifolia", T, X, 3),
        plant(15, "oak_twig", "Quercus", T, R, 0),
        plant(16, "aspen", "Populus", T, X, 3),
        plant(17, "beech", "Fagus grandifolia", T, X, 0),
        plant(18, "apple", "Malus", T, P, 0),
        plant(19, "ash", "Fraxinus", T, R, 0),
        plant(20, "basswood", "Tilia americana", T, P, 0),
        plant(21, "mountain_ash", "Sorbus americana", T, S, 0),
        plant(22, "black_choke_cherry", "Prunus serotina, P. virginiana", T, R, 2),
        plant(23, "pin_cherry", "Prunus pensylvanica", T, X, 0),
        plant(24, "elm", "Ulmus", T, R, 0),
        plant(25, "hickory_walnut", "Carya, Juglans, Castanea", T, R, 0),
        plant(26, "sassafras", "Sassafras albidum", T, P, 0),
        plant(27, "cucumber_tree", "Magnolia acuminata", T, S, 0),
        plant(28, "ironwood_musclewood", "Ostrya virginiana, Carpinus caroliniana", T, X, 0),
        plant(29, "black_locust", "Robinia pseudoacacia", T, X, 0),
        plant(30, "hawthorn", "Crataegus", T, X, 0),
        plant(31, "hobblebush", "Viburnum lantanoides", H, P, 0),
        plant(32, "alternate_dogwood", "Cornus alternifolia, C. florida", H, P, 1),
        plant(33, "red_osier_dogwood", "Cornus sericea, C. amomum", H, S, 2),
        plant(34, "grey_dogwood", "Cornus racemosa", H, X, 0),
        plant(35, "willow", "Salix", H, S, 1),
        plant(36, "sumac", "Rhus typhina", H, P, 1),
        plant(37, "hazelnut", "Corylus", H, R, 0),
        plant(38, "shadbush", "Amelanchier", H, R, 2),
        plant(39, "elderberry", "Sambucus", H, S, 0),
        plant(40, "other_viburnum", "Viburnum", H, S, 0),
        plant(41, "highbush_blueberry", "Vaccinium corymbosum", H, S, 0),
        plant(42, "lowbush_blueberry", "Vaccinium angustifolium", H, R, 0),
        plant(43, "honeysuckle", "Lonicera", H, S, 0),
        plant(44, "bush_honeysuckle", "Diervilla lonicera", H, R, 0),
        plant(45, "wintergreen", "Gaultheria procumbens", H, P, 0),
        plant(46, "trailing_arbutus", "Epigaea repens", H, S, 0),
        plant(47, "witch_hazel", "Hamamelis virginiana", H, R, 0),
        plant(48, "spicebush", "Lindera benzoin", H, R, 0),
        plant(49, "leatherwood", "Dirca palustris", H, R, 0),
        plant(50, "winterberry", "Ilex verticillata", H, R, 0),
        plant(51, "wild_grape", "Vitis", H, R, 0),
        plant(52, "mountain_laurel", "Kalmia latifolia", H, X, 0),
        plant(53, "sheep_laurel", "Kalmia angustifolia", H, X, 0),
        plant(54, "rhododendron", "Rhododendron", H, X, 0),
        plant(55, "alder", "Alnus incana", H, X, 0),
        plant(56, "buckthorn", "Rhamnus", H, X, 0),
        plant(57, "sweet_fern", "Comptonia peregrina", H, X, 0),
        plant(58, "raspberry_blackberry", "Rubus", H, X, 0),
        plant(59, "gooseberry", "Ribes", H, X, 0),
        plant(60, "unknown_twig", "", O, None, 0),
        plant(61, "unknown_other", "", O, None, 0),
        plant(62, "corn", "Zea mays", O, None, 0),
        plant(63, "other_grain", "", O, None, 0),
        plant(64, "hay", "", O, None, 0),
        plant(65, "grass_herbs", "", O, None, 0),
        plant(66, "dry_leaves", "", O, None, 0),
        plant(67, "acorn", "Quercus", O, None, 0),
        plant(68, "lichen", "Usnea and others", O, None, 0),
        plant(69, "fungus", "", O, None, 0),
        plant(70, "bark", "", O, None, 0),
    ]
};

/// Plants that a person names: `own_1` to `own_3`, numbers 901 to 903.
pub static OWN: [Plant; 3] = [
    plant(901, "own_1", "", Group::Other, None, 0),
    plant(902, "own_2", "", Group::Other, None, 0),
    plant(903, "own_3", "", Group::Other, None, 0),
];

/// Everything that may be tapped.
pub fn all() -> impl Iterator<Item = &'static Plant> {
    PLANTS.iter().chain(&OWN)
}

/// The plant of a code; `None` for one that a newer form brings.
pub fn of_code(code: &str) -> Option<&'static Plant> {
    all().find(|plant| plant.code == code)
}

/// The plant of a number.
pub fn of_number(number: u16) -> Option<&'static Plant> {
    all().find(|plant| plant.number == number)
}

impl Plant {
    /// Corn or another grain.
    pub fn is_grain(&self) -> bool {
        matches!(self.code, "corn" | "other_grain")
    }

    /// Whether New York's tier and the Wisconsin pens point different ways: preferred or second there and
    /// third here, or the reverse.
    pub fn regions_disagree(&self) -> bool {
        let of_pens = match self.wisconsin {
            1 => Tier::Preferred,
            2 => Tier::Second,
            3 => Tier::Poor,
            _ => return false,
        };
        self.new_york.is_some_and(|tier| tier != of_pens && !(tier == Tier::Readily && of_pens == Tier::Second))
    }

    /// What has to be said of poison where it was eaten.
    pub fn poison(&self) -> Option<Poison> {
        match self.code {
            "mountain_laurel" | "sheep_laurel" | "rhododendron" => Some(Poison::Laurel),
            "garden_yew" => Some(Poison::GardenYew),
            "canada_yew" => Some(Poison::CanadaYew),
            "black_choke_cherry" | "pin_cherry" => Some(Poison::Cherry),
            _ => None,
        }
    }

    /// What was measured of its worth as food.
    pub fn food_values(&self) -> impl Iterator<Item = &'static FoodValue> {
        let code = self.code;
        FOOD_VALUES.iter().filter(move |value| value.of == code)
    }
}

/// What is known of poison in a plant.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Poison {
    /// Laurels and rhododendron: eaten in quantity where food is short; proof of nothing.
    Laurel,
    /// Garden yews have killed other wild ruminants.
    GardenYew,
    /// Canada yew: preferred winter food of deer, poisonous to horses and cattle.
    CanadaYew,
    /// Wilted leaves can give off cyanide.
    Cherry,
}

impl Poison {
    /// What it rests on.
    pub const fn source(self) -> &'static Source {
        match self {
            Self::Laurel => &LAUREL,
            Self::GardenYew => &GARDEN_YEW,
            Self::CanadaYew => &CANADA_YEW,
            Self::Cherry => &CHERRY,
        }
    }
}

static LAUREL: Source = Source::new(
    "laurel",
    "Marsh and Clawson 1930, USDA Tech. Bull. 219 (stock); Leopold typescript, Pennsylvania 1925-29 (deer); quantity as a sign of poor range",
    Mark::Seen,
);
static GARDEN_YEW: Source = Source::new(
    "garden-yew",
    "garden yews: newspaper and laboratory reports on wild ruminants; toxicology suggested, no diagnosis",
    Mark::Ours,
);
static CANADA_YEW: Source =
    Source::new("canada-yew", "US Forest Service fire effects text on Taxus canadensis", Mark::Seen);
static CHERRY: Source = Source::new("cherry", "wilted cherry leaf can release cyanide", Mark::Memory);

/// What was measured of a food, percent.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[allow(missing_docs)]
pub enum Measured {
    GrossEnergyDigested,
    EnergyMetabolised,
    NetEnergy,
    ProteinDigested,
}

/// One measured value. The texts read are abstracts and name no region; a value says nothing of how the
/// plant does elsewhere.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct FoodValue {
    /// The plant's code.
    pub of: &'static str,
    /// What was measured.
    pub what: Measured,
    /// Percent; below zero where more was lost than taken up.
    pub percent: i8,
    /// Where from.
    pub source: &'static Source,
}

static MAUTZ: Source = Source::new(
    "mautz-1976",
    "Mautz et al. 1976, seven winter browse plants fed to white-tailed deer (abstract; it names no region)",
    Mark::Seen,
);
static PEKINS: Source = Source::new(
    "pekins-mautz-1988",
    "Pekins and Mautz 1988, J. Wildl. Manage. 52(2):328-332, autumn foods (abstract; it names no region)",
    Mark::Seen,
);

const fn value(of: &'static str, what: Measured, percent: i8, source: &'static Source) -> FoodValue {
    FoodValue { of, what, percent, source }
}

/// All that was found.
pub static FOOD_VALUES: [FoodValue; 10] = {
    use Measured::{EnergyMetabolised as M, GrossEnergyDigested as G, NetEnergy as N, ProteinDigested as D};
    [
        value("hobblebush", G, 54, &MAUTZ),
        value("hobblebush", M, 46, &MAUTZ),
        value("hobblebush", N, 37, &MAUTZ),
        // The list has red and striped maple in one: 30 is of red, 24 and 5 of striped.
        value("red_striped_maple", G, 30, &MAUTZ),
        value("red_striped_maple", M, 24, &MAUTZ),
        value("red_striped_maple", N, 5, &MAUTZ),
        value("hemlock", D, -5, &MAUTZ),
        value("balsam_fir", D, 11, &MAUTZ),
        value("acorn", M, 48, &PEKINS),
        // Red-oak leaves.
        value("dry_leaves", M, 30, &PEKINS),
    ]
};
