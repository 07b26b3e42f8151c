//! A scene laid out from bearings and distances, each from the body or from an earlier mark.

use libm::{atan2, cos, hypot, sin};

use super::{Leg, Point, ahead};

/// A mark as it was told: how it was come to.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Told {
    /// Number of the mark that it was told from; 0 is the body.
    pub from: u16,
    /// Its own number, from 1.
    pub number: u16,
    /// Distance and bearing from there.
    pub leg: Leg,
}

/// A place on the ground of the scene, metres from the body.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Spot {
    /// Towards east.
    pub east_m: f64,
    /// Towards north: the north that the bearings were taken from.
    pub north_m: f64,
}

impl Spot {
    /// Distance and bearing from the body.
    pub fn leg(self) -> Leg {
        let bearing_deg = atan2(self.east_m, self.north_m).to_degrees().rem_euclid(360.0);
        Leg { distance_m: hypot(self.east_m, self.north_m), bearing_deg }
    }

    /// This far and this way from here.
    fn on(self, leg: Leg) -> Self {
        let bearing = leg.bearing_deg.to_radians();
        Self {
            east_m: self.east_m + leg.distance_m * sin(bearing),
            north_m: self.north_m + leg.distance_m * cos(bearing),
        }
    }

    /// Where it lies on the globe, where the body lies at `body` and the bearings have to be turned by
    /// `declination_deg` (east positive) to count from true north.
    pub fn on_the_globe(self, body: Point, declination_deg: f64) -> Point {
        let Leg { distance_m, bearing_deg } = self.leg();
        ahead(body, Leg { distance_m, bearing_deg: (bearing_deg + declination_deg).rem_euclid(360.0) })
    }
}

/// Both ends of each mark's leg, in the order given. `None` for a mark told from one that is not there or that comes
/// after it: nothing is guessed.
pub fn laid(marks: &[Told]) -> Vec<Option<(Spot, Spot)>> {
    let mut known: Vec<(u16, Spot)> = vec![(0, Spot::default())];
    let mut out = Vec::with_capacity(marks.len());
    for mark in marks {
        let from = known.iter().rev().find(|(number, _)| *number == mark.from).map(|(_, spot)| *spot);
        let ends = from.map(|from| (from, from.on(mark.leg)));
        if let Some((_, spot)) = ends {
            known.push((mark.number, spot));
        }
        out.push(ends);
    }
    out
}

/// A round length for a scale bar: 1, 2 or 5 times a power of ten metres, at most `most_m`. At least 0.1 m.
pub fn bar_m(most_m: f64) -> f64 {
    let mut best = 0.1;
    for step in [0.2, 0.5, 1.0, 2.0, 5.0, 10.0, 20.0, 50.0, 100.0, 200.0, 500.0, 1_000.0, 2_000.0] {
        if step <= most_m {
            best = step;
        }
    }
    best
}

#[cfg(test)]
mod tests {
    use super::*;

    fn told(number: u16, from: u16, bearing_deg: f64, distance_m: f64) -> Told {
        Told { from, number, leg: Leg { distance_m, bearing_deg } }
    }

    #[test]
    fn a_square_closes_and_legs_add_up() {
        // Geometry of a square: no source needed.
        let marks = [told(1, 0, 0.0, 10.0), told(2, 1, 90.0, 10.0), told(3, 2, 180.0, 10.0), told(4, 3, 270.0, 10.0)];
        let laid = laid(&marks);
        let (_, corner) = laid[1].unwrap();
        assert!((corner.east_m - 10.0).abs() < 1e-9 && (corner.north_m - 10.0).abs() < 1e-9);
        assert!((corner.leg().bearing_deg - 45.0).abs() < 1e-9);
        assert!((corner.leg().distance_m - 200.0_f64.sqrt()).abs() < 1e-9);
        assert!(laid[3].unwrap().1.leg().distance_m < 1e-9);
    }

    #[test]
    fn a_mark_told_from_nowhere_is_left_out() {
        let marks = [told(1, 7, 0.0, 10.0), told(2, 3, 0.0, 1.0), told(3, 0, 90.0, 5.0), told(4, 3, 90.0, 5.0)];
        let laid = laid(&marks);
        assert_eq!((laid[0], laid[1]), (None, None));
        assert!((laid[3].unwrap().1.east_m - 10.0).abs() < 1e-9);
    }

    #[test]
    fn a_chain_of_legs_agrees_with_geographiclib() {
        // tests/reference/scene.csv, made by tests/reference/make_scene.py with geographiclib 2.1 (Karney's geodesic
        // on WGS 84, leg after leg) and numpy.
        let mut chains = 0;
        for line in include_str!("../../../tests/reference/scene.csv").lines().filter(|l| !l.starts_with('#')) {
            let all: Vec<f64> = line.split(',').map(|word| word.parse().unwrap()).collect();
            let (head, rest) = all.split_at(4);
            let (legs, end) = rest.split_at(rest.len() - 4);
            let (body, declination_deg) = (Point { lat_deg: head[0], lon_deg: head[1] }, head[2]);
            let marks: Vec<Told> = (1..).zip(legs.chunks(2)).map(|(n, leg)| told(n, n - 1, leg[0], leg[1])).collect();
            let (lat, lon, east, north) = (end[0], end[1], end[2], end[3]);
            let (_, end) = laid(&marks).last().unwrap().unwrap();
            assert!((end.east_m - east).abs() < 1e-6 && (end.north_m - north).abs() < 1e-6, "{line}");
            let there = end.on_the_globe(body, declination_deg);
            // 2 cm on the ground: far below a pace.
            let off_m = crate::science::place::between(there, Point { lat_deg: lat, lon_deg: lon }).distance_m;
            assert!(off_m < 0.02, "{off_m} m off: {line}");
            chains += 1;
        }
        assert_eq!(chains, 40);
    }

    #[test]
    fn the_bar_is_round_and_never_longer_than_asked() {
        for (most, bar) in [(0.05, 0.1), (0.7, 0.5), (1.0, 1.0), (49.0, 20.0), (260.0, 200.0), (9_000.0, 2_000.0)] {
            assert!((bar_m(most) - bar).abs() < 1e-12);
        }
    }
}
