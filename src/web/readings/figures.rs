//! The figures of a reading: each plot stands in or over a table with the same numbers.

use leptos::prelude::*;

use super::plot;
use super::scale::{InHundred, ends, in_hundred, one_decimal};
use crate::reading::{Estimate, Reading, Share, Statement, Val, message_ids as id};
use crate::record::Shown;
use crate::words::{Arg, Language, say};

/// All figures of a reading.
pub fn figures(language: Language, shown: Shown, title: &str, reading: &Reading) -> Vec<AnyView> {
    let named = reading.statements.first().map(named).unwrap_or_default();
    let figure = |estimate: &Estimate| {
        // A reading of several measures names each over its own table.
        let own = estimate.unit.starts_with("cause.measure.").then(|| say(language, &estimate.unit, &[]));
        let title = own.as_deref().unwrap_or(title);
        if estimate.shares.is_empty() {
            range(language, &estimate.shown_in(shown))
        } else {
            shares(language, title, estimate, &named)
        }
    };
    reading.estimates.iter().map(figure).collect()
}

/// The classes that a headline names: the likely set.
fn named(headline: &Statement) -> Vec<String> {
    fn messages(value: &Val) -> Vec<String> {
        match value {
            Val::Message(id) => vec![id.clone()],
            Val::List(all) => all.iter().flat_map(messages).collect(),
            _ => Vec::new(),
        }
    }
    headline.values.values().flat_map(messages).collect()
}

/// The broad classes, from the statement that gives them in words.
pub fn broad(language: Language, statement: &Statement) -> AnyView {
    const CLASSES: [&str; 5] = ["fawn", "yearling", "two", "three_to_five", "six_and_over"];
    let most = CLASSES.iter().filter_map(|c| count(statement, c)).max();
    let rows = CLASSES
        .iter()
        .filter_map(|class| count(statement, class).map(|n| (class, n)))
        .map(|(class, n)| {
            let label = say(language, &format!("reading.view.broad.{class}"), &[]);
            row(label, n.to_string(), plot::bar(n as f64 / 100.0, Some(n) == most), None)
        })
        .collect_view();
    table(language, say(language, "reading.view.broad", &[]), "broad", rows.into_any())
}

fn count(statement: &Statement, name: &str) -> Option<i64> {
    match statement.values.get(name) {
        Some(Val::Count(n)) => Some(*n),
        _ => None,
    }
}

/// A distribution: a row and a bar a class; the likely set is marked with a sign as well as filled.
fn shares(language: Language, title: &str, estimate: &Estimate, named: &[String]) -> AnyView {
    let by_years = estimate.unit == id::UNIT_BIRTHDAYS;
    let is_likely = |share: &Share| if by_years { named.contains(&share.of) } else { share.probability >= 0.5 };
    let rows = estimate
        .shares
        .iter()
        .map(|share| {
            let likely = is_likely(share);
            let number = match in_hundred(share.probability) {
                InHundred::LessThanOne => say(language, "reading.view.less_than_one", &[]),
                InHundred::Whole(n) => n.to_string(),
                InHundred::MoreThan99 => say(language, "reading.view.more_than_99", &[]),
            };
            let mark = (likely && by_years).then(|| say(language, "reading.view.likely_set", &[]));
            row(say(language, &share.of, &[]), number, plot::bar(share.probability, likely), mark)
        })
        .collect_view();
    let caption = say(language, "reading.view.shares", &[("title", title.into())]);
    let legend = estimate.coverage.filter(|_| by_years).map(|share| {
        let percent = Arg::Count(i64::from(never_sure(share)));
        let words = say(language, "reading.view.likely_holds", &[("percent", percent)]);
        view! { <p class="legend"><span aria-hidden="true">"\u{25c6} "</span>{words}</p> }
    });
    view! { {table(language, caption, "shares", rows.into_any())} {legend} }.into_any()
}

fn row(label: String, number: String, bar: String, mark: Option<String>) -> AnyView {
    let mark = mark.map(|words| {
        view! { <span class="in-set"><span aria-hidden="true">" \u{25c6}"</span><span class="unseen">{words}</span></span> }
    });
    view! {
        <tr>
            <th scope="row">{label}{mark}</th>
            <td class="number">{number}</td>
            <td class="bar-cell" aria-hidden="true" inner_html=bar></td>
        </tr>
    }
    .into_any()
}

fn table(language: Language, caption: String, name: &'static str, rows: AnyView) -> AnyView {
    view! {
        <table class="figures" data-figure=name>
            <caption>{caption}</caption>
            <thead>
                <tr>
                    <th scope="col">{say(language, "reading.view.class", &[])}</th>
                    <th scope="col" class="number">{say(language, "reading.view.in_100", &[])}</th>
                    <td aria-hidden="true"></td>
                </tr>
            </thead>
            <tbody>{rows}</tbody>
        </table>
    }
    .into_any()
}

/// A range on its scale, with the same numbers in words under it.
fn range(language: Language, estimate: &Estimate) -> AnyView {
    let unit = say(language, &estimate.unit, &[]);
    let words = in_words(language, estimate, &unit);
    let in_percent = estimate.unit == id::UNIT_FAT || estimate.unit == id::UNIT_DRY;
    let scale = match (estimate.low, estimate.high) {
        _ if in_percent => Some((0.0, 100.0)),
        (Some(low), Some(high)) => {
            let best = estimate.best.unwrap_or(low);
            Some(ends(low.min(best), high.max(best)))
        }
        // One number without a range needs no plot.
        _ => None,
    };
    let Some((from, to)) = scale else {
        return view! { <p data-figure="number"><strong>{words}</strong></p> }.into_any();
    };
    let plot = plot::range(from, to, estimate.low, estimate.high, estimate.best);
    let key = match (estimate.low.is_some(), estimate.best.is_some()) {
        (true, true) => "reading.view.scale_both",
        (true, false) => "reading.view.scale_range",
        _ => "reading.view.scale_best",
    };
    let holds = match (estimate.low, estimate.coverage) {
        (Some(_), Some(share)) => Some(coverage(language, share)),
        (Some(_), None) => Some(say(language, "reading.view.no_coverage", &[])),
        _ => None,
    };
    view! {
        <figure class="range" data-figure="range">
            <span aria-hidden="true" inner_html=plot></span>
            <figcaption>
                <strong>{words}</strong>
                {holds.map(|h| format!("; {h}"))}
                ". "
                {say(language, key, &[])}
            </figcaption>
        </figure>
    }
    .into_any()
}

fn in_words(language: Language, estimate: &Estimate, unit: &str) -> String {
    let mut args: Vec<(&str, Arg)> = vec![("unit", unit.into())];
    let mut add = |name: &'static str, value: Option<f64>| {
        if let Some(value) = value {
            args.push((name, one_decimal(value).into()));
        }
    };
    add("best", estimate.best);
    add("low", estimate.low);
    add("high", estimate.high);
    let id = match (estimate.best.is_some(), estimate.low.is_some()) {
        (true, true) => "reading.view.range_best",
        (false, _) => "reading.view.range_words",
        (true, false) => "reading.view.best_only",
    };
    say(language, id, &args)
}

fn coverage(language: Language, share: f64) -> String {
    say(language, "reading.view.coverage", &[("percent", Arg::Count(i64::from(never_sure(share))))])
}

/// A share in 100 from 1 to 99.
fn never_sure(share: f64) -> u8 {
    match in_hundred(share) {
        InHundred::LessThanOne => 1,
        InHundred::Whole(n) => n,
        InHundred::MoreThan99 => 99,
    }
}
