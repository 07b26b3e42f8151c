//! The office's command line, one behaviour a test: arguments, what is printed, the exit code.
#![cfg(feature = "cli")]
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, clippy::indexing_slicing)]

#[path = "office/kit.rs"]
mod kit;
#[path = "office/ran.rs"]
mod ran;

use marrowbook::bundle::{Extras, Fingerprint, make, qr};
use ran::{Office, folder};
use std::fs;
use std::path::Path;

fn words_of_phone() -> String {
    Fingerprint::of(kit::phone().public().id()).to_string()
}

#[test]
fn a_device_is_unknown_until_its_words_are_compared() {
    let office = Office::new(folder("enrol"));
    let file = office.put("from-north.txt", kit::good().as_bytes());

    let ran = office.run(&["open", &file]);
    assert_eq!(ran.code, 3);
    assert!(ran.out.starts_with(&format!("{file}: intact, but from a device that is not enrolled\n")), "{}", ran.out);
    assert!(ran.out.contains(&format!("\n  fingerprint: {}\n", words_of_phone())), "{}", ran.out);
    assert!(ran.out.contains("\n  6 entries, numbers 1 to 6\n"), "{}", ran.out);

    let ran = office.run(&["enrol", &file, "--name", "blue phone"]);
    assert_eq!(ran.code, 1);
    assert!(
        ran.err.contains("was not compared, so nothing was enrolled\n  next: compare the words above"),
        "{}",
        ran.err
    );
    assert!(!office.folder.join("keyring.json").exists());

    let wrong = Fingerprint::of(kit::stranger().public().id()).to_string();
    let ran = office.run(&["enrol", &file, "--name", "blue phone", "--words", &wrong]);
    assert_eq!(ran.code, 1);
    assert!(ran.err.contains("do not enrol it"), "{}", ran.err);
    assert_eq!(office.run(&["open", &file]).code, 3);

    let ran = office.run(&["enrol", &file, "--name", "blue phone", "--words", &words_of_phone()]);
    assert_eq!((ran.code, ran.err.as_str()), (0, ""));
    let ran = office.run(&["open", &file]);
    assert_eq!(ran.code, 0);
    assert!(ran.out.starts_with(&format!("{file}: intact and enrolled: from \"blue phone\"\n")), "{}", ran.out);
}

// Rule of the house: whose entries a file holds is said apart, and how many texts nobody can read.
#[test]
fn own_withheld_and_adopted_entries_are_counted_apart() {
    let office = Office::new(folder("open-counts"));
    let lost = marrowbook::bundle::DeviceKey::from_seed(&[9; 32]);
    let mut own = kit::entries(&kit::phone());
    own[5] = own[5].withhold();
    let extras = Extras { adopted: vec![kit::entries(&lost)[..4].to_vec()], ..Extras::default() };
    let file = office.put("from-north.txt", kit::bundle(&own, extras, &kit::phone()).as_bytes());
    let out = office.run(&["open", &file]).out;
    for line in ["6 entries, numbers 1 to 6", "1 entry has a withheld text", "4 entries come from a chain whose key"] {
        assert!(out.contains(&format!("\n  {line}")), "{line}: {out}");
    }
}

#[test]
fn a_person_at_the_keyboard_may_compare_and_say_yes() {
    for (answer, code) in [("yes\n", 0), ("YES\r\n", 0), ("y\n", 1), ("no\n", 1), ("", 1)] {
        let office = Office::new(folder("enrol-asked"));
        let file = office.put("bundle.txt", kit::good().as_bytes());
        let ran = office.run_with(&["enrol", &file, "--name", "x"], answer.as_bytes(), true);
        assert_eq!(ran.code, code, "{answer:?}");
        assert!(ran.out.starts_with(&format!("fingerprint: {}\n", words_of_phone())), "{}", ran.out);
    }
}

#[test]
fn a_device_can_be_enrolled_from_what_its_screen_shows() {
    let id = kit::phone().public().id();
    for shown in [words_of_phone(), Fingerprint::of(id).digits(), qr::device_text(&id), id.to_string()] {
        let office = Office::new(folder("enrol-shown"));
        assert_eq!(office.run(&["enrol", "--fingerprint", &shown, "--name", "blue phone"]).code, 0, "{shown}");
        let file = office.put("bundle.txt", kit::good().as_bytes());
        assert_eq!(office.run(&["open", &file]).code, 0, "{shown}");
    }
}

