//! Chain of custody on this phone.

use std::collections::BTreeSet;

use crate::guide::{Handing, Label, custody, labels};
use crate::record::{Body, CustodyItem, CustodyLineStep, CustodyStep, PersonCode, custody_list, short_code};

use super::{Session, When};
use crate::words::Language;

impl Session {
    /// Everything taken, by the short code of its carcass.
    pub(crate) fn custody(&self) -> Vec<(String, Vec<CustodyItem>)> {
        let fold = self.bodies.fold_all();
        let of = |carcass| custody_list(&fold, carcass);
        let all = fold.carcasses.values().map(|carcass| (short_code::short_code(carcass.id), of(carcass)));
        all.filter(|(_, items)| !items.is_empty()).collect()
    }

    /// The label of everything taken.
    pub(crate) fn labels(&self, language: Language) -> Vec<Label> {
        let fold = self.bodies.fold_all();
        fold.carcasses.values().flat_map(|carcass| labels(language, carcass)).collect()
    }

    /// Entries that say that these things change hands now, each from whoever had it last.
    pub(crate) fn hand_on(
        &self,
        numbers: &BTreeSet<String>,
        step: CustodyStep,
        to: &PersonCode,
        handing: &Handing,
        when: &When,
    ) -> Vec<Body> {
        let context = self.context(when);
        let all = self.custody();
        let picked = all.iter().flat_map(|(_, items)| items).filter(|item| numbers.contains(&item.number));
        picked
            .map(|item| {
                let held = |l: &&crate::record::CustodyLine| l.step != CustodyLineStep::Reported;
                let from = item.lines.iter().rev().find(held).and_then(|l| PersonCode::new(&l.to).ok());
                let of_this = Handing { seal: item.seal.clone(), ..handing.clone() };
                custody(&item.number, step, from, to.clone(), &of_this, &context)
            })
            .collect()
    }
}
