//! Where the journal, photos and settings live.
