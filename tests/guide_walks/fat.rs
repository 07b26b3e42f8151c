//! Fat in the opened body and on the bench: what is asked, what an eaten carcass spares, what waits.

use marrowbook::guide::{BenchWork, ExamKind, bench_work};
use marrowbook::record::{Answer, Bone, Side, Site, Why};

use crate::answering::Script;
use crate::visit::{CARCASS, Visit};
use crate::walks::{fresh, scavenged};

const DEPOTS: [&str; 7] =
    ["rump_fat", "muscle_mass", "brisket_fat", "gut_fat", "kidney_fat", "heart_fat", "pericardial_fat"];

fn waits(visit: &Visit) -> Vec<BenchWork> {
    bench_work(&visit.fold().carcasses[&CARCASS])
}

/// A carcass with nothing left: not one question, and every depot is written as gone.
#[test]
fn bones_and_hair_pass_without_a_question() {
    let mut visit = Visit::field(1);
    let asked = visit.walk(&mut scavenged());
    let gone = Answer::PartGone { why: Why::Scavenged };
    for finding in DEPOTS.iter().chain(&["fat_parts_here", "fat_watery", "organs_taken"]) {
        assert_eq!(visit.answer(finding, Site::NONE), gone, "{finding}");
        assert!(!asked.iter().any(|a| a == finding), "{finding} was asked");
    }
}

/// An eaten body costs one answer for all that is eaten, and what is left is still asked.
#[test]
fn an_eaten_body_is_asked_only_for_what_is_left() {
    let eaten = Script::new(
        "body_state=mostly_eaten body_frozen=not_frozen fat_parts_here=back_and_rump opening_trained=card_names_me",
    );
    let mut visit = Visit::field(1);
    let asked = visit.walk(&mut eaten.clone());
    assert!(asked.iter().any(|a| a == "rump_fat"));
    for finding in ["brisket_fat", "gut_fat", "kidney_fat", "heart_fat", "pericardial_fat", "organs_taken"] {
        assert_eq!(visit.answer(finding, Site::NONE), Answer::PartGone { why: Why::Scavenged }, "{finding}");
        assert!(!asked.iter().any(|a| a == finding), "{finding} was asked");
    }
    let mut none = Visit::field(1);
    let asked = none.walk(&mut Script::new("body_state=mostly_eaten body_frozen=not_frozen fat_parts_here=-"));
    assert!(!asked.iter().any(|a| DEPOTS.contains(&a.as_str())), "{asked:?}");
    assert_eq!(none.answer("rump_fat", Site::NONE), Answer::PartGone { why: Why::Scavenged });
    // In a whole body what was not opened is not gone.
    let mut whole = Visit::field(1);
    whole.walk(&mut Script::new("body_state=whole body_frozen=not_frozen fat_parts_here=back_and_rump"));
    assert_eq!(whole.answer("heart_fat", Site::NONE), Answer::NotLooked { why: Why::NotOpened });
    // A part that nobody could tell stays untold.
    let mut dark = Visit::field(1);
    dark.walk(&mut Script::new("body_state=whole body_frozen=not_frozen fat_parts_here=?dark"));
    assert_eq!(dark.answer("heart_fat", Site::NONE), Answer::CantTell { why: Why::Dark });
}

