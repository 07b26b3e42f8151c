//! The report on one carcass as one page of HTML without script or outside part: page and command line write the same.
//! Everything that a person typed goes through [`escaped`]; nothing else writes text.

mod facts;
mod history;
#[cfg(test)]
mod tests;

use std::collections::{BTreeMap, BTreeSet};
use std::fmt::Write as _;
use uuid::Uuid;

use super::finding_words::question_words;
use super::hand::{Figures, Hand, Worked};
use super::paper::Sheet;
use super::recompute::CarcassLine;
use super::season::svg::escaped;
use super::sketch::drawn;
use crate::guide::answer_words;
use crate::record::short_code::short_code;
use crate::record::{Carcass, Digest, EntryId, Moment, Site, Value};
use crate::words::{Arg, Language, say, say_office};
use history::{History, holds_withheld};

const LANGUAGE: Language = Language::English;

/// The most photos on the report's own two sheets; the others go on the continuation.
const PRINTED: usize = 6;

fn tell(id: &str) -> String {
    escaped(&say_office(LANGUAGE, id, &[]))
}

fn tell_with(id: &str, args: &[(&str, Arg)]) -> String {
    escaped(&say_office(LANGUAGE, id, args))
}

/// What the report is made of.
struct Report<'a> {
    hand: &'a Hand,
    line: &'a CarcassLine,
    carcass: &'a Carcass,
    worked: &'a Worked,
    all: &'a Worked,
    counted: bool,
    now: Moment,
}

/// The report, for a file of its own or for a place in a page.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Sheets {
    /// Its title, as HTML shows it.
    pub title: String,
    /// The rule for the sheets of paper: size, margins, number at the foot.
    pub page_rule: String,
    /// What stands on them: HTML in which all that was typed is escaped.
    pub body: String,
}

impl Sheets {
    /// A page of HTML that needs nothing beside it.
    pub fn html(&self) -> String {
        let Self { title, page_rule, body } = self;
        format!(
            "<!DOCTYPE html>\n<html lang=\"en\"><head><meta charset=\"utf-8\"><title>{title}</title>\n<style>\n\
             {page_rule}\n{STYLE}</style></head><body class=\"paper-body\">\n<article class=\"paper\">\n{body}</article></body></html>\n"
        )
    }
}

/// The report on a carcass by any of its ids, as of `now`; `None` where the archive has no such carcass. With a sheet
/// its size is fixed; without, the printer's is taken.
pub fn carcass_report(hand: &Hand, carcass: Uuid, now: Moment, sheet: Option<Sheet>) -> Option<String> {
    carcass_sheets(hand, &hand.figures(now), carcass, now, sheet).map(|sheets| sheets.html())
}

/// The same from figures that were worked out before, of the same archive.
pub fn carcass_sheets(
    hand: &Hand,
    figures: &Figures,
    carcass: Uuid,
    now: Moment,
    sheet: Option<Sheet>,
) -> Option<Sheets> {
    let find = |worked: &Worked| worked.folded.carcass(carcass).map(|one| one.id);
    let (worked, id, counted) = match (find(&figures.counted), find(&figures.looked)) {
        (Some(id), _) => (&figures.counted, id, true),
        (None, Some(id)) => (&figures.looked, id, false),
        (None, None) => return None,
    };
    let report = Report {
        hand,
        // In the order of the ids, as the fold has them.
        line: worked.carcasses.get(worked.carcasses.binary_search_by_key(&id, |line| line.carcass).ok()?)?,
        carcass: worked.folded.carcasses.get(&id)?,
        worked,
        all: &figures.looked,
        counted,
        now,
    };
    Some(report.sheets(sheet))
}

