//! Heights and widths of molars with calipers, where the local card has constants to read them by.
//!
//! No source gives constants that hold beyond its own deer, so without the office's own the measure would
//! tell nothing and nobody is asked to spend the time.

use crate::card::Figures;
use crate::guide::{Input, Phase, Step, View};
use crate::record::{Site, Tooth, Value};

use super::facts::jaw_sides;

/// Height of each crown that the card has constants for.
pub(super) const CROWN: Step = Step::look("bench_crown_height", Phase::Bench, Input::Number("crown_height_mm"))
    .group("bench_calipers")
    .sites(crowns);

/// Width of each molar, where the card has a line of the ratio.
pub(super) const WIDTH: Step = Step::look("bench_molar_width", Phase::Bench, Input::Number("molar_width_mm"))
    .group("bench_calipers")
    .sites(widths);

fn figures<'a>(v: &View<'a>) -> Option<&'a Figures> {
    v.card_in_force().map(|card| &card.figures)
}

fn crowns(v: &View) -> Vec<Site> {
    let Some(figures) = figures(v) else { return Vec::new() };
    let wanted = |tooth| figures.molar_ratio.is_some() || figures.crown_heights.iter().any(|row| row.tooth == tooth);
    molars_up(v, wanted)
}

fn widths(v: &View) -> Vec<Site> {
    let wanted = figures(v).is_some_and(|figures| figures.molar_ratio.is_some());
    molars_up(v, |_| wanted)
}

/// Molars in view that are through, side by side.
fn molars_up(v: &View, wanted: impl Fn(Tooth) -> bool) -> Vec<Site> {
    let up = |site: &Site| {
        matches!(v.question("tooth_state", *site).answer().value(),
            Some(Value::Choice(code)) if code == "up_unworn" || code == "in_wear")
    };
    let sides = jaw_sides(v).into_iter().filter_map(|site| site.side);
    let molars = sides.flat_map(|side| Tooth::MOLARS.map(|tooth| Site::tooth(side, tooth)));
    molars.filter(|site| site.tooth.is_some_and(&wanted) && up(site)).collect()
}
