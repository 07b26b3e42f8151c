//! The finding table inside the schema of findings: each code with its values, unit and place.
//!
//! The types alone say only that a value is text or a number. Whoever writes a table by hand needs
//! the codes, and a validator can then name a wrong one before the program does.

use crate::record::{FINDINGS, FindingDef, Scope, Shape, Sites};
use schemars::Schema;
use serde_json::{Map, Value, json};

/// Adds the findings to the schema of a row.
pub(super) fn with_findings(mut schema: Schema) -> Schema {
    let defs: Vec<&FindingDef> = FINDINGS.iter().flat_map(|group| group.iter()).filter(|def| writable(def)).collect();
    let codes: Vec<&str> = defs.iter().map(|def| def.code).collect();
    let rules = rules(&defs);
    if let Some(row) = schema.pointer_mut("/$defs/TableRow").and_then(Value::as_object_mut) {
        if let Some(finding) =
            row.get_mut("properties").and_then(|all| all.get_mut("finding")).and_then(Value::as_object_mut)
        {
            finding.insert("enum".into(), json!(codes));
        }
        row.insert("allOf".into(), Value::Array(rules));
    }
    schema
}

/// Photos, links between subjects and days of a winter log cannot be written in a table of carcasses.
fn writable(def: &FindingDef) -> bool {
    !matches!(def.shape, Shape::Photo | Shape::Ref) && def.scope != Scope::WinterLog
}

/// One rule for all findings that share it, in the order of the finding table.
fn rules(defs: &[&FindingDef]) -> Vec<Value> {
    let mut groups: Vec<(Value, Vec<&str>)> = Vec::new();
    for def in defs {
        let then = then(def);
        match groups.iter_mut().find(|(other, _)| *other == then) {
            Some((_, codes)) => codes.push(def.code),
            None => groups.push((then, vec![def.code])),
        }
    }
    groups
        .into_iter()
        .map(|(then, codes)| json!({ "if": { "properties": { "finding": { "enum": codes } } }, "then": then }))
        .collect()
}

fn then(def: &FindingDef) -> Value {
    let mut properties = Map::from_iter([("value".to_owned(), value(def))]);
    let (takes, needs): (&[&str], &[&str]) = match def.sites {
        Sites::None | Sites::Day => (&[], &[]),
        Sites::Side => (&["side"], &[]),
        Sites::Tooth => (&["side", "tooth"], &["side", "tooth"]),
        Sites::Bone => (&["side", "bone"], &["bone"]),
        Sites::Item => (&["side", "item"], &["item"]),
    };
    for part in ["side", "tooth", "bone", "item"] {
        if !takes.contains(&part) {
            properties.insert(part.to_owned(), Value::Bool(false));
        }
    }
    json!({ "properties": properties, "required": needs })
}

fn value(def: &FindingDef) -> Value {
    match def.shape {
        Shape::Presence => json!({ "const": "there" }),
        Shape::Choice(options) => json!({ "enum": options }),
        Shape::Choices(options) => json!({ "type": "array", "items": { "enum": options }, "minItems": 1 }),
        Shape::Number { unit, decimals, min, max } => {
            let size = 10_i64.pow(u32::from(decimals));
            let unit = if unit.symbol().is_empty() { "a count" } else { unit.symbol() };
            json!({
                "type": if decimals == 0 { "integer" } else { "number" },
                "minimum": plain(min, size),
                "maximum": plain(max, size),
                "description": format!("{unit}, at most {decimals} decimals"),
            })
        }
        Shape::Text(most) => json!({ "type": "string", "maxLength": most }),
        Shape::Plants(most) => json!({
            "type": "string",
            "pattern": format!("^[a-z0-9_]{{1,40}}( [a-z0-9_]{{1,40}}){{0,{}}}$", most.saturating_sub(1)),
            "description": format!("codes of plants apart by one blank, at most {most}"),
        }),
        Shape::Instant => json!({ "$ref": "#/$defs/Moment" }),
        Shape::Place => json!({ "$ref": "#/$defs/TablePlace" }),
        Shape::Photo | Shape::Ref => Value::Bool(false),
    }
}

/// A scaled limit in its unit; whole numbers without a point.
fn plain(scaled: i64, size: i64) -> Value {
    if scaled % size == 0 { json!(scaled / size) } else { json!(scaled as f64 / size as f64) }
}
