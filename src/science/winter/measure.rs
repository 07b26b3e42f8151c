//! Temperatures and depths as exact whole numbers, so that a reading at a threshold falls on the side
//! that the agency's words put it.
//!
//! 0 F is -17.777... C: no decimal of a degree Celsius says it. Both scales are kept here in 1/900 C,
//! in which a hundredth of either is whole.

/// A temperature, exact: 1/900 of a degree Celsius.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Temperature(i64);

impl Temperature {
    /// 0 F, the line of every point index here.
    pub const ZERO_F: Self = Self::from_hundredths_f(0);
    /// 0 C.
    pub const ZERO_C: Self = Self(0);

    /// From hundredths of a degree Celsius.
    pub const fn from_hundredths_c(hundredths: i64) -> Self {
        Self(hundredths * 9)
    }

    /// From hundredths of a degree Fahrenheit.
    pub const fn from_hundredths_f(hundredths: i64) -> Self {
        Self((hundredths - 3_200) * 5)
    }

    /// From a record that keeps hundredths of a degree Celsius.
    ///
    /// A thermometer in Celsius is read to the tenth at best, one in Fahrenheit likewise. A stored
    /// number that is a whole tenth of C was read as such; any other is the rounded form of a tenth
    /// of F and stands for it exactly (no two tenths of F share one, and none but an exact one falls
    /// on a tenth of C: a test counts them through). What is neither stands for itself.
    pub fn from_record(hundredths_c: i64) -> Self {
        let plain = Self::from_hundredths_c(hundredths_c);
        if hundredths_c % 10 == 0 {
            return plain;
        }
        let tenths_f = nearest(hundredths_c * 18 + 32_000, 100);
        let as_f = Self::from_hundredths_f(tenths_f * 10);
        if as_f.to_record() == hundredths_c { as_f } else { plain }
    }

    /// For a record that keeps hundredths of a degree Celsius: the nearest one, halves away from zero.
    pub const fn to_record(self) -> i64 {
        nearest(self.0, 9)
    }

    /// Degrees Celsius.
    pub fn celsius(self) -> f64 {
        self.0 as f64 / 900.0
    }

    /// Degrees Fahrenheit.
    pub fn fahrenheit(self) -> f64 {
        (self.0 + 16_000) as f64 / 500.0
    }

    /// Tenths of a degree Celsius and of a degree Fahrenheit, nearest, for printing.
    pub const fn tenths(self) -> (i64, i64) {
        (nearest(self.0, 90), nearest(self.0 + 16_000, 50))
    }

    /// How far above (positive) another, in degrees Celsius.
    pub fn above(self, other: Self) -> f64 {
        (self.0 - other.0) as f64 / 900.0
    }

    /// The middle of two; rounded to 1/900 C, far below what a thermometer tells.
    #[must_use]
    pub const fn middle(self, other: Self) -> Self {
        Self((self.0 + other.0).div_euclid(2))
    }
}

/// A depth of snow: 1/1000 of a centimetre, in which tenths of an inch and of a foot are whole. Records
/// keep the same.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Depth(i64);

impl Depth {
    /// From thousandths of a centimetre.
    pub const fn from_thousandths_cm(thousandths: i64) -> Self {
        Self(thousandths)
    }

    /// From hundredths of an inch (2.54 cm exactly), to the nearest 1/1000 cm.
    pub const fn from_hundredths_in(hundredths: i64) -> Self {
        Self(nearest(hundredths * 254, 10))
    }

    /// Centimetres.
    pub fn cm(self) -> f64 {
        self.0 as f64 / 1_000.0
    }

    /// Inches.
    pub fn inches(self) -> f64 {
        self.0 as f64 / 2_540.0
    }

    /// Tenths of a centimetre and of an inch, nearest, for printing.
    pub const fn tenths(self) -> (i64, i64) {
        (nearest(self.0, 100), nearest(self.0, 254))
    }

    /// Together with another.
    #[must_use]
    pub const fn plus(self, other: Self) -> Self {
        Self(self.0 + other.0)
    }

    /// Less another; `None` where it would be negative.
    pub const fn less(self, other: Self) -> Option<Self> {
        if self.0 >= other.0 { Some(Self(self.0 - other.0)) } else { None }
    }

    /// Thousandths of a centimetre.
    pub const fn thousandths_cm(self) -> i64 {
        self.0
    }
}

/// The whole number nearest to a quotient, halves away from zero. `over` is positive.
const fn nearest(of: i64, over: i64) -> i64 {
    let half = over / 2;
    if of < 0 { -((-of + half) / over) } else { (of + half) / over }
}

#[cfg(test)]
mod tests {
    use super::*;

    // 0 F = -17.777... C and 1 in = 2.54 cm: NIST SP 811 (2008), appendix B.8.

    #[test]
    fn tenths_of_a_degree_c_fall_on_the_side_of_zero_f_that_they_are_on() {
        assert!(Temperature::from_hundredths_c(-1_770) > Temperature::ZERO_F, "-17.7 C is 0.14 F");
        assert!(Temperature::from_hundredths_c(-1_777) > Temperature::ZERO_F);
        assert!(Temperature::from_hundredths_c(-1_778) < Temperature::ZERO_F);
        assert!(Temperature::from_hundredths_c(-1_780) < Temperature::ZERO_F, "-17.8 C is -0.04 F");
        assert_eq!(Temperature::from_hundredths_f(0), Temperature::ZERO_F);
        assert!(Temperature::from_hundredths_f(10) > Temperature::ZERO_F);
        assert!(Temperature::from_hundredths_f(-10) < Temperature::ZERO_F);
        assert_eq!(Temperature::from_hundredths_f(3_200), Temperature::ZERO_C);
    }

    #[test]
    fn a_record_in_hundredths_of_c_gives_back_every_tenth_of_f_and_of_c() {
        for tenths in -1_100..1_300 {
            let f = Temperature::from_hundredths_f(tenths * 10);
            assert_eq!(Temperature::from_record(f.to_record()), f, "{tenths} tenths of F");
            let c = Temperature::from_hundredths_c(tenths * 10);
            assert_eq!(Temperature::from_record(c.to_record()), c, "{tenths} tenths of C");
        }
        assert_eq!(Temperature::ZERO_F.to_record(), -1_778);
        assert_eq!(Temperature::from_record(-1_778), Temperature::ZERO_F, "exactly at zero, not below");
        assert!(Temperature::from_record(-1_780) < Temperature::ZERO_F);
    }

    #[test]
    fn tenths_of_an_inch_and_of_a_foot_are_whole_thousandths_of_a_cm() {
        assert_eq!(Depth::from_hundredths_in(1_800), Depth::from_thousandths_cm(45_720), "18 in are 45.72 cm");
        assert_eq!(Depth::from_hundredths_in(10), Depth::from_thousandths_cm(254));
        assert_eq!(Depth::from_hundredths_in(1_200), Depth::from_thousandths_cm(30_480), "a foot");
        assert!(Depth::from_thousandths_cm(45_700) < Depth::from_hundredths_in(1_800));
    }

    #[test]
    fn printing_is_to_the_nearest_tenth() {
        assert_eq!(Temperature::ZERO_F.tenths(), (-178, 0));
        assert_eq!(Temperature::from_hundredths_c(-1_000).tenths(), (-100, 140));
        assert_eq!(Depth::from_hundredths_in(1_500).tenths(), (381, 150));
    }
}
