//! Approach, stand-off look, and the story in the snow.

use super::steps;

pub(in crate::words::en) const TEXTS: &[(&str, &str)] = steps! {
    "land_leave" {
        "Whose land is it, and may you be there?"
        "Without leave you stop at the line."
        "Ask before you cross."
    }
    "ground_again" {
        "Any of these on the ground or road here?"
        "Every place is new, even on the same day."
        "Look at each again, here, before you tap."
    }
    "ground" {
        "What do you see on the ground ahead?"
        "Ice, slopes and trees hurt more crews than any deer."
        "Look at the ice, up the slope, up the trees."
        none "None of these"
    }
    "clear_ice" {
        "How thick is the clear ice?"
        "Nobody steps on ice that was not measured."
        "Drill or chop every few steps. The thinnest counts."
    }
    "white_ice" {
        "How thick is the white ice?"
        "White ice is about half as strong."
        "Drill or chop every few steps. The thinnest counts."
    }
    "ice_items" {
        "Which of these do you have on the ice?"
        "Without all of them nobody steps on it."
        "Stated by the lead who lets you on."
        none "None of these"
    }
    "slope_here" {
        "How steep is it where you stand?"
        "Snow slides from 30 degrees."
        "Lay a pole on the slope, phone level on the pole."
    }
    "slope_above" {
        "How steep is it above you?"
        "A slide comes from above."
        "Sight along the pole to the steepest part."
    }
    "road_and_people" {
        "What else is here?"
        "It changes who stands where."
        "Road, people with you, a deer you know from before."
        none "None of these"
    }
    "report_outcome" {
        "What is at the place?"
        "The report gets its answer."
        "Look from here. Do not walk in yet."
    }
    "place" {
        "Where does it lie?"
        "The place is needed for everything later."
        "Hold still for a moment, phone to the sky."
    }
    "place_words" {
        "Where does it lie, in words?"
        "There is no position from the phone."
        "Trail, bend, tree, distance."
    }
    "arrived" {
        "When did you arrive?"
        "It bounds the time of death."
        "Now, unless you stood here a while."
    }
    "walk_out" {
        "How many minutes to walk back?"
        "It sets the time to turn round."
        "As long as you took to get here, or more."
    }
    "alive" {
        "Is it dead?"
        "A hurt deer kicks. Do not go near it."
        "Watch the ribs and the ears for a minute."
    }
    "species" {
        "What animal is it?"
        "The methods hold for white-tailed deer only."
        "Tail white below, antlers with one main beam."
    }
    "look_round_again" {
        "Once round: any of these here?"
        "You know them from the carcass before."
        "From where you stand. Turn once all the way round."
        done "We showed each other our tracks; I looked for each: none"
    }
    "animals_about" {
        "Is any animal at it, or just gone?"
        "It may come back to its food."
        "Stop, look, listen. Fallen snow is no cover."
        none "None of these"
    }
    "cover_with" {
        "What is it covered with?"
        "Some animals hide their food."
        "Not snow that fell. What was scraped on."
    }
    "others_dead_or_sick" {
        "Any other dead or sick animal?"
        "More than one can mean poison or disease."
        "Turn once all the way round. Touch nothing."
        none "None of these"
    }
    "people_on_body" {
        "Any of these on the deer?"
        "It may be evidence."
        "From where you stand. Do not step closer."
        none "None of these"
    }
    "people_round_body" {
        "Any of these near it?"
        "It may be evidence."
        "Look along every track that leads to it."
        none "None of these"
    }
    "tags" {
        "Any tag or collar on it?"
        "Somebody knows this deer."
        "Ears, neck, legs. A photo first."
        none "None of these"
    }
    "tag_number" {
        "What is written on it?"
        "The owner finds the deer by it."
        "Every letter and number, and the colour."
    }
    "witness_behaviour" {
        "Did anyone see it act oddly?"
        "It tells of sickness in the head."
        "Ask who saw it alive."
        none "Seen alive, acted normal"
    }
    "danger_signs" {
        "Do you see any of these on it?"
        "They decide whether you may touch it."
        "Nose, mouth, tail, belly, ribs."
        none "None of these"
    }
    "photo_scene" {
        "Take one photo of the whole place."
        "The snow will not look like this again."
        "From here, before anyone walks in."
    }
    "evidence_note" {
        "What exactly do you see?"
        "An officer will ask for it."
        "Measure, do not guess. What, where, how big."
    }
    "own_tracks" {
        "Show each other whose tracks are whose."
        "Your own and the finder's tracks are left out."
        "One path in, the same path out."
    }
    "body_state" {
        "How much of the body is left?"
        "It decides what can still be looked at."
        "Whole means nothing eaten."
    }
    "record_length" {
        "Only scraps: how much to record?"
        "Light and warmth may be wanted elsewhere."
        "Short: who ate, last snow, fawn or older. No list of photos."
    }
    "snow_over_body" {
        "How much snow lies on it?"
        "It tells whether it died before the last snow."
        "Snow that fell, not snow scraped over it."
    }
    "snow_over_body_depth" {
        "How deep is the snow on it?"
        "It counts the snowfalls since."
        "Middle of the body, straight down."
    }
    "body_buried" {
        "How much of it is in the snow?"
        "What is buried cannot be looked at."
        "Dig only if your lead says so."
    }
    "snow_under_body" {
        "What is under it, at the edge?"
        "A warm body melts the snow below it."
        "Look along the edge. Do not lift it."
    }
    "snow_depth" {
        "How deep is the snow here?"
        "Deep snow costs deer their strength."
        "Beside the body, where nobody walked."
    }
    "sinking_depth" {
        "How deep do deer tracks sink?"
        "It tells how hard it was to run."
        "Bottom of a deer track to the top of the snow."
    }
    "snow_crust" {
        "Is there a crust, and what does it hold?"
        "It decides who can run and who breaks through."
        "Press with your hand, then step on it."
    }
    "snow_signs" {
        "Which of these are in the snow?"
        "The snow tells what happened last."
        "Walk round once, outside the tracks."
        none "None of these"
    }
    "blood_where" {
        "Where is the blood?"
        "It tells where the bleeding began."
        "Follow it away from the body a little."
    }
    "drag_length" {
        "How far was it dragged?"
        "Some animals drag their food."
        "Start of the mark to the body."
    }
    "hair_state" {
        "What does the loose hair look like?"
        "Plucked, torn and rotten hair look different."
        "Look at the root ends."
    }
    "tracks_by" {
        "Whose tracks come to it?"
        "They tell who was here, not what happened."
        "Only what you are sure of. A photo with scale."
        none "No tracks"
    }
    "droppings_by" {
        "Whose droppings are here?"
        "They tell who ate here."
        "Do not touch them, do not breathe close."
        none "No droppings"
    }
    "bird_signs" {
        "What did birds leave?"
        "Birds find a body within hours or days."
        "White streaks, feathers, wing marks in the snow."
        none "No bird signs"
    }
    "round_the_body" {
        "Do you see these near the body?"
        "They tell how it lived and how long it lies here."
        "Within twenty steps."
        none "None of these"
    }
    "body_position" {
        "How does it lie?"
        "How it lies tells how it came to lie."
        "As it is now. Do not turn it."
    }
    "body_frozen" {
        "Is it frozen?"
        "Frozen hides signs: stiff tells nothing then."
        "Push an ear with your pole. If you may not: No answer."
    }
    "limp" {
        "Does it hang limp?"
        "It should be stiff some hours after death."
        "Lift a leg with your pole."
        none "Not limp"
    }
    "quick_class" {
        "Fawn of last summer, or older?"
        "A fawn lives by other limits than a grown deer."
        "Short face and short body is a fawn."
    }
    "parts_eaten" {
        "Which parts are eaten?"
        "Each animal starts at its own place."
        "Any part with flesh gone."
    }
    "decay" {
        "How fresh does it look?"
        "Rot can look like hunger or wounds."
        "Look at the eye and the belly skin."
    }
    "rumen_lying_out" {
        "Where is the big stomach?"
        "It holds the last meals."
        "A pale ball, or a heap of chewed plants. Look only."
        none "Not there"
    }
    "rumen_plants_lying_out" {
        "Which plants do you see in it?"
        "It tells what it had to live on."
        "Turn it with a stick, not with your hand."
    }
    "sex_evidence" {
        "Which signs of sex do you see?"
        "No antlers in winter does not make it a doe."
        "Brow, and under the tail. Touch nothing."
        none "None of these"
    }
    "sex_called" {
        "Is it a female or a male?"
        "Only if you saw what tells."
        "Not by size."
    }
    "scene_photographed" {
        "Photos of each side, with the scale?"
        "After this you leave tracks of your own."
        "All four sides, and the way in."
        none "No photos"
    }
    "remark" {
        "Anything else you saw?"
        "What no question asked for."
        "What you saw, not what you think it means."
        none "Nothing more"
    }
    "cold_signs" {
        "Does anyone do one of these?"
        "The cold has them before they know it."
        "Look at each other, not at yourself."
        none "Nobody"
    }
};
