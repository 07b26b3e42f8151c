//! Effort of a search for carcasses: what kind of outing it was, the lines walked, and how far from its line a carcass
//! lay. A density rests on these alone.

use crate::record::Unit;
use crate::record::finding::{FindingDef as F, Shape, Sites, number};

pub(super) const FINDINGS: &[F] = &[
    // A response goes to a carcass that somebody reported: it says nothing of how many lie elsewhere.
    F::outing("outing_kind", Shape::Choice(&["search", "response"])),
    // Trails lie where deer and people go: what is found along them is not the reserve's.
    F::outing("search_route", Shape::Choice(&["lines", "trails"])),
    // To how far from the line on each side.
    F::outing("search_strip_m", number(Unit::Metre, 0, 1, 1_000)),
    // How many lines are to be walked.
    F::outing("search_lines_count", number(Unit::Count, 0, 1, 20)),
    // Each line as laid out, by its number.
    F::outing("search_line_m", number(Unit::Metre, 0, 1, 100_000)).at(Sites::Item),
    // What was walked in the end, and of lines that were cut short how much.
    F::outing("search_walked", Shape::Choice(&["all_to_the_end", "not_all"])),
    F::outing("search_walked_m", number(Unit::Metre, 0, 0, 100_000)).at(Sites::Item),
    // The number of the line from which it was seen.
    F::exam("found_from_line_count", number(Unit::Count, 0, 1, 20)),
    // Straight across from the line, at the number of the line.
    F::exam("from_line_m", number(Unit::Metre, 1, 0, 10_000)).at(Sites::Item),
];
