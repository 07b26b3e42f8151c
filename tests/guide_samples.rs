//! The table of samples: rows of reference `cause-and-time-of-death.md` 6.4, and what it says in scenes
//! (the scenes are the project's own; amounts and keeping are the reference's, with its marks).
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::indexing_slicing, clippy::panic)]

#[path = "hazards/scene.rs"]
#[allow(dead_code)]
mod scene;

use marrowbook::guide::{
    Draft, SAMPLES, SampleVerdict, Status, Taker, UNLABELLED, is_number_mistyped, label_of, samples_worth_taking,
    situation,
};
use marrowbook::record::{Answer, Bone, CustodyGap, Site, Value, find};
use marrowbook::science::source::Mark;
use marrowbook::words::{Language, raw};
use scene::Scene;

fn text(id: &str) -> &'static str {
    raw(Language::English, id).unwrap_or_else(|| panic!("no text {id}"))
}

#[test]
fn every_row_has_its_texts_its_mark_and_a_name_for_the_label() {
    let named = find("sample_what").unwrap().options();
    for row in SAMPLES {
        let all = ["take", "keep", "for"].map(|part| text(&format!("samples.{}.{part}", row.id)));
        let all = all.concat();
        assert_eq!(row.mark == Mark::Memory, all.contains("(from memory, no source)"), "{}: {all}", row.id);
        assert_eq!(row.mark == Mark::Design, all.contains("[design]"), "{}: {all}", row.id);
        assert!(named.contains(&row.what), "{}", row.id);
    }
    for verdict in
        [SampleVerdict::Take, SampleVerdict::TooLate, SampleVerdict::NotAllowed, SampleVerdict::LeaveToOfficer]
    {
        text(&format!("samples.verdict.{}", verdict.code()));
    }
    for gap in CustodyGap::ALL {
        text(&format!("custody.gap.{}", gap.code()));
    }
    for step in ["reported", "found", "taken", "sealed", "handed", "received", "used_up"] {
        text(&format!("custody.step.{step}"));
    }
}

#[test]
fn amounts_and_keeping_are_the_reference_s() {
    // Section 6.4, cell by cell.
    for (id, part, figure) in [
        ("bite_swab", "take", "2 swabs"),
        ("bite_swab", "take", "5 by 5 cm"),
        ("bite_swab", "keep", "no plastic"),
        ("liver_kidney", "take", "50 to 100 g each"),
        ("rumen", "take", "half a litre from 3 places"),
        ("lung_or_lesion", "take", "1 cm thick"),
        ("lung_or_lesion", "keep", "10 parts formalin"),
        ("dung", "take", "20 pellets"),
        ("dung", "keep", "not frozen"),
        ("muscle", "keep", "95 % ethanol"),
        ("head_parts", "keep", "formalin 10 to 1"),
    ] {
        let said = text(&format!("samples.{id}.{part}"));
        assert!(said.contains(figure), "{id}: {said}");
    }
}

const WHOLE: &str = "body_state=whole body_frozen=not_frozen decay=fresh touching_allowed=card_names_me ";
const BITE: &str = "wounds_outside=there wounds_count=1 wound_form@1=paired_holes wound_bleeding@1=clot_at_hole ";

fn verdict(answers: &str, id: &str) -> Option<SampleVerdict> {
    let mut scene = Scene::ready();
    scene.say(&format!("{WHOLE}{answers}"));
    scene.with(samples_worth_taking).into_iter().find(|(row, _)| row.id == id).map(|(_, verdict)| verdict)
}

#[test]
fn what_is_worth_taking_follows_what_was_found() {
    use SampleVerdict as V;
    for (answers, id, expected) in [
        // Spit speaks of the killer only at a clot (reference 6.4, DNA odds).
        (BITE, "bite_swab", Some(V::Take)),
        (BITE, "control_swab", Some(V::Take)),
        (
            "wounds_outside=there wounds_count=1 wound_form@1=paired_holes wound_bleeding@1=clean_no_bruise",
            "bite_swab",
            None,
        ),
        ("wounds_outside=there wounds_count=1 wound_form@1=scrape wound_bleeding@1=clot_at_hole", "bite_swab", None),
        ("", "bite_swab", None),
        // Tissue for the microscope must not have frozen.
        ("lungs=solid_or_pus", "lung_or_lesion", Some(V::Take)),
        ("lungs=solid_or_pus body_frozen=part_frozen", "lung_or_lesion", Some(V::TooLate)),
        ("lungs=normal", "lung_or_lesion", None),
        ("rump_stained=there", "dung", Some(V::Take)),
        ("rump_stained=there body_frozen=frozen_solid", "dung", Some(V::TooLate)),
        ("rumen_mostly=garden_shrub", "liver_kidney", Some(V::Take)),
        ("rumen_mostly=garden_shrub body_state=part_eaten parts_eaten=belly", "liver_kidney", Some(V::TooLate)),
        ("rumen_mostly=woody_browse", "liver_kidney", None),
        ("droppings_by=coyote", "scat", Some(V::Take)),
        ("very_thin=there", "head_parts", Some(V::Take)),
        ("", "head_parts", None),
        ("", "jaw", Some(V::Take)),
        ("projectile_or_wound_track=there", "projectile", Some(V::LeaveToOfficer)),
    ] {
        assert_eq!(verdict(answers, id), expected, "{answers}: {id}");
    }
}

