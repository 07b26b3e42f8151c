//! What left with a crew: jaws, femurs and heads, each with its number, and who had them from then on.

use marrowbook::record::sample_number::sample_number;
use marrowbook::record::{Act, Answer, CustodyStep, Moment, PersonCode, Site, Subject, Value};
use uuid::Uuid;

use super::Made;
use super::bench;
use super::herd::{Deer, Fate, Left};
use super::look::Seen;
use super::phone::{Phone, after};

/// Who takes in at the gatehouse what crews bring.
const TAKES_IN: &str = "K7";

/// What was taken of a carcass, by the numbers on the labels.
#[derive(Clone, Debug, Default)]
pub(crate) struct Taken {
    pub(crate) birthdays: i64,
    pub(crate) starved: bool,
    pub(crate) jaw: Option<String>,
    pub(crate) femur: Option<String>,
    pub(crate) head: Option<String>,
}

/// A head is kept of every fifth whose head was there.
const fn head_kept(deer: &Deer) -> bool {
    deer.n % 5 == 2 && matches!(deer.left, Left::Whole | Left::Part)
}

fn text(text: &str) -> Answer {
    Answer::Seen { value: Value::Text(text.to_owned()) }
}

/// Gloves, what was taken, its labels; then each thing goes to the gatehouse in the afternoon.
pub(crate) fn take(phone: &mut Phone, deer: &Deer, examination: Uuid, at: Moment) -> Made<Taken> {
    let mut taken = Taken { birthdays: deer.birthdays, starved: deer.fate == Fate::Starved, ..Taken::default() };
    if !bench::taken(deer) && !head_kept(deer) {
        return Ok(taken);
    }
    let mut said: Vec<Seen> = vec![("confirm_h01", Site::NONE, Answer::choice("done"))];
    if deer.n == 22 {
        said.push(("glove_torn", Site::NONE, Answer::choice("skin_cut")));
    }
    let (jaw, femur, head) = (bench::taken(deer) && deer.n % 6 != 4, bench::taken(deer), head_kept(deer));
    for (finding, code) in [("jaw_taken", jaw.then_some("whole_jaw")), ("femur_taken", femur.then_some("whole"))] {
        said.extend(code.map(|code| (finding, Site::NONE, Answer::choice(code))));
    }
    if head {
        said.push(("other_samples_count", Site::NONE, Answer::number(1)));
        said.push(("sample_what", Site::item(3), Answer::choice("head_part")));
    }
    let mut label = |item: u16, kept: &str| {
        let number = sample_number(examination, item);
        let of = Site::item(item);
        said.push(("sample_number", of, text(&number)));
        said.push(("sample_sealed", of, Answer::choice("there")));
        said.push(("seal_number", of, text(&format!("QR {}", 400 + deer.n * 3 + usize::from(item)))));
        said.push(("sample_kept", of, Answer::choice(kept)));
        number
    };
    taken.jaw = jaw.then(|| label(1, "paper_dry"));
    taken.femur = femur.then(|| label(2, "bag_frozen"));
    taken.head = head.then(|| label(3, "bag_frozen"));
    let subject = Subject::Examination(examination);
    for (minute, one) in (0..).zip(said) {
        phone.say(subject, one, after(at, 40 + minute)?)?;
    }
    if phone.person.to_string() != TAKES_IN {
        for number in [&taken.jaw, &taken.femur, &taken.head].into_iter().flatten() {
            let act = Act::Custody {
                sample: number.clone(),
                step: CustodyStep::Handed,
                from: Some(phone.person.clone()),
                to: PersonCode::new(TAKES_IN)?,
                place: "gatehouse counter".to_owned(),
                seal: String::new(),
                seal_intact: Some(true),
                condition: "frozen".to_owned(),
                note: String::new(),
            };
            phone.act(act, after(at, 5 * 60)?)?;
        }
    }
    Ok(taken)
}
