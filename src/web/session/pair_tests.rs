use super::tests::{answer, begun, bench, write};
use super::*;
use crate::guide::second_look;
use crate::record::Answer;
use crate::record::short_code::short_code;

fn person(code: &str) -> PersonCode {
    PersonCode::new(code).unwrap()
}

#[test]
fn a_second_person_is_asked_without_the_first_answer_and_both_stay() {
    let (mut session, bench) = begun();
    for (finding, code) in [("alive", "dead"), ("species", "white_tailed_deer"), ("body_state", "whole")] {
        answer(&mut session, &bench, finding, Answer::choice(code));
    }
    answer(&mut session, &bench, "quick_class", Answer::choice("older"));
    let state = |session: &Session| {
        let now = session.now(&bench.when());
        let view = now.view();
        let named = |ask: &crate::guide::Ask| ask.name() == "quick_class";
        let open = second_look::open(&view, &now.situation).any(|ask| named(&ask));
        let answered = second_look::answered(&view, &now.situation).any(|ask| named(&ask));
        assert_ne!(open, answered);
        (open, view.choice("quick_class"), view.choice("species"))
    };
    assert!(!state(&session).0);
    session.here.second_look = session.here.examination;
    session.is_held_by(person("B2"));
    let deer = Some("white_tailed_deer".to_owned());
    assert_eq!(state(&session), (true, None, deer.clone()), "only the calls are hidden");
    let now = session.now(&bench.when());
    assert!(session.settle(&now, &bench.when()).is_empty(), "what is hidden is settled by no rule");
    assert_eq!(second_look::compared(&now.view()), []);
    answer(&mut session, &bench, "quick_class", Answer::choice("fawn"));
    assert_eq!(state(&session), (false, Some("fawn".to_owned()), deer), "the own answer only");
    session.here.second_look = None;
    session.is_held_by(person("K7"));
    let now = session.now(&bench.when());
    let both = second_look::compared(&now.view());
    assert_eq!(both.len(), 1);
    assert!(!both[0].agree && both[0].finding == "quick_class");
    let said = [(person("K7"), Answer::choice("older")), (person("B2"), Answer::choice("fawn"))];
    assert!(said.iter().all(|one| both[0].said.contains(one)), "{both:?}");
    assert!(now.view().question("quick_class", crate::record::Site::NONE).is_split(), "readings see both");
}

#[test]
fn the_next_carcass_knows_what_was_looked_for_at_the_one_before() {
    let (mut session, bench) = begun();
    let swept =
        |session: &Session| session.now(&bench.when()).situation.asks.iter().any(|a| a.ask.name() == "ground_again");
    let panels = ["ground", "road_and_people"].map(|id| crate::guide::steps::step(id).unwrap().input);
    let signs: Vec<&str> = panels
        .iter()
        .flat_map(|input| match input {
            crate::guide::Input::Panel(signs) => signs.to_vec(),
            other => panic!("{other:?}"),
        })
        .collect();
    for sign in &signs {
        answer(&mut session, &bench, sign, Answer::NotSeen);
    }
    assert!(!swept(&session), "not at the first");
    let first = session.here.examination.unwrap();
    let bodies = session.new_carcass(&bench).unwrap();
    write(&mut session, bodies);
    let second = session.here.examination.unwrap();
    assert!(swept(&session));
    session.is_held_by(person("B2"));
    assert!(!swept(&session), "only who looked before");
    // Who could not look at the one before is asked in full.
    session.is_held_by(person("K7"));
    session.take_up(first);
    answer(&mut session, &bench, signs[0], Answer::NotLooked { why: crate::record::Why::Dark });
    session.take_up(second);
    assert!(!swept(&session), "not looked is not looked for");
}

/// A sweep tapped by mistake: taken back, each sign is asked again.
#[test]
fn a_sweep_that_is_taken_back_leaves_nothing_said() {
    let (mut session, bench) = begun();
    let panel = |id: &str| match crate::guide::steps::step(id).unwrap().input {
        crate::guide::Input::Panel(signs) => signs,
        other => panic!("{other:?}"),
    };
    for sign in ["ground", "road_and_people"].into_iter().flat_map(panel) {
        answer(&mut session, &bench, sign, Answer::NotSeen);
    }
    let bodies = session.new_carcass(&bench).unwrap();
    write(&mut session, bodies);
    let when = bench.when();
    let now = session.now(&when);
    let ask = now.ask(Some("ground_again")).unwrap();
    let swept = ask.sweep(&now.view());
    assert_eq!(swept.len(), 1 + panel("ground").len() + panel("road_and_people").len());
    let bodies = session.answer(&now.fold, &swept, &when).unwrap();
    write(&mut session, bodies);
    // One of them was asked since, and stays.
    answer(&mut session, &bench, "road_lane", Answer::choice("there"));
    let now = session.now(&when);
    assert!(now.ask(Some("ground")).unwrap().is_answered(&now.view()));
    let body = session.take_back(&now, &ask.to_take_back(&now.view()), &when).unwrap();
    write(&mut session, vec![body]);
    let now = session.now(&when);
    for sign in panel("ground") {
        assert!(!now.view().is_answered(sign, crate::record::Site::NONE), "{sign} is said of nobody's look");
    }
    assert!(now.view().there("road_lane"));
}

#[test]
fn two_phones_at_one_carcass_are_found_by_the_code() {
    let (first, _) = begun();
    let carcass = first.bodies.carcass_of(first.here.examination.unwrap()).unwrap();
    let second_bench = bench();
    let mut second = Session::new(Journal::new(), DeviceId(Digest::of(&[b"another phone"])), None);
    second.is_held_by(person("B2"));
    // Ids of its own, as another phone has.
    for _ in 0..20 {
        let _: [u8; 1] = second_bench.random();
    }
    let bodies = second.join_by_code(&short_code(carcass), &second_bench).unwrap();
    write(&mut second, bodies);
    let mut all = first.journal.clone();
    all.merge(&second.journal);
    let folded = crate::record::fold(&all);
    let said = crate::office::decide::said_same(&folded, &std::collections::BTreeSet::new());
    assert_eq!(said.len(), 1);
    assert_eq!(said[0].1.id, carcass);
    assert!(crate::office::decide::same(said[0].0, said[0].1).is_ok());
}
