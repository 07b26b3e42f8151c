//! Gloves, roles, tools, and what the card lets whom do.

use super::cover::TAKEN;
use super::names;
use super::read::{chose_any, newest_numbers, there};
use crate::card::{CallFor, CardState};
use crate::guide::permission::{NoTouch, may_open, may_take_femur, may_take_jaw, may_touch};
use crate::guide::{Closes, ExamKind, Grade, Hazard, View};
use crate::record::{Site, is_labelled, samples_taken};
use crate::science::source::Mark::{Design, Seen};

pub(super) const HAZARDS: &[Hazard] =
    &[
        // The card. Without one that names the person, everything by hand stays closed; only a card that
        // has run out is read aloud, for its crew believes that it may touch.
        Hazard::row(names!("G12", "g12"), Grade::Stop, Closes::HandsOn, &[Design], |v| {
            in_field(v) && matches!(may_touch(v), Err(NoTouch::Card(CardState::Expired | CardState::NotYet)))
        })
        .call(CallFor::Lead),
        Hazard::row(names!("G11", "g11"), Grade::Stop, Closes::HandsOn, &[Design], |v| {
            in_field(v) && matches!(may_touch(v), Err(NoTouch::Card(CardState::None)))
        })
        .at_step(),
        Hazard::row(names!("G13", "g13"), Grade::Stop, Closes::HandsOn, &[Design], |v| {
            in_field(v) && matches!(may_touch(v), Err(NoTouch::NotNamed | NoTouch::CrewSaysNo))
        })
        .at_step(),
        Hazard::row(names!("G14", "g14"), Grade::Stop, Closes::Opening, &[Design], |v| in_field(v) && !may_open(v))
            .at_step(),
        Hazard::row(names!("G15", "g15"), Grade::Stop, Closes::Asking(TAKEN), &[Seen, Design], |v| {
            in_field(v) && !there(v, "permit_number") && v.card_in_force().is_none_or(|c| c.permits.is_empty())
        })
        .at_step(),
        Hazard::row(names!("G16", "g16"), Grade::Stop, Closes::Asking(&["jaw_taken"]), &[Design], |v| {
            in_field(v) && !may_take_jaw(v)
        })
        .at_step(),
        Hazard::row(names!("G17", "g17"), Grade::Stop, Closes::Asking(&["femur_taken"]), &[Design], |v| {
            in_field(v) && !may_take_femur(v)
        })
        .at_step(),
        // The crew.
        Hazard::row(names!("G10", "g10"), Grade::Stop, Closes::HandsOn, &[Design], is_crew_too_small)
            .signs(&["crew_count"])
            .call(CallFor::Lead),
        Hazard::row(names!("G09", "g09"), Grade::Stop, Closes::Cutting, &[Design], |v| in_field(v) && is_alone(v))
            .signs(&["crew_count", "roles"])
            .at_step(),
        Hazard::row(names!("G21", "g21"), Grade::Confirm, Closes::HandsOn, &[Design], |v| {
            in_field(v) && !there(v, "roles")
        }),
        Hazard::row(names!("H01", "h01"), Grade::Confirm, Closes::HandsOn, &[Seen], |v| !there(v, "gloves_on")),
        Hazard::row(names!("G24", "g24"), Grade::Confirm, Closes::Cutting, &[Design], |v| {
            in_field(v) && !there(v, "gear_blades_and_sharps_tube")
        }),
        Hazard::row(names!("G23", "g23"), Grade::Advise, Closes::Nothing, &[Design], |v| {
            chose_any(v, "hands", &["dirty"])
        })
        .signs(&["hands"]),
        // Going home.
        Hazard::row(names!("G19", "g19"), Grade::Confirm, Closes::Nothing, &[Design], |v| {
            counts_differ(v, "blades_out_count", "blades_back_count")
        })
        .signs(&["blades_out_count", "blades_back_count"]),
        Hazard::row(names!("G20", "g20"), Grade::Confirm, Closes::Nothing, &[Design], |v| {
            counts_differ(v, "crew_count", "heads_counted_count")
        })
        .signs(&["crew_count", "heads_counted_count"])
        .call(CallFor::Emergency),
        // Nothing leaves without a label.
        Hazard::row(names!("G27", "g27"), Grade::Confirm, Closes::Nothing, &[Design], is_something_unlabelled)
            .signs(&["sample_number", "other_samples_count", "organs_taken", "scat_collected", "bite_swabbed"]),
    ];

/// Something was taken and bears no number, or was taken and is not among the things counted.
fn is_something_unlabelled(view: &View) -> bool {
    let all = samples_taken(view.exam);
    let taken_apart = there(view, "scat_collected")
        || super::read::standing(view, "bite_swabbed").any(|s| s.answer.value().is_some());
    let is_one_counted = all.iter().any(|item| (3..=9).contains(item));
    (taken_apart && !is_one_counted) || all.into_iter().any(|item| !is_labelled(view.exam, item))
}

fn in_field(view: &View) -> bool {
    view.kind == ExamKind::Field
}

fn is_alone(view: &View) -> bool {
    chose_any(view, "roles", &["alone"]) || newest_numbers(view, "crew_count").contains(&1)
}

fn is_crew_too_small(view: &View) -> bool {
    let least = view.card_in_force().and_then(|c| c.limits.min_crew_count);
    in_field(view)
        && least.is_some_and(|least| newest_numbers(view, "crew_count").iter().any(|n| *n < i64::from(least)))
}

/// Both counted, and fewer came back than went.
fn counts_differ(view: &View, out: &str, back: &str) -> bool {
    let count = |f: &str| {
        view.question(f, Site::NONE)
            .standing
            .iter()
            .filter_map(|s| match s.answer.value() {
                Some(crate::record::Value::Number(n)) => Some(*n),
                _ => None,
            })
            .collect::<Vec<_>>()
    };
    let (out, back) = (count(out), count(back));
    out.iter().max().zip(back.iter().min()).is_some_and(|(out, back)| back < out)
}
