//! An evidence record: which photos in which order, whom to tell, and that nothing is touched. Order and
//! contents of the photo list: reference `cause-and-time-of-death.md` 6.1 and 6.2.

use marrowbook::guide::{Status, calls};
use marrowbook::record::{Answer, Site};

use crate::answering::Script;
use crate::visit::Visit;

fn place(asked: &[String], name: &str) -> usize {
    asked.iter().position(|a| a == name).unwrap_or_else(|| panic!("{name} was not asked: {asked:?}"))
}

/// What turns a record into an evidence record: shot, poisoned, cut up.
const SIGNS: [&str; 6] = [
    "bullet_or_arrow_wound",
    "drug_or_bait_sign",
    "clean_knife_cuts",
    "boot_or_drag_trail",
    "projectile_or_wound_track",
    "meat_cut_off_neatly",
];

#[test]
fn each_physical_sign_makes_a_record_for_an_officer_who_is_named() {
    for sign in SIGNS {
        let mut visit = Visit::field(1);
        let script = format!("{sign}=there body_looked_over=both_sides body_frozen=not_frozen");
        let asked = visit.walk(&mut Script::new(&script));
        let now = visit.situation();
        assert!(now.evidence_record && now.hands_on_closed(), "{sign}");
        assert!(!asked.iter().any(|a| a == "jaw_taken" || a == "opening_trained"), "{sign}: {asked:?}");
        visit.look(|v| {
            assert!(calls(v, &now).iter().any(|(_, call)| call.is_some_and(|c| c.name == "Officer")), "{sign}");
        });
        // From where one stands, what melts first before the rest, after the card that names the photos.
        let order = ["evidence_rules", "ev_label.11", "ev_tracks.12", "ev_overview.13", "ev_middle.14", "ev_close.15"];
        for pair in order.windows(2) {
            assert!(place(&asked, pair[0]) < place(&asked, pair[1]), "{sign}: {pair:?}");
        }
        assert!(place(&asked, "ev_way_in.16") < place(&asked, "officer_told"), "{sign}");
        // Nobody walks round it unless the officer says so.
        assert!(!asked.iter().any(|a| a.starts_with("ev_north")), "{sign}");
        assert!(asked.iter().any(|a| a == "evidence_note"), "{sign}: what was seen is described");
    }
}

#[test]
fn only_the_officer_opens_the_round_of_photos() {
    let mut visit = Visit::field(1);
    let asked = visit.walk(&mut Script::new("snare_or_trap=there officer_told=officer_told officer_asks=more_photos"));
    for photo in ["ev_north.21", "ev_east.22", "ev_south.23", "ev_west.24", "ev_wounds.27", "ev_wounds_scale.28"] {
        assert!(place(&asked, "officer_asks") < place(&asked, photo));
    }
    assert!(place(&asked, "ev_wounds.27") < place(&asked, "ev_wounds_scale.28"), "without scale first");
    for item in (11..=16).chain(21..=29) {
        assert_eq!(visit.answer("photo", Site::item(item)).state(), "seen", "photo {item}");
    }
}

#[test]
fn an_ordinary_deer_is_no_evidence_record() {
    let mut visit = Visit::field(1);
    let asked = visit.walk(&mut crate::walks::fresh());
    assert!(!asked.iter().any(|a| a.starts_with("ev_") || a.starts_with("officer")), "{asked:?}");
}

#[test]
fn a_mistaken_tap_is_taken_back_and_hands_stay_off() {
    let mut visit = Visit::field(1);
    visit.say("clean_knife_cuts", Site::NONE, Answer::choice("there"));
    visit.take_back("clean_knife_cuts");
    let now = visit.situation();
    assert!(now.evidence_record && now.hands_on_closed());
    let touching = now.find("touching_allowed").unwrap();
    assert!(matches!(&touching.status, Status::Closed(by) if by.contains(&"L04")), "{touching:?}");
    // The same of a wound that was called a knife cut.
    let mut visit = Visit::field(2);
    visit.say("wound_form", Site::item(1), Answer::choice("cut_straight"));
    assert!(visit.situation().evidence_record);
    visit.say("wound_form", Site::item(1), Answer::choice("tear"));
    assert!(visit.situation().evidence_record, "corrected, and hands stay off");
}

