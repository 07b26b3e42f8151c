use super::*;
use crate::record::{Head, Moment, Salt};
use std::cell::Cell;

pub(super) struct Bench(Cell<u64>);

impl Source for Bench {
    fn when(&self) -> When {
        let n = self.0.get();
        let at = Moment::from_unix(1_800_000_000 + i64::try_from(n).unwrap(), -300).unwrap();
        When { at, zone: String::new(), unix_ms: 1_800_000_000_000 + n, steady_ms: n * 1_000 }
    }
    fn random<const N: usize>(&self) -> [u8; N] {
        let n = self.0.replace(self.0.get() + 1);
        std::array::from_fn(|i| u8::try_from((n * 31 + u64::try_from(i).unwrap()) % 251).unwrap())
    }
}

pub(super) fn device() -> DeviceId {
    DeviceId(Digest::of(&[b"a phone"]))
}

pub(super) fn write(session: &mut Session, bodies: Vec<Body>) {
    for body in bodies {
        let entry = session.journal.head(session.device).next(&body, Salt([7; 16])).unwrap();
        assert_eq!(entry.header.seq, Head::after(&entry).seq);
        session.take(vec![entry]);
    }
}

pub(super) fn bench() -> Bench {
    Bench(Cell::new(1))
}

pub(super) fn begun() -> (Session, Bench) {
    let bench = bench();
    let mut session = Session::new(Journal::new(), device(), None);
    session.is_held_by(PersonCode::new("K7").unwrap());
    let bodies = session.start_outing(&bench).unwrap();
    write(&mut session, bodies);
    (session, bench)
}

pub(super) fn answer(session: &mut Session, bench: &Bench, finding: &'static str, answer: Answer) {
    let when = bench.when();
    let now = session.now(&when);
    let bodies = session.answer(&now.fold, &[Draft { step: finding, ..draft(finding, answer) }], &when).unwrap();
    write(session, bodies);
}

#[test]
fn the_fold_around_one_carcass_is_the_fold_of_all_where_there_is_one() {
    let (mut session, bench) = begun();
    answer(&mut session, &bench, "body_state", Answer::choice("whole"));
    answer(&mut session, &bench, "body_state", Answer::choice("part_eaten"));
    let now = session.now(&bench.when());
    assert_eq!(now.fold, session.bodies.fold_all());
    assert_eq!(now.fold, crate::record::fold(&session.journal));
    assert_eq!(now.view().choice("body_state").as_deref(), Some("part_eaten"));
}

#[test]
fn another_carcass_does_not_show_in_this_one() {
    let (mut session, bench) = begun();
    answer(&mut session, &bench, "body_state", Answer::choice("whole"));
    answer(&mut session, &bench, "crew_count", Answer::number(2));
    let first = session.here.examination.unwrap();
    let bodies = session.new_carcass(&bench).unwrap();
    write(&mut session, bodies);
    let now = session.now(&bench.when());
    assert_eq!(now.view().choice("body_state"), None);
    assert_eq!(now.view().number("crew_count"), Some(2), "the day out is shared");
    session.take_up(first);
    assert_eq!(session.now(&bench.when()).view().choice("body_state").as_deref(), Some("whole"));
    assert_eq!(Session::examinations(&session.bodies.fold_all()).len(), 2);
}

#[test]
fn taking_back_leaves_the_history() {
    let (mut session, bench) = begun();
    answer(&mut session, &bench, "body_state", Answer::choice("whole"));
    let when = bench.when();
    let now = session.now(&when);
    let ask = now.ask(Some("body_state")).unwrap();
    assert_eq!(session.trail(&now), ["body_state"]);
    let body = session.take_back(&now, &ask.questions(&now.view()), &when).unwrap();
    write(&mut session, vec![body]);
    let now = session.now(&when);
    assert_eq!(now.view().choice("body_state"), None);
    assert!(session.trail(&now).is_empty());
    let told = session.answers_about(Subject::Examination(session.here.examination.unwrap()));
    let last = told.iter().find(|a| a.finding.as_str() == "body_state").unwrap();
    assert_eq!(last.correction, Correction::TakenBack);
}

#[test]
fn hand_over_counts_what_is_new() {
    let (mut session, bench) = begun();
    let all = session.journal.len();
    assert_eq!(session.handed().waiting, all);
    answer(
        &mut session,
        &bench,
        "handed_over",
        Answer::Seen { value: Value::Text(handed_text(all as u64, Uuid::nil())) },
    );
    assert_eq!((session.handed().through, session.handed().waiting), (all as u64, 0));
    answer(&mut session, &bench, "body_state", Answer::choice("whole"));
    assert_eq!(session.handed().waiting, 1);
}

#[test]
fn work_on_the_bench_is_another_examination_of_the_same_carcass() {
    let (mut session, bench) = begun();
    answer(&mut session, &bench, "jaw_taken", Answer::choice("whole_jaw"));
    let open = Session::bench_work(&session.bodies.fold_all());
    assert_eq!(open.len(), 1);
    let field = session.here.examination;
    let bodies = session.look_again(open[0].0, "bench", &bench).unwrap();
    write(&mut session, bodies);
    let now = session.now(&bench.when());
    assert_eq!(now.kind, crate::guide::ExamKind::Bench);
    assert_ne!(now.here.examination, field);
    assert_eq!(now.carcass().map(|c| c.examinations.len()), Some(2));
}

#[test]
fn notes_on_who_was_hurt_are_kept_from_outing_to_outing_and_one_taken_back_is_gone() {
    let (mut session, bench) = begun();
    let note = |text: &str| Answer::Seen { value: Value::Text(text.to_owned()) };
    answer(&mut session, &bench, "exposure_note", note("left thumb"));
    let texts = |session: &Session| -> Vec<Answer> { session.exposure_notes().into_iter().map(|a| a.answer).collect() };
    let bodies = session.start_outing(&bench).unwrap();
    write(&mut session, bodies);
    assert_eq!(texts(&session), [note("left thumb")], "an outing later it can still be shown to a doctor");
    answer(&mut session, &bench, "exposure_note", note("right eye"));
    assert_eq!(texts(&session), [note("right eye"), note("left thumb")]);
    let last = session.exposure_notes().swap_remove(0);
    let taken_back = withdraw(vec![last.id], &session.context(&bench.when()));
    write(&mut session, vec![taken_back]);
    assert_eq!(texts(&session), [note("left thumb")]);
}