impl Report<'_> {
    fn sheets(&self, sheet: Option<Sheet>) -> Sheets {
        let code = short_code(self.carcass.id);
        let title = tell_with("report.title", &[("code", code.as_str().into())]);
        let size = sheet.map_or_else(String::new, |sheet| format!("size: {} portrait; ", sheet.css()));
        // The code is of letters and digits; a margin's text is CSS and takes no markup.
        let foot = say_office(LANGUAGE, "report.page", &[("code", code.as_str().into())]).replace(['"', '\\'], "");
        let history = History::of(self.carcass, &self.line.custody, self.worked, self.all);
        let page_rule = format!(
            "@page {{ {size}margin: 12mm 12mm 14mm; @bottom-right {{ content: \"{foot} \" counter(page) \" / \" \
             counter(pages); font: 8pt sans-serif }} }}"
        );
        let mut out = format!("<h1>{title}</h1>\n");
        let photos = self.photos();
        self.head(&mut out);
        self.visits(&mut out);
        self.pictures(&photos, &mut out);
        let sources = self.readings(&mut out, &history.numbers);
        self.phones(&mut out);
        self.custody(&mut out);
        self.lab(&mut out, &history);
        self.files(&mut out, &history);
        let _ = writeln!(out, "<p class=\"read-by\">{}</p>", tell("report.read_by"));
        // What has no bound goes on sheets of its own: the report itself stays on two.
        out.push_str("<div class=\"continuation\">\n");
        history.write(&mut out);
        let _ = writeln!(out, "<h2>{}</h2>\n<p class=\"sources\">{sources}</p>", tell("report.sources"));
        self.more_pictures(&photos, &mut out);
        out.push_str("</div>\n");
        Sheets { title, page_rule, body: out }
    }

    fn head(&self, out: &mut String) {
        let mut line = |text: String| {
            let _ = writeln!(out, "<p>{text}</p>");
        };
        line(tell_with("report.id", &[("id", self.carcass.id.to_string().into())]));
        if self.carcass.joined.len() > 1 {
            let ids: Vec<String> = self.carcass.joined.iter().map(ToString::to_string).collect();
            line(tell_with("report.joined", &[("ids", ids.join(", ").into())]));
        }
        let made = [
            ("date", answer_words::date_and_time(self.now).into()),
            ("app", env!("CARGO_PKG_VERSION").into()),
            ("science", self.line.readings.science.as_str().into()),
        ];
        line(tell_with("report.made", &made));
        line(match self.line.readings.card {
            Some(digest) => tell_with("report.card", &[("digest", digest.to_string().into())]),
            None => tell("report.no_card"),
        });
        if !self.counted {
            let _ = writeln!(out, "<p class=\"mark\">{}</p>", tell("report.not_counted"));
        }
    }

    /// What it was, where it lay, and who looked at it when.
    fn visits(&self, out: &mut String) {
        for finding in ["species", "place"] {
            let answer = self.carcass.question(finding, Site::NONE).answer();
            let name = escaped(&question_words(finding, Site::NONE));
            let _ =
                writeln!(out, "<p>{name}: <b>{}</b></p>", escaped(&answer_words::answer(LANGUAGE, finding, &answer)));
        }
        for exam in self.carcass.examinations.values() {
            if holds_withheld(exam) {
                continue;
            }
            let standing = || exam.sheet.answers().flat_map(|(_, _, all)| all);
            let mut times: Vec<Moment> = standing().map(|one| one.at).filter(|at| *at != Moment::EPOCH).collect();
            times.sort_by_key(|at| at.unix_seconds());
            let (Some(first), Some(last)) = (times.first().copied(), times.last().copied()) else { continue };
            let who: BTreeSet<String> = standing().map(|one| one.observer.to_string()).collect();
            let kind = exam.sheet.question("examination_kind", Site::NONE).answer();
            let args = [
                ("kind", answer_words::answer(LANGUAGE, "examination_kind", &kind).into()),
                ("from", answer_words::date_and_time(first).into()),
                ("to", answer_words::date_and_time(last).into()),
                ("who", who.into_iter().collect::<Vec<_>>().join(", ").into()),
            ];
            let _ = writeln!(out, "<p>{}</p>", tell_with("report.visit", &args));
        }
    }

    /// Every photo that stands, with what it shows and when it was named.
    fn photos(&self) -> Vec<(String, Digest)> {
        let mut photos = Vec::new();
        for exam in self.carcass.examinations.values() {
            for (finding, site, standing) in exam.sheet.answers() {
                for one in standing {
                    if let Some(Value::Photo(photo)) = one.answer.value()
                        && finding.as_str() != crate::record::PHOTO_DELETED
                    {
                        let name = question_words(finding.as_str(), site);
                        photos.push((format!("{name} ({})", answer_words::date_and_time(one.at)), photo.sha256));
                    }
                }
            }
        }
        photos
    }

    fn figures(&self, photos: &[(String, Digest)], out: &mut String) {
        out.push_str("<div class=\"photos\">\n");
        for (name, digest) in photos {
            let caption = escaped(name);
            let picture = match self.hand.photo(*digest) {
                Some(bytes) => format!("<img alt=\"{caption}\" src=\"{}\">", data_uri(&bytes)),
                None => {
                    format!("<p>{}</p>", tell_with("report.photo_missing", &[("digest", digest.to_string().into())]))
                }
            };
            let _ = writeln!(out, "<figure>{picture}<figcaption>{caption}</figcaption></figure>");
        }
        out.push_str("</div>\n");
    }

    fn pictures(&self, photos: &[(String, Digest)], out: &mut String) {
        let sketches = drawn(self.carcass, None);
        if !photos.is_empty() {
            let _ = writeln!(out, "<h2>{}</h2>", tell("report.photos"));
            self.figures(photos.get(..PRINTED).unwrap_or(photos), out);
            if let Some(more) = photos.len().checked_sub(PRINTED).filter(|more| *more > 0) {
                let n = Arg::Count(i64::try_from(more).unwrap_or(i64::MAX));
                let _ = writeln!(out, "<p>{}</p>", tell_with("report.photos.more", &[("n", n)]));
            }
        }
        for sketch in sketches {
            // Drawn by us from numbers and the catalogue's words.
            let _ = writeln!(out, "<h2>{}</h2>\n<div class=\"sketch\">{}</div>", tell("report.sketch"), sketch.svg);
        }
    }

    fn more_pictures(&self, photos: &[(String, Digest)], out: &mut String) {
        if let Some(more) = photos.get(PRINTED..).filter(|more| !more.is_empty()) {
            let _ = writeln!(out, "<h2>{}</h2>", tell("report.photos.others"));
            self.figures(more, out);
        }
    }

    /// Writes the readings; returns the sources that they name.
    fn readings(&self, out: &mut String, numbers: &BTreeMap<EntryId, usize>) -> String {
        let _ = writeln!(out, "<h2>{}</h2>\n<div class=\"two\">", tell("report.readings"));
        let mut sources = BTreeMap::new();
        for reading in self.line.readings.each() {
            let title = escaped(&say(LANGUAGE, &reading.title, &[]));
            let _ = write!(out, "<section><h3>{title}</h3>");
            for (n, one) in reading.statements.iter().enumerate() {
                let said = escaped(&one.say(LANGUAGE));
                let _ = if n == 0 { write!(out, "<p><b>{said}</b></p>") } else { write!(out, "<p>{said}</p>") };
            }
            for caution in &reading.cautions {
                let _ = write!(out, "<p class=\"mark\">{}</p>", escaped(&caution.say(LANGUAGE)));
            }
            let mut rests: Vec<usize> = reading.rests_on.iter().filter_map(|id| numbers.get(id).copied()).collect();
            rests.sort_unstable();
            let mut told = vec![escaped(&reading.method)];
            if !rests.is_empty() {
                told.push(tell_with("report.rests", &[("numbers", history::listed(&rests).into())]));
            }
            let marks: Vec<String> = reading
                .sources
                .iter()
                .map(|source| {
                    let next = sources.len() + 1;
                    let key = (source.cite.to_string(), source.mark.to_string());
                    format!("S{}", sources.entry(key).or_insert(next))
                })
                .collect();
            if !marks.is_empty() {
                told.push(marks.join(" "));
            }
            let _ = writeln!(out, "<p class=\"basis\">{}</p></section>", told.join("; "));
        }
        out.push_str("</div>\n");
        let mut sources: Vec<_> = sources.into_iter().map(|((cite, mark), n)| (n, cite, mark)).collect();
        sources.sort();
        let told = sources
            .into_iter()
            .map(|(n, cite, mark)| format!("<b>S{n}</b> {} <b>[{}]</b> ", escaped(&cite), escaped(&mark)));
        told.collect()
    }
}

/// A picture inside the page.
fn data_uri(bytes: &[u8]) -> String {
    use base64::Engine as _;
    let kind = if bytes.starts_with(b"\x89PNG") { "png" } else { "jpeg" };
    format!("data:image/{kind};base64,{}", base64::engine::general_purpose::STANDARD.encode(bytes))
}

/// One style for the file and for the office's page, which links it.
const STYLE: &str = include_str!("../../../style/report.css");
