//! Whole visits: what is asked, what is written unasked, and that each comes to an end.

use std::collections::BTreeSet;

use marrowbook::guide::{ExamKind, Status};
use marrowbook::record::{Answer, Bone, Side, Site, Tooth, Value, Why};

use crate::answering::Script;
use crate::visit::Visit;

pub(crate) fn fresh() -> Script {
    Script::new(
        "body_state=whole body_frozen=not_frozen jaw_in_view=both wounds_outside=there marrow_bone=femur \
         marrow_frozen=never_frozen bone_opened=open_under_a_day blood_on_snow=there drag_marks=there \
         hair_scattered=there rumen=present jaw_taken=whole_jaw femur_taken=whole other_samples_count=1 \
         sample_what=hair fetus=- sex_called=female organs_taken=- fat_watery=- \
         fat_parts_here=back_and_rump+brisket+gut+kidneys+heart",
    )
}

pub(crate) fn scavenged() -> Script {
    Script::new(
        "body_state=bones_and_hair body_position=scattered bones_scattered=there rumen=spilled_only jaw_in_view=left \
         marrow_bone=tibia bone_opened=open_over_a_day marrow_frozen=frozen jaw_taken=left_half femur_taken=- \
         opening_trained=!not_trained",
    )
}

pub(crate) fn frozen() -> Script {
    Script::new(
        "body_state=part_eaten body_frozen=frozen_solid jaw_in_view=neither marrow_bone=femur marrow_frozen=frozen \
         marrow_colour=red jaw_taken=whole_jaw femur_taken=broken parts_eaten=rump body_looked_over=upper_side_only",
    )
}

pub(crate) fn buried() -> Script {
    Script::new(
        "body_state=whole body_frozen=?buried snow_over_body=covered body_buried=mostly_buried quick_class=?buried \
         touching_allowed=!buried",
    )
}

pub(crate) fn bench() -> Script {
    Script::new(
        "marrow_bone=femur marrow_frozen=thawed_after_freezing marrow_wet_g=612 marrow_dry_g=74 jaw_in_view=both \
         mandible_mm=190 diastema_mm=72 kidney_trim=both_ways \
         fat_parts_here=back_and_rump+brisket+gut+kidneys+heart",
    )
}

fn phases_of(visit: &Visit) -> BTreeSet<&'static str> {
    visit.situation().asks.iter().map(|a| a.ask.phase().code()).collect()
}

fn asked_once(asked: &[String]) {
    // The drawn jaw goes on where it is: the states of the teeth, then the wear of those in wear.
    let mut asked = asked.to_vec();
    asked.dedup();
    let mut seen = BTreeSet::new();
    for name in &asked {
        assert!(seen.insert(name), "{name} was asked twice");
    }
}

fn nothing_left(visit: &Visit) {
    let end = visit.situation();
    assert_eq!(end.next, None);
    assert_eq!(end.to_write, []);
    for state in &end.asks {
        if matches!(state.status, Status::Answered) {
            continue;
        }
        visit.look(|view| {
            assert!(state.ask.is_answered(view), "{} was left without a state", state.ask.name());
        });
    }
}

#[test]
fn a_fresh_whole_deer_goes_through_every_phase() {
    let mut visit = Visit::field(1);
    let asked = visit.walk(&mut fresh());
    println!("fresh: {} asks: {asked:#?}", asked.len());
    asked_once(&asked);
    nothing_left(&visit);
    let all = [
        "before_leaving",
        "approach",
        "stand_off",
        "hands_off",
        "outside",
        "opened",
        "samples",
        "clean_up",
        "leave",
        "hand_over",
    ];
    assert_eq!(phases_of(&visit), all.into_iter().collect());
    // Consistency before colour; tracks of one's own before all others; lumps before the rumen.
    for (first, then) in [
        ("marrow_consistency.femur", "marrow_colour.femur"),
        ("own_tracks", "tracks_by"),
        ("touching_allowed", "H01"),
        ("H01", "insects"),
        ("lumps_and_bladders", "rumen"),
        ("cheek_teeth_count.left", "jaw.left"),
        ("jaw.left", "cheek_teeth_count.right"),
        ("own_tracks", "people_round_body"),
    ] {
        let at = |name: &str| asked.iter().position(|a| a == name).unwrap_or_else(|| panic!("{name} was not asked"));
        assert!(at(first) < at(then), "{first} comes before {then}");
    }
}

