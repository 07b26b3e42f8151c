//! The invented outing, played into an empty journal where the page was opened for trying it out and
//! lies beside a `demo/` folder. What is published has no such folder, so nothing comes of it there.

use serde::Deserialize;

use crate::guide::Draft;
use crate::record::{Answer, PersonCode, Site, find};

use super::edge::Phone;
use super::fetched::text as fetch;
use super::form::Form;
use super::screen::Screen;
use super::session::read_card;

#[derive(Deserialize)]
struct Outing {
    person: PersonCode,
    #[serde(rename = "outing")]
    of_the_day: Vec<Row>,
    carcasses: Vec<OneCarcass>,
}

#[derive(Deserialize)]
struct OneCarcass {
    closed: bool,
    findings: Vec<Row>,
}

#[derive(Deserialize)]
struct Row {
    finding: String,
    #[serde(default)]
    site: Site,
    answer: Answer,
}

/// Load the card and play the outing; an empty phone stays empty where either is missing.
pub(crate) async fn play(form: Form) {
    if let Some(card) = fetch("demo/card.txt").await.and_then(|text| read_card(&text).ok()) {
        form.hold_card(card);
    }
    let Some(text) = fetch("demo/outing.json").await else { return };
    let Ok(outing) = serde_json::from_str::<Outing>(&text) else { return };
    form.set_person(outing.person);
    for (place, carcass) in outing.carcasses.iter().enumerate() {
        form.begin(|session| if place == 0 { session.start_outing(&Phone) } else { session.new_carcass(&Phone) });
        if place == 0 {
            form.write_drafts(&drafts(&outing.of_the_day), form.say("start.demo"));
        }
        form.write_drafts(&drafts(&carcass.findings), form.say("start.demo"));
        if carcass.closed {
            form.close();
        }
    }
    form.go(Screen::Start);
}

fn drafts(rows: &[Row]) -> Vec<Draft> {
    let draft = |row: &Row| {
        let finding = find(&row.finding)?.code;
        Some(Draft { finding, site: row.site, answer: row.answer.clone(), step: "demo" })
    };
    rows.iter().filter_map(draft).collect()
}
