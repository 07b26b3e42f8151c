//! What is printed of a winter: each index with its definition, its ends, its class and its sources.

use serde_json::{Value, json};

use crate::science::source::Source;
use crate::science::winter::agency::{INDICES, Index, Lacking, Rule};
use crate::science::winter::index::{Asked, Bounds, Classed, Refusal, Severity, severity, winter_of};
use crate::science::winter::log::{Gauge, Log};
use crate::words::{Arg, Language, say_office};

/// One index over one place (over all places, where it averages a course).
#[derive(Clone, Debug, PartialEq)]
pub struct Line {
    /// Which.
    pub index: &'static Index,
    /// The place, or the places of the course.
    pub place: String,
    /// The figure, or why there is none.
    pub outcome: Result<Severity, Refusal>,
}

/// The indices that need nothing but a log: those whose season the source names.
pub fn plain() -> impl Iterator<Item = &'static Index> {
    INDICES.iter().filter(|index| index.from.is_some() && index.to.is_some())
}

/// The winter of the last day logged.
pub fn last_winter(logs: &[Log]) -> Option<i32> {
    logs.iter().filter_map(Log::span).map(|(_, last)| winter_of(last)).max()
}

/// Work out indices over logs.
pub fn lines(logs: &[Log], wanted: &[&'static Index], asked: &Asked) -> Vec<Line> {
    let mut out = Vec::new();
    for index in wanted {
        // A day given for an index that has none of its own is no change of another's season.
        let asked = Asked {
            from: asked.from.filter(|_| index.from.is_none()),
            to: asked.to.filter(|_| index.to.is_none()),
            ..*asked
        };
        if matches!(index.rule, Rule::WeeklyCm(_)) {
            let course: Vec<&Log> = logs.iter().collect();
            let place = logs.iter().map(|log| log.place.as_str()).collect::<Vec<_>>().join(", ");
            out.push(Line { index, place, outcome: severity(index, &course, &asked) });
        } else {
            let each = logs.iter().map(|log| Line {
                index,
                place: log.place.clone(),
                outcome: severity(index, &[log], &asked),
            });
            out.extend(each);
        }
    }
    out
}

fn tell(language: Language, id: &str) -> String {
    say_office(language, id, &[])
}

fn tell_with(language: Language, id: &str, args: &[(&str, Arg)]) -> String {
    say_office(language, id, args)
}

/// A number with as many decimals as its index deserves: points whole, sums to the tenth.
fn figure(index: &Index, value: f64) -> String {
    match index.rule {
        Rule::Points(..) | Rule::DaysOver(_) => format!("{value:.0}"),
        _ => format!("{value:.1}"),
    }
}

/// A figure with its ends.
fn ends(language: Language, index: &Index, value: Bounds) -> String {
    let low = figure(index, value.low);
    match value.high.map(|high| figure(index, high)) {
        Some(high) if high == low => low,
        Some(high) => tell_with(language, "winter.ends", &[("low", low.into()), ("high", high.into())]),
        None => tell_with(language, "winter.at_least", &[("low", low.into())]),
    }
}

/// The unit of an index.
pub const fn unit(index: &Index) -> &'static str {
    match index.rule {
        Rule::Points(..) => "points",
        Rule::DaysOver(_) => "days",
        Rule::MondayInches => "inches",
        Rule::WeeklyCm(_) => "cm",
        Rule::DailySinkCm => "cm_days",
        Rule::Cannot(_) => "none",
    }
}

/// The id of a refusal's message.
pub const fn refusal(refusal: Refusal) -> &'static str {
    match refusal {
        Refusal::Lacking(Lacking::CriticalValues) => "winter.refused.critical_values",
        Refusal::Lacking(Lacking::ConversionTables) => "winter.refused.conversion_tables",
        Refusal::NeedsFrom => "winter.refused.needs_from",
        Refusal::NeedsTo => "winter.refused.needs_to",
        Refusal::SeasonIsFixed => "winter.refused.season_is_fixed",
        Refusal::Backwards => "winter.refused.backwards",
        Refusal::NothingLogged => "winter.refused.nothing_logged",
        Refusal::WrongGauge(None) => "winter.refused.no_gauge",
        Refusal::WrongGauge(Some(Gauge::Quebec | Gauge::Copper | Gauge::DeerTracks | Gauge::Other)) => {
            "winter.refused.wrong_gauge"
        }
        Refusal::OnePlace => "winter.refused.one_place",
    }
}

fn class_words(language: Language, classed: &Classed) -> String {
    let name = |id: &str| tell(language, &format!("winter.class.{id}"));
    match (classed.settled(), classed.high) {
        (Some(one), _) => name(one.id),
        (None, Some(high)) => {
            let (low, high) = (name(classed.low.id), name(high.id));
            tell_with(language, "winter.class_ends", &[("low", low.into()), ("high", high.into())])
        }
        (None, None) => tell_with(language, "winter.class_at_least", &[("low", name(classed.low.id).into())]),
    }
}

/// The sources that a figure rests on, those of its classes besides.
fn sources(line: &Line) -> Vec<&'static Source> {
    let mut all: Vec<&'static Source> = line.index.sources.to_vec();
    if let Ok(severity) = &line.outcome {
        let classes = severity.classes.iter().flat_map(|c| [Some(c.low), c.high]).flatten().map(|c| c.source);
        for source in classes {
            if !all.iter().any(|s| s.id == source.id) {
                all.push(source);
            }
        }
    }
    all
}

