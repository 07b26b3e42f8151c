//! What waits for a person of the office: the list of the command line and of the page.

pub(super) const TEXTS: &[(&str, &str)] = &[
    ("decide.head", "To decide"),
    (
        "decide.what",
        "What only a person can settle. Look at both carcasses or all answers first, then choose. What you choose is \
         signed with the office key and kept in the archive; what crews wrote stays as it is. What you leave stays on this \
         list, and what was decided can be taken back further down.",
    ),
    ("decide.none", "Nothing waits for a decision."),
    (
        "decide.no_key",
        "Nothing can be decided here yet: a decision is signed with the office key. Open or make it under Archive and \
         key.",
    ),
    ("decide.by", "Your person code, as on the local card"),
    ("decide.by.not_named", "{code} is not on the card of this archive. It is signed as typed: look that it is right."),
    ("decide.no_code", "Type your person code first: {reason}. Nothing was decided."),
    ("decide.refused", "Not decided: {reason}."),
    ("decide.done", "Decided and kept in the archive."),
    ("decide.doubles", "May be one animal reported twice ({n} {n?pair|pairs}), likeliest first"),
    ("decide.gone", "The page was closing, and nothing was written. Open it again and decide once more."),
    (
        "decide.doubles.what",
        "Worked out from place, days, age and sex, and which side of the jaw was taken; the figures are expert judgement. \
         Nothing is joined by this list.",
    ),
    ("decide.doubles.working", "Comparing carcasses ..."),
    ("decide.pair", "{one} and {other}"),
    ("decide.likely", "{percent} in 100 that they are one animal. They lie {metres} m apart."),
    ("decide.why", "Odds times {place} for the place, {days} for the days, {age} for age and sex, {jaw} for the jaw."),
    ("decide.said_same", "A crew began at the code that another phone showed ({n} {n?pair|pairs})"),
    ("decide.said_same.why", "The crew began {one} by the code of {other}."),
    ("decide.same", "One animal"),
    ("decide.two", "Two animals"),
    ("decide.see", "See {code}"),
    ("decide.open", "Answers that differ ({n} {n?question|questions})"),
    (
        "decide.open.what",
        "Readings run on each answer and show the spread until one is chosen. An answer that comes later opens the \
         question again.",
    ),
    ("decide.question", "Carcass {code}: {question}"),
    ("decide.answer.by", "by {who} on {when}"),
    ("decide.answer.office", "decided by {who} on {when}"),
    ("decide.reason", "Why it stands (type this before you choose)"),
    ("decide.choose", "This answer stands"),
    ("decide.more", "Show {n} more"),
    ("decide.joined", "Joined by the office ({n})"),
    ("decide.joined.line", "{one} and {other} are one animal"),
    ("decide.apart", "Take apart again"),
    ("decide.two.head", "Called two animals ({n} {n?pair|pairs})"),
    ("decide.two.line", "{one} and {other} are two animals"),
    ("decide.after_all", "One animal after all"),
    ("decide.decided", "Decided by the office ({n})"),
    ("decide.undo", "Take back"),
    ("decide.odd", "Odd in the chains of phones ({n})"),
    (
        "decide.odd.what",
        "Nothing of this moves a figure by itself, and nothing needs to be chosen here: ask the crew. Where answers \
         differ because of it, they stand above.",
    ),
    (
        "decide.fork",
        "{phone}: two different entries have the number {seq}. Both are kept. Ask how the phone came to write twice (a \
         copy of its storage put back?).",
    ),
    ("decide.fork.said", "One says: {said}"),
    ("decide.fork.other", "something that is no answer"),
    (
        "decide.gap",
        "{phone}: entries {first} to {last} are missing. Ask for the bundle that holds them; the phone can hand it over \
         again.",
    ),
    (
        "decide.gap.one",
        "{phone}: entry {first} is missing. Ask for the bundle that holds it; the phone can hand it over again.",
    ),
    (
        "decide.clock",
        "{phone}: its clock went back {n} {n?time|times}, first at entry {seq}, from {before} to {at}. Ask when it was \
         set; days that rest on its clock carry a caution.",
    ),
    (
        "decide.unheeded",
        "{phone}: {n} {n?entry|entries} in it {n?is a decision|are decisions} (carcasses joined, an answer chosen, a call \
         marked), which only the office's own key makes. {n?It counts|They count} for nothing. Ask how they came there; \
         where one is right, decide it here.",
    ),
    ("decide.odd.more", "{n} more of the same kinds; office decide list names them all."),
    ("decide.phone.unnamed", "phone {id}"),
];
