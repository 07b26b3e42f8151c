//! The photos that this phone's entries name, and what becomes of them.

use std::collections::BTreeSet;

use uuid::Uuid;

use crate::guide::{Draft, compose, photos, withdraw};
use crate::order::Short as _;
use crate::record::{
    Act, Answer, Body, Digest, EntryId, Flaw, Moment, PHOTO_DELETED, PersonCode, Photo, Site, Subject, Value,
};

use super::{Correction, Here, Now, Session, When};

/// A photo that an entry names.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Picture {
    /// The entry.
    pub(crate) id: EntryId,
    /// The finding's code.
    pub(crate) finding: String,
    /// Its number in the list.
    pub(crate) site: Site,
    /// The photo.
    pub(crate) photo: Photo,
    /// Who took it.
    pub(crate) observer: PersonCode,
    /// When.
    pub(crate) at: Moment,
    /// Whether the entry stands.
    pub(crate) stands: bool,
    /// Whether somebody deleted it.
    pub(crate) deleted: bool,
}

/// The photo that an entry puts into the record; none for the trace of one that was deleted.
fn named(act: &Act) -> Option<&Photo> {
    match act {
        Act::Answer { key, answer: Answer::Seen { value: Value::Photo(photo) }, .. }
            if key.finding.as_str() != PHOTO_DELETED =>
        {
            Some(photo)
        }
        _ => None,
    }
}

impl Session {
    /// Photos of an examination and of the report that it answers, in the order in which they were taken.
    pub(crate) fn pictures(&self, examination: Uuid) -> Vec<Picture> {
        let gone = self.gone();
        let report = self.bodies.report_of(examination).map(Subject::Report);
        let about = report.into_iter().chain([Subject::Examination(examination)]);
        let answers = about.flat_map(|subject| self.answers_about(subject));
        answers
            .filter(|a| a.finding.as_str() != PHOTO_DELETED)
            .filter_map(|a| match a.answer {
                Answer::Seen { value: Value::Photo(photo) } => Some(Picture {
                    id: a.id,
                    finding: a.finding.as_str().to_owned(),
                    site: a.site,
                    deleted: gone.contains(&photo.sha256),
                    photo,
                    observer: a.observer,
                    at: a.at,
                    stands: a.correction == Correction::Stands,
                }),
                _ => None,
            })
            .collect()
    }

    /// Photos whose bytes go: deleted, and named by no entry that stands. The same picture may have been taken for
    /// two things.
    pub(crate) fn gone(&self) -> BTreeSet<Digest> {
        let mut taken_back = BTreeSet::new();
        let mut gone = BTreeSet::new();
        for (_, body) in self.bodies.all() {
            match &body.act {
                Act::Withdraw { supersedes } => taken_back.extend(supersedes.iter().copied()),
                Act::Answer { key, answer: Answer::Seen { value: Value::Photo(photo) }, .. }
                    if key.finding.as_str() == PHOTO_DELETED =>
                {
                    gone.insert(photo.sha256);
                }
                _ => {}
            }
        }
        for (id, body) in self.bodies.all() {
            if let Some(photo) = named(&body.act).filter(|_| !taken_back.contains(id)) {
                gone.remove(&photo.sha256);
            }
        }
        gone
    }

    /// Every photo that goes along with a bundle, once: what was taken back is still in the journal, what was
    /// deleted is not here any more.
    pub(super) fn photos_to_go(&self) -> Vec<Photo> {
        let gone = self.gone();
        let all = self.bodies.all().iter().filter_map(|(_, body)| named(&body.act));
        let mut all: Vec<Photo> = all.filter(|photo| !gone.contains(&photo.sha256)).cloned().collect();
        all.order();
        all.dedup();
        all
    }

    /// Whether an examination is an evidence record, for good.
    pub(crate) fn is_evidence(&self, examination: Uuid, when: &When) -> bool {
        let here = Here { examination: Some(examination), ..self.here.clone() };
        let fold = self.bodies.fold_around(&[Subject::Examination(examination)]);
        let card = self.card.as_ref().map(|held| std::sync::Arc::clone(&held.card));
        Now::new(here, fold, card, when.at).situation.evidence_record
    }

    /// Whether an entry names this photo already.
    pub(crate) fn names_photo(&self, photo: &Photo) -> bool {
        self.bodies.all().iter().any(|(_, body)| named(&body.act) == Some(photo))
    }

    /// The entries that say that a photo was deleted: what named it stands no longer, its trace does.
    ///
    /// # Errors
    /// Where the trace cannot be written.
    pub(crate) fn delete_picture(&self, examination: Uuid, picture: &Picture, when: &When) -> Result<Vec<Body>, Flaw> {
        let draft = photos::deleted(picture.photo.clone(), picture.site);
        let mut bodies = self.answer_at(Some(examination), self.here.report, &[draft], when)?;
        if picture.stands {
            bodies.push(withdraw(vec![picture.id], &self.context(when)));
        }
        Ok(bodies)
    }

