//! Records that name the animal that killed: DNA that a laboratory typed, a photo or camera, a collar, a
//! witness.
//!
//! Spit of whoever ate is DNA as well: only a swab of a wound that bled in life speaks of the killer, and only
//! where the record of the carcass itself has such a wound. A witness's word raises `fed on` to `killed` and
//! cuts no figure loose: that takes DNA, a photo or a collar.

use super::cause_ids::{self as id, caution};
use super::lens::{Answers, Lens, Picks, Used};
use super::shape::{Statement, Val};
use crate::record::{Answer, Carcass, Site, Value};
use crate::science::cause::{Animals, Cause};

const FINDINGS: &[&str] = &["dna_of", "dna_from", "dna_lab", "kill_record_of", "kill_record_how", "kill_record_by"];

/// What the records say.
#[derive(Default)]
pub(super) struct Records<'a> {
    /// Animals named as the killer.
    pub(super) named: Animals,
    /// Those of them whose figures are not cut; none where records differ.
    pub(super) on_record: Animals,
    /// Those seen at it by eye or on a photo.
    pub(super) witnessed: Animals,
    pub(super) statements: Vec<Statement>,
    pub(super) cautions: Vec<Statement>,
    pub(super) used: Used<'a>,
}

/// Over all examinations: each laboratory's sheet and each record is one. `clot`: the record of the carcass
/// has a wound that bled in life.
pub(super) fn records(carcass: &Carcass, clot: bool) -> Records<'_> {
    let mut out = Records::default();
    for examination in carcass.examinations.values() {
        let answers = Answers::of_examination(carcass, &examination.sheet, FINDINGS);
        let lens = Lens::new(&answers, Picks::new());
        dna(&lens, clot, &mut out);
        kill(&lens, &mut out);
        out.used.extend(lens.into_used());
    }
    if out.named.differ() {
        out.on_record = Animals::default();
        out.caution(caution::RECORDS_DIFFER);
    }
    if !out.on_record.is_empty() {
        out.caution(caution::RECORD_UNWEIGHED);
    }
    out
}

impl Records<'_> {
    fn say(&mut self, said: Statement) {
        if !self.statements.contains(&said) {
            self.statements.push(said);
        }
    }

    fn caution(&mut self, id: &str) {
        let said = Statement::plain(id);
        if !self.cautions.contains(&said) {
            self.cautions.push(said);
        }
    }
}

fn animal(answer: &Answer) -> Option<Cause> {
    match answer {
        Answer::Seen { value: Value::Choice(code) } => Cause::of_code(code).filter(|cause| cause.is_predator()),
        _ => None,
    }
}

fn name(cause: Cause) -> Val {
    Val::Message(id::cause(cause))
}

fn text(lens: &Lens, finding: &'static str) -> Val {
    match lens.result(finding, Site::NONE) {
        Some(Answer::Seen { value: Value::Text(text) }) => Val::Text(text.clone()),
        _ => Val::message(id::BY_NOBODY),
    }
}

fn dna(lens: &Lens, clot: bool, out: &mut Records) {
    for answer in lens.all("dna_of", Site::NONE) {
        let from = lens.choice("dna_from", Site::NONE).unwrap_or("wound_not_known");
        let said = |id: &str| Statement::plain(id).with("lab", text(lens, "dna_lab"));
        let place = Val::Message(format!("option.dna_from.{from}"));
        match animal(answer) {
            None => out.say(said(id::DNA_NONE).with("place", place)),
            Some(cause) if from == "clot_wound" && clot => {
                out.named.add(cause);
                out.on_record.add(cause);
                out.say(said(id::DNA).with("animal", name(cause)));
            }
            Some(cause) => {
                if from == "clot_wound" {
                    out.caution(caution::DNA_NO_CLOT);
                }
                out.say(said(id::DNA_FED).with("animal", name(cause)).with("place", place));
            }
        }
    }
}

fn kill(lens: &Lens, out: &mut Records) {
    for cause in lens.all("kill_record_of", Site::NONE).iter().filter_map(|answer| animal(answer)) {
        let how = lens.choice("kill_record_how", Site::NONE).unwrap_or("witness");
        let lifts = matches!(how, "photo_or_camera" | "collar_record");
        out.named.add(cause);
        if lifts {
            out.on_record.add(cause);
        }
        // A collar says that it was there, and not that it was seen to do it.
        if how != "collar_record" {
            out.witnessed.add(cause);
        }
        let said = Statement::plain(if lifts { id::RECORD } else { id::RECORD_WITNESS });
        let how = Val::Message(format!("option.kill_record_how.{how}"));
        out.say(said.with("how", how).with("by", text(lens, "kill_record_by")).with("animal", name(cause)));
    }
}
