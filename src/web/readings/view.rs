//! A reading on the screen: headline, figures, cautions, what would sharpen it, what it rests on.

use leptos::prelude::*;

use super::allows::allows;
use super::basis::BasisLine;
use super::figures::{broad, figures, rules};
use crate::reading::{Outcome, Reading, Sharpen, Statement, Taken, Variant, message_ids as id};
use crate::record::Shown;
use crate::web::wording;
use crate::words::{Arg, Language, say};

/// One reading with all that belongs to it. `science` is the version of the methods.
pub fn reading_view(
    language: Language,
    shown: Shown,
    reading: &Reading,
    science: &str,
    basis: &[BasisLine],
) -> AnyView {
    let v = Of { language, shown };
    let note = match reading.outcome {
        Outcome::Read => None,
        Outcome::NoEvidence => Some(v.say("reading.view.no_evidence")),
        Outcome::Refused => Some(v.say("reading.view.refused")),
    };
    let title = v.say(&reading.title);
    let (head, rest) = v.statements(reading);
    view! {
        <section class="reading" data-reading=reading.method.clone() data-outcome=outcome_name(reading.outcome)>
            <h2>{title.clone()}</h2>
            {note.map(|note| view! { <p class="reading-note">{note}</p> })}
            {head}
            {figures(language, shown, &title, reading)}
            {rest}
            {v.condition(reading)}
            {v.differ(&reading.variants)}
            {v.cautions(&reading.cautions)}
            {v.sharpen(&reading.sharpen)}
            {v.basis(basis)}
            {v.sources(reading)}
            <p class="reading-method">{v.fill("reading.view.method", &[
                ("method", v.say(&format!("method.{}", reading.method)).into()),
                ("version", science.into()),
            ])}</p>
        </section>
    }
    .into_any()
}

/// The line that stands where a cause of death would be looked for.
pub fn cause_note(language: Language, why: &str) -> AnyView {
    view! {
        <section class="reading" data-reading="cause">
            <h2>{say(language, "cause.title", &[])}</h2>
            <p>{say(language, why, &[])}</p>
        </section>
    }
    .into_any()
}

const fn outcome_name(outcome: Outcome) -> &'static str {
    match outcome {
        Outcome::Read => "read",
        Outcome::NoEvidence => "no_evidence",
        Outcome::Refused => "refused",
    }
}

#[derive(Clone, Copy)]
struct Of {
    language: Language,
    shown: Shown,
}

impl Of {
    fn say(self, id: &str) -> String {
        say(self.language, id, &[])
    }

    fn fill(self, id: &str, args: &[(&str, Arg)]) -> String {
        say(self.language, id, args)
    }

    /// The headline with the broad classes under it, and the other statements.
    fn statements(self, reading: &Reading) -> (AnyView, Option<AnyView>) {
        let mut said = reading.statements.iter();
        let head = said.next().map(|s| view! { <p class="reading-head">{s.say_in(self.language, self.shown)}</p> });
        let by_class = reading.statements.iter().any(|s| s.id == id::AGE_BROAD);
        let broad_table = reading.estimates.first().filter(|_| by_class).and_then(|e| broad(self.language, e));
        let in_figures = rules(reading);
        let rest: Vec<AnyView> = said
            .filter(|s| s.id != id::AGE_BROAD && !in_figures.contains(s))
            .map(|s| view! { <li>{s.say_in(self.language, self.shown)}</li> }.into_any())
            .collect();
        let rest = (!rest.is_empty()).then(|| view! { <ul class="reading-said">{rest}</ul> }.into_any());
        (view! { {head} {broad_table} }.into_any(), rest)
    }

    fn condition(self, reading: &Reading) -> Option<AnyView> {
        (reading.title == id::CONDITION_TITLE && reading.outcome != Outcome::NoEvidence).then(|| {
            let (allowed, forbidden) = allows(reading);
            let forbidden = forbidden.into_iter().map(|id| view! { <li>{self.say(id)}</li> }).collect_view();
            view! {
                <h3>{self.say("reading.allows.title")}</h3>
                <p data-allows="">{self.say(allowed)}</p>
                <h3>{self.say("reading.forbids.title")}</h3>
                <ul data-forbids="">{forbidden}</ul>
            }
            .into_any()
        })
    }

