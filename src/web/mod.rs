//! The crew's form and the office's page.
