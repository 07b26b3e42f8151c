//! The office's command line: arguments, then a checked configuration, then one command.
//!
//! Exit codes, for all commands:
//!
//! | code | meaning |
//! |---|---|
//! | 0 | done; for `open`: every file intact and enrolled |
//! | 1 | could not be done (a file could not be read, a comparison failed) |
//! | 2 | the arguments were not understood |
//! | 3 | `open`, `read`, `season`, `export`: at least one file from a device that is not enrolled |
//! | 4 | `open`, `read`, `season`, `export`: at least one file damaged or altered |
//! | 5 | `open`, `read`, `season`, `export`: at least one file made by a newer version |
//!
//! With several files the worst decides: 4 before 1 before 5 before 3.

mod args;
mod calls;
mod card;
mod config;
mod decide;
mod diet;
mod enrol;
mod error;
mod exit;
mod export;
mod findings_schema;
mod gather;
mod handed_in;
mod in_between;
mod input;
mod key;
mod lab;
mod lab_parcels;
mod labels;
mod open;
mod paper;
mod phones;
mod read;
mod reader;
mod reader_table;
mod report;
mod retire;
mod schema;
mod season;
mod sketch;
pub mod stamp;
mod streams;
mod winter;
mod table;

use std::ffi::OsString;

pub use exit::Exit;
pub use streams::Streams;

use config::Config;

/// Runs the program on the process's own streams; the exit code.
pub fn run(args: impl IntoIterator<Item = OsString>) -> i32 {
    run_with(args, &mut Streams::of_process())
}

/// Runs the program on given streams; the exit code.
pub fn run_with(args: impl IntoIterator<Item = OsString>, streams: &mut Streams<'_>) -> i32 {
    let config = match Config::from_args(args) {
        Ok(config) => config,
        Err(refusal) => return streams.refuse(&refusal).code(),
    };
    let done = match config {
        Config::Open(config) => open::run(&config, streams),
        Config::Enrol(config) => enrol::run(&config, streams),
        Config::Read(config) => read::run(&config, streams),
        Config::Diet(config) => diet::run(&config, streams),
        Config::Paper(config) => paper::run(&config, streams),
        Config::Phones(config) => phones::run(&config, streams),
        Config::Retire(config) => retire::run(&config, streams),
        Config::Key(config) => key::run(&config, streams),
        Config::Card(config) => card::run(&config, streams),
        Config::Winter(config) => winter::run(&config, streams),
        Config::Season(config) => season::run(&config, streams),
        Config::Report(config) => report::run(&config, streams),
        Config::Labels(config) => labels::run(&config, streams),
        Config::Sketch(config) => sketch::run(&config, streams),
        Config::Export(config) => export::run(&config, streams),
        Config::Decide(config) => decide::run(&config, streams),
        Config::Table(config) => table::run(&config, streams),
        Config::Calls(config) => calls::run(&config, streams),
        Config::Parcels(config) => lab_parcels::run(&config, streams),
        Config::Lab(config) => lab::run(*config, streams),
        Config::Reader(config) => reader::run(&config, streams),
        Config::Schema(name) => schema::run(name, streams),
    };
    match done {
        Ok(exit) => exit.code(),
        Err(error) => streams.fail(&error).code(),
    }
}
