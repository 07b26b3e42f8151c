//! Before leaving: the plan, the weather, the gear. Asked once an outing.

use crate::guide::{Input, Phase, Step};
use crate::record::DUE_BACK;

const fn row(id: &'static str, input: Input) -> Step {
    Step::look(id, Phase::BeforeLeaving, input)
}

/// A line read out and done; `not with us` is an answer.
const fn line(id: &'static str) -> Step {
    row(id, Input::ReadDo(id)).may_be_absent()
}

pub(super) const STEPS: &[Step] = &[
    row("people_out", Input::Text("people_out")),
    row("crew_count", Input::Number("crew_count")),
    row("roles", Input::Choice("roles")),
    line("contact_told"),
    line("backup_told"),
    line("late_action_agreed"),
    row("due_back", Input::Instant(DUE_BACK)),
    row("air_temperature", Input::Number("air_temperature_c")),
    row("wind", Input::Number("wind_km_h")),
    row("wind_read_at", Input::Choice("wind_read_at")).when(|v| v.number("wind_km_h").is_some_and(|n| n > 0)),
    row("permit", Input::Text("permit_number")).may_be_absent(),
    line("gear_warmth"),
    line("gear_light_and_whistle"),
    line("gear_gloves"),
    line("gear_eyes_and_masks"),
    line("gear_blades_and_sharps_tube"),
    row("blades_out", Input::Number("blades_out_count")),
    line("gear_bags_and_labels"),
    line("gear_scale_card"),
    line("gear_water_and_soap"),
    line("gear_first_aid"),
    line("gear_paper_and_power"),
];
