//! The desk notes parcels, enters sheets and marks calls as the command line does: each reads what the other wrote. The
//! command line is the yardstick; deer, people and results are invented.
#![cfg(feature = "cli")]
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, clippy::indexing_slicing)]

#[path = "office/kit.rs"]
mod kit;
#[path = "office/ran.rs"]
mod ran;
#[path = "office/sampled.rs"]
mod sampled;

use std::cell::Cell;
use std::collections::{BTreeMap, BTreeSet};
use std::fs;

use marrowbook::bundle::DeviceKey;
use marrowbook::office::hand::{By, DeskError, Figures, Hand, Listed, NotDecided};
use marrowbook::office::lab_sheet::{At, Outcome};
use marrowbook::office::not_noted::NotNoted;
use marrowbook::office::receipt::Receipt;
use marrowbook::office::send_out::{Parcel, State, list, samples};
use marrowbook::office::zipped::Tree;
use marrowbook::record::{Answer, Moment, PersonCode};
use ran::Office;
use sampled::{Chain, PASSPHRASE, json_lines, number, office, text};
use serde_json::Value as Json;

fn now() -> Moment {
    Moment::parse("2027-02-20T12:00:00-05:00").unwrap()
}

/// The folder of the command line, opened at the desk.
fn desk(office: &Office) -> (Hand, DeviceKey) {
    let mut files = Tree::new();
    for folder in ["", "received", "cards"] {
        let Ok(inside) = fs::read_dir(office.folder.join(folder)) else { continue };
        for path in inside.map(|entry| entry.unwrap().path()).filter(|path| path.is_file()) {
            let name = path.strip_prefix(&office.folder).unwrap().to_str().unwrap().to_owned();
            files.insert(name, fs::read(&path).unwrap().into());
        }
    }
    let mut hand = Hand::default();
    hand.take_archive(files).unwrap();
    let key = hand.office_key().unwrap().unlock(PASSPHRASE).unwrap();
    (hand, key)
}

/// What the desk has not saved goes into the folder.
fn save(hand: &Hand, office: &Office) {
    for (name, bytes) in hand.held().all() {
        fs::write(office.folder.join(name), &*bytes).unwrap();
    }
}

fn json<T: serde::Serialize>(all: &[T]) -> Vec<Json> {
    all.iter().map(|one| serde_json::to_value(one).unwrap()).collect()
}

/// What the page has before it.
fn all_of(hand: &Hand) -> (Figures, Listed) {
    let figures = hand.figures(now());
    let listed = hand.listed(&figures.counted, now(), BTreeMap::new());
    (figures, listed)
}

