//! How hazards read the record: on the safe side. Where two people disagree, the answer that fires
//! counts; what was not looked at or cannot be told fires nothing by itself.

use std::collections::BTreeMap;

use crate::guide::View;
use crate::record::{Answer, DeviceId, EntryId, Site, Standing, Value};

/// True where a sign stands as seen by anybody.
pub(crate) fn there(view: &View, sign: &str) -> bool {
    view.question(sign, Site::NONE).standing.iter().any(|s| matches!(s.answer, Answer::Seen { .. }))
}

/// True where any of these signs stands as seen by anybody.
pub(crate) fn any_there(view: &View, signs: &[&str]) -> bool {
    signs.iter().any(|sign| there(view, sign))
}

/// True where anybody's standing answer holds one of these options.
pub(crate) fn chose_any(view: &View, finding: &str, options: &[&str]) -> bool {
    view.question(finding, Site::NONE).standing.iter().any(|s| holds(&s.answer, options))
}

/// True where, at any place of the finding, a standing answer holds one of these options.
pub(crate) fn chose_anywhere(view: &View, finding: &str, options: &[&str]) -> bool {
    standing(view, finding).any(|s| holds(&s.answer, options))
}

fn holds(answer: &Answer, options: &[&str]) -> bool {
    match answer {
        Answer::Seen { value: Value::Choice(one) } => options.contains(&one.as_str()),
        Answer::Seen { value: Value::Choices(all) } => all.iter().any(|c| options.contains(&c.as_str())),
        _ => false,
    }
}

/// All standing answers to a finding, at every place.
pub(crate) fn standing<'a>(view: &View<'a>, finding: &str) -> impl Iterator<Item = &'a Standing> {
    let finding = finding.to_owned();
    view.sheet(&finding)
        .into_iter()
        .flat_map(crate::record::Sheet::answers)
        .filter(move |(code, _, _)| code.as_str() == finding)
        .flat_map(|(_, _, all)| all)
}

/// The newest reading of a repeated finding on each device. Numbers on a chain give the order;
/// clocks do not.
pub(crate) fn newest<'a>(view: &View<'a>, finding: &str) -> Vec<&'a Standing> {
    let mut by_device: BTreeMap<DeviceId, &Standing> = BTreeMap::new();
    for s in view.question(finding, Site::NONE).standing {
        if by_device.get(&s.id.device).is_none_or(|known| known.id.seq < s.id.seq) {
            by_device.insert(s.id.device, s);
        }
    }
    by_device.into_values().collect()
}

/// Numbers among the newest readings, as stored integers.
pub(crate) fn newest_numbers(view: &View, finding: &str) -> Vec<i64> {
    newest(view, finding)
        .into_iter()
        .filter_map(|s| match s.answer {
            Answer::Seen { value: Value::Number(n) } => Some(n),
            _ => None,
        })
        .collect()
}

/// True where one of the newest readings holds one of these options.
pub(crate) fn newest_chose(view: &View, finding: &str, options: &[&str]) -> bool {
    newest(view, finding).into_iter().any(|s| holds(&s.answer, options))
}

/// True where one of these signs was seen on the same device after this entry: what the entry said
/// was said without knowing of it.
pub(crate) fn seen_since(view: &View, signs: &[&str], entry: EntryId) -> bool {
    signs.iter().any(|sign| {
        standing(view, sign)
            .any(|s| s.id.device == entry.device && s.id.seq > entry.seq && matches!(s.answer, Answer::Seen { .. }))
    })
}

/// True where this sign was ever seen at this carcass, on any occasion, even if taken back since.
pub(crate) fn ever_there(view: &View, sign: &str) -> bool {
    view.was_ever_there(sign)
        || view.carcass.is_some_and(|c| c.examinations.values().any(|e| e.sheet.was_ever_seen(sign)))
}
