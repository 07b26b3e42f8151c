//! Time of death: questions and answers.

use super::steps::steps;

pub(super) const STEPS: &[(&str, &str)] = steps! {
    "snowfalls_dated" {
        "How many of the last snowfalls can you date?"
        "Snow over or under a body tells when it died."
        "Up to three. Look it up at home. 0 for none."
    }
    "snowfall_began_at" {
        "When did this snowfall begin?"
        "A body on top of this snow died after that."
        "No. 1 is the last one, no. 2 the one before."
    }
    "snowfall_ended_at" {
        "When did this snowfall end?"
        "A body below this snow died before that."
        "No. 1 is the last one, no. 2 the one before."
    }
    "times_known" {
        "What is known of when it died?"
        "The body cannot be older than the last look."
        "Ask who was here last, and who reported it."
        none "Nothing is known"
    }
    "place_clear_at" {
        "When was the place last seen without it?"
        "It died, or came here, after that."
        "Only if the body would have been seen."
    }
    "seen_alive_at" {
        "When was this deer last seen alive?"
        "It died after that."
        "Only if it is surely the same deer."
    }
    "seen_to_die_at" {
        "When was it seen to die?"
        "Then nothing else has to tell it."
        "As told by who saw it, or by the camera."
    }
    "collar_switched_at" {
        "When did the collar signal change?"
        "It changes some hours after the deer lies still."
        "Ask who follows the collar."
    }
    "collar_delay" {
        "How long does that collar wait?"
        "The deer lay still that long before."
        "Ask who follows the collar. In minutes."
    }
    "fall_over" {
        "What is the oldest snowfall on top of it?"
        "It died before that snow stopped."
        "Look at the edge of the snow, do not dig."
    }
    "fall_over_lie" {
        "How does that snow lie?"
        "Blown snow proves less than fallen snow."
        "Walk round. Compare with the snow near by."
    }
    "fall_under" {
        "What is the newest snowfall under it?"
        "It died after that snow began."
        "Look along the edge. Do not lift it."
    }
    "melt_signs" {
        "Do you see any of these at the body?"
        "They tell of a thaw since it died."
        "On it and below it. Do not dig."
        none "None of these"
    }
    "event_tracks_cut" {
        "Which snowfall do the run marks cut into?"
        "The chase came after that snow began."
        "The newest snow that they break."
    }
    "event_tracks_filled" {
        "Which snowfall lies in the run marks?"
        "The chase came before that snow stopped."
        "The oldest snow that lies in them."
        none "No snow lies in them"
    }
    "blood_layer" {
        "In which snowfall is the blood?"
        "Blood fell while that snow was on top."
        "Look at the edge of a hole that is there."
    }
    "blood_state" {
        "What is the blood on the snow like?"
        "In hard frost it freezes within two hours."
        "Look only: wet and red, or set hard?"
    }
    "eaters" {
        "How many animals fed on it?"
        "Many eat it fast, one takes days."
        "Count track lines. Leave it if you are not sure."
    }
    "eyes" {
        "What do the eyes look like?"
        "They cloud and sink in hours if it is not cold."
        "From beside the head. Do not bend over it."
    }
    "flies" {
        "Are there fly eggs or maggots?"
        "Flies need a warm day after it died."
        "Eyes, nose, mouth, wounds, under the tail."
        none "No eggs, no maggots"
    }
    "bone_weathering" {
        "What does the surface of the bones look like?"
        "It tells this winter from an older one."
        "A long bone, on the side up to the sky."
    }
    "spring_signs" {
        "Which of these are at the bones?"
        "They tell which winter it was."
        "Bones, hair, and the plants below."
        none "None of these"
    }
    "stiffness" {
        "Where is it stiff?"
        "It stiffens from the jaw and goes limp again."
        "Gloved: move the jaw, then the hind legs."
    }
    "warmth" {
        "Do you feel or see any of these?"
        "They are gone a few hours after it died."
        "Hand under the foreleg. Tap the thigh once."
        none "None of these"
    }
    "thigh_temperature" {
        "How warm is it deep in the thigh?"
        "Deep flesh cools slowly and tells the hours."
        "Probe 8 to 10 cm deep, wait till it holds."
    }
    "nose_temperature" {
        "How warm is the root of the nose?"
        "It tells the first four hours."
        "Probe deep in the nose, wait till it holds."
    }
    "air_now" {
        "How cold is the air beside it?"
        "The body cools towards this."
        "In the shade, at the height of the body."
    }
    "probed_at" {
        "When did you read the probe?"
        "The hours are counted back from here."
        "The time of the first reading."
    }
    "parts_frozen" {
        "Which parts are frozen hard?"
        "Frost needs days to get through."
        "Press with the fist: thin parts first."
        none "None is hard"
    }
};

