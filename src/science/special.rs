//! The few functions of statistics that the methods share.
//!
//! Formulas: NIST Digital Library of Mathematical Functions 7.2 (error function), 8.17.22
//! (continued fraction of the incomplete beta function); Clopper and Pearson 1934, Biometrika
//! 26:404-413; Wilson 1927, J. Am. Stat. Assoc. 22:209-212. Values are checked against SciPy
//! (`tests/reference/special.csv`).

/// Probability that a standard normal variable is at most `z`.
pub fn normal_cdf(z: f64) -> f64 {
    0.5 * libm::erfc(-z * core::f64::consts::FRAC_1_SQRT_2)
}

/// The `z` with [`normal_cdf`]`(z) == p`. `None` unless `0 < p < 1`.
pub fn normal_quantile(p: f64) -> Option<f64> {
    if !(p > 0.0 && p < 1.0) {
        return None;
    }
    // The lower tail keeps its digits where the upper one rounds to one.
    if p > 0.5 {
        return normal_quantile(1.0 - p).map(|z| -z);
    }
    Some(bisect(-40.0, 0.0, |z| normal_cdf(z) < p))
}

/// Regularised incomplete beta function: probability that a beta(`a`, `b`) variable is at most `x`.
/// `None` unless `a`, `b` are positive and `x` lies in 0 to 1.
pub fn beta_cdf(x: f64, a: f64, b: f64) -> Option<f64> {
    if !(a > 0.0 && b > 0.0 && (0.0..=1.0).contains(&x)) {
        return None;
    }
    if x <= 0.0 || x >= 1.0 {
        return Some(x);
    }
    // The continued fraction converges fast only below the mean.
    if x > (a + 1.0) / (a + b + 2.0) {
        return beta_cdf(1.0 - x, b, a).map(|p| 1.0 - p);
    }
    let ln_beta = libm::lgamma(a) + libm::lgamma(b) - libm::lgamma(a + b);
    let front = libm::exp(a * libm::log(x) + b * libm::log1p(-x) - ln_beta) / a;
    Some(front * beta_fraction(x, a, b))
}

/// The `x` with [`beta_cdf`]`(x, a, b) == p`. `None` unless `a`, `b` are positive and `p` lies in 0 to 1.
pub fn beta_quantile(p: f64, a: f64, b: f64) -> Option<f64> {
    if !(a > 0.0 && b > 0.0 && (0.0..=1.0).contains(&p)) {
        return None;
    }
    Some(bisect(0.0, 1.0, |x| beta_cdf(x, a, b).is_some_and(|v| v < p)))
}

/// Lentz's evaluation of the continued fraction DLMF 8.17.22.
#[allow(clippy::many_single_char_names)] // the names are those of the formula
fn beta_fraction(x: f64, a: f64, b: f64) -> f64 {
    const TINY: f64 = 1e-300;
    let guard = |v: f64| if v.abs() < TINY { TINY } else { v };
    let (mut c, mut d) = (1.0, 1.0 / guard(1.0 - (a + b) * x / (a + 1.0)));
    let mut h = d;
    for step in 1..=500_u32 {
        let m = f64::from(step);
        let even = m * (b - m) * x / ((a + 2.0 * m - 1.0) * (a + 2.0 * m));
        let odd = -(a + m) * (a + b + m) * x / ((a + 2.0 * m) * (a + 2.0 * m + 1.0));
        let mut change = 1.0;
        for term in [even, odd] {
            d = 1.0 / guard(1.0 + term * d);
            c = guard(1.0 + term / c);
            change = c * d;
            h *= change;
        }
        if (change - 1.0).abs() < 1e-16 {
            break;
        }
    }
    h
}

/// An interval for a share.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct ShareInterval {
    /// Lower end, 0 to 1.
    pub low: f64,
    /// Upper end, 0 to 1.
    pub high: f64,
}

/// The exact (Clopper-Pearson) interval for `hits` of `n` with the stated coverage (such as 0.95).
/// `None` if `n` is zero, `hits` exceeds it, or the coverage is not between 0 and 1.
pub fn clopper_pearson(hits: u32, n: u32, coverage: f64) -> Option<ShareInterval> {
    if n == 0 || hits > n || !(coverage > 0.0 && coverage < 1.0) {
        return None;
    }
    let (k, n, tail) = (f64::from(hits), f64::from(n), (1.0 - coverage) / 2.0);
    Some(ShareInterval {
        low: if k < 0.5 { 0.0 } else { beta_quantile(tail, k, n - k + 1.0)? },
        high: if k > n - 0.5 { 1.0 } else { beta_quantile(1.0 - tail, k + 1.0, n - k)? },
    })
}

/// Wilson's score interval for `hits` of `n`. `None` as in [`clopper_pearson`].
pub fn wilson(hits: u32, n: u32, coverage: f64) -> Option<ShareInterval> {
    if n == 0 || hits > n {
        return None;
    }
    let z = normal_quantile(f64::midpoint(1.0, coverage))?;
    let (p, n) = (f64::from(hits) / f64::from(n), f64::from(n));
    let centre = p + z * z / (2.0 * n);
    let spread = z * (p * (1.0 - p) / n + z * z / (4.0 * n * n)).sqrt();
    let scale = 1.0 + z * z / n;
    Some(ShareInterval { low: ((centre - spread) / scale).max(0.0), high: ((centre + spread) / scale).min(1.0) })
}

