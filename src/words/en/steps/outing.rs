//! Before leaving, leaving, handing over.

use super::steps;

pub(in crate::words::en) const TEXTS: &[(&str, &str)] = steps! {
    "people_out" {
        "Who goes out today?"
        "Someone at home has to know."
        "Person codes from the card, with a space between."
    }
    "crew_count" {
        "How many of you go out?"
        "You count heads again when you leave."
        "Everybody, you too."
    }
    "roles" {
        "One for the phone, one for the deer?"
        "Clean hands hold the phone, dirty hands never do."
        "Say now who is who."
    }
    "contact_told" {
        "Contact at home told?"
        "This phone cannot call for help."
        "They know where, which way and when you are back."
        none "Not told"
    }
    "backup_told" {
        "Second contact told?"
        "The first one may not pick up."
        "Same plan, another person."
        none "Not told"
    }
    "late_action_agreed" {
        "Agreed what they do if you are late?"
        "Nobody should have to guess tonight."
        "Whom they call, and at what time."
        none "Not agreed"
    }
    "due_back" {
        "When are you due back?"
        "It sets the time to turn round."
        "The time you told your contact."
    }
    "air_temperature" {
        "How cold is it?"
        "Cold and wind decide how long hands last."
        "Air in the shade, in degrees."
    }
    "wind" {
        "How strong is the wind?"
        "Cold and wind decide how long hands last."
        "From the forecast, or held up at your face."
    }
    "wind_read_at" {
        "Where does that wind figure come from?"
        "Wind at face height is weaker than on a mast."
        "Forecasts and weather stations use a mast."
    }
    "permit" {
        "Which permit do you go under?"
        "Without one nothing is taken."
        "The number on your card or paper."
        none "No permit"
    }
    "gear_warmth" {
        "Spare mitts, heat packs, foil sheet?"
        "Wet hands go numb in minutes."
        "Mitts inside the jacket."
        none "Not with us"
    }
    "gear_light_and_whistle" {
        "Headlamp, whistle, bright vest?"
        "It gets dark early under trees."
        "Switch the lamp on once."
        none "Not with us"
    }
    "gear_gloves" {
        "Gloves: three pairs each, over liners?"
        "Thin gloves tear in the cold."
        "One cut-proof glove for the hand without the knife."
        none "Not with us"
    }
    "gear_eyes_and_masks" {
        "Glasses and masks?"
        "Splashes and bone chips reach eyes and mouth."
        "One set each."
        none "Not with us"
    }
    "gear_blades_and_sharps_tube" {
        "Blades in sheaths, hard tube for sharps?"
        "A loose blade cuts you on the way."
        "Field knives only, never from a kitchen."
        none "Not with us"
    }
    "blades_out" {
        "How many blades go out?"
        "The same number has to come back."
        "Knives, scalpels, saws. None is 0."
    }
    "gear_bags_and_labels" {
        "Bags in three sizes, labels that write wet?"
        "A sample without a label is lost."
        "Two outer bags for each deer."
        none "Not with us"
    }
    "gear_scale_card" {
        "Scale card and tape?"
        "A photo without a scale cannot be measured."
        "A ruler will do."
        none "Not with us"
    }
    "gear_water_and_soap" {
        "Water, soap, wipes?"
        "Hands are washed before you eat."
        "One bottle inside the coat so it stays liquid."
        none "Not with us"
    }
    "gear_first_aid" {
        "First aid, with eye rinse?"
        "Cuts are cleaned at once."
        "Dressing, plasters, eye rinse."
        none "Not with us"
    }
    "gear_paper_and_power" {
        "Paper form, two pencils, warm power bank?"
        "Phones die of cold without warning."
        "Map and compass too."
        none "Not with us"
    }
    "blades_back" {
        "How many blades are back?"
        "A blade in the snow finds a foot or a paw."
        "Count them into the tube."
    }
    "bags_sealed" {
        "Every bag closed and wiped?"
        "Nothing leaks in the pack."
        "Two layers. Label between them and outside."
        none "Not done"
    }
    "body_covered_with_snow" {
        "Opened body covered with snow?"
        "People and dogs pass here."
        "Its own snow. Do not drag it."
        none "Not done"
    }
    "litter_packed_out" {
        "All gloves, tags, bags picked up?"
        "Nothing of ours stays."
        "Look round once more."
        none "Not done"
    }
    "glove_torn" {
        "Did a glove tear?"
        "Germs get in through a small cut."
        "Look at both hands, in good light."
        none "No glove tore"
    }
    "gloves_off_inside_out" {
        "Gloves off inside out, in the bag?"
        "The dirty side stays inside."
        "Peel from the wrist. Then clean your hands."
        none "Not done"
    }
    "phone_wiped" {
        "Phone wiped?"
        "It goes to your face later."
        "Alcohol wipe. Nothing wet into the holes."
        none "Not done"
    }
    "examination_closed" {
        "Is this deer's record done?"
        "After this the readings open, the questions close."
        "You can take this back."
    }
    "left_early" {
        "Why did you leave early?"
        "It keeps what was not looked at apart from what is not there."
        "The main reason."
    }
    "hands" {
        "Are your hands clean now?"
        "Before you eat, drink or rub your eyes."
        "Soap and water. Wipes only if they look clean."
    }
    "dirty_tools_aboard" {
        "Used blades wiped, in the hard tube?"
        "They are cleaned at base, not here."
        "Tube closed and bagged twice."
        none "No used blades"
    }
    "heads_counted" {
        "How many of you are here now?"
        "As many as went out."
        "Count aloud."
    }
    "ticks_tonight" {
        "Who checks for ticks tonight?"
        "A cold tick wakes up in a warm car."
        "Neck, hair, waist."
    }
    "contact_told_back" {
        "Is your contact told that you are back safe?"
        "Or they send people to look for you."
        "Both contacts, if both knew."
        none "Not told yet"
    }
    "handed_over" {
        "Who has the bundle now?"
        "It stays on this phone as well."
        "Name of the person or office."
    }
};
