//! Wind chill (the 2001 index shared by the US and Canada) and the Canadian frostbite bands.
//!
//! The index is built on a bare face, a night sky and the wind at a 10 m mast. It says nothing about
//! wet gloves, metal tools or snow down the neck, and the bands are for healthy bare faces: never
//! turn a band into a countdown.

use serde::Serialize;

use super::source::{Mark, Source};

/// Wind chill is defined at or below this air temperature, C.
pub const WARMEST_AIR_C: f64 = 10.0;
/// Wind chill is defined at or above this mast wind, km/h.
pub const LEAST_WIND_KMH: f64 = 4.8;
/// Mast wind over wind felt or metered at face height.
pub const MAST_OVER_FACE: f64 = 1.5;

/// Everything that the method rests on.
pub static SOURCES: [Source; 3] = [
    Source::new(
        "wind-chill-2001",
        "2001 wind chill index, US National Weather Service and Environment Canada",
        Mark::Seen,
    ),
    Source::new("frostbite-bands", "Environment Canada wind chill hazard bands, read in a copy", Mark::Seen),
    Source::new("face-wind", "mast wind is about 1.5 times the wind at face height", Mark::Memory),
];

/// Where the wind figure was taken.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum WindAt {
    /// A forecast or a mast at 10 m.
    Mast,
    /// Metered or felt at the height of a face; multiplied by [`MAST_OVER_FACE`].
    Face,
}

/// How soon bare skin can freeze, on the rounded value.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum FrostBand {
    /// Warmer than -10: low risk.
    Low,
    /// -10 to -27: low frostbite risk, hypothermia if out long.
    Chill,
    /// -28 to -39: bare skin can freeze in 10 to 30 minutes.
    TenToThirtyMinutes,
    /// -40 to -47: in 5 to 10 minutes.
    FiveToTenMinutes,
    /// -48 to -54: in 2 to 5 minutes.
    TwoToFiveMinutes,
    /// -55 and below: in under 2 minutes.
    UnderTwoMinutes,
}

impl FrostBand {
    /// The band of a wind chill rounded to a whole degree C.
    pub const fn of_rounded(wind_chill_c: i32) -> Self {
        match wind_chill_c {
            ..=-55 => Self::UnderTwoMinutes,
            -54..=-48 => Self::TwoToFiveMinutes,
            -47..=-40 => Self::FiveToTenMinutes,
            -39..=-28 => Self::TenToThirtyMinutes,
            -27..=-10 => Self::Chill,
            -9.. => Self::Low,
        }
    }
}

/// What the air does to bare skin.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct WindChill {
    /// The unrounded index, C; `None` where the index is not defined and the air temperature stands.
    pub index_c: Option<f64>,
    /// The figure to show and to band, whole degrees C (the air temperature if there is no index).
    pub shown_c: i32,
    /// The wind that was used, at mast height, km/h.
    pub mast_wind_kmh: f64,
    /// Frostbite band of `shown_c`.
    pub band: FrostBand,
}

/// Why there is no figure.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, thiserror::Error)]
#[serde(rename_all = "snake_case")]
pub enum WindChillRefusal {
    /// Air temperature missing, not a number or outside -80 to 60 C.
    #[error("air temperature is not between -80 and 60 C")]
    Air,
    /// Wind not a number, negative or above 250 km/h.
    #[error("wind is not between 0 and 250 km/h")]
    Wind,
}

/// Wind chill from the air temperature in C and the wind in km/h.
///
/// Outside the range of the index the air temperature itself is shown and banded, with no index.
pub fn wind_chill(air_c: f64, wind_kmh: f64, at: WindAt) -> Result<WindChill, WindChillRefusal> {
    if !(-80.0..=60.0).contains(&air_c) {
        return Err(WindChillRefusal::Air);
    }
    if !(0.0..=250.0).contains(&wind_kmh) {
        return Err(WindChillRefusal::Wind);
    }
    let mast_wind_kmh = match at {
        WindAt::Mast => wind_kmh,
        WindAt::Face => wind_kmh * MAST_OVER_FACE,
    };
    let index_c = index_c(air_c, mast_wind_kmh);
    let shown_c = rounded(index_c.unwrap_or(air_c));
    Ok(WindChill { index_c, shown_c, mast_wind_kmh, band: FrostBand::of_rounded(shown_c) })
}

/// The index in C from C and km/h at the mast; `None` outside its range.
pub fn index_c(air_c: f64, mast_wind_kmh: f64) -> Option<f64> {
    if !(air_c <= WARMEST_AIR_C && mast_wind_kmh >= LEAST_WIND_KMH) {
        return None;
    }
    let v = libm::pow(mast_wind_kmh, 0.16);
    Some(13.12 + 0.6215 * air_c - 11.37 * v + 0.3965 * air_c * v)
}

