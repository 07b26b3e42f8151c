//! Settings of this phone.

use serde::{Deserialize, Serialize};

use uuid::Uuid;

use crate::record::{DeviceId, PersonCode};

/// The name under which they are kept.
pub(crate) const NAME: &str = "form";

/// Settings, kept as one JSON text.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(default)]
pub(crate) struct Settings {
    /// White on black for work by headlamp.
    pub(crate) dusk: bool,
    /// Buttons mirrored for the left hand.
    pub(crate) left_hand: bool,
    /// Code of the language chosen; `None` until somebody chose.
    pub(crate) language: Option<String>,
    /// Readings in US units; `None` as the card says.
    pub(crate) us_units: Option<bool>,
    /// Who held the phone last.
    pub(crate) person: Option<PersonCode>,
    /// While a second person looks at an examination without knowing what was said: whom the phone goes back to.
    pub(crate) second_look: Option<(PersonCode, Uuid)>,
    /// The crew's name.
    pub(crate) crew: String,
    /// What the crew calls this phone.
    pub(crate) label: String,
    /// How long each person's pace was measured to be, in centimetres.
    pub(crate) paces_cm: Vec<(PersonCode, i64)>,
    /// The office whose cards are taken, once its words were compared.
    pub(crate) office: Option<DeviceId>,
    /// The signed card as received.
    pub(crate) card: Option<String>,
}
