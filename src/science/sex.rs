//! Sex of a carcass from what is left of it: a ladder of signs, the firmest decides.
//!
//! No antlers in winter says nothing: bucks cast them from late December on. Hoofs and size alone
//! overlap too much to be on the ladder.

use serde::{Deserialize, Serialize};

use super::age::Sex;
use super::source::{Mark, Source};

/// What the ladder rests on.
pub static SOURCES: [Source; 3] = [
    Source::new("sex-ladder", "order and odds of the signs", Mark::Design),
    Source::new("buttons", "Strickland and Demarais: pedicles of buck fawns grow from about 4 months", Mark::Seen),
    Source::new(
        "antler-casting",
        "University of Wisconsin-Stevens Point, citing Ozoga and Verme 1982: casting January to March",
        Mark::Seen,
    ),
];

/// A sign, firmest first.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum SexSign {
    /// Scrotum or penis.
    ScrotumOrPenis,
    /// Udder or vulva.
    UdderOrVulva,
    /// A fetus.
    Fetus,
    /// Antlers; antlered does exist.
    Antlers,
    /// Pedicles, or the knobs of a buck fawn.
    Pedicles,
    /// Frontal bone whole, no pedicle: weak in a fawn, where a late or starved buck may lack a knob.
    NoPedicles,
    /// Hairless, suckled nipples.
    SuckledNipples,
}

impl SexSign {
    /// Odds of male to female that the sign multiplies, given the probability of a fawn. `None`: the
    /// sign is certain.
    fn male_odds(self, p_fawn: f64) -> Option<f64> {
        match self {
            Self::ScrotumOrPenis | Self::UdderOrVulva | Self::Fetus => None,
            Self::Antlers => Some(200.0),
            Self::Pedicles => Some(50.0),
            Self::NoPedicles => Some(p_fawn / 3.0 + (1.0 - p_fawn) / 50.0),
            Self::SuckledNipples => Some(1.0 / 30.0),
        }
    }

    /// Which sex the sign points to.
    pub const fn points_to(self) -> Sex {
        match self {
            Self::ScrotumOrPenis | Self::Antlers | Self::Pedicles => Sex::Male,
            Self::UdderOrVulva | Self::Fetus | Self::NoPedicles | Self::SuckledNipples => Sex::Female,
        }
    }
}

/// What the signs say.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct SexReading {
    /// Probability of male.
    pub male: f64,
    /// The sex, where a sign is certain.
    pub certain: Option<Sex>,
    /// The sign that decided.
    pub line: SexSign,
    /// Signs of both sexes were given: look again.
    pub both: bool,
}

/// Reads the firmest of the signs. `p_fawn` is the probability of a fawn, 0 to 1. `None` without a sign.
pub fn read_sex(signs: &[SexSign], p_fawn: f64) -> Option<SexReading> {
    let line = signs.iter().copied().min()?;
    let both = signs.iter().any(|s| s.points_to() != line.points_to());
    let sex = line.points_to();
    let reading = match line.male_odds(p_fawn.clamp(0.0, 1.0)) {
        None => {
            SexReading { male: if sex == Sex::Male { 1.0 } else { 0.0 }, certain: (!both).then_some(sex), line, both }
        }
        Some(odds) => SexReading { male: odds / (1.0 + odds), certain: None, line, both },
    };
    Some(reading)
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Odds as designed: 200 to 1, 50 to 1, 3 to 1 in a fawn, 30 to 1.
    #[test]
    fn odds() {
        let male = |sign, fawn| read_sex(&[sign], fawn).unwrap().male;
        assert!((male(SexSign::Antlers, 0.0) - 200.0 / 201.0).abs() < 1e-12);
        assert!((male(SexSign::NoPedicles, 0.0) - 1.0 / 51.0).abs() < 1e-12);
        assert!((male(SexSign::NoPedicles, 1.0) - 0.25).abs() < 1e-12);
        assert!((male(SexSign::SuckledNipples, 0.0) - 1.0 / 31.0).abs() < 1e-12);
    }

    #[test]
    fn the_firmest_sign_decides_and_both_is_said() {
        let reading = read_sex(&[SexSign::NoPedicles, SexSign::ScrotumOrPenis], 0.0).unwrap();
        assert_eq!((reading.line, reading.both, reading.certain), (SexSign::ScrotumOrPenis, true, None));
        assert_eq!(read_sex(&[SexSign::Fetus], 0.5).unwrap().certain, Some(Sex::Female));
        assert_eq!(read_sex(&[], 0.5), None);
    }
}
