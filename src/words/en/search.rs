//! Effort of a search for carcasses.

pub(super) const TEXTS: &[(&str, &str)] = &[
    ("finding.outing_kind", "Kind of outing"),
    ("finding.search_route", "Search along"),
    ("finding.search_strip_m", "Searched to each side"),
    ("finding.search_lines_count", "Lines to walk"),
    ("finding.search_line_m", "Length of the line"),
    ("finding.search_walked", "Lines walked"),
    ("finding.search_walked_m", "Walked of the line"),
    ("finding.found_from_line_count", "Seen from line number"),
    ("finding.from_line_m", "Straight across from the line"),
    ("option.outing_kind.search", "Search for carcasses"),
    ("option.outing_kind.response", "To a reported carcass"),
    ("option.search_walked.all_to_the_end", "All, to the end"),
    ("option.search_walked.not_all", "Not all, or not to the end"),
    ("option.search_route.lines", "Lines laid out before"),
    ("option.search_route.trails", "Trails or roads"),
];
