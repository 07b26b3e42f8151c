//! Checks against the reference text on cause of death (sections 4 and 7: its tables, its generator and
//! its worked cases, computed there in Python), and properties that must hold whatever the table says.

use super::case::row;
use super::combine::{combine, ln_prior};
use super::interval::Ends;
use super::label::{Facts, Label, label, printed};
use super::random::{normal, words};
use super::*;

const CELLS: &str = include_str!("../../../tests/reference/cause_table.csv");
const SHARES: &str = include_str!("../../../tests/reference/cause_priors.csv");

fn lines(text: &str) -> impl Iterator<Item = &str> {
    text.lines().filter(|l| !l.starts_with('#')).skip(1)
}

/// The worked cases: area, answers as (row, state from 0), and the top three with their ends.
type Worked = (&'static str, usize, &'static [(u8, u8)], [(Cause, f64, f64, f64); 3]);

use Cause::{Accident, Bear, Coyote, Disease, Dog, Felid, Starvation, Vehicle, Wolf};

const WORKED: [Worked; 8] = [
    (
        "E1",
        0,
        &[(1, 0), (2, 0), (18, 1), (19, 2), (12, 2)],
        [(Coyote, 0.987, 0.956, 0.995), (Dog, 0.007, 0.001, 0.024), (Felid, 0.004, 0.001, 0.018)],
    ),
    (
        "E2",
        0,
        &[(1, 2), (5, 0), (12, 0), (13, 0), (18, 1), (11, 0)],
        [(Starvation, 0.888, 0.607, 0.967), (Disease, 0.084, 0.014, 0.309), (Coyote, 0.013, 0.002, 0.077)],
    ),
    (
        "E3",
        0,
        &[(14, 0), (16, 0), (1, 1), (15, 1)],
        [(Vehicle, 0.958, 0.859, 0.981), (Accident, 0.018, 0.004, 0.076), (Coyote, 0.009, 0.001, 0.048)],
    ),
    (
        "E5",
        0,
        &[(6, 0), (8, 0), (18, 2), (19, 1), (1, 0), (9, 2)],
        [(Felid, 0.996, 0.978, 0.998), (Coyote, 0.002, 0.000, 0.017), (Starvation, 0.001, 0.000, 0.005)],
    ),
    (
        "E6",
        1,
        &[(18, 0), (9, 0), (2, 2), (3, 0)],
        [(Wolf, 0.995, 0.977, 0.998), (Dog, 0.003, 0.001, 0.014), (Coyote, 0.002, 0.000, 0.012)],
    ),
    (
        "E7",
        0,
        &[(18, 1), (10, 0), (11, 0)],
        [(Coyote, 0.847, 0.620, 0.927), (Starvation, 0.051, 0.012, 0.178), (Vehicle, 0.025, 0.006, 0.085)],
    ),
    (
        "E9",
        0,
        &[(18, 1)],
        [(Coyote, 0.663, 0.440, 0.807), (Starvation, 0.121, 0.043, 0.267), (Vehicle, 0.059, 0.019, 0.133)],
    ),
    (
        "E11",
        1,
        &[(18, 0), (12, 0), (13, 0), (24, 2)],
        [(Starvation, 0.565, 0.179, 0.853), (Wolf, 0.294, 0.053, 0.608), (Dog, 0.055, 0.008, 0.193)],
    ),
];

fn case_of(area: usize, answers: &[(u8, u8)]) -> Case {
    let mut seen = Answers::NONE;
    for (number, state) in answers {
        seen.set(*number, Some(*state));
    }
    let set = Table::built_in().prior(AREAS[area]).copied().unwrap();
    Case::new(prior(&set, Modifiers::default()).unwrap(), seen)
}

fn worked(name: &str) -> (&'static Worked, Case) {
    let one = WORKED.iter().find(|one| one.0 == name).unwrap();
    (one, case_of(one.1, one.2))
}

fn close(got: f64, expected: f64, tolerance: f64, what: &str) {
    assert!((got - expected).abs() <= tolerance, "{what}: {got} instead of {expected}");
}

