//! Every table of a season as CSV: file name and table.

use super::csv::{Cell, Csv};
use super::table::{Season, ShareLine};

/// All tables, in the order of their names.
pub fn all(season: &Season) -> Vec<(&'static str, Csv)> {
    vec![
        ("ages.csv", ages(season)),
        ("carcasses.csv", carcasses(season)),
        ("causes.csv", shares(&season.causes.shares)),
        ("called.csv", called(season)),
        ("comparisons.csv", comparisons(season)),
        ("condition.csv", condition(season)),
        ("density.csv", density(season)),
        ("diet.csv", diet(season)),
        ("doubles.csv", doubles(season)),
        ("findings.csv", findings(season)),
        ("map.csv", map(season)),
        ("severity.csv", severity(season)),
        ("sources.csv", sources(season)),
        ("survival.csv", survival(season)),
        ("weeks.csv", weeks(season)),
    ]
}

/// What a line of shares says beside its code and name: all of them from 0 to 1.
pub(super) const SHARE_COLUMNS: [&str; 8] =
    ["share", "low_95", "high_95", "prior", "prior_low_95", "prior_high_95", "data_alone", "data_carry"];

fn of_shares() -> Csv {
    let mut out = Csv::new(["what", "name"]);
    out.head.extend(SHARE_COLUMNS.map(str::to_owned));
    out
}

fn shares(lines: &[ShareLine]) -> Csv {
    let mut out = of_shares();
    add(&mut out, lines);
    out
}

fn add(out: &mut Csv, lines: &[ShareLine]) {
    for line in lines {
        out.row([
            (&line.what).into(),
            (&line.name).into(),
            line.share.into(),
            line.low.into(),
            line.high.into(),
            line.prior.into(),
            line.prior_low.into(),
            line.prior_high.into(),
            line.data_alone.into(),
            line.data_carry.into(),
        ]);
    }
}

fn ages(season: &Season) -> Csv {
    let mut out = of_shares();
    let ages = &season.ages;
    for lines in [&ages.classes, &ages.by_sex, &ages.sexes, &ages.years] {
        add(&mut out, lines);
    }
    out
}

/// How many there are, count by count.
fn carcasses(season: &Season) -> Csv {
    let mut out = Csv::new(["count", "carcasses"]);
    let (all, ages, causes, weeks) = (&season.carcasses, &season.ages, &season.causes, &season.weeks);
    let mut line = |what: &str, n: usize| out.row([what.into(), n.into()]);
    line("found", all.found);
    line("counted", all.counted);
    for left_out in &all.left_out {
        line(&left_out.why, left_out.carcasses);
    }
    line("joined_by_the_office", all.joined);
    line("found_in_other_winters", all.other_winters);
    line("without_any_date", all.undated);
    line("visits_without_a_carcass", all.no_carcass);
    line("aged", ages.aged);
    line("not_aged", ages.not_aged);
    line("sexed", ages.sexed);
    line("not_sexed", ages.not_sexed);
    line("cause_seen", causes.seen);
    line("cause_nothing_seen", causes.nothing_seen);
    line("cause_poor_fit", causes.poor_fit);
    line("weeks_spread", weeks.spread as usize);
    line("weeks_apart", weeks.apart as usize);
    line("weeks_no_window", weeks.no_window);
    line("no_place", season.places.no_place);
    out
}

fn called(season: &Season) -> Csv {
    let mut out = Csv::new(["called", "name", "carcasses", "of", "share", "low_95", "high_95"]);
    for line in &season.causes.called {
        out.row([
            (&line.what).into(),
            (&line.name).into(),
            line.carcasses.into(),
            line.of.into(),
            line.share.into(),
            line.low.into(),
            line.high.into(),
        ]);
    }
    out
}