#[test]
fn what_is_done_at_the_desk_stands_on_the_command_line_and_the_other_way_round() {
    let mut chain = Chain::new();
    chain.deer(1);
    chain.deer(2);
    let office = office("lab-desk", &chain);
    let count = Cell::new(0_u8);
    let fill = |bytes: &mut [u8]| {
        count.set(count.get() + 1);
        bytes.fill(count.get());
        Ok(())
    };
    let by = By { person: PersonCode::new("OFF").unwrap(), now: now(), fill: &fill };
    let (mut hand, key) = desk(&office);
    let (figures, listed) = all_of(&hand);
    let all = &listed.lines;
    assert_eq!(json(all), json_lines(&office, &["lab", "list", "--all", "--json"]));
    assert_eq!(*all, list(&samples(&hand.folded()), listed.laboratories.as_ref().unwrap()));
    assert_eq!(all.len(), 10);

    // A parcel: for one that cannot go there nothing is noted of any, and without the key nothing at all.
    let parcel = |numbers: &[String]| -> Vec<String> { numbers.to_vec() };
    let both = parcel(&[number(1, 1), number(2, 1)]);
    let wrong = parcel(&[number(1, 1), "QR-9".to_owned()]);
    let of = |numbers| Parcel {
        laboratory: "ROOT",
        numbers,
        tests: &[],
        from: PersonCode::new("OFF").unwrap(),
        place: "post office".to_owned(),
        seal: "77".to_owned(),
        condition: "dry".to_owned(),
    };
    let before = hand.held().all();
    let refused = hand.send((&figures, &listed), &of(&wrong), Some(&key), &by);
    assert!(matches!(refused, Err(NotDecided::NotNoted(_))), "{refused:?}");
    let refused = hand.send((&figures, &listed), &of(&both), None, &by);
    assert!(matches!(refused, Err(NotDecided::Desk(DeskError::NoKey))), "{refused:?}");
    assert_eq!(hand.held().all(), before, "nothing was written");
    hand.send((&figures, &listed), &of(&both), Some(&key), &by).unwrap();
    let again = hand.send((&figures, &listed), &of(&both), Some(&key), &by);
    assert!(matches!(again, Err(NotDecided::NotNoted(NotNoted::SentBefore(_)))), "{again:?}");
    save(&hand, &office);
    let sent = json_lines(&office, &["lab", "list", "--json"]);
    let state = |all: &[Json], number: &str, test: &str| {
        all.iter().find(|line| line["number"] == number && line["test"] == test).unwrap()["state"].clone()
    };
    for n in [1, 2] {
        assert_eq!(state(&sent, &number(n, 1), "cementum"), "sent");
    }
    assert!(sent[0]["custody"].to_string().contains("post office, 77, dry"), "{}", sent[0]["custody"]);

    // What was sent by mistake is taken back, and a receipt is noted, on the same figures as before.
    let one = parcel(&[number(2, 1)]);
    hand.take_back((&figures, &listed), &one, Some(&key), &by).unwrap();
    let twice = hand.take_back((&figures, &listed), &one, Some(&key), &by);
    assert!(matches!(twice, Err(NotDecided::NotNoted(NotNoted::NotTheOffices(_)))), "{twice:?}");
    let receipt = Receipt {
        numbers: &one,
        to: PersonCode::new("OFF").unwrap(),
        from: None,
        place: "office".to_owned(),
        seal: String::new(),
        seal_intact: Some(true),
        condition: "dry".to_owned(),
    };
    assert!(
        listed.unreceived.iter().any(|waits| waits.number == one[0] && waits.holder == "K7"),
        "{:?}",
        listed.unreceived
    );
    hand.note_receipt((&figures, &listed), &receipt, Some(&key), &by).unwrap();
    let again = hand.note_receipt((&figures, &listed), &receipt, Some(&key), &by);
    assert!(matches!(again, Err(NotDecided::NotNoted(NotNoted::ReceivedBefore(_)))), "{again:?}");
    let (_, then) = all_of(&hand);
    assert!(then.unreceived.iter().all(|waits| waits.number != one[0]), "{:?}", then.unreceived);
    let of_jaw = |n: u8| then.lines.iter().find(|line| line.number == number(n, 1)).unwrap();
    assert!(then.can_take_back(of_jaw(1)) && of_jaw(1).state == State::Sent);
    assert!(then.can_take_back(of_jaw(2)) && of_jaw(2).state == State::NotSent);
    assert!(!listed.can_take_back(listed.lines.first().unwrap()), "a crew's own");
    hand.send((&figures, &listed), &of(&one), Some(&key), &by).unwrap();
    save(&hand, &office);

    // A sheet with a line that does not fit enters nothing; left out, the rest goes in. The figures are still those from
    // before the parcel: what the office itself wrote since is heeded all the same.
    let text = format!(
        "sample,test,result,years\nQR-9,cwd,positive,\n{},cwd,suspect,\n{},cementum,,6\n",
        number(1, 3),
        number(1, 1)
    );
    let check = |hand: &Hand, without: &BTreeSet<u64>| {
        hand.check_sheet((&figures, &listed), text.as_bytes(), (false, without), &by).unwrap()
    };
    let checked = check(&hand, &BTreeSet::new());
    assert_eq!((checked.wrong, checked.acts.len(), checked.lines.len()), (1, 0, 3));
    assert!(
        checked.lines[0].words(At::Page).starts_with("line 2: no sample has the number `QR-9`"),
        "{}",
        checked.lines[0].words(At::Page)
    );
    let checked = check(&hand, &BTreeSet::from([2]));
    assert_eq!((checked.wrong, checked.lines[0].outcome.clone()), (0, Outcome::LeftOut));
    let enter = |hand: &mut Hand, without: &[u64]| {
        let without = without.iter().copied().collect();
        hand.enter_sheet((&figures, &listed), text.as_bytes(), (false, &without), Some(&key), &by)
    };
    // Nobody looked again in between: what is there by now is not entered twice.
    let before = hand.held().all();
    assert!(matches!(enter(&mut hand, &[]), Err(NotDecided::NothingNew)));
    assert_eq!(hand.held().all(), before);
    enter(&mut hand, &[2]).unwrap();
    assert!(matches!(enter(&mut hand, &[2]), Err(NotDecided::NothingNew)));
    save(&hand, &office);
    let all = json_lines(&office, &["lab", "list", "--all", "--json"]);
    assert_eq!(
        (state(&all, &number(1, 3), "cwd"), state(&all, &number(1, 1), "cementum")),
        ("answered".into(), "answered".into())
    );

    // The call that follows, the same on both sides; marked here, it is off the list there, and back.
    let (figures, Listed { calls, .. }) = all_of(&hand);
    assert_eq!(json(&calls), json_lines(&office, &["calls", "list", "--json"]));
    let call = calls.iter().find(|call| call.who.contains("K7")).unwrap();
    assert!(call.why.iter().any(|why| why.contains("SUSPECT")), "{call:?}");
    hand.mark_call(&figures, call, true, Some(&key), &by).unwrap();
    assert!(hand.mark_call(&figures, call, true, Some(&key), &by).is_err(), "marked before");
    save(&hand, &office);
    let left = json_lines(&office, &["calls", "list", "--json"]);
    assert_eq!(left.len() + 1, calls.len());
    hand.mark_call(&figures, call, false, Some(&key), &by).unwrap();
    save(&hand, &office);
    assert_eq!(json_lines(&office, &["calls", "list", "--json"]).len(), calls.len());
    assert!(all_of(&hand).1.lines.iter().any(|line| line.state == State::Answered));
    // One chain without a gap, whoever wrote it.
    assert!(hand.figures(now()).counted.odd.is_empty());
}