#[test]
fn every_cell_is_the_reference_s() {
    let table = Table::built_in();
    let mut cells = 0;
    for line in lines(CELLS) {
        // The state's words may hold commas: cells before and after it are counted from either end.
        let all: Vec<&str> = line.split(',').collect();
        let [number, block, minutes, class, state] = all[..5] else { panic!("{line}") };
        let [cause, low, mid, high, grade] = all[all.len() - 5..] else { panic!("{line}") };
        let row = table.row(number.parse().unwrap(), false).unwrap();
        assert_eq!(
            [row.block, row.minutes, row.class].map(|n| n.to_string()),
            [block, minutes, class].map(str::to_owned),
            "{line}"
        );
        let names = ["COY", "WOLF", "FEL", "COUG", "DOG", "BEAR", "STARV", "VEH", "SHOT", "DIS", "FEED", "ACC"];
        let column = names.iter().position(|name| *name == cause).unwrap();
        let cell = row.states[state.parse::<usize>().unwrap()][column];
        let percent = |text: &str| text.parse::<f64>().unwrap();
        close(cell.p * 100.0, percent(mid), 1e-9, line);
        assert_eq!(cell.grade.letter().to_string(), grade, "{line}");
        // Ends are printed rounded, to one decimal below 1 %.
        let decimals = |text: &str| if text.contains('.') { 0.051 } else { 0.501 };
        close(cell.low() * 100.0, percent(low), decimals(low), line);
        close(cell.high() * 100.0, percent(high), decimals(high), line);
        cells += 1;
    }
    assert_eq!(cells, 972);
    assert_eq!(table.rows.iter().map(|row| row.states.len() * CAUSES).sum::<usize>(), 972);
    for (set, line) in table.priors.iter().zip(lines(SHARES)) {
        for (share, text) in set.shares.iter().zip(line.split(',').skip(1)) {
            close(*share, text.parse().unwrap(), 1e-12, line);
        }
    }
    assert_eq!(lines(SHARES).count(), table.priors.len());
}

#[test]
fn every_column_adds_to_one() {
    let table = Table::built_in();
    for row in table.rows.iter().chain([&table.head_abscess_of_bucks]) {
        for cause in 0..CAUSES {
            close(row.states.iter().map(|cells| cells[cause].p).sum(), 1.0, 1e-12, &row.number.to_string());
        }
    }
}

/// Reference text, section 7, row 44.
#[test]
fn the_generator_is_the_reference_s() {
    for ((d, r, s, c), a, b, z) in [
        ((0, 0, 0, 0), 0x478f_ee7c_0dc6_62f0, 0x192f_8a7d_295d_427a, 1.301_175),
        ((0, 0, 0, 1), 0x66eb_dc37_252c_e0ec, 0x67fc_b8f7_e92f_9ead, -1.122_225),
        ((1, 18, 1, 0), 0x0fe7_14fa_b884_2379, 0x52ac_857c_0993_979e, -1.043_032),
        ((2999, 25, 1, 11), 0x3185_8fe5_de53_a9cd, 0x4922_a12b_9fb8_9912, -0.403_013),
    ] {
        assert_eq!(words(d, r, s, c), (a, b));
        close(f64::from(normal(d, r, s, c)), z, 5e-7, "normal");
    }
}

#[test]
fn worked_cases_have_the_reference_s_figures_and_ends() {
    for (name, area, answers, expected) in &WORKED {
        let case = case_of(*area, answers);
        let posterior = posterior(Drawn::built_in().table(), &case);
        let causes = expected.map(|(cause, ..)| cause);
        assert_eq!(ranked(&posterior)[..3], causes, "{name}");
        let ends = ends(Drawn::built_in(), &case, &causes);
        for ((cause, figure, low, high), ends) in expected.iter().zip(ends) {
            let what = format!("{name} {}", cause.code());
            close(cause.of(&posterior), *figure, 0.001, &what);
            close(ends.low, *low, 0.001, &what);
            close(ends.high, *high, 0.001, &what);
        }
    }
}

