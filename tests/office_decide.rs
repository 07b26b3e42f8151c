//! `office decide`: signed decisions that every reading and the season honour. All carcasses are invented.
//! The rules are the project's own, no outside source.
#![cfg(feature = "cli")]
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, clippy::indexing_slicing)]

#[path = "office/kit.rs"]
mod kit;
#[path = "office/ran.rs"]
mod ran;
#[path = "office/season_folder.rs"]
mod season_folder;

use marrowbook::office::archive::Archive as Folder;
use marrowbook::office::own_chain::held;
use marrowbook::record::short_code::short_code;
use marrowbook::record::{Fold, Site, fold};
use season_folder::{Archive, Deer, carcass};

fn folded(archive: &Archive) -> Fold {
    let folder = Folder::at(archive.folder());
    fold(&held(&folder, &folder.keyring().unwrap()).unwrap().gathered.journal)
}

#[test]
fn one_animal_reported_twice_is_joined_and_taken_apart_again() {
    let archive = Archive::new("decide-same");
    let all: Vec<Deer> = [1, 2, 40].map(Deer::of).into();
    archive.keep("north.txt", &season_folder::bundle(&kit::phone(), "north", &all, &[]));
    assert_eq!(folded(&archive).carcasses.len(), 3);
    let codes = [short_code(carcass(1)), short_code(carcass(40))];
    let same = |by: &str| archive.run(&["decide", "same", &codes[0], &codes[1], "--by", by]);
    assert_eq!(same("not a code!").code, 2);
    let ran = same("K7");
    assert_eq!(ran.code, 0, "{ran:?}");
    let joined = folded(&archive);
    assert_eq!(joined.carcasses.len(), 2);
    assert!(joined.carcasses.values().any(|one| one.joined.contains(&carcass(1)) && one.joined.contains(&carcass(40))));
    let again = same("K7");
    assert!(again.code == 1 && again.err.contains("one animal already"), "{again:?}");
    let ids = [carcass(1).to_string(), carcass(40).to_string()];
    let apart = || archive.run(&["decide", "apart", &ids[1], &ids[0], "--by", "K7"]);
    assert_eq!(apart().code, 0);
    assert_eq!(folded(&archive).carcasses.len(), 3, "taken back");
    let ran = apart();
    assert!(ran.code == 1 && ran.err.contains("no standing decision") && ran.err.contains("next:"), "{ran:?}");
    // And joined once more: what was taken back does not bar it. Apart again by the codes that the lists show.
    assert_eq!(same("K7").code, 0);
    let codes = [carcass(1), carcass(40)].map(marrowbook::record::short_code::short_code);
    assert_eq!(archive.run(&["decide", "apart", &codes[0], &codes[1].to_lowercase(), "--by", "K7"]).code, 0);
    assert_eq!(folded(&archive).carcasses.len(), 3);
    assert_eq!(same("K7").code, 0);
    assert_eq!(folded(&archive).carcasses.len(), 2);
}