#[test]
fn without_a_card_there_is_no_list_and_it_says_why() {
    let mut chain = Chain::new();
    chain.deer(1);
    let office = office("lab-desk-no-card", &chain);
    fs::remove_dir_all(office.folder.join("cards")).unwrap();
    let (hand, _) = desk(&office);
    assert!(hand.laboratories(now()).unwrap_err().contains("names a laboratory"));
}

/// Each says what its reader has before him: boxes on the page, options at the command line.
#[test]
fn what_can_be_done_is_said_in_the_words_of_page_and_command_line() {
    let mut chain = Chain::new();
    chain.deer(1);
    let said = [("cementum_years_count", Answer::number(4)), ("cementum_sample", text(&number(1, 1)))];
    chain.bench(1, 11, "K7", &said);
    let office = office("lab-desk-words", &chain);
    let (hand, _) = desk(&office);
    let (figures, listed) = all_of(&hand);
    let fill = |bytes: &mut [u8]| {
        bytes.fill(7);
        Ok(())
    };
    let by = By { person: PersonCode::new("OFF").unwrap(), now: now(), fill: &fill };
    let sheet = format!("sample,test,years\n{},cementum,5\n", number(1, 1));
    let check = |correct| {
        let how = (correct, &BTreeSet::new());
        hand.check_sheet((&figures, &listed), sheet.as_bytes(), how, &by).unwrap().lines.remove(0)
    };
    for correct in [false, true] {
        let line = check(correct);
        let [page, terminal] = [At::Page, At::CommandLine].map(|at| line.words(at));
        assert!(page.contains("To decide") && !page.contains("--") && !page.contains("office decide"), "{page}");
        assert!(terminal.contains("office decide answer") && !terminal.contains("box"), "{terminal}");
    }
    assert!(check(true).words(At::Page).contains("beside a phone's `4 years`, which is not corrected"));
    let no_chance = |_: &mut [u8]| Err("none to be had".to_owned());
    let by = By { fill: &no_chance, ..by };
    let none = hand.check_sheet((&figures, &listed), sheet.as_bytes(), (true, &BTreeSet::new()), &by);
    assert_eq!(none.unwrap_err(), "none to be had");
}
