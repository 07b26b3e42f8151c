//! The report of the kit's bundle, and that nothing that was typed becomes markup. A rule of the house.

use super::*;
use crate::bundle::{DeviceKey, Extras};
use crate::office::key_file::{KeyFile, Randomness};
use crate::office::keyring::Keyring;
use crate::office::test_chain::{TestChain, answer, noon as at};
use crate::record::{Act, Answer, uuid_v7};

const NASTY: &str = "<script>alert(\"x\")</script>' onload='y & z";

/// A bundle of a phone with one carcass: words of a person's own, and an answer corrected.
fn bundle(key: &DeviceKey) -> String {
    let exam = uuid_v7(1, [7; 10]);
    let carcass = uuid_v7(2, [8; 10]);
    let mut chain = TestChain::of(key);
    let mut say = |finding: &str, said: Answer, corrects: bool| {
        let mut act = answer(exam, finding, "K7", said);
        if let (Act::Answer { supersedes, .. }, true, Some(last)) = (&mut act, corrects, chain.entries.last()) {
            supersedes.push(last.id());
        }
        chain.add(act, "B2", at());
    };
    say("examined_carcass", Answer::Seen { value: Value::Ref(carcass) }, false);
    say("species", Answer::choice("white_tailed_deer"), false);
    say("remark", Answer::Seen { value: Value::Text(NASTY.into()) }, false);
    say("hind_foot_mm", Answer::number(400), false);
    say("hind_foot_mm", Answer::number(410), true);
    let label: String = NASTY.chars().take(30).collect();
    chain.bundle(key, &label, Extras::default())
}

#[test]
fn words_that_were_typed_are_shown_and_never_markup() {
    let key = DeviceKey::from_seed(&[3; 32]);
    let mut hand = Hand::default();
    hand.take("a.txt".to_owned(), bundle(&key).into_bytes());
    let carcass = hand.figures(at()).looked.carcasses[0].carcass;
    let html = carcass_report(&hand, carcass, at(), Some(Sheet::Letter)).unwrap();
    assert!(!html.contains("<script") && !html.contains("' onload='"), "{html}");
    assert!(html.contains("&lt;script&gt;alert(&quot;x&quot;)&lt;/script&gt;&#39; onload=&#39;y &amp; z"), "{html}");
    assert!(html.contains("size: letter portrait"));
    assert!(html.contains(&tell("report.not_counted")), "an unknown phone's");
    assert!(carcass_report(&hand, uuid_v7(9, [1; 10]), at(), None).is_none());
    // once enrolled it counts, and says who signed and since when
    let office = DeviceKey::from_seed(&[5; 32]);
    let random = Randomness { seed: [5; 32], salt: [1; 16], nonce: [2; 12] };
    hand.take_office_key(&KeyFile::make("acorn basin cedar dolphin", random).unwrap(), &office, &Keyring::default())
        .unwrap();
    hand.enrol("<i>blue</i>", key.public().id(), Some(&office), at()).unwrap();
    let html = carcass_report(&hand, carcass, at(), None).unwrap();
    assert!(!html.contains(&tell("report.not_counted")) && !html.contains("portrait"));
    let words = crate::bundle::Fingerprint::of(key.public().id()).to_string();
    let digest = crate::office::archive::hex(*hand.received().keys().next().unwrap());
    for wanted in ["&lt;i&gt;blue&lt;/i&gt;", &words, &digest, "enrolled by the office on 2027-02-14 12:00"] {
        assert!(html.contains(wanted), "{wanted} in {html}");
    }
    // the answer that was corrected is struck through and names what replaced it
    assert!(html.contains("400"), "{html}");
    let struck = html.split("<li>").find(|line| line.contains("<s>")).unwrap();
    assert!(struck.starts_with("<b>4</b>") && struck.contains("400") && struck.contains("(replaced by 5)"), "{struck}");
    assert!(struck.contains("K7 (typed by B2)"), "{struck}");
}