#[test]
fn only_bones_and_hair_left_passes_with_the_reason_written() {
    let mut visit = Visit::field(1);
    let asked = visit.walk(&mut scavenged());
    println!("scavenged: {} asks: {asked:#?}", asked.len());
    asked_once(&asked);
    nothing_left(&visit);
    let gone = Answer::PartGone { why: Why::Scavenged };
    for finding in [
        "body_frozen",
        "wounds_outside",
        "bruising_outside",
        "live_ticks",
        "lumps_inside",
        "rump_fat",
        "fetus",
        "opening_trained",
    ] {
        assert_eq!(visit.answer(finding, Site::NONE), gone, "{finding}");
    }
    let opened = ["opening_trained", "lumps_and_bladders", "rump_fat", "rumen_fill", "fetus", "urine"];
    assert!(opened.iter().all(|step| !asked.iter().any(|a| a == step)), "nothing inside is asked: {asked:?}");
    // What lies on the snow is still looked at, and what bones tell is still asked.
    for step in ["rumen_lying_out", "rumen_plants_lying_out", "bones_broken", "jaw.left", "marrow_bone", "jaw_taken"] {
        assert!(asked.iter().any(|a| a == step), "{step}");
    }
}

#[test]
fn hands_off_alone_is_a_whole_record_in_few_taps() {
    let mut script = scavenged();
    let mut visit = Visit::field(1);
    visit.card = None;
    let asked = visit.walk(&mut script);
    nothing_left(&visit);
    let after: Vec<_> = asked.iter().skip_while(|a| *a != "remark").collect();
    println!("without a card, after the remark: {after:?}");
    // Cold signs, litter, closing, heads, ticks, contact, bundle: no step that touches is asked.
    assert!(after.len() <= 9, "{after:?}");
    assert_eq!(visit.answer("hind_foot_mm", Site::NONE), Answer::NotLooked { why: Why::NotTrained });
}

#[test]
fn a_frozen_deer_is_not_opened_but_gives_jaw_and_femur() {
    let mut visit = Visit::field(1);
    let asked = visit.walk(&mut frozen());
    println!("frozen: {} asks: {asked:#?}", asked.len());
    asked_once(&asked);
    nothing_left(&visit);
    let not_looked = Answer::NotLooked { why: Why::Frozen };
    for finding in
        ["belly_dents_under_fist", "opening_trained", "lumps_inside", "rump_fat", "rumen_fill", "rumen_plants"]
    {
        assert_eq!(visit.answer(finding, Site::NONE), not_looked, "{finding}");
    }
    let femur = Site::bone(Bone::Femur);
    // The look is kept raw; what would give a class is not told of frozen marrow.
    assert_eq!(visit.answer("marrow_consistency", femur), Answer::CantTell { why: Why::Frozen });
    assert_eq!(visit.answer("marrow_colour", femur), Answer::choice("red"));
    assert!(!asked.iter().any(|a| a.starts_with("marrow_consistency")));
    assert_eq!(visit.answer("jaw_taken", Site::NONE), Answer::choice("whole_jaw"));
    assert_eq!(visit.answer("femur_taken", Site::NONE), Answer::choice("broken"));
    assert!(asked.iter().any(|a| a == "sample_number.1") && asked.iter().any(|a| a == "sample_number.2"));
    // An intact head is not pried open: no tooth is asked, and the record says why there is none.
    assert!(!asked.iter().any(|a| a.starts_with("jaw.") || a.starts_with("third_tooth")));
    assert_eq!(visit.answer("jaw_in_view", Site::NONE), Answer::choice("neither"));
}

#[test]
fn a_buried_deer_is_left_with_the_reason() {
    let mut visit = Visit::field(1);
    let asked = visit.walk(&mut buried());
    println!("buried: {} asks: {asked:#?}", asked.len());
    asked_once(&asked);
    nothing_left(&visit);
    let not_looked = Answer::NotLooked { why: Why::Buried };
    for finding in
        ["wounds_outside", "bones_broken", "hind_foot_mm", "marrow_bone", "jaw_in_view", "rumen", "opening_trained"]
    {
        assert_eq!(visit.answer(finding, Site::NONE), not_looked, "{finding}");
    }
    let after: Vec<_> = asked.iter().skip_while(|a| *a != "touching_allowed").skip(1).collect();
    assert!(after.len() <= 8, "one answer passes everything that touches: {after:?}");
}

