//! Printing this page.

use js_sys::{Function, Object, Reflect};
use wasm_bindgen::JsValue;

use super::{PlatformError, part, window};

/// Opens the printer's dialogue for what the style sheets leave to paper. `page_rule` is the rule of the sheets of
/// paper; `title` is what browsers name the file by.
///
/// # Errors
/// Where the browser has no style sheet to take the rule, or refuses to print.
pub fn print(page_rule: &str, title: &str) -> Result<(), PlatformError> {
    let window = window()?;
    let document = window.document().ok_or(PlatformError::NotHere("a page"))?;
    // The page's policy takes no style from markup; a rule in a sheet that is there is none.
    let sheets: Object = part(&document, "styleSheets")?;
    let fault = |error: JsValue| PlatformError::of(&error);
    let last = Reflect::get(&sheets, &"length".into()).ok().and_then(|n| n.as_f64()).unwrap_or_default() - 1.0;
    let sheet = Reflect::get(&sheets, &JsValue::from_f64(last.max(0.0))).map_err(fault)?;
    let rules = Reflect::get(&sheet, &"cssRules".into()).map_err(fault)?;
    let end = Reflect::get(&rules, &"length".into()).map_err(fault)?;
    let insert: Function = part(&sheet, "insertRule")?;
    // The last of several holds, so an earlier one may stay.
    insert.call2(&sheet, &page_rule.into(), &end).map_err(fault)?;
    let before = document.title();
    document.set_title(title);
    let printed = part::<Function>(&window, "print").and_then(|print| print.call0(&window).map_err(fault));
    document.set_title(&before);
    printed.map(drop)
}