/// The whole model once more in NumPy and SciPy, over the same cells (`tests/reference/make_cause_draws.py`).
#[test]
fn figures_and_ends_are_numpy_s() {
    let areas = ["A", "B", "C"];
    let mut rows = 0;
    for line in lines(include_str!("../../../tests/reference/cause_draws.csv")) {
        let [name, area, answers, cause, ..] = line.split(',').collect::<Vec<_>>()[..] else { panic!("{line}") };
        if cause != "COY" {
            continue;
        }
        let answers: Vec<(u8, u8)> = answers
            .split(' ')
            .map(|pair| pair.split_once(':').unwrap())
            .map(|(row, state)| (row.parse().unwrap(), state.parse().unwrap()))
            .collect();
        let case = case_of(areas.iter().position(|a| *a == area).unwrap(), &answers);
        let all = ends(Drawn::built_in(), &case, &Cause::ALL);
        let figures = posterior(Drawn::built_in().table(), &case);
        let of_case = lines(include_str!("../../../tests/reference/cause_draws.csv"))
            .filter(|l| l.split(',').next() == Some(name));
        for ((figure_got, ends), line) in figures.iter().zip(all).zip(of_case) {
            let expected: Vec<f64> = line.split(',').skip(4).map(|cell| cell.parse().unwrap()).collect();
            for (n, (got, expected)) in [*figure_got, ends.low, ends.high].iter().zip(expected).enumerate() {
                // The middle in double, the drawn ends in single precision.
                let tolerance = if n == 0 { 1e-9 } else { 1e-6 };
                close(*got, expected, tolerance, line);
            }
            rows += 1;
        }
    }
    assert_eq!(rows, 7 * CAUSES);
}

/// Reference text, section 7, row 45.
#[test]
fn single_draws_are_the_reference_s() {
    for (name, first, last) in [
        ("E9", [(Coyote, 0.6793), (Starvation, 0.1288)], [(Coyote, 0.8053), (Starvation, 0.0446)]),
        ("E11", [(Wolf, 0.1008), (Starvation, 0.7644)], [(Wolf, 0.3012), (Starvation, 0.4489)]),
    ] {
        let mut all = Vec::new();
        each_draw(Drawn::built_in(), &worked(name).1, |posterior| all.push(*posterior));
        assert_eq!(all.len(), DRAWS);
        for (draw, expected) in [(all[0], first), (all[DRAWS - 1], last)] {
            for (cause, figure) in expected {
                close(cause.of(&draw), figure, 0.00006, name);
            }
        }
    }
    let mut p = Vec::new();
    Drawn::built_in().each(&worked("E9").1, |_, said| p.push(libm::exp(said[0].ln_p[0])));
    close(p[0], 0.5726, 0.00006, "drawn cell");
    close(p[DRAWS - 1], 0.8352, 0.00006, "drawn cell");
}

fn bits(case: &Case) -> Vec<(u8, f64)> {
    gains(Drawn::built_in().table(), case).into_iter().map(|g| (g.number, g.bits)).collect()
}

/// Reference text, section 7, rows 33 and 35.
#[test]
fn gains_are_the_reference_s() {
    let nothing = case_of(0, &[]);
    close(entropy_bits(&posterior(Drawn::built_in().table(), &nothing)), 2.509, 0.0005, "entropy");
    let starts = |case: &Case, expected: &[(u8, f64)]| {
        for ((number, got), (row, bits)) in bits(case).into_iter().zip(expected) {
            assert_eq!(number, *row);
            close(got, *bits, 0.0005, "gain");
        }
    };
    starts(&nothing, &[(2, 0.623), (1, 0.536), (3, 0.363), (18, 0.345), (23, 0.345), (19, 0.336)]);
    starts(&worked("E7").1, &[(2, 0.271), (1, 0.224), (19, 0.189), (4, 0.119), (14, 0.094)]);
}