pub(super) const OPTIONS: &[(&str, &str)] = &[
    ("finding.snowfalls_dated_count", "Snowfalls dated"),
    ("finding.snowfall_began_at", "Snowfall began"),
    ("finding.snowfall_ended_at", "Snowfall ended"),
    ("finding.times_known", "Known of the time"),
    ("option.times_known.place_without_body", "Place seen without it"),
    ("option.times_known.seen_alive", "Seen alive"),
    ("option.times_known.seen_to_die", "Seen to die"),
    ("option.times_known.collar_signal", "Collar signal changed"),
    ("finding.place_clear_at", "Place seen without it"),
    ("finding.seen_alive_at", "Seen alive"),
    ("finding.collar_switched_at", "Collar signal changed"),
    ("finding.collar_delay_min", "Collar waits"),
    ("finding.fall_over", "Oldest snowfall on it"),
    ("finding.fall_over_lie", "How that snow lies"),
    ("finding.fall_under", "Newest snowfall under it"),
    ("finding.event_tracks_cut", "Run marks cut into"),
    ("finding.event_tracks_filled", "Run marks filled by"),
    ("finding.blood_layer", "Blood in"),
    ("option.last_fall", "The last snowfall"),
    ("option.second_last_fall", "The one before"),
    ("option.third_last_fall", "The third last"),
    ("option.older_fall", "Older"),
    ("option.two_sides", "Undisturbed on 2 sides or more"),
    ("option.one_side", "Undisturbed on one side"),
    ("option.drifted", "Blown on or blown off"),
    ("finding.crust_over_body", "Ice crust on it or on its blood"),
    ("finding.on_pedestal", "Body on a raised block of snow"),
    ("finding.eaters_count", "Animals that fed"),
    ("finding.eyes", "Eyes"),
    ("option.clear_and_round", "Clear, shiny, round"),
    ("option.sunken_or_cloudy", "Sunken or cloudy"),
    ("option.eyes_gone", "Gone"),
    ("finding.blood_state", "Blood on the snow"),
    ("option.liquid_or_smears", "Liquid, or smears red"),
    ("option.frozen_or_dry", "Frozen or dry"),
    ("finding.stiffness", "Stiffness"),
    ("option.limp", "Limp all over"),
    ("option.jaw_only", "Jaw stiff, hind legs limp"),
    ("option.all_over", "Stiff all over"),
    ("finding.body_warm", "Steams, or warm under foreleg"),
    ("finding.muscle_twitch", "Muscle twitches when tapped"),
    ("finding.thigh_c", "Deep in the thigh"),
    ("finding.belly_c", "Deep in the belly"),
    ("finding.nose_c", "Root of the nose"),
    ("finding.air_now_c", "Air beside it"),
    ("finding.probed_at", "Probe read"),
    ("finding.leg_frozen_hard", "Lower leg"),
    ("finding.neck_frozen_hard", "Neck"),
    ("finding.thigh_frozen_hard", "Thigh"),
    ("finding.trunk_frozen_hard", "Belly, hard to the middle"),
    ("finding.fly_eggs_or_maggots", "Fly eggs or maggots"),
    ("finding.bone_weathering", "Surface of the bones"),
    ("option.stage_0", "Smooth, greasy, no cracks"),
    ("option.stage_1", "Cracks along the bone"),
    ("option.stage_2", "Outer flakes lift at the cracks"),
    ("option.stage_3", "Rough, fibrous patches"),
    ("option.stage_4", "Coarse, loose splinters"),
    ("option.stage_5", "Falls apart"),
    ("finding.bones_greasy", "Bones feel or look greasy"),
    ("finding.hair_mat_left", "A mat of its hair"),
    ("finding.plants_pressed", "Plants pressed flat below"),
    ("finding.plants_grown_through", "Plants grown through it"),
    ("finding.moss_on_bones", "Moss, green or roots on bones"),
];
