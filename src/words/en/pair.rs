//! Two people and two phones at one carcass.

pub(super) const TEXTS: &[(&str, &str)] = &[
    ("pair.head", "Two people, two phones"),
    ("start.join", "Another phone is at this carcass"),
    ("pair.call", "Calling out"),
    (
        "pair.call.how",
        "Clean hands hold the phone and read out the question, then the answers from the top. Gloved hands look and call one. Who holds the phone taps it and says it back. Nothing is tapped that was not said back.",
    ),
    ("pair.second", "A second look, without the first answers"),
    ("pair.second.how", "Another person answers age, marrow and bruises without seeing the first answers. Both stay."),
    ("pair.nothing_yet", "Nothing to look at a second time yet: age, marrow and bruises come later."),
    ("pair.go", "This person looks now"),
    ("pair.not_a_code", "Type the code of somebody else: letters and digits, no spaces."),
    ("pair.looking", "{code} looks, without the first answers"),
    ("pair.looking.how", "Do not ask what the first one said."),
    ("pair.done", "Answered: {what}"),
    ("pair.hand_back", "Back to {code}"),
    ("pair.compared", "Both looks"),
    ("pair.compared.how", "Where they differ nobody is wrong: the office sees both, and readings count both."),
    ("pair.agree", "same:"),
    ("pair.differ", "differ:"),
    ("pair.phone", "A second phone"),
    (
        "pair.phone.how",
        "On its first screen: Another phone is at this carcass. Then type this code. Each phone hands over its own record.",
    ),
    ("join.head", "Another phone is at this carcass"),
    (
        "join.how",
        "The other phone shows six letters under All questions, Two people, two phones. The office joins the two records.",
    ),
    ("join.code", "Code on the other phone"),
    ("join.type_first", "Type the code first"),
    ("join.go", "Begin at {code}"),
    ("join.not_a_code", "That code is not whole: six letters, the last one checks the others. Read it once more."),
    ("finding.same_carcass_as_code", "Same carcass as"),
];