/// Reference text, section 7, row 50: where the difference falls below 0, the gain is 0.
#[test]
fn no_gain_is_below_zero() {
    let table = Table::built_in();
    for (area, expected) in [29, 34, 39].into_iter().enumerate() {
        let (mut figures, mut floored) = (0, 0);
        let mut look = |case: &Case, forced: u32| {
            for gain in super::gain::gains_forced(&table, case, forced) {
                assert!(gain.bits >= 0.0, "{gain:?}");
                figures += 1;
                floored += usize::from(gain.bits == 0.0);
            }
        };
        look(&case_of(area, &[]), 0);
        for number in 1..=25 {
            look(&case_of(area, &[(number, 0)]), 1 << number);
        }
        assert_eq!(figures, 625, "25 with nothing answered, 24 with each row");
        assert_eq!(floored, expected);
    }
}

/// Reference text, section 7, row 47: the guard of a cause that is not on the list.
#[test]
fn a_poor_fit_is_said() {
    let table = Table::built_in();
    let odd = fit(&table, &case_of(0, &[(14, 0), (17, 1), (20, 0), (21, 0)]));
    close(odd.g, -10.12, 0.005, "G");
    close(odd.limit, -6.4, 1e-9, "limit");
    assert!(odd.is_poor());
    for (name, ..) in &WORKED {
        assert!(!fit(&table, &worked(name).1).is_poor(), "{name}");
    }
    assert!(!fit(&table, &case_of(0, &[])).is_poor());
}

/// Reference text, section 7, row 48: a row that says the same of every cause changes nothing.
#[test]
fn an_equal_row_changes_nothing() {
    for (p, block) in [0.5, 0.9].into_iter().flat_map(|p| (1..=7).map(move |block| (p, block))) {
        for spread in [0.0, 1.1] {
            let cell = |p| Cell { p, down: spread, up: spread, grade: Grade::Expert };
            let mut table = Table::built_in();
            table.rows.push(Row::new(31, block, 1, 0, vec![[cell(p); CAUSES], [cell(1.0 - p); CAUSES]]));
            for (_, area, answers, _) in &WORKED {
                let case = case_of(*area, answers);
                let before = posterior(&table, &case);
                for state in [0, 1] {
                    let after = posterior(&table, &Case { answers: case.answers.with(31, state), ..case });
                    for (a, b) in before.iter().zip(&after) {
                        close(*a, *b, 1e-12, "equal row");
                    }
                }
                let worth = bits_of(&table, &case, 31);
                assert!(worth < 1e-12, "{worth}");
            }
        }
    }
    // Its cells agree in a draw only where they have no spread.
    let cell = Cell { p: 0.5, down: 0.0, up: 0.0, grade: Grade::Expert };
    let mut table = Table::built_in();
    table.rows.push(Row::new(31, 4, 1, 0, vec![[cell; CAUSES], [cell; CAUSES]]));
    let drawn = Drawn::new(table);
    let case = worked("E9").1;
    let with = Case { answers: case.answers.with(31, 1), ..case };
    for (a, b) in ends(&drawn, &case, &Cause::ALL).iter().zip(ends(&drawn, &with, &Cause::ALL)) {
        close(a.low, b.low, 1e-12, "low end");
        close(a.high, b.high, 1e-12, "high end");
    }
}

fn bits_of(table: &Table, case: &Case, number: u8) -> f64 {
    gains(table, case).into_iter().find(|g| g.number == number).unwrap().bits
}

/// Reference text, section 7, row 49: neither the order of answering nor of the cases moves a bit.
#[test]
fn the_order_of_answering_moves_no_bit() {
    let whole = |order: &[(u8, u8)], area: usize, drawn: &Drawn| {
        let case = case_of(area, order);
        let figures = posterior(drawn.table(), &case);
        let ends = ends(drawn, &case, &ranked(&figures)[..3]);
        let mut bits: Vec<u64> = figures.iter().map(|p| p.to_bits()).collect();
        bits.extend(ends.iter().flat_map(|e| [e.low.to_bits(), e.high.to_bits()]));
        bits.extend(gains(drawn.table(), &case).iter().map(|g| g.bits.to_bits()));
        bits.push(fit(drawn.table(), &case).g.to_bits());
        bits
    };
    let first: Vec<_> = WORKED.iter().map(|(_, area, answers, _)| whole(answers, *area, Drawn::built_in())).collect();
    // Drawn anew, cases backwards, answers turned round and shifted.
    let anew = Drawn::new(Table::built_in());
    for turn in 0..3 {
        for ((_, area, answers, _), expected) in WORKED.iter().zip(&first).rev() {
            let mut order = answers.to_vec();
            let by = turn % order.len();
            order.rotate_left(by);
            if turn % 2 == 0 {
                order.reverse();
            }
            assert_eq!(whole(&order, *area, &anew), *expected);
        }
    }
}

