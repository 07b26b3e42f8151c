//! The judgement of a file in words, and as one JSON object.

use super::opening::{Judged, Outcome, Verdict};
use crate::bundle::received::Repair;
use crate::record::{Photo, Stored};
use crate::words::{Arg, Language, say_office};
use serde::Serialize;

/// The judgement of a file in words: the outcome, what to know about it, what to do next.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Report {
    /// One clause.
    pub outcome: String,
    /// Lines beneath it.
    pub about: Vec<String>,
    /// What to do next, where something is to be done.
    pub next: Option<String>,
}

/// Puts a judgement into words. `received` says whether a photo that the bundle names is at hand.
pub fn report(judged: &Judged, language: Language, received: &dyn Fn(&Photo) -> bool) -> Report {
    let about = About { judged, language, received };
    Report { outcome: about.outcome(), about: about.lines(), next: about.next() }
}

struct About<'a> {
    judged: &'a Judged,
    language: Language,
    received: &'a dyn Fn(&Photo) -> bool,
}

impl About<'_> {
    fn say(&self, id: &str, args: &[(&str, Arg)]) -> String {
        say_office(self.language, id, args)
    }

    fn outcome(&self) -> String {
        match &self.judged.verdict {
            Verdict::Intact { label } => self.say("office.open.intact", &[("label", label.as_str().into())]),
            Verdict::Unknown => self.say("office.open.unknown", &[]),
            Verdict::Retired { label, since } => {
                self.say("office.open.retired", &[("label", label.as_str().into()), ("date", since.to_string().into())])
            }
            Verdict::Damaged { step, reason } => self
                .say("office.open.damaged", &[("step", step.to_string().into()), ("reason", reason.as_str().into())]),
            Verdict::Newer { reason } => self.say("office.open.newer", &[("reason", reason.as_str().into())]),
        }
    }

    fn next(&self) -> Option<String> {
        let id = match &self.judged.verdict {
            Verdict::Intact { .. } => return None,
            Verdict::Unknown => "unknown",
            Verdict::Retired { .. } => "retired",
            Verdict::Newer { .. } => "newer",
            Verdict::Damaged { step, .. } => step.code(),
        };
        Some(self.say(&format!("office.next.{id}"), &[]))
    }

    fn lines(&self) -> Vec<String> {
        let mut lines = Vec::new();
        if let Some(fingerprint) = self.judged.fingerprint() {
            lines.push(self.say("office.about.fingerprint", &[("words", fingerprint.to_string().into())]));
            if self.judged.outcome() == Outcome::UnknownDevice {
                lines.push(self.say("office.about.digits", &[("digits", fingerprint.digits().into())]));
            }
        }
        self.inside(&mut lines);
        for repair in &self.judged.repairs {
            let id = match repair {
                Repair::ByteOrderMark => "mark",
                Repair::OuterSpace => "space",
                Repair::LineBreaks => "breaks",
            };
            lines.push(self.say(&format!("office.about.repair.{id}"), &[]));
        }
        for carried in &self.judged.carried {
            let inner = About { judged: carried, ..*self };
            lines.push(self.say("office.about.carried", &[("outcome", inner.outcome().into())]));
            lines.extend(inner.lines().into_iter().map(|line| format!("  {line}")));
            lines.extend(inner.next().map(|next| format!("  next: {next}")));
        }
        lines
    }

    fn inside(&self, lines: &mut Vec<String>) {
        let Some(contents) = &self.judged.contents else { return };
        let payload = &contents.payload;
        lines.push(self.say("office.about.label", &[("label", payload.label.as_str().into())]));
        let made = [("date", payload.made_at.to_string().into()), ("app", payload.app.as_str().into())];
        lines.push(self.say("office.about.made", &made));
        let own = || contents.entries.iter().filter(|entry| entry.header.device == payload.chain.device);
        let made_here = own().count();
        if let (Some(first), Some(last)) = (own().next(), own().next_back()) {
            let numbers = [
                ("count", count(made_here)),
                ("first", Arg::Text(first.header.seq.to_string())),
                ("last", Arg::Text(last.header.seq.to_string())),
            ];
            lines.push(self.say("office.about.entries", &numbers));
        }
        let withheld = contents.entries.iter().filter(|entry| entry.stored == Stored::Withheld).count();
        for (number, id) in
            [(withheld, "office.about.withheld"), (contents.entries.len() - made_here, "office.about.adopted")]
        {
            if number > 0 {
                lines.push(self.say(id, &[("count", count(number))]));
            }
        }
        for fault in contents.faults.iter().filter(|fault| !fault.breaks_chain()) {
            lines.push(self.say("office.about.fault", &[("reason", fault.to_string().into())]));
        }
        let (here, missing): (Vec<_>, Vec<_>) = payload.photos.iter().partition(|photo| (self.received)(photo));
        if !here.is_empty() {
            lines.push(self.say("office.about.photo_here", &[("count", count(here.len()))]));
        }
        for photo in missing {
            lines.push(self.say("office.about.photo_missing", &[("digest", photo.sha256.to_string().into())]));
        }
        for digest in &self.judged.deleted {
            lines.push(self.say("office.about.photo_deleted", &[("digest", digest.to_string().into())]));
        }
    }
}

