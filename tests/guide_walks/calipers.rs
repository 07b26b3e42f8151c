//! Calipers on molars: asked on the bench only where the card has constants to read them by.

use marrowbook::card::Card;
use marrowbook::guide::ExamKind;
use serde_json::{Value, json};

use crate::visit::{Visit, card};
use crate::walks::bench;

/// The card of the invented reserve with these figures.
pub(crate) fn card_with(figures: &Value) -> Card {
    let mut text = serde_json::to_value(card()).unwrap();
    text["figures"] = figures.clone();
    serde_json::from_value(text).unwrap()
}

pub(crate) fn ratio() -> Value {
    json!({"molar_ratio": {"intercept_tenths_months": 100, "slope_tenths_months": 400, "sd_tenths_months": 120,
        "from_hundredths": 80, "to_hundredths": 250, "deer_count": 31, "source": "own jaws (invented)"}})
}

/// A visit of the bench with a card that has these figures; what is asked of calipers.
fn asked(figures: &Value) -> (Visit, Vec<String>) {
    let mut visit = Visit::field(1);
    visit.card = Some(card_with(figures));
    visit.next_exam(2, ExamKind::Bench);
    let all = visit.walk(&mut bench());
    let of_calipers = |name: &String| name.contains("crown_height") || name.contains("molar_width");
    (visit, all.into_iter().filter(of_calipers).collect())
}

fn m1() -> Value {
    json!({"tooth": "m1", "unworn_tenths_mm": 120, "in_wear_months": 6, "worn_out_months": 192,
        "deer_count": 14, "source": "own jaws (invented)"})
}

#[test]
fn nobody_is_asked_where_the_card_has_no_constants() {
    assert_eq!(asked(&json!({})).1, Vec::<String>::new());
}

#[test]
fn crowns_are_asked_of_the_teeth_that_the_card_has_constants_for() {
    let (_, names) = asked(&json!({"crown_heights": [m1()]}));
    assert_eq!(names.len(), 2, "first molar, left and right: {names:?}");
    assert!(names.iter().all(|name| name.contains("crown_height") && name.contains("m1")), "{names:?}");
}

#[test]
fn the_ratio_asks_heights_and_widths_of_every_molar() {
    let (mut visit, names) = asked(&ratio());
    assert_eq!(names.len(), 12, "{names:?}");
    let right = names.iter().position(|name| name.contains("right")).unwrap();
    assert_eq!(right, 6, "one side to its end before the other: {names:?}");
    // A card out of date asks nothing more.
    visit.now = crate::visit::moment("2027-05-02T10:00:00-04:00");
    visit.next_exam(3, ExamKind::Bench);
    let again = visit.walk(&mut bench());
    assert!(!again.iter().any(|name| name.contains("molar_width")), "{again:?}");
}
