//! Reports, and several carcasses at one place, through a session.

use super::tests::{answer, begun, bench, write};
use super::*;
use crate::guide::ExamKind;

#[test]
fn a_report_waits_until_a_crew_has_gone_to_it() {
    let bench = bench();
    let mut session = Session::new(Journal::new(), super::tests::device(), None);
    let id = bench.id();
    session.take_up_report(Some(id));
    assert_eq!(session.now(&bench.when()).kind, ExamKind::Report);
    answer(&mut session, &bench, "report_state", Answer::choice("dead"));
    let words = Answer::Seen { value: Value::Text("Mill loop, second bridge".to_owned()) };
    answer(&mut session, &bench, "report_place_words", words);
    session.take_up_report(None);
    let waiting = session.waiting_reports();
    assert_eq!(
        waiting.iter().map(|r| (r.id, r.place.as_str())).collect::<Vec<_>>(),
        [(id, "Mill loop, second bridge")]
    );
    // A crew goes: what was told is before its eyes, and the report waits no more.
    session.take_up_report(Some(id));
    let bodies = session.start_outing(&bench).unwrap();
    write(&mut session, bodies);
    let now = session.now(&bench.when());
    assert_eq!((now.kind, now.view().choice("report_state").as_deref()), (ExamKind::Field, Some("dead")));
    assert!(session.waiting_reports().is_empty());
    // Somewhere else it is no longer the report's carcass.
    let first = session.here.examination.unwrap();
    let bodies = session.new_carcass(&bench).unwrap();
    write(&mut session, bodies);
    assert_eq!(session.now(&bench.when()).view().choice("report_state"), None);
    session.take_up(first);
    assert_eq!(session.now(&bench.when()).view().choice("report_state").as_deref(), Some("dead"));
}

#[test]
fn a_report_that_was_passed_on_has_had_its_answer() {
    let bench = bench();
    let mut session = Session::new(Journal::new(), super::tests::device(), None);
    session.take_up_report(Some(bench.id()));
    answer(&mut session, &bench, "report_triage", Answer::choice("close_trail"));
    assert_eq!(session.waiting_reports().len(), 1);
    answer(&mut session, &bench, "report_triage", Answer::choice("refer"));
    assert!(session.waiting_reports().is_empty());
}

#[test]
fn carcasses_beside_each_other_are_numbered_and_share_one_event() {
    let (mut session, bench) = begun();
    let first = session.here.examination.and_then(|exam| session.bodies.carcass_of(exam));
    for number in 2..=6 {
        let bodies = session.carcass_beside(&bench).unwrap();
        write(&mut session, bodies);
        let now = session.now(&bench.when());
        assert_eq!(now.view().number("event_carcass_count"), Some(number));
        assert_eq!(crate::guide::is_short(&now.view()), number >= 5, "{number}");
        let exam = session.here.examination.unwrap();
        assert_eq!(session.bodies.event_around(exam).map(|(event, _)| Some(event)), Some(first));
    }
}