/// Reference text, section 7, row 46, and the rules of 4.2 that leave rows out.
#[test]
fn rows_that_do_not_count_change_nothing() {
    let table = Table::built_in();
    let e9 = worked("E9").1;
    let expected = posterior(&table, &e9);
    // A spacing without a clot; a state that the row does not have.
    for answers in [e9.answers.with(19, 2), e9.answers.with(12, 9)] {
        assert_eq!(posterior(&table, &Case { answers, ..e9 }), expected);
    }
    let after_death = Case { snow_after_death: true, ..e9 };
    assert_eq!(posterior(&table, &after_death), posterior(&table, &case_of(0, &[])));
    let aged = Case { answers: e9.answers.with(24, 0), age_in_prior: true, ..e9 };
    assert_eq!(posterior(&table, &aged), expected);
}

#[test]
fn a_block_counts_by_the_effective_number_of_its_rows() {
    // Four equal rows in one block weigh 4 / (1 + 0.3 * 3) of one, whatever the others are (formula of 4.3).
    let said_p = |p: f64| {
        let mut ln_p = [libm::log(0.5); CAUSES];
        ln_p[0] = libm::log(p);
        ln_p
    };
    let ln_p = said_p(0.25);
    let case = case_of(0, &[]);
    let odds = |n: usize, block: fn(usize) -> u8| {
        let strength = super::combine::strength(&ln_p, &case.closed());
        let said: Vec<_> = (0..n).map(|i| super::combine::Said { block: block(i), strength, ln_p: &ln_p }).collect();
        let after = combine(&ln_prior(&case), &said);
        libm::log(after[0] / after[6]) - libm::log(case.prior[0] / case.prior[6])
    };
    let one = odds(1, |_| 1);
    close(one, -core::f64::consts::LN_2, 1e-12, "one row");
    close(odds(4, |_| 1), one * 4.0 / 1.9, 1e-12, "four in a block");
    close(odds(4, |i| [1, 2, 3, 4][i]), one * 4.0, 1e-12, "four blocks");
}

#[test]
fn posteriors_add_to_one_and_closed_causes_stay_closed() {
    let table = Table::built_in();
    for area in 0..3 {
        for number in 1..=25 {
            for (state, _) in (0_u8..).zip(&table.row(number, false).unwrap().states) {
                let case = case_of(area, &[(1, 0), (number, state), (14, 1)]);
                let all = posterior(&table, &case);
                close(all.iter().sum(), 1.0, 1e-12, "sum");
                for (p, share) in all.iter().zip(case.prior) {
                    assert_eq!(*p > 0.0, share > 0.0);
                }
            }
        }
    }
}

