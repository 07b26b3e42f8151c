//! The scene sketch.

use super::steps::steps;

pub(super) const STEPS: &[(&str, &str)] = steps! {
    "sketch" {
        "Pace out what lies where?"
        "The office draws it to scale."
        "From the body, one mark after the other. Keep off the tracks."
    }
};

pub(super) const OPTIONS: &[(&str, &str)] = &[
    ("finding.sketch_north", "North of the sketch"),
    ("finding.sketch_head_deg", "Way the head points"),
    ("finding.sketch_what", "Mark on the sketch"),
    ("finding.sketch_from_count", "Paced from mark no."),
    ("finding.sketch_bearing_deg", "Bearing of the mark"),
    ("finding.sketch_paces_count", "Paces to the mark"),
    ("finding.sketch_pace_cm", "Length of a pace"),
    ("finding.sketch_distance_m", "Distance to the mark"),
    ("finding.sketch_drawn", "Sketch drawn"),
    ("option.compass_needle", "Compass needle"),
    ("option.true_north", "Map or phone, set to true north"),
    ("option.by_eye", "By eye, from sun or lie of the land"),
    ("option.sketch_what.body_part", "Part of the body"),
    ("option.sketch_what.blood", "Blood"),
    ("option.sketch_what.hair", "Hair"),
    ("option.sketch_what.bed", "Bed"),
    ("option.sketch_what.tracks", "Tracks, to here"),
    ("option.sketch_what.trail_to_body", "Trail, to here"),
    ("option.sketch_what.drag", "Drag, to here"),
    ("option.sketch_what.scat", "Droppings"),
    ("option.sketch_what.landmark", "Tree, rock, post"),
];

pub(super) const TEXTS: &[(&str, &str)] = &[
    ("sketch.head", "Scene sketch"),
    ("sketch.open", "Open the sketch"),
    ("sketch.go_on", "Go on without a sketch"),
    ("sketch.label", "Sketch of the place, north up, with a scale bar"),
    ("sketch.north_letter", "N"),
    ("sketch.empty", "The body is in the middle. Mark what lies round it, one mark after the other."),
    ("sketch.add", "Add a mark"),
    ("sketch.undo", "Take back mark {n}"),
    ("sketch.done", "That is all"),
    ("sketch.set_head", "Which way the head points"),
    ("sketch.set_north", "Which north?"),
    ("sketch.set_pace", "My pace: {pace}"),
    ("sketch.no_pace", "My pace: not set"),
    ("sketch.what", "What is it?"),
    ("sketch.from", "Paced from where?"),
    ("sketch.from_body", "From the body"),
    ("sketch.from_last", "From mark {n}"),
    ("sketch.way", "Which way from there?"),
    ("sketch.way_head", "Which way does the head point, from the middle of the body?"),
    ("sketch.degrees", "Degrees"),
    ("sketch.degrees_how", "Bearing read off the compass, 0 to 359."),
    ("sketch.far", "How far?"),
    ("sketch.in_paces", "In paces"),
    ("sketch.in_metres", "In metres"),
    ("sketch.in_feet", "In feet"),
    ("sketch.paces", "paces"),
    ("sketch.pace_how", "How long is one pace of yours, here and on these shoes? Pace out a known length first."),
    ("sketch.row", "{n} {what}: {way}\u{b0}, {far}, from {from}"),
    ("sketch.row_body", "the body"),
    ("sketch.row_paces", "{n} {n?pace|paces} ({far})"),
    ("sketch.not_placed", "{n}: paced from a mark that was taken back. Not drawn."),
    ("sketch.by", "{who}:"),
    ("sketch.n", "N"),
    ("sketch.ne", "NE"),
    ("sketch.e", "E"),
    ("sketch.se", "SE"),
    ("sketch.s", "S"),
    ("sketch.sw", "SW"),
    ("sketch.w", "W"),
    ("sketch.nw", "NW"),
    ("sketch.range", "0 to 359 degrees. Check the number."),
    ("sketch.pace_range", "A pace is 20 to 150 cm (8 to 59 in). Check the number."),
    ("saved.sketch", "Mark {n}: {what}"),
];
