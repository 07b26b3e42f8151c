//! The office's command line, and the build's last step.

pub mod stamp;
