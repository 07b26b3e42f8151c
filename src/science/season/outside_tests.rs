//! Every row of the table made by SciPy, statsmodels and NumPy (`tests/reference/make_season.py`), and the worked
//! rows of the condition reference, section 9.

use statrs::distribution::{ContinuousCDF, Gamma};

use super::effort::{Line, density};
use super::keyed::Stream;
use super::mixture::{DRAWS, Fixed, PRIOR_CARCASSES, draw};
use super::survival::{chapman_robson, fit, youngest_chi_square};
use super::transect::{Fit, NoFit, SeForm, fit_squares, half_normal, half_normal_in_bands, ln_sigma_se};
use super::two_groups::newcombe;

const TABLE: &str = include_str!("../../../tests/reference/season.csv");

struct Cells(std::vec::IntoIter<f64>);

impl Cells {
    fn number(&mut self) -> f64 {
        self.0.next().unwrap()
    }
    fn numbers(&mut self, n: usize) -> Vec<f64> {
        (0..n).map(|_| self.number()).collect()
    }
    #[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss)]
    fn count(&mut self) -> u32 {
        self.number() as u32
    }
    fn counts(&mut self, n: usize) -> Vec<u32> {
        (0..n).map(|_| self.count()).collect()
    }
}

/// Calls with each row of that name; how many there were is at least `fewest`.
fn each(name: &str, fewest: usize, mut take: impl FnMut(&mut Cells)) {
    let mut rows = 0;
    for line in TABLE.lines().filter(|line| line.split(',').next() == Some(name)) {
        let all: Vec<f64> = line.split(',').skip(1).map(|cell| cell.parse().unwrap()).collect();
        let mut cells = Cells(all.into_iter());
        take(&mut cells);
        assert!(cells.0.next().is_none(), "{line}");
        rows += 1;
    }
    assert!(rows >= fewest, "{rows} rows of {name}");
}

fn close(got: f64, expected: f64, relative: f64) {
    assert!((got - expected).abs() <= relative * expected.abs() + 1e-12, "{got} instead of {expected}");
}

#[test]
fn newcombe_agrees_with_statsmodels() {
    each("newcombe", 12, |row| {
        let (a, n, b, m) = (row.count(), row.count(), row.count(), row.count());
        let [_, low, high] = newcombe(a, n, b, m, row.number()).unwrap();
        close(low, row.number(), 1e-9);
        close(high, row.number(), 1e-9);
    });
}

/// Reference, section 9, row 43: 56 of 70 against 48 of 80 (Newcombe 1998, from memory).
#[test]
fn newcombe_as_printed() {
    let [d, low, high] = newcombe(56, 70, 48, 80, 0.95).unwrap();
    assert_eq!(format!("{d:.4} {low:.4} {high:.4}"), "0.2000 0.0524 0.3339");
}

/// Reference, section 9, rows 46 and 47: ages 3 to 10 (Miranda and Bettoli 2007, box 6.4: S printed as 0.580).
#[test]
fn chapman_and_robson_as_printed() {
    let found = chapman_robson(&[162, 110, 55, 41, 20, 14, 7, 5], false).unwrap();
    assert_eq!((found.n, found.total), (414, 570));
    assert_eq!(format!("{:.5}", found.survival), "0.57986");
    assert_eq!(format!("{:.5}", found.survival_se), "0.01575");
    assert_eq!(format!("{:.5}", found.mortality()), "0.54497");
    assert_eq!(format!("{:.5}", found.mortality_corrected()), "0.54424");
    assert_eq!(format!("{:.5}", found.mortality_se()), "0.02708");
}

#[test]
fn pooled_ages_agree_with_scipy() {
    each("pooled", 4, |row| {
        let n = row.count() as usize;
        let found = chapman_robson(&row.counts(n), true).unwrap();
        // SciPy's bounded search ends some 1e-8 off.
        close(found.survival, row.number(), 1e-7);
        close(found.survival_se, row.number(), 1e-6);
    });
}

#[test]
fn fits_of_ages_agree_with_scipy() {
    each("youngest", 3, |row| {
        let n = row.count() as usize;
        let counts = row.counts(n);
        let found = chapman_robson(&counts, false).unwrap();
        close(youngest_chi_square(&counts, &found), row.number(), 1e-8);
    });
    each("fit", 3, |row| {
        let n = row.count() as usize;
        let counts = row.counts(n);
        let mut found = chapman_robson(&counts, false).unwrap();
        found.survival = row.number();
        let (chi, degrees) = fit(&counts, &found).unwrap();
        close(chi, row.number(), 1e-9);
        assert_eq!(degrees, row.count());
    });
}

