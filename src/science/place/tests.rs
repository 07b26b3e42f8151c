//! Against PROJ, geographiclib and the GEOTRANS converter (`tests/reference/make_place.py`).

use super::*;

const ROWS: &str = include_str!("../../../tests/reference/place.csv");

fn rows(kind: &str) -> Vec<Vec<&'static str>> {
    let found: Vec<Vec<&str>> = ROWS
        .lines()
        .filter_map(|line| line.strip_prefix(kind)?.strip_prefix(','))
        .map(|l| l.split(',').collect())
        .collect();
    assert!(found.len() >= 19, "{kind}");
    found
}

fn number(text: &str) -> f64 {
    text.parse().unwrap()
}

fn point(row: &[&str]) -> Point {
    Point { lat_deg: number(row[0]), lon_deg: number(row[1]) }
}

#[test]
fn grid_coordinates() {
    for row in rows("utm") {
        let utm = to_utm(point(&row)).unwrap();
        assert_eq!(utm.zone, row[2].parse::<u8>().unwrap(), "{row:?}");
        assert!((utm.east_m - number(row[3])).abs() < 1e-3, "{row:?} {utm:?}");
        assert!((utm.north_m - number(row[4])).abs() < 1e-3, "{row:?} {utm:?}");
        let back = of_utm(utm).unwrap();
        assert!((back.lat_deg - number(row[0])).abs() < 1e-9, "{row:?} {back:?}");
        assert!((back.lon_deg - number(row[1])).abs() < 1e-9, "{row:?} {back:?}");
    }
}

#[test]
fn grid_references() {
    for row in rows("grid") {
        let at = point(&row);
        let text = to_grid(at).unwrap();
        assert_eq!(text.replace(' ', ""), row[2], "{row:?}");
        let read = read_typed(&text).unwrap();
        assert_eq!(read.notation, Notation::Grid);
        // The middle of a square of one metre is at most 0.71 m away.
        assert!(between(at, read.at).distance_m < 0.72, "{row:?} {read:?}");
        assert!((read.within_m - 0.5_f64.sqrt()).abs() < 1e-12);
    }
}

#[test]
fn distance_and_bearing() {
    for row in rows("leg") {
        let (from, to) = (point(&row), point(&row[2..]));
        let (leg, distance_m, bearing) = (between(from, to), number(row[4]), number(row[5]));
        assert!((leg.distance_m - distance_m).abs() < distance_m * 1e-4 + 0.01, "{row:?} {leg:?}");
        let apart = (leg.bearing_deg - bearing + 540.0).rem_euclid(360.0) - 180.0;
        assert!(apart.abs() < 0.2, "{row:?} {leg:?}");
        let reached = ahead(from, leg);
        assert!(between(to, reached).distance_m < distance_m * 1e-4 + 0.01, "{row:?} {reached:?}");
    }
}

fn at(text: &str) -> (f64, f64) {
    let read = read_typed(text).unwrap_or_else(|e| panic!("{text}: {e}"));
    (read.at.lat_deg, read.at.lon_deg)
}

fn is(text: &str, lat: f64, lon: f64) {
    let (read_lat, read_lon) = at(text);
    assert!((read_lat - lat).abs() < 2e-6 && (read_lon - lon).abs() < 2e-6, "{text}: {read_lat} {read_lon}");
}

#[test]
fn degrees_as_people_write_them() {
    for text in [
        "46.21, -84.06",
        "46.21 -84.06",
        "46.21,-84.06",
        "46,21 -84,06",
        "46,21; -84,06",
        "46.21 N 84.06 W",
        "N46.21 W84.06",
        "84.06W 46.21N",
        "n 46.21\u{b0} w 84.06\u{b0}",
        "46.21N, 84.06 O",
        "46.21 \u{2212}84.06",
    ] {
        is(text, 46.21, -84.06);
    }
    for text in [
        "46 12.6 -84 3.6",
        "46\u{b0}12.6'N 84\u{b0}3.6'W",
        "N46 12.600 W084 03.600",
        "46-12.6 N 84-03.6 W",
        "46 12 36 -84 3 36",
        "46\u{b0} 12' 36\" N, 84\u{b0} 03' 36\" W",
        "46\u{b0}12\u{2032}36\u{2033}N 84\u{b0}03\u{2032}36\u{2033}W",
    ] {
        is(text, 46.21, -84.06);
    }
    is("45 N 84 W", 45.0, -84.0);
    is("45N 84W", 45.0, -84.0);
    is("-16.5 -68.15", -16.5, -68.15);
}

