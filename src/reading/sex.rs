//! Sex from the signs recorded.

use std::collections::BTreeSet;

use super::lens::{Answers, Lens, Picks, digest_of, ids_of};
use super::message_ids as id;
use super::scope::Scope;
use super::shape::{Basis, Estimate, Outcome, Reading, Share, Sharpen, Statement, Val};
use crate::record::Site;
use crate::science::age::Sex;
use crate::science::sex::{SOURCES, SexReading, SexSign, read_sex};

/// Signs of sex seen hands off, and those felt with gloves on.
const EVIDENCE: [&str; 2] = ["sex_evidence", "sex_evidence_handled"];

/// What the signs say before the age is known, and the sex that a person called.
pub(super) struct SexFound {
    signs: Vec<SexSign>,
    called: Option<Sex>,
}

impl SexFound {
    pub(super) fn of(lens: &Lens) -> Self {
        // A sign seen from afar and felt again is one sign.
        let codes: BTreeSet<&str> =
            EVIDENCE.into_iter().filter_map(|finding| lens.choices(finding, Site::NONE)).flatten().collect();
        let mut signs: Vec<SexSign> = codes
            .into_iter()
            .filter_map(|code| match code {
                "scrotum_or_penis" => Some(SexSign::ScrotumOrPenis),
                "udder_or_vulva" => Some(SexSign::UdderOrVulva),
                "antlers" => Some(SexSign::Antlers),
                "pedicles_or_knobs" => Some(SexSign::Pedicles),
                "no_pedicles" => Some(SexSign::NoPedicles),
                "suckled_nipples" => Some(SexSign::SuckledNipples),
                _ => None,
            })
            .collect();
        if lens.choice("fetus", Site::NONE) == Some("there") {
            signs.push(SexSign::Fetus);
        }
        let called = match lens.choice("sex_called", Site::NONE) {
            Some("female") => Some(Sex::Female),
            Some("male") => Some(Sex::Male),
            _ => None,
        };
        Self { signs, called }
    }

    fn read(&self, p_fawn: f64) -> Option<SexReading> {
        read_sex(&self.signs, p_fawn, None)
    }

    /// The sex to start the age from: a certain sign, else the sex called. Signs whose weight hangs on
    /// age are left out, so that age and sex do not lean on each other.
    pub(super) fn for_age(&self) -> Option<Sex> {
        match self.read(0.5) {
            Some(reading) if reading.both => None,
            Some(reading) => reading.certain.or(self.called),
            None => self.called,
        }
    }
}

fn name(sex: Sex) -> &'static str {
    match sex {
        Sex::Female => id::SEX_FEMALE,
        Sex::Male => id::SEX_MALE,
    }
}

/// The reading; `p_fawn` is one half where the age is not known.
pub(super) fn reading<'a>(answers: &Answers<'a>, scope: &Scope<'a>, p_fawn: f64) -> Reading {
    let lens = Lens::new(answers, Picks::new());
    let found = SexFound::of(&lens);
    let read = found.read(p_fawn);
    let mut cautions = Vec::new();
    if read.is_some_and(|r| r.both) {
        cautions.push(Statement::plain(id::SEX_BOTH));
    }
    let looked: Vec<_> = EVIDENCE.into_iter().filter_map(|finding| lens.choices(finding, Site::NONE)).collect();
    if !looked.is_empty() && !looked.iter().any(|codes| codes.contains(&"antlers")) {
        cautions.push(Statement::plain(id::SEX_NO_ANTLERS));
    }
    let (outcome, statement, male) = match (read, found.called) {
        (Some(SexReading { certain: Some(sex), male, .. }), _) => {
            (Outcome::Read, Statement::plain(name(sex)), Some(male))
        }
        (Some(reading), _) => {
            let sex = if reading.male >= 0.5 { Sex::Male } else { Sex::Female };
            let percent = Val::percent(reading.male.max(1.0 - reading.male));
            let likely = Statement::plain(id::SEX_LIKELY).with("sex", Val::message(name(sex))).with("percent", percent);
            (Outcome::Read, likely, Some(reading.male))
        }
        (None, Some(sex)) => (Outcome::Read, Statement::plain(name(sex)), None),
        (None, None) => (Outcome::NoEvidence, Statement::plain(id::SEX_UNKNOWN), None),
    };
    let shares = male.map_or_else(Vec::new, |male| {
        vec![
            Share { of: id::SEX_FEMALE.to_owned(), probability: 1.0 - male },
            Share { of: id::SEX_MALE.to_owned(), probability: male },
        ]
    });
    let estimate =
        Estimate { unit: id::UNIT_PROBABILITY.to_owned(), best: male, low: None, high: None, coverage: None, shares };
    let certain = read.is_some_and(|r| r.certain.is_some());
    let look = Sharpen {
        look: Statement::plain(id::LOOK_SEX),
        finding: "sex_evidence".to_owned(),
        site: Site::NONE,
        gain_bits: None,
    };
    let used = lens.into_used();
    let reading = Reading {
        method: "sex.ladder".to_owned(),
        title: id::SEX_TITLE.to_owned(),
        outcome,
        estimates: if male.is_some() { vec![estimate] } else { Vec::new() },
        statements: vec![statement],
        cautions,
        sharpen: if certain { Vec::new() } else { vec![look] },
        variants: Vec::new(),
        rests_on: ids_of(&used),
        entries_digest: digest_of(&used),
        sources: if read.is_some() { SOURCES.iter().map(Basis::from).collect() } else { Vec::new() },
    };
    scope.guard(used, reading)
}
