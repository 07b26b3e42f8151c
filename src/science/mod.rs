//! One file a method: numbers in, estimate out, every constant beside its source.
//!
//! Nothing here knows of entries, screens or files. An item that was not looked at, cannot be told
//! or is gone comes in as `None` and is no evidence; that something was looked for and is absent is a
//! value of its own. What a method cannot answer it refuses with a typed reason. All maths beyond the
//! exact operations goes through `libm`, so that phone and office print the same digits.

pub mod age;
pub mod calipers;
pub mod cause;
pub mod cementum;
pub mod condition;
pub mod fat;
pub mod chi_square;
pub mod diet;
pub mod death;
pub mod fisher;
pub mod marrow;
pub mod place;
pub mod predators;
pub mod reader_record;
pub mod reserve;
pub mod scope;
pub mod season;
pub mod sex;
pub mod size;
pub mod skeleton;
pub mod snow;
pub mod source;
pub mod special;
pub mod sun;
pub mod unborn;
pub mod wind_chill;
pub mod winter;

/// Version of all methods together. Raised whenever any result can change for the same findings.
pub const VERSION: &str = "3";