/// Halves `low..high` until the two ends are neighbours; `below` must be true left of the answer.
pub(super) fn bisect(mut low: f64, mut high: f64, below: impl Fn(f64) -> bool) -> f64 {
    for _ in 0..200 {
        let middle = f64::midpoint(low, high);
        if middle <= low || middle >= high {
            break;
        }
        if below(middle) {
            low = middle;
        } else {
            high = middle;
        }
    }
    f64::midpoint(low, high)
}

#[cfg(test)]
mod tests {
    use super::*;

    const TABLE: &str = include_str!("../../tests/reference/special.csv");

    /// Every row of the table made by SciPy: name, three arguments, value.
    #[test]
    fn agrees_with_scipy() {
        let mut rows = 0;
        for line in TABLE.lines().filter(|l| !l.starts_with('#')).skip(1) {
            let cells: Vec<&str> = line.split(',').collect();
            let number = |i: usize| cells[i].parse::<f64>().unwrap();
            let count = |i: usize| cells[i].parse::<u32>().unwrap();
            let expected = number(4);
            let got = match cells[0] {
                "normal_cdf" => normal_cdf(number(1)),
                "normal_quantile" => normal_quantile(number(1)).unwrap(),
                "beta_cdf" => beta_cdf(number(1), number(2), number(3)).unwrap(),
                "beta_quantile" => beta_quantile(number(1), number(2), number(3)).unwrap(),
                "clopper_low" => clopper_pearson(count(1), count(2), number(3)).unwrap().low,
                "clopper_high" => clopper_pearson(count(1), count(2), number(3)).unwrap().high,
                "wilson_low" => wilson(count(1), count(2), number(3)).unwrap().low,
                "wilson_high" => wilson(count(1), count(2), number(3)).unwrap().high,
                other => panic!("unknown row {other}"),
            };
            let tolerance = 1e-10 * expected.abs() + 1e-16;
            assert!((got - expected).abs() <= tolerance, "{line}: got {got:e}");
            rows += 1;
        }
        assert!(rows > 40, "only {rows} rows read");
    }

    /// Shares of the condition reference, section 9, rows 36 and 38 to 42, as printed there: computed, the
    /// first two the same in Newcombe 1998 (from memory). Jeffreys' interval is a beta quantile.
    #[test]
    fn shares_of_the_condition_reference() {
        let close = |got: f64, expected: f64| assert!((got - expected).abs() < 0.000_06, "{got} {expected}");
        for (k, n, low, high) in [
            (81, 263, 0.2553, 0.3662),
            (81, 97, 0.7487, 0.8958),
            (6, 19, 0.1536, 0.5399),
            (2, 69, 0.0080, 0.0997),
            (5, 12, 0.1933, 0.6805),
        ] {
            let got = wilson(k, n, 0.95).unwrap();
            close(got.low, low);
            close(got.high, high);
        }
        for (k, n, low, high) in [(81, 263, 0.2527, 0.3676), (0, 20, 0.0, 0.1684)] {
            let got = clopper_pearson(k, n, 0.95).unwrap();
            close(got.low, low);
            close(got.high, high);
        }
        close(beta_quantile(0.025, 81.5, 182.5).unwrap(), 0.2545);
        close(beta_quantile(0.975, 81.5, 182.5).unwrap(), 0.3656);
        close(beta_quantile(0.975, 0.5, 20.5).unwrap(), 0.1166);
    }

    /// Mech and Frenzel 1971: 9 of 13 yearlings, 11 of 13, 3 of 24 fawns; the three anomalies of
    /// their table 5 among 401 jaws (counts as printed, intervals as derived from them); Murie 1940:
    /// 38 fawns of 55.
    #[test]
    fn shares_of_the_age_reference() {
        let close = |got: f64, expected: f64| assert!((got - expected).abs() < 0.0006, "{got} {expected}");
        let cp = |k, n| clopper_pearson(k, n, 0.95).unwrap();
        let w = |k, n| wilson(k, n, 0.95).unwrap();
        close(cp(9, 13).low, 0.386);
        close(cp(9, 13).high, 0.909);
        close(w(9, 13).low, 0.424);
        close(w(9, 13).high, 0.873);
        close(cp(11, 13).low, 0.546);
        close(cp(11, 13).high, 0.981);
        close(cp(3, 24).low, 0.027);
        close(cp(3, 24).high, 0.324);
        close(cp(2, 401).high, 0.0179);
        close(cp(3, 401).high, 0.0217);
        close(cp(4, 401).high, 0.0253);
        close(w(38, 55).low, 0.560);
        close(w(38, 55).high, 0.797);
    }

    #[test]
    fn refuses_what_has_no_answer() {
        assert_eq!(normal_quantile(0.0), None);
        assert_eq!(normal_quantile(f64::NAN), None);
        assert_eq!(beta_cdf(1.5, 1.0, 1.0), None);
        assert_eq!(beta_quantile(0.5, 0.0, 1.0), None);
        assert_eq!(beta_quantile(1.5, 1.0, 1.0), None);
        assert_eq!(clopper_pearson(3, 2, 0.95), None);
        assert_eq!(clopper_pearson(0, 0, 0.95), None);
        assert_eq!(wilson(1, 0, 0.95), None);
        assert_eq!(wilson(1, 2, 1.5), None);
    }
}