    /// What a person answered about an examination or a report that may no longer be the one in hand: a picture is
    /// worked on for seconds.
    ///
    /// # Errors
    /// The draft that cannot be true.
    pub(crate) fn answer_at(
        &self,
        examination: Option<Uuid>,
        report: Option<Uuid>,
        drafts: &[Draft],
        when: &When,
    ) -> Result<Vec<Body>, Flaw> {
        let mut context = self.context(when);
        context.report = report.or(context.report);
        if let Some(examination) = examination.filter(|exam| self.here.examination != Some(*exam)) {
            context.examination = examination;
            context.outing = self.bodies.outing_of(examination).unwrap_or(examination);
            context.since_start_ms = None;
        }
        let subjects = [Subject::Examination(context.examination), Subject::Outing(context.outing)];
        let subjects: Vec<Subject> = subjects.into_iter().chain(report.map(Subject::Report)).collect();
        compose(&self.bodies.fold_around(&subjects), drafts, &context)
    }
}

#[cfg(test)]
mod tests {
    use super::super::tests::{begun, write};
    use super::super::{Source as _, draft};
    use super::*;

    fn photo(n: u8) -> Photo {
        Photo { sha256: Digest::of(&[&[n]]), bytes: 1, media: "image/jpeg".to_owned() }
    }

    fn take(session: &mut Session, bench: &super::super::tests::Bench, number: u16, photo: &Photo) {
        let said = Answer::Seen { value: Value::Photo(photo.clone()) };
        let drafts = [Draft { site: Site::item(number), step: "photos", ..draft("photo", said) }];
        let bodies = session.answer_at(session.here.examination, None, &drafts, &bench.when()).unwrap();
        write(session, bodies);
    }

    #[test]
    fn a_deleted_photo_goes_and_its_trace_stays() {
        let (mut session, bench) = begun();
        let exam = session.here.examination.unwrap();
        take(&mut session, &bench, 31, &photo(1));
        take(&mut session, &bench, 31, &photo(2));
        take(&mut session, &bench, 37, &photo(3));
        let all = session.pictures(exam);
        assert_eq!(all.len(), 3, "a second photo of one thing stands beside the first");
        let bodies = session.delete_picture(exam, &all[1], &bench.when()).unwrap();
        write(&mut session, bodies);
        assert_eq!(session.gone(), BTreeSet::from([photo(2).sha256]));
        let mut left = vec![photo(1), photo(3)];
        left.sort_unstable();
        assert_eq!(session.photos_to_go(), left);
        let all = session.pictures(exam);
        assert_eq!(
            all.iter().map(|p| (p.stands, p.deleted)).collect::<Vec<_>>(),
            [(true, false), (false, true), (true, false)]
        );
        // The trace: number, digest, length, who.
        let trace = session.answers_about(Subject::Examination(exam));
        let trace = trace.iter().find(|a| a.finding.as_str() == PHOTO_DELETED).unwrap();
        assert_eq!((trace.site, trace.observer.to_string().as_str()), (Site::item(31), "K7"));
        assert_eq!(trace.answer, Answer::Seen { value: Value::Photo(photo(2)) });
    }

    #[test]
    fn one_picture_named_twice_goes_with_the_second_deletion() {
        let (mut session, bench) = begun();
        let exam = session.here.examination.unwrap();
        take(&mut session, &bench, 32, &photo(1));
        take(&mut session, &bench, 33, &photo(1));
        for still in [false, true] {
            let picture = session.pictures(exam).into_iter().find(|p| p.stands).unwrap();
            let bodies = session.delete_picture(exam, &picture, &bench.when()).unwrap();
            write(&mut session, bodies);
            assert_eq!(session.gone().contains(&photo(1).sha256), still);
        }
    }

    #[test]
    fn a_picture_that_took_long_is_written_where_it_was_taken() {
        let (mut session, bench) = begun();
        let (first, outing) = (session.here.examination.unwrap(), session.here.outing.unwrap());
        let bodies = session.new_carcass(&bench).unwrap();
        write(&mut session, bodies);
        assert_ne!(session.here.examination, Some(first));
        let said = Answer::Seen { value: Value::Photo(photo(1)) };
        let drafts = [Draft { site: Site::item(31), step: "photos", ..draft("photo", said) }];
        let bodies = session.answer_at(Some(first), None, &drafts, &bench.when()).unwrap();
        write(&mut session, bodies);
        assert_eq!(session.pictures(first).len(), 1);
        assert_eq!(session.pictures(session.here.examination.unwrap()).len(), 0);
        assert_eq!(session.bodies.outing_of(first), Some(outing));
        assert!(session.names_photo(&photo(1)) && !session.names_photo(&photo(2)));
    }
}