#[test]
fn modifiers_multiply_and_zero_stays_zero() {
    let table = Table::built_in();
    let set = table.prior(AREAS[0]).unwrap();
    let severe = prior(set, Modifiers { winter: Winter::Severe, ..Modifiers::default() }).unwrap();
    let usual = prior(set, Modifiers::default()).unwrap();
    // Figures of 4.1: starvation 2.5, coyote 1.5, the rest as it was.
    close(severe[6] / severe[7] / (usual[6] / usual[7]), 2.5, 1e-12, "starvation");
    close(severe[0] / severe[7] / (usual[0] / usual[7]), 1.5, 1e-12, "coyote");
    assert_eq!((severe[1], severe[3]), (0.0, 0.0));
    let cougar = prior(set, Modifiers { cougar: true, ..Modifiers::default() }).unwrap();
    close(cougar[3], 0.02, 1e-12, "cougar");
    close(cougar[0], 0.45 * 0.98, 1e-12, "the others in proportion");
    let many = Modifiers {
        bears_denned: true,
        feed_site: Some(true),
        after_season: true,
        found_from_road: true,
        age: Some(AgeModifier::Fawn),
        ..Modifiers::default()
    };
    let moved = prior(set, many).unwrap();
    assert_eq!(moved[5], 0.0);
    for (cause, by) in [(6, 2.0), (7, 1.5), (8, 2.0), (10, 3.0), (9, 1.0)] {
        close(moved[cause] / moved[11] / (usual[cause] / usual[11]), by, 1e-12, "modifier");
    }
    assert_eq!(prior(&[0.0; CAUSES], Modifiers::default()), None);
}

#[test]
fn the_buck_s_row_moves_disease_only() {
    let table = Table::built_in();
    let case = case_of(0, &[(21, 0)]);
    let buck = Case { buck: true, ..case };
    let odds = |case: &Case| {
        let p = posterior(&table, case);
        p[9] / p[6]
    };
    close(odds(&buck) / odds(&case), 20.0 / 6.0, 1e-9, "20 % in place of 6 %");
}

fn word(name: &str, facts: Facts) -> Label {
    let case = worked(name).1;
    word_of(&case, facts)
}

fn word_of(case: &Case, facts: Facts) -> Label {
    let drawn = Drawn::built_in();
    let figures = posterior(drawn.table(), case);
    let ends: Vec<Ends> = ends(drawn, case, &ranked(&figures)[..2]);
    label(drawn.table(), case, &figures, ends[0], ends[1], facts)
}

/// Reference text, the paragraph on labels below the worked cases, and rows 40 to 42 of section 7.
#[test]
fn words_follow_the_rules() {
    let readable = Facts { snow_readable: true, ..Facts::default() };
    assert_eq!(word("E1", readable), Label::Killed(Coyote));
    assert_eq!(word("E1", Facts::default()), Label::ProbablyKilled(Coyote));
    assert_eq!(word("E2", readable), Label::ProbablyDied(Starvation));
    assert_eq!(word("E3", readable), Label::ProbablyDied(Vehicle));
    assert_eq!(word("E5", readable), Label::ProbablyKilled(Felid));
    assert_eq!(word("E6", readable), Label::PossiblyKilled(Wolf));
    assert_eq!(word("E7", readable), Label::PossiblyKilled(Coyote));
    assert_eq!(word("E9", readable), Label::PossiblyKilled(Coyote));
    assert_eq!(word("E11", readable), Label::NotDetermined);
    // Row 41: chase seen whole, blood trail, no skinning.
    assert_eq!(word_of(&case_of(1, &[(3, 0), (4, 0), (18, 0)]), readable), Label::ProbablyKilled(Wolf));
    // Row 40: fed on by wolves, nothing else seen.
    assert_eq!(word_of(&case_of(1, &[(18, 0), (11, 0), (9, 0)]), readable), Label::PossiblyKilled(Wolf));
    // A lethal finding that is no predator's, no clot after skinning, tracks and feeding of coyotes.
    let struck = case_of(0, &[(1, 2), (14, 0), (18, 1), (10, 0), (11, 1), (9, 1), (5, 2), (8, 1), (16, 2)]);
    assert!(matches!(word_of(&struck, readable), Label::ScavengedOnly | Label::NotDetermined));
    // An arrow part: no word, a stop. Without it the figures lean to people all the same, and that stops nothing.
    assert_eq!(word_of(&case_of(2, &[(15, 0), (4, 0)]), readable), Label::People);
    let leaning = case_of(2, &[(18, 5), (4, 0), (3, 1)]);
    assert_eq!(word_of(&leaning, readable), Label::PeopleLikely);
}