/// An index's name.
pub fn name(language: Language, index: &Index) -> String {
    tell(language, &format!("winter.index.{}.name", index.id))
}

/// What an index counts, in words.
pub fn definition(language: Language, index: &Index) -> String {
    tell(language, &format!("winter.index.{}.rule", index.id))
}

/// An index in words: a head and what stands beneath it.
pub fn text(language: Language, line: &Line) -> (String, Vec<String>) {
    let index = line.index;
    let name = name(language, index);
    let place = if line.place.is_empty() { tell(language, "winter.no_name") } else { line.place.clone() };
    let mut below = vec![definition(language, index)];
    let head = match &line.outcome {
        Err(refused) => {
            below.push(tell(language, refusal(*refused)));
            tell_with(language, "winter.head.none", &[("place", place.into()), ("name", name.into())])
        }
        Ok(found) => {
            figures(language, found, &mut below);
            let figure = tell_with(
                language,
                &format!("winter.unit.{}", unit(index)),
                &[("n", Arg::Text(ends(language, index, found.value)))],
            );
            tell_with(
                language,
                "winter.head",
                &[("place", place.into()), ("name", name.into()), ("figure", figure.into())],
            )
        }
    };
    for source in sources(line) {
        let args = [("cite", Arg::Text(source.cite.to_owned())), ("mark", Arg::Text(mark(language, source)))];
        below.push(tell_with(language, "winter.source", &args));
    }
    (head, below)
}

fn mark(language: Language, source: &Source) -> String {
    tell(language, &format!("winter.mark.{}", source.mark.id()))
}

fn figures(language: Language, found: &Severity, below: &mut Vec<String>) {
    let count = |n: u32| Arg::Count(i64::from(n));
    let date = |date: time::Date| Arg::Text(date.to_string());
    let span = [
        ("from", date(found.from)),
        ("through", date(found.through)),
        ("to", date(found.to)),
        ("n", count(found.days)),
        ("left", count(found.to_come)),
    ];
    below.push(tell_with(language, if found.is_complete() { "winter.span" } else { "winter.span_so_far" }, &span));
    for part in &found.parts {
        let args = [
            ("n", Arg::Text(ends(language, found.index, part.bounds))),
            ("read", count(part.read)),
            ("missing", count(part.missing)),
            ("split", count(part.split)),
        ];
        below.push(tell_with(language, &format!("winter.part.{}", part.id), &args));
        if part.split > 0 {
            below.push(tell_with(language, "winter.split", &args));
        }
    }
    if let Some(most) = found.if_deepest {
        let args = [("n", Arg::Text(figure(found.index, most)))];
        below.push(tell_with(language, "winter.if_deepest", &args));
    }
    if let Rule::WeeklyCm(stations) = found.index.rule
        && found.places < stations
    {
        let args = [("n", count(found.places)), ("wanted", count(stations))];
        below.push(tell_with(language, "winter.short_course", &args));
    }
    for classed in &found.classes {
        let args = [
            ("set", Arg::Text(tell(language, &format!("winter.set.{}", classed.set.id)))),
            ("class", Arg::Text(class_words(language, classed))),
        ];
        below.push(tell_with(
            language,
            if found.is_complete() { "winter.classed" } else { "winter.classed_so_far" },
            &args,
        ));
        if classed.low.source.mark.is_unconfirmed() || classed.high.is_some_and(|c| c.source.mark.is_unconfirmed()) {
            below.push(tell(language, "winter.class_from_memory"));
        }
    }
}

/// An index as JSON.
pub fn json(language: Language, line: &Line) -> Value {
    let source = |s: &&Source| json!({ "id": s.id, "cite": s.cite, "mark": s.mark.id() });
    let mut out = json!({
        "place": line.place,
        "index": line.index.id,
        "name": name(language, line.index),
        "definition": definition(language, line.index),
        "unit": unit(line.index),
        "sources": sources(line).iter().map(source).collect::<Vec<_>>(),
    });
    let more = match &line.outcome {
        Err(refused) => json!({ "refused": { "id": refusal(*refused), "text": tell(language, refusal(*refused)) } }),
        Ok(found) => json!({
            "from": found.from.to_string(),
            "through": found.through.to_string(),
            "to": found.to.to_string(),
            "days": found.days,
            "days_to_come": found.to_come,
            "places": found.places,
            "low": found.value.low,
            "high": found.value.high,
            "high_if_missing_were_deepest": found.if_deepest,
            "parts": found.parts.iter().map(|part| json!({
                "id": part.id,
                "low": part.bounds.low,
                "high": part.bounds.high,
                "read": part.read,
                "missing": part.missing,
                "differing": part.split,
            })).collect::<Vec<_>>(),
            "classes": found.classes.iter().map(|c| json!({
                "set": c.set.id,
                "set_name": tell(language, &format!("winter.set.{}", c.set.id)),
                "low": c.low.id,
                "high": c.high.map(|high| high.id),
                "so_far": !found.is_complete(),
                "marks": [c.low.source.mark.id(), c.high.map_or(c.low, |high| high).source.mark.id()],
            })).collect::<Vec<_>>(),
        }),
    };
    if let (Some(out), Value::Object(more)) = (out.as_object_mut(), more) {
        out.extend(more);
    }
    out
}