#[test]
fn marrow_that_lay_open_over_a_day_is_not_taken_for_its_fat() {
    let of = |opened: &str| {
        let mut scene = Scene::ready();
        scene.answer("bone_opened", Site::bone(Bone::Femur), Answer::choice(opened));
        scene.with(samples_worth_taking).into_iter().find(|(row, _)| row.id == "femur").unwrap().1
    };
    assert_eq!(of("open_over_a_day"), SampleVerdict::TooLate);
    assert_eq!(of("intact"), SampleVerdict::Take);
}

#[test]
fn the_card_decides_who_takes_what() {
    let mut scene = Scene::ready();
    scene.say(&format!("{WHOLE}{BITE}very_thin=there"));
    scene.card.as_mut().unwrap().people.iter_mut().for_each(|p| {
        p.may_take_head_parts = false;
        p.may_take_jaw = false;
    });
    for (row, verdict) in scene.with(samples_worth_taking) {
        let shut = matches!(row.taker, Taker::HeadParts | Taker::Jaw);
        assert_eq!(verdict == SampleVerdict::NotAllowed, shut, "{}: {verdict:?}", row.id);
    }
    scene.card = None;
    let all = scene.with(samples_worth_taking);
    assert!(!all.is_empty() && all.iter().all(|(_, verdict)| *verdict != SampleVerdict::Take));
}

#[test]
fn a_label_has_its_lines_and_a_number_that_checks_itself() {
    // Six fields and how it is kept: reference 6.4.
    let mut scene = Scene::ready();
    scene.of_carcass().say("species=white_tailed_deer sex_called=female other_samples_count=3");
    scene.say("sample_what@3=swab sample_kept@3=paper_dry");
    let label = |scene: &Scene, item| {
        scene.with(|v| label_of(Language::English, v.carcass.unwrap(), scene.exam, item)).expect("it was taken")
    };
    let swab = label(&scene, 3);
    assert_eq!(swab.lines.len(), 6, "the number stands apart");
    for (name, value) in &swab.lines {
        assert!(!name.is_empty() && !value.is_empty(), "{name}: {value}");
    }
    assert_eq!(swab.lines[2].1, text("option.swab"));
    // What is told by its place needs nobody to write it before the label can be.
    scene.say("jaw_taken=whole_jaw femur_taken=whole");
    let both = Value::Choices(vec!["kidneys".to_owned(), "heart".to_owned()]);
    scene.answer("organs_taken", Site::NONE, Answer::Seen { value: both });
    for (item, what) in [(1, "jaw"), (2, "femur"), (10, "kidneys"), (11, "heart")] {
        assert_eq!(label(&scene, item).lines[2].1, text(&format!("option.{what}")), "item {item}");
    }
    // Not the rumen of a field examination, which says `there`.
    scene.say("sample_what@5=rumen");
    assert_eq!(label(&scene, 5).lines[2].1, "Rumen");
    assert!(label(&scene, 4).lines[2].1.is_empty(), "of others somebody says it");
    let number = swab.number;
    assert!(!is_number_mistyped(&number));
    let swapped = number.replacen('-', "", 1);
    assert!(!is_number_mistyped(&swapped), "another form is not judged");
    let wrong = format!("{}{}", &number[..number.len() - 1], if number.ends_with('A') { 'B' } else { 'A' });
    assert!(is_number_mistyped(&wrong), "{wrong}");
}

#[test]
fn nothing_leaves_without_a_label() {
    let fires = |answers: &str| Scene::ready().say(answers).fires("G27");
    assert!(fires("jaw_taken=whole_jaw"));
    assert!(!fires("jaw_taken=whole_jaw sample_number@1=ABC"));
    assert!(fires("other_samples_count=2 sample_number@3=ABC"));
    assert!(!fires("other_samples_count=2 sample_number@3=ABC sample_number@4=ABD"));
    assert!(fires("other_samples_count=0 bite_swabbed@1=swabs"), "swabbed and not counted");
    assert!(!fires("other_samples_count=0 bite_swabbed@1=-"));
    assert!(!fires("other_samples_count=0"));
    assert!(fires("other_samples_count=0 organs_taken=heart"));
    assert!(!fires("other_samples_count=0 organs_taken=heart sample_number@11=ABC"));
}

/// The form's number given because no label could be written yet: the question is answered, the way home asks.
#[test]
fn a_number_without_a_label_is_asked_for_on_the_way_home() {
    let mut scene = Scene::ready();
    scene.say("jaw_taken=whole_jaw");
    let give = |step| {
        let answer = Answer::Seen { value: Value::Text("KDR-1".to_owned()) };
        [Draft { finding: "sample_number", site: Site::item(1), answer, step }]
    };
    scene.write(&give(UNLABELLED));
    assert!(scene.fires("G27"));
    scene.write(&give("sample_number"));
    assert!(!scene.fires("G27"));
}

/// Not looked, cannot tell: the number is asked for again, until it is given or the crew leaves.
#[test]
fn no_other_answer_than_a_number_ends_the_question_for_it() {
    let mut scene = Scene::ready();
    scene.say("jaw_taken=whole_jaw sample_number@1=!");
    let state = |scene: &Scene| scene.with(|v| situation(v).find("sample_number.1").unwrap().status.clone());
    assert_eq!(state(&scene), Status::Open);
    scene.say("sample_number@1=?");
    assert_eq!(state(&scene), Status::Open);
    scene.say("sample_number@1=ABC");
    assert_eq!(state(&scene), Status::Answered);
    let mut left = Scene::ready();
    left.say("jaw_taken=whole_jaw sample_number@1=! examination_closed=left_early");
    assert_eq!(state(&left), Status::Answered);
}
