//! Which samples somebody means by their numbers, and why nothing was noted of them.

use std::collections::BTreeSet;

use super::send_out::{NoOne, Numbers, Sample};

/// Why nothing was noted of samples.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub enum NotNoted {
    /// The card names no such laboratory.
    #[error("the local card names no laboratory `{0}`")]
    NoLaboratory(String),
    /// The laboratory has no such test.
    #[error("{laboratory} has no test `{test}` on the local card")]
    NoTest {
        /// The laboratory.
        laboratory: String,
        /// The test.
        test: String,
    },
    /// No sample has the number.
    #[error("no sample has the number `{0}`")]
    NoSample(String),
    /// The same one is named twice.
    #[error("sample `{0}` is named twice")]
    Twice(String),
    /// Two have it, or had.
    #[error(
        "more than one sample has or had the number `{number}` ({all}): look which one lies here, and name it by a \
         number that is its own alone"
    )]
    TwoSamples {
        /// The number.
        number: String,
        /// Which, in words.
        all: String,
    },
    /// Nothing that the laboratory does fits the sample.
    #[error("{laboratory} tests nothing on sample `{number}` ({what})")]
    NotTested {
        /// The laboratory.
        laboratory: String,
        /// The sample.
        number: String,
        /// What it is.
        what: String,
    },
    /// It went there for the same before.
    #[error("sample `{0}` was noted as sent there before")]
    SentBefore(String),
    /// Who has it received it before.
    #[error("sample `{0}` was noted as received there before")]
    ReceivedBefore(String),
    /// The last change of hands was noted by another.
    #[error("the last that is noted of sample `{0}` is not the office's own: a crew's hand-over stands")]
    NotTheOffices(String),
    /// A result is there.
    #[error("sample `{number}` was at {laboratory}: a result came back")]
    ResultCame {
        /// The laboratory.
        laboratory: String,
        /// The sample.
        number: String,
    },
}

/// The samples that these numbers mean, in their order.
///
/// # Errors
/// A number is nobody's or of several, or one sample is named twice.
pub(super) fn named<'s, 'a>(numbers: &Numbers<'s, 'a>, typed: &[String]) -> Result<Vec<&'s Sample<'a>>, NotNoted> {
    let mut before = BTreeSet::new();
    let mut out = Vec::new();
    for number in typed {
        let one = match numbers.find(number, None) {
            Ok(found) => found.sample,
            Err(NoOne::Several(all)) => return Err(NotNoted::TwoSamples { number: number.clone(), all }),
            Err(NoOne::Unknown | NoOne::OtherCarcass(_)) => return Err(NotNoted::NoSample(number.clone())),
        };
        if !before.insert((one.item.examination, one.item.item)) {
            return Err(NotNoted::Twice(number.clone()));
        }
        out.push(one);
    }
    Ok(out)
}