/// Feeding never says more than `possibly`: every set of answers without rows 1 to 4.
#[test]
fn feeding_alone_never_says_killed() {
    let readable = Facts { snow_readable: true, ..Facts::default() };
    for first in [6_u8, 7, 8, 9, 10, 11] {
        for second in [5_u8, 12, 18, 19, 23, 25] {
            let word = word_of(&case_of(1, &[(first, 0), (second, 0)]), readable);
            assert!(!matches!(word, Label::Killed(_) | Label::ProbablyKilled(_)), "{first} {second}: {word:?}");
        }
    }
}

#[test]
fn no_animal_is_printed_beyond_nine_in_ten() {
    let table = Table::built_in();
    // Last line of the paragraph on labels: what is cut off, E1, E5 and E6.
    for (name, cut) in [("E1", 0.087), ("E5", 0.096), ("E6", 0.095)] {
        let all = printed(&posterior(&table, &worked(name).1), Animals::default());
        close(all.species_uncertain.unwrap(), cut, 0.001, name);
        assert!(all.figures[..6].iter().all(|p| *p <= 0.9));
    }
    let e1 = posterior(&table, &worked("E1").1);
    // Rule 3 of the head: DNA, a photo or a collar record lifts it, for the animal that it names.
    assert_eq!(printed(&e1, Animals::only(Coyote)).figures, e1);
    assert_eq!(printed(&e1, Animals::only(Wolf)), printed(&e1, Animals::default()));
    assert_eq!(printed(&posterior(&table, &worked("E3").1), Animals::default()).species_uncertain, None);
}

/// Rule 2 of the head: a witnessed attack raises `fed on` to `killed`, of the animal that was seen. A record
/// that names another animal than the signs leaves no word (ours).
#[test]
fn records_of_the_kill_follow_the_rules() {
    let readable = Facts { snow_readable: true, ..Facts::default() };
    let [coyote, wolf] = [Coyote, Wolf].map(Animals::only);
    let seen = |animal| Facts { witnessed: animal, named: animal, ..readable };
    assert_eq!(word("E9", seen(coyote)), Label::ProbablyKilled(Coyote));
    assert_eq!(word("E9", Facts { named: coyote, ..readable }), Label::PossiblyKilled(Coyote));
    assert_eq!(word("E9", seen(wolf)), Label::NotDetermined);
    assert_eq!(word("E1", Facts { named: coyote, ..readable }), Label::Killed(Coyote));
    let mut both = coyote;
    both.add(Wolf);
    for named in [wolf, both] {
        assert_eq!(word("E1", Facts { named, ..readable }), Label::NotDetermined);
    }
    assert_eq!(word("E2", Facts { named: wolf, ..readable }), Label::NotDetermined);
}

#[test]
fn pulls_are_weight_times_log_odds() {
    let table = Table::built_in();
    // E9 has one row: 83 to 38 % for tracks of a medium canid.
    let [pull] = pulls(&table, &worked("E9").1, Coyote, Starvation)[..] else { panic!() };
    close(pull.ln_odds, libm::log(83.0 / 38.0), 1e-12, "pull");
    let all = pulls(&table, &worked("E1").1, Coyote, Dog);
    assert!(all.windows(2).all(|w| w[0].ln_odds.abs() >= w[1].ln_odds.abs()));
    let e1 = posterior(&table, &worked("E1").1);
    let bear = pulls_for(&table, &worked("E1").1, &e1, Bear);
    assert_eq!(bear.len(), 5);
    assert!(bear.iter().find(|p| p.number == row::TRACKS).unwrap().ln_odds < 0.0);
}

#[test]
fn parts_drawn_between_taps_give_the_same_bits() {
    let case = worked("E11").1;
    let drawn = Drawn::new(Table::built_in());
    let mut parts = 0;
    while !drawn.prepare_a_part(&case) {
        parts += 1;
    }
    assert_eq!(parts, (4 + 1) * 24, "four rows and the prior");
    assert_eq!(ends(&drawn, &case, &Cause::ALL), ends(Drawn::built_in(), &case, &Cause::ALL));
}
