//! A number as a crew types it and reads it: in metric, or in US units where the tools of the trade are marked so.

use super::answer_words::{number, scaled, with_unit};
use crate::record::{Shape, Shown, Unit, find};
use crate::words::Language;

/// How a measured finding is typed on this phone.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Measured {
    unit: Unit,
    decimals: u8,
    /// Least that is taken, in steps of the finding's resolution.
    pub min: i64,
    /// Most that is taken, likewise.
    pub max: i64,
    system: Shown,
}

impl Measured {
    /// Of a finding, on a phone that shows `shown`; `None` where the finding is no number.
    pub fn of(finding: &str, shown: Shown) -> Option<Self> {
        match find(finding)?.shape {
            Shape::Number { unit, decimals, min, max } => {
                Some(Self { unit, decimals, min, max, system: unit.typed_in(shown) })
            }
            _ => None,
        }
    }

    /// The symbol beside what is typed; empty for counts.
    pub const fn symbol(self) -> &'static str {
        self.unit.shown(0.0, 0, self.system).symbol
    }

    /// True where what is typed is turned into metric.
    pub fn is_turned(self) -> bool {
        self.system == Shown::Us && self.unit.symbol() != self.symbol()
    }

    /// True where a point may be typed.
    pub fn has_point(self) -> bool {
        self.decimals > 0 || (self.is_turned() && self.min >= 0)
    }

    /// What is kept of what was typed, in steps of the finding's resolution; `None` where it is no number, or in metric
    /// finer than is kept.
    pub fn kept(self, typed: &str) -> Option<i64> {
        if !self.is_turned() {
            return scaled(typed, self.decimals);
        }
        // A hundredth of an inch or a pound is finer than anybody reads one in the snow.
        Some(self.unit.kept(scaled(typed, 2)? as f64 / 100.0, self.decimals, self.system))
    }

    /// A kept number with its unit, as it is typed.
    pub fn say(self, language: Language, kept: i64) -> String {
        if !self.is_turned() {
            return self.say_metric(language, kept);
        }
        let value = kept as f64 / libm::pow(10.0, f64::from(self.decimals));
        language.number(self.unit.shown(value, self.decimals, self.system).print())
    }

    /// A kept number with its unit, as it stands in the record.
    pub fn say_metric(self, language: Language, kept: i64) -> String {
        with_unit(&number(language, kept, self.decimals), self.unit.symbol())
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// 1 in = 2.54 cm and 1 lb = 0.45359237 kg by definition; -5 F is -20.6 C.
    #[test]
    fn typed_in_us_units_and_kept_in_metric() {
        let us = |finding| Measured::of(finding, Shown::Us).unwrap();
        let plain = |text: String| text.replace('\u{a0}', " ");
        let air = us("air_temperature_c");
        assert_eq!((air.symbol(), air.has_point(), air.kept("\u{2212}5")), ("\u{b0}F", false, Some(-21)));
        let depth = us("snow_depth_cm");
        assert_eq!((depth.symbol(), depth.has_point(), depth.kept("10.5")), ("in", true, Some(27)));
        assert_eq!(plain(depth.say(Language::English, 27)), "10.6 in");
        assert_eq!(plain(depth.say_metric(Language::English, 27)), "27 cm");
        assert_eq!(depth.kept("ten"), None);
        // Callipers are metric; a count has no unit to turn.
        let foot = us("hind_foot_mm");
        assert!(!foot.is_turned() && !us("crew_count").is_turned());
        assert_eq!((foot.symbol(), foot.kept("450")), ("mm", Some(450)));
        assert_eq!(Measured::of("snow_depth_cm", Shown::Metric).unwrap().kept("10.5"), None, "finer than is kept");
        assert_eq!(Measured::of("species", Shown::Us), None);
    }
}
