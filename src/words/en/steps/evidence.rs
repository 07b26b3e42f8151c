//! An evidence record, and the samples that are worth taking.

use super::steps;

pub(in crate::words::en) const TEXTS: &[(&str, &str)] = steps! {
    "evidence_rules" {
        "Read this, then back out."
        "From now on this is a record for an officer."
        "Touch, move and cover nothing. Out in your own tracks."
    }
    "ev_label" {
        "First photo: a card with code and date."
        "It says whose photos these are."
        "Carcass code, date, your code. Then the rest, in order."
    }
    "ev_tracks" {
        "Photo of the tracks you can see."
        "Snow goes first: tracks before all else."
        "Straight down, scale beside them, three in a row."
    }
    "ev_overview" {
        "Photo of it all, from where you stand."
        "It shows what lay where."
        "Wide. Do not step closer for it."
    }
    "ev_middle" {
        "Photo of the body, nearer by zoom."
        "It ties the wide one to the close one."
        "The same side. Zoom, do not walk."
    }
    "ev_close" {
        "Photo of the sign itself, as close as zoom goes."
        "It is what the officer asks about."
        "Square on. A scale only if you need no step for it."
    }
    "ev_way_in" {
        "Photo back along your own way in."
        "Your tracks are told from all others by it."
        "From where you stand, towards where you came from."
    }
    "officer_told" {
        "Have you told the officer?"
        "Only the officer says what comes next."
        "The call list has the number."
    }
    "officer_asks" {
        "What does the officer want from you?"
        "You do that and no more."
        "Ask before you cover a track that snow will fill."
    }
    "officer_words" {
        "What did the officer say, word for word?"
        "Later nobody remembers who asked for what."
        "Name, time, what was asked."
        none "Nothing more"
    }
    "ev_north" {
        "From the north, the whole body."
        "Four sides leave nothing behind it."
        "5 to 10 steps off, compass in hand. Walk where told."
    }
    "ev_east" {
        "From the east, the whole body."
        "Four sides leave nothing behind it."
        "The same distance as before."
    }
    "ev_south" {
        "From the south, the whole body."
        "Four sides leave nothing behind it."
        "The same distance as before."
    }
    "ev_west" {
        "From the west, the whole body."
        "Four sides leave nothing behind it."
        "The same distance as before."
    }
    "ev_both_sides" {
        "Photo along the body, nose to tail."
        "It shows the side that you can see, in full."
        "As it lies. Do not turn it."
    }
    "ev_head_feet" {
        "Photo of head, teeth, feet and tail."
        "Each shows how it lived and fell."
        "One photo of all, or the most telling."
    }
    "ev_wounds" {
        "Photo of the wound, nothing beside it."
        "The first shows that nothing was moved."
        "Square on, in focus."
    }
    "ev_wounds_scale" {
        "The same wound, scale beside it."
        "The second gives its size."
        "Scale flat, level with the wound. Touch no hair."
    }
    "ev_snow_wall" {
        "Photo of the snow cut beside it."
        "Its layers date what happened."
        "Only if the officer wants a cut. Scale upright."
    }
    "bite_swabbed" {
        "Did you swab this bite?"
        "Spit in a bite with a clot names the biter."
        "Two swabs in, two round it. New gloves, before the tape."
        none "Not swabbed"
    }
    "samples_worth" {
        "These are worth taking here."
        "The list follows what you found, first what spoils first."
        "Take what your card allows. None of it is a must."
    }
    "seal_number" {
        "What number is on the seal?"
        "A seal without a number proves little."
        "As printed on it."
        none "No number on it"
    }
    "sample_kept" {
        "How is it kept?"
        "Wrong keeping spoils it before the lab sees it."
        "Paper breathes. In plastic, spit and hair rot."
    }
};
