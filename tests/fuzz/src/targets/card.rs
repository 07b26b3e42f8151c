//! Local cards and evidence tables, before anything is known of who made them.

use marrowbook::bundle::{DeviceKey, Kind, canonical, seal};
use marrowbook::card::{Card, EvidenceTable, card_state};
use marrowbook::office::card_made::{Draft, read_table};
use marrowbook::office::cards::Cards;
use marrowbook::reading::table_of;
use marrowbook::record::Moment;
use std::sync::LazyLock;

static KEY: LazyLock<DeviceKey> = LazyLock::new(|| DeviceKey::from_seed(&[5; 32]));

pub(crate) fn run(bytes: &[u8]) {
    drop(read_table(bytes));
    drop(Draft::from_file(bytes, 1, None));
    let Ok(text) = std::str::from_utf8(bytes) else { return };
    if let Ok(table) = EvidenceTable::from_json(text) {
        drop(table_of(&table));
    }
    let Ok(card) = Card::from_json(text) else { return };
    assert!(card.flaws().is_empty());
    for at in ["0001-01-01T00:00:00+00:00", "2027-02-14T10:00:00-05:00", "9998-12-31T23:59:59+00:00"] {
        let at = Moment::parse(at).unwrap();
        assert!(!card.holds_at(at) || card.valid_from.unix_seconds() <= at.unix_seconds());
        card_state(Some(&card), at);
    }
    drop(card.laboratories.clone());
    // Written, signed and taken in again it is the same card.
    let written = canonical::to_vec(&card).unwrap();
    assert_eq!(Card::from_json(std::str::from_utf8(&written).unwrap()).as_ref(), Ok(&card));
    if let Ok(signed) = seal(Kind::Card, &written, &KEY) {
        let mut cards = Cards::default();
        if cards.take(signed.as_bytes(), Some(&KEY.public())) == Ok(true) {
            assert_eq!(cards.newest(), Some(&card));
        }
    }
}
