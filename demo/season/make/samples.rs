//! What left with a crew: jaws, femurs and heads, each with its number, and who had them from then on.

use marrowbook::record::sample_number::sample_number;
use marrowbook::record::{Act, Answer, CustodyStep, Moment, PersonCode, Site, Value};
use uuid::Uuid;

use super::Made;
use super::bench;
use super::herd::{Deer, Left};
use super::look::Seen;
use super::people::{GATEHOUSE, May};
use super::phone::Phone;

/// A glove tore at this one.
const TORN: usize = 8;

/// One thing that was taken.
#[derive(Clone, Debug)]
pub(crate) struct Thing {
    /// On its label.
    pub(crate) number: String,
    seal: String,
    state: &'static str,
}

/// What was taken of a carcass.
#[derive(Clone, Debug, Default)]
pub(crate) struct Taken {
    pub(crate) birthdays: i64,
    /// Of the femur's marrow, as weighed on the bench or not.
    pub(crate) dry_percent: i64,
    pub(crate) jaw: Option<Thing>,
    pub(crate) femur: Option<Thing>,
    pub(crate) head: Option<Thing>,
}

/// Of two in three the jaw and a femur are taken; no jaw where nobody could see one, no femur that had lain open.
pub(crate) const fn jaw_taken(deer: &Deer, may: May) -> bool {
    may.jaw && deer.n % 3 != 2 && deer.n % 6 != 4
}

pub(crate) const fn femur_taken(deer: &Deer, may: May) -> bool {
    may.femur && deer.n % 3 != 2 && !matches!(deer.left, Left::Bones)
}

/// Parts of the head are taken wherever the head was there.
const fn head_taken(deer: &Deer, may: May) -> bool {
    may.head && deer.n % 6 != 4 && matches!(deer.left, Left::Whole | Left::Part)
}

fn text(text: &str) -> Answer {
    Answer::Seen { value: Value::Text(text.to_owned()) }
}

/// What was taken, with labels and seals, as it was said at the carcass.
pub(crate) fn take(deer: &Deer, may: May, examination: Uuid) -> (Taken, Vec<Seen>) {
    let mut taken = Taken { birthdays: deer.birthdays, dry_percent: bench::dry_percent(deer), ..Taken::default() };
    let (jaw, femur, head) = (jaw_taken(deer, may), femur_taken(deer, may), head_taken(deer, may));
    let mut said: Vec<Seen> = Vec::new();
    for (finding, code) in [("jaw_taken", jaw.then_some("whole_jaw")), ("femur_taken", femur.then_some("whole"))] {
        said.extend(code.map(|code| (finding, Site::NONE, Answer::choice(code))));
    }
    if head {
        said.push(("other_samples_count", Site::NONE, Answer::number(1)));
        said.push(("sample_what", Site::item(3), Answer::choice("head_part")));
    }
    if deer.n == TORN && head {
        said.push(("glove_torn", Site::NONE, Answer::choice("skin_cut")));
    }
    let mut label = |item: u16, kept: &str, state: &'static str| {
        let number = sample_number(examination, item);
        let of = Site::item(item);
        let seal = format!("QR {}", 400 + deer.n * 3 + usize::from(item));
        said.push(("sample_number", of, text(&number)));
        said.push(("sample_sealed", of, Answer::choice("there")));
        said.push(("seal_number", of, text(&seal)));
        said.push(("sample_kept", of, Answer::choice(kept)));
        Thing { number, seal, state }
    };
    taken.jaw = jaw.then(|| label(1, "paper_dry", "dry"));
    taken.femur = femur.then(|| label(2, "bag_frozen", "frozen"));
    taken.head = head.then(|| label(3, "bag_frozen", "frozen"));
    (taken, said)
}

/// Each thing is received at the gatehouse, once the crew is done with it on the bench.
pub(crate) fn bring(phone: &mut Phone, taken: &Taken, at: Moment) -> Made<()> {
    for thing in [&taken.jaw, &taken.femur, &taken.head].into_iter().flatten() {
        let act = Act::Custody {
            sample: thing.number.clone(),
            step: CustodyStep::Received,
            from: Some(phone.person.clone()),
            to: PersonCode::new(GATEHOUSE)?,
            place: "gatehouse counter".to_owned(),
            seal: thing.seal.clone(),
            seal_intact: Some(true),
            condition: thing.state.to_owned(),
            note: String::new(),
        };
        phone.act(act, at);
    }
    Ok(())
}
