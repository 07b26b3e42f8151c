//! Universal transverse Mercator: Krueger's series to the fourth order of the third flattening, which is
//! better than a millimetre anywhere in a zone (checked against pyproj).

use libm::{asinh, atan, atan2, atanh, cos, cosh, floor, sin, sinh, sqrt, tan};

use super::{EQUATOR_M, FLATTENING, Point};

/// Scale on the central meridian.
const SCALE: f64 = 0.9996;
/// Metres added to eastings.
const EAST_OF_MERIDIAN_M: f64 = 500_000.0;
/// Metres added to northings south of the equator.
const SOUTH_M: f64 = 10_000_000.0;
/// Third flattening.
const N: f64 = FLATTENING / (2.0 - FLATTENING);

/// A grid coordinate of one zone.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Utm {
    /// Zone, 1 to 60.
    pub zone: u8,
    /// North of the equator.
    pub north: bool,
    /// Easting, m.
    pub east_m: f64,
    /// Northing, m.
    pub north_m: f64,
}

/// The zone of a point, with the two exceptions of Norway and Spitsbergen; `None` within six to ten degrees
/// of the poles, where the grid is another.
pub(super) fn zone_of(at: Point) -> Option<u8> {
    if !(-80.0..84.0).contains(&at.lat_deg) || !(-180.0..=180.0).contains(&at.lon_deg) {
        return None;
    }
    if (56.0..64.0).contains(&at.lat_deg) && (3.0..12.0).contains(&at.lon_deg) {
        return Some(32);
    }
    if at.lat_deg >= 72.0 && (0.0..42.0).contains(&at.lon_deg) {
        return Some(match at.lon_deg {
            l if l < 9.0 => 31,
            l if l < 21.0 => 33,
            l if l < 33.0 => 35,
            _ => 37,
        });
    }
    #[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss)]
    let zone = floor((at.lon_deg + 180.0) / 6.0) as u8 + 1;
    Some(zone.min(60))
}

fn meridian_deg(zone: u8) -> f64 {
    f64::from(zone) * 6.0 - 183.0
}

/// Radius of the sphere whose meridian is as long as the ellipsoid's.
fn rectifying_m() -> f64 {
    EQUATOR_M / (1.0 + N) * (1.0 + N * N / 4.0 + N * N * N * N / 64.0)
}

fn forward_terms() -> [f64; 4] {
    let (n2, n3, n4) = (N * N, N * N * N, N * N * N * N);
    [
        N / 2.0 - 2.0 * n2 / 3.0 + 5.0 * n3 / 16.0 + 41.0 * n4 / 180.0,
        13.0 * n2 / 48.0 - 3.0 * n3 / 5.0 + 557.0 * n4 / 1440.0,
        61.0 * n3 / 240.0 - 103.0 * n4 / 140.0,
        49561.0 * n4 / 161_280.0,
    ]
}

fn inverse_terms() -> [f64; 4] {
    let (n2, n3, n4) = (N * N, N * N * N, N * N * N * N);
    [
        N / 2.0 - 2.0 * n2 / 3.0 + 37.0 * n3 / 96.0 - n4 / 360.0,
        n2 / 48.0 + n3 / 15.0 - 437.0 * n4 / 1440.0,
        17.0 * n3 / 480.0 - 37.0 * n4 / 840.0,
        4397.0 * n4 / 161_280.0,
    ]
}

/// The two sums of a series at a point of the plane.
fn sums(terms: [f64; 4], xi: f64, eta: f64) -> (f64, f64) {
    let (mut north, mut east, mut twice) = (0.0, 0.0, 2.0);
    for term in terms {
        north += term * sin(twice * xi) * cosh(twice * eta);
        east += term * cos(twice * xi) * sinh(twice * eta);
        twice += 2.0;
    }
    (north, east)
}

fn eccentricity() -> f64 {
    sqrt(FLATTENING * (2.0 - FLATTENING))
}

/// The grid coordinate of a point; `None` near the poles.
pub fn to_utm(at: Point) -> Option<Utm> {
    let zone = zone_of(at)?;
    let phi = at.lat_deg.to_radians();
    let from_meridian = (at.lon_deg - meridian_deg(zone)).to_radians();
    let e = eccentricity();
    let t = sinh(asinh(tan(phi)) - e * atanh(e * sin(phi)));
    let xi = atan2(t, cos(from_meridian));
    let eta = asinh(sin(from_meridian) / sqrt(t * t + cos(from_meridian) * cos(from_meridian)));
    let (north, east) = sums(forward_terms(), xi, eta);
    let r = SCALE * rectifying_m();
    let is_north = at.lat_deg >= 0.0;
    Some(Utm {
        zone,
        north: is_north,
        east_m: EAST_OF_MERIDIAN_M + r * (eta + east),
        north_m: r * (xi + north) + if is_north { 0.0 } else { SOUTH_M },
    })
}

/// The point of a grid coordinate. Eastings from 100 km to 900 km and northings up to 10,000 km are grid
/// coordinates; `None` for others.
pub fn of_utm(at: Utm) -> Option<Point> {
    let fits = (1..=60).contains(&at.zone)
        && (100_000.0..=900_000.0).contains(&at.east_m)
        && (0.0..=SOUTH_M).contains(&at.north_m);
    if !fits {
        return None;
    }
    let r = SCALE * rectifying_m();
    let xi = (at.north_m - if at.north { 0.0 } else { SOUTH_M }) / r;
    let eta = (at.east_m - EAST_OF_MERIDIAN_M) / r;
    let (north, east) = sums(inverse_terms(), xi, eta);
    let (xi, eta) = (xi - north, eta - east);
    let conformal = sin(xi) / sqrt(sinh(eta) * sinh(eta) + cos(xi) * cos(xi));
    let lat_deg = atan(geodetic_tangent(conformal)).to_degrees();
    let lon_deg = meridian_deg(at.zone) + atan2(sinh(eta), cos(xi)).to_degrees();
    let lon_deg = if lon_deg > 180.0 {
        lon_deg - 360.0
    } else if lon_deg < -180.0 {
        lon_deg + 360.0
    } else {
        lon_deg
    };
    (-80.5..=84.5).contains(&lat_deg).then_some(Point { lat_deg, lon_deg })
}

/// Tangent of the latitude from that of the conformal latitude: Newton's steps, of which three are
/// enough for full precision (Karney 2011, equations 19 to 21).
fn geodetic_tangent(conformal: f64) -> f64 {
    let e = eccentricity();
    let rest = 1.0 - e * e;
    let mut tau = conformal / rest;
    for _ in 0..4 {
        let root = sqrt(1.0 + tau * tau);
        let sigma = sinh(e * atanh(e * tau / root));
        let reached = tau * sqrt(1.0 + sigma * sigma) - sigma * root;
        tau += (conformal - reached) / sqrt(1.0 + reached * reached) * (1.0 + rest * tau * tau) / (rest * root);
    }
    tau
}