#[test]
fn nothing_is_enrolled_from_a_damaged_file() {
    let office = Office::new(folder("enrol-damaged"));
    let file = office.put("bundle.txt", kit::good().replacen("payload", "payroll", 1).as_bytes());
    let ran = office.run(&["enrol", &file, "--name", "x", "--words", &words_of_phone()]);
    assert_eq!(ran.code, 4);
    assert!(ran.err.contains("damaged or altered (envelope)"), "{}", ran.err);
    assert!(!office.folder.join("keyring.json").exists());
}

#[test]
fn a_device_stands_once_and_can_be_retired() {
    let office = Office::new(folder("retire"));
    let file = office.put("bundle.txt", kit::good().as_bytes());
    let enrol = |name: &str| office.run(&["enrol", "--fingerprint", &words_of_phone(), "--name", name]);
    assert_eq!(enrol("blue phone").code, 0);
    let ran = enrol("red phone");
    assert_eq!(ran.code, 1);
    assert!(ran.err.contains("enrolled already, as \"blue phone\""), "{}", ran.err);
    let ran = office.run(&["retire", "green phone"]);
    assert_eq!(ran.code, 1);
    assert!(ran.err.contains("no device in use is called \"green phone\""), "{}", ran.err);

    // the bundle was made on 14 February: still good when the phone is retired on the 15th
    assert_eq!(office.run(&["retire", "blue phone", "--since", "2027-02-15T08:00:00-05:00"]).code, 0);
    assert_eq!(office.run(&["open", &file]).code, 0);
    // enrolled again and retired before: not taken as its own
    let office = Office::new(folder("retire-before"));
    let file = office.put("bundle.txt", kit::good().as_bytes());
    office.run(&["enrol", "--fingerprint", &words_of_phone(), "--name", "blue phone"]);
    assert_eq!(office.run(&["retire", "blue phone", "--since", "2027-02-01T08:00:00-05:00"]).code, 0);
    let ran = office.run(&["open", &file]);
    assert_eq!(ran.code, 3);
    assert!(ran.out.contains("made after \"blue phone\" was retired on 2027-02-01"), "{}", ran.out);
}

#[test]
fn every_device_of_the_keyring_is_listed() {
    let office = Office::new(folder("phones-listed"));
    let file = office.put("bundle.txt", kit::good().as_bytes());
    assert_eq!(office.run(&["enrol", &file, "--name", "red phone", "--words", &words_of_phone()]).code, 0);
    let ran = office.run(&["phones"]);
    assert!(
        ran.code == 0 && ran.out.contains("\"red phone\": enrolled ") && ran.out.contains(&words_of_phone()),
        "{ran:?}"
    );
    assert!(!ran.out.contains("retired"), "{ran:?}");
    let unknown = office.run(&["retire", "blue phone"]);
    assert!(unknown.code == 1 && unknown.err.contains("office phones"), "{unknown:?}");
    assert_eq!(office.run(&["retire", "red phone"]).code, 0);
    assert!(office.run(&["phones"]).out.contains(", retired since "));
    let line: serde_json::Value = serde_json::from_str(office.run(&["phones", "--json"]).out.trim()).unwrap();
    assert_eq!(line["label"], "red phone");
}

/// A folder that is not there is no archive in which nothing lies: "no call is owed" would be believed.
#[test]
fn a_misspelt_archive_is_told_and_not_read_as_an_empty_one() {
    let office = Office::new(folder("misspelt").join("nowhere"));
    for of_the_archive in [
        &["calls", "list"][..],
        &["decide", "list"],
        &["lab", "list"],
        &["season", "--out", "x"],
        &["export", "--out", "x"],
        &["report", "ABCDEF", "--out", "x"],
        &["retire", "x"],
    ] {
        let ran = office.run(of_the_archive);
        assert_eq!(ran.code, 2, "{of_the_archive:?}: {} {}", ran.out, ran.err);
        assert!(ran.err.contains("there is no folder") && ran.err.contains("spelling"), "{}", ran.err);
    }
    assert!(!office.folder.exists(), "nothing was begun");
}

#[test]
fn the_worst_of_several_files_decides() {
    let office = Office::new(folder("worst"));
    office.put("keyring.json", kit::keyring().as_bytes());
    let kit = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/kit");
    let of = |name: &str| kit.join(format!("{name}.txt")).to_str().unwrap().to_owned();
    let intact = of("intact--as-made");
    let unknown = of("unknown--never-enrolled");
    let newer = of("newer--envelope-of-version-2");
    let damaged = of("damaged-chain--entry-dropped");
    let missing = of("no-such-file");
    for (files, code) in [
        (vec![&intact, &intact], 0),
        (vec![&intact, &unknown, &intact], 3),
        (vec![&newer, &unknown], 5),
        (vec![&missing, &newer], 1),
        (vec![&damaged, &missing, &newer, &intact], 4),
    ] {
        let args: Vec<&str> = ["open"].into_iter().chain(files.iter().map(|file| file.as_str())).collect();
        let ran = office.run(&args);
        assert_eq!(ran.code, code, "{files:?} {ran:?}");
        // one bad file never hides another: each has its line
        for file in files {
            assert!(format!("{}{}", ran.out, ran.err).contains(&format!("{file}: ")), "{file} {ran:?}");
        }
    }
}

