//! Fisher's exact test for two shares, two-sided: for findings that were seen or not, never for what a model
//! inferred.
//!
//! Fisher 1935; two-sided as the sum of all tables no more likely than the one seen. Checked against SciPy
//! (`tests/reference/fisher.csv`).

/// Tables whose probability exceeds the seen one's by less than this factor count as equally likely, so that
/// rounding does not decide.
const TIE: f64 = 1.0 + 1e-7;

/// Probability of a difference as large or larger, if `hits_a` of `n_a` and `hits_b` of `n_b` have one share.
/// `None` where more hits than trials are given, or no trials.
pub fn fisher_two_sided(hits_a: u32, n_a: u32, hits_b: u32, n_b: u32) -> Option<f64> {
    if hits_a > n_a || hits_b > n_b || n_a == 0 || n_b == 0 {
        return None;
    }
    let hits = hits_a.checked_add(hits_b)?;
    let all = n_a.checked_add(n_b)?;
    let ln_ways = |n: u32, k: u32| {
        let gamma = |v: u32| libm::lgamma(f64::from(v) + 1.0);
        gamma(n) - gamma(k) - gamma(n - k)
    };
    let ln_all = ln_ways(all, hits);
    let chance = |a: u32| libm::exp(ln_ways(n_a, a) + ln_ways(n_b, hits - a) - ln_all);
    let seen = chance(hits_a);
    let least = hits.saturating_sub(n_b);
    let sum: f64 = (least..=hits.min(n_a)).map(chance).filter(|p| *p <= seen * TIE).sum();
    Some(sum.min(1.0))
}

#[cfg(test)]
mod tests {
    use super::*;

    const TABLE: &str = include_str!("../../tests/reference/fisher.csv");

    #[test]
    fn agrees_with_scipy() {
        let mut rows = 0;
        for line in TABLE.lines().filter(|l| !l.starts_with('#')).skip(1) {
            let cells: Vec<&str> = line.split(',').collect();
            let n = |i: usize| cells[i].parse::<u32>().unwrap();
            let expected: f64 = cells[4].parse().unwrap();
            let got = fisher_two_sided(n(0), n(1), n(2), n(3)).unwrap();
            assert!((got - expected).abs() <= 1e-9 * expected + 1e-14, "{line}: {got:e}");
            rows += 1;
        }
        assert!(rows >= 12);
    }

    /// Mech and Frenzel 1971, table 8, wolf against hunter kills: teeth, jaw, both, lower legs; and Fisher's
    /// own tea tasting, 3 of 4 against 1 of 4.
    #[test]
    fn published_counts() {
        for (a, n_a, b, n_b, expected) in [
            (8, 142, 5, 259, 0.0725),
            (6, 142, 1, 259, 0.0091),
            (14, 142, 6, 259, 0.0015),
            (5, 75, 1, 126, 0.0280),
            (3, 4, 1, 4, 0.4857),
        ] {
            let p = fisher_two_sided(a, n_a, b, n_b).unwrap();
            assert!((p - expected).abs() < 0.00006, "{a}/{n_a} {b}/{n_b}: {p}");
        }
    }

    #[test]
    fn refuses_what_is_no_table() {
        assert_eq!(fisher_two_sided(3, 2, 0, 5), None);
        assert_eq!(fisher_two_sided(0, 0, 0, 5), None);
        assert_eq!(fisher_two_sided(0, 4, 0, 5), Some(1.0));
    }
}
