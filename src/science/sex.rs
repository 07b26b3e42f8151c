//! Sex of a carcass from what is left of it: a ladder of signs, the firmest decides.
//!
//! No antlers in winter says nothing: bucks cast them from late December on. Hoofs overlap too much to be
//! on the ladder; size stands last and never names a sex alone.

use serde::{Deserialize, Serialize};

use super::age::Sex;
use super::source::{Mark, Source};

/// What the ladder rests on.
pub static SOURCES: [Source; 4] = [
    Source::new(
        "sex-ladder",
        "odds: antlers or a pedicle face 200 to 1, a fawn's knob 50, a smooth brow 50 (a fawn's 3), suckled nipples 30, pelvis 20, size 3 at most",
        Mark::Design,
    ),
    Source::new(
        "suspensory-tuberosities",
        "knobs on the rear underside of the pelvis in bucks: criterion cited in Duetsch and Peterson 2012, Alces 48:1-6; how often it is right was not found, adults only",
        Mark::Seen,
    ),
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
    /// Pelvis with the two knobs that carry the penis: a grown buck.
    PelvisKnobs,
    /// Pelvis without them: a grown doe.
    NoPelvisKnobs,
}

impl SexSign {
    /// Whether the sign is certain.
    pub const fn is_certain(self) -> bool {
        matches!(self, Self::ScrotumOrPenis | Self::UdderOrVulva | Self::Fetus)
    }

    /// Odds for the sex that the sign points to, in a fawn or in an older deer. The pelvis says nothing in a
    /// fawn. Design throughout. A certain sign has no odds.
    const fn odds(self, fawn: bool) -> Option<f64> {
        Some(match (self, fawn) {
            (Self::ScrotumOrPenis | Self::UdderOrVulva | Self::Fetus, _) => return None,
            (Self::Antlers, _) | (Self::Pedicles, false) => 200.0,
            (Self::Pedicles, true) | (Self::NoPedicles, false) => 50.0,
            (Self::NoPedicles, true) => 3.0,
            (Self::SuckledNipples, _) => 30.0,
            (Self::PelvisKnobs | Self::NoPelvisKnobs, false) => 20.0,
            (Self::PelvisKnobs | Self::NoPelvisKnobs, true) => 1.0,
        })
    }

    /// Likelihood of the sign, female and male, in a fawn or in an older deer; the larger is one.
    pub fn likelihood(self, fawn: bool) -> [f64; 2] {
        let other = self.odds(fawn).map_or(0.0, |odds| 1.0 / odds);
        match self.points_to() {
            Sex::Female => [1.0, other],
            Sex::Male => [other, 1.0],
        }
    }

    /// Which sex the sign points to.
    pub const fn points_to(self) -> Sex {
        match self {
            Self::ScrotumOrPenis | Self::Antlers | Self::Pedicles | Self::PelvisKnobs => Sex::Male,
            Self::UdderOrVulva | Self::Fetus | Self::NoPedicles | Self::SuckledNipples | Self::NoPelvisKnobs => {
                Sex::Female
            }
        }
    }
}

/// Larger share from which a sex is named; below it the answer is "undetermined". Ours: ten to one would be
/// 0.91, a fawn without knobs is 0.75.
pub const NAMED_FROM: f64 = 0.9;

/// What the signs say.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct SexReading {
    /// Probability of male.
    pub male: f64,
    /// The sex, where a sign is certain.
    pub certain: Option<Sex>,
    /// The sign that decided; `None` where only size speaks.
    pub line: Option<SexSign>,
    /// Signs of both sexes were given: look again.
    pub both: bool,
}

/// The answer in one word.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum SexAnswer {
    /// A certain sign.
    Certain(Sex),
    /// Signs strong enough to name it.
    Likely(Sex),
    /// A good answer where signs are weak or of both sexes.
    Undetermined,
}

impl SexReading {
    /// The answer in one word.
    pub fn answer(&self) -> SexAnswer {
        match self.certain {
            Some(sex) => SexAnswer::Certain(sex),
            None if self.both => SexAnswer::Undetermined,
            None if self.male >= NAMED_FROM => SexAnswer::Likely(Sex::Male),
            None if self.male <= 1.0 - NAMED_FROM => SexAnswer::Likely(Sex::Female),
            None => SexAnswer::Undetermined,
        }
    }
}