#[test]
fn organs_are_labelled_and_wait_on_the_bench() {
    let mut hand = fresh().at("organs_taken", Site::NONE, "kidneys+heart");
    let mut visit = Visit::field(1);
    let asked = visit.walk(&mut hand);
    for name in ["sample_number.10", "sample_sealed.10", "sample_number.11", "sample_sealed.11"] {
        assert!(asked.iter().any(|a| a == name), "{name}");
    }
    assert_eq!(visit.answer("sample_what", Site::item(10)), Answer::choice("kidneys"));
    assert_eq!(visit.answer("sample_what", Site::item(11)), Answer::choice("heart"));
    let all = [
        BenchWork::CleanJaw,
        BenchWork::JawCavity,
        BenchWork::MarrowLook,
        BenchWork::MarrowWet,
        BenchWork::Kidneys,
        BenchWork::Heart,
    ];
    assert_eq!(waits(&visit), all);
    // Another person, another day: the heart is looked at, the kidneys are still frozen.
    visit.next_exam(2, ExamKind::Bench);
    visit.walk(&mut Script::new(
        "fat_parts_here=kidneys+heart kidneys_here=both kidney_trim=whole kidney_fat_whole_g=!time kidney_g=?frozen \
         jaw_cavity=!cold jaw_in_view=neither marrow_bone=!time",
    ));
    assert_eq!(waits(&visit), &all[..5]);
    // A third day: kidneys weighed by both trimmings, one side of the jaw wet only.
    visit.next_exam(3, ExamKind::Bench);
    let asked = visit.walk(&mut Script::new(
        "fat_parts_here=kidneys kidneys_here=both kidney_trim=both_ways jaw_cavity=left marrow_dry_g=!time \
         jaw_in_view=neither marrow_bone=!time",
    ));
    let kidney = |side: &str| {
        ["bench_kidney_fat_cut", "bench_kidney_fat_whole", "bench_kidney"].map(|step| format!("{step}.{side}"))
    };
    let weighed: Vec<_> = asked.iter().filter(|a| a.starts_with("bench_kidney") && a.contains('.')).cloned().collect();
    assert_eq!(weighed, [kidney("left"), kidney("right")].concat(), "one kidney after the other");
    let hollow = Site { side: Some(Side::Left), ..Site::bone(Bone::Mandible) };
    assert!(visit.answer("marrow_wet_g", hollow).value().is_some());
    assert_eq!(waits(&visit), [BenchWork::CleanJaw, BenchWork::MarrowLook, BenchWork::MarrowWet, BenchWork::MarrowDry]);
}

/// Work is given up for good by a reason that does not pass, and only then.
#[test]
fn reasons_that_pass_keep_work_waiting() {
    let after = |bench: &str| {
        let mut visit = Visit::field(1);
        visit.walk(&mut fresh().at("organs_taken", Site::NONE, "kidneys"));
        visit.next_exam(2, ExamKind::Bench);
        visit.walk(&mut Script::new(&format!("jaw_in_view=neither fat_parts_here=kidneys {bench}")));
        waits(&visit)
    };
    assert!(after("kidneys_here=!time").contains(&BenchWork::Kidneys));
    assert!(!after("kidneys_here=?decayed").contains(&BenchWork::Kidneys));
    assert!(after("jaw_cavity=!cold").contains(&BenchWork::JawCavity));
    assert!(!after("jaw_cavity=-").contains(&BenchWork::JawCavity));
    assert!(!after("jaw_cavity=?decayed").contains(&BenchWork::JawCavity));
}

/// One trimming is not asked for the other's weight.
#[test]
fn each_trimming_has_its_own_weight() {
    for (trim, asked, spared) in [
        ("whole", "bench_kidney_fat_whole.left", "bench_kidney_fat_cut.left"),
        ("straight_cuts", "bench_kidney_fat_cut.left", "bench_kidney_fat_whole.left"),
    ] {
        let mut visit = Visit::field(1);
        visit.next_exam(2, ExamKind::Bench);
        let names = visit.walk(&mut Script::new(&format!(
            "fat_parts_here=kidneys kidneys_here=left kidney_trim={trim} jaw_in_view=neither"
        )));
        assert!(names.iter().any(|a| a == asked) && !names.iter().any(|a| a == spared), "{trim}: {names:?}");
        assert!(names.iter().any(|a| a == "bench_kidney.left") && !names.iter().any(|a| a == "bench_kidney.right"));
    }
}

/// The look at kidneys and heart in one follows from the looks at each, and is asked where none could be told.
#[test]
fn kidneys_and_heart_in_one_follow_from_each() {
    let after = |answers: &str| {
        let mut visit = Visit::field(1);
        let asked = visit.walk(&mut Script::new(&format!(
            "body_state=whole body_frozen=not_frozen fat_parts_here=kidneys+heart fat_watery=- {answers}"
        )));
        (visit.answer("inside_fat", Site::NONE), asked.iter().any(|a| a == "inside_fat"))
    };
    let none = after("kidney_fat=none heart_fat=none pericardial_fat=none");
    assert_eq!(none, (Answer::choice("none_or_gel"), false));
    assert_eq!(after("kidney_fat=none heart_fat=slight").0, Answer::choice("plenty"), "the plain answer is heavy");
    assert_eq!(after("kidney_fat=none heart_fat=slight pericardial_fat=none").0, Answer::choice("some"));
    let watery = after("kidney_fat=heavy heart_fat=none pericardial_fat=none fat_watery=kidneys");
    assert_eq!(watery, (Answer::choice("none_or_gel"), false));
    assert!(after("kidney_fat=?dark heart_fat=?dark pericardial_fat=?dark").1);
}
