//! Questions: what is asked, why, and how to look. Read at arm's length in the snow: what the eye
//! sees, one idea a line, common words.

mod bench;
mod calipers;
mod body;
mod evidence;
mod lab;
mod fat;
mod outing;
mod report;
mod rumen;
mod scene;
mod search;
mod signs;
mod teeth_and_marrow;

/// The texts of steps: the question, one line why it matters, how to look, and where it may not be
/// there the tile that says so; of several looked over in one, the tile that says what was done.
macro_rules! steps {
    ($($id:literal { $ask:literal $why:literal $how:literal $(none $none:literal)? $(done $done:literal)? })*) => {
        &[$(
            (concat!("step.", $id, ".ask"), $ask),
            (concat!("step.", $id, ".why"), $why),
            (concat!("step.", $id, ".how"), $how),
            $((concat!("step.", $id, ".none"), $none),)?
            $((concat!("step.", $id, ".done"), $done),)?
        )*]
    };
}
pub(super) use steps;

pub(super) use bench::TEXTS as BENCH;
pub(super) use body::TEXTS as BODY;
pub(super) use calipers::TEXTS as CALIPERS;
pub(super) use evidence::TEXTS as EVIDENCE;
pub(super) use fat::TEXTS as FAT;
pub(super) use lab::TEXTS as LAB;
pub(super) use outing::TEXTS as OUTING;
pub(super) use report::TEXTS as REPORT;
pub(super) use rumen::TEXTS as RUMEN;
pub(super) use scene::TEXTS as SCENE;
pub(super) use search::TEXTS as SEARCH;
pub(super) use signs::TEXTS as SIGNS;
pub(super) use teeth_and_marrow::TEXTS as TEETH_AND_MARROW;