fn count(number: usize) -> Arg {
    Arg::Count(i64::try_from(number).unwrap_or(i64::MAX))
}

/// The judgement of a file for programs.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Summary {
    /// `intact`, `unknown_device`, `newer` or `damaged`.
    pub outcome: &'static str,
    /// The worst outcome of this file and all that it carries.
    pub worst: &'static str,
    /// The check that failed, for a damaged file.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub step: Option<&'static str>,
    /// Why, for anything but an intact file.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub reason: Option<String>,
    /// The device that signed.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub device: Option<String>,
    /// Its fingerprint in words.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub fingerprint: Option<String>,
    /// What the office calls it.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub label: Option<String>,
    /// The bundle's id.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub bundle: Option<String>,
    /// How many entries are inside.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub entries: Option<usize>,
    /// How many photos it names.
    #[serde(skip_serializing_if = "is_none")]
    pub photos: usize,
    /// Digests of photos that it names and that were not received.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub photos_missing: Vec<String>,
    /// Digests of photos that were deleted on the phone, as its entries say.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub photos_deleted: Vec<String>,
    /// What was set aside.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub set_aside: Vec<String>,
    /// The bundles carried inside.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub carried: Vec<Summary>,
}

#[allow(clippy::trivially_copy_pass_by_ref)] // as serde asks for it
fn is_none(number: &usize) -> bool {
    *number == 0
}

/// Sums a judgement up for programs. `received` says whether a photo that the bundle names is at hand.
pub fn summary(judged: &Judged, received: &dyn Fn(&Photo) -> bool) -> Summary {
    let (step, reason, label) = match &judged.verdict {
        Verdict::Intact { label } => (None, None, Some(label.clone())),
        Verdict::Unknown => (None, Some("not enrolled".to_owned()), None),
        Verdict::Retired { label, since } => (None, Some(format!("retired on {since}")), Some(label.clone())),
        Verdict::Damaged { step, reason } => (Some(step.code()), Some(reason.clone()), None),
        Verdict::Newer { reason } => (None, Some(reason.clone()), None),
    };
    let contents = judged.contents.as_ref();
    let photos = contents.map(|contents| contents.payload.photos.as_slice()).unwrap_or_default();
    let missing = photos.iter().filter(|photo| !received(photo));
    Summary {
        outcome: judged.outcome().code(),
        worst: judged.worst().code(),
        step,
        reason,
        device: judged.signer.map(|device| device.to_string()),
        fingerprint: judged.fingerprint().map(|fingerprint| fingerprint.to_string()),
        label,
        bundle: contents.map(|contents| contents.payload.bundle.to_string()),
        entries: contents.map(|contents| contents.entries.len()),
        photos: photos.len(),
        photos_missing: missing.map(|photo| photo.sha256.to_string()).collect(),
        photos_deleted: judged.deleted.iter().map(ToString::to_string).collect(),
        set_aside: contents.into_iter().flat_map(|contents| contents.faults.iter().map(ToString::to_string)).collect(),
        carried: judged.carried.iter().map(|inner| summary(inner, received)).collect(),
    }
}