    fn differ(self, variants: &[Variant]) -> Option<AnyView> {
        (!variants.is_empty()).then(|| {
            let rows = variants
                .iter()
                .map(|variant| {
                    let with: Vec<String> = variant.taken.iter().map(|taken| self.taken(taken)).collect();
                    view! {
                        <tr>
                            <th scope="row">{with.join(" ")}</th>
                            <td>{variant.headline.say_in(self.language, self.shown)}</td>
                        </tr>
                    }
                })
                .collect_view();
            view! {
                <h3>{self.say("reading.view.differ")}</h3>
                <table class="figures differ" data-differ="">
                    <thead>
                        <tr>
                            <th scope="col">{self.say("reading.view.answers_taken")}</th>
                            <th scope="col">{self.say("reading.view.then")}</th>
                        </tr>
                    </thead>
                    <tbody>{rows}</tbody>
                </table>
            }
            .into_any()
        })
    }

    fn taken(self, taken: &Taken) -> String {
        let name = wording::finding(self.language, &taken.finding);
        let place = wording::site(self.language, taken.site);
        let look = if place.is_empty() { name } else { format!("{name}, {place}") };
        let answer = wording::answer(self.language, &taken.finding, &taken.answer);
        self.fill(id::VARIANT, &[("look", look.into()), ("answer", answer.into())])
    }

    fn cautions(self, cautions: &[Statement]) -> Option<AnyView> {
        (!cautions.is_empty()).then(|| {
            let lines =
                cautions.iter().map(|s| view! { <li>{s.say_in(self.language, self.shown)}</li> }).collect_view();
            view! { <h3>{self.say("reading.view.cautions")}</h3> <ul class="cautions">{lines}</ul> }.into_any()
        })
    }

    fn sharpen(self, all: &[Sharpen]) -> Option<AnyView> {
        let (first, others) = all.split_first()?;
        // Most worth first; how much a model promises is for exports, not for a screen.
        let line = |one: &Sharpen| one.look.say_in(self.language, self.shown);
        let more = (!others.is_empty()).then(|| {
            let lines = others.iter().map(|one| view! { <li>{line(one)}</li> }).collect_view();
            view! {
                <details class="why">
                    <summary>{self.say("reading.view.sharpen_more")}</summary>
                    <ol>{lines}</ol>
                </details>
            }
        });
        let first = line(first);
        Some(
            view! {
                <h3>{self.say("reading.view.sharpen")}</h3>
                <p data-sharpen="">{first}</p>
                {more}
            }
            .into_any(),
        )
    }

    fn basis(self, lines: &[BasisLine]) -> AnyView {
        let count = i64::try_from(lines.len()).unwrap_or(i64::MAX);
        let count = self.fill("reading.view.basis_count", &[("n", Arg::Count(count))]);
        let rows = lines
            .iter()
            .map(|line| view! { <li>{line.question.clone()} {self.language.colon()} <strong>{line.answer.clone()}</strong> " (" {line.by.clone()} ")"</li> })
            .collect_view();
        if lines.is_empty() {
            return ().into_any();
        }
        view! {
            <details class="why" data-basis="">
                <summary>{self.language.named(&self.say("reading.view.basis"), &count)}</summary>
                <ul>{rows}</ul>
            </details>
        }
        .into_any()
    }

    /// Sources with their marks; how many nobody outside has confirmed stands in the open.
    fn sources(self, reading: &Reading) -> Option<AnyView> {
        (!reading.sources.is_empty()).then(|| {
            let all = reading.sources.len();
            let unconfirmed = reading.sources.iter().filter(|s| s.is_unconfirmed()).count();
            let count = |n: usize| Arg::Count(i64::try_from(n).unwrap_or(i64::MAX));
            let warning = (unconfirmed > 0).then(|| {
                let text = self.fill("reading.view.unconfirmed", &[("n", count(unconfirmed)), ("all", count(all))]);
                view! { <p data-unconfirmed="">{text}</p> }
            });
            let lines = reading
                .sources
                .iter()
                .map(|source| {
                    let mark = self.say(&format!("reading.mark.{}", source.mark));
                    view! {
                        <li>
                            {source.cite.to_string()}
                            " "
                            <strong class="mark">{format!("[{}]", source.mark)}</strong>
                            " "
                            {mark}
                        </li>
                    }
                })
                .collect_view();
            view! {
                {warning}
                <details class="why" data-sources="">
                    <summary>{self.language.named(&self.say("reading.view.sources"), &all.to_string())}</summary>
                    <ul>{lines}</ul>
                </details>
            }
            .into_any()
        })
    }
}
