//! The office's command line.
