//! One lower cheek tooth seen from the tongue side: the outline of its crown and what the gum shows.

use super::canvas::{Canvas, Ink, Point};
use crate::record::Tooth;

/// How far a crest is worn, as an outline.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Crest {
    /// Pointed.
    Sharp,
    /// The very tips are off.
    SlightlyBlunt,
    /// Flat on top, sides still steep.
    Blunt,
    /// Low humps.
    Rounded,
    /// No ridge left.
    Gone,
}

impl Crest {
    /// The form that a record's code stands for.
    pub fn from_code(code: &str) -> Option<Self> {
        Some(match code {
            "sharp" => Self::Sharp,
            "slightly_blunt" => Self::SlightlyBlunt,
            "blunt" => Self::Blunt,
            "rounded" => Self::Rounded,
            "gone" => Self::Gone,
            _ => return None,
        })
    }

    /// Height of the outline at `t` (0 to 1 across one cusp), as a share of the unworn crown.
    fn height(self, t: f64) -> f64 {
        let from_peak = (2.0 * t - 1.0).abs();
        let unworn = 1.0 - 0.46 * from_peak;
        match self {
            Self::Sharp => unworn,
            Self::SlightlyBlunt => unworn.min(0.93 - 0.06 * from_peak * from_peak),
            Self::Blunt => unworn.min(0.76 - 0.05 * from_peak * from_peak) - 0.02,
            Self::Rounded => 0.58 - 0.14 * from_peak * from_peak,
            Self::Gone => 0.34,
        }
    }
}

/// A crown to be drawn.
#[derive(Clone, Copy, Debug)]
pub struct Crown {
    /// Left edge at the gum.
    pub left: f64,
    /// Width at the widest.
    pub width: f64,
    /// Where the gum or the bone's edge runs.
    pub gum: f64,
    /// Height of the unworn crown above the gum.
    pub height: f64,
    /// Cusps, each with its share of the width, left to right.
    pub cusps: &'static [f64],
    /// Wear.
    pub crest: Crest,
}

/// Shares of the width that the cusps take, front to back, as seen from the tongue side. Permanent
/// teeth: P4 two cusps, M1 and M2 two, M3 three of which the last is small; the milk tooth in the place
/// of P4 three (age keys of the agencies). P2 and P3: from memory.
pub const fn cusps(tooth: Tooth, milk: bool) -> &'static [f64] {
    match (tooth, milk) {
        (Tooth::P4, true) => &[0.3, 0.35, 0.35],
        (Tooth::M3, _) => &[0.39, 0.37, 0.24],
        (Tooth::P3 | Tooth::P4, _) => &[0.55, 0.45],
        (Tooth::M1 | Tooth::M2, _) => &[0.5, 0.5],
        _ => &[1.0],
    }
}

impl Crown {
    /// The outline, from the gum on the left over the crest to the gum on the right.
    pub fn outline(&self) -> Vec<Point> {
        const STEPS: u8 = 12;
        let at = |x: f64, share: f64| (self.left + x * self.width, self.gum - share * self.height);
        let mut points = vec![at(0.06, 0.0), at(0.0, 0.3)];
        let mut start = 0.0;
        for (n, share) in self.cusps.iter().enumerate() {
            // A cusp that takes less of the tooth is lower, too.
            let tall = if *share < 0.26 { 0.82 } else { 1.0 };
            for step in u8::from(n > 0)..=STEPS {
                let t = f64::from(step) / f64::from(STEPS);
                points.push(at(start + t * share, (self.crest.height(t) * tall).max(0.3)));
            }
            start += share;
        }
        if self.crest == Crest::Gone {
            dish(&mut points, self.height);
        }
        points.extend([at(1.0, 0.3), at(0.94, 0.0)]);
        points
    }

    /// Draws the crown white, with the worn face dark where dentine shows.
    pub fn draw(&self, sheet: &mut Canvas, dentine: bool) {
        sheet.area(Ink::Enamel, &self.outline());
        if dentine {
            for face in self.worn_faces() {
                sheet.area(Ink::Dentine, &face);
            }
        }
    }

    /// The dark faces on top of each worn cusp, a little inside the outline.
    fn worn_faces(&self) -> Vec<Vec<Point>> {
        let outline = self.outline();
        // Worn out, the faces have run together into one.
        let faces = if self.crest == Crest::Gone { &[1.0][..] } else { self.cusps };
        let mut start = 0.0;
        faces
            .iter()
            .map(|share| {
                let (from, to) =
                    (self.left + (start + share * 0.16) * self.width, self.left + (start + share * 0.84) * self.width);
                start += share;
                let mut face: Vec<Point> = outline
                    .iter()
                    .copied()
                    .filter(|p| p.0 >= from && p.0 <= to && p.1 < self.gum - 0.05 * self.height)
                    .collect();
                let below: Vec<Point> = face.iter().rev().map(|p| (p.0, p.1 + self.height * 0.1)).collect();
                face.extend(below);
                face
            })
            .collect()
    }
}

/// A worn-out face is dished: lowest in the middle.
fn dish(points: &mut [Point], height: f64) {
    let count = points.len().max(2) as f64 - 1.0;
    for (n, point) in points.iter_mut().enumerate().skip(2) {
        let from_middle = (2.0 * n as f64 / count - 1.0).abs();
        point.1 += height * 0.08 * (1.0 - from_middle * from_middle);
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    const TOOTH: Crown =
        Crown { left: 0.0, width: 100.0, gum: 100.0, height: 100.0, cusps: &[0.5, 0.5], crest: Crest::Sharp };

    fn top(crest: Crest) -> f64 {
        Crown { crest, ..TOOTH }.outline().iter().map(|p| p.1).fold(f64::INFINITY, f64::min)
    }

    #[test]
    fn a_crown_only_loses_height_with_wear() {
        let all = [Crest::Sharp, Crest::SlightlyBlunt, Crest::Blunt, Crest::Rounded, Crest::Gone].map(top);
        assert!(all.is_sorted_by(|a, b| a < b), "{all:?}");
    }

    #[test]
    fn the_third_tooth_has_three_cusps_in_milk_and_two_after() {
        // Indiana and New York agency keys: milk P4 three cusps, permanent P4 two; M3 three, the last small.
        assert_eq!(cusps(Tooth::P4, true).len(), 3);
        assert_eq!(cusps(Tooth::P4, false).len(), 2);
        let m3 = cusps(Tooth::M3, false);
        assert_eq!(m3.len(), 3);
        assert!(m3[2] < m3[0] && m3[2] < m3[1]);
    }

    #[test]
    fn cusps_share_out_the_whole_width() {
        for tooth in Tooth::CHEEK {
            for milk in [false, true] {
                let sum: f64 = cusps(tooth, milk).iter().sum();
                assert!((sum - 1.0).abs() < 1e-9, "{tooth:?}");
            }
        }
    }
}
