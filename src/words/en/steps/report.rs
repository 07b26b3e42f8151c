//! A report, before anybody goes.

use super::steps;

pub(in crate::words::en) const TEXTS: &[(&str, &str)] = steps! {
    "report_seen_by" {
        "Who saw the deer first?"
        "It tells how sure the first news is."
        "The person who saw it, not the one who phoned."
    }
    "report_state" {
        "Was it dead when they saw it?"
        "A live deer is not for this form."
        "As told. Send nobody near a live or hurt deer: call whom the local card names."
    }
    "report_seen_at" {
        "When was it first seen?"
        "It bounds the time of death."
        "As told. A guess to the hour is good enough."
    }
    "report_place_words" {
        "Where did they say it lies?"
        "You have to find it again."
        "Their own words: trail, bend, tree, distance."
    }
    "report_place" {
        "Do they have a position?"
        "It saves a search."
        "From their phone or map. Tap No answer if they have none."
    }
    "report_count" {
        "How many dead deer?"
        "Several in one place are one event."
        "As told. 1 if they saw one."
    }
    "report_touched" {
        "Did anyone touch or move it?"
        "Moved or cut by people looks like other things."
        "As told."
    }
    "report_dog" {
        "Was a dog with them?"
        "A dog's tracks and bites look like a predator's. A dog that fed may need a vet."
        "As told."
    }
    "report_clear" {
        "When was the place last seen without it?"
        "It bounds the time of death from the other side."
        "A person who passed, or a camera's last empty picture."
        none "Nobody knows"
    }
    "report_photo" {
        "Is there a picture?"
        "It shows the scene before snow and scavengers."
        "Take it from their screen, or choose the file."
        none "No picture"
    }
    "report_call_back" {
        "Whom may we call back?"
        "The crew may need to ask the way."
        "Name and number. Stays on this phone unless you agree to send it."
        none "Nobody"
    }
    "report_triage" {
        "What is done about it?"
        "Every report gets an answer."
        "Whoever is in charge decides."
    }
    "report_triage_why" {
        "Why, and who was told?"
        "The office has to know."
        "A line is enough."
    }
};
