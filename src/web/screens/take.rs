//! Taking what another phone or the office shows: the camera, how far it is, and what came.

use leptos::prelude::*;

use crate::web::form::Form;
use crate::web::frames_view::{no_part, room};
use crate::web::parts::{Look, plain_head, tile};
use crate::web::platform::frames_part;
use crate::web::screen::Screen;
use crate::web::session::{Came, ReceivedCard, read_frames};
use crate::words::Arg;

use super::card::{Taken, take_known};
use super::show::PART;

#[derive(Clone)]
enum Stage {
    Looking,
    Trouble(String),
    Card(Box<ReceivedCard>),
    Came(String),
}

pub(super) fn take(form: Form) -> AnyView {
    form.stay_awake();
    let stage = RwSignal::new(Stage::Looking);
    let begin = move || {
        stage.try_set(Stage::Looking);
        leptos::task::spawn_local(look(form, stage));
    };
    begin();
    let told = move |name: &'static str, class: &'static str, text: String, on: AnyView| {
        let more = form.say(if name == "came" { "frames.another" } else { "frames.again" });
        view! {
            <p class=class role="status" data-take=name>{text}</p>
            <div class="tiles">{on} {tile(form, "again", more, Look::Value, begin)}</div>
        }
        .into_any()
    };
    let body = move || match stage.get() {
        Stage::Looking => room(form.language()),
        Stage::Trouble(why) => told("trouble", "alert", why, ().into_any()),
        Stage::Card(card) => super::card::compare(form, *card),
        Stage::Came(text) => {
            let on = tile(form, "hand-over", form.say("hand_over.head"), Look::Main, move || form.go(Screen::HandOver));
            told("came", "statement", text, on)
        }
    };
    view! {
        <section class="ask">{plain_head(form.say("frames.take"))}</section>
        {body}
        <div class="tiles">{tile(form, "stop", form.say("frames.stop"), Look::Aside, move || form.go(Screen::Start))}</div>
    }
    .into_any()
}

async fn look(form: Form, stage: RwSignal<Stage>) {
    let language = form.language();
    let seen = match frames_part::load(PART).await {
        Ok(part) => part.look(language.code()).await,
        Err(why) => Err(Some(no_part(language, &why))),
    };
    match seen {
        Ok(bytes) => came(form, &bytes, stage),
        Err(Some(why)) => drop(stage.try_set(Stage::Trouble(why))),
        // The person has gone on.
        Err(None) => {}
    }
}

fn came(form: Form, bytes: &[u8], stage: RwSignal<Stage>) {
    let to = move |next: Stage| drop(stage.try_set(next));
    match read_frames(bytes) {
        Err(why) => {
            to(Stage::Trouble(form.say_with("frames.refused", &[("reason", Arg::Text(form.say(why.message())))])));
        }
        Ok(Came::Card(card)) => match take_known(form, *card) {
            Taken::Unknown(card) => to(Stage::Card(card)),
            Taken::Older => to(Stage::Trouble(form.say("card.older"))),
            Taken::Held => {}
        },
        Ok(Came::Bundle(envelope, text)) => {
            let row = super::received::row_words(form, &envelope, text.len());
            form.keep_received(envelope, text, move |became| {
                to(match became {
                    Ok(told) => Stage::Came(format!("{row}. {told}")),
                    Err(why) => Stage::Trouble(format!("{row}. {why}")),
                });
            });
        }
    }
}
