//! What stands beside the readings: what the phones said, custody, laboratory, and the files with their signatures.

use std::collections::BTreeSet;
use std::fmt::Write as _;

use super::history::History;
use super::{LANGUAGE, Report, escaped, tell, tell_with};
use crate::bundle::Fingerprint;
use crate::guide::answer_words;
use crate::office::archive::hex;
use crate::office::hand::RingFrom;
use crate::office::keyring::Standing;
use crate::office::opening::Judged;
use crate::record::{CustodyItem, EntryId};
use crate::words::{say, say_office};

impl Report<'_> {
    pub(super) fn phones(&self, out: &mut String) {
        let _ = writeln!(out, "<h2>{}</h2>", tell("report.phones"));
        let phones = &self.line.phones;
        if phones.is_empty() || phones.iter().all(|phone| phone.agrees) {
            let id = if phones.is_empty() { "desk.phone.none" } else { "desk.phone.agrees" };
            let _ = writeln!(out, "<p>{}</p>", tell(id));
            return;
        }
        out.push_str("<ul>\n");
        for differs in phones.iter().flat_map(|phone| &phone.differs) {
            let why = say_office(LANGUAGE, differs.because.text(), &[]);
            let args = [("method", differs.method.as_str().into()), ("why", why.into())];
            let _ = writeln!(out, "<li>{}</li>", tell_with("desk.phone.differs", &args));
        }
        out.push_str("</ul>\n");
    }

    pub(super) fn custody(&self, out: &mut String) {
        let _ = writeln!(out, "<h2>{}</h2>", tell("report.custody"));
        if self.line.custody.is_empty() {
            let _ = writeln!(out, "<p>{}</p>", tell("report.custody.none"));
        }
        self.line.custody.iter().for_each(|item| custody_item(item, out));
    }

    /// What the office's own key wrote: laboratory results and decisions.
    pub(super) fn lab(&self, out: &mut String, history: &History) {
        let _ = writeln!(out, "<h2>{}</h2>", tell("report.lab"));
        let office = self.hand.office_key().and_then(|file| file.public().ok()).map(|key| key.id());
        let lines = office.map(|office| history.by(office)).unwrap_or_default();
        if lines.is_empty() {
            let _ = writeln!(out, "<p>{}</p>", tell("report.lab.none"));
            return;
        }
        // Lines of the history are HTML already, each part of them escaped there.
        let items = lines.iter().map(|line| format!("<li>{line}</li>\n")).collect::<Vec<_>>().concat();
        let _ = writeln!(out, "<ul>{items}</ul>");
    }

    /// Digest and signature facts of every file that holds an entry on this carcass.
    pub(super) fn files(&self, out: &mut String) {
        let exams: BTreeSet<_> = self.carcass.examinations.keys().copied().collect();
        let of_this: BTreeSet<EntryId> = self
            .journal
            .bodies()
            .0
            .into_iter()
            .filter(|(_, body)| match &body.act {
                crate::record::Act::Answer { key, .. } => match key.subject {
                    crate::record::Subject::Examination(id) => exams.contains(&id),
                    _ => false,
                },
                crate::record::Act::Decide { carcass, .. } => self.carcass.joined.contains(carcass),
                crate::record::Act::Alias { carcasses } => carcasses.iter().any(|id| self.carcass.joined.contains(id)),
                _ => false,
            })
            .map(|(id, _)| id)
            .collect();
        let _ = writeln!(out, "<h2>{}</h2>\n<ul class=\"files\">", tell("report.files"));
        for (sha256, judged) in self.hand.received() {
            self.file(&hex(*sha256), judged, &of_this, out);
        }
        out.push_str("</ul>\n");
        let keyring = match self.hand.ring_from {
            RingFrom::Archive(words) | RingFrom::Signed(words) => {
                tell_with("report.keyring", &[("words", words.to_string().into())])
            }
            RingFrom::Plain | RingFrom::Nowhere => tell("report.keyring.plain"),
        };
        let _ = writeln!(out, "<p>{keyring} {}</p>", tell("report.trust"));
    }

    fn file(&self, sha256: &str, judged: &Judged, of_this: &BTreeSet<EntryId>, out: &mut String) {
        if let (Some(signer), Some(contents)) = (judged.signer, &judged.contents)
            && contents.entries.iter().any(|entry| of_this.contains(&entry.header.id()))
        {
            let made_at = contents.payload.made_at;
            let (label, standing) = match self.hand.keyring.standing(signer, made_at) {
                Standing::Enrolled(known) => {
                    let date = answer_words::date_and_time(known.enrolled_at);
                    let said = say_office(LANGUAGE, "report.file.enrolled", &[("date", date.into())]);
                    (known.label.clone(), said)
                }
                _ => (contents.payload.label.clone(), say_office(LANGUAGE, "report.file.unknown", &[])),
            };
            let args = [
                ("label", label.into()),
                ("words", Fingerprint::of(signer).to_string().into()),
                ("made", answer_words::date_and_time(made_at).into()),
                ("standing", standing.into()),
                ("sha256", sha256.into()),
            ];
            let _ = writeln!(out, "<li>{}</li>", tell_with("report.file", &args));
        }
        judged.carried.iter().for_each(|inner| self.file(sha256, inner, of_this, out));
    }
}

fn custody_item(item: &CustodyItem, out: &mut String) {
    let number = if item.number.is_empty() { say(LANGUAGE, "custody.no_number", &[]) } else { item.number.clone() };
    let what =
        if item.what.is_empty() { String::new() } else { answer_words::option(LANGUAGE, "sample_what", &item.what) };
    let mut lines = Vec::new();
    for line in &item.lines {
        let step = say(LANGUAGE, &format!("custody.step.{}", line.step.code()), &[]);
        let who = match &line.from {
            Some(from) => {
                say(LANGUAGE, "custody.from_to", &[("from", from.as_str().into()), ("to", line.to.as_str().into())])
            }
            None => line.to.clone(),
        };
        let mut parts = vec![format!("{step}: {who}")];
        parts.extend(line.at.map(answer_words::date_and_time));
        let seal = say(LANGUAGE, "custody.seal", &[("seal", line.seal.as_str().into())]);
        let seal = if line.seal.is_empty() { String::new() } else { seal };
        parts.extend([line.place.clone(), seal, line.condition.clone(), line.note.clone()]);
        parts.retain(|part| !part.is_empty());
        lines.push(parts.join(", "));
    }
    let gaps: Vec<String> =
        item.gaps.iter().map(|gap| say(LANGUAGE, &format!("custody.gap.{}", gap.code()), &[])).collect();
    let gaps = if gaps.is_empty() {
        String::new()
    } else {
        format!(" <b>{}</b> {}", escaped(&say(LANGUAGE, "custody.gaps", &[])), escaped(&gaps.join(", ")))
    };
    let _ =
        writeln!(out, "<p><b>{}</b> {}. {}.{gaps}</p>", escaped(&number), escaped(&what), escaped(&lines.join("; ")));
}