#[test]
fn an_answer_is_chosen_with_a_reason_and_a_later_one_opens_it_again() {
    let archive = Archive::new("decide-answer");
    let mut other = Deer::of(1);
    other.species = "other_deer";
    archive.keep("north.txt", &season_folder::bundle(&kit::phone(), "north", &[Deer::of(1)], &[]));
    archive.keep("south.txt", &season_folder::bundle(&kit::lost_phone(), "south", &[other], &[]));
    let listed = archive.run(&["decide", "list"]);
    let species = |fold: &Fold| {
        let question = fold.carcasses[&carcass(1)].question("species", Site::NONE);
        (question.is_split(), question.standing.iter().map(|one| one.id.to_string()).collect::<Vec<_>>())
    };
    let (split, entries) = species(&folded(&archive));
    assert!(split && entries.len() == 2, "{entries:?}");
    assert!(entries.iter().all(|entry| listed.out.contains(entry.as_str())), "{listed:?}");
    assert!(listed.out.contains(": White-tailed deer") && listed.out.contains(": Another kind of deer"), "{listed:?}");
    let choose = |entry: &str, reason: &str| {
        archive.run(&["decide", "answer", &short_code(carcass(1)), entry, "--reason", reason, "--by", "K7"])
    };
    assert!(choose(&entries[0], " ").err.contains("needs a reason"));
    assert!(choose("nobody:1", "seen").err.contains("no standing answer"));
    let wanted = folded(&archive).carcasses[&carcass(1)].question("species", Site::NONE).standing[0].answer.clone();
    let ran = choose(&entries[0], "tail and photo");
    assert_eq!(ran.code, 0, "{ran:?}");
    let now = folded(&archive);
    let question = now.carcasses[&carcass(1)].question("species", Site::NONE);
    assert_eq!((question.standing.len(), question.settled()), (1, Some(&wanted)));
    // What the crews wrote is still in their examination.
    assert_eq!(
        now.carcasses[&carcass(1)]
            .examinations
            .values()
            .next()
            .unwrap()
            .sheet
            .question("species", Site::NONE)
            .standing
            .len(),
        2
    );
    let listed = archive.run(&["decide", "list"]).out;
    assert!(!listed.contains(&entries[1]));
    let undo = listed.lines().find_map(|line| line.trim().strip_prefix("take back: office "));
    let undo: Vec<&str> = undo.unwrap_or_else(|| panic!("{listed}")).split(' ').collect();
    assert_eq!((&undo[..2], undo[2]), (&["decide", "undo"][..], carcass(1).to_string().as_str()));
    // An answer that nobody had weighed opens the question again.
    let mut third = Deer::of(1);
    third.species = "other_animal";
    let strange = kit::stranger();
    archive.keep("third.txt", &season_folder::bundle(&strange, "third", &[third], &[]));
    let words = marrowbook::bundle::Fingerprint::of(strange.public().id()).to_string();
    assert_eq!(archive.run(&["enrol", "--fingerprint", &words, "--name", "green phone"]).code, 0);
    assert!(species(&folded(&archive)).0, "open again");
}

#[test]
fn likely_doubles_are_listed_with_why_until_a_person_calls_them_two() {
    let archive = Archive::new("decide-doubles");
    let all: Vec<Deer> = [1, 2, 40].map(Deer::of).into();
    archive.keep("north.txt", &season_folder::bundle(&kit::phone(), "north", &all, &[]));
    let [one, other] = [1, 40].map(|n| carcass(n).to_string());
    let codes = [1, 40].map(|n| short_code(carcass(n)));
    let listed = || archive.run(&["decide", "list"]).out;
    let before = listed();
    let line = before.lines().find(|line| codes.iter().all(|code| line.contains(code.as_str()))).unwrap();
    assert!(line.contains("in 100 that they are one animal") && line.contains("for the place"), "{line}");
    // The figures are judgement, and the page says so beside them too.
    let mark = before.find("expert judgement").unwrap_or(usize::MAX);
    assert!(before.find("in 100 that").is_some_and(|figure| mark < figure), "{before}");
    assert_eq!(before.matches("expert judgement").count(), 1, "{before}");
    assert!(before.contains(&format!("office decide same {one} {other} --by CODE")), "{before}");
    // A card that cannot be used is said so: figures without it would be others.
    let cards = std::path::Path::new(archive.folder()).join("cards");
    std::fs::create_dir_all(&cards).unwrap();
    std::fs::write(cards.join("torn.txt"), "{").unwrap();
    let torn = archive.run(&["decide", "list"]);
    assert!(torn.code == 1 && torn.err.contains("torn.txt") && torn.err.contains("no signed local card"), "{torn:?}");
    std::fs::remove_file(cards.join("torn.txt")).unwrap();
    // An id that nobody has is refused, and nothing is written.
    let nobody = uuid::Uuid::from_u128(1).to_string();
    let ran = archive.run(&["decide", "apart", &one, &nobody, "--by", "K7"]);
    assert!(ran.code == 1 && ran.err.contains("no carcass here has the id"), "{ran:?}");
    assert_eq!(archive.run(&["decide", "apart", &other, &one, "--by", "K7"]).code, 0);
    assert_eq!(folded(&archive).carcasses.len(), 3, "nothing is joined by it");
    assert!(!listed().contains("in 100 that they are one animal"), "{}", listed());
    // Said twice it is no news; joined after all it holds no longer.
    assert_eq!(archive.run(&["decide", "apart", &one, &other, "--by", "K7"]).code, 1);
    assert_eq!(archive.run(&["decide", "same", &one, &other, "--by", "K7"]).code, 0);
    assert_eq!(folded(&archive).carcasses.len(), 2);
    let two = marrowbook::office::decide::two_animals(
        &held(&Folder::at(archive.folder()), &Folder::at(archive.folder()).keyring().unwrap())
            .unwrap()
            .gathered
            .journal
            .bodies()
            .0,
    );
    assert!(two.is_empty(), "{two:?}");
}
