//! The rumen, and snow against the animal.

use super::steps;

pub(in crate::words::en) const TEXTS: &[(&str, &str)] = steps! {
    "rumen_moisture" {
        "How wet is the food in it?"
        "Watery can come from much grain."
        "Press a handful in your glove."
    }
    "rumen_grain" {
        "How much of it is grain?"
        "Much grain at once can harm."
        "Corn, oats, pellets. Half of it or more?"
        none "No grain in it"
    }
    "loose_droppings" {
        "Is its hind end dirty and wet?"
        "Loose droppings can come with much grain."
        "Under the tail and down the legs."
        none "Clean and dry"
    }
    "bench_rumen_method" {
        "How will you measure the plants?"
        "Points and volume are the two common ways."
        "Wash it on a sieve first. Points are quicker."
        none "No rumen here"
    }
    "bench_rumen_points" {
        "Tap the plant under each pin."
        "The points show how much of each it ate."
        "Spread it on a tray. Ten points make a row."
    }
    "bench_rumen_volumes" {
        "How much is there of each plant?"
        "It shows how much of each it ate."
        "One heap a plant. In ml: how far it lifts water. In percent: its part."
    }
    "bench_own_plant" {
        "What is your own plant?"
        "The office has to know what you meant."
        "Its name, or how it looks."
    }
    "bench_rumen_lab" {
        "Is a rumen sample kept for the lab?"
        "A lab finds what the eye cannot."
        "A cup full, sealed, with its label."
        none "None kept"
    }
    "bench_rumen_lab_number" {
        "What is on its label?"
        "The lab's answer comes back under it."
        "Just as it is written."
    }
    "sinking_predator" {
        "How deep do the hunting animal's tracks sink?"
        "Who sinks less runs better."
        "Wolf, coyote, dog or cat. As for the deer."
    }
    "sinking_person" {
        "How deep do you sink on foot?"
        "It tells how firm the snow is."
        "One step beside the trail, no snowshoes."
    }
    "chest_height" {
        "How high is its chest?"
        "It tells how deep it could wade."
        "Leg straight. Breast bone to the hoof's tip."
    }
};
