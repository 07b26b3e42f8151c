//! Labels of samples for paper: text and code, ten on a sheet, one page of HTML without script or outside part.

use std::fmt::Write as _;

use super::paper::Sheet;
use super::season::svg::escaped;
use crate::bundle::qr::QrMatrix;
use crate::guide::{Label, labels};
use crate::record::Carcass;
use crate::words::{Language, say_office};

const LANGUAGE: Language = Language::English;

/// The page with the label of everything that was taken from these carcasses, and how many labels; `None` where nothing
/// was taken.
pub fn labels_page<'a>(carcasses: impl IntoIterator<Item = &'a Carcass>, sheet: Sheet) -> Option<(String, usize)> {
    let all: Vec<Label> = carcasses.into_iter().flat_map(|carcass| labels(LANGUAGE, carcass)).collect();
    if all.is_empty() {
        return None;
    }
    let title = tell("labels.title");
    let mut out = format!(
        "<!DOCTYPE html>\n<html lang=\"en\"><head><meta charset=\"utf-8\"><title>{title}</title>\n<style>\n\
         @page {{ size: {} portrait; margin: 8mm }}\n{STYLE}</style></head><body>\n<main>\n",
        sheet.css()
    );
    for label in &all {
        one(label, &mut out);
    }
    out.push_str("</main></body></html>\n");
    Some((out, all.len()))
}

/// Two beside each other on both sheets; a long text makes a label taller and is never cut off.
const STYLE: &str = "body { margin: 0; font: 9pt/1.25 sans-serif; color: #000 }\n\
    main { display: flex; flex-wrap: wrap }\n\
    .label { box-sizing: border-box; width: 96mm; min-height: 52mm; padding: 3mm; border: .2mm dashed #000; \
    break-inside: avoid; display: flex; gap: 3mm; overflow-wrap: anywhere }\n\
    .label svg { width: 36mm; height: 36mm; flex: none } h2 { font-size: 15pt; margin: 0 0 1mm }\n\
    p { margin: 0 } .by-hand { letter-spacing: .2em } .open { font-weight: bold }\n";

fn one(label: &Label, out: &mut String) {
    let number = escaped(&label.number);
    let _ = write!(out, "<section class=\"label\" data-label=\"{number}\">{}<div><h2>{number}</h2>", code(label));
    if !label.is_written {
        let _ = write!(out, "<p class=\"open\">{}</p>", tell("labels.not_written"));
    }
    for (name, value) in &label.lines {
        let value = if value.is_empty() {
            "<span class=\"by-hand\">..............</span>".to_owned()
        } else {
            format!("<b>{}</b>", escaped(value))
        };
        let _ = write!(out, "<p>{}: {value}</p>", escaped(name));
    }
    out.push_str("</div></section>\n");
}

/// The code as a drawing; nothing where the text is longer than a code holds.
fn code(label: &Label) -> String {
    let Ok(code) = QrMatrix::of_text(&label.code_text()) else { return String::new() };
    let side = code.view_side();
    format!(
        "<svg viewBox=\"0 0 {side} {side}\" role=\"img\" aria-label=\"{}\"><path d=\"{}\" fill=\"#000\" \
         shape-rendering=\"crispEdges\"/></svg>",
        tell("labels.code"),
        code.svg_path()
    )
}

fn tell(id: &str) -> String {
    escaped(&say_office(LANGUAGE, id, &[]))
}