#[test]
fn the_bench_has_phases_of_its_own() {
    let mut visit = Visit::field(1);
    visit.next_exam(2, ExamKind::Bench);
    let asked = visit.walk(&mut bench());
    println!("bench: {} asks: {asked:#?}", asked.len());
    asked_once(&asked);
    nothing_left(&visit);
    assert_eq!(phases_of(&visit), BTreeSet::from(["bench", "hand_over"]));
    assert_eq!(visit.answer("marrow_dry_g", Site::bone(Bone::Femur)), Answer::number(74));
    assert_eq!(visit.answer("dentine", Site::tooth(Side::Right, Tooth::M2)), Answer::choice("none"));
}

#[test]
fn still_frozen_on_the_bench_gives_no_class_either() {
    let mut visit = Visit::field(1);
    visit.next_exam(2, ExamKind::Bench);
    visit.walk(&mut Script::new("marrow_bone=femur marrow_frozen=frozen jaw_in_view=neither"));
    assert_eq!(visit.answer("marrow_consistency", Site::bone(Bone::Femur)), Answer::CantTell { why: Why::Frozen });
}

#[test]
fn the_second_carcass_of_an_outing_is_not_asked_about_the_outing() {
    let mut visit = Visit::field(1);
    let first = visit.walk(&mut fresh());
    visit.next_exam(2, ExamKind::Field);
    let second = visit.walk(&mut scavenged());
    for step in
        ["crew_count", "contact_told", "due_back", "air_temperature", "gear_gloves", "heads_counted", "ticks_tonight"]
    {
        assert!(first.iter().any(|a| a == step), "{step}");
        assert!(!second.iter().any(|a| a == step), "{step} was asked again");
    }
    for step in ["land_leave", "place", "species", "alive", "H01", "thumb_to_finger", "examination_closed"] {
        assert!(second.iter().any(|a| a == step), "{step} belongs to each carcass");
    }
}

/// Bones and hair seen from afar is what is left of the body; of one that is dead it is asked.
#[test]
fn what_is_left_of_the_body_belongs_to_each_carcass() {
    let mut visit = Visit::field(1);
    visit.walk(&mut fresh());
    visit.next_exam(2, ExamKind::Field);
    let asked = visit.walk(&mut Script::new("alive=dead body_state=part_eaten"));
    assert!(asked.iter().any(|a| a == "body_state"));
    visit.next_exam(3, ExamKind::Field);
    let asked = visit.walk(&mut Script::new("alive=bones_and_hair body_state=whole"));
    assert!(!asked.iter().any(|a| a == "body_state"));
    assert_eq!(visit.answer("body_state", Site::NONE), Answer::choice("bones_and_hair"));
}

/// A short record was chosen for scraps: it holds for nothing else, and never for what may be evidence.
#[test]
fn a_short_record_holds_for_scraps_alone() {
    let mut visit = Visit::field(1);
    let mut hand = Script::new("alive=dead body_state=bones_and_hair record_length=short_record snow_over_body=none");
    while visit.situation().next.is_some_and(|ask| ask.id() != "snow_readable") {
        visit.step(&mut hand).unwrap();
    }
    let open = |visit: &Visit, step: &str| visit.situation().find(step).map(|a| a.status.clone());
    assert_eq!(open(&visit, "sex_evidence"), Some(Status::Answered), "left out");
    assert_eq!(open(&visit, "tracks_by"), Some(Status::Open));
    visit.say("body_state", Site::NONE, Answer::choice("part_eaten"));
    assert_eq!(open(&visit, "sex_evidence"), Some(Status::Open), "there is more of it than scraps");
    visit.say("body_state", Site::NONE, Answer::choice("bones_and_hair"));
    assert_eq!(open(&visit, "sex_evidence"), Some(Status::Answered));
    visit.say("bullet_or_arrow_wound", Site::NONE, Answer::choice("there"));
    for step in ["sex_evidence", "evidence_rules"] {
        assert_eq!(open(&visit, step), Some(Status::Open), "{step} of what may be evidence");
    }
}

