//! Findings, their options, places, units, reasons and phases by name.

mod choices;
mod evidence;
mod fat;
mod findings;
mod names;
mod signs;

pub(super) use choices::TEXTS as CHOICES;
pub(super) use evidence::TEXTS as EVIDENCE;
pub(super) use fat::TEXTS as FAT;
pub(super) use findings::TEXTS as FINDINGS;
pub(super) use names::TEXTS as NAMES;
pub(super) use signs::TEXTS as SIGNS;
