//! What is left of a body, as far as it bounds the instant of death: what was eaten, decay, bones.

use super::take::{At, is, there};
use crate::record::{Answer, Site};
use crate::science::death::decay::Decay;
use crate::science::death::eaten::{self, Eater, Gone};
use crate::science::death::{Found, Looked, Silent, weathering};

impl At<'_, '_, '_> {
    pub(super) fn eaten(&self, look: Looked, found: &mut Found) {
        let gone = match self.lens.choice("body_state", Site::NONE) {
            Some("mostly_eaten") => Gone::Most,
            Some("bones_and_hair") => Gone::All,
            _ => return,
        };
        let listed = |finding| self.lens.choices(finding, Site::NONE).unwrap_or_default();
        let mut who = listed("tracks_by");
        who.extend(listed("droppings_by"));
        who.retain(|animal| *animal != "deer");
        let mut eaters: Vec<(Eater, u16)> = Vec::new();
        if !listed("bird_signs").is_empty() {
            eaters.push((Eater::RavenFlock, 1));
        }
        if who.is_empty() && eaters.is_empty() {
            return;
        }
        let mammals: Option<Vec<Eater>> = who.iter().map(|animal| mammal(animal)).collect();
        let fastest =
            mammals.map(|all| all.into_iter().reduce(|a, b| if a.kg_a_day() >= b.kg_a_day() { a } else { b }));
        let count = self.lens.number("eaters_count", Site::NONE).and_then(|n| u16::try_from(n).ok());
        let counted = match (fastest, count) {
            (None, _) => Err(Silent::UnknownEater),
            (Some(Some(_)), None) => Err(Silent::NeedsCount),
            (Some(Some(kind)), Some(n)) => {
                eaters.push((kind, n));
                Ok(eaters.as_slice())
            }
            (Some(None), _) => Ok(eaters.as_slice()),
        };
        found.add(eaten::bound(gone, self.fawn(), counted, look));
    }

    pub(super) fn decay(&self) -> Decay {
        let lens = self.lens;
        let absent = |finding| matches!(lens.result(finding, Site::NONE), Some(Answer::NotSeen));
        let shows = |how| is(lens, "decay", &[how]);
        let ungnawed = absent("bones_scattered") && absent("tracks_by");
        let slipped = lens.choices("hair_state", Site::NONE).is_some_and(|all| all.contains(&"slipped"));
        Decay {
            fresh: shows("fresh"),
            bloated: shows("bloated_or_soft"),
            hair_slips: slipped,
            flies: there(lens, "fly_eggs_or_maggots") == Some(true),
            bones_only: shows("bones_only"),
            gnawed: !ungnawed,
            frozen: self.frozen() != Some(false),
        }
    }

    pub(super) fn bones(&self, look: Looked, found: &mut Found) {
        use weathering::Stage;
        let stage = match self.lens.choice("bone_weathering", Site::NONE) {
            Some("stage_0") => Some(Stage::S0),
            Some("stage_1") => Some(Stage::S1),
            Some("stage_2") => Some(Stage::S2),
            Some("stage_3") => Some(Stage::S3),
            Some("stage_4") => Some(Stage::S4),
            Some("stage_5") => Some(Stage::S5),
            _ => None,
        };
        if let Some(stage) = stage {
            found.add(weathering::bound(stage, look));
        }
        let on = |sign| there(self.lens, sign) == Some(true);
        let pressed = on("bones_greasy") && on("hair_mat_left") && on("plants_pressed");
        if pressed && !on("plants_grown_through") {
            found.add(weathering::after_leaf_fall(super::seasons::leaf_fall_before(self.look)));
        }
        if on("moss_on_bones") {
            found.add(weathering::grown_over(super::seasons::whole_summer_before(self.look)));
        }
    }
}

fn mammal(animal: &str) -> Option<Eater> {
    match animal {
        "wolf" => Some(Eater::Wolf),
        "coyote" => Some(Eater::Coyote),
        "bobcat_or_lynx" => Some(Eater::Bobcat),
        _ => None,
    }
}
