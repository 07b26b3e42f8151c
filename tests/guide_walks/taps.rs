//! How many taps a record costs: a hands-off record must be possible in a few minutes in the snow.
//! A measure of the house, no outside source.

use std::collections::BTreeMap;

use marrowbook::guide::{Ask, Draft, Input, Phase, View};
use marrowbook::record::{Answer, Site, Value, find};

use crate::answering::{Answering, Script};
use crate::visit::Visit;

/// Tiles on a page of a list: as the form shows them.
const A_PAGE: usize = 4;

/// A hand that counts what it taps.
struct Counting {
    hand: Script,
    taps: BTreeMap<Phase, usize>,
    steps: Vec<(String, usize)>,
}

/// Pages turned to reach the last of these options.
fn turns(options: &[&str], codes: &[String]) -> usize {
    let last = codes.iter().filter_map(|code| options.iter().position(|o| o == code)).max();
    last.map_or(0, |place| place / A_PAGE)
}

fn taps(ask: &Ask, drafts: &[Draft]) -> usize {
    let Ask::Step { step, .. } = ask else { return 1 };
    let Some(first) = drafts.first() else { return 0 };
    let options = find(first.finding).unwrap().options();
    match (&step.input, &first.answer) {
        // A single sign is there or not: one tap.
        (Input::Panel([_]), _) => 1,
        // The pages, what is there, and the tile that states that each was looked for.
        (Input::Panel(signs), _) => {
            let seen = drafts.iter().filter(|d| d.answer.value().is_some()).count();
            signs.len().div_ceil(A_PAGE) + seen
        }
        // A tap a photo, the pages of the list, and the tile that goes on; what is left out costs no tap more.
        (Input::Photos { items, .. }, _) => {
            let taken = drafts.iter().filter(|d| d.answer.value().is_some()).count();
            let pages = if taken == 0 { 0 } else { items.len().div_ceil(A_PAGE) - 1 };
            taken + pages + 1
        }
        // The tile that says that none is so stands on the last page.
        (Input::Choice(_), Answer::NotSeen) => options.len().div_ceil(A_PAGE),
        // Looked over in one; a sketch left out by a tile of its own; options with a tile for none of them.
        (Input::Sweep { .. }, _) | (Input::ReadDo("sketch_drawn"), Answer::NotLooked { .. }) | (_, Answer::NotSeen) => {
            1
        }
        (_, Answer::Seen { value }) => match value {
            Value::Choice(code) => 1 + turns(options, std::slice::from_ref(code)),
            Value::Choices(codes) => codes.len() + 1 + turns(options, codes),
            Value::Number(n) => n.to_string().len() + 1,
            Value::Text(_) => 2,
            _ => 1,
        },
        // `No answer`, then the reason that is preset.
        _ => 2,
    }
}

impl Answering for Counting {
    fn answer(&mut self, ask: &Ask, view: &View) -> Vec<Draft> {
        let drafts = self.hand.answer(ask, view);
        let n = taps(ask, &drafts);
        *self.taps.entry(ask.phase()).or_default() += n;
        self.steps.push((ask.name(), n));
        drafts
    }
}

/// What a record of scraps has to tell at the least, each by a real answer: there or not there, never `not looked`.
const REAL: &[&str] = &[
    "species",
    "quick_class",
    "place",
    "body_state",
    "snow_over_body",
    "snow_readable",
    "tracks_by",
    "droppings_by",
    "bird_signs",
    "hair_scattered",
    "drag_marks",
    "cached_over",
    "blood_on_snow",
    "bones_fed_on",
    "bones_scattered",
    "rumen",
    "photo",
];

/// The second carcass of the day, all eaten, nobody may touch: bones, hair, tracks. From the tile of the start
/// screen to the end of the record, photos counting one tap each. Of the marrow bones the look at bones tells
/// (`bones_fed_on`: crushed, gnawed or whole); what was taken is everything, as `bones_and_hair` says.
#[test]
fn a_scavenged_carcass_is_recorded_hands_off_in_few_taps() {
    let hand = Script::new(
        "alive=bones_and_hair body_state=bones_and_hair record_length=short_record snow_over_body=none \
         snow_readable=sharp hair_scattered=there tracks_by=coyote droppings_by=- bird_signs=whitewash \
         bones_scattered=there quick_class=older rumen=- bones_fed_on=ribs_or_blades_gnawed walk_out_min=30",
    );
    let mut visit = Visit::field(1);
    visit.card = None;
    visit.walk(&mut hand.clone());
    visit.next_exam(2, marrowbook::guide::ExamKind::Field);
    let mut counting = Counting { hand, taps: BTreeMap::new(), steps: Vec::new() };
    visit.walk(&mut counting);
    println!("{:?}", counting.steps);
    for (phase, n) in &counting.taps {
        println!("{:16} {n} taps", phase.code());
    }
    for finding in REAL {
        visit.look(|view| {
            let site = if *finding == "photo" { Site::item(1) } else { Site::NONE };
            let answer = view.question(finding, site).answer();
            println!("{finding}: {answer:?}");
            assert!(matches!(answer, Answer::Seen { .. } | Answer::NotSeen), "{finding} ends with {answer:?}");
        });
    }
    let of = |phases: &[Phase]| phases.iter().filter_map(|p| counting.taps.get(p)).sum::<usize>();
    let start_screen = 1;
    let record = start_screen + of(&[Phase::Approach, Phase::StandOff, Phase::HandsOff]);
    let all = start_screen + of(&Phase::FIELD);
    println!("from the start screen to the end of the record {record} taps, to the next start screen {all} taps");
    assert!(record <= 25, "the record takes {record} taps");
    assert!(all <= 30, "the second carcass takes {all} taps");
}

/// Photos count one tap each; the list's other page and the way on are the only taps beside them.
#[test]
fn photos_of_the_list_cost_a_tap_each() {
    let taps = |script: &str| {
        let mut visit = Visit::field(1);
        visit.card = None;
        let mut counting = Counting { hand: Script::new(script), taps: BTreeMap::new(), steps: Vec::new() };
        visit.walk(&mut counting);
        let of = |name: &str| counting.steps.iter().filter(|(step, _)| step == name).map(|(_, n)| *n).sum::<usize>();
        (of("photos"), of("scene_photographed"))
    };
    // All eight; nobody is asked again whether the sides were photographed. None; nor then.
    assert_eq!(taps("body_state=whole"), (8 + 1 + 1, 0));
    assert_eq!(taps("body_state=whole photo=?time"), (1, 0));
}
