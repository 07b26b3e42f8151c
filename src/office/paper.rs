//! The paper twin: the whole field protocol on two sheets, both sides, for the day the phone dies.
//!
//! Made from the same table of steps as the phone's questions, so that every line has the step's number and an
//! answer on paper can be typed in later under the same question. Conditions of a step cannot be printed; what does
//! not apply is left blank. One page of HTML without script or outside part; a browser prints it.

use std::fmt::Write as _;

use super::season::svg::escaped;
use crate::guide::photos::photo_words;
use crate::guide::steps::STEPS;
use crate::guide::{Grade, Input, PROTOCOL, Phase, Step, finding_label, hazards, option_label, why_words};
use crate::record::{Shape, Sites, Tooth, Unit, Why, find};
use crate::words::{Language, say, say_office};

/// Size of the sheet.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[allow(missing_docs)]
pub enum Sheet {
    A4,
    Letter,
}

impl Sheet {
    pub(in crate::office) const fn css(self) -> &'static str {
        match self {
            Self::A4 => "A4",
            Self::Letter => "letter",
        }
    }
}

/// The steps of a field visit in the order of the protocol, each with its number. The number is the place in the
/// table: it changes only when the table does, and the sheet names the table's version.
pub fn numbered() -> Vec<(usize, &'static Step)> {
    let all = STEPS.iter().flat_map(|part| part.iter());
    let of = |phase: Phase| all.clone().filter(move |step| step.phase == phase);
    Phase::FIELD.iter().flat_map(|phase| of(*phase)).enumerate().map(|(place, step)| (place + 1, step)).collect()
}

/// The two sheets as HTML.
pub fn paper(language: Language, sheet: Sheet) -> String {
    let tell = |id: &str| escaped(&say_office(language, id, &[]));
    let mut out = format!(
        "<!DOCTYPE html>\n<html lang=\"{}\"><head><meta charset=\"utf-8\"><title>{}</title>\n<style>\n\
         @page {{ size: {} portrait; margin: 8mm }}\n{STYLE}</style></head><body>\n",
        "en",
        tell("paper.title"),
        sheet.css()
    );
    let _ = writeln!(
        out,
        "<header><b>{}</b> {} {PROTOCOL}. {}</header>\n<p class=\"key\">{}</p>",
        tell("paper.title"),
        tell("paper.protocol"),
        tell("paper.head_lines"),
        reasons(language)
    );
    let _ = writeln!(out, "<main>\n<section class=\"stops\"><h2>{}</h2><ul>", tell("paper.stops"));
    for hazard in hazards::all().filter(|h| h.grade >= Grade::Stop && hazards::is_loud(h)) {
        let id = hazard.code;
        let [head, act] = ["head", "do"].map(|part| say(language, &format!("hazard.{id}.{part}"), &[]));
        let _ = writeln!(out, "<li><b>{}</b> {}</li>", escaped(&head), escaped(&act));
    }
    out.push_str("</ul></section>\n");
    let mut phase = None;
    for (number, step) in numbered() {
        if phase != Some(step.phase) {
            phase = Some(step.phase);
            let _ = writeln!(out, "<h2>{}</h2>", escaped(&say(language, &format!("phase.{}", step.phase.code()), &[])));
        }
        let ask = say(language, &format!("step.{}.ask", step.id), &[]);
        let _ = writeln!(
            out,
            "<div class=\"s\" data-step=\"{}\"><b>{number}</b> {} {}</div>",
            step.id,
            escaped(&ask),
            answers(language, step)
        );
    }
    out.push_str("</main></body></html>\n");
    out
}

const STYLE: &str = "body { font: 7.5pt/1.2 sans-serif; margin: 0; color: #000 }\n\
    header { font-size: 9pt } main { columns: 3; column-gap: 3mm } h2 { font-size: 8.6pt; margin: 1mm 0 .4mm; \
    border-bottom: .3mm solid #000; break-after: avoid } .s { break-inside: avoid; margin: 0 0 .45mm }\n\
    .o { white-space: nowrap } .l { display: inline-block; border-bottom: .2mm solid #000; min-width: 14mm }\n\
    ul { margin: 0; padding: 0 0 0 2.6mm } .stops { border: .4mm solid #000; padding: .6mm } .key { margin: .5mm 0 1mm }\n\
    table { border-collapse: collapse } td, th { border: .15mm solid #000; padding: 0 .6mm; font-weight: normal }\n";

/// The letters for what is no plain answer: looked and not there, cannot tell, not looked, gone; and the reasons.
fn reasons(language: Language) -> String {
    let mut out = escaped(&say_office(language, "paper.letters", &[]));
    for (place, why) in Why::PLAIN.iter().enumerate() {
        let _ = write!(out, " {}\u{a0}{};", place + 1, escaped(&why_words(language, why)));
    }
    out
}

