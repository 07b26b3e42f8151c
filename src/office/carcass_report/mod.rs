//! The report on one carcass as one page of HTML without script or outside part: page and command line write the same.
//! Everything that a person typed goes through [`escaped`]; nothing else writes text.

mod facts;
mod history;
#[cfg(test)]
mod tests;

use std::collections::BTreeMap;
use std::fmt::Write as _;
use uuid::Uuid;

use super::hand::Hand;
use super::paper::Sheet;
use super::recompute::{CarcassLine, Recomputed};
use super::season::svg::escaped;
use super::sketch::drawn;
use crate::guide::answer_words;
use crate::record::short_code::short_code;
use crate::record::{Carcass, EntryId, Journal, Moment, Value};
use crate::words::{Arg, Language, say, say_office};
use history::History;

const LANGUAGE: Language = Language::English;

/// The most photos that are printed; the rest lies in the archive.
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
    journal: &'a Journal,
    counted: bool,
    now: Moment,
}

/// The report on a carcass by any of its ids, as of `now`; `None` where the archive has no such carcass. With a sheet
/// its size is fixed; without, the printer's is taken.
pub fn carcass_report(hand: &Hand, carcass: Uuid, now: Moment, sheet: Option<Sheet>) -> Option<String> {
    let figures = hand.figures(now);
    let find = |recomputed: &Recomputed| {
        let found = recomputed.folded.carcasses.values().find(|one| one.joined.contains(&carcass));
        found.map(|one| one.id)
    };
    let (recomputed, id, counted) = match (find(&figures.counted), find(&figures.looked)) {
        (Some(id), _) => (&figures.counted, id, true),
        (None, Some(id)) => (&figures.looked, id, false),
        (None, None) => return None,
    };
    let journal = hand.journal(counted);
    let report = Report {
        hand,
        line: recomputed.carcasses.iter().find(|line| line.carcass == id)?,
        carcass: recomputed.folded.carcasses.get(&id)?,
        journal: &journal,
        counted,
        now,
    };
    Some(report.html(sheet))
}

impl Report<'_> {
    fn html(&self, sheet: Option<Sheet>) -> String {
        let code = short_code(self.carcass.id);
        let title = tell_with("report.title", &[("code", code.as_str().into())]);
        let size = sheet.map_or_else(String::new, |sheet| format!("size: {} portrait; ", sheet.css()));
        // The code is of letters and digits; a margin's text is CSS and takes no markup.
        let foot = say_office(LANGUAGE, "report.page", &[("code", code.as_str().into())]).replace(['"', '\\'], "");
        let history = History::of(self.carcass, &self.line.custody, self.journal, &self.hand.journal(false));
        let mut out = format!(
            "<!DOCTYPE html>\n<html lang=\"en\"><head><meta charset=\"utf-8\"><title>{title}</title>\n<style>\n\
             @page {{ {size}margin: 12mm 12mm 14mm; @bottom-right {{ content: \"{foot} \" counter(page) \" / \" \
             counter(pages); font: 8pt sans-serif }} }}\n{STYLE}</style></head><body>\n<h1>{title}</h1>\n"
        );
        self.head(&mut out);
        self.pictures(&mut out);
        self.readings(&mut out, &history.numbers);
        self.phones(&mut out);
        self.custody(&mut out);
        self.lab(&mut out, &history);
        self.files(&mut out, &history);
        history.write(&mut out);
        out.push_str("</body></html>\n");
        out
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

    fn pictures(&self, out: &mut String) {
        let mut photos = Vec::new();
        for exam in self.carcass.examinations.values() {
            for (finding, site, standing) in exam.sheet.answers() {
                for one in standing {
                    if let Some(Value::Photo(photo)) = one.answer.value()
                        && finding.as_str() != crate::record::PHOTO_DELETED
                    {
                        let name = history::question(finding.as_str(), site);
                        photos.push((format!("{name} ({})", answer_words::date_and_time(one.at)), photo.sha256));
                    }
                }
            }
        }
        let sketches = drawn(self.carcass, None);
        if !photos.is_empty() {
            let _ = writeln!(out, "<h2>{}</h2>\n<div class=\"photos\">", tell("report.photos"));
            for (name, digest) in photos.iter().take(PRINTED) {
                let caption = escaped(name);
                let picture = match self.hand.photo(*digest) {
                    Some(bytes) => format!("<img alt=\"{caption}\" src=\"{}\">", data_uri(&bytes)),
                    None => {
                        format!(
                            "<p>{}</p>",
                            tell_with("report.photo_missing", &[("digest", digest.to_string().into())])
                        )
                    }
                };
                let _ = writeln!(out, "<figure>{picture}<figcaption>{caption}</figcaption></figure>");
            }
            out.push_str("</div>\n");
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

    fn readings(&self, out: &mut String, numbers: &BTreeMap<EntryId, usize>) {
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
        let _ = writeln!(out, "</div>\n<h2>{}</h2>\n<p class=\"sources\">", tell("report.sources"));
        let mut sources: Vec<_> = sources.into_iter().map(|((cite, mark), n)| (n, cite, mark)).collect();
        sources.sort();
        for (n, cite, mark) in sources {
            let _ = writeln!(out, "<b>S{n}</b> {} <b>[{}]</b> ", escaped(&cite), escaped(&mark));
        }
        out.push_str("</p>\n");
    }
}

/// A picture inside the page.
fn data_uri(bytes: &[u8]) -> String {
    use base64::Engine as _;
    let kind = if bytes.starts_with(b"\x89PNG") { "png" } else { "jpeg" };
    format!("data:image/{kind};base64,{}", base64::engine::general_purpose::STANDARD.encode(bytes))
}

const STYLE: &str = "\
body { margin: 0 auto; max-width: 190mm; font: 8.5pt/1.25 sans-serif; color: #000; background: #fff }\n\
h1 { font-size: 15pt; margin: 0 0 1mm; border-left: 1.5mm solid #0b4f9c; padding-left: 2mm }\n\
h2 { font-size: 10pt; margin: 2mm 0 0.8mm; border-bottom: 0.3mm solid #000; break-after: avoid }\n\
h3 { font-size: 8.5pt; margin: 1mm 0 0 }\n\
p, ul { margin: 0 0 0.5mm } ul { padding-left: 4mm }\n\
.two { columns: 2; column-gap: 5mm; font-size: 7.2pt }\n\
section { break-inside: avoid-page }\n\
.mark { border-left: 1mm solid #000; padding-left: 1.5mm }\n\
.basis, .sources { font-size: 6.2pt; overflow-wrap: anywhere }\n\
.files li { overflow-wrap: anywhere; font-size: 7pt }\n\
.photos { display: flex; flex-wrap: wrap; gap: 2mm } figure { margin: 0; width: 29mm; font-size: 6.5pt }\n\
img { width: 29mm; height: 22mm; object-fit: contain; border: 0.2mm solid #000 }\n\
.sketch svg { display: block; max-width: 80mm; max-height: 55mm }\n\
.history { columns: 2; column-gap: 5mm; font-size: 6.3pt; list-style: none; padding: 0 }\n\
.history li { break-inside: avoid; border-bottom: 0.1mm solid #000; overflow-wrap: anywhere }\n\
@media screen { body { padding: 5mm; font-size: 11pt } .two, .history { font-size: 10pt } .basis, .sources, .files li \
{ font-size: 9pt } figure { width: 60mm } img { width: 60mm; height: auto } }\n";