#[test]
fn a_gut_pile_alone_is_the_lead_s_to_reopen_and_no_evidence_record() {
    let mut visit = Visit::field(1);
    visit.say("gut_pile_cut_out", Site::NONE, Answer::choice("there"));
    let now = visit.situation();
    assert!(!now.evidence_record && now.hands_on_closed());
}

#[test]
fn thawed_flesh_is_asked_about_with_its_warning() {
    // Roe et al. 2012: 5 of 5 thawed seals showed false bruises (check row 28).
    let base = "body_state=whole body_frozen=not_frozen wounds_outside=there wound_form=paired_holes";
    let ask = |thaw: &str| {
        let mut visit = Visit::field(1);
        visit.walk(&mut Script::new(&format!("{base} body_thaw={thaw}")))
    };
    assert!(ask("thawed_again").iter().any(|a| a == "wound_bleeding_thawed.1"));
    assert!(ask("?not_given").iter().any(|a| a == "wound_bleeding_thawed.1"), "not known is not never");
    let never = ask("never_thawed");
    assert!(never.iter().any(|a| a == "wound_bleeding.1") && !never.iter().any(|a| a == "wound_bleeding_thawed.1"));
    // A clot that wipes off was a stain: no bite is measured or swabbed for it.
    let clot = |wiped: &str| {
        let mut visit = Visit::field(1);
        visit.walk(&mut Script::new(&format!("{base} clot_wiped={wiped}")))
    };
    assert!(clot("clot_stays").iter().any(|a| a == "upper_canines.1"));
    assert!(!clot("wipes_off").iter().any(|a| a == "upper_canines.1"));
    // Spit before tape: the swab comes before anything is wiped or measured.
    let stays = clot("clot_stays");
    assert!(place(&stays, "bite_swabbed.1") < place(&stays, "clot_wiped.1"));
    assert!(place(&stays, "bite_swabbed.1") < place(&stays, "upper_canines.1"));
}

#[test]
fn cover_by_an_animal_voids_the_snow_over_the_body() {
    // Reference 5.4, S11: litter and hair mixed in, S1 void.
    let mut visit = Visit::field(1);
    let hand = "cached_over=there cover_with=leaves_or_soil+plucked_hair";
    visit.say(
        "reopened_by",
        Site::NONE,
        Answer::Seen { value: marrowbook::record::Value::Text("e07: far gone".into()) },
    );
    visit.say("cached_over", Site::NONE, Answer::choice("there"));
    let script = Script::new(hand);
    visit.walk(&mut script.clone());
    assert_ne!(visit.answer("snow_over_body", Site::NONE).state(), "seen");
    // Snow alone is no cover: the question is asked.
    let mut visit = Visit::field(1);
    let asked = visit.walk(&mut Script::new("cached_over=there cover_with=snow_raked"));
    assert!(asked.iter().any(|a| a == "snow_over_body"));
}

#[test]
fn no_chase_is_not_said_of_snow_that_cannot_be_read() {
    let of = |readable: &str| {
        let mut visit = Visit::field(1);
        visit.walk(&mut Script::new(&format!("body_state=whole snow_readable={readable}")));
        visit.answer("chase_or_struggle_marks", Site::NONE).state()
    };
    assert_eq!(of("sharp"), "not_seen");
    for hidden in ["snowed_over", "melted_or_blown", "trampled"] {
        assert_eq!(of(hidden), "cant_tell", "{hidden}");
    }
}

#[test]
fn no_bruise_is_said_only_of_a_skinned_body() {
    let of = |skinned: &str| {
        let mut visit = Visit::field(1);
        let script = format!(
            "body_state=whole body_frozen=not_frozen wounds_outside=- body_looked_over=both_sides rumen=present \
             skinned={skinned}"
        );
        visit.walk(&mut Script::new(&script));
        visit.look(|v| {
            let now = marrowbook::guide::situation(v);
            now.find("bruise_under_skin").map(|state| state.ask.may_be_absent(v))
        })
    };
    assert_eq!(of("neck_and_head+shoulders+rump+inner_thighs"), Some(true));
    assert_eq!(of("neck_and_head"), Some(false));
    assert_eq!(of("-"), None, "nothing skinned, nothing asked");
}