#[test]
fn photos_are_told_as_received_or_missing() {
    let office = Office::new(folder("photos"));
    office.put("keyring.json", kit::keyring().as_bytes());
    let jpeg = b"\xff\xd8\xff\xe0 a picture of a femur";
    let photo = office.put("femur.jpg", jpeg);
    let other = office.put("other.jpg", b"\xff\xd8\xff\xe0 another picture");
    let named = marrowbook::record::Photo {
        sha256: marrowbook::record::Digest::of(&[jpeg]),
        bytes: 26,
        media: "image/jpeg".into(),
    };
    let extras = Extras { photos: vec![named], ..Extras::default() };
    let bundle = make(kit::cover(), &kit::entries(&kit::phone()), extras, &kit::phone()).unwrap();
    let file = office.put("bundle.txt", bundle.as_bytes());

    let ran = office.run(&["open", &file]);
    assert!(ran.out.contains("\n  photo named in the bundle but not received: "), "{}", ran.out);
    let ran = office.run(&["open", &file, &photo]);
    assert!(ran.out.contains("\n  1 photo received as signed\n"), "{}", ran.out);
    assert!(ran.out.contains(&format!("{photo}: a photo named in {file}, as signed\n")), "{}", ran.out);
    assert_eq!(ran.code, 0);
    let ran = office.run(&["open", &file, &other]);
    assert!(ran.out.contains(&format!("{other}: a photo that no bundle here names")), "{}", ran.out);
    assert_eq!(ran.code, 4);
}

#[test]
fn photos_are_matched_by_digest_wherever_they_lie_and_whenever_they_come() {
    let office = Office::new(folder("photos-folder"));
    office.put("keyring.json", kit::keyring().as_bytes());
    let jpegs: Vec<Vec<u8>> = (0..3_u8).map(|n| [b"\xff\xd8\xff\xe0 picture ".as_slice(), &[n]].concat()).collect();
    let photo = |bytes: &Vec<u8>| marrowbook::record::Photo {
        sha256: marrowbook::record::Digest::of(&[bytes]),
        bytes: bytes.len() as u64,
        media: "image/jpeg".into(),
    };
    let extras = Extras { photos: jpegs.iter().map(photo).collect(), ..Extras::default() };
    let bundle = make(kit::cover(), &kit::entries(&kit::phone()), extras, &kit::phone()).unwrap();
    let deep = office.folder.join("mail").join("one").join("two");
    fs::create_dir_all(&deep).unwrap();
    fs::write(deep.join("from the phone.txt"), &bundle).unwrap();
    // Under the name of the other, and in another folder than the bundle.
    fs::write(office.folder.join("mail").join(format!("{}.jpg", photo(&jpegs[1]).sha256)), &jpegs[0]).unwrap();
    fs::write(deep.join("Thumbs.db"), b"of a mail program").unwrap();
    let mail = office.folder.join("mail").to_str().unwrap().to_owned();

    let ran = office.run(&["open", "--keep", &mail]);
    assert_eq!(ran.code, 0, "{ran:?}");
    assert!(ran.out.contains("1 photo received as signed"), "{}", ran.out);
    for missing in &jpegs[1..] {
        let line = format!("photo named in the bundle but not received: {}\n", photo(missing).sha256);
        assert!(ran.out.contains(&line), "{}", ran.out);
    }
    assert!(!ran.out.contains(&format!("not received: {}", photo(&jpegs[0]).sha256)), "{}", ran.out);
    assert!(ran.err.contains("Thumbs.db: passed over"), "{}", ran.err);

    // A second photo a day later, without its bundle: the archive's names it, and it is kept.
    let late = office.put("late.jpg", &jpegs[1]);
    let ran = office.run(&["open", "--keep", &late]);
    assert_eq!(ran.code, 0, "{ran:?}");
    assert!(ran.out.contains("a photo named in"), "{}", ran.out);
    let again = office.run(&["open", "--json", deep.join("from the phone.txt").to_str().unwrap()]).json();
    assert_eq!(again["photos"], 3);
    assert_eq!(again["photos_missing"], serde_json::json!([photo(&jpegs[2]).sha256.to_string()]));
    // A kept photo that was changed since is not the one that was named.
    let kept = office.folder.join("photos");
    for file in fs::read_dir(&kept).unwrap() {
        fs::write(file.unwrap().path(), b"\xff\xd8\xff\xe0 changed").unwrap();
    }
    let again = office.run(&["open", "--json", deep.join("from the phone.txt").to_str().unwrap()]).json();
    assert_eq!(again["photos_missing"].as_array().unwrap().len(), 3);
}

