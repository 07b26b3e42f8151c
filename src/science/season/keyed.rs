//! Random numbers of a season, each stream found from its place: seed, draw, group.
//!
//! Mixing: the finaliser of SplitMix64 (Steele, Lea and Flood 2014, OOPSLA, 453-472); normal variables: Box and
//! Muller 1958, Ann. Math. Stat. 29:610-611; gamma variables: Marsaglia and Tsang 2000, ACM Trans. Math. Softw.
//! 26:363-372 (from memory; moments and quantiles checked against SciPy).

/// Odd constant of SplitMix64: 2^64 over the golden ratio.
const GAMMA: u64 = 0x9E37_79B9_7F4A_7C15;
/// 2^-53.
const STEP: f64 = 1.0 / 9_007_199_254_740_992.0;

const fn mix(mut z: u64) -> u64 {
    z = (z ^ (z >> 30)).wrapping_mul(0xBF58_476D_1CE4_E5B9);
    z = (z ^ (z >> 27)).wrapping_mul(0x94D0_49BB_1331_11EB);
    z ^ (z >> 31)
}

/// Numbers that follow from their place alone.
#[derive(Clone, Debug)]
pub struct Stream(u64);

impl Stream {
    /// The stream of a place.
    pub const fn at(seed: u64, draw: u64, group: u64) -> Self {
        let a = mix(seed.wrapping_add(GAMMA));
        let b = mix(a ^ draw.wrapping_mul(GAMMA).wrapping_add(GAMMA));
        Self(mix(b ^ group.wrapping_mul(GAMMA).wrapping_add(GAMMA)))
    }

    fn word(&mut self) -> u64 {
        self.0 = self.0.wrapping_add(GAMMA);
        mix(self.0)
    }

    /// Above 0 and at most 1.
    pub fn uniform(&mut self) -> f64 {
        ((self.word() >> 11) + 1) as f64 * STEP
    }

    /// Standard normal.
    pub fn normal(&mut self) -> f64 {
        let (u, v) = (self.uniform(), self.uniform());
        (-2.0 * libm::log(u)).sqrt() * libm::cos(core::f64::consts::TAU * v)
    }

    /// Gamma with this shape and scale one; 0 for a shape that is not above 0. A count as shape is the sum of so
    /// many exponential weights.
    pub fn gamma(&mut self, shape: f64) -> f64 {
        if shape.is_nan() || shape <= 0.0 {
            return 0.0;
        }
        if shape < 1.0 {
            let raised = self.gamma(shape + 1.0);
            return raised * libm::pow(self.uniform(), 1.0 / shape);
        }
        let d = shape - 1.0 / 3.0;
        let c = 1.0 / (9.0 * d).sqrt();
        loop {
            let x = self.normal();
            let v = 1.0 + c * x;
            if v <= 0.0 {
                continue;
            }
            let v = v * v * v;
            if libm::log(self.uniform()) < 0.5 * x * x + d - d * v + d * libm::log(v) {
                return d * v;
            }
        }
    }

    /// Which of these weights is drawn; the last with any weight where rounding leaves none.
    pub fn one_of(&mut self, weights: &[f64]) -> usize {
        let mut left = self.uniform() * weights.iter().sum::<f64>();
        let mut last = 0;
        for (at, weight) in weights.iter().enumerate().filter(|(_, weight)| **weight > 0.0) {
            last = at;
            left -= weight;
            if left <= 0.0 {
                break;
            }
        }
        last
    }
}

/// The value below which so many in 100 of sorted draws lie, between neighbours in a straight line (Hyndman and
/// Fan 1996, type 7). `None` of none.
pub fn quantile(sorted: &[f64], p: f64) -> Option<f64> {
    let place = p.clamp(0.0, 1.0) * (sorted.len().checked_sub(1)? as f64);
    #[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss)] // a place within the list
    let (a, b) = (sorted.get(place.floor() as usize)?, sorted.get(place.ceil() as usize)?);
    Some(a + (b - a) * (place - place.floor()))
}

/// The two ends that leave the same share of draws outside, sorting them. `None` of none.
pub fn ends(draws: &mut [f64], coverage: f64) -> Option<[f64; 2]> {
    draws.sort_by(f64::total_cmp);
    let tail = (1.0 - coverage) / 2.0;
    Some([quantile(draws, tail)?, quantile(draws, 1.0 - tail)?])
}
