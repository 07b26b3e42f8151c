//! The scene sketch as files: GeoJSON (RFC 7946) for a map, SVG for paper.

use serde_json::{Map, Value as Json, json};

use crate::office::season::rows::most_exact;
use crate::reading::sketch::{HowFar, Mark, Sketch, sketches};
use crate::reading::sketch_drawing::drawing;
use crate::record::{Carcass, Examination, Place, Site, short_code};
use crate::science::place::{Point, Spot};
use crate::words::Language;

/// The sketch of one examination.
#[derive(Clone, Debug, PartialEq)]
pub struct Drawn {
    /// The carcass's short code.
    pub code: String,
    /// Which of the carcass's sketches, from 1; `None` where there is one only.
    pub which: Option<usize>,
    /// A feature collection. Without a position of the body its features have no geometry, and say in metres where
    /// they lie from the body.
    pub geojson: String,
    /// The drawing.
    pub svg: String,
    /// What to know about it, as ids of `office.sketch.*`.
    pub notes: Vec<&'static str>,
}

/// The sketches of a carcass. `declination_deg` turns bearings read from a compass needle to true north, east
/// positive; `None` leaves them as they were read, and the file says so.
pub fn drawn(carcass: &Carcass, declination_deg: Option<f64>) -> Vec<Drawn> {
    let code = short_code::short_code(carcass.id);
    let with: Vec<(&Examination, Vec<Sketch>)> = carcass
        .examinations
        .values()
        .map(|exam| (exam, sketches(&exam.sheet)))
        .filter(|(_, sketches)| !sketches.is_empty())
        .collect();
    let several = with.len() > 1;
    let one = |(place, (exam, all)): (usize, &(&Examination, Vec<Sketch>))| {
        let place_of_body = most_exact(&exam.sheet.question("place", Site::NONE));
        let mut notes = Vec::new();
        if place_of_body.is_none() {
            notes.push("office.sketch.no_place");
        }
        if all.iter().any(|s| s.north.as_deref() != Some("true_north")) && declination_deg.is_none() {
            notes.push("office.sketch.no_declination");
        }
        if all.iter().flat_map(|s| &s.marks).any(|m| m.ends.is_none()) {
            notes.push("office.sketch.not_placed");
        }
        Drawn {
            code: code.clone(),
            which: several.then_some(place + 1),
            geojson: collection(carcass, exam, all, place_of_body.as_ref(), declination_deg).to_string(),
            svg: drawing(all, Language::English),
            notes,
        }
    };
    with.iter().enumerate().map(one).collect()
}

/// How a sketch's spots come onto the globe.
struct Frame {
    body: Option<Point>,
    turn_deg: f64,
}

impl Frame {
    /// Longitude and latitude to 1e-7 degrees: a centimetre, finer than any pace.
    fn degrees(&self, spot: Spot) -> Option<Json> {
        let at = spot.on_the_globe(self.body?, self.turn_deg);
        Some(json!([rounded(at.lon_deg, 1e7), rounded(at.lat_deg, 1e7)]))
    }

    fn metres(spot: Spot) -> Json {
        json!([rounded(spot.east_m, 100.0), rounded(spot.north_m, 100.0)])
    }
}

fn rounded(number: f64, steps: f64) -> f64 {
    (number * steps).round() / steps
}

fn collection(
    carcass: &Carcass,
    exam: &Examination,
    all: &[Sketch],
    place: Option<&Place>,
    declination_deg: Option<f64>,
) -> Json {
    let body = place.map(|p| Point { lat_deg: p.lat_e7 as f64 / 1e7, lon_deg: p.lon_e7 as f64 / 1e7 });
    let of_body = Frame { body, turn_deg: 0.0 };
    let mut about = json!({ "what": "body" });
    if let Some(metres) = place.and_then(|p| p.accuracy_m_95) {
        about = json!({ "what": "body", "accuracy_m_95": metres });
    }
    let mut features = vec![point(&of_body, Spot::default(), about)];
    for sketch in all {
        // What was read from a map or a phone counts from true north already; by eye nothing is that exact.
        let needle = sketch.north.as_deref() == Some("compass_needle");
        let turn_deg = declination_deg.filter(|_| needle).unwrap_or(0.0);
        let frame = Frame { body, turn_deg };
        features.extend(sketch.marks.iter().filter_map(|mark| feature(&frame, sketch, mark)));
    }
    // Foreign members (RFC 7946, 6.1): what the features rest on.
    let people: Vec<Json> =
        all.iter().map(|s| json!({ "drawn_by": s.by.to_string(), "north": s.north, "head_deg": s.head_deg })).collect();
    json!({
        "type": "FeatureCollection",
        "features": features,
        "marrowbook_sketch": {
            "carcass": carcass.id.to_string(),
            "examination": exam.id.to_string(),
            "declination_deg": declination_deg,
            "local_metres": "east and north of the body, by the north that the bearings were read from",
            "sketches": people,
        },
    })
}

fn point(frame: &Frame, spot: Spot, properties: Json) -> Json {
    let geometry = |coordinates| json!({ "type": "Point", "coordinates": coordinates });
    json!({
        "type": "Feature",
        "geometry": frame.degrees(spot).map(geometry),
        "properties": properties,
        "local_metres": geometry(Frame::metres(spot)),
    })
}

/// A mark; `None` for one that hangs on a mark that is not there.
fn feature(frame: &Frame, sketch: &Sketch, mark: &Mark) -> Option<Json> {
    let (from, to) = mark.ends?;
    let mut properties = Map::new();
    let mut put = |name: &str, value: Json| properties.insert(name.to_owned(), value);
    put("number", json!(mark.number));
    put("what", json!(mark.what));
    put("from", json!(mark.from));
    put("bearing_deg", json!(mark.bearing_deg));
    if let HowFar::Paces { count, pace_cm } = mark.far {
        put("paces", json!(count));
        put("pace_cm", json!(pace_cm));
    }
    put("distance_m", json!(rounded(mark.far.metres(), 100.0)));
    put("drawn_by", json!(sketch.by.to_string()));
    if !mark.is_line() {
        return Some(point(frame, to, Json::Object(properties)));
    }
    let line = |ends: [Json; 2]| json!({ "type": "LineString", "coordinates": ends });
    let degrees = frame.degrees(from).zip(frame.degrees(to)).map(|(from, to)| line([from, to]));
    Some(json!({
        "type": "Feature",
        "geometry": degrees,
        "properties": properties,
        "local_metres": line([Frame::metres(from), Frame::metres(to)]),
    }))
}