#[test]
fn files_are_kept_as_received_and_once() {
    let office = Office::new(folder("keep"));
    let mangled = format!("\r\n{}\r\n\r\n", kit::good());
    let file = office.put("bundle.txt", mangled.as_bytes());
    let damaged = office.put("damaged.txt", &kit::good().as_bytes()[..200]);
    for _ in 0..2 {
        office.run(&["open", "--keep", &file, &damaged]);
    }
    let kept: Vec<_> = fs::read_dir(office.folder.join("received")).unwrap().map(|file| file.unwrap().path()).collect();
    assert_eq!(kept.len(), 1);
    assert_eq!(fs::read(&kept[0]).unwrap(), mangled.as_bytes());
}

#[test]
fn standard_input_is_a_file_too() {
    let office = Office::new(folder("stdin"));
    let ran = office.run_with(&["open", "-"], kit::good().as_bytes(), false);
    assert_eq!(ran.code, 3);
    assert!(ran.out.starts_with("standard input: intact, but"), "{}", ran.out);
}

#[test]
fn a_broken_keyring_is_never_taken_for_an_empty_one() {
    let office = Office::new(folder("keyring"));
    let file = office.put("bundle.txt", kit::good().as_bytes());
    for broken in ["", "{}", "{\"format\":1,\"devices\":[{}]}"] {
        office.put("keyring.json", broken.as_bytes());
        for args in [vec!["open", &file], vec!["enrol", "--fingerprint", "x", "--name", "y"]] {
            let ran = office.run(&args);
            assert_ne!(ran.code, 0);
            assert_ne!(ran.code, 3);
        }
        let ran = office.run(&["open", &file]);
        assert!(ran.err.contains("keyring.json") && ran.err.contains("next: put the keyring back"), "{}", ran.err);
    }
}

#[test]
fn arguments_that_are_not_understood_exit_with_2() {
    let office = Office::new(folder("usage"));
    for args in [
        &["open"][..],
        &["shut", "x"],
        &["enrol", "--name", "x"],
        &["enrol", "file", "--fingerprint", "a", "--name", "x"],
        &["enrol", "file", "--name", "x", "--words", "acorn"],
        &["enrol", "--fingerprint", "acorn acorn", "--name", "x"],
        &["retire", "x", "--since", "yesterday"],
        &["retire", "x", "--since", "2027-02-14T18:00:00Z"],
        &["schema", "no-such-schema"],
    ] {
        let ran = office.run(args);
        assert_eq!((ran.code, ran.out.as_str()), (2, ""), "{args:?}");
        assert!(!ran.err.is_empty(), "{args:?}");
    }
    assert_eq!(office.run(&["--help"]).code, 0);
    assert_eq!(office.run(&["--version"]).code, 0);
}

/// The committed schemas are what the program prints. To write them anew after a deliberate change:
/// `MARROWBOOK_WRITE_SCHEMA=1 cargo test --features cli --test office_cli`.
#[test]
fn committed_schemas_are_the_printed_ones() {
    let office = Office::new(folder("schema"));
    let ran = office.run(&["schema"]);
    assert_eq!(ran.code, 0);
    let names: Vec<&str> = ran.out.lines().filter_map(|line| line.split_whitespace().next()).collect();
    assert!(names.len() >= 3);
    let schemas = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/schema");
    for name in &names {
        let printed = office.run(&["schema", name]).out;
        let path = schemas.join(format!("{name}.json"));
        if std::env::var_os("MARROWBOOK_WRITE_SCHEMA").is_some() {
            fs::write(&path, &printed).unwrap();
        }
        let committed = fs::read_to_string(&path).unwrap();
        assert!(
            committed == printed,
            "tests/schema/{name}.json is not what the program prints; see above how to renew"
        );
        let schema: serde_json::Value = serde_json::from_str(&printed).unwrap();
        assert_eq!(schema["$schema"], "https://json-schema.org/draft/2020-12/schema");
    }
    assert_eq!(fs::read_dir(schemas).unwrap().count(), names.len());
}
