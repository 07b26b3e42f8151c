//! What stands beside the readings: what the phones said, custody, laboratory, and the files with their signatures.

use std::fmt::Write as _;

use super::history::{History, hands, seal_words};
use super::{LANGUAGE, Report, escaped, tell, tell_with};
use crate::bundle::{Contents, Fingerprint};
use crate::guide::answer_words;
use crate::office::archive::hex;
use crate::office::finding_words::question_words;
use crate::office::hand::RingFrom;
use crate::office::keyring::Standing;
use crate::office::lab_results::{Entered, entered};
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
        for result in entered(self.carcass) {
            let _ = writeln!(out, "<p data-result=\"\">{}</p>", escaped(&in_one_line(&result)));
        }
        let Some(office) = self.hand.office_key().and_then(|file| file.public().ok()) else {
            let _ = writeln!(out, "<p>{}</p>", tell("report.lab.no_key"));
            return;
        };
        let lines = history.by(office.id());
        if lines.is_empty() {
            let _ = writeln!(out, "<p>{}</p>", tell("report.lab.none"));
            return;
        }
        // Lines of the history are HTML already, each part of them escaped there.
        let items = lines.iter().map(|line| format!("<li>{line}</li>\n")).collect::<Vec<_>>().concat();
        let _ = writeln!(out, "<ul>{items}</ul>");
    }

    /// Digest and signature facts of every file that holds an entry on this carcass.
    pub(super) fn files(&self, out: &mut String, history: &History) {
        let _ = writeln!(out, "<h2>{}</h2>\n<ul class=\"files\">", tell("report.files"));
        for (sha256, judged) in self.hand.received() {
            self.file(&hex(*sha256), judged, history, out);
        }
        out.push_str("</ul>\n");
        let signed = |id: &str, by: Fingerprint| tell_with(id, &[("words", by.to_string().into())]);
        let keyring = match self.hand.ring_from {
            RingFrom::Archive(by) => signed("report.keyring", by),
            RingFrom::Signed(by) => signed("report.keyring.signed", by),
            RingFrom::KeyMissing(by) => signed("report.keyring.key_missing", by),
            RingFrom::Plain => tell("report.keyring.plain"),
            RingFrom::Nowhere => tell("report.keyring.none"),
        };
        let _ = writeln!(out, "<p>{keyring} {}</p>", tell("report.trust"));
    }

    fn file(&self, sha256: &str, judged: &Judged, history: &History, out: &mut String) {
        if let (Some(signer), Some(contents)) = (judged.signer, &judged.contents)
            && speaks(contents, history)
        {
            let made_at = contents.payload.made_at;
            let (label, standing) = match self.hand.keyring.standing(signer, made_at) {
                Standing::Enrolled(known) => {
                    let date = answer_words::date_and_time(known.enrolled_at);
                    let said = say_office(LANGUAGE, "report.file.enrolled", &[("date", date.into())]);
                    (known.label.clone(), said)
                }
                Standing::Retired(known) => {
                    let since = known.retired_at.map(answer_words::date_and_time).unwrap_or_default();
                    let said = say_office(LANGUAGE, "report.file.retired", &[("date", since.into())]);
                    (known.label.clone(), said)
                }
                Standing::Unknown => (contents.payload.label.clone(), say_office(LANGUAGE, "report.file.unknown", &[])),
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
        judged.carried.iter().for_each(|inner| self.file(sha256, inner, history, out));
    }
}

/// Whether a bundle holds an entry of the history. Of the phone's own chain each stands at its number; only where a chain
/// was taken over are all gone through.
fn speaks(contents: &Contents, history: &History) -> bool {
    let chain = &contents.payload.chain;
    let own = |id: &EntryId| {
        let at = id.seq.checked_sub(chain.first_seq).and_then(|at| usize::try_from(at).ok());
        at.and_then(|at| contents.entries.get(at)).is_some_and(|entry| entry.id() == *id)
    };
    history.numbers.keys().any(own)
        || (!contents.payload.adopted.is_empty()
            && contents.entries.iter().any(|entry| history.numbers.contains_key(&entry.id())))
}

fn custody_item(item: &CustodyItem, out: &mut String) {
    let what =
        if item.what.is_empty() { String::new() } else { answer_words::option(LANGUAGE, "sample_what", &item.what) };
    let mut lines = Vec::new();
    for line in &item.lines {
        let step = say(LANGUAGE, &format!("custody.step.{}", line.step.code()), &[]);
        let mut parts = vec![format!("{step}: {}", hands(line.from.as_ref(), &answer_words::holder(LANGUAGE, line)))];
        parts.extend(line.at.map(answer_words::date_and_time));
        parts.extend([line.place.clone(), seal_words(&line.seal), line.condition.clone(), line.note.clone()]);
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
    let _ = writeln!(
        out,
        "<p><b>{}</b> {}. {}.{gaps}</p>",
        escaped(&item.number),
        escaped(&what),
        escaped(&lines.join("; "))
    );
}

/// A result with what it is of and where it comes from.
fn in_one_line(result: &Entered) -> String {
    let name = match result.disease.as_str() {
        "" => question_words(result.finding, result.site),
        disease => disease.to_owned(),
    };
    let came = result.state().map_or_else(
        || answer_words::answer(LANGUAGE, result.finding, &result.answer),
        |state| say_office(LANGUAGE, state.text(), &[]),
    );
    let part = |id: &str, text: &str| (!text.is_empty()).then(|| say_office(LANGUAGE, id, &[("what", text.into())]));
    let reported = result.reported_at.map(answer_words::date_and_time).unwrap_or_default();
    let parts = [
        part("report.lab.sample", &result.sample),
        part("report.lab.from", &result.laboratory),
        part("report.lab.reported", &reported),
        part("report.lab.by", &result.by),
        result.caution(),
    ];
    let of: Vec<String> = parts.into_iter().flatten().collect();
    format!("{name}: {came} ({})", of.join(", "))
}
