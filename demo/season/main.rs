//! Makes the invented season: `demo-season [FOLDER]`, by default `demo/out/season`. What lay there before is replaced.
//!
//! Everything in it is invented: the reserve, its crews, every deer. It is for looking at, never for checking a figure.

mod make;

use std::path::PathBuf;

fn main() -> std::process::ExitCode {
    let folder = std::env::args_os().nth(1).map_or_else(|| PathBuf::from("demo/out/season"), PathBuf::from);
    match make::season(&folder) {
        Ok(made) => {
            println!("{made} carcasses of an invented winter in {}", folder.display());
            std::process::ExitCode::SUCCESS
        }
        Err(error) => {
            eprintln!("demo-season: {}: {error}", folder.display());
            std::process::ExitCode::FAILURE
        }
    }
}
