//! The layers at the body, dated by the crew or else by the winter log.

use super::log::LogData;
use super::take::moment;
use crate::reading::lens::Lens;
use crate::record::{Answer, Moment, Site};
use crate::science::death::snow::{self, Dates, Fall, Layer, Lie, Seen};
use crate::science::death::{Found, Instant};

/// Snowfalls that a crew can date.
const MOST_FALLS: u16 = 3;

fn layer(lens: &Lens, finding: &'static str) -> Option<Layer> {
    Some(match lens.choice(finding, Site::NONE)? {
        "last_fall" => Layer::Last,
        "second_last_fall" => Layer::SecondLast,
        "third_last_fall" => Layer::ThirdLast,
        "older_fall" => Layer::Older,
        _ => return None,
    })
}

fn on(lens: &Lens, sign: &'static str) -> bool {
    matches!(lens.result(sign, Site::NONE), Some(Answer::Seen { .. }))
}

/// Falls that the crew dated. One whose end was not told ended at its start at the earliest and is left
/// out; one that ends before it begins is a slip and left out.
fn dated(outing: &Lens) -> Vec<Fall> {
    let at = |finding, n| moment(outing, finding, Site::item(n)).map(Moment::unix_seconds);
    (1..=MOST_FALLS)
        .filter_map(|n| Some((at("snowfall_began_at", n)?, at("snowfall_ended_at", n)?)))
        .filter(|(from, to)| from <= to)
        .map(|(from, to)| Fall::seen(from, to))
        .collect()
}

/// Snow lies about, as measured beside the body.
fn snow_round(lens: &Lens) -> bool {
    lens.numbers("snow_depth_cm", Site::NONE).iter().any(|cm| *cm > 0)
}

/// Bounds from layers, and the falls behind them for the plot.
pub(super) fn take(
    lens: &Lens,
    outing: &Lens,
    log: &LogData,
    look: Instant,
    found: &mut Found,
    falls: &mut Vec<Fall>,
    by_log: &mut bool,
) {
    let under = lens.choice("snow_under_body", Site::NONE);
    let lie = if on(lens, "cached_over") {
        Lie::Cached
    } else if lens.choice("fall_over_lie", Site::NONE) == Some("two_sides") {
        Lie::TwoSides
    } else {
        Lie::Doubtful
    };
    let seen = Seen {
        over: layer(lens, "fall_over").map(|layer| (layer, lie)),
        under: layer(lens, "fall_under"),
        bare_under: under == Some("bare_ground") && snow_round(lens),
        cut: layer(lens, "event_tracks_cut"),
        filled: layer(lens, "event_tracks_filled"),
        crust_over: on(lens, "crust_over_body"),
        blood: layer(lens, "blood_layer"),
        melt_cast: under == Some("melted_to_ice"),
        pedestal: on(lens, "on_pedestal"),
    };
    let crew = dated(outing);
    let counted = seen.over.is_some() || [seen.under, seen.cut, seen.filled, seen.blood].iter().any(Option::is_some);
    *by_log |= crew.is_empty() && counted && !log.falls.is_empty();
    let of = if crew.is_empty() { &log.falls } else { &crew };
    let dates = Dates::new(of, look, log.lasting_from(look), log.thaw_ended(look));
    falls.extend(dates.layers());
    found.add(snow::bounds(&seen, &dates));
}