/// A place mended an hour later moves no arrival.
#[test]
fn arrival_is_when_the_place_was_first_taken() {
    let mut visit = Visit::field(1);
    while visit.situation().next.is_some_and(|ask| ask.id() != "alive") {
        visit.step(&mut fresh()).unwrap();
    }
    let arrived = visit.answer("arrived_at", Site::NONE);
    assert_eq!(arrived, Answer::Seen { value: Value::Instant(visit.now) });
    let place = visit.answer("place", Site::NONE);
    visit.now = crate::visit::moment("2027-02-14T12:30:00-05:00");
    visit.say("place", Site::NONE, place);
    let settled = visit.situation().to_write;
    visit.write(&settled);
    assert_eq!(visit.answer("arrived_at", Site::NONE), arrived);
}

#[test]
fn a_report_that_led_to_nothing_is_answered_and_done() {
    let mut visit = Visit::field(1);
    let asked = visit.walk(&mut Script::new("report_outcome=not_found"));
    nothing_left(&visit);
    let after: Vec<_> = asked.iter().skip_while(|a| *a != "report_outcome").skip(1).collect();
    assert_eq!(after, ["examination_closed", "heads_counted", "ticks_tonight", "contact_told_back", "handed_over"]);
}

#[test]
fn a_live_deer_is_a_stop_and_no_examination() {
    let mut visit = Visit::field(1);
    let asked = visit.walk(&mut Script::new("alive=alive"));
    assert!(asked.iter().any(|a| a == "L07"));
    assert!(!asked.iter().any(|a| a == "body_state" || a == "touching_allowed"));
}

#[test]
fn a_stop_closes_hands_on_and_closing_the_record_says_so() {
    let mut visit = Visit::field(1);
    let asked = visit.walk(&mut Script::new("snare_or_trap=there"));
    println!("snare: {} asks", asked.len());
    asked_once(&asked);
    nothing_left(&visit);
    assert!(asked.iter().any(|a| a == "evidence_note"), "what was seen is described");
    assert!(asked.iter().any(|a| a == "body_position"), "the hands-off record stays open");
    assert!(!asked.iter().any(|a| a == "touching_allowed" || a == "H01" || a == "jaw_taken"));
    let stopped = Answer::NotLooked { why: Why::StopInForce };
    for finding in ["touching_allowed", "wounds_outside", "jaw_in_view", "rumen"] {
        assert_eq!(visit.answer(finding, Site::NONE), stopped, "{finding}");
    }
}

#[test]
fn wounds_are_not_called_absent_where_only_one_side_was_seen() {
    let mut visit = Visit::field(1);
    visit.walk(&mut frozen());
    // The script's hand sees no wound; the form takes `cannot tell`, with the side as the reason.
    assert_eq!(visit.answer("wounds_outside", Site::NONE).state(), "cant_tell");
    let mut visit = Visit::field(1);
    let both = Script::new("body_frozen=not_frozen body_looked_over=both_sides rumen=present");
    visit.walk(&mut both.clone());
    assert_eq!(visit.answer("wounds_outside", Site::NONE), Answer::NotSeen);
}

#[test]
fn wear_is_asked_of_teeth_in_wear_only() {
    // A yearling in winter: milk premolars, third molar partly up (Severinghaus schedule, as in the
    // project's key for December to April).
    let mut hand = fresh();
    for side in [Side::Left, Side::Right] {
        for tooth in [Tooth::P2, Tooth::P3, Tooth::P4] {
            hand = hand.at("tooth_state", Site::tooth(side, tooth), "milk");
        }
        hand = hand.at("tooth_state", Site::tooth(side, Tooth::M3), "part_up");
    }
    let mut visit = Visit::field(1);
    let asked = visit.walk(&mut hand);
    nothing_left(&visit);
    let left = |tooth| Site::tooth(Side::Left, tooth);
    assert!(visit.answer("dentine", left(Tooth::M1)).value().is_some());
    assert!(visit.answer("crest", left(Tooth::M2)).value().is_some());
    for tooth in [Tooth::P4, Tooth::M3] {
        visit.look(|view| {
            assert!(!view.question("dentine", left(tooth)).is_answered(), "{tooth:?} shows no wear to read");
            assert!(!view.question("crest", left(tooth)).is_answered());
        });
    }
    assert!(asked.iter().any(|a| a == "third_molar_back_cusp.left"), "a molar partly up shows its last cusp");
    assert!(!asked.iter().any(|a| a.starts_with("premolar_wear")), "milk premolars are told by their state");
}

