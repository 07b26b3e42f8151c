//! The season in the office. In a catalogue of its own: the phone does not carry it.

pub(super) const TEXTS: &[(&str, &str)] = &[
    ("season.carcasses", "{n} {n?carcass|carcasses}"),
    // Beside every figure.
    (
        "season.caution.not_random",
        "All figures are of the {n} {n?carcass|carcasses} that were found. Those are no random sample of the dead: what is \
         found differs by cause, age and place.",
    ),
    (
        "season.caution.unknown_counts",
        "Unknown is an answer and is counted: every table says how many were not looked at.",
    ),
    (
        "season.caution.memory",
        "Sources marked memory were not confirmed; those marked design or ours are choices made here.",
    ),
    ("season.nothing_seen", "nothing seen that speaks of the cause"),
    ("season.any_predator", "Any predator"),
    ("season.age.fawn", "fawns"),
    ("season.age.yearling", "yearlings"),
    ("season.age.two_years", "2 years"),
    ("season.age.three_to_five", "3 to 5 years"),
    ("season.age.six_and_over", "6 years and over"),
    ("season.sex.female", "does"),
    ("season.sex.male", "bucks"),
    ("season.age_of_sex", "{age}, {sex}"),
    (
        "season.places.note",
        "Squares of {m} m to a side; the middle of the square stands for every carcass in it, and no place is given finer.",
    ),
    // Survival.
    (
        "season.survival.label",
        "An index of the carcasses found, from {youngest} {youngest?year|years} of age on: not the herd's survival.",
    ),
    (
        "season.survival.constant",
        "It takes survival as the same at every age. Deer break this: hazard is high in fawns and rises again in old deer. \
         Fawns are left out.",
    ),
    ("season.survival.stationary", "It takes the herd as stationary: as many grow up as die, year after year."),
    ("season.survival.equal", "It takes dead deer of every age as equally likely to be found."),
    ("season.survival.pooled", "Deer of nine years and over are taken together."),
    ("season.survival.refused", "No survival: {why}."),
    // Density.
    (
        "season.density.on_line",
        "Every carcass on the line itself is taken as seen. Snow breaks this: a buried one is not.",
    ),
    (
        "season.density.lines_laid",
        "The figure holds for the ground over which the lines were laid out, not for the rest of the reserve.",
    ),
    ("season.density.moved", "Carcasses are taken as lying where they lay before anybody came."),
    ("season.density.buried", "Carcasses under snow and those eaten up are not in it."),
    ("season.density.one_line", "One line alone says nothing of how finds spread between lines: no range."),
    ("season.density.few", "{n} carcasses are few: a fit is of use from about {enough}."),
    (
        "season.density.walked_untold",
        "{n} {n?search|searches} did not say whether the lines were walked to their end: they count as planned.",
    ),
    (
        "season.density.without_length",
        "{n} {n?line|lines} cut short without a length: left out, with what was found from {n?it|them}.",
    ),
    (
        "season.density.strip",
        "Finds do not fall off with distance within the strip: no half-normal fit, all in the strip are taken as seen.",
    ),
    (
        "season.density.refused.no_search",
        "No density: no outing of this winter is written down as a search on lines. Responses say where people go.",
    ),
    (
        "season.density.refused.trails",
        "No density: the searches followed trails. Trails lie where deer and people go; what is found along them is not the \
         reserve's. Lay out lines without regard to trails.",
    ),
    ("season.density.refused.no_length", "No density: no line of a search has a length."),
    (
        "season.density.refused.no_strip",
        "No density: nobody said how far to each side of the line was searched. Say it by office season --strip METRES.",
    ),
    (
        "season.density.refused.few",
        "No density: {n} {n?carcass|carcasses} with a distance from {lines} {lines?line|lines}; {least} are asked for.",
    ),
    // Doubles.
    (
        "season.doubles.note",
        "Likely one animal reported twice, likeliest first. Look at both; nothing is joined by this list. Figures are \
         expert judgement.",
    ),
    (
        "season.compare.note",
        "Findings that were seen or not: Newcombe's interval and Fisher's test. Causes, ages and sexes: by draws, with one \
         drawn table. Of many comparisons some differ by chance.",
    ),
    ("season.compare.all_others", "all other crews"),
    // The demo on the office's page.
    ("desk.demo", "Open the demo season"),
    (
        "desk.demo.passphrase",
        "An invented office with its archive is open. Its key opens with: {passphrase}. A laboratory's sheet that nobody has entered yet lies in demo/out/season/sheets.",
    ),
    ("desk.demo.missing", "The demo season is not here. demo/run makes it and serves it beside this page."),
    // Plots.
    ("season.plot.weeks", "Deaths by week, {winter}"),
    ("season.plot.weeks.deaths", "Deaths expected in the week; thin line: at least to at most"),
    ("season.plot.weeks.snow", "Snow on the ground, cm, mean of the week"),
    ("season.plot.weeks.apart", "{apart} with a window over four weeks stand apart; {none} without a window"),
    ("season.plot.ages", "Age and sex, {winter}"),
    ("season.plot.ages.how", "Share of all carcasses in 100, with 95 % range; does dark, bucks light"),
    ("season.plot.ages.not", "{aged} aged, {not_aged} not; {sexed} sexed, {not_sexed} not"),
    ("season.plot.causes", "Causes, {winter}"),
    ("season.plot.causes.how", "Share in 100: black with 95 % range; hollow: before anything was seen"),
    ("season.plot.causes.not", "{seen} with something seen, {nothing} with nothing; {poor} fit no cause well"),
    ("season.plot.map", "Where, {winter}"),
    ("season.plot.map.how", "Carcasses in each square of {m} m; north is up"),
    ("season.plot.map.not", "{n} without a place"),
    ("season.plot.empty", "nothing to draw"),
];
