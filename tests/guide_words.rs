//! Every id that the tables name has a text, every text of theirs has a use, and questions read
//! easily. The rules of wording are the project's own (reading at arm's length): no outside source.
#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    clippy::indexing_slicing,
    clippy::cast_precision_loss
)]

use std::collections::BTreeSet;

use marrowbook::guide::answer_words::answer;
use marrowbook::guide::steps::STEPS;
use marrowbook::guide::{BenchWork, Input, Phase, Step, finding_label, option_label, site_words, why_words};
use marrowbook::record::{Answer, Bone, FINDINGS, FindingDef, Side, Site, Tooth, Unit, Why};
use marrowbook::words::{Language, ids, raw};

const EN: Language = Language::English;

fn steps() -> impl Iterator<Item = &'static Step> {
    STEPS.iter().flat_map(|part| part.iter())
}

fn findings() -> impl Iterator<Item = &'static FindingDef> {
    FINDINGS.iter().flat_map(|group| group.iter())
}

/// Ids that the tables of this room name, in all.
fn wanted() -> BTreeSet<String> {
    let mut all: BTreeSet<String> = BTreeSet::new();
    for step in steps() {
        for text in ["ask", "why", "how"] {
            all.insert(format!("step.{}.{text}", step.id));
        }
        // What is looked over or read out may name its own tile for the end.
        let done = format!("step.{}.done", step.id);
        if matches!(step.input, Input::Sweep { .. } | Input::ReadDo(_)) && raw(EN, &done).is_some() {
            all.insert(done);
        }
        if step.absent.is_some() {
            all.insert(format!("step.{}.none", step.id));
        }
    }
    for def in findings() {
        all.insert(finding_label(def.code));
        for option in def.options() {
            all.insert(option_label(EN, def.code, option));
        }
    }
    for phase in Phase::FIELD.iter().chain(&Phase::BENCH).chain(&Phase::REPORT) {
        all.insert(format!("phase.{}", phase.code()));
    }
    for state in ["seen", "not_seen", "cant_tell", "not_looked", "part_gone"] {
        all.insert(format!("state.{state}"));
    }
    // What is decided and not looked at may have words of its own where it was left.
    for def in findings() {
        let own = format!("state.not_looked.{}", def.code);
        all.extend(raw(EN, &own).map(|_| own));
    }
    for why in Why::PLAIN.iter().chain(&[Why::Other(String::new())]) {
        all.insert(format!("why.{}", why.code()));
    }
    for unit in Unit::ALL {
        all.insert(format!("unit.{}", unit.code()));
    }
    for side in [Side::Left, Side::Right] {
        all.insert(format!("side.{}", side.code()));
    }
    for bone in Bone::ALL {
        all.insert(format!("bone.{}", bone.code()));
    }
    for tooth in [Tooth::I1, Tooth::I2, Tooth::I3, Tooth::C, Tooth::P1].iter().chain(&Tooth::CHEEK) {
        all.insert(format!("tooth.{}", tooth.name().to_ascii_lowercase()));
    }
    for work in BenchWork::ALL {
        all.insert(format!("bench_work.{}", work.code()));
    }
    for plant in marrowbook::science::diet::plants::all() {
        all.insert(format!("plant.{}", plant.code));
    }
    for site in ["side", "tooth", "side_tooth", "bone", "side_bone", "item"] {
        all.insert(format!("site.{site}"));
    }
    all
}

#[test]
fn every_id_has_a_text() {
    let missing: Vec<String> = wanted().into_iter().filter(|id| raw(EN, id).is_none()).collect();
    assert!(missing.is_empty(), "{missing:#?}");
}

#[test]
fn every_text_of_the_tables_has_a_use() {
    let ours = [
        "step.",
        "phase.",
        "finding.",
        "option.",
        "site.",
        "tooth.",
        "bone.",
        "side.",
        "why.",
        "unit.",
        "state.",
        "bench_work.",
        "plant.",
    ];
    let wanted = wanted();
    let idle: Vec<&str> = ids().filter(|id| ours.iter().any(|p| id.starts_with(p)) && !wanted.contains(*id)).collect();
    assert!(idle.is_empty(), "{idle:#?}");
}

#[test]
fn questions_are_short_and_end_as_questions_or_orders() {
    for step in steps() {
        let text = |part: &str| raw(EN, &format!("step.{}.{part}", step.id)).unwrap();
        let ask = text("ask");
        assert!(ask.split_whitespace().count() <= 10, "{}: {ask}", step.id);
        assert!(ask.ends_with('?') || ask.ends_with('.'), "{}: {ask}", step.id);
        assert!(text("why").chars().count() <= 80, "{}: {}", step.id, text("why"));
        assert!(text("how").chars().count() <= 80, "{}: {}", step.id, text("how"));
    }
}

#[test]
fn no_question_names_a_cause_of_death() {
    // The form does not steer the eye: design, section 5.
    for step in steps() {
        for part in ["ask", "why", "how"] {
            let text = raw(EN, &format!("step.{}.{part}", step.id)).unwrap().to_lowercase();
            for word in ["predation", "killed by", "starved", "cause of death", "shot by", "poached"] {
                assert!(!text.contains(word), "{}.{part}: {text}", step.id);
            }
        }
    }
}