#[test]
fn grids_as_people_write_them() {
    // The first row of the table of PROJ and GEOTRANS: 46.21, -84.06.
    for text in [
        "16T 726784 5121582",
        "16 T 726784mE 5121582mN",
        "16t 726784E 5121582N",
        "16N 726784 5121582",
        "16 N 726784 E 5121582 N",
    ] {
        let (lat, lon) = at(text);
        assert!(
            between(Point { lat_deg: lat, lon_deg: lon }, Point { lat_deg: 46.21, lon_deg: -84.06 }).distance_m < 1.5,
            "{text} {lat} {lon}"
        );
    }
    let coarse = read_typed("16TGS 26 21").unwrap();
    assert!(between(coarse.at, Point { lat_deg: 46.21, lon_deg: -84.06 }).distance_m < coarse.within_m, "{coarse:?}");
    assert!((coarse.within_m - 707.1).abs() < 0.1);
}

#[test]
fn what_is_no_place_says_why() {
    use NotAPlace::*;
    for (text, why) in [
        ("", NotUnderstood),
        ("here", NotUnderstood),
        ("46.21", NotUnderstood),
        ("46 21 84", NotUnderstood),
        ("46.21 N 84.06 N", NotUnderstood),
        ("46,21", CommaUnclear),
        ("46,84", CommaUnclear),
        ("-94.06 46.21", Swapped),
        ("91 N 84 W", OutOfRange),
        ("46 -190", OutOfRange),
        ("46 60.0 -84 3", BadMinutes),
        ("46.5 12 -84 3", BadMinutes),
        ("61T 726784 5121582", NoSuchGrid),
        ("16T 5121582 726784", NoSuchGrid),
        ("16TGS 123", NoSuchGrid),
        ("16TAA 12345 12345", NoSuchGrid),
        ("16I GS 12 12", NoSuchGrid),
        ("16T 726784", NoSuchGrid),
    ] {
        match read_typed(text) {
            Err(found) => assert_eq!(found, why, "{text}"),
            Ok(read) => panic!("{text}: {read:?}"),
        }
    }
}

#[test]
fn a_coarse_place_says_how_coarse() {
    let read = read_typed("46.2 -84.1").unwrap();
    // Half a tenth of a degree north and east there: 5.56 km and 3.86 km.
    assert!((read.within_m - 6768.0).abs() < 40.0, "{}", read.within_m);
    assert!(read_typed("46.21000 -84.06000").unwrap().within_m < 1.0);
}

#[test]
fn what_was_likely_meant_is_offered_only_where_it_helps() {
    let wrong = Point { lat_deg: 46.21, lon_deg: 84.06 };
    assert_eq!(likely_meant(wrong), Some(Point { lat_deg: 46.21, lon_deg: -84.06 }));
    assert_eq!(likely_meant(Point { lon_deg: -84.06, ..wrong }), None);
    // Two plain numbers below 90 cannot be told apart but by where they lead.
    assert_eq!(
        likely_meant(Point { lat_deg: -84.06, lon_deg: 46.21 }),
        Some(Point { lat_deg: 46.21, lon_deg: -84.06 })
    );
    // Deer were let loose in Finland: no sign turned leads home, so nothing is offered.
    assert_eq!(likely_meant(Point { lat_deg: 60.2, lon_deg: 24.9 }), None);
}

proptest::proptest! {
    #[test]
    fn whatever_is_typed_is_read_or_refused(text in ".{0,60}") {
        if let Ok(read) = read_typed(&text) {
            assert!((-90.0..=90.0).contains(&read.at.lat_deg) && (-180.0..=180.0).contains(&read.at.lon_deg));
        }
    }

    #[test]
    fn there_and_back(lat in -79.9_f64..83.9, lon in -180.0_f64..180.0) {
        let from = Point { lat_deg: lat, lon_deg: lon };
        let back = of_utm(to_utm(from).unwrap()).unwrap();
        assert!((back.lat_deg - lat).abs() < 1e-8, "{from:?} {back:?}");
        let read = read_typed(&to_grid(from).unwrap()).unwrap();
        assert!(between(from, read.at).distance_m < 1.0, "{from:?} {read:?}");
    }
}
