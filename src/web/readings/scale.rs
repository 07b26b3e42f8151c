//! From numbers to places on a plot and to printed figures: pure, so that it is tested without a browser.

use crate::reading::message_ids::UNIT_DAYS;

/// A straight scale from `low` to `high` over a width.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Scale {
    /// Value at the left end.
    pub low: f64,
    /// Value at the right end; above `low`.
    pub high: f64,
    /// Width of the plot.
    pub width: f64,
}

impl Scale {
    /// Place of a value; what lies off the scale stands at its end.
    pub fn place(&self, value: f64) -> f64 {
        let span = self.high - self.low;
        if span <= 0.0 {
            return 0.0;
        }
        ((value - self.low) / span).clamp(0.0, 1.0) * self.width
    }

    /// Round values to write under the scale: at most `most` of them, stepping by 1, 2 or 5 times a
    /// power of ten.
    pub fn ticks(&self, most: u8) -> Vec<f64> {
        let span = self.high - self.low;
        if span <= 0.0 || most < 2 {
            return Vec::new();
        }
        let step = round_step(span / f64::from(most - 1));
        let mut all = Vec::new();
        let mut at = (self.low / step).ceil() * step;
        // Half a thousandth of a step forgives what adding up steps loses.
        while at <= self.high + step / 2000.0 {
            all.push(at);
            at += step;
        }
        all
    }
}

/// The smallest of 1, 2, 5, 10, ... that is not below `least`; `least` above zero.
fn round_step(least: f64) -> f64 {
    let mut power = 1.0;
    while power * 10.0 <= least {
        power *= 10.0;
    }
    while power > least {
        power /= 10.0;
    }
    [1.0, 2.0, 5.0, 10.0].into_iter().map(|n| n * power).find(|step| *step >= least * 0.999_999).unwrap_or(power * 10.0)
}

/// A probability as it is printed beside its bar.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum InHundred {
    /// Below 0.5 in 100: never printed as zero, because nothing is ruled out.
    LessThanOne,
    /// A whole number.
    Whole(u8),
    /// Above 99.5 in 100: never printed as sure.
    MoreThan99,
}

/// A probability from 0 to 1 in 100, rounded half up.
#[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss)] // held within 1 to 99
pub fn in_hundred(probability: f64) -> InHundred {
    let whole = (probability * 100.0 + 0.5).floor();
    if whole < 1.0 {
        InHundred::LessThanOne
    } else if whole > 99.0 {
        InHundred::MoreThan99
    } else {
        InHundred::Whole(whole as u8)
    }
}

/// A number with at most one decimal, none where it is whole.
pub fn one_decimal(value: f64) -> String {
    let text = format!("{value:.1}");
    text.strip_suffix(".0").map_or(text.clone(), str::to_owned)
}

/// An estimate's number as it is read: to a tenth, but many days whole, for they are known to some days at best and the
/// head of their reading tells whole ones.
pub fn in_figures(value: f64, unit: &str) -> String {
    if unit == UNIT_DAYS && value >= 10.0 { format!("{value:.0}") } else { one_decimal(value) }
}

/// Round ends for a scale that holds a range with some air; `low` not above `high`.
pub fn ends(low: f64, high: f64) -> (f64, f64) {
    let span = high - low;
    let step = round_step(if span > 0.0 { span / 3.0 } else { 1.0 });
    let (from, to) = ((low / step).floor() * step, (high / step).ceil() * step);
    if to - from < step { (from, from + step) } else { (from, to) }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_value_stands_where_the_rule_of_three_puts_it() {
        let scale = Scale { low: 0.0, high: 100.0, width: 200.0 };
        assert_eq!(scale.place(15.0), 30.0);
        assert_eq!(scale.place(85.0), 170.0);
        assert_eq!(scale.place(-3.0), 0.0);
        assert_eq!(scale.place(120.0), 200.0);
        assert_eq!(Scale { low: 5.0, high: 5.0, width: 10.0 }.place(5.0), 0.0);
    }

    #[test]
    fn ticks_are_round_and_few() {
        assert_eq!(Scale { low: 0.0, high: 100.0, width: 1.0 }.ticks(6), [0.0, 20.0, 40.0, 60.0, 80.0, 100.0]);
        assert_eq!(Scale { low: 6.0, high: 12.0, width: 1.0 }.ticks(4), [6.0, 8.0, 10.0, 12.0]);
        assert_eq!(Scale { low: 18.0, high: 24.0, width: 1.0 }.ticks(7), [18.0, 19.0, 20.0, 21.0, 22.0, 23.0, 24.0]);
        assert!(Scale { low: 3.0, high: 3.0, width: 1.0 }.ticks(5).is_empty());
        for span in [0.3, 0.9, 1.0, 7.0, 33.0, 250.0] {
            let ticks = Scale { low: 0.0, high: span, width: 1.0 }.ticks(6);
            assert!((2..=6).contains(&ticks.len()), "{span}: {ticks:?}");
        }
    }

    #[test]
    fn nothing_is_printed_as_sure_or_ruled_out() {
        assert_eq!(in_hundred(0.0), InHundred::LessThanOne);
        assert_eq!(in_hundred(0.004_9), InHundred::LessThanOne);
        assert_eq!(in_hundred(0.005), InHundred::Whole(1));
        assert_eq!(in_hundred(0.37), InHundred::Whole(37));
        assert_eq!(in_hundred(0.994), InHundred::Whole(99));
        assert_eq!(in_hundred(1.0), InHundred::MoreThan99);
    }

    #[test]
    fn a_scale_ends_on_round_numbers_beyond_its_range() {
        assert_eq!(ends(7.2, 9.4), (7.0, 10.0));
        assert_eq!(ends(48.0, 71.0), (40.0, 80.0));
        assert_eq!(ends(9.0, 9.0), (9.0, 10.0));
        for (low, high) in [(0.3, 0.4), (61.0, 244.0), (5.0, 5.5)] {
            let (from, to) = ends(low, high);
            assert!(from <= low && high <= to && to > from, "{low} to {high}: {from} to {to}");
        }
    }

    #[test]
    fn whole_numbers_print_without_a_decimal() {
        assert_eq!(one_decimal(15.0), "15");
        assert_eq!(one_decimal(43.25), "43.2");
        assert_eq!(one_decimal(8.75), "8.8");
    }

    /// A rule of the project's own, no outside source.
    #[test]
    fn many_days_are_whole_and_few_are_not() {
        let all = [(84.5, UNIT_DAYS), (9.5, UNIT_DAYS), (84.5, "reading.unit.kg")];
        assert_eq!(all.map(|(n, unit)| in_figures(n, unit)), ["84", "9.5", "84.5"]);
    }
}
