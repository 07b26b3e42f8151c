//! Who goes out for the reserve, and what its card lets each of them do.

use serde_json::{Value, json};

use super::Made;

/// A crew, whose lead holds its phone.
#[derive(Debug)]
pub(crate) struct Crew {
    /// What its phone is called.
    pub(crate) label: &'static str,
    pub(crate) name: &'static str,
    /// Codes of who goes out, the lead first.
    pub(crate) out: [&'static str; 2],
}

pub(crate) const CREWS: [Crew; 5] = [
    Crew { label: "blue", name: "ridge", out: ["K7", "O6"] },
    Crew { label: "red", name: "lake", out: ["B2", "R3"] },
    Crew { label: "green", name: "flowage", out: ["D4", "J8"] },
    Crew { label: "yellow", name: "gate", out: ["M3", "F9"] },
    Crew { label: "white", name: "weekend", out: ["P5", "L2"] },
];

/// What the card lets somebody do. Of whom it says nothing looks and touches nothing.
#[derive(Clone, Copy, Debug, Default)]
pub(crate) struct May {
    pub(crate) touch: bool,
    pub(crate) take_jaw: bool,
    pub(crate) take_femur: bool,
    pub(crate) take_head: bool,
}

/// Who takes in at the gatehouse what crews bring, and sends it out.
pub(crate) const GATEHOUSE: &str = "G5";

/// Code, name, and whether they may touch, take the jaw, a long bone, parts of the head.
const PEOPLE: [(&str, &str, [bool; 4]); 11] = [
    ("K7", "Ada Fenn (invented)", [true, true, true, true]),
    ("B2", "Tom Alder (invented)", [true, true, false, false]),
    ("D4", "Iris Quarrel (invented)", [false; 4]),
    ("M3", "Nell Harrow (invented)", [true, true, true, true]),
    ("P5", "Sam Oster (invented)", [true, true, true, false]),
    ("O6", "Ole Birk (invented)", [false; 4]),
    ("R3", "Ruth Pike (invented)", [false; 4]),
    ("J8", "Jon Ash (invented)", [false; 4]),
    ("F9", "Finn Moss (invented)", [false; 4]),
    ("L2", "Lea Thorn (invented)", [false; 4]),
    (GATEHOUSE, "Kit Sorrel, gatehouse (invented)", [false; 4]),
];

/// What somebody may do; nothing where the card does not name them.
pub(crate) fn may(code: &str) -> May {
    let known = PEOPLE.iter().find(|(one, _, _)| *one == code);
    known.map_or_else(May::default, |&(_, _, [touch, take_jaw, take_femur, take_head])| May {
        touch,
        take_jaw,
        take_femur,
        take_head,
    })
}

/// The reserve's card with all its people.
pub(crate) fn card() -> Made<Value> {
    let mut card: Value = serde_json::from_str(include_str!("../../card.json"))?;
    let people = card.get_mut("people").and_then(Value::as_array_mut).ok_or("the card has no people")?;
    for (code, name, _) in PEOPLE {
        let may = may(code);
        let said = json!({ "may_touch": may.touch, "may_take_jaw": may.take_jaw,
            "may_take_femur": may.take_femur, "may_take_head_parts": may.take_head });
        let place = match people.iter().position(|one| one.get("code").is_some_and(|known| known == code)) {
            Some(place) => place,
            None => {
                people.push(json!({ "code": code, "name": name }));
                people.len() - 1
            }
        };
        let one = people.get_mut(place).and_then(Value::as_object_mut).ok_or("a person is no object")?;
        one.extend(said.as_object().cloned().unwrap_or_default());
    }
    Ok(card)
}
