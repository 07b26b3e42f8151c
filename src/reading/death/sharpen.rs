//! What further look would narrow the window.

use super::{Read, ids};
use crate::reading::lens::{Lens, Picks};
use crate::reading::shape::{Sharpen, Statement};
use crate::record::Site;
use crate::science::death::Silent;

/// Open looks that would narrow it, the strongest rule first.
pub(super) fn sharpen(read: &Read, bounded: bool) -> Vec<Sharpen> {
    let answered = |finding: &'static str| {
        read.visits.iter().any(|visit| Lens::new(&visit.exam, Picks::new()).said(finding, Site::NONE).is_some())
    };
    let chose = |finding: &'static str, options: &[&str]| {
        read.visits.iter().any(|visit| {
            Lens::new(&visit.exam, Picks::new()).choice(finding, Site::NONE).is_some_and(|code| options.contains(&code))
        })
    };
    let silent = |why| read.takens.iter().any(|t| t.found.silent.iter().any(|(_, one)| *one == why));
    let body = chose("body_state", &["whole", "part_eaten"]);
    let looks = [
        (silent(Silent::NoDates), ids::LOOK_FALLS, "snowfall_began_at"),
        (
            body && chose("snow_over_body", &["dusting", "part_covered", "covered"]) && !answered("fall_over"),
            ids::LOOK_OVER,
            "fall_over",
        ),
        (body && !answered("fall_under") && !chose("snow_under_body", &["bare_ground"]), ids::LOOK_UNDER, "fall_under"),
        (!bounded && !answered("place_clear_at"), ids::LOOK_PLACE, "place_clear_at"),
        (body && chose("body_frozen", &["not_frozen"]) && !answered("thigh_c"), ids::LOOK_THIGH, "thigh_c"),
        (
            chose("body_state", &["bones_and_hair"])
                && chose("snow_under_body", &["bare_ground"])
                && !answered("bone_weathering"),
            ids::LOOK_BONES,
            "bone_weathering",
        ),
    ];
    let open = |id, finding: &str| Sharpen {
        look: Statement::plain(id),
        finding: finding.to_owned(),
        site: Site::NONE,
        gain_bits: None,
    };
    looks.into_iter().filter(|(on, _, _)| *on).map(|(_, id, finding)| open(id, finding)).collect()
}
