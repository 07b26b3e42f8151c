//! The demo's card is read by the same strict reader as any office's.

use marrowbook::card::Card;

#[test]
fn the_demo_card_is_a_card() {
    let card = Card::from_json(include_str!("../../demo/card.json")).unwrap();
    assert!(card.people.iter().any(|p| p.may_touch) && card.people.iter().any(|p| !p.may_touch));
}
