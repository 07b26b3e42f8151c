//! What only the office writes: results of tests and marks of calls.

pub(super) const TEXTS: &[(&str, &str)] = &[
    ("finding.test_result", "Result of the test"),
    ("finding.test_for", "Tested for"),
    ("finding.lab_test", "Test, by its code on the local card"),
    ("finding.lab_sample", "Number of the sample tested"),
    ("finding.lab_name", "Laboratory"),
    ("finding.lab_reported_at", "Reported by the laboratory"),
    ("finding.call_done", "Call made"),
    ("lab.state.positive", "positive"),
    ("lab.state.suspect", "suspect, not confirmed"),
    ("lab.state.not_detected", "not detected"),
    ("lab.state.unsuitable", "unsuitable sample, nothing is known"),
    ("lab.state.pending", "pending at the laboratory"),
];
