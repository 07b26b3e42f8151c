//! The season as it is written: the types of `season.json`. Shares are 0 to 1, to the ten-thousandth.

use std::collections::BTreeMap;

use serde::Serialize;

use super::gather::{Folder, Used};
use crate::office::diet::DietReport;
use crate::record::Digest;
use crate::science::source::Source;

/// What the member `format` says.
pub const FORMAT: &str = "marrowbook-season-1";

/// A struct that is written and has a schema.
macro_rules! written {
    ($($(#[$meta:meta])* $name:ident { $($(#[$field:meta])* $member:ident: $ty:ty,)+ })+) => {$(
        $(#[$meta])*
        #[derive(Clone, Debug, PartialEq, Serialize)]
        #[cfg_attr(feature = "cli", derive(schemars::JsonSchema))]
        pub struct $name { $($(#[$field])* pub $member: $ty,)+ }
    )+};
}

written! {
    /// A whole season.
    Season {
        /// `marrowbook-season-1`.
        format: String,
        /// The winter, such as 2026-27.
        winter: String,
        /// Version of the methods.
        science: String,
        /// How many carcasses there are, and which count.
        carcasses: Carcasses,
        /// What has to be said beside every figure.
        cautions: Vec<String>,
        /// Deaths by week.
        weeks: WeekTable,
        /// Severity indices of the winter, in words.
        severity: Vec<SeverityLine>,
        /// Age and sex.
        ages: AgeTable,
        /// Causes.
        causes: CauseTable,
        /// Condition by age group.
        condition: Vec<ConditionLine>,
        /// Findings that were seen or not.
        findings: Vec<FindingLine>,
        /// What they had eaten, by month.
        diet: DietReport,
        /// Carcasses on a grid.
        places: PlaceTable,
        /// Crews, and this season against others.
        comparisons: Vec<Comparison>,
        /// Survival from ages at death.
        survival: SurvivalTable,
        /// Carcasses on an area.
        density: DensityTable,
        /// Pairs that may be one animal, likeliest first. Nothing is joined by it.
        doubles: DoubleTable,
        /// Files of the archive that count in no figure, and why.
        not_used: Vec<NotUsed>,
        /// What the figures rest on, each with its mark.
        sources: Vec<SourceLine>,
    }

    /// Carcasses of the season.
    Carcasses {
        /// Found in this winter.
        found: usize,
        /// Of these, white-tailed deer of the methods' months: they count.
        counted: usize,
        /// The others, by why.
        left_out: Vec<LeftOut>,
        /// Reported under several ids that the office joined.
        joined: usize,
        /// Found in other winters.
        other_winters: usize,
        /// Without any date: in no winter.
        undated: usize,
        /// Places visited, in any winter, where no dead animal lay.
        no_carcass: usize,
        /// Examinations that name no carcass.
        adrift: usize,
        /// Entries of two devices under one number, both kept.
        forks: usize,
    }

    /// Carcasses that are in no figure.
    LeftOut {
        /// Why, as a sentence.
        why: String,
        /// How many.
        carcasses: usize,
        /// The short codes of the first of them.
        codes: Vec<String>,
    }

    /// Deaths by week.
    WeekTable {
        /// Weeks from the first to the last, Mondays to Sundays.
        weeks: Vec<WeekLine>,
        /// Places of the logs, in the order of each week's snow.
        logs: Vec<String>,
        /// Carcasses spread over the weeks.
        spread: u32,
        /// Carcasses whose window is longer than four weeks: they stand apart.
        apart: u32,
        /// Carcasses without a window.
        no_window: usize,
        /// Of the spread ones, those whose first day is assumed.
        first_day_assumed: usize,
    }

    /// One week.
    WeekLine {
        /// Its Monday.
        monday: String,
        /// Deaths expected in it.
        deaths: f64,
        /// Carcasses that died in it for certain.
        at_least: u32,
        /// Carcasses that can have died in it.
        at_most: u32,
        /// What each log read.
        snow: Vec<WeekSnow>,
    }

    /// One log's week.
    WeekSnow {
        /// Mean depth of snow on the days read, cm.
        depth_cm: Option<f64>,
        /// Days on which it was read, of seven.
        days_read: u32,
        /// Lowest temperature of the week, degrees C.
        lowest_c: Option<f64>,
    }

    /// One index over one place.
    SeverityLine {
        /// Stable name.
        index: String,
        /// In words, with its class.
        said: String,
    }

    /// A share of a season, with what the prior and what the data say by themselves.
    ShareLine {
        /// Stable name.
        what: String,
        /// The name in words.
        name: String,
        /// Mean.
        share: f64,
        /// 95 % range.
        low: f64,
        /// Its upper end.
        high: f64,
        /// The prior by itself.
        prior: f64,
        /// 95 % range of the prior.
        prior_low: f64,
        /// Its upper end.
        prior_high: f64,
        /// The data by themselves: an even prior worth one carcass.
        data_alone: f64,
        /// How far the data carry the figure, 0 to 1: by how much they took off the prior's variance.
        data_carry: f64,
    }

    /// Age and sex.
    AgeTable {
        /// Carcasses of which something beyond a look from afar speaks of the age.
        aged: usize,
        /// Carcasses of which nothing does.
        not_aged: usize,
        /// Carcasses with a sign of sex.
        sexed: usize,
        /// Carcasses without.
        not_sexed: usize,
        /// Carcasses whose likelihoods went in.
        weighed: u32,
        /// What the prior is worth, in carcasses.
        prior_carcasses: f64,
        /// Broad classes, of all.
        classes: Vec<ShareLine>,
        /// Broad classes of each sex, of all.
        by_sex: Vec<ShareLine>,
        /// Sexes.
        sexes: Vec<ShareLine>,
        /// Each year of age, of all.
        years: Vec<ShareLine>,
    }

    /// Causes.
    CauseTable {
        /// Carcasses of which something was seen that speaks of the cause.
        seen: usize,
        /// Carcasses of which nothing was seen: they are in no share.
        nothing_seen: usize,
        /// Of the seen ones, those that no cause of the table fits well.
        poor_fit: usize,
        /// What the prior is worth, in carcasses.
        prior_carcasses: f64,
        /// Each cause, then predators together.
        shares: Vec<ShareLine>,
        /// What single carcasses were called; the undetermined are among them.
        called: Vec<CountLine>,
        /// Evidence tables that went in.
        tables: Vec<TableLine>,
    }

    /// A count with its share and Wilson's interval.
    CountLine {
        /// Stable name.
        what: String,
        /// In words.
        name: String,
        /// How many.
        carcasses: u32,
        /// Of how many.
        of: u32,
        /// Share.
        share: Option<f64>,
        /// 95 % range.
        low: Option<f64>,
        /// Its upper end.
        high: Option<f64>,
    }

    /// An evidence table.
    TableLine {
        /// Its name.
        name: String,
        /// Its digest.
        sha256: Digest,
        /// Carcasses that were weighed by it.
        carcasses: usize,
    }

    /// Condition of one age group.
    ConditionLine {
        /// `fawn`, `yearling`, `adult` or `not_known`.
        age: String,
        /// Carcasses of the group.
        carcasses: u32,
        /// The last reserve was gone.
        exhausted: u32,
        /// The last reserve was low.
        depleted: u32,
        /// Some reserve was used.
        partly_used: u32,
        /// Looked at, and no word.
        cannot_say: u32,
        /// Nothing was looked at.
        not_looked: u32,
        /// Carcasses with one of the three words.
        of: u32,
        /// Exhausted or depleted, of those.
        low_share: Option<f64>,
        /// 95 % range.
        low: Option<f64>,
        /// Its upper end.
        high: Option<f64>,
    }

    /// One finding over all carcasses, the five answers apart.
    FindingLine {
        /// Its code.
        finding: String,
        /// In words.
        name: String,
        /// Seen.
        seen: u32,
        /// Looked, and not there.
        not_seen: u32,
        /// Some saw it, some did not.
        differ: u32,
        /// Could not be told.
        cant_tell: u32,
        /// Not looked at.
        not_looked: u32,
        /// The part was gone.
        part_gone: u32,
        /// Seen, of those that were looked at with a result.
        share: Option<f64>,
        /// 95 % range.
        low: Option<f64>,
        /// Its upper end.
        high: Option<f64>,
    }

    /// Carcasses on a grid; no place is finer than a cell.
    PlaceTable {
        /// Side of a cell, metres.
        cell_m: u32,
        /// In words.
        note: String,
        /// Cells with a carcass, from the south and west.
        cells: Vec<CellLine>,
        /// Carcasses without a place.
        no_place: usize,
    }

    /// One cell.
    CellLine {
        /// Rows from the equator, north positive.
        row: i64,
        /// Cells from Greenwich in this row, east positive.
        column: i64,
        /// Middle of the cell, degrees north.
        latitude: f64,
        /// Middle of the cell, degrees east.
        longitude: f64,
        /// Carcasses in it.
        carcasses: u32,
    }

    /// Two groups of carcasses.
    Comparison {
        /// `winter` or `crew`.
        kind: String,
        /// The first group.
        first: String,
        /// The second.
        second: String,
        /// Carcasses of each.
        carcasses: [usize; 2],
        /// Findings seen or not: Newcombe's interval and Fisher's test.
        findings: Vec<FindingDifference>,
        /// What was inferred, by draws: causes, classes of age, sex.
        inferred: Vec<InferredDifference>,
        /// What has to be said.
        note: String,
    }

    /// One finding in two groups.
    FindingDifference {
        /// Its code.
        finding: String,
        /// Seen, of those with a result, in the first group.
        first: [u32; 2],
        /// In the second.
        second: [u32; 2],
        /// Carcasses without a result in either group.
        no_result: [u32; 2],
        /// Share of the first less that of the second.
        difference: f64,
        /// 95 % interval.
        low: f64,
        /// Its upper end.
        high: f64,
        /// Fisher's exact test, two-sided.
        fisher_p: f64,
    }

    /// One inferred share in two groups.
    InferredDifference {
        /// Stable name.
        what: String,
        /// Carcasses of each group that the draws are of.
        of: [u32; 2],
        /// Share of the first less that of the second.
        difference: f64,
        /// 95 % range.
        low: f64,
        /// Its upper end.
        high: f64,
    }

    /// Survival from ages at death.
    SurvivalTable {
        /// The index, or nothing.
        index: Option<SurvivalLine>,
        /// Why there is none, as a sentence.
        refused: Option<String>,
        /// What it takes for granted.
        assumptions: Vec<String>,
    }

    /// The index.
    SurvivalLine {
        /// Yearly survival.
        survival: f64,
        /// 95 % range.
        low: f64,
        /// Its upper end.
        high: f64,
        /// Youngest age that counts, completed birthdays.
        youngest: u32,
        /// Mean number of deer in a draw.
        deer: f64,
        /// Chi-square of the fit over its degrees of freedom.
        inflation: f64,
        /// Share of draws that fit poorly.
        poor_draws: f64,
    }

    /// Carcasses on an area.
    DensityTable {
        /// The estimate, or nothing.
        estimate: Option<DensityLine>,
        /// Why there is none, as a sentence.
        refused: Option<String>,
        /// Outings by kind: searches on lines, searches on trails, responses, not told.
        outings: [usize; 4],
        /// What it takes for granted, and what else has to be said.
        notes: Vec<String>,
    }

    /// A density.
    DensityLine {
        /// Carcasses on a square kilometre.
        per_km2: f64,
        /// 95 % range; nothing with one line.
        range: Option<[f64; 2]>,
        /// Carcasses within the strip.
        carcasses: usize,
        /// Beyond the strip, left out.
        beyond: usize,
        /// Lines.
        lines: usize,
        /// Their length, kilometres.
        length_km: f64,
        /// Half-width of the strip, metres.
        strip_m: f64,
        /// Share of the carcasses in the strip that were seen.
        seen: f64,
        /// Scale of the half-normal, metres; nothing where the strip form stands for it.
        sigma_m: Option<f64>,
        /// Coefficient of variation of the share seen, by the observed information.
        seen_cv: f64,
        /// Coefficient of variation of finds a metre.
        encounter_cv: Option<f64>,
    }

    /// Likely doubles.
    DoubleTable {
        /// Pairs.
        pairs: Vec<DoubleLine>,
        /// Carcasses without a place: they are compared with nobody.
        no_place: usize,
        /// What to do, and what it rests on.
        note: String,
    }

    /// A pair.
    DoubleLine {
        /// Short code of the first.
        first: String,
        /// Of the second.
        second: String,
        /// Probability that they are one.
        probability: f64,
        /// Between the two places, metres, to the ten.
        apart_m: f64,
        /// Factors: place, days, age and sex, jaw.
        factors: [f64; 4],
    }

    /// A source.
    SourceLine {
        /// Stable name.
        id: String,
        /// Author, year, journal or agency.
        cite: String,
        /// `seen`, `derived`, `memory`, `design` or `ours`.
        mark: String,
    }
}

/// A file that counts in no figure.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize)]
#[cfg_attr(feature = "cli", derive(schemars::JsonSchema))]
pub struct NotUsed {
    /// Its folder in the archive.
    pub folder: Folder,
    /// Digest of its bytes.
    pub sha256: Digest,
    /// Why.
    pub reason: String,
}

impl Season {
    /// Files that count in no figure, by why.
    pub fn not_used_by_reason(&self) -> BTreeMap<&str, usize> {
        let mut out = BTreeMap::new();
        for file in &self.not_used {
            *out.entry(file.reason.as_str()).or_default() += 1;
        }
        out
    }
}

impl NotUsed {
    /// Its path in the archive.
    pub fn path(&self) -> String {
        Used { folder: self.folder, sha256: self.sha256 }.path()
    }

    /// A file and the reason.
    pub fn new(file: Used, reason: &str) -> Self {
        Self { folder: file.folder, sha256: file.sha256, reason: reason.to_owned() }
    }
}

impl From<&Source> for SourceLine {
    fn from(source: &Source) -> Self {
        Self { id: source.id.to_owned(), cite: source.cite.to_owned(), mark: source.mark.id().to_owned() }
    }
}
