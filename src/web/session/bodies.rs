//! Bodies read once, and by whom they are asked for: a tap folds only what concerns the carcass in
//! hand, so that its cost does not grow with the season.

use std::collections::{BTreeMap, BTreeSet};

use uuid::Uuid;

use crate::order::Short as _;
use crate::record::{Act, Answer, Body, EXAMINATION_KIND, EntryId, Fold, Subject, Value, fold_undecided, links};

/// All bodies that could be read, in the order in which they came.
#[derive(Default)]
pub(crate) struct Bodies {
    all: Vec<(EntryId, Body)>,
    of_subject: BTreeMap<Subject, Vec<usize>>,
    /// Withdrawals, changes of hands and the like: few, and part of every fold.
    others: Vec<usize>,
    carcass_of: BTreeMap<Uuid, Uuid>,
    outing_of: BTreeMap<Uuid, Uuid>,
    report_of: BTreeMap<Uuid, Uuid>,
    event_of: BTreeMap<Uuid, Uuid>,
    in_field: BTreeSet<Uuid>,
}

impl Bodies {
    /// Take one in.
    pub(crate) fn push(&mut self, id: EntryId, body: Body) {
        let place = self.all.len();
        if let Act::Answer { key, answer, .. } = &body.act {
            self.of_subject.entry(key.subject).or_default().push(place);
            if let Subject::Examination(exam) = key.subject
                && key.finding.as_str() == EXAMINATION_KIND
                && *answer == Answer::choice("field")
            {
                self.in_field.insert(exam);
            }
            if let (Subject::Examination(exam), Answer::Seen { value: Value::Ref(to) }) = (key.subject, answer) {
                match key.finding.as_str() {
                    links::CARCASS => self.carcass_of.insert(exam, *to),
                    links::OUTING => self.outing_of.insert(exam, *to),
                    links::REPORT => self.report_of.insert(exam, *to),
                    links::EVENT => self.event_of.insert(exam, *to),
                    _ => None,
                };
            }
        } else {
            self.others.push(place);
        }
        self.all.push((id, body));
    }

    /// Everything.
    pub(crate) fn all(&self) -> &[(EntryId, Body)] {
        &self.all
    }

    /// The fold of everything, for lists.
    pub(crate) fn fold_all(&self) -> Fold {
        fold_undecided(&self.all.iter().collect::<Vec<_>>())
    }

    /// The fold of these subjects and of all examinations of the same carcass.
    pub(crate) fn fold_around(&self, subjects: &[Subject]) -> Fold {
        self.fold_shown(subjects, &|_| true)
    }

    /// The same of what is shown of it.
    pub(crate) fn fold_shown(&self, subjects: &[Subject], shown: &dyn Fn(&Body) -> bool) -> Fold {
        let mut wanted = BTreeSet::new();
        wanted.extend(subjects.iter().copied());
        for subject in subjects {
            if let Subject::Examination(exam) = subject
                && let Some(carcass) = self.carcass_of.get(exam)
            {
                let same = self.carcass_of.iter().filter(|(_, c)| *c == carcass);
                wanted.extend(same.map(|(exam, _)| Subject::Examination(*exam)));
            }
        }
        let of_subjects = wanted.iter().filter_map(|s| self.of_subject.get(s)).flatten();
        let mut places: Vec<usize> = of_subjects.chain(&self.others).copied().collect();
        places.order();
        let picked: Vec<&(EntryId, Body)> =
            places.into_iter().filter_map(|p| self.all.get(p)).filter(|(_, body)| shown(body)).collect();
        fold_undecided(&picked)
    }

    /// The fold of one examination with the others of its carcass and what the readings take beside it:
    /// the outings and reports of all of them, and the winter logs.
    pub(crate) fn fold_for_readings(&self, exam: Uuid) -> Fold {
        let carcass = self.carcass_of.get(&exam);
        let same = self.carcass_of.iter().filter(|(_, c)| Some(*c) == carcass).map(|(exam, _)| *exam);
        let mut subjects: Vec<Subject> = vec![Subject::Examination(exam)];
        for exam in same.chain([exam]) {
            subjects.extend(self.report_of.get(&exam).map(|id| Subject::Report(*id)));
            // Where no report was named, the outing's id stands in for one.
            subjects.extend(self.outing_of(exam).into_iter().flat_map(|id| [Subject::Outing(id), Subject::Report(id)]));
        }
        subjects.extend(self.of_subject.keys().filter(|s| matches!(s, Subject::WinterLog(_))));
        self.fold_around(&subjects)
    }

    /// Bodies about one subject, in the order in which they came.
    pub(crate) fn about(&self, subject: Subject) -> impl DoubleEndedIterator<Item = &(EntryId, Body)> {
        self.of_subject.get(&subject).into_iter().flatten().filter_map(|place| self.all.get(*place))
    }

    /// The outing on which an examination was made.
    pub(crate) fn outing_of(&self, exam: Uuid) -> Option<Uuid> {
        self.outing_of.get(&exam).copied()
    }

    /// The examination in the field begun before this one on the same day out. Ids are made in order of time.
    pub(crate) fn before(&self, exam: Uuid) -> Option<Uuid> {
        let outing = self.outing_of(exam)?;
        let same = |(earlier, of): &(&Uuid, &Uuid)| **of == outing && self.in_field.contains(earlier);
        self.outing_of.range(..exam).rev().find(same).map(|(earlier, _)| *earlier)
    }

    /// The report that an examination answers.
    pub(crate) fn report_of(&self, exam: Uuid) -> Option<Uuid> {
        self.report_of.get(&exam).copied()
    }

    /// Whether a crew has gone to what was reported.
    pub(crate) fn is_answered(&self, report: Uuid) -> bool {
        self.report_of.values().any(|answered| *answered == report)
    }

    /// The event of a carcass that lies with others, and how many are known to lie there. A carcass by itself
    /// begins one.
    pub(crate) fn event_around(&self, exam: Uuid) -> Option<(Uuid, usize)> {
        let carcass = self.carcass_of(exam)?;
        let event = self.event_of.get(&exam).copied().unwrap_or(carcass);
        let mut known = BTreeSet::from([event]);
        let joined = self.event_of.iter().filter(|(_, e)| **e == event).map(|(exam, _)| *exam);
        known.extend(joined.filter_map(|exam| self.carcass_of(exam)));
        Some((event, known.len()))
    }

    /// The carcass that an examination is about.
    pub(crate) fn carcass_of(&self, exam: Uuid) -> Option<Uuid> {
        self.carcass_of.get(&exam).copied()
    }
}
