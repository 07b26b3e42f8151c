//! GeoJSON (RFC 7946): one feature a carcass. WGS 84, longitude first, no `crs`; without a place the geometry is `null`.

use serde_json::{Value as Json, json};

use super::{ExportError, Tables};

/// Name of the file.
pub(super) const NAME: &str = "carcasses.geojson";

/// The collection before its first feature, and after its last.
pub(super) fn ends(tables: &Tables) -> Result<(Vec<u8>, Vec<u8>), ExportError> {
    let collection = json!({
        "type": "FeatureCollection",
        "description": format!("{} {}", tables.asked.of_places(), tables.asked.of_persons()),
        "place_grid_m": tables.asked.places.grid_m(),
        "features": [],
    });
    let text = serde_json::to_string(&collection).map_err(|error| ExportError::Text(error.to_string()))? + "\n";
    // In a text a quote has a backslash before it, so that this stands there once.
    let (before, after) = text.split_once(r#""features":[]"#).unwrap_or_default();
    Ok((format!(r#"{before}"features":["#).into_bytes(), format!("]{after}").into_bytes()))
}

/// The features, each with a comma behind it.
pub(super) fn features(tables: &Tables) -> Result<Vec<u8>, ExportError> {
    let table = &tables.carcasses;
    let mut text = Vec::new();
    for row in &table.rows {
        let number = |name: &str| table.cell(row, name).number();
        let geometry = match (number("longitude"), number("latitude")) {
            (Some(east), Some(north)) => json!({ "type": "Point", "coordinates": [east, north] }),
            _ => Json::Null,
        };
        let feature = json!({
            "type": "Feature",
            "id": table.cell(row, "carcass_id").json(),
            "geometry": geometry,
            "properties": table.object(row, &["latitude", "longitude"]),
        });
        serde_json::to_writer(&mut text, &feature).map_err(|error| ExportError::Text(error.to_string()))?;
        text.push(b',');
    }
    Ok(text)
}
