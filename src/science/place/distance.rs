//! Distance and bearing over the few hundred metres between a trail and a carcass.

use libm::{atan2, cos, hypot, sin, sqrt};

use super::{EQUATOR_M, FLATTENING, Point};

/// A straight way from one point to another.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Leg {
    /// Length, m.
    pub distance_m: f64,
    /// Bearing at the start, degrees clockwise from true north, 0 to 360.
    pub bearing_deg: f64,
}

/// Metres a radian of latitude and of longitude at a latitude: radii of curvature of the meridian and of the
/// parallel on WGS 84.
fn radii_m(lat_deg: f64) -> (f64, f64) {
    let e2 = FLATTENING * (2.0 - FLATTENING);
    let phi = lat_deg.to_radians();
    let w2 = 1.0 - e2 * sin(phi) * sin(phi);
    let across = EQUATOR_M / sqrt(w2);
    (across * (1.0 - e2) / w2, across * cos(phi))
}

/// How far and which way it is from one point to another. A plane laid at the middle latitude: below 20 km
/// the distance is right to 1 in 10,000 and the bearing to 0.2 degrees (checked against geographiclib); a
/// greater distance is a rough figure.
pub fn between(from: Point, to: Point) -> Leg {
    let (meridian, parallel) = radii_m(f64::midpoint(from.lat_deg, to.lat_deg));
    let turn = (to.lon_deg - from.lon_deg + 540.0).rem_euclid(360.0) - 180.0;
    let north = (to.lat_deg - from.lat_deg).to_radians() * meridian;
    let east = turn.to_radians() * parallel;
    Leg { distance_m: hypot(north, east), bearing_deg: atan2(east, north).to_degrees().rem_euclid(360.0) }
}

/// The point at a distance and true bearing from another, by the same plane. For legs below 20 km.
pub fn ahead(from: Point, leg: Leg) -> Point {
    let bearing = leg.bearing_deg.to_radians();
    let (north, east) = (leg.distance_m * cos(bearing), leg.distance_m * sin(bearing));
    // The middle latitude is not known before the end: one step brings it near enough.
    let (meridian, _) = radii_m(from.lat_deg);
    let lat_deg = from.lat_deg + (north / meridian).to_degrees();
    let (meridian, parallel) = radii_m(f64::midpoint(from.lat_deg, lat_deg));
    Point {
        lat_deg: from.lat_deg + (north / meridian).to_degrees(),
        lon_deg: from.lon_deg + (east / parallel).to_degrees(),
    }
}