#[test]
fn half_normals_agree_with_scipy() {
    each("half_normal", 3, |row| {
        let (w, n) = (row.number(), row.count() as usize);
        let distances = row.numbers(n);
        let fit = half_normal(&distances, Some(w)).unwrap();
        close(fit.sigma_m.unwrap(), row.number(), 1e-6);
        close(fit.mu_m, row.number(), 1e-6);
        close(ln_sigma_se(&distances, &fit, SeForm::Information).unwrap(), row.number(), 1e-5);
        close(ln_sigma_se(&distances, &fit, SeForm::Scores).unwrap(), row.number(), 1e-5);
        close(fit.aic.unwrap(), row.number(), 1e-9);
    });
    each("bands", 2, |row| {
        let n = row.count() as usize;
        let cuts = row.numbers(n + 1);
        let counts = row.counts(n);
        let fit = half_normal_in_bands(&cuts, &counts).unwrap();
        let (sigma, mu, se) = (row.number(), row.number(), row.number());
        close(fit.sigma_m.unwrap(), sigma, 1e-6);
        close(fit.mu_m, mu, 1e-6);
        let a = fit.w_m / sigma;
        let slope = 1.0 - a * libm::exp(-a * a / 2.0) * sigma / mu;
        close(fit.seen_cv, slope * se, 1e-4);
    });
}

#[test]
fn densities_agree_with_numpy() {
    each("density", 2, |row| {
        let (w_m, mu_m, seen_cv, k) = (row.number(), row.number(), row.number(), row.count());
        let lines: Vec<Line> = (0..k).map(|_| Line { length_m: row.number(), found: row.count() }).collect();
        let n = lines.iter().map(|line| line.found as usize).sum();
        let fit = Fit { n, w_m, sigma_m: None, mu_m, seen: mu_m / w_m, seen_cv, aic: None };
        let found = density(&fit, &lines, 0.95).unwrap();
        close(found.per_km2, row.number(), 1e-12);
        close(found.encounter_cv.unwrap(), row.number(), 1e-12);
        let [low, high] = found.range.unwrap();
        close(low, row.number(), 1e-9);
        close(high, row.number(), 1e-9);
    });
}

/// Reference, section 9, rows 48 and 49: duck nests (Anderson and Pospahala 1970), 20 lines of 128.75 km in strips of
/// 2.4 m to each side, 12.36 square kilometres; in eight bands by hand and by the half-normal.
#[test]
fn duck_nests_in_bands() {
    let lines: Vec<Line> = (0..20).map(|_| Line { length_m: 128_750.0, found: 0 }).collect();
    let hand = Fit { n: 534, w_m: 2.4, sigma_m: None, mu_m: 2.4 * 0.883, seen: 0.883, seen_cv: 0.0, aic: None };
    let per_km2 = density(&hand, &lines, 0.95).unwrap().per_km2;
    assert!((per_km2 * 12.36 - 604.7).abs() < 0.2, "{}", per_km2 * 12.36);
    assert!((per_km2 - 48.9).abs() < 0.05, "{per_km2}");
    let cuts = [0.0, 0.3, 0.6, 0.9, 1.2, 1.5, 1.8, 2.1, 2.4];
    let fit = half_normal_in_bands(&cuts, &[74, 73, 79, 66, 78, 58, 52, 54]).unwrap();
    assert_eq!(format!("{:.4}", fit.sigma_m.unwrap()), "2.5173");
    assert_eq!(format!("{:.4} {:.5}", fit.mu_m, fit.seen), "2.0811 0.86711");
    assert_eq!(format!("{:.2}", density(&fit, &lines, 0.95).unwrap().per_km2), "49.83");
}

/// Row 51: without a strip's half-width there is no density: the form for distances that nobody cut off comes out too
/// dense for those that were.
#[test]
fn no_density_without_a_strip() {
    assert_eq!(half_normal(&[1.0, 2.0, 0.4], None), Err(NoFit::NoStrip));
    assert_eq!(half_normal(&[1.0, 2.0], Some(0.0)), Err(NoFit::NoStrip));
    assert_eq!(half_normal(&[1.0, -2.0], Some(5.0)), Err(NoFit::NoDistance));
}

