//! Outside, opened, samples.

use super::steps;

pub(in crate::words::en) const TEXTS: &[(&str, &str)] = steps! {
    "touching_allowed" {
        "May you touch this deer?"
        "The record is good without touching."
        "Only who is named for it. If in doubt, no."
        none "No, hands off"
    }
    "thumb_to_finger" {
        "Touch thumb to little finger. Easy?"
        "Hands get clumsy before they feel cold."
        "Both hands, gloves on."
    }
    "insects" {
        "Any live ticks or flat flies on it?"
        "They crawl over to you."
        "Part the hair at ears, neck and chest."
        none "None of these"
    }
    "body_looked_over" {
        "How much of it did you look over?"
        "Only what was looked at can be called not there."
        "Part the hair. Turn it once if it is not frozen down."
    }
    "wounds_outside" {
        "Any hole, tear, cut or scrape?"
        "Wounds before death bleed under the skin."
        "Throat first, then head, back, belly, legs."
        none "No wound"
    }
    "wounds_count" {
        "How many wounds?"
        "Each is described on its own."
        "A pair of holes counts as one. At most 9."
    }
    "wound_region" {
        "Where is this wound?"
        "Each animal bites at its own place."
        "Start with the biggest."
    }
    "wound_form" {
        "What does it look like?"
        "Teeth, claws, metal and wire leave their own marks."
        "Put the scale beside it for the photo."
    }
    "wound_bleeding" {
        "Is there a clot in the flesh round it?"
        "Only a living body bleeds into the flesh."
        "Look under the edge of the skin. No fingers in it."
    }
    "bruising" {
        "Where is the skin bruised?"
        "Bruises come from before death."
        "Dark red under the skin, where it is open."
        none "No bruise"
    }
    "bones_broken" {
        "Which bones are broken?"
        "Bones can break inside whole skin."
        "Look for a bend that should not be there."
        none "No broken bone"
    }
    "leg_disease" {
        "Which of these are on the legs?"
        "A lame deer feeds badly and runs badly."
        "Compare left and right."
        none "None of these"
    }
    "hind_foot" {
        "How long is the hind foot?"
        "It tells how well it grew as a fawn."
        "Heel point to tip of hoof, straight along the tape."
    }
    "antler_beam" {
        "How long is the longer antler, along its curve?"
        "It parts yearlings from older bucks."
        "From the base along the outside of the main beam."
    }
    "pelvis_knobs" {
        "Two knobs under the rear of the pelvis?"
        "Grown bucks have them, does do not."
        "Underside, beside the seam, at the rear edge."
    }
    "chest_girth" {
        "How far is it round the chest?"
        "It tells about what the deer weighed."
        "Close behind the forelegs, tape snug, hair flat."
    }
    "body_length" {
        "How long is the body?"
        "With the girth it tells the weight better."
        "Tip of the nose along the back to the root of the tail."
    }
    "sex_handled" {
        "What do you find, gloved?"
        "No antlers in winter does not make it a doe."
        "Feel the brow for knobs. Look between the hind legs."
        none "None of these"
    }
    "belly_dents" {
        "Press your fist into the belly. Does it dent?"
        "A frozen body is not cut: blades slip."
        "With your gloved fist, not with a blade."
    }
    "opening_trained" {
        "Who here is trained to open a deer?"
        "Untrained, you skip it. The record stands."
        "Named on the card, or trained and here."
        none "Nobody here"
    }
    "lumps_and_bladders" {
        "Any lumps or clear bladders inside?"
        "If there are, the cutting ends here."
        "Ribs, lungs, liver. Look before you cut on."
        none "None of these"
    }
    "rumen" {
        "Is the big stomach there?"
        "It holds the last meals."
        "Left side, behind the ribs."
        none "Not there"
    }
    "rumen_fill" {
        "How full is it?"
        "A full one does not mean well fed."
        "Before you open it."
    }
    "rumen_smell" {
        "What does it smell like?"
        "Sour can come from much grain."
        "Do not put your face to it."
    }
    "rumen_plants" {
        "Which plants do you see in it?"
        "It tells what it had to live on."
        "Spread a handful on snow."
    }
    "fetuses_count" {
        "How many fetuses?"
        "Twins tell of a well fed autumn."
        "A knob of the womb's lining is no fetus."
    }
    "fetus_length" {
        "How long is this one?"
        "It tells when it was conceived."
        "Forehead to rump along the back, legs left out."
    }
    "fetus_sex" {
        "Which sex is this one?"
        "Small ones cannot be told by eye."
        "If in doubt, say so."
    }
    "fetus" {
        "Is there a fetus?"
        "Birth fluids carry germs. Mask and eyes on."
        "Do not open the womb to find out."
        none "No fetus"
    }
    "urine" {
        "Did urine get on anyone or anything?"
        "Urine can carry germs."
        "Bladder, kidneys, wet snow."
        none "No"
    }
    "jaw_taken" {
        "Did you take the lower jaw?"
        "The teeth tell the age."
        "Lower jaw only. Skull and spine stay closed."
        none "Not taken"
    }
    "femur_taken" {
        "Did you take a thigh bone?"
        "Its marrow is looked at thawed, on the bench."
        "Whole if you can. Do not saw it here."
        none "Not taken"
    }
    "head_work_wanted" {
        "Did the office ask you for head parts?"
        "Only who is named on the card may take them."
        "Skull and spine stay closed all the same."
        none "Not asked"
    }
    "scat_collected" {
        "Will you take droppings along?"
        "The eggs in them make people ill."
        "Mask on, bag turned inside out."
        none "Left there"
    }
    "other_samples" {
        "How many other things did you take?"
        "Each gets a label of its own."
        "Without jaw and thigh bone. None is 0."
    }
    "sample_what" {
        "What is in this bag?"
        "The lab must know before it opens it."
        "One thing a bag."
    }
    "sample_number" {
        "What number is on its label?"
        "It ties the bag to this record."
        "As written on the label."
    }
    "sample_sealed" {
        "Closed, wiped and sealed?"
        "A sealed bag proves that nobody changed it."
        "Two layers. A photo of bag and label."
        none "Not sealed"
    }
    "sample_across_line" {
        "Does it cross a county or state line?"
        "Some parts may not leave the area."
        "If you do not know, it stays inside."
    }
};
