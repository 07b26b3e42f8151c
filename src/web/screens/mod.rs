//! One screen a file.

mod about;
mod bench;
mod calls;
mod card;
mod custody;
mod hand_over;
mod hand_over_ways;
mod hazard;
mod hurt;
mod join;
mod journal;
mod labels;
mod leave_now;
mod no_answer;
mod pair;
mod photos;
mod practice;
mod readings;
mod received;
mod report;
mod resume;
mod samples;
mod settings;
mod show;
mod sketch;
mod start;
mod start_notes;
mod steps;
mod stops;
mod take;
mod visit;
mod who;
mod winter;
mod winter_day;

use leptos::prelude::*;

use super::form::Form;
use super::screen::Screen;

/// The screen as it stands.
pub(crate) fn screen(form: Form, screen: &Screen) -> AnyView {
    // What others said stands there too: not for a person who is to look without knowing it.
    let tells = matches!(screen, Screen::Journal(_) | Screen::Readings(_) | Screen::Reading(..) | Screen::Photos(_));
    if tells && form.second_look().is_some() {
        return pair::pair(form);
    }
    match screen {
        Screen::Start => start::start(form),
        Screen::Who => who::who(form),
        Screen::Visit(named) => visit::visit(form, named.as_deref()),
        Screen::NoAnswer(name) => no_answer::no_answer(form, name),
        Screen::Hurt => hurt::hurt(form),
        Screen::LeaveNow => leave_now::leave_now(form),
        Screen::Resume => resume::resume(form),
        Screen::Steps => steps::steps(form),
        Screen::Stops => stops::stops(form),
        Screen::Journal(id) => journal::journal(form, *id),
        Screen::Photos(id) => photos::photos(form, *id),
        Screen::Readings(id) => readings::readings(form, *id),
        Screen::Reading(id, method) => readings::one(form, *id, method),
        Screen::Sketch => sketch::sketch(form),
        Screen::Practice => practice::practice(form),
        Screen::Pair => pair::pair(form),
        Screen::Join => join::join(form),
        Screen::HandOver => hand_over::hand_over(form),
        Screen::Show(which) => show::show(form, *which),
        Screen::Take => take::take(form),
        Screen::Labels => labels::labels(form),
        Screen::Custody => custody::custody(form),
        Screen::Bench => bench::bench(form),
        Screen::Winter => winter::places(form),
        Screen::WinterLog(id) => winter::log(form, *id),
        Screen::WinterDay(id, day) => winter_day::day(form, *id, *day),
        Screen::WinterRead(id, day, finding) => winter_day::read(form, *id, *day, finding),
        Screen::Settings => settings::settings(form),
        Screen::About => about::about(form),
    }
}
