//! The phone's clocks and random bytes as the session asks for them.

use crate::record::Moment;

use super::platform::{clock, random};
use super::session::{Source, When};

/// The browser as a source of times and random bytes.
#[derive(Clone, Copy)]
pub(crate) struct Phone;

impl Source for Phone {
    fn when(&self) -> When {
        // A clock beyond the calendar shows as the first moment of 1970: the fold never looks at it.
        let at = clock::now().unwrap_or(Moment::EPOCH);
        When { at, zone: clock::zone(), unix_ms: clock::unix_ms(), steady_ms: steady_ms() }
    }

    fn random<const N: usize>(&self) -> [u8; N] {
        let mut bytes = [0_u8; N];
        // Every browser that runs this wasm has a source of random bytes, and the desk takes nothing
        // where it has none; the time in an id keeps two apart all the same.
        let _ = random::fill(&mut bytes);
        bytes
    }
}

/// Milliseconds by the clock that nobody can set.
pub(crate) fn steady_ms() -> u64 {
    clock::monotonic_ms().unwrap_or_default()
}