/// The firmest sign, unless signs of both sexes were given.
pub fn firmest(signs: &[SexSign]) -> Option<SexSign> {
    let line = signs.iter().copied().min()?;
    signs.iter().all(|s| s.points_to() == line.points_to()).then_some(line)
}

/// Reads the firmest of the signs. `p_fawn` is the probability of a fawn, 0 to 1; `size_odds` what size
/// says of male to female, used only where there is no sign. `None` without either.
pub fn read_sex(signs: &[SexSign], p_fawn: f64, size_odds: Option<f64>) -> Option<SexReading> {
    let p_fawn = p_fawn.clamp(0.0, 1.0);
    let Some(line) = signs.iter().copied().min() else {
        let odds = size_odds.filter(|odds| odds.is_finite() && *odds > 0.0)?;
        return Some(SexReading { male: odds / (1.0 + odds), certain: None, line: None, both: false });
    };
    let both = firmest(signs).is_none();
    let ([f_fawn, m_fawn], [f_older, m_older]) = (line.likelihood(true), line.likelihood(false));
    let mixed = |fawn: f64, older: f64| p_fawn * fawn + (1.0 - p_fawn) * older;
    let (female, male) = (mixed(f_fawn, f_older), mixed(m_fawn, m_older));
    let certain = (line.is_certain() && !both).then_some(line.points_to());
    Some(SexReading { male: male / (female + male), certain, line: Some(line), both })
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Odds as designed: 200 to 1, 50 to 1, 3 to 1 in a fawn, 30 to 1, 20 to 1.
    #[test]
    fn odds() {
        let male = |sign, fawn| read_sex(&[sign], fawn, None).unwrap().male;
        for (sign, fawn, expected) in [
            (SexSign::Antlers, 0.0, 200.0 / 201.0),
            (SexSign::Pedicles, 0.0, 200.0 / 201.0),
            (SexSign::Pedicles, 1.0, 50.0 / 51.0),
            (SexSign::NoPedicles, 0.0, 1.0 / 51.0),
            (SexSign::NoPedicles, 1.0, 0.25),
            (SexSign::SuckledNipples, 0.0, 1.0 / 31.0),
            (SexSign::PelvisKnobs, 0.0, 20.0 / 21.0),
            (SexSign::NoPelvisKnobs, 0.0, 1.0 / 21.0),
            (SexSign::PelvisKnobs, 1.0, 0.5),
        ] {
            assert!((male(sign, fawn) - expected).abs() < 1e-12, "{sign:?} {fawn}");
        }
    }

    #[test]
    fn the_firmest_sign_decides_and_both_is_said() {
        let reading = read_sex(&[SexSign::NoPedicles, SexSign::ScrotumOrPenis], 0.0, None).unwrap();
        assert_eq!((reading.line, reading.both, reading.certain), (Some(SexSign::ScrotumOrPenis), true, None));
        assert_eq!(reading.answer(), SexAnswer::Undetermined);
        assert_eq!(read_sex(&[SexSign::Fetus], 0.5, None).unwrap().certain, Some(Sex::Female));
        assert_eq!(read_sex(&[], 0.5, None), None);
    }

    #[test]
    fn undetermined_is_an_answer() {
        let answer = |signs: &[SexSign], fawn| read_sex(signs, fawn, None).unwrap().answer();
        assert_eq!(answer(&[SexSign::NoPedicles], 1.0), SexAnswer::Undetermined);
        assert_eq!(answer(&[SexSign::NoPedicles], 0.0), SexAnswer::Likely(Sex::Female));
        assert_eq!(answer(&[SexSign::PelvisKnobs], 1.0), SexAnswer::Undetermined);
        assert_eq!(answer(&[SexSign::PelvisKnobs], 0.0), SexAnswer::Likely(Sex::Male));
        assert_eq!(answer(&[SexSign::UdderOrVulva], 0.3), SexAnswer::Certain(Sex::Female));
    }

    /// Size stands last: it never reaches the share at which a sex is named, and any sign goes before it.
    #[test]
    fn size_alone_names_no_sex() {
        let size = read_sex(&[], 0.0, Some(3.0)).unwrap();
        assert!((size.male - 0.75).abs() < 1e-12);
        assert_eq!(size.answer(), SexAnswer::Undetermined);
        let sign = read_sex(&[SexSign::SuckledNipples], 0.0, Some(3.0)).unwrap();
        assert!(sign.male < 0.04);
    }
}
