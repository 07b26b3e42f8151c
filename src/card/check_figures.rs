//! What the reserve's own figures must be like. Whatever is wrong names its row and its member.

use std::collections::BTreeSet;

use super::figures::{BirthDates, BrowseFood, CrownHeight, Figures, MolarRatio, NORM_MEASURES, Norm, ReaderTable};
use crate::record::{Moment, Shape, Tooth, find};

/// Fewest deer behind a norm or a constant. Ours.
const LEAST_DEER: u32 = 5;
/// Most characters of a source.
const SOURCE_CHARS: usize = 200;
/// Most characters of a food's name, as a crew may write it.
const ITEM_CHARS: usize = 80;

/// What is wrong, and where.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
#[error("`figures.{list}`{}: `{member}` {problem}", match row { Some(n) => format!(", row {n}"), None => String::new() })]
pub struct FigureFlaw {
    /// Which list.
    pub list: &'static str,
    /// Which row of it, from 1; absent where it has none.
    pub row: Option<usize>,
    /// Which member.
    pub member: &'static str,
    /// What is wrong and what it may be, as a clause.
    pub problem: String,
}

/// Where a check stands.
#[derive(Clone, Copy)]
struct At {
    list: &'static str,
    row: Option<usize>,
}

impl At {
    fn flaw(self, member: &'static str, problem: impl Into<String>) -> FigureFlaw {
        FigureFlaw { list: self.list, row: self.row, member, problem: problem.into() }
    }

    fn within(self, member: &'static str, value: i64, min: i64, max: i64) -> Result<(), FigureFlaw> {
        if (min..=max).contains(&value) {
            return Ok(());
        }
        Err(self.flaw(member, format!("is {value}, outside {min} to {max}")))
    }

    fn source(self, member: &'static str, text: &str) -> Result<(), FigureFlaw> {
        if text.trim().is_empty() {
            return Err(self.flaw(member, "is empty: say it in a few words"));
        }
        if text.chars().count() > SOURCE_CHARS {
            return Err(self.flaw(member, format!("has more than {SOURCE_CHARS} characters")));
        }
        Ok(())
    }

    fn deer(self, count: u32) -> Result<(), FigureFlaw> {
        self.within("deer_count", count.into(), LEAST_DEER.into(), 100_000)
    }
}

/// Checks all figures.
///
/// # Errors
/// The first flaw found.
pub(super) fn check(figures: &Figures) -> Result<(), FigureFlaw> {
    if let Some(table) = &figures.reader_model {
        check_readers(table)?;
    }
    if let Some(births) = &figures.birth_dates {
        check_births(births)?;
    }
    if let Some(prior) = &figures.age_prior {
        At { list: "age_prior", row: None }.source("why", &prior.why)?;
    }
    if let Some(let_in) = &figures.formulas_from_memory {
        At { list: "formulas_from_memory", row: None }.source("why", &let_in.why)?;
    }
    check_browse(&figures.browse)?;
    check_norms(&figures.norms)?;
    check_crowns(&figures.crown_heights)?;
    figures.molar_ratio.as_ref().map_or(Ok(()), check_ratio)
}

fn check_readers(table: &ReaderTable) -> Result<(), FigureFlaw> {
    let whole = At { list: "reader_model", row: None };
    whole.within("version", table.version.into(), 1, 1_000_000)?;
    let a_day = table.made_on.len() == 10 && Moment::parse(&format!("{}T12:00:00+00:00", table.made_on)).is_ok();
    if !a_day {
        return Err(whole.flaw("made_on", format!("is `{}`, not a day such as 2027-05-02", table.made_on)));
    }
    whole.within("readers_count", table.readers_count.into(), 1, 10_000)?;
    let readings = i64::from(table.known_count) + i64::from(table.by_rings_count);
    whole.within("known_count and by_rings_count", readings, 1, 10_000_000)?;
    if table.rows_millionths.len() != 10 {
        let rows = table.rows_millionths.len();
        return Err(whole.flaw("rows_millionths", format!("has {rows} rows, not 10 (0 to 9 and more birthdays)")));
    }
    for (n, row) in (1..).zip(&table.rows_millionths) {
        let at = At { list: "reader_model", row: Some(n) };
        if row.len() != 11 {
            return Err(at.flaw("rows_millionths", format!("has {} columns, not 11", row.len())));
        }
        let total: u64 = row.iter().copied().map(u64::from).sum();
        if total != 1_000_000 {
            return Err(at.flaw("rows_millionths", format!("adds up to {total}, not to 1000000")));
        }
    }
    Ok(())
}

fn check_births(births: &BirthDates) -> Result<(), FigureFlaw> {
    let at = At { list: "birth_dates", row: None };
    at.within("month", births.month.into(), 5, 6)?;
    let (first, last) = if births.month == 5 { (25, 31) } else { (1, 10) };
    at.within("day", births.day.into(), first, last)?;
    at.within("sd_days", births.sd_days.into(), 3, 20)?;
    at.source("source", &births.source)
}

