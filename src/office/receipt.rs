//! That samples were received, here or at a laboratory; and what the office noted of a sample's way by mistake, taken
//! back.

use super::not_noted::{NotNoted, named};
use super::send_out::{Numbers, Sample, State, of_carcass, samples};
use crate::card::Laboratory;
use crate::record::short_code::short_code;
use crate::record::{Act, CustodyGap, CustodyItem, CustodyLineStep, CustodyStep, DeviceId, Fold, PersonCode};
use serde::Serialize;
use uuid::Uuid;

/// What is noted of samples that arrived.
#[derive(Clone, Debug)]
pub struct Receipt<'a> {
    /// The samples' numbers.
    pub numbers: &'a [String],
    /// Who has them now: whoever received them, or the laboratory's code.
    pub to: PersonCode,
    /// Who gave them, where somebody said.
    pub from: Option<PersonCode>,
    /// Where.
    pub place: String,
    /// Number read off the seal.
    pub seal: String,
    /// Whether the seals were whole; `None` where nobody looked.
    pub seal_intact: Option<bool>,
    /// In what state: frozen, cool, dry, leaking.
    pub condition: String,
}

/// The entries that say that samples were received, in the order of the numbers given.
///
/// # Errors
/// See [`NotNoted`]: for one sample that was received there before, nothing is noted of any.
pub fn receive(folded: &Fold, receipt: &Receipt) -> Result<Vec<Act>, NotNoted> {
    let all = samples(folded);
    let mut acts = Vec::new();
    for one in named(&Numbers::of(&all), receipt.numbers)? {
        let number = one.item.number.clone();
        let last = one.item.lines.last();
        if last.is_some_and(|line| line.step == CustodyLineStep::Received && line.to == receipt.to.as_str()) {
            return Err(NotNoted::ReceivedBefore(number));
        }
        acts.push(Act::Custody {
            sample: number,
            step: CustodyStep::Received,
            from: receipt.from.clone(),
            to: receipt.to.clone(),
            place: receipt.place.clone(),
            seal: receipt.seal.clone(),
            seal_intact: receipt.seal_intact,
            condition: receipt.condition.clone(),
            note: String::new(),
        });
    }
    Ok(acts)
}

/// What takes back the last that the office noted of the way of these samples: sent, or received.
///
/// # Errors
/// The last change of hands of one of them is not of `office`, or a result came back from where it went. Then nothing is
/// taken back.
pub fn take_back(
    folded: &Fold,
    laboratories: &[Laboratory],
    numbers: &[String],
    office: DeviceId,
) -> Result<Vec<Act>, NotNoted> {
    let all = samples(folded);
    let mut supersedes = Vec::new();
    for one in named(&Numbers::of(&all), numbers)? {
        let number = || one.item.number.clone();
        let last = one.item.lines.last();
        let entry = last.and_then(|line| line.entry).filter(|entry| entry.device == office);
        supersedes.push(entry.ok_or_else(|| NotNoted::NotTheOffices(number()))?);
        if let Some(laboratory) = last.and_then(|line| answered_by(one, &line.to, &all, laboratories)) {
            return Err(NotNoted::ResultCame { laboratory, number: number() });
        }
    }
    Ok(vec![Act::Withdraw { supersedes }])
}

/// The laboratory that has the sample, where it said something of it.
fn answered_by(one: &Sample, holder: &str, all: &[Sample], laboratories: &[Laboratory]) -> Option<String> {
    let of_one: Vec<Sample> = all.iter().filter(|other| other.carcass.id == one.carcass.id).cloned().collect();
    let lines = of_carcass(&of_one, laboratories);
    let here = |line: &&super::send_out::Line| line.number == one.item.number && line.laboratory == holder;
    lines.iter().filter(here).find(|line| line.state > State::Sent).map(|line| line.laboratory.clone())
}

/// A sample of which nobody has said that it was received.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Unreceived {
    /// The carcass.
    pub carcass: Uuid,
    /// Its short code.
    pub code: String,
    /// The sample's number.
    pub number: String,
    /// What it is, by the code of `sample_what`.
    pub what: String,
    /// Who has it, by code.
    pub holder: String,
}

/// Of the samples of a carcass those that nobody received and that no laboratory has.
pub(super) fn unreceived<'a>(
    carcass: Uuid,
    custody: &'a [CustodyItem],
    laboratories: &'a [Laboratory],
) -> impl Iterator<Item = Unreceived> {
    let holder = |item: &CustodyItem| item.lines.last().map(|line| line.to.clone()).unwrap_or_default();
    let waits = move |item: &&CustodyItem| {
        let there = laboratories.iter().any(|one| one.code.as_str() == holder(item));
        item.gaps.contains(&CustodyGap::NotReceived) && !there
    };
    custody.iter().filter(waits).map(move |item| Unreceived {
        carcass,
        code: short_code(carcass),
        number: item.number.clone(),
        what: item.what.clone(),
        holder: holder(item),
    })
}
