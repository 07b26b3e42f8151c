//! The bench.

use super::steps;

pub(in crate::words::en) const TEXTS: &[(&str, &str)] = steps! {
    "bench_marrow_bone" {
        "Which bone is on the bench?"
        "Bones empty one after the other."
        "Check the label."
        none "No bone here"
    }
    "bench_marrow_frozen" {
        "Is the marrow thawed now?"
        "Only thawed marrow can be told."
        "Through to the middle, at room warmth."
    }
    "bench_bone_opened" {
        "Was the bone whole when it came?"
        "Marrow dries in air and looks fatter."
        "Before you opened it."
    }
    "bench_marrow_consistency" {
        "How does the marrow hold together?"
        "This tells more than colour."
        "A piece from the middle, on a plate."
    }
    "bench_marrow_see_through" {
        "Does light shine through it?"
        "Fat is cloudy, water is clear."
        "Hold a piece against the lamp."
    }
    "bench_marrow_colour" {
        "What colour is it?"
        "Colour alone can fool you."
        "Middle of the bone, fresh surface."
    }
    "bench_marrow_spoiled" {
        "Is the marrow spoiled?"
        "Spoiled marrow tells nothing."
        "Look and smell."
        none "Not spoiled"
    }
    "bench_marrow_wet" {
        "Weight before drying?"
        "Wet and dry weight give the fat."
        "Without the dish. To a hundredth of a gram."
    }
    "bench_marrow_dry" {
        "Weight after drying?"
        "Wet and dry weight give the fat."
        "Same piece, with the fat that ran out."
    }
    "bench_photo_marrow" {
        "Take a photo of the marrow."
        "Others can look again."
        "Scale and label beside it, even light."
    }
    "bench_growth_plate" {
        "At the bone end: a gap, a line or neither?"
        "The gap closes when it is grown."
        "Just below the knob at the end."
    }
    "bench_jaw_in_view" {
        "Which sides of the jaw are here?"
        "A clean jaw shows what snow and blood hid."
        "Check the label. Neither if no jaw came."
    }
    "bench_cheek_teeth_count" {
        "How many cheek teeth on this side?"
        "Six is a grown jaw, fewer is mostly a fawn."
        "Count what is through the bone."
    }
    "bench_third_tooth" {
        "What is the third cheek tooth like?"
        "Three bumps is a milk tooth, two is a grown one."
        "Count from the front, look from the cheek side."
    }
    "bench_jaw" {
        "Tap each tooth and say how it is."
        "How far they are up and worn tells the age."
        "Dry the teeth. Tongue side, good light."
    }
    "bench_third_molar_back_cusp" {
        "The last bump of the last tooth?"
        "It wears last of all."
        "The small bump at the very back."
    }
    "bench_infundibulum" {
        "How deep is the funnel in this tooth?"
        "It closes with wear."
        "The dark pit between the ridges."
    }
    "bench_premolar_wear" {
        "How worn are the first three?"
        "They wear after they change."
        "Look at the biting edge."
    }
    "bench_mandible" {
        "How long is the lower jaw?"
        "It tells how well it grew."
        "Calipers. Front edge of bone to the back corner."
    }
    "bench_diastema" {
        "How long is the gap without teeth?"
        "It tells how well it grew."
        "Calipers. Back of front teeth to first cheek tooth."
    }
    "bench_front_teeth" {
        "Which front teeth are grown ones?"
        "The middle pair changes first."
        "Grown ones are broad, milk ones are pegs."
    }
    "bench_jaw_trouble" {
        "Anything wrong with the jaw?"
        "Sick or broken jaws wear oddly."
        "Compare left and right."
        none "Nothing wrong"
    }
    "bench_wear_class" {
        "Which wear class do you read?"
        "A second opinion beside the counted one."
        "Only if you read jaws often."
    }
    "bench_femur_width" {
        "How wide is the thigh bone?"
        "It tells how well it grew."
        "Calipers, the narrowest place of the shaft."
    }
    "bench_tooth_row" {
        "How long is the row of teeth?"
        "In a yearling it tells the months."
        "Calipers. Front of first tooth to front of last."
    }
    "bench_dentine_width" {
        "How wide is the brown band?"
        "In a grown deer it tells the years."
        "Calipers. First molar, front bump, cheek side."
    }
    "bench_cementum" {
        "How many years did the lab count?"
        "Rings in the root are counted like a tree's."
        "As on the lab's sheet. It is joined to what you saw."
        none "No answer from the lab"
    }
    "bench_cementum_grade" {
        "How sure is the lab?"
        "A doubtful count weighs less."
        "The lab's own grade, of three."
        none "It gives none"
    }
    "bench_whole_weight" {
        "What did the whole deer weigh?"
        "Scales beat every rule."
        "As it lay, before anything was taken."
        none "Not weighed"
    }
    "bench_dressed_weight" {
        "What did it weigh gutted?"
        "Whole weight follows from it."
        "Head and hide on, all organs out."
        none "Not weighed"
    }
    "bench_rumen_plants" {
        "Which plants are in the rumen sample?"
        "It tells what it had to live on."
        "Wash it through a sieve first."
        none "No rumen here"
    }
    "bench_remark" {
        "Anything else you saw?"
        "What no question asked for."
        "What you saw, not what you think it means."
        none "Nothing more"
    }
    "bench_closed" {
        "Is the bench work on this deer done?"
        "You can take this back."
        "Dry weight can come on a later day."
    }
};
