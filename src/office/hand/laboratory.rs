//! Samples, results and calls at the desk, as the command line keeps them: signed entries of the office's own chain.

use std::collections::BTreeSet;

use super::{DeskError, Figures, Hand, Listed, NotDecided};
use crate::bundle::DeviceKey;
use crate::card::Laboratory;
use crate::office::calls::Call;
use crate::office::calls_made::{done, mark, unmark};
use crate::office::calls_owed::shared;
use crate::office::decide::NoDecision;
use crate::office::lab_row::rows;
use crate::office::lab_sheet::{self, Checked, Taking};
use crate::office::own_chain::{WriteError, acts_of, new_id};
use crate::office::receipt::{Receipt, receive, take_back};
use crate::office::send_out::{Parcel, send};
use crate::record::{Carcass, Moment, PersonCode};

/// Where random bytes come from; its error in words.
pub type Fill<'a> = &'a dyn Fn(&mut [u8]) -> Result<(), String>;

/// Who writes, when, and with whose chance.
#[derive(Clone)]
pub struct By<'a> {
    /// The person.
    pub person: PersonCode,
    /// Now.
    pub now: Moment,
    /// Random bytes.
    pub fill: Fill<'a>,
}

impl Hand {
    /// The laboratories of today's card.
    ///
    /// # Errors
    /// There is no card, it names none, or they do not hold, in words.
    pub fn laboratories(&self, now: Moment) -> Result<Vec<Laboratory>, String> {
        self.cards().0.laboratories(now).map_err(|error| error.to_string())
    }

    /// Notes that samples left, as the archive stands now: what was noted since somebody looked is not noted twice.
    ///
    /// # Errors
    /// One of them cannot go there, or nothing could be written. Then nothing is noted of any.
    pub fn send(
        &mut self,
        (figures, listed): (&Figures, &Listed),
        parcel: &Parcel,
        key: Option<&DeviceKey>,
        by: &By,
    ) -> Result<(), NotDecided> {
        let laboratories = listed.laboratories.as_deref().map_err(|why| NotDecided::Sheet(why.clone()))?;
        let of = listed.bearers.of(parcel.numbers.iter().map(String::as_str));
        let acts = send(&self.anew(figures, &of), laboratories, parcel)?;
        self.keep_acts(acts, key, by)
    }

    /// Notes that samples were received, as the archive stands now.
    ///
    /// # Errors
    /// One of them was received there before, or nothing could be written. Then nothing is noted of any.
    pub fn note_receipt(
        &mut self,
        (figures, listed): (&Figures, &Listed),
        receipt: &Receipt,
        key: Option<&DeviceKey>,
        by: &By,
    ) -> Result<(), NotDecided> {
        let of = listed.bearers.of(receipt.numbers.iter().map(String::as_str));
        let acts = receive(&self.anew(figures, &of), receipt)?;
        self.keep_acts(acts, key, by)
    }

    /// Takes back the last that the office noted of a sample's way, as the archive stands now.
    ///
    /// # Errors
    /// It is another's, a result came back since, or nothing could be written.
    pub fn take_back(
        &mut self,
        (figures, listed): (&Figures, &Listed),
        numbers: &[String],
        key: Option<&DeviceKey>,
        by: &By,
    ) -> Result<(), NotDecided> {
        let own = key.map(|key| key.public().id()).ok_or(DeskError::NoKey)?;
        let laboratories = listed.laboratories.as_deref().unwrap_or_default();
        let of = listed.bearers.of(numbers.iter().map(String::as_str));
        let acts = take_back(&self.anew(figures, &of), laboratories, numbers, own)?;
        self.keep_acts(acts, key, by)
    }

    /// What a laboratory's sheet would enter, as the archive stands now.
    ///
    /// # Errors
    /// It is no such sheet, this archive has no key, there are no laboratories or no chance to be had; in words.
    pub fn check_sheet(
        &self,
        (figures, listed): (&Figures, &Listed),
        bytes: &[u8],
        (correct, without): (bool, &BTreeSet<u64>),
        by: &By,
    ) -> Result<Checked, String> {
        let key = self.office_key().ok_or_else(|| DeskError::NoKey.to_string())?;
        let own = key.public().map_err(|error| error.to_string())?.id();
        let laboratories = listed.laboratories.as_deref().map_err(Clone::clone)?;
        let rows = rows(bytes).map_err(|error| error.to_string())?;
        let folded = &self.anew(figures, &listed.bearers.of(rows.iter().map(|row| row.sample.as_str())));
        let taking = Taking { folded, laboratories, own, by: by.person.clone(), now: by.now, correct, without };
        let random = || {
            let mut bytes = [0; 10];
            (by.fill)(&mut bytes).map(|()| bytes)
        };
        lab_sheet::check(bytes, &taking, random)?.map_err(|error| error.to_string())
    }

    /// Enters a sheet of which every line fits, as the archive stands now.
    ///
    /// # Errors
    /// It no longer fits, nothing in it is new, or nothing could be written.
    pub fn enter_sheet(
        &mut self,
        of: (&Figures, &Listed),
        bytes: &[u8],
        how: (bool, &BTreeSet<u64>),
        key: Option<&DeviceKey>,
        by: &By,
    ) -> Result<(), NotDecided> {
        let checked = self.check_sheet(of, bytes, how, by).map_err(NotDecided::Sheet)?;
        if checked.acts.is_empty() {
            return Err(NotDecided::NothingNew);
        }
        self.keep_acts(checked.acts, key, by)
    }

    /// Marks a listed call as made, or takes the mark back, as the archive stands now.
    ///
    /// # Errors
    /// It is so already, or nothing could be written.
    pub fn mark_call(
        &mut self,
        figures: &Figures,
        call: &Call,
        made: bool,
        key: Option<&DeviceKey>,
        by: &By,
    ) -> Result<(), NotDecided> {
        let own = key.map(|key| key.public().id()).ok_or(DeskError::NoKey)?;
        // The mark of a call to a reporter holds wherever it was made.
        let mut of = shared(&figures.counted.folded, call);
        of.insert(call.carcass);
        let folded = self.anew(figures, &of);
        let none = || NoDecision::NoCarcass(call.carcass);
        let carcass = folded.carcasses.get(&call.carcass).ok_or_else(none)?;
        let carcasses: Vec<&Carcass> = of.iter().filter_map(|id| folded.carcasses.get(id)).collect();
        let all = [Call { done: done(&carcasses, &call.call, &call.covers), ..call.clone() }];
        let acts = if made {
            let mut bytes = [0; 10];
            (by.fill)(&mut bytes).map_err(NotDecided::Chance)?;
            let said = mark(carcass, &all, &call.call, own, new_id(by.now, bytes))?;
            acts_of(said, &by.person).map_err(WriteError::from)?
        } else {
            vec![unmark(carcass, &all, &call.call)?]
        };
        self.keep_acts(acts, key, by)
    }
}