#[test]
fn five_cheek_teeth_with_wear_are_written_down_as_they_are() {
    // Mech and Frenzel 1971 (NC-52), table 5: adults with a P2 missing on one side.
    let hand = fresh().at("cheek_teeth_count", Site::side(Side::Left), "5").at(
        "tooth_state",
        Site::tooth(Side::Left, Tooth::P2),
        "not_there",
    );
    let mut visit = Visit::field(1);
    visit.walk(&mut hand.clone());
    assert_eq!(visit.answer("cheek_teeth_count", Site::side(Side::Left)), Answer::number(5));
    assert_eq!(visit.answer("tooth_state", Site::tooth(Side::Left, Tooth::P2)), Answer::choice("not_there"));
    assert!(visit.answer("dentine", Site::tooth(Side::Left, Tooth::P4)).value().is_some());
}

#[test]
fn each_wound_is_described_on_its_own() {
    let mut hand = fresh();
    hand = hand.at("wound_region", Site::item(1), "throat").at("wound_region", Site::item(3), "legs");
    let mut visit = Visit::field(1);
    visit.say("wounds_count", Site::NONE, Answer::number(3));
    let asked = visit.walk(&mut hand);
    let wounds: Vec<_> = asked.iter().filter(|a| a.starts_with("wound_")).map(String::as_str).collect();
    let one = |n| ["wound_region", "wound_form", "wound_bleeding"].map(|step| format!("{step}.{n}"));
    let several = vec!["wound_zone_main".to_owned()];
    assert_eq!(wounds, [one(1).to_vec(), one(2).to_vec(), one(3).to_vec(), several].concat());
    assert_eq!(visit.answer("wound_region", Site::item(3)), Answer::choice("legs"));
}

#[test]
fn samples_keep_their_numbers_and_say_what_they_are() {
    let mut visit = Visit::field(1);
    let asked = visit.walk(&mut fresh());
    let samples: Vec<_> = asked.iter().filter(|a| a.starts_with("sample_")).map(String::as_str).collect();
    assert_eq!(
        samples,
        [
            "sample_number.1",
            "sample_sealed.1",
            "sample_kept.1",
            "sample_number.2",
            "sample_sealed.2",
            "sample_kept.2",
            "sample_what.3",
            "sample_number.3",
            "sample_sealed.3",
            "sample_kept.3",
            "sample_across_line"
        ]
    );
    assert_eq!(visit.answer("sample_what", Site::item(1)), Answer::choice("jaw"));
    assert_eq!(visit.answer("sample_what", Site::item(2)), Answer::choice("femur"));
    assert_eq!(visit.answer("sample_what", Site::item(3)), Answer::choice("hair"));
    assert!(matches!(visit.answer("sample_number", Site::item(2)), Answer::Seen { value: Value::Text(_) }));
}

/// A rule of the project's own, no outside source: a no to touching or opening leaves what comes after it unasked.
#[test]
fn a_no_to_touching_or_opening_is_an_answer_and_asks_nothing_further() {
    for (no, after) in [("touching_allowed", "wounds_outside"), ("opening_trained", "lumps_and_bladders")] {
        let mut visit = Visit::field(1);
        let asked = visit.walk(&mut Script::new(&format!("body_state=whole body_frozen=not_frozen {no}=-")));
        assert!(asked.iter().any(|a| a == no) && !asked.iter().any(|a| a == after), "{no}: {asked:?}");
        assert_eq!(visit.answer(no, Site::NONE), Answer::NotSeen);
        let sign = if after == "wounds_outside" { after } else { "lumps_inside" };
        assert_eq!(visit.answer(sign, Site::NONE), Answer::NotLooked { why: Why::NotTrained }, "{no}");
    }
}
