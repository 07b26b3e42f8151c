//! Signs that speak of the cause: never which cause.

use super::steps;

pub(in crate::words::en) const TEXTS: &[(&str, &str)] = steps! {
    "search_people" {
        "Look again for people. Any of these?"
        "What you saw so far calls for a second look."
        "By eye only, from your own tracks. Touch nothing."
        none "None of these"
    }
    "snow_readable" {
        "Can you still read the snow round it?"
        "Snow that fell, blew or melted since hides what happened."
        "Look at the edges of the prints round the body."
    }
    "tracks_main" {
        "Which prints are most, and nearest to it?"
        "Eaters come later than what happened."
        "Not prints on top of the last snow, nor blurred ones."
    }
    "death_place" {
        "What kind of place is it?"
        "A deer picks some places, and others catch it."
        "Where the body lies, not where parts were dragged."
    }
    "road_distance" {
        "How far is the nearest road with cars?"
        "A hit deer can walk on for a while."
        "From the map or the walk. Snow machine trails do not count."
    }
    "feeding_began" {
        "Where did the eating begin?"
        "It tells who ate, and no more."
        "The part most eaten, or eaten longest."
        none "Nothing eaten"
    }
    "bones_fed_on" {
        "What did teeth do to the bones?"
        "Few jaws can crush a thigh bone."
        "Look at the ends of ribs, blades and legs."
    }
    "rump_stained" {
        "Is the rump stained with runny dung?"
        "A sick gut shows there."
        "Under the tail and down the hind legs."
        none "Clean"
    }
    "pedicles" {
        "Pus or pits at the antler bases?"
        "Bucks can rot there, under whole skin."
        "Look only, and along the seams of the brow. No hands."
        none "None"
    }
    "body_thaw" {
        "Has any part frozen and thawed again?"
        "Thawed flesh stains red as if it were bruised."
        "Limp in hard cold, wet hair, a warm day since."
    }
    "wound_bleeding_thawed" {
        "Is there a clot in the flesh at this wound?"
        "Thawing reddens flesh where no bruise was."
        "A thick clot round the hole counts. Red all over does not."
    }
    "clot_wiped" {
        "Wipe it with snow. Does the clot stay?"
        "A clot sits in the flesh, a stain lies on it."
        "Wipe the flesh at the hole twice."
    }
    "upper_canines" {
        "How far apart are the two upper holes?"
        "Jaws differ in width."
        "Middle to middle, on the flesh side, from one bite."
    }
    "lower_canines" {
        "How far apart are the two lower holes?"
        "The lower jaw is narrower."
        "Middle to middle. Only if the same bite shows both jaws."
    }
    "wound_zone_main" {
        "Where are most wounds with a clot?"
        "Each animal bites at its own place."
        "Only wounds with a clot. Feeding leaves none."
    }
    "hide_marks" {
        "Any of these in the skin?"
        "Claws and metal leave their own marks."
        "Part the hair, neck to rump. No fingers in a hole."
        none "None of these"
    }
    "skinned" {
        "Which parts did you skin?"
        "A bruise shows on the flesh side only."
        "Neck and head first, both sides. A photo of each."
        none "None"
    }
    "bruise_under_skin" {
        "What is under the skin there?"
        "Thawed flesh and the side it lay on turn red too."
        "A clot counts only round a hole. Wipe it."
        none "Pale, no blood"
    }
    "inside_fat" {
        "How much fat is round kidneys and heart?"
        "It goes after the fat on the rump."
        "White and firm is fat. Clear jelly is none."
    }
    "trauma_inside" {
        "Any of these inside?"
        "Skin can be whole over a crushed chest."
        "Ribs, pelvis, spine, liver, lungs, the skin between."
        none "None of these"
    }
    "lungs" {
        "What do lungs and windpipe look like?"
        "Foam alone says little."
        "Press one. Healthy lung is soft and floats."
    }
    "rumen_mostly" {
        "What is most of it?"
        "Some food harms a deer that is not used to it."
        "By the handful, from three places."
    }
};
