//! GeoJSON (RFC 7946): one feature a carcass. WGS 84, longitude first, no `crs`; without a place the geometry is `null`.

use serde_json::{Value as Json, json};

use super::{ExportError, File, Tables};

/// The file.
///
/// # Errors
/// It cannot be written as text; never in practice.
pub fn file(tables: &Tables) -> Result<File, ExportError> {
    let table = &tables.carcasses;
    let feature = |row: &Vec<super::table::Cell>| {
        let number = |name: &str| table.cell(row, name).number();
        let geometry = match (number("longitude"), number("latitude")) {
            (Some(east), Some(north)) => json!({ "type": "Point", "coordinates": [east, north] }),
            _ => Json::Null,
        };
        json!({
            "type": "Feature",
            "id": table.cell(row, "carcass_id").json(),
            "geometry": geometry,
            "properties": table.object(row, &["latitude", "longitude"]),
        })
    };
    let collection = json!({
        "type": "FeatureCollection",
        "description": format!("{} {}", tables.asked.of_places(), tables.asked.of_persons()),
        "place_grid_m": tables.asked.places.grid_m(),
        "features": table.rows.iter().map(feature).collect::<Vec<_>>(),
    });
    let text = serde_json::to_string(&collection).map_err(|error| ExportError::Text(error.to_string()))? + "\n";
    Ok(("carcasses.geojson".to_owned(), text.into_bytes()))
}
