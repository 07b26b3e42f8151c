//! The figures of a reading: each plot stands in or over a table with the same numbers.

use leptos::prelude::*;

use super::plot;
use super::scale::{InHundred, ends, in_figures, in_hundred};
use crate::reading::{Estimate, Reading, Share, Statement, Val, message_ids as id};
use crate::record::Shown;
use crate::science::age::summary;
use crate::words::{Arg, Language, say};

/// All figures of a reading.
pub fn figures(language: Language, shown: Shown, title: &str, reading: &Reading) -> Vec<AnyView> {
    let named = reading.statements.first().map(named).unwrap_or_default();
    let rules = rules(reading);
    let figure = |(n, estimate): (usize, &Estimate)| {
        // A reading of several measures names each over its own table.
        let own = estimate.unit.starts_with("cause.measure.").then(|| say(language, &estimate.unit, &[]));
        let title = own.as_deref().unwrap_or(title);
        if estimate.shares.is_empty() {
            let rule = rules.get(n).map(|s| s.say_in(language, shown));
            let beside = reading.estimates.iter().filter(|e| e.unit == estimate.unit).map(|e| e.shown_in(shown));
            range(language, &estimate.shown_in(shown), beside, rule)
        } else {
            shares(language, title, estimate, &named)
        }
    };
    reading.estimates.iter().enumerate().map(figure).collect()
}

/// The rules behind several weights, one a figure in the same order; none where they do not match.
pub fn rules(reading: &Reading) -> Vec<&Statement> {
    const WEIGHTS: [&str; 4] = [id::SIZE_WEIGHED, id::SIZE_FROM_DRESSED, id::SIZE_RULE, id::SIZE_RULE_DRESSED];
    let all: Vec<&Statement> = reading.statements.iter().filter(|s| WEIGHTS.contains(&s.id.as_str())).collect();
    if all.len() == reading.estimates.len() { all } else { Vec::new() }
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

/// The broad classes: the same distribution, added up.
pub fn broad(language: Language, estimate: &Estimate) -> Option<AnyView> {
    let mut classes = [0.0; 10];
    if estimate.shares.len() != classes.len() {
        return None;
    }
    for (slot, share) in classes.iter_mut().zip(&estimate.shares) {
        *slot = share.probability;
    }
    let sums = summary::broad(&classes);
    let all = [
        ("reading.view.broad.fawn", sums.fawn),
        ("reading.view.broad.yearling", sums.yearling),
        ("reading.view.broad.two", sums.two),
        ("reading.view.broad.three_to_five", sums.three_to_five),
        ("reading.view.broad.six_and_over", sums.six_and_over),
    ];
    let most = all.iter().map(|(_, p)| *p).fold(0.0, f64::max);
    let line =
        |(label, p): (&str, f64)| row(say(language, label, &[]), printed(language, p), plot::bar(p, p >= most), None);
    let rows = all.into_iter().map(line).collect_view();
    Some(table(language, say(language, "reading.view.broad", &[]), "broad", rows.into_any()))
}

/// A share in 100; never none and never all.
fn printed(language: Language, probability: f64) -> String {
    match in_hundred(probability) {
        InHundred::LessThanOne => say(language, "reading.view.less_than_one", &[]),
        InHundred::Whole(n) => n.to_string(),
        InHundred::MoreThan99 => say(language, "reading.view.more_than_99", &[]),
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
            let number = printed(language, share.probability);
            let mark = (likely && by_years).then(|| say(language, "reading.view.likely_set", &[]));
            row(say(language, &share.of, &[]), number, plot::bar(share.probability, likely), mark)
        })
        .collect_view();
    let parts = estimate.unit == id::diet::UNIT_SHARE;
    let caption = if parts { "reading.view.parts" } else { "reading.view.shares" };
    let caption = say(language, caption, &[("title", title.into())]);
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

/// A range on its scale, with the same numbers in words under it; ranges of one unit share a scale.
fn range(
    language: Language,
    estimate: &Estimate,
    beside: impl Iterator<Item = Estimate>,
    rule: Option<String>,
) -> AnyView {
    let unit = say(language, &estimate.unit, &[]);
    let herd = rule.is_some();
    let words = rule.unwrap_or_else(|| in_words(language, estimate, &unit));
    let in_percent = estimate.unit == id::UNIT_FAT || estimate.unit == id::UNIT_DRY;
    let scale = match (estimate.low, estimate.high) {
        _ if in_percent => Some((0.0, 100.0)),
        (Some(low), Some(high)) => {
            let best = estimate.best.unwrap_or(low);
            let all = beside.flat_map(|e| [e.low, e.high, e.best]).flatten();
            let (from, to) = all.fold((low.min(best), high.max(best)), |(a, b), v| (a.min(v), b.max(v)));
            Some(ends(from, to))
        }
        // One number without a range needs no plot.
        _ => None,
    };
    let Some((from, to)) = scale else {
        return view! { <p data-figure="number"><strong>{words}</strong></p> }.into_any();
    };
    let plot = plot::range(language, from, to, estimate.low, estimate.high, estimate.best);
    let key = match (estimate.low.is_some(), estimate.best.is_some()) {
        (true, true) => "reading.view.scale_both",
        (true, false) => "reading.view.scale_range",
        _ => "reading.view.scale_best",
    };
    let holds = match (estimate.low, estimate.coverage) {
        (Some(_), Some(share)) => Some(coverage(language, share, herd)),
        (Some(_), None) => Some(say(language, "reading.view.no_coverage", &[])),
        _ => None,
    };
    view! {
        <figure class="range" data-figure="range">
            <span aria-hidden="true" inner_html=plot></span>
            <span class="axis-unit" aria-hidden="true">{unit}</span>
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
            let text = in_figures(value, &estimate.unit);
            args.push((name, language.number(text).into()));
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

fn coverage(language: Language, share: f64, herd: bool) -> String {
    let id = if herd { "reading.view.coverage_herd" } else { "reading.view.coverage" };
    say(language, id, &[("percent", Arg::Count(i64::from(never_sure(share))))])
}

/// A share in 100 from 1 to 99.
fn never_sure(share: f64) -> u8 {
    match in_hundred(share) {
        InHundred::LessThanOne => 1,
        InHundred::Whole(n) => n,
        InHundred::MoreThan99 => 99,
    }
}
