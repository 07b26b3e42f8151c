//! Fat in the opened body and on the bench.

use super::steps;

pub(in crate::words::en) const TEXTS: &[(&str, &str)] = steps! {
    "fat_parts" {
        "Which fat can you still see?"
        "Fat goes from one store after the other."
        "Tap what is there and open to the eye. Leave out what is eaten."
        none "None of them"
    }
    "rump_fat" {
        "How thick is the fat on the rump?"
        "Fat under the skin goes first."
        "Cut across beside the tail. Thick is over a finger."
    }
    "muscle_mass" {
        "How is the meat along the back?"
        "It goes thin when the fat runs out."
        "Beside the backbone, over the loin."
    }
    "brisket_fat" {
        "How much fat is on the breast?"
        "Fat under the skin goes first."
        "Between the front legs, skin off."
    }
    "gut_fat" {
        "How much fat is on the gut?"
        "It goes next, after the skin's."
        "The thin apron over the gut and the folds that hold it."
    }
    "kidney_fat" {
        "How much fat is round the kidneys?"
        "It goes before the marrow."
        "Up by the backbone. Look before you pull."
    }
    "heart_fat" {
        "How much fat is in the heart's groove?"
        "It goes late, before the marrow."
        "The ring round the top of the heart."
    }
    "pericardial_fat" {
        "How much fat is on the heart's bag?"
        "It goes late, before the marrow."
        "The thin bag round the heart, outside."
    }
    "fat_watery" {
        "Which of this fat is wet, like jelly?"
        "Then it is no fat any more."
        "Press it. Clear and wet, or firm and white?"
        none "None, it is all firm"
    }
    "organs_taken" {
        "What did you take for the bench?"
        "They are weighed with their fat."
        "Kidneys with all their fat on, one bag each."
        none "Nothing"
    }
    "bench_fat_parts" {
        "Which of these came to the bench?"
        "Each is looked at or weighed."
        "Tap what lies before you."
        none "None of them"
    }
    "bench_rump_fat" {
        "How thick is the fat on the rump?"
        "Fat under the skin goes first."
        "Cut across beside the tail. Thick is over a finger."
    }
    "bench_rump_fat_mm" {
        "How thick is it at the thickest?"
        "Kept for later rules."
        "Ruler on the cut edge. 0 for none."
    }
    "bench_muscle_mass" {
        "How is the meat along the back?"
        "It goes thin when the fat runs out."
        "Beside the backbone, over the loin."
    }
    "bench_brisket_fat" {
        "How much fat is on the breast?"
        "Fat under the skin goes first."
        "Between the front legs, skin off."
    }
    "bench_gut_fat" {
        "How much fat is on the gut?"
        "It goes next, after the skin's."
        "The thin apron over the gut and the folds that hold it."
    }
    "bench_kidney_fat" {
        "How much fat is round the kidneys?"
        "It goes before the marrow."
        "As they came, before you cut."
    }
    "bench_heart_fat" {
        "How much fat is in the heart's groove?"
        "It goes late, before the marrow."
        "The ring round the top of the heart."
    }
    "bench_pericardial_fat" {
        "How much fat is on the heart's bag?"
        "It goes late, before the marrow."
        "The thin bag round the heart, outside."
    }
    "bench_fat_watery" {
        "Which of this fat is wet, like jelly?"
        "Then it is no fat any more."
        "Thawed through. Clear and wet, or firm and white?"
        none "None, it is all firm"
    }
    "bench_kidneys_here" {
        "Which kidneys are here?"
        "Two tell more than one."
        "Check the label."
    }
    "bench_kidney_trim" {
        "How do you trim the fat?"
        "Each way gives a figure of its own."
        "Both ways: weigh the part between the cuts first."
    }
    "bench_kidney_fat_cut" {
        "What does the fat between the cuts weigh?"
        "Fat against kidney gives the figure."
        "Cut straight just before and behind the kidney."
    }
    "bench_kidney_fat_whole" {
        "What does all its fat weigh?"
        "Fat against kidney gives the figure."
        "All that tears off with it. Add what you cut before."
    }
    "bench_kidney" {
        "What does the bare kidney weigh?"
        "Without it the fat gives no figure."
        "Fat and skin off."
    }
    "bench_jaw_cavity" {
        "Which sides of the jaw did you empty?"
        "The soft stuff in the jaw holds fat, too."
        "Cut it open with a saw, behind the gap."
        none "Neither, nothing in it"
    }
    "bench_cavity_wet" {
        "Weight before drying?"
        "Wet and dry weight give the fat."
        "Without the dish. To a hundredth of a gram."
    }
    "bench_cavity_dry" {
        "Weight after drying?"
        "Wet and dry weight give the fat."
        "Same piece, with the fat that ran out."
    }
    "bench_marrow_lab" {
        "What percent did the lab find?"
        "It joins what you saw."
        "As on the lab's sheet, for this bone."
        none "No answer from the lab"
    }
    "bench_marrow_lab_scale" {
        "Percent of what?"
        "Dry weight is not fat: they are 7 points apart."
        "Read the sheet's heading. Ask if it is not there."
    }
    "bench_reference_of" {
        "Is there a weight to set it against?"
        "Loss is told only against a weight."
        "Its own in autumn, or the herd's for sex and age."
        none "There is none"
    }
    "bench_reference_low" {
        "That weight, at the least?"
        "A span is more honest than one number."
        "Weighed once: the same number twice."
    }
    "bench_reference_high" {
        "That weight, at the most?"
        "A span is more honest than one number."
        "Weighed once: the same number twice."
    }
};
