//! What the age method rests on, by part, so that a reading lists only the parts it used.

use crate::science::source::{Mark, Source};

/// Always used.
pub(super) static BASE: [Source; 3] = [
    Source::new(
        "prior-wolf-kill",
        "Mech and Frenzel 1971, USDA Forest Service NC-52, table 4: 142 wolf-killed deer",
        Mark::Seen,
    ),
    Source::new(
        "prior-survival",
        "Nelson and Mech 1986, J. Wildl. Manage. 50:691-698: survival by age and sex",
        Mark::Seen,
    ),
    Source::new("prior-mix", "half of each as the prior for deer dead in winter", Mark::Design),
];

/// Which teeth are there.
pub(super) static ERUPTION: [Source; 8] = [
    Source::new("indiana-key", "Indiana DNR: cheek teeth counted, third tooth three- or two-cusped, stain", Mark::Seen),
    Source::new("new-york-key", "New York guide: third molar part way up at 1.5 years", Mark::Seen),
    Source::new(
        "mech-frenzel-1971",
        "Mech and Frenzel 1971, USDA Forest Service NC-52: milk teeth kept late; odd teeth in 401 jaws",
        Mark::Seen,
    ),
    Source::new("severinghaus-1949", "Severinghaus 1949, J. Wildl. Manage. 13:195-216, abstract", Mark::Seen),
    Source::new(
        "eruption-months",
        "means and spreads of each tooth's coming, drawn from the agencies' schedules",
        Mark::Design,
    ),
    Source::new("late-share", "share of deer whose teeth run late, one half where nothing is known", Mark::Design),
    super::birth::BIRTH_DATES,
    Source::new("floor-0.002", "no single look may weigh below 0.002", Mark::Design),
];

/// How worn they are.
pub(super) static WEAR: [Source; 5] = [
    Source::new("wear-pivots", "Tennessee key: dentine of M1, M2, M3 against enamel", Mark::Seen),
    Source::new(
        "wear-classes",
        "agency slides, a jaw pictorial and county agents' keys; cells of old age from memory",
        Mark::Seen,
    ),
    Source::new("wear-codes", "expected code of each look by age, spread 0.7, power 0.5", Mark::Design),
    Source::new("wear-rate", "wear rate differs between deer, spread 0.25 of its log", Mark::Design),
    Source::new(
        "foley-2022",
        "Foley and others 2022, Wildl. Res. 49:237-249: say 2, 3-5, 6 and over, not years",
        Mark::Seen,
    ),
];

/// Added when a look was used whose row is from memory.
pub(super) static WEAR_FROM_MEMORY: Source =
    Source::new("wear-rows-memory", "expected wear of P4, of the premolars and of the funnels", Mark::Memory);

/// A class called by a person.
pub(super) static CALL: [Source; 2] = [
    Source::new("foley-2022", "Foley and others 2022, Wildl. Res. 49:237-249: how often calls are right", Mark::Seen),
    Source::new("reader-table", "table of calls against true ages, made to give back Foley's shares", Mark::Design),
];

/// The hands-off call.
pub(super) static QUICK: [Source; 1] =
    [Source::new("quick-class", "a look from afar is right three times as often as wrong", Mark::Design)];
