//! The laboratory's sheet and a known age.

use super::steps;

pub(in crate::words::en) const TEXTS: &[(&str, &str)] = steps! {
    "bench_cementum_lab" {
        "Which lab counted?"
        "Labs differ."
        "As on the lab's sheet."
        none "Not named"
    }
    "bench_cementum_tooth" {
        "Which tooth did the lab cut?"
        "First incisors are read best."
        "As on the lab's sheet."
        none "It does not say"
    }
    "bench_cementum_sample" {
        "Which number is on the sample?"
        "The count must be this deer's."
        "Compare the lab's sheet with your label."
        none "No number"
    }
    "bench_cementum_reported" {
        "When did the lab report?"
        "A later sheet may correct an earlier one."
        "The date on the lab's sheet."
        none "No date"
    }
    "bench_known_age" {
        "Is its age known, and how many birthdays?"
        "Known ages show how well teeth are read."
        "From a tag put in as a fawn. Not from teeth."
        none "Not known"
    }
    "bench_known_age_how" {
        "How is its age known?"
        "Only a sure age can be held against a reading."
        "As in the office's list of tags."
    }
};
