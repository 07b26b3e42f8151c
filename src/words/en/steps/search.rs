//! Effort of a search for carcasses.

use super::steps;

pub(in crate::words::en) const TEXTS: &[(&str, &str)] = steps! {
    "outing_kind" {
        "A search today, or to a carcass already found?"
        "Only searches say how many lie where nobody has looked."
        "Search: you walk to find them. Nobody told you where one lies."
    }
    "search_route" {
        "Search along what?"
        "Deer and people both keep to trails. Lines cross all ground."
        "Lines: drawn on the map by the office before anybody went."
    }
    "search_strip" {
        "How far do you search to each side?"
        "Finds farther out are left out of the figure."
        "The distance in the plan, on one side of the line."
    }
    "search_lines" {
        "How many lines will you walk?"
        "Each line counts by itself."
        "Number them 1, 2, 3 as in the plan."
    }
    "search_line" {
        "How long is this line?"
        "The length walked is half of the figure."
        "From the plan or the map. You can correct it when you are back."
    }
    "found_from_line" {
        "From which line did you see it?"
        "Only what was seen from a line counts in the figure."
        "The number of the line you were walking when you saw it."
        none "Not seen from a line"
    }
    "from_line" {
        "How far from the line does it lie?"
        "The farther out, the more are missed. This says how many."
        "Straight across from the line, not from where you first saw it."
    }
    "search_walked" {
        "All lines walked to their end?"
        "A line cut short covers less ground."
        "Answer this when the last line is done, not before."
    }
    "search_walked_line" {
        "How much of this line did you walk?"
        "A line cut short covers less ground."
        "0 for a line you did not start."
    }
};
