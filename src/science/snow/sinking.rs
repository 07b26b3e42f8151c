//! How far a deer sank against its chest, and what is printed about depths.

use super::chest::Chest;
use super::{SnowRefusal, depth};

/// Sinking from which cost begins to climb steeply: the low end of Mattfeld's 25 to 40 cm.
pub const STEEP_FROM_CM: f64 = 25.0;
/// The high end.
pub const STEEP_BY_CM: f64 = 40.0;

/// Depth and sinking that can be true together.
///
/// # Errors
/// A depth that is none, or sinking deeper than the snow.
pub fn checked(sinking_cm: f64, depth_cm: Option<f64>) -> Result<f64, SnowRefusal> {
    let sinking_cm = depth(sinking_cm)?;
    match depth_cm.map(depth).transpose()? {
        Some(depth_cm) if sinking_cm > depth_cm => Err(SnowRefusal::DeeperThanSnow { sinking_cm, depth_cm }),
        _ => Ok(sinking_cm),
    }
}

/// Relative sinking depth, percent of the chest's height: best, lowest, highest.
pub fn relative_percent(sinking_cm: f64, chest: &Chest) -> [f64; 3] {
    [chest.cm, chest.high_cm, chest.low_cm].map(|cm| 100.0 * sinking_cm / cm)
}

/// How much a deer was hindered, by how far it sank.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Hindrance {
    /// Less than 25 cm.
    BelowSteep,
    /// 25 to 40 cm: the cost of walking climbs steeply somewhere here.
    Steep,
    /// More than 40 cm, less than seven tenths of the chest.
    PastSteep,
    /// Seven tenths of the chest and more: seriously impeded.
    Impeded,
    /// To the chest and deeper: it ploughs.
    Ploughs,
}

/// The class for one height of chest.
pub fn hindrance(sinking_cm: f64, chest_cm: f64) -> Hindrance {
    if sinking_cm >= chest_cm {
        Hindrance::Ploughs
    } else if sinking_cm >= super::chest::IMPEDES * chest_cm {
        Hindrance::Impeded
    } else if sinking_cm > STEEP_BY_CM {
        Hindrance::PastSteep
    } else if sinking_cm >= STEEP_FROM_CM {
        Hindrance::Steep
    } else {
        Hindrance::BelowSteep
    }
}

/// A depth or a sinking that somebody prints as a limit, with the place.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[allow(missing_docs)]
pub enum Printed {
    NewYorkStillTravels,
    MinnesotaAlder,
    NewYorkVeryDifficult,
    OntarioCoreYards,
    OntarioRestricted,
    OntarioVeryRestricted,
    QuebecSinking,
}

impl Printed {
    /// All, the least first. The ranges of mule deer are left out: another species.
    pub const ALL: [Self; 7] = [
        Self::NewYorkStillTravels,
        Self::MinnesotaAlder,
        Self::NewYorkVeryDifficult,
        Self::OntarioCoreYards,
        Self::OntarioRestricted,
        Self::OntarioVeryRestricted,
        Self::QuebecSinking,
    ];

    /// From which depth, centimetres.
    pub const fn from_cm(self) -> f64 {
        match self {
            // 12 in.
            Self::NewYorkStillTravels => 30.48,
            Self::MinnesotaAlder => 40.0,
            // 18 in.
            Self::NewYorkVeryDifficult => 45.72,
            Self::OntarioCoreYards => 46.0,
            Self::OntarioRestricted | Self::QuebecSinking => 50.0,
            Self::OntarioVeryRestricted => 63.0,
        }
    }

    /// Whether it is about sinking and not about depth.
    pub const fn is_sinking(self) -> bool {
        matches!(self, Self::QuebecSinking)
    }

    /// Whether this snow reaches it.
    pub fn is_reached(self, depth_cm: Option<f64>, sinking_cm: Option<f64>) -> bool {
        let told = if self.is_sinking() { sinking_cm } else { depth_cm };
        // 12 to 16 in are one band; deeper snow has left it.
        let left = self == Self::NewYorkStillTravels && told.is_some_and(|cm| cm > 40.64);
        told.is_some_and(|cm| cm >= self.from_cm()) && !left
    }
}