fn answers(language: Language, step: &Step) -> String {
    let options = |finding: &str| {
        let codes = find(finding).map_or(&[][..], |def| def.options());
        let labels = codes.iter().map(|code| square(&say(language, &option_label(language, finding, code), &[])));
        labels.collect::<Vec<_>>().concat()
    };
    let tell = |id: &str| escaped(&say_office(language, id, &[]));
    let places = places(language, step);
    let body = match step.input {
        Input::Choice(finding) | Input::Choices(finding) => options(finding),
        // On paper every sign has a line of its own.
        Input::Sweep { .. } => String::new(),
        Input::Panel(signs) => {
            let mut lines = String::new();
            for sign in signs {
                let name = say(language, &finding_label(sign), &[]);
                let _ = write!(lines, "<br>{} {}", square(&name), tell("paper.not_there"));
            }
            lines
        }
        Input::Number(finding) => format!("{LINE} {}", escaped(&unit(language, finding))),
        Input::Text(_) => format!("{LINE}{LINE}"),
        Input::Instant(_) => format!("{LINE} {}", tell("paper.date_time")),
        Input::Place(_) => format!("{LINE}{LINE} {}", tell("paper.place")),
        Input::ReadDo(_) => square(&say_office(language, "paper.done", &[])),
        Input::Photo(_) => square(&say_office(language, "paper.photo", &[])),
        Input::Photos { items, .. } => {
            items.iter().map(|n| square(&photo_words(language, "photo", *n))).collect::<Vec<_>>().concat()
        }
        Input::Jaw => jaw(language),
        Input::Points { .. } | Input::Volumes { .. } => tell("paper.bench"),
    };
    format!("{places}{body}")
}

const LINE: &str = "<span class=\"l\">&nbsp;</span>";

fn square(label: &str) -> String {
    format!("<span class=\"o\">&#9744;&nbsp;{}</span> ", escaped(label))
}

/// What a step asked at several places needs beside its answer.
fn places(language: Language, step: &Step) -> String {
    let (Input::Choice(finding) | Input::Choices(finding) | Input::Number(finding) | Input::Text(finding)) = step.input
    else {
        return String::new();
    };
    let tell = |id: &str| format!("<i>{}</i> ", escaped(&say_office(language, id, &[])));
    match find(finding).map(|def| def.sites) {
        Some(Sites::Side) => tell("paper.each_side"),
        Some(Sites::Tooth) => tell("paper.each_tooth"),
        Some(Sites::Bone) => tell("paper.each_bone"),
        Some(Sites::Item) => tell("paper.each_item"),
        _ => String::new(),
    }
}

fn unit(language: Language, finding: &str) -> String {
    match find(finding).map(|def| def.shape) {
        Some(Shape::Number { unit: Unit::Count, .. }) | None => String::new(),
        Some(Shape::Number { unit, .. }) => say(language, &format!("unit.{}", unit.code()), &[]),
        Some(_) => String::new(),
    }
}

/// Six cheek teeth on two sides: the state by its letter.
fn jaw(language: Language) -> String {
    let codes = find("tooth_state").map_or(&[][..], |def| def.options());
    let mut out = String::from("<br>");
    for (place, code) in codes.iter().enumerate() {
        let name = say(language, &option_label(language, "tooth_state", code), &[]);
        let letter = char::from(b'a' + u8::try_from(place).unwrap_or_default());
        let _ = write!(out, "{letter}\u{a0}{}; ", escaped(&name));
    }
    out.push_str("<table><tr><th></th>");
    for tooth in Tooth::CHEEK {
        let _ = write!(out, "<th>{}</th>", tooth.name());
    }
    for side in ["side.left", "side.right"] {
        let cells = "<td>&nbsp;&nbsp;&nbsp;&nbsp;</td>".repeat(Tooth::CHEEK.len());
        let _ = write!(out, "</tr><tr><th>{}</th>{cells}", escaped(&say(language, side, &[])));
    }
    out.push_str("</tr></table>");
    out
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_step_of_the_field_has_one_number_and_its_question() {
        let page = paper(Language::English, Sheet::A4);
        for (number, step) in numbered() {
            let ask = escaped(&say(Language::English, &format!("step.{}.ask", step.id), &[]));
            let line = format!("data-step=\"{}\"><b>{number}</b> {ask}", step.id);
            assert_eq!(page.matches(&line).count(), 1, "{line}");
        }
        let field = STEPS.iter().flat_map(|p| p.iter()).filter(|s| Phase::FIELD.contains(&s.phase)).count();
        assert_eq!(numbered().len(), field);
        assert!(field > 100);
    }

    #[test]
    fn every_option_that_can_be_tapped_can_be_ticked() {
        let page = paper(Language::English, Sheet::Letter);
        for (_, step) in numbered() {
            let (Input::Choice(finding) | Input::Choices(finding)) = step.input else { continue };
            for code in find(finding).unwrap().options() {
                let label = say(Language::English, &option_label(Language::English, finding, code), &[]);
                assert!(page.contains(&format!("&#9744;&nbsp;{}<", escaped(&label))), "{finding} {code}");
            }
        }
        assert!(page.contains("size: letter portrait"));
    }

    #[test]
    fn stops_are_read_before_the_first_question() {
        let page = paper(Language::English, Sheet::A4);
        let stops = page.find("class=\"stops\"").unwrap();
        assert!(stops < page.find("data-step").unwrap());
        let head = escaped(crate::words::raw(Language::English, "hazard.h06.head").unwrap());
        assert!(page.contains(&format!("<li><b>{head}</b>")));
        // An id without a text would show as itself.
        assert!(
            !page.contains("hazard.")
                && !page.contains("step.")
                && !page.contains("paper.")
                && !page.contains("option.")
        );
    }
}
