//! Signing a card, and what is worth knowing about one that can be signed.

use serde_json::Value;

use crate::bundle::{DeviceKey, Kind, canonical, seal};
use crate::card::Card;
use crate::reading::table_of;
use crate::record::Moment;
use crate::science::diet::plants;

/// Signs a card's JSON, in its canonical form, once it holds together.
///
/// # Errors
/// What keeps it from being signed, as a clause.
pub fn sign(value: &Value, key: &DeviceKey) -> Result<String, String> {
    let payload = canonical::to_vec(value).map_err(|error| error.to_string())?;
    let text = std::str::from_utf8(&payload).map_err(|error| error.to_string())?;
    let card = Card::from_json(text).map_err(|error| error.to_string())?;
    card.laboratories().map_err(|flaw| flaw.to_string())?;
    if let Some(table) = card.cause.as_ref().and_then(|cause| cause.table.as_ref()) {
        table_of(table).map_err(|flaw| flaw.to_string())?;
    }
    seal(Kind::Card, &payload, key).map_err(|error| error.to_string())
}

/// What a person should know of a card that can be signed.
pub fn notes(card: &Card, now: Moment) -> Vec<String> {
    let mut notes = Vec::new();
    if !card.holds_at(now) {
        notes.push("today lies outside the card's dates; phones will keep hands-on steps closed".to_owned());
    }
    for food in card.figures.browse.iter().filter(|food| plants::of_code(&food.key()).is_none()) {
        notes.push(format!(
            "`{}` is no code of the form's plants: it is found where crews write it as a plant of their own",
            food.item
        ));
    }
    notes
}
