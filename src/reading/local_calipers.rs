//! Ages from crowns and the molar ratio, by the constants that the office has on its card.

use super::lens::Lens;
use super::local::Local;
use super::local_ids as id;
use super::measures::{both_sides, mean};
use super::shape::{Basis, Statement, Val};
use crate::card::CrownHeight;
use crate::record::Tooth;
use crate::science::age::{LocalAge, LocalSpread};
use crate::science::calipers::crown_height::{LocalTooth, SD_SHARE, Wearing, quadratic_months};
use crate::science::calipers::tooth_ratio::{LocalLine, molar_ratio, ratio_months};
use crate::science::calipers::{CaliperAge, CaliperRefusal};

impl Local<'_> {
    /// What the crowns and the molar ratio come to by the office's constants.
    pub(super) fn calipers(&self, lens: &Lens) -> OwnCalipers {
        let Some(figures) = self.figures else { return OwnCalipers::default() };
        let crowns = figures.crown_heights.iter().filter_map(|row| {
            let mm = mean(lens, "crown_height_mm", &both_sides(row.tooth), 10.0)?;
            Some((row.tooth, quadratic_months(mm, Some(&constants(row)))))
        });
        let ratio = figures.molar_ratio.as_ref().and_then(|line| {
            let local = LocalLine {
                intercept_months: f64::from(line.intercept_tenths_months) / 10.0,
                slope_months: f64::from(line.slope_tenths_months) / 10.0,
                sd_months: f64::from(line.sd_tenths_months) / 10.0,
                from: f64::from(line.from_hundredths) / 100.0,
                to: f64::from(line.to_hundredths) / 100.0,
            };
            Some((ratio_months(ratio(lens)?, Some(&local)), local.sd_months))
        });
        let sources = figures.crown_heights.iter().map(|row| &row.source);
        let sources = sources.chain(figures.molar_ratio.iter().map(|line| &line.source));
        let mut basis: Vec<Basis> = Vec::new();
        for source in sources {
            let one = self.basis("card-caliper-constants", format!("caliper constants of the office: {source}"));
            if !basis.contains(&one) {
                basis.push(one);
            }
        }
        OwnCalipers { crowns: crowns.collect(), ratio, basis }
    }
}

/// Ages by the office's constants.
#[derive(Clone, Debug, Default)]
pub(super) struct OwnCalipers {
    /// By tooth, months.
    pub(super) crowns: Vec<(Tooth, Result<CaliperAge, CaliperRefusal>)>,
    /// Months, and the spread of the office's line.
    pub(super) ratio: Option<(Result<CaliperAge, CaliperRefusal>, f64)>,
    basis: Vec<Basis>,
}

impl OwnCalipers {
    /// What goes into the age: the mean of the crowns, else the ratio. The ratio holds the same heights, so
    /// both would count one thing twice.
    pub(super) fn for_age(&self) -> Option<LocalAge> {
        let crowns: Vec<f64> = self.crowns.iter().filter_map(|(_, age)| Some(age.as_ref().ok()?.best)).collect();
        if !crowns.is_empty() {
            let months = crowns.iter().sum::<f64>() / crowns.len() as f64;
            return Some(LocalAge { months, spread: LocalSpread::Share(SD_SHARE) });
        }
        let (age, sd) = self.ratio.as_ref()?;
        Some(LocalAge { months: age.as_ref().ok()?.best, spread: LocalSpread::Months(*sd) })
    }

    /// Each in words.
    pub(super) fn statements(&self) -> Vec<Statement> {
        let months = |said: Statement, age: &CaliperAge| {
            said.with("best", Val::number(age.best, 0))
                .with("low", Val::number(age.low, 0))
                .with("high", Val::number(age.high, 0))
        };
        let why = |refusal: CaliperRefusal| Val::message(super::message_ids::caliper_refusal(refusal));
        let crowns = self.crowns.iter().map(|(tooth, age)| {
            let named = |id| Statement::plain(id).with("tooth", Val::message(tooth_name(*tooth)));
            match age {
                Ok(age) => months(named(id::OWN_CROWN), age),
                Err(refusal) => named(id::OWN_CROWN_NOT).with("why", why(*refusal)),
            }
        });
        let ratio = self.ratio.as_ref().map(|(age, _)| match age {
            Ok(age) => months(Statement::plain(id::OWN_RATIO), age),
            Err(refusal) => Statement::plain(id::OWN_RATIO_NOT).with("why", why(*refusal)),
        });
        crowns.chain(ratio).collect()
    }

    /// What they rest on, where any was worked out.
    pub(super) fn basis(&self) -> &[Basis] {
        if self.crowns.is_empty() && self.ratio.is_none() { &[] } else { &self.basis }
    }
}

/// The message that names a tooth.
pub(super) fn tooth_name(tooth: Tooth) -> &'static str {
    use crate::science::age::Tooth as Named;
    super::message_ids::tooth(match tooth {
        Tooth::M1 => Named::M1,
        Tooth::M2 => Named::M2,
        _ => Named::M3,
    })
}

fn constants(row: &CrownHeight) -> LocalTooth {
    LocalTooth {
        unworn_mm: f64::from(row.unworn_tenths_mm) / 10.0,
        wearing: Wearing::Permanent {
            in_wear_months: f64::from(row.in_wear_months),
            worn_out_months: f64::from(row.worn_out_months),
        },
    }
}

/// Widths over heights, where all six means are there.
pub(super) fn ratio(lens: &Lens) -> Option<f64> {
    let of = |finding| -> Option<[f64; 3]> {
        let [m1, m2, m3] = Tooth::MOLARS.map(|tooth| mean(lens, finding, &both_sides(tooth), 10.0));
        Some([m1?, m2?, m3?])
    };
    molar_ratio(of("molar_width_mm")?, of("crown_height_mm")?).ok()
}