fn comparisons(season: &Season) -> Csv {
    let mut out = Csv::new([
        "kind",
        "first",
        "second",
        "what",
        "by",
        "first_seen",
        "first_of",
        "second_seen",
        "second_of",
        "difference",
        "low_95",
        "high_95",
        "fisher_p",
    ]);
    for one in &season.comparisons {
        let names = || [Cell::from(&one.kind), (&one.first).into(), (&one.second).into()];
        for line in &one.findings {
            let [kind, first, second] = names();
            let ([first_seen, first_of], [second_seen, second_of]) = (line.first, line.second);
            out.row([
                kind,
                first,
                second,
                (&line.finding).into(),
                "counts".into(),
                first_seen.into(),
                first_of.into(),
                second_seen.into(),
                second_of.into(),
                line.difference.into(),
                line.low.into(),
                line.high.into(),
                line.fisher_p.into(),
            ]);
        }
        for line in &one.inferred {
            let [kind, first, second] = names();
            let (none, [first_of, second_of]) = (|| Cell::Empty, line.of);
            out.row([
                kind,
                first,
                second,
                (&line.what).into(),
                "draws".into(),
                none(),
                first_of.into(),
                none(),
                second_of.into(),
                line.difference.into(),
                line.low.into(),
                line.high.into(),
                none(),
            ]);
        }
    }
    out
}

fn condition(season: &Season) -> Csv {
    let mut out = Csv::new([
        "age",
        "carcasses",
        "exhausted",
        "depleted",
        "partly_used",
        "cannot_say",
        "not_looked",
        "of",
        "low_share",
        "low_95",
        "high_95",
    ]);
    for line in &season.condition {
        out.row([
            (&line.age).into(),
            line.carcasses.into(),
            line.exhausted.into(),
            line.depleted.into(),
            line.partly_used.into(),
            line.cannot_say.into(),
            line.not_looked.into(),
            line.of.into(),
            line.low_share.into(),
            line.low.into(),
            line.high.into(),
        ]);
    }
    out
}

fn density(season: &Season) -> Csv {
    let mut out = Csv::new(["what", "value"]);
    let table = &season.density;
    let mut line = |what: &str, value: Cell| out.row([what.into(), value]);
    for (what, n) in
        ["searches_on_lines", "searches_on_trails", "responses", "outings_not_told"].iter().zip(table.outings)
    {
        line(what, n.into());
    }
    line("refused", table.refused.as_ref().into());
    if let Some(found) = &table.estimate {
        let [low, high] = found.range.map_or([None, None], |ends| ends.map(Some));
        line("per_km2", found.per_km2.into());
        line("low_95", low.into());
        line("high_95", high.into());
        line("carcasses", found.carcasses.into());
        line("beyond_the_strip", found.beyond.into());
        line("lines", found.lines.into());
        line("length_km", found.length_km.into());
        line("strip_m", found.strip_m.into());
        line("seen_in_the_strip", found.seen.into());
        line("seen_cv", found.seen_cv.into());
        line("sigma_m", found.sigma_m.into());
        line("encounter_cv", found.encounter_cv.into());
    }
    out
}

fn diet(season: &Season) -> Csv {
    let mut out = Csv::new([
        "month",
        "deer",
        "without_shares",
        "food",
        "aggregate_percent",
        "percent_low_95",
        "percent_high_95",
        "aggregate_volume",
        "volume_low_95",
        "volume_high_95",
        "deer_with",
        "frequency_percent",
        "frequency_low_95",
        "frequency_high_95",
    ]);
    for month in &season.diet.months {
        for line in month.foods.iter().chain(&month.tiers) {
            let ends = |ends: Option<[f64; 2]>| ends.map_or([Cell::Empty, Cell::Empty], |ends| ends.map(Cell::from));
            let ([p_low, p_high], [v_low, v_high], [f_low, f_high]) =
                (ends(line.percent_low_high), ends(line.volume_low_high), ends(line.frequency_low_high));
            out.row([
                (&month.month).into(),
                month.deer.into(),
                month.without_shares.into(),
                (&line.food).into(),
                line.aggregate_percent.into(),
                p_low,
                p_high,
                line.aggregate_volume.into(),
                v_low,
                v_high,
                line.deer_with.into(),
                line.frequency_percent.into(),
                f_low,
                f_high,
            ]);
        }
    }
    out
}

