//! A file as an endless row of QR frames, and back: phone to phone where there is no signal.
//!
//! The file is cut into `n` symbols of equal size. Frame `i` below `n` carries symbol `i`; every later frame carries
//! the exclusive or of symbols drawn by its own number, about half of them: the random linear fountain (MacKay 2005,
//! "Fountain codes", IEE Proc. Commun. 152(6):1062, section 3). Any `n` frames and about two more give the file back,
//! whichever they are and in whatever order they come; `e` more fail with a chance below 2^-e.
//!
//! Nothing here knows what the file is, and nothing is believed of it but its bytes: a frame that was damaged, that
//! is another code or belongs to another file does no harm, and what is put together is given out only where it has
//! the digest that every frame names.

pub mod frame;
pub mod gather;
mod mix;
pub mod paint;
pub mod read;
pub mod spread;

pub use frame::{Frame, NotOurs};
pub use gather::{Gather, Taken};
pub use spread::{Spread, TooLarge};

/// Bytes of a symbol. With header and check a frame fills a QR code of version 12 at level L (65 modules a side,
/// 367 bytes; ISO/IEC 18004 table 7): a code that fills the screen of a phone and is read at arm's length.
pub const SYMBOL_BYTES: usize = 340;

/// The most that is sent or taken, in bytes. At seven frames a second that is seven minutes without a miss.
pub const MOST_BYTES: usize = 1_000_000;