/// The index in F from F and mph at the mast, as the US charts print it; `None` outside its range.
pub fn index_f(air_f: f64, mast_wind_mph: f64) -> Option<f64> {
    if !(air_f <= 50.0 && mast_wind_mph >= 3.0) {
        return None;
    }
    let v = libm::pow(mast_wind_mph, 0.16);
    Some(35.74 + 0.6215 * air_f - 35.75 * v + 0.4275 * air_f * v)
}

/// Half rounds toward the warmer degree, as the printed charts do.
#[allow(clippy::cast_possible_truncation)] // both callers stay within a few hundred degrees
fn rounded(degrees: f64) -> i32 {
    (degrees + 0.5).floor() as i32
}

#[cfg(test)]
mod tests {
    use super::*;

    /// US chart cells (chart seen, exact values of the published formula).
    #[test]
    fn us_chart() {
        for (t, v, exact, chart) in [
            (30.0, 10.0, 21.248, 21),
            (20.0, 15.0, 6.219, 6),
            (10.0, 20.0, -8.876, -9),
            (0.0, 5.0, -10.510, -11),
            (0.0, 15.0, -19.398, -19),
            (0.0, 30.0, -25.865, -26),
            (-10.0, 5.0, -22.256, -22),
            (-10.0, 30.0, -39.447, -39),
            (-20.0, 20.0, -48.233, -48),
            (-40.0, 40.0, -84.482, -84),
        ] {
            let got = index_f(t, v).unwrap();
            assert!((got - exact).abs() < 0.0006, "{t} {v}: {got}");
            assert_eq!(rounded(got), chart);
        }
    }

    /// The metric form of the same index, worked out outside this crate.
    #[test]
    fn metric_rows() {
        for (t, v, exact, shown) in [
            (0.0, 10.0, -3.315, -3),
            (-5.0, 20.0, -11.551, -12),
            (-10.0, 20.0, -17.861, -18),
            (-10.0, 30.0, -19.520, -20),
            (-15.0, 40.0, -27.450, -27),
            (-20.0, 30.0, -32.568, -33),
            (-25.0, 40.0, -40.819, -41),
            (-35.0, 20.0, -49.406, -49),
            (-40.0, 30.0, -58.663, -59),
            (-40.0, 60.0, -64.167, -64),
        ] {
            let got = wind_chill(t, v, WindAt::Mast).unwrap();
            assert!((got.index_c.unwrap() - exact).abs() < 0.0006, "{t} {v}: {got:?}");
            assert_eq!(got.shown_c, shown);
        }
    }

    /// Band edges as the Canadian table prints them, on the rounded value.
    #[test]
    fn bands() {
        for (c, band) in [
            (0, FrostBand::Low),
            (-9, FrostBand::Low),
            (-10, FrostBand::Chill),
            (-27, FrostBand::Chill),
            (-28, FrostBand::TenToThirtyMinutes),
            (-39, FrostBand::TenToThirtyMinutes),
            (-40, FrostBand::FiveToTenMinutes),
            (-47, FrostBand::FiveToTenMinutes),
            (-48, FrostBand::TwoToFiveMinutes),
            (-54, FrostBand::TwoToFiveMinutes),
            (-55, FrostBand::UnderTwoMinutes),
        ] {
            assert_eq!(FrostBand::of_rounded(c), band, "{c}");
        }
        assert_eq!(rounded(-27.5), -27, "stays in the milder band");
        // News copies of the US chart: 0 F at 15 mph, bare skin freezes in 30 minutes; here -28 C.
        let c = index_c((0.0 - 32.0) / 1.8, 15.0 * 1.609_344).unwrap();
        assert_eq!(FrostBand::of_rounded(rounded(c)), FrostBand::TenToThirtyMinutes);
    }

    #[test]
    fn outside_the_index_the_air_stands() {
        for (air, wind) in [(-15.0, 0.0), (-15.0, 3.2), (12.0, 30.0)] {
            let got = wind_chill(air, wind, WindAt::Mast).unwrap();
            assert_eq!(got.index_c, None);
            assert_eq!(f64::from(got.shown_c), air);
        }
        assert_eq!(index_f(40.0, 2.0), None);
        let cold = wind_chill(-41.0, 0.0, WindAt::Mast).unwrap();
        assert_eq!(cold.band, FrostBand::FiveToTenMinutes);
    }

    /// From memory: face wind times 1.5 is mast wind.
    #[test]
    fn face_wind_is_raised() {
        let face = wind_chill(-20.0, 20.0, WindAt::Face).unwrap();
        assert_eq!(face, wind_chill(-20.0, 30.0, WindAt::Mast).unwrap());
    }

    #[test]
    fn refuses_the_impossible() {
        assert_eq!(wind_chill(f64::NAN, 5.0, WindAt::Mast), Err(WindChillRefusal::Air));
        assert_eq!(wind_chill(-300.0, 5.0, WindAt::Mast), Err(WindChillRefusal::Air));
        assert_eq!(wind_chill(-5.0, -1.0, WindAt::Mast), Err(WindChillRefusal::Wind));
        assert_eq!(wind_chill(-5.0, f64::INFINITY, WindAt::Mast), Err(WindChillRefusal::Wind));
    }
}