fn check_norms(norms: &[Norm]) -> Result<(), FigureFlaw> {
    let mut seen = BTreeSet::new();
    for (n, norm) in (1..).zip(norms) {
        let at = At { list: "norms", row: Some(n) };
        let known = NORM_MEASURES.contains(&norm.measure.as_str());
        let Some(Shape::Number { decimals, min, max, .. }) = find(&norm.measure).map(|def| def.shape).filter(|_| known)
        else {
            let all = NORM_MEASURES.join(", ");
            return Err(at.flaw("measure", format!("is `{}`, not one of {all}", norm.measure)));
        };
        // The finding's own limits, in tenths of a millimetre.
        let tenths = if decimals == 0 { 10 } else { 1 };
        at.within("mean_tenths_mm", norm.mean_tenths_mm.into(), min * tenths, max * tenths)?;
        at.within("sd_tenths_mm", norm.sd_tenths_mm.into(), 1, i64::from(norm.mean_tenths_mm) / 3)?;
        at.deer(norm.deer_count)?;
        at.source("source", &norm.source)?;
        if !seen.insert((norm.measure.as_str(), norm.age, norm.sex)) {
            return Err(at.flaw("measure", format!("`{}` of that age and sex stands in an earlier row", norm.measure)));
        }
    }
    Ok(())
}

fn check_browse(foods: &[BrowseFood]) -> Result<(), FigureFlaw> {
    let mut seen = BTreeSet::new();
    for (n, food) in (1..).zip(foods) {
        let at = At { list: "browse", row: Some(n) };
        let item = food.key();
        if item.is_empty() {
            return Err(at.flaw("item", "is empty: give a plant's code, or the name that crews write"));
        }
        if item.chars().count() > ITEM_CHARS {
            return Err(at.flaw("item", format!("has more than {ITEM_CHARS} characters")));
        }
        if food.tier.is_none() && food.digestible_percent.is_none() {
            return Err(at.flaw("tier", "and `digestible_percent` are both missing: give one of them"));
        }
        if let Some(percent) = food.digestible_percent {
            at.within("digestible_percent", percent.into(), 1, 99)?;
        }
        at.source("region", &food.region)?;
        at.source("source", &food.source)?;
        if !seen.insert(item) {
            return Err(at.flaw("item", format!("`{}` stands in an earlier row", food.item)));
        }
    }
    Ok(())
}

fn check_crowns(crowns: &[CrownHeight]) -> Result<(), FigureFlaw> {
    let mut seen = BTreeSet::new();
    for (n, crown) in (1..).zip(crowns) {
        let at = At { list: "crown_heights", row: Some(n) };
        if !Tooth::MOLARS.contains(&crown.tooth) {
            return Err(at.flaw("tooth", "is not m1, m2 or m3"));
        }
        if !seen.insert(crown.tooth) {
            return Err(at.flaw("tooth", "stands in an earlier row"));
        }
        at.within("unworn_tenths_mm", crown.unworn_tenths_mm.into(), 30, 300)?;
        at.within("in_wear_months", crown.in_wear_months.into(), 0, 36)?;
        at.within("worn_out_months", crown.worn_out_months.into(), i64::from(crown.in_wear_months) + 24, 300)?;
        at.deer(crown.deer_count)?;
        at.source("source", &crown.source)?;
    }
    Ok(())
}