fn doubles(season: &Season) -> Csv {
    let mut out = Csv::new([
        "first",
        "second",
        "probability",
        "apart_m",
        "factor_place",
        "factor_days",
        "factor_age_and_sex",
        "factor_jaw",
    ]);
    for pair in &season.doubles.pairs {
        let [place, days, age, jaw] = pair.factors.map(Cell::from);
        let named = [(&pair.first).into(), (&pair.second).into()];
        let [first, second]: [Cell; 2] = named;
        out.row([first, second, pair.probability.into(), pair.apart_m.into(), place, days, age, jaw]);
    }
    out
}

fn findings(season: &Season) -> Csv {
    let mut out = Csv::new([
        "finding",
        "name",
        "seen",
        "not_seen",
        "differ",
        "cant_tell",
        "not_looked",
        "part_gone",
        "share",
        "low_95",
        "high_95",
    ]);
    for line in &season.findings {
        out.row([
            (&line.finding).into(),
            (&line.name).into(),
            line.seen.into(),
            line.not_seen.into(),
            line.differ.into(),
            line.cant_tell.into(),
            line.not_looked.into(),
            line.part_gone.into(),
            line.share.into(),
            line.low.into(),
            line.high.into(),
        ]);
    }
    out
}

fn map(season: &Season) -> Csv {
    let mut out = Csv::new(["row", "column", "middle_latitude", "middle_longitude", "cell_m", "carcasses"]);
    for cell in &season.places.cells {
        out.row([
            cell.row.into(),
            cell.column.into(),
            cell.latitude.into(),
            cell.longitude.into(),
            season.places.cell_m.into(),
            cell.carcasses.into(),
        ]);
    }
    out
}

fn severity(season: &Season) -> Csv {
    let mut out = Csv::new(["index", "said"]);
    for line in &season.severity {
        out.row([(&line.index).into(), (&line.said).into()]);
    }
    out
}

fn sources(season: &Season) -> Csv {
    let mut out = Csv::new(["source", "cite", "mark"]);
    for source in &season.sources {
        out.row([(&source.id).into(), (&source.cite).into(), (&source.mark).into()]);
    }
    out
}

fn survival(season: &Season) -> Csv {
    let mut out = Csv::new(["what", "value"]);
    let mut line = |what: &str, value: Cell| out.row([what.into(), value]);
    line("refused", season.survival.refused.as_ref().into());
    if let Some(index) = &season.survival.index {
        line("survival", index.survival.into());
        line("low_95", index.low.into());
        line("high_95", index.high.into());
        line("youngest_years", index.youngest.into());
        line("deer", index.deer.into());
        line("inflation", index.inflation.into());
        line("poor_draws", index.poor_draws.into());
    }
    for said in &season.survival.assumptions {
        line("assumed", said.into());
    }
    out
}

/// Three columns a log after the deaths.
fn weeks(season: &Season) -> Csv {
    let mut out = Csv::new(["monday", "deaths", "at_least", "at_most"]);
    for log in &season.weeks.logs {
        let place = log.replace(|c: char| !c.is_alphanumeric(), "_");
        out.head.extend(["snow_cm", "days_read", "lowest_c"].map(|what| format!("{what}_{place}")));
    }
    for week in &season.weeks.weeks {
        let mut row: Vec<Cell> =
            vec![(&week.monday).into(), week.deaths.into(), week.at_least.into(), week.at_most.into()];
        for log in &week.snow {
            row.extend([log.depth_cm.into(), log.days_read.into(), log.lowest_c.into()]);
        }
        out.rows.push(row);
    }
    out
}
