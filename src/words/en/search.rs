//! Effort of a search for carcasses.

pub(super) const TEXTS: &[(&str, &str)] = &[
    ("finding.outing_kind", "Kind of outing"),
    ("finding.search_route", "Search along"),
    ("finding.search_strip_m", "Searched to each side"),
    ("finding.search_line_m", "Length of the line"),
    ("finding.from_line_m", "Straight across from the line"),
    ("option.outing_kind.search", "Search for carcasses"),
    ("option.outing_kind.response", "To a reported carcass"),
    ("option.search_route.lines", "Lines laid out before"),
    ("option.search_route.trails", "Trails or roads"),
];
