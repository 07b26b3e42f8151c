//! The lower jaw and the marrow, in the field.

use super::steps;

pub(in crate::words::en) const TEXTS: &[(&str, &str)] = steps! {
    "jaw_in_view" {
        "Which lower cheek teeth can you see?"
        "The teeth tell the age best."
        "As it lies. Never pry a mouth open."
    }
    "cheek_teeth_count" {
        "How many cheek teeth stand on this side?"
        "Six is a grown jaw, fewer is mostly a fawn."
        "Lower jaw, behind the gap. Count what is through the gum."
    }
    "third_tooth" {
        "What is the third cheek tooth like?"
        "Three bumps is a milk tooth, two is a grown one."
        "Count from the front, look from the cheek side."
    }
    "jaw" {
        "Tap each tooth and say how it is."
        "How far they are up and worn tells the age."
        "Start at the front. Tongue side of each tooth."
    }
    "third_molar_back_cusp" {
        "The last bump of the last tooth?"
        "It wears last of all."
        "The small bump at the very back."
    }
    "premolar_wear" {
        "How worn are the first three?"
        "They wear after they change."
        "Look at the biting edge."
    }
    "mandible" {
        "How long is the lower jaw?"
        "It tells how well it grew."
        "Front edge of bone to the back corner, straight."
    }
    "diastema" {
        "How long is the gap without teeth?"
        "It tells how well it grew."
        "Back of front teeth to first cheek tooth."
    }
    "front_teeth" {
        "Which front teeth are grown ones?"
        "The middle pair changes first."
        "Grown ones are broad, milk ones are pegs."
    }
    "jaw_trouble" {
        "Anything wrong with the jaw?"
        "Sick or broken jaws wear oddly."
        "Compare left and right."
        none "Nothing wrong"
    }
    "photo_jaw" {
        "Take a photo of the teeth."
        "The office looks again."
        "From above, scale beside it, no flash."
    }
    "marrow_bone" {
        "Which long bone is broken open?"
        "Marrow is the last fat to go."
        "Thigh bone is best. Break one only if the card lets you."
        none "None is open"
    }
    "bone_opened" {
        "How long has it been open?"
        "Marrow dries in air and looks fatter."
        "Fresh breaks are wet and pink."
    }
    "marrow_frozen" {
        "Is the marrow frozen?"
        "Frozen, thin marrow looks like fat."
        "Press with a stick. Hard as ice is frozen."
    }
    "marrow_consistency" {
        "How does the marrow hold together?"
        "This tells more than colour."
        "Hold it in your gloved hand. Middle of the bone."
    }
    "marrow_see_through" {
        "Does light shine through it?"
        "Fat is cloudy, water is clear."
        "Hold a piece against the sky."
    }
    "marrow_colour" {
        "What colour is it?"
        "Colour alone can fool you."
        "Middle of the bone, fresh surface."
    }
    "marrow_spoiled" {
        "Is the marrow spoiled?"
        "Spoiled marrow tells nothing."
        "Look and smell from a distance."
        none "Not spoiled"
    }
    "photo_marrow" {
        "Take a photo of the marrow."
        "The office looks again."
        "In the shade, on snow, scale beside it."
    }
    "growth_plate" {
        "At the bone end: a gap, a line or neither?"
        "The gap closes when it is grown."
        "Just below the knob at the end."
    }
    "cannon_plate" {
        "Lower end of the hind cannon bone: gap, line, neither?"
        "It tells fawn from grown without a head."
        "The long bone above the hoof, just above its knobs."
    }
};