fn check_ratio(line: &MolarRatio) -> Result<(), FigureFlaw> {
    let at = At { list: "molar_ratio", row: None };
    at.within("intercept_tenths_months", line.intercept_tenths_months.into(), -3_000, 3_000)?;
    at.within("slope_tenths_months", line.slope_tenths_months.into(), 1, 10_000)?;
    at.within("sd_tenths_months", line.sd_tenths_months.into(), 10, 1_000)?;
    at.within("from_hundredths", line.from_hundredths.into(), 1, 10_000)?;
    at.within("to_hundredths", line.to_hundredths.into(), i64::from(line.from_hundredths) + 1, 10_000)?;
    at.deer(line.deer_count)?;
    at.source("source", &line.source)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn parsed(json: &str) -> Result<(), String> {
        let figures: Figures = serde_json::from_str(json).map_err(|error| error.to_string())?;
        check(&figures).map_err(|flaw| flaw.to_string())
    }

    const NORM: &str = r#"{"norms":[{"measure":"hind_foot_mm","age":"grown","sex":"female","mean_tenths_mm":4650,
        "sd_tenths_mm":140,"deer_count":44,"source":"weigh station"}]}"#;
    const CROWN: &str = r#"{"crown_heights":[{"tooth":"m1","unworn_tenths_mm":120,"in_wear_months":6,
        "worn_out_months":192,"deer_count":12,"source":"own jaws"}]}"#;
    const RATIO: &str = r#"{"molar_ratio":{"intercept_tenths_months":100,"slope_tenths_months":400,
        "sd_tenths_months":80,"from_hundredths":80,"to_hundredths":250,"deer_count":31,"source":"own jaws"}}"#;
    const BIRTHS: &str = r#"{"birth_dates":{"month":5,"day":29,"sd_days":9,"source":"collared does"}}"#;
    const MEMORY: &str = r#"{"formulas_from_memory":{"why":"to rank our own deer"}}"#;
    const BROWSE: &str = r#"{"browse":[{"item":"white_cedar","tier":"preferred","digestible_percent":52,
        "region":"our yard","source":"pen trial"},{"item":"Beaked hazel","tier":"poor","region":"our yard",
        "source":"twig counts"}]}"#;
    const PRIOR: &str = r#"{"age_prior":{"prior":"flat","why":"no bias wanted"}}"#;

    fn readers() -> serde_json::Value {
        let mut rows = vec![vec![0_u32; 11]; 10];
        (0..10).for_each(|n| rows[n][n] = 1_000_000);
        serde_json::json!({"reader_model": {"version": 2, "made_on": "2027-05-02", "readers_count": 3,
            "known_count": 40, "by_rings_count": 12, "rows_millionths": rows}})
    }

    #[test]
    fn sound_figures_are_taken() {
        for json in ["{}", NORM, CROWN, RATIO, BIRTHS, PRIOR, MEMORY, BROWSE, &readers().to_string()] {
            assert_eq!(parsed(json), Ok(()), "{json}");
        }
    }

    #[test]
    fn each_flaw_names_its_row_and_member() {
        for (json, from, to, words) in [
            (
                NORM,
                "hind_foot_mm",
                "horn_mm",
                "`figures.norms`, row 1: `measure` is `horn_mm`, not one of hind_foot_mm",
            ),
            (NORM, "4650", "46500", "row 1: `mean_tenths_mm` is 46500, outside"),
            (NORM, "\"sd_tenths_mm\":140", "\"sd_tenths_mm\":0", "`sd_tenths_mm` is 0, outside 1 to 1550"),
            (NORM, ":44", ":4", "`deer_count` is 4, outside 5 to 100000"),
            (NORM, "weigh station", " ", "`source` is empty"),
            (CROWN, "\"m1\"", "\"p4\"", "`figures.crown_heights`, row 1: `tooth` is not m1, m2 or m3"),
            (CROWN, ":192", ":20", "`worn_out_months` is 20, outside 30 to 300"),
            (RATIO, ":250", ":80", "`figures.molar_ratio`: `to_hundredths` is 80, outside 81 to 10000"),
            (RATIO, ":400", ":0", "`slope_tenths_months` is 0"),
            (BIRTHS, "29", "20", "`figures.birth_dates`: `day` is 20, outside 25 to 31"),
            (BIRTHS, ":9,", ":45,", "`sd_days` is 45, outside 3 to 20"),
            (PRIOR, "no bias wanted", "", "`figures.age_prior`: `why` is empty"),
            (PRIOR, "flat", "starved", "unknown variant"),
            (MEMORY, "to rank our own deer", "", "`figures.formulas_from_memory`: `why` is empty"),
            (BROWSE, "white_cedar", " ", "`figures.browse`, row 1: `item` is empty"),
            (BROWSE, ":52", ":0", "row 1: `digestible_percent` is 0, outside 1 to 99"),
            (BROWSE, "\"tier\":\"poor\",", "", "row 2: `tier` and `digestible_percent` are both missing"),
            (BROWSE, "\"tier\":\"poor\"", "\"tier\":\"best\"", "unknown variant"),
            (BROWSE, "twig counts", "", "row 2: `source` is empty"),
            (BROWSE, "Beaked hazel", "White_Cedar ", "row 2: `item` `White_Cedar ` stands in an earlier row"),
        ] {
            assert!(json.contains(from), "{from}");
            let said = parsed(&json.replacen(from, to, 1)).unwrap_err();
            assert!(said.contains(words), "{said}");
        }
        let twice = NORM.replace("}]", "},{\"measure\":\"hind_foot_mm\",\"age\":\"grown\",\"sex\":\"female\",\"mean_tenths_mm\":4600,\"sd_tenths_mm\":100,\"deer_count\":9,\"source\":\"x\"}]");
        assert!(parsed(&twice).unwrap_err().contains("row 2: `measure` `hind_foot_mm` of that age and sex stands"));
    }

    #[test]
    fn a_reader_table_is_checked_row_by_row() {
        let changed = |pointer: &str, value: serde_json::Value| {
            let mut json = readers();
            *json.pointer_mut(&format!("/reader_model/{pointer}")).unwrap() = value;
            parsed(&json.to_string()).unwrap_err()
        };
        let said = changed("rows_millionths/3/3", 999_999.into());
        assert!(said.contains("`figures.reader_model`, row 4: `rows_millionths` adds up to 999999"), "{said}");
        assert!(
            changed("rows_millionths/3", serde_json::json!([1_000_000])).contains("row 4: `rows_millionths` has 1")
        );
        assert!(changed("rows_millionths", serde_json::json!([])).contains("has 0 rows, not 10"));
        assert!(changed("made_on", "2027-13-02".into()).contains("`made_on` is `2027-13-02`"));
        assert!(changed("readers_count", 0.into()).contains("`readers_count` is 0, outside 1 to 10000"));
    }
}