#[test]
fn tiles_are_short() {
    for id in ids().filter(|id| {
        ["option.", "finding."].iter().any(|p| id.starts_with(p))
            || matches!(id.rsplit_once('.'), Some((step, "none")) if step.starts_with("step."))
    }) {
        let text = raw(EN, id).unwrap();
        assert!(text.chars().count() <= 36, "{id}: {text}");
    }
}

#[test]
fn places_and_reasons_read_as_words() {
    assert_eq!(site_words(EN, Site::tooth(Side::Left, Tooth::P4)), "Left, Third cheek tooth (P4)");
    assert_eq!(site_words(EN, Site::bone(Bone::Femur)), "Thigh bone (femur)");
    assert_eq!(site_words(EN, Site { side: Some(Side::Right), ..Site::bone(Bone::Tibia) }), "Right, Shin bone (tibia)");
    assert_eq!(site_words(EN, Site::item(2)), "no.\u{a0}2");
    assert_eq!(site_words(EN, Site::side(Side::Right)), "Right");
    assert_eq!(site_words(EN, Site::NONE), "");
    assert_eq!(why_words(EN, &Why::Other("mouth shut".to_owned())), "mouth shut");
    assert_eq!(why_words(EN, &Why::Frozen), "Frozen");
}

#[test]
fn crew_names_of_cheek_teeth_count_from_the_front_beside_the_zoological_name() {
    // Reference `age-and-sex.md` section 1: crew numbers 1 to 6 are P2, P3, P4, M1, M2, M3.
    for (n, tooth) in ["First", "Second", "Third", "Fourth", "Fifth", "Sixth"].iter().zip(Tooth::CHEEK) {
        let id = format!("tooth.{}", tooth.name().to_ascii_lowercase());
        assert_eq!(raw(EN, &id).unwrap(), format!("{n} cheek tooth ({})", tooth.name()));
    }
}

/// Syllables by groups of vowels: a silent last `e` is not one, and every word has one.
fn syllables(word: &str) -> usize {
    let letters: Vec<char> = word.to_lowercase().chars().filter(|c| c.is_alphabetic()).collect();
    let vowel = |c: &char| "aeiouy".contains(*c);
    let mut groups = letters.iter().zip(letters.iter().skip(1)).filter(|(a, b)| !vowel(a) && vowel(b)).count();
    groups += usize::from(letters.first().is_some_and(vowel));
    let silent = letters.ends_with(&['e']) && !letters.ends_with(&['l', 'e']) && groups > 1;
    (groups - usize::from(silent)).max(1)
}

#[test]
fn questions_read_easily() {
    // Flesch-Kincaid grade (Kincaid, Fishburne, Rogers and Chissom 1975), coefficients from memory:
    // 0.39 words a sentence + 11.8 syllables a word - 15.59. Plain-language guides ask for grade 6 to 8.
    let grade = |sentences: usize, words: usize, sounds: usize| {
        0.39 * words as f64 / sentences as f64 + 11.8 * sounds as f64 / words as f64 - 15.59
    };
    // The formula on a sentence that can be counted by hand: 6 words, 6 syllables, 1 sentence.
    assert_eq!("The cat sat on the mat.".split(' ').map(syllables).sum::<usize>(), 6);
    assert!((grade(1, 6, 6) - -1.45).abs() < 1e-9);
    let mut all = (0, 0, 0);
    for step in steps() {
        let mut of_step = (0, 0, 0);
        for part in ["ask", "why", "how"] {
            let text = raw(EN, &format!("step.{}.{part}", step.id)).unwrap();
            of_step.0 += text.matches(['.', '?']).count().max(1);
            of_step.1 += text.split_whitespace().count();
            of_step.2 += text.split_whitespace().map(syllables).sum::<usize>();
        }
        let own = grade(of_step.0, of_step.1, of_step.2);
        assert!(own <= 8.0, "{}: grade {own:.1}", step.id);
        all = (all.0 + of_step.0, all.1 + of_step.1, all.2 + of_step.2);
    }
    let whole = grade(all.0, all.1, all.2);
    println!("grade of all questions together {whole:.2}");
    assert!(whole <= 6.0, "{whole:.2}");
}

#[test]
fn a_line_is_answered_by_what_the_record_will_say() {
    for step in steps() {
        let Input::ReadDo(finding) = step.input else { continue };
        if finding != "sketch_drawn" {
            assert!(raw(EN, &format!("option.{finding}.there")).is_some(), "{finding} would be answered by `There`");
        }
        if step.absent.is_some() {
            assert!(raw(EN, &format!("step.{}.none", step.id)).is_some(), "{} has no word for no", step.id);
        }
    }
    // In the record, too.
    assert_eq!(answer(EN, "gear_warmth", &Answer::NotSeen), "Not with us");
    assert_eq!(answer(EN, "jaw_taken", &Answer::NotSeen), "Not taken");
}
