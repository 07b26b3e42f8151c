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

/// What the card lets somebody take. Of whom it says nothing looks and touches nothing.
#[derive(Clone, Copy, Debug, Default)]
pub(crate) struct May {
    pub(crate) jaw: bool,
    pub(crate) femur: bool,
    pub(crate) head: bool,
}

impl May {
    /// Here everybody who may touch may take the jaw.
    pub(crate) const fn touch(self) -> bool {
        self.jaw
    }
}

/// Who takes in at the gatehouse what crews bring, and sends it out.
pub(crate) const GATEHOUSE: &str = "G5";

/// Code, name, and whether they may touch a carcass and take its jaw, a long bone, parts of its head.
const PEOPLE: [(&str, &str, [bool; 3]); 11] = [
    ("K7", "Ada Fenn (invented)", [true, true, true]),
    ("B2", "Tom Alder (invented)", [true, false, false]),
    ("D4", "Iris Quarrel (invented)", [false; 3]),
    ("M3", "Nell Harrow (invented)", [true, true, true]),
    ("P5", "Sam Oster (invented)", [true, true, false]),
    ("O6", "Ole Birk (invented)", [false; 3]),
    ("R3", "Ruth Pike (invented)", [false; 3]),
    ("J8", "Jon Ash (invented)", [false; 3]),
    ("F9", "Finn Moss (invented)", [false; 3]),
    ("L2", "Lea Thorn (invented)", [false; 3]),
    (GATEHOUSE, "Kit Sorrel, gatehouse (invented)", [false; 3]),
];

/// What somebody may do; nothing where the card does not name them.
pub(crate) fn may(code: &str) -> May {
    let known = PEOPLE.iter().find(|(one, _, _)| *one == code);
    known.map_or_else(May::default, |&(_, _, [jaw, femur, head])| May { jaw, femur, head })
}

/// The reserve's card with all its people.
pub(crate) fn card() -> Made<Value> {
    let mut card: Value = serde_json::from_str(include_str!("../../card.json"))?;
    let people = card.get_mut("people").and_then(Value::as_array_mut).ok_or("the card has no people")?;
    for (code, name, _) in PEOPLE {
        if !people.iter().any(|one| one.get("code").is_some_and(|known| known == code)) {
            people.push(json!({ "code": code, "name": name }));
        }
    }
    for one in people.iter_mut().filter_map(Value::as_object_mut) {
        let may @ May { jaw, femur, head } = one.get("code").and_then(Value::as_str).map(may).unwrap_or_default();
        let said = [
            ("may_touch", may.touch()),
            ("may_take_jaw", jaw),
            ("may_take_femur", femur),
            ("may_take_head_parts", head),
        ];
        one.extend(said.map(|(what, is)| (what.to_owned(), is.into())));
    }
    Ok(card)
}