/// Row 54: wooden stakes, 1977 (Laake 1978; Burnham, Anderson and Laake 1980), observers 1 and 3 together: 89 within
/// 19.39 m of a line of one kilometre. The printed scale gives the sum of squares back, and from it scale, share seen,
/// criterion and density as printed.
#[test]
fn wooden_stakes_of_1977() {
    let (n, w, sigma) = (89_usize, 19.39, libm::exp(2.233_369));
    let a = w / sigma;
    let phi = libm::exp(-a * a / 2.0) / core::f64::consts::TAU.sqrt();
    let inside = libm::erf(a / core::f64::consts::SQRT_2);
    let sum = n as f64 * sigma * sigma * (1.0 - 2.0 * a * phi / inside);
    let fit = fit_squares(sum, n, w);
    assert!((libm::log(fit.sigma_m.unwrap()) - 2.233_369).abs() < 1e-9);
    assert_eq!(format!("{:.6}", fit.seen), "0.580399");
    assert_eq!(format!("{:.3}", fit.aic.unwrap()), "504.185");
    let found = density(&fit, &[Line { length_m: 1000.0, found: 89 }], 0.95).unwrap();
    assert_eq!(format!("{:.2}", found.per_km2 / 100.0), "39.54");
    assert_eq!(found.range, None, "one line says nothing of the spread between lines");
}

/// Row 56: a mean square of a third of the squared half-width or more.
#[test]
fn the_strip_form_where_nothing_falls_off() {
    let even: Vec<f64> = (0..60).map(|n| f64::from(n) + 0.5).collect();
    // The middles of 57 strips of a metre: their mean square exceeds a third of 56.6 squared.
    let fit = half_normal(&even, Some(56.6)).unwrap();
    assert_eq!((fit.sigma_m, fit.seen), (None, 1.0));
    assert!(half_normal(&even, Some(300.0)).unwrap().sigma_m.is_some());
    assert_eq!(fit_squares(100.0 * 3.0, 100, 3.0).sigma_m, None, "exactly a third");
}

/// Draws of gamma variables lie as `statrs` says they should: the largest distance of the two distribution functions
/// stays below Kolmogorov's limit of one in a thousand.
#[test]
fn gamma_variables() {
    for shape in [0.06, 0.5, 1.0, 3.0, 40.0] {
        let gamma = Gamma::new(shape, 1.0).unwrap();
        let mut draws: Vec<f64> = (0..20_000).map(|n| Stream::at(7, n, 3).gamma(shape)).collect();
        draws.sort_by(f64::total_cmp);
        let all = draws.len() as f64;
        let off = |(x, place): (&f64, i32)| {
            let p = gamma.cdf(*x);
            (p - f64::from(place) / all).abs().max((f64::from(place) + 1.0) / all - p)
        };
        let most = draws.iter().zip(0..).map(off).fold(0.0, f64::max);
        assert!(most < 1.95 / all.sqrt(), "{shape}: {most}");
    }
}

/// Where every carcass tells its state, and where none does, the draws are the Dirichlet's: within four standard errors
/// of the draws.
#[test]
fn known_states_give_the_dirichlet() {
    each("known", 3, |row| {
        let (worth, k) = (row.number(), row.count() as usize);
        assert!((worth - PRIOR_CARCASSES).abs() < 1e-12);
        let (prior, counts) = (row.numbers(k), row.counts(k));
        let known = |state: usize| (0..k).map(|other| f64::from(u8::from(other == state))).collect::<Vec<f64>>();
        let of = |(state, n): (usize, &u32)| vec![known(state); *n as usize];
        let carcasses: Vec<Vec<f64>> = counts.iter().enumerate().flat_map(of).collect();
        let drawn = draw(&Fixed::new(&prior, &carcasses), 1);
        for state in 0..k {
            let line = drawn.line(&[state]);
            let (mean, low, high) = (row.number(), row.number(), row.number());
            let sd = (high - low) / 3.92;
            assert!((line.share - mean).abs() < 4.0 * sd / (DRAWS as f64).sqrt(), "{line:?} {mean}");
            // An end of 1,000 draws errs by about 2.7 times as much.
            assert!((line.low - low).abs() < 0.34 * sd + 1e-3, "{line:?} {low}");
            assert!((line.high - high).abs() < 0.34 * sd + 1e-3, "{line:?} {high}");
        }
    });
}

/// Between the two the draws hold to first order: NumPy's grid is met within a fifth of a standard deviation, ends
/// within a third.
#[test]
fn two_doubtful_states_come_near_the_grid() {
    each("two_states", 4, |row| {
        let (_, prior, groups) = (row.number(), row.number(), row.count());
        let mut carcasses = Vec::new();
        for _ in 0..groups {
            let (count, one) = (row.count(), row.numbers(2));
            carcasses.extend(std::iter::repeat_n(one, count as usize));
        }
        let line = draw(&Fixed::new(&[prior, 1.0 - prior], &carcasses), 1).line(&[0]);
        let (mean, low, high) = (row.number(), row.number(), row.number());
        let sd = (high - low) / 3.92;
        assert!((line.share - mean).abs() < 0.2 * sd, "{line:?} {mean}");
        assert!((line.low - low).abs() < 0.34 * sd, "{line:?} {low}");
        assert!((line.high - high).abs() < 0.34 * sd, "{line:?} {high}");
    });
}
