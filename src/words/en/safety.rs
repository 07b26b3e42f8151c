//! What always holds, whom to call, permissions, reopening, cleaning.

pub(super) const TEXTS: &[(&str, &str)] = &[
    // The baseline, read where the crew is about to touch.
    ("baseline.gloves_and_eyes", "Gloves that keep water out before any touch; eyes covered before any cut."),
    ("baseline.head_and_spine", "Head and spine stay shut. Nobody saws antlers off."),
    ("baseline.field_tools", "Blades that never see a kitchen."),
    ("baseline.hand_to_mouth", "Nothing goes to the mouth while gloves are on: no food, drink, smoke or chew."),
    ("baseline.stand_back", "Who is not working stands back."),
    (
        "baseline.ask_a_doctor",
        "Pregnant, or easily ill? Ask a doctor before you join; until then, write and stay off the carcass.",
    ),
    ("baseline.dogs", "Dogs on a lead, well away."),
    ("baseline.what_kills", "Ice, roads and the way home hurt more crews than disease does."),
    // Calling.
    ("phone.cannot_call", "This phone will not call for help by itself."),
    ("calls.none_loaded", "The card would name whom to call; none is loaded."),
    ("calls.card_is_old", "This card has run out: its numbers may have changed."),
    ("calls.not_on_card", "The card names nobody for this."),
    ("calls.head", "Once you have a signal"),
    ("calls.for.lead", "The lead or the biologist in charge"),
    ("calls.for.contact", "Your contact at home"),
    ("calls.for.officer", "The wildlife officer"),
    ("calls.for.vet", "The wildlife veterinarian or laboratory"),
    ("calls.for.health", "Public health or a doctor: say that you handled a dead deer"),
    ("calls.for.road", "The road crew"),
    ("calls.for.emergency", "The emergency number of this place"),
    ("calls.for.tag_owner", "Whoever owns the tag or collar"),
    ("calls.for.land", "Whoever manages the land"),
    // What a closing covers.
    ("closes.nothing", "Nothing is closed."),
    ("closes.head", "Head, spine and antler base stay shut."),
    ("closes.mouth", "Mouth and teeth are not handled."),
    ("closes.taking", "Nothing of this is taken."),
    ("closes.opening", "The body is not opened."),
    ("closes.cutting", "Nothing is cut."),
    ("closes.hands_on", "Nothing is touched. What can be seen is still written down."),
    ("closes.going_in", "Nobody goes in. What can be seen from here is still written down."),
    ("closes.place", "Leave. Where it is and what you saw can still be written down."),
    ("evidence.stays_closed", "A sign of a crime was noted here. Taking it back does not open hands-on work again."),
    // The card.
    ("card.state.none", "No local card is loaded: the form stays hands-off."),
    ("card.state.expired", "The local card has run out: the form stays hands-off until the office sends a new one."),
    (
        "card.state.not_yet",
        "The local card does not hold yet, or this phone's clock is behind: the form stays hands-off.",
    ),
    ("card.state.in_force", "The local card is in force."),
    // Reopening a stop.
    ("reopen.ask", "Why may this go on?"),
    ("reopen.no.not_a_stop", "There is nothing to open: this is no stop."),
    ("reopen.no.fixed", "This stop is not opened again out here. Finish the record hands-off."),
    ("reopen.no.not_in_force", "There is nothing to open: this stop is not in force."),
    ("reopen.no.no_card", "No card is in force, so nobody is named who could open a stop."),
    ("reopen.no.not_named", "The card does not name you for opening stops. Ask one whom it names, or go on hands-off."),
    ("reopen.no.ice_not_measured", "Measure the ice first, and write down clear and white apart."),
    ("reopen.no.ice_too_thin", "Too thin: it takes 10 cm of clear ice, or 20 cm of white."),
    (
        "reopen.no.ice_items",
        "Every item for the ice has to be stated: measuring on the way, picks, rope, float vest, second person.",
    ),
    ("reopen.no.no_reason", "Write the reason; it stays in the record."),
    // Cleaning. One instruction for blades, the strictest: weaker mixtures are left out on purpose. Half of 5 % is above the
    // 2 % of available chlorine that it needs.
    (
        "clean.bleach",
        "Blades, at base, never in the snow: scrape and wipe off all you can see. Then one part fresh household bleach (5 % or more on its label) to one part water, blades under it for 60 minutes, in a room near 20 C. Rinse. Mix it with nothing else; it harms steel, cloth, eyes and phones.",
    ),
    (
        "clean.blades_in_field",
        "Out here: scrape, wipe, blade into the rigid tube, tube into two bags. Write down that dirty tools are aboard.",
    ),
    ("clean.hands", "Gloves off inside out, into the dirty bag. Soap and water for 20 seconds at the first tap."),
    // Hurt.
    ("hurt.wash", "Wash with soap and clean water. Eyes: clean water only. Snow is no wash. (from memory, no source)"),
    ("hurt.wash_rabies", "If the animal behaved oddly, or anything alive bit you: wash for at least 15 minutes."),
    ("hurt.leave", "Bleeding that will not stop, an eye hit or a deep cut: leave now and get help."),
    ("hurt.private", "This note stays on the phone unless you agree to hand it over."),
];
