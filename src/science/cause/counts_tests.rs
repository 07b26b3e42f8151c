//! Cells that rest on counts, against the counts: rows 1 to 4 of the check values of the reference text on cause
//! of death, section 7. The intervals are made anew by `statrs` (Beta quantiles, prior of Jeffreys).

use statrs::distribution::{Beta, ContinuousCDF};

use super::*;

/// The 5 and 95 % ends of a share by Jeffreys' prior: Beta(k + 1/2, n - k + 1/2).
fn jeffreys_90(k: f64, n: f64) -> (f64, f64) {
    let beta = Beta::new(k + 0.5, n - k + 0.5).unwrap();
    (beta.inverse_cdf(0.05), beta.inverse_cdf(0.95))
}

fn close(got: f64, expected: f64, tolerance: f64, what: &str) {
    assert!((got - expected).abs() <= tolerance, "{what}: {got} instead of {expected}");
}

/// What was counted, of how many, the interval as the reference prints it; then row, state and cause of the cell.
type Counted = (&'static str, f64, f64, [f64; 2], u8, usize, Cause);

/// Bobcat: the Everglades study of 39 deer; old shot or arrow: 30 % of 76 among 1,002 south-eastern deer.
const COUNTED: [Counted; 5] = [
    ("bobcat, covered", 17.0, 33.0, [0.375, 0.653], 6, 0, Cause::Felid),
    ("bobcat, dragged", 12.0, 39.0, [0.199, 0.437], 7, 0, Cause::Felid),
    ("bobcat, plucked", 13.0, 39.0, [0.221, 0.464], 8, 0, Cause::Felid),
    ("bobcat, rumen not out: 29 of 35 eviscerated", 6.0, 35.0, [1.0 - 0.913, 1.0 - 0.706], 10, 2, Cause::Felid),
    ("old shot or arrow", 0.30 * 76.0, 1002.0, [0.016, 0.032], 15, 0, Cause::Coyote),
];

#[test]
fn published_cells_are_the_counts() {
    let table = Table::built_in();
    for (what, k, n, printed, row, state, cause) in COUNTED {
        let (low, high) = jeffreys_90(k, n);
        close(low, printed[0], 0.0006, what);
        close(high, printed[1], 0.0006, what);
        let cell = table.row(row, false).unwrap().states[state][cause as usize];
        assert_eq!(cell.grade, Grade::Published, "{what}");
        // Middles are whole percents; ends go by the grade, which is about as wide as these counts are.
        close(cell.p, k / n, 0.0051, what);
        close(cell.low(), low, 0.025, what);
        close(cell.high(), high, 0.025, what);
    }
}

/// Nova Scotia 1992-97: of 81 deer that coyotes ate and whose cause was known, they had killed 69. Feeding signs of
/// a coyote alone (case E7 of the reference, where there are no wolves) must come out near that.
#[test]
fn coyote_feeding_alone_is_what_was_counted() {
    let (low, high) = jeffreys_90(69.0, 81.0);
    close(69.0 / 81.0, 0.852, 0.0005, "share");
    close(low, 0.778, 0.0006, "low");
    close(high, 0.907, 0.0006, "high");
    let table = Table::built_in();
    let set = table.prior(AREAS[0]).copied().unwrap();
    let seen = Answers::NONE.with(18, 1).with(10, 0).with(11, 0);
    let figure = Cause::Coyote.of(&posterior(&table, &Case::new(prior(&set, Modifiers::default()).unwrap(), seen)));
    assert!((low..=high).contains(&figure), "{figure}");
}
